"""What one fastener holds in a join, on each basis, for whole tables of fasteners at once.

EC5: characteristic resistances, to be held against factored loads. Wood Handbook: working
loads, a stated share of mean loads, to be held against loads as they are. A place without a
rule is nan on that basis, and a join never takes its figure from both for one question.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shelfload.check.screw_stack import Lie
from shelfload.check.screw_table import Columns
from shelfload.idealise.joint import Joint, Member
from shelfload.idealise.properties import strength
from shelfload.solve import connection, connection_steel, embedment, fastener, withdrawal
from shelfload.solve import wood_handbook as handbook
from shelfload.solve import wood_handbook_lateral as sideways
from shelfload.solve.spacing import PENETRATION, SCREW_MEMBER_THICKNESS

Array = NDArray[np.float64]

EC5_PANELS = ("plywood", "particleboard", "osb", "hardboard")
TIMBER = ("solid", "glulam")
END_GRAIN_SHARE = 1.0 / 3.0
END_GRAIN_PENETRATION = 10.0
"""Sideways load on end grain: a third, from 10 d in, EN 1995-1-1:2004, 8.3.1.2(4) (memory)."""
PLYWOOD_SHARE = 0.5
"""Of the handbook's withdrawal formula, which over-predicts in plywood (judgement, no source)."""
PERMANENT_SHARE = 0.9
"""NDS load duration factor of loads that stay (from memory); stored contents count as such."""
REDRIVEN_WITHDRAWAL = 0.5
REDRIVEN_LATERAL = 0.75
"""What worn threads keep after a few rounds (common practice, no source)."""
WASHER = 3.0  # diameters wide, EN 1995-1-1:2004, 10.4.3(2)
HOLE_PLAY = 1.0  # of a bolt's hole [mm], EN 1995-1-1:2004, 10.4.3(1)
POINT = 1.0  # of the screw's point without full thread, in diameters (common practice)
THIN_HEAD_PANEL = 12.0
THIN_HEAD_LIMIT = 400.0
"""No more than 400 N under a head on less than 12 mm of panel, DIN 1052:2008 (from memory)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Resistance:
    """Of one fastener, arrays of joints x fasteners [N]; nan where there is no rule.

    Attributes
    ----------
    lateral_k, thread_k, head_k : ndarray
        Characteristic by EN 1995-1-1: sideways, thread pulled out, head pulled through.
    lateral_w, thread_w : ndarray
        Working loads by the Wood Handbook.
    mode : ndarray of str
        Failure mode of ``lateral_k``.
    d_ef : ndarray
        Diameter counted sideways [mm].
    """

    lateral_k: Array
    thread_k: Array
    head_k: Array
    lateral_w: Array
    thread_w: Array
    mode: NDArray[np.str_]
    d_ef: Array


def resistance(joints: Sequence[Joint], screws: Columns, lies: Lie) -> Resistance:
    """Return what one of each fastener holds in each joint."""
    worn = np.array([[joint.redriven] for joint in joints]) & screws.is_screw
    d_ef = np.where(
        screws.is_bolt,
        screws.d,
        _screw_diameter(screws, lies),
    )
    thread_k = _thread(joints, screws, lies)
    head_k = _head(joints, screws)
    lateral_k, mode = _lateral(joints, screws, lies, d_ef, np.minimum(thread_k, head_k))
    side_worn = np.where(worn, REDRIVEN_LATERAL, 1.0)
    pull_worn = np.where(worn, REDRIVEN_WITHDRAWAL, 1.0)
    return Resistance(
        lateral_k=lateral_k * side_worn,
        thread_k=thread_k * pull_worn,
        head_k=head_k,
        lateral_w=_lateral_handbook(joints, screws, lies) * side_worn,
        thread_w=_thread_handbook(joints, screws, lies) * pull_worn,
        mode=mode,
        d_ef=d_ef,
    )


def _screw_diameter(screws: Columns, lies: Lie) -> Array:
    """By 8.7.1(2)-(3), but the thread never counts for more than the shank it is rolled from."""
    shank = np.where(screws.thread_share >= 1.0, 0.0, screws.shank)
    d_ef = fastener.effective_diameter(shank, screws.root, lies.shank)
    return np.fmin(d_ef, screws.shank)


def _of(joints: Sequence[Joint], which: str, name: str) -> Array:
    return np.array([[getattr(getattr(joint, which), name)] for joint in joints], dtype=np.float64)


def _is(members: Sequence[Member], *kinds: str) -> NDArray[np.bool_]:
    return np.array([[member.material.kind in kinds] for member in members])


def _embedment(members: Sequence[Member], d: Array, bolts: NDArray[np.bool_]) -> Array:
    """Return f_h,k of each member under each fastener [MPa]; nan without a rule."""
    found = np.full(d.shape, np.nan)
    kinds = np.array([member.material.kind for member in members])
    rho = np.array([member.rho_k for member in members])[:, None]
    t = np.array([member.thickness for member in members])[:, None]
    for kind in dict.fromkeys(kinds.tolist()):
        here = kinds == kind
        thin, thick = embedment_of(kind, rho[here], t[here], d[here])
        found[here] = np.where(bolts[here], thick, thin)
    return found


def embedment_of(kind: str, rho: Array, t: Array, d: Array) -> tuple[Array | float, Array | float]:
    """Return f_h,k of one kind of material under thin screws and under bolts [MPa]."""
    if kind in TIMBER:
        # the angle of force to grain is not asked for: the weakest counts under bolts; a pilot
        # hole that was forgotten costs nothing under screws, counted as not predrilled
        across = embedment.embedment_at_angle(
            embedment.embedment_predrilled(rho, d), embedment.k_90(d, "softwood"), np.pi / 2
        )
        return embedment.embedment_not_predrilled(rho, d), across
    if kind == "plywood":
        return embedment.embedment_plywood(rho, d), embedment.embedment_plywood_bolt(rho, d)
    if kind in ("particleboard", "osb"):
        return (
            embedment.embedment_particleboard(d, t),
            embedment.embedment_particleboard_bolt(d, t),
        )
    if kind == "hardboard":
        return embedment.embedment_hardboard(d, t), np.nan
    return np.nan, np.nan


def _lateral(
    joints: Sequence[Joint], screws: Columns, lies: Lie, d_ef: Array, F_ax: Array
) -> tuple[Array, NDArray[np.str_]]:
    first, second = [joint.first for joint in joints], [joint.second for joint in joints]
    bolts = screws.is_bolt | fastener.acts_as_bolt(d_ef)
    f_h_1, f_h_2 = _embedment(first, d_ef, bolts), _embedment(second, d_ef, bolts)
    M_y = fastener.yield_moment(screws.f_u, d_ef)
    cap = np.where(screws.is_screw, connection.ROPE_CAP["screw"], 0.0)
    rope = np.where(np.isnan(F_ax), 0.0, F_ax)
    t_2 = np.where(lies.reach > 0.0, lies.reach, np.nan)
    wood = connection.single_shear(f_h_1, f_h_2, lies.t_1, t_2, d_ef, M_y, rope, cap)
    R, mode = connection.governing(wood, connection.SINGLE_SHEAR_MODES)
    steel = _is(first, "steel")
    if steel.any():
        # a thin plate is the weaker assumption for any plate
        plate = connection_steel.thin_plate(f_h_2, t_2, d_ef, M_y, rope, cap)
        R_plate, mode_plate = connection.governing(plate, "ab")
        R, mode = np.where(steel, R_plate, R), np.where(steel, mode_plate, mode)
    entered = np.array([[joint.second.entered] for joint in joints])
    timber = _is(second, *TIMBER)
    deep = lies.thread >= (PENETRATION["screw"] - 1e-9) * screws.d
    deep |= screws.is_bolt & ~lies.short
    wide = fastener.head_is_wide(screws.head, d_ef) | screws.is_bolt | steel
    in_panel_edge = (entered != "face") & ~timber
    end = (entered == "end grain") & timber
    indoors = np.array([[joint.service_class <= 2] for joint in joints])
    end_ok = indoors & (lies.reach >= END_GRAIN_PENETRATION * screws.d) & ~screws.is_bolt
    covered = deep & wide & ~in_panel_edge & (~end | end_ok) & ~screws.by_maker
    covered &= ~(screws.is_bolt & (entered != "face"))
    return np.where(covered, R * np.where(end, END_GRAIN_SHARE, 1.0), np.nan), mode


def _thread(joints: Sequence[Joint], screws: Columns, lies: Lie) -> Array:
    """Withdrawal by 8.7.2: screws from 6 mm in the side of timber; none for the rest."""
    second = [joint.second for joint in joints]
    side = np.array([[joint.second.entered != "end grain"] for joint in joints])
    rule = withdrawal.screw_formula_applies(screws.d, screws.root) & screws.is_screw
    thick_enough = _of(joints, "second", "thickness") >= SCREW_MEMBER_THICKNESS * screws.d
    rule = rule & _is(second, *TIMBER) & side & thick_enough
    l_ef = np.where(lies.thread > 0.0, lies.thread, np.nan)
    f_ax = withdrawal.screw_withdrawal_strength(screws.d, l_ef, _of(joints, "second", "rho_k"))
    held = np.where(rule, withdrawal.screw_withdrawal(f_ax, screws.d, l_ef, np.pi / 2), np.nan)
    # steel of a bolt in tension: EN 1993-1-8, Table 3.4 (from memory), on the core of its thread
    return np.where(screws.is_bolt, 0.9 * screws.f_u * np.pi / 4.0 * screws.root**2, held)


def _head(joints: Sequence[Joint], screws: Columns) -> Array:
    """Pull-through of the head: the nail formula stands in, as no maker's strength is given."""
    first = [joint.first for joint in joints]
    known = _is(first, *TIMBER, *EC5_PANELS)
    R = 70e-6 * _of(joints, "first", "rho_k") ** 2 * screws.head**2  # (8.26)
    thin = _of(joints, "first", "thickness") < THIN_HEAD_PANEL
    R = np.where(thin, np.minimum(R, THIN_HEAD_LIMIT), R)
    R = np.where(_is(first, "steel"), np.inf, np.where(known, R, np.nan))
    return np.where(screws.is_bolt, _washer(joints, screws), R)


