"""The yield modes derived afresh: a rigid-plastic dowel as a linear programme.

No closed form is used. The dowel is cut into short pieces; each piece is pressed by its
member with at most f_h d per mm either way, its bending moment stays within M_y, and the
force that crosses the interface is made as large as these limits and equilibrium allow
(lower-bound theorem; at the optimum it equals the upper bound by duality). The code's
factors 1.05 and 1.15 on the modes with hinges are taken out before comparing, and its 0.4 for
the thin plate is compared with sqrt(2) - 1.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import linprog

from shelfload.solve import connection, connection_steel, nds

PIECES = 120  # in each member
# Moments are limited at the cuts only and a piece's pressure is even. Over 40 random joints
# the largest difference was 0.46, 0.061, 0.047, 0.006 % with 30, 60, 120, 240 pieces.
TOLERANCE = 1e-3

SINGLE_FACTORS = np.array([1, 1, 1, 1.05, 1.05, 1.15])
DOUBLE_FACTORS = np.array([1, 1, 1.05, 1.15])


def moment_rows(lengths):
    """Matrix from the pieces' pressures to shear and moment at their far cuts."""
    n = len(lengths)
    shear = np.tril(np.ones((n, n))) * lengths
    ends = np.cumsum(lengths)
    centres = ends - lengths / 2
    moment = np.tril(ends[:, None] - centres[None, :]) * lengths
    return shear, moment


def largest_shear(strengths, lengths, M_y, at_interface, free_end=True, end_moment=None):
    """Largest shear force at a cut of a dowel that starts free, by linear programming."""
    shear, moment = moment_rows(lengths)
    A_eq, b_eq = [], []
    if free_end:
        A_eq += [shear[-1], moment[-1]]
        b_eq += [0.0, 0.0]
    elif end_moment is not None:
        A_eq += [moment[-1]]
        b_eq += [end_moment]
    force_scale, moment_scale = strengths.max() * lengths.sum(), M_y
    answer = linprog(
        -shear[at_interface] / force_scale,
        A_ub=np.vstack([moment, -moment]) / moment_scale,
        b_ub=np.ones(2 * len(lengths)),
        A_eq=np.array(A_eq) / moment_scale if A_eq else None,
        b_eq=np.array(b_eq) / moment_scale if b_eq else None,
        bounds=np.column_stack([-strengths, strengths]),
        method="highs",
    )
    assert answer.status == 0, answer.message
    return -answer.fun * force_scale


def in_two_members(f_h_1, f_h_2, t_1, t_2, d, M_y):
    lengths = np.concatenate([np.full(PIECES, t_1 / PIECES), np.full(PIECES, t_2 / PIECES)])
    strengths = np.concatenate([np.full(PIECES, f_h_1 * d), np.full(PIECES, f_h_2 * d)])
    return largest_shear(strengths, lengths, M_y, PIECES - 1)


def in_three_members(f_h_1, f_h_2, t_1, t_2, d, M_y):
    """One half of the symmetric joint: no shear at the middle of the middle member."""
    lengths = np.concatenate([np.full(PIECES, t_1 / PIECES), np.full(PIECES, t_2 / 2 / PIECES)])
    strengths = np.concatenate([np.full(PIECES, f_h_1 * d), np.full(PIECES, f_h_2 * d)])
    shear, moment = moment_rows(lengths)
    scale = strengths.max() * lengths.sum()
    answer = linprog(
        -shear[PIECES - 1] / scale,
        A_ub=np.vstack([moment, -moment]) / M_y,
        b_ub=np.ones(4 * PIECES),
        A_eq=shear[-1:] / scale,
        b_eq=[0.0],
        bounds=np.column_stack([-strengths, strengths]),
        method="highs",
    )
    assert answer.status == 0, answer.message
    return -answer.fun * scale


def at_a_plate(f_h, t, d, M_y, thick):
    lengths = np.full(2 * PIECES, t / (2 * PIECES))
    strengths = np.full(2 * PIECES, f_h * d)
    return largest_shear(
        strengths,
        lengths,
        M_y,
        2 * PIECES - 1,
        free_end=False,
        end_moment=None if thick else 0.0,
    )


def random_joints(count, seed):
    rng = np.random.default_rng(seed)
    d = rng.uniform(2, 10, count)
    return {
        "f_h_1": rng.uniform(8, 90, count),
        "f_h_2": rng.uniform(8, 90, count),
        "t_1": d * np.exp(rng.uniform(np.log(1), np.log(12), count)),
        "t_2": d * np.exp(rng.uniform(np.log(1), np.log(12), count)),
        "d": d,
        "M_y_Rk": 0.3 * rng.uniform(300, 1000, count) * d**2.6,
    }


def test_single_shear_random():
    joints = random_joints(60, seed=8_2_2)
    modes = connection.single_shear(**joints) / SINGLE_FACTORS
    least, letter = connection.governing(modes, connection.SINGLE_SHEAR_MODES)
    assert set(letter) == set("abcdef")  # each mode governs somewhere in the sample
    derived = [in_two_members(*joint) for joint in zip(*joints.values(), strict=True)]
    assert derived == pytest.approx(least, rel=TOLERANCE)


def test_double_shear_random():
    joints = random_joints(40, seed=8_7)
    modes = connection.double_shear(**joints) / DOUBLE_FACTORS
    least, letter = connection.governing(modes, connection.DOUBLE_SHEAR_MODES)
    assert set(letter) == set("ghjk")
    derived = [in_three_members(*joint) for joint in zip(*joints.values(), strict=True)]
    assert derived == pytest.approx(least, rel=TOLERANCE)


@pytest.mark.parametrize("thick", [False, True])
def test_steel_plate_random(thick):
    joints = random_joints(30, seed=8_2_3)
    f_h, t, d, M_y = (joints[key] for key in ("f_h_1", "t_1", "d", "M_y_Rk"))
    if thick:
        factors, letters = np.array([1, 1.15, 1]), connection_steel.THICK_PLATE_MODES
        modes = connection_steel.thick_plate(f_h, t, d, M_y) / factors
    else:
        factors = np.array([0.4 / (np.sqrt(2) - 1), 1.15])
        modes = connection_steel.thin_plate(f_h, t, d, M_y) / factors
        letters = connection_steel.THIN_PLATE_MODES
    least, letter = connection.governing(modes, letters)
    assert set(letter) == set(letters)
    derived = [at_a_plate(*joint, thick) for joint in zip(f_h, t, d, M_y, strict=True)]
    assert derived == pytest.approx(least, rel=TOLERANCE)


def test_the_american_modes_are_the_same_theory():
    # plastic moment of a round dowel F_yb D^3 / 6; no factors, no reduction
    joints = random_joints(200, seed=12_3)
    D, M_y = joints["d"], joints["M_y_Rk"]
    american = nds.single_shear_allowable(
        F_em=joints["f_h_2"],
        F_es=joints["f_h_1"],
        l_m=joints["t_2"],
        l_s=joints["t_1"],
        D=D,
        F_yb=6 * M_y / D**3,
        R_d=1.0,
    )
    european = connection.single_shear(**joints) / SINGLE_FACTORS
    # Im, Is, II, IIIm, IIIs, IV are b, a, c, e, d, f
    assert american == pytest.approx(european[:, [1, 0, 2, 4, 3, 5]], rel=1e-9)
