"""Beams against other programs of the same theory.

pycba is a general-purpose continuous beam analysis by direct stiffness, Euler-Bernoulli and
Timoshenko; PyNiteFEA is a general-purpose frame analysis, Euler-Bernoulli. Both are exact for
these loads at their nodes, so what is compared there must agree to rounding.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pycba
import pytest
from Pynite import FEModel3D

from shelfload.solve.beam import Beam, Loads, solve

SEEDS = range(12)


def draw(seed, shear):
    rng = np.random.default_rng(seed)
    n = int(rng.integers(2, 6))
    gaps = rng.uniform(200, 1200, n + 1)
    gaps[0] *= rng.integers(0, 2)
    gaps[-1] *= rng.integers(0, 2)
    at = np.cumsum(gaps)[:-1]
    k = np.where(rng.random(n) < 0.3, rng.uniform(20, 2000, n), np.inf)
    turn = np.where(rng.random(n) < 0.2, np.inf, 0.0)
    turn = np.where(rng.random(n) < 0.2, rng.uniform(1e5, 1e8, n), turn)
    beam = Beam(
        length=gaps.sum(),
        support_at=at,
        EI=rng.uniform(2e8, 5e9),
        GA=rng.uniform(1e4, 1e6) if shear else np.inf,
        support_stiffness=k,
        turn_stiffness=turn,
    )
    # Nodes at supports, ends and, to compare sag there too, somewhere between them; loads
    # inside single members, since that is how the other programs take them
    marks = np.unique(np.concatenate([[0.0], at, [beam.length]]))
    marks = np.sort(np.concatenate([marks, marks[:-1] + rng.uniform(0.2, 0.8) * np.diff(marks)]))
    patches, points = [], []
    for start, end in pairwise(marks):
        a, b, c = start + np.sort(rng.random(3)) * (end - start)
        patches.append([0, a, c, *rng.uniform(-1, 2, 2)])
        points.append([0, b, rng.uniform(-100, 300)])
    return beam, marks, Loads(1, np.array(patches), np.array(points))


def support_pairs(beam, marks):
    """Stiffness against sag and rotation at each node, 0 = free, inf = fixed."""
    pairs = np.zeros((marks.size, 2))
    where = np.searchsorted(marks, beam.support_at)
    pairs[where, 0] = beam.support_stiffness
    pairs[where, 1] = beam.turn_stiffness
    return pairs


def by_pycba(beam, marks, loads):
    restraints = support_pairs(beam, marks)
    restraints[np.isinf(restraints)] = -1
    matrix = []
    for i, ((_, a, c, p, q), (_, at, force)) in enumerate(
        zip(loads.patches, loads.points, strict=True)
    ):
        matrix.append([i + 1, 5, p, q, a - marks[i], c - a])
        matrix.append([i + 1, 2, force, at - marks[i]])
    members = marks.size - 1
    analysis = pycba.BeamAnalysis(
        np.diff(marks),
        np.full(members, float(beam.EI)),
        restraints.ravel(),
        matrix,
        GAv=[None if np.isinf(beam.GA) else float(beam.GA)] * members,
    )
    analysis.analyze(npts=400)
    return analysis.beam_results


@pytest.mark.parametrize("shear", [False, True], ids=["thin", "shears"])
@pytest.mark.parametrize("seed", SEEDS)
def test_any_beam_against_pycba(seed, shear):
    beam, marks, loads = draw(seed, shear)
    theirs = by_pycba(beam, marks, loads)
    ours = solve(beam, loads)
    scale = np.abs(ours.curves).max(axis=(1, 2, 3))
    for (start, end), result in zip(pairwise(marks), theirs.vRes, strict=True):
        # The first and the last two stations close its diagrams and repeat the ends
        station = slice(2, -2)
        x = result.x[station]
        smooth = np.abs(x[:, None] - ours.edges).min(axis=1) > 1e-6 * (end - start)
        w, M, V = (curve[0, smooth] for curve in ours.at(x))
        assert M == pytest.approx(result.M[station][smooth], abs=1e-8 * scale[1])
        assert V == pytest.approx(result.V[station][smooth], abs=1e-8 * scale[2])
        # Between its nodes it integrates by the trapezoidal rule over 400 stations
        assert w == pytest.approx(-result.D[station][smooth], abs=1e-3 * scale[0])
        assert ours.at(start)[0][0, 0] == pytest.approx(-result.D[1], abs=1e-8 * scale[0])


@pytest.mark.parametrize("seed", SEEDS)
def test_any_thin_beam_against_pynite(seed):
    beam, marks, loads = draw(seed, shear=False)
    E = 1.0e4
    model = FEModel3D()
    model.add_material("wood", E, E / 2.6, 0.3, 1e-9)
    model.add_section("strip", 1e4, 1e6, float(beam.EI) / E, 1e6)
    pairs = support_pairs(beam, marks)
    for i, x in enumerate(marks):
        model.add_node(f"N{i}", x, 0, 0)
        model.def_support(
            f"N{i}",
            support_DX=i == 0,
            support_DY=bool(np.isinf(pairs[i, 0])),
            support_DZ=True,
            support_RX=True,
            support_RY=True,
            support_RZ=bool(np.isinf(pairs[i, 1])),
        )
        for freedom, k in zip(("DY", "RZ"), pairs[i], strict=True):
            if 0 < k < np.inf:
                model.def_support_spring(f"N{i}", freedom, k)
    for i in range(marks.size - 1):
        model.add_member(f"M{i}", f"N{i}", f"N{i + 1}", "wood", "strip")
        _, a, c, p, q = loads.patches[i]
        model.add_member_dist_load(f"M{i}", "Fy", -p, -q, a - marks[i], c - marks[i])
        _, at, force = loads.points[i]
        model.add_member_pt_load(f"M{i}", "Fy", -force, at - marks[i])
    model.analyze(check_statics=False)
    ours = solve(beam, loads)
    scale = np.abs(ours.curves).max(axis=(1, 2, 3))
    sag = [-model.nodes[f"N{i}"].DY["Combo 1"] for i in range(marks.size)]
    assert ours.at(marks)[0][0] == pytest.approx(sag, abs=1e-8 * scale[0])
    for i, x in enumerate(beam.support_at):
        node = model.nodes[f"N{np.searchsorted(marks, x)}"]
        assert ours.support_rotation[0, i] == pytest.approx(
            -node.RZ["Combo 1"], abs=1e-8 * scale[0]
        )
        if np.isinf(beam.support_stiffness[i]):
            assert ours.reactions[0, i] == pytest.approx(node.RxnFY["Combo 1"], abs=1e-8 * scale[2])
        if np.isinf(beam.turn_stiffness[i]):
            assert ours.support_moments[0, i] == pytest.approx(
                -node.RxnMZ["Combo 1"], abs=1e-8 * scale[1]
            )