def _washer(joints: Sequence[Joint], screws: Columns) -> Array:
    """Bearing under the washers of a bolt on the softer member, 8.5.2(2), at least 3 d wide."""
    f = [
        min(strength(member.material, "along").f_bearing for member in (joint.first, joint.second))
        for joint in joints
    ]
    wide = np.maximum(screws.head, WASHER * screws.d)
    area = np.pi / 4.0 * (wide**2 - (screws.d + HOLE_PLAY) ** 2)
    return np.array(f)[:, None] * 3.0 * area


def _lateral_handbook(joints: Sequence[Joint], screws: Columns, lies: Lie) -> Array:
    """A fifth of the mean lateral load of wood screws; wood and plywood only, side grain."""
    G = np.minimum(_of(joints, "first", "gravity"), _of(joints, "second", "gravity"))
    # whether a wood is a soft or a hard one is not tabled: the lower of the two counts
    K = np.fmin(
        sideways.lateral_coefficient(G, "wood screw", "softwood"),
        sideways.lateral_coefficient(G, "wood screw", "hardwood"),
    )
    share = sideways.penetration_share(lies.reach, screws.d)
    # thin first members: the handbook's factor for lag screws stands in for wood screws
    side = np.minimum(sideways.lag_side_member_factor(lies.t_1, screws.d), 1.0)
    # metric screws bend with their shank, which is thinner than that of a gauge screw
    mean = sideways.screw_lateral(K, screws.shank) * share * side
    wood = (*TIMBER, "plywood")
    first, second = [joint.first for joint in joints], [joint.second for joint in joints]
    face = np.array([[joint.second.entered == "face"] for joint in joints])
    edge_of_timber = np.array([[joint.second.entered == "edge"] for joint in joints])
    good = face | (edge_of_timber & _is(second, *TIMBER))
    good = good & _is(first, *wood) & _is(second, *wood) & screws.is_screw
    good &= np.array([[joint.service_class == 1] for joint in joints])
    working = mean * sideways.WORKING_SHARE * PERMANENT_SHARE
    return np.where(good, working, np.nan)


def _thread_handbook(joints: Sequence[Joint], screws: Columns, lies: Lie) -> Array:
    """A fifth of the mean withdrawal load; the point without full thread is left out."""
    second = [joint.second for joint in joints]
    G = _of(joints, "second", "gravity")
    L = np.maximum(lies.thread - POINT * screws.d, 0.0)
    edge = np.array([[joint.second.entered != "face"] for joint in joints])
    in_wood = handbook.wood_screw_withdrawal(G, screws.d, L)
    mean = np.select(
        [
            _is(second, *TIMBER) & ~_entered(joints, "end grain"),
            _is(second, "plywood") & ~edge,
            _is(second, "particleboard"),
        ],
        [
            in_wood,
            in_wood * PLYWOOD_SHARE,
            handbook.particleboard_withdrawal(G, screws.d, L, edge),
        ],
        default=np.nan,
    )
    good = screws.is_screw & (lies.reach >= (4.0 - 1e-9) * screws.d)
    good = good & np.array([[joint.service_class == 1] for joint in joints])
    return np.where(good, mean * handbook.WORKING_SHARE * PERMANENT_SHARE, np.nan)


def _entered(joints: Sequence[Joint], name: str) -> NDArray[np.bool_]:
    return np.array([[joint.second.entered == name] for joint in joints])
