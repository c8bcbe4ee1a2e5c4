"""Beams: equilibrium, superposition, symmetry, limits, envelopes, bad input.

Beams are drawn at random: one to five supports that may give or clamp, overhangs, part loads,
sloping loads, forces anywhere, with and without shear.
"""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from shelfload.errors import Mechanism
from shelfload.solve.beam import Beam, Loads, envelope, envelopes, reaction_range, solve
from shelfload.solve.polynomial import derivative, unit_roots, value

seeds = st.integers(0, 2**32 - 1)
several = settings(max_examples=60, deadline=None)


def draw_beam(rng, spring=True, supports=None):
    n = supports or rng.integers(1, 6)
    gaps = rng.uniform(0.3, 1.0, n + 1)
    gaps[[0, -1]] *= rng.integers(0, 2, 2)  # an overhang or none
    if gaps.sum() == 0.0:
        gaps[-1] = 1.0
    length = rng.uniform(500, 3000)
    at = np.cumsum(gaps)[:-1] / gaps.sum() * length
    k = np.full(n, np.inf)
    turn = np.where(rng.random(n) < 0.2, np.inf, 0.0)
    if spring:
        k = np.where(rng.random(n) < 0.3, 10 ** rng.uniform(1, 4, n), k)
        turn = np.where(rng.random(n) < 0.2, 10 ** rng.uniform(5, 8, n), turn)
    if n == 1:
        turn[:] = np.inf
    GA = rng.choice([np.inf, 10 ** rng.uniform(4, 7)])
    return Beam(
        length=length,
        support_at=at,
        EI=10 ** rng.uniform(8, 10),
        GA=GA,
        support_stiffness=k,
        turn_stiffness=turn,
    )


def draw_loads(rng, length, cases=1, positive=False):
    low = 0.0 if positive else -1.0
    starts = rng.uniform(0, 0.9, (cases, 2)) * length
    ends = starts + rng.uniform(0.02, 1.0, (cases, 2)) * (length - starts)
    case = np.arange(cases)[:, None]
    sloping = Loads.linear(
        case,
        starts,
        ends,
        rng.uniform(low, 1, (cases, 2)),
        rng.uniform(low, 1, (cases, 2)),
        cases=cases,
    )
    forces = rng.uniform(low, 1, (cases, 2)) * 200
    return sloping + Loads.point(case, rng.uniform(0, 1, (cases, 2)) * length, forces)


def shortest(beam):
    """The shortest span or overhang: stiffness is high or low compared with that one."""
    gaps = np.diff(np.concatenate([[0.0], beam.support_at, [beam.length]]))
    return gaps[gaps > 0].min()


def total_and_moment(loads, case=0):
    """Load and its moment about the left end, from the loads alone."""
    _, a, b, p, q = loads.patches[loads.patches[:, 0] == case].T
    _, x, force = loads.points[loads.points[:, 0] == case].T
    size = (p + q) / 2 * (b - a)
    moment = p * (b - a) * (a + b) / 2 + (q - p) * (b - a) / 2 * (a + 2 * b) / 3
    return size.sum() + force.sum(), moment.sum() + force @ x, np.abs(size).sum() + abs(force).sum()


@several
@given(seeds)
def test_reactions_balance_the_loads(seed):
    rng = np.random.default_rng(seed)
    beam = draw_beam(rng)
    loads = draw_loads(rng, beam.length)
    result = solve(beam, loads)
    total, moment, scale = total_and_moment(loads)
    tiny = 1e-9 * scale
    assert result.reactions.sum() == pytest.approx(total, abs=tiny)
    # Moments about the left end; a support moment that raises M turns as a force down does
    balance = result.reactions[0] @ beam.support_at - result.support_moments.sum()
    assert balance == pytest.approx(moment, abs=tiny * beam.length)


@several
@given(seeds)
def test_springs_follow_their_law(seed):
    rng = np.random.default_rng(seed)
    beam = draw_beam(rng)
    loads = draw_loads(rng, beam.length)
    result = solve(beam, loads)
    _, _, scale = total_and_moment(loads)
    k, turn = beam.support_stiffness, beam.turn_stiffness
    sag, rotation = result.support_sag[0], result.support_rotation[0]
    soft = np.isfinite(k)
    assert result.reactions[0][soft] == pytest.approx(k[soft] * sag[soft], abs=1e-8 * scale)
    assert (sag[~soft] == 0.0).all()
    turns = np.isfinite(turn)
    assert result.support_moments[0][turns] == pytest.approx(
        -turn[turns] * rotation[turns], abs=1e-8 * scale * beam.length
    )
    assert (rotation[~turns] == 0.0).all()


@several
@given(seeds)
def test_curves_obey_the_differential_equations(seed):
    # dM/dx = V, dV/dx = -q, and E I d2(w - shear)/dx2 = -M, by coefficients of each piece
    rng = np.random.default_rng(seed)
    beam = draw_beam(rng)
    loads = draw_loads(rng, beam.length)
    result = solve(beam, loads)
    h = np.diff(result.edges)[:, None]
    w, M, V = result.curves[:, 0]
    scale = np.abs(result.curves[:, 0]).max(axis=(1, 2))
    assert derivative(M) / h == pytest.approx(V, abs=1e-9 * scale[2])
    _, a, b, p, q = loads.patches.T[:, :, None]
    for t in (0.01, 0.5, 0.99):
        x = result.edges[:-1] + t * h[:, 0]
        load = np.where((x >= a) & (x <= b), p + (q - p) * (x - a) / (b - a), 0.0).sum(axis=0)
        assert -value(derivative(V), np.array(t)) / h[:, 0] == pytest.approx(load, abs=1e-9)
    bending = derivative(derivative(w - M / beam.GA)) / h**2
    assert -beam.EI * bending == pytest.approx(M, abs=1e-8 * max(scale[1], 1.0))


@several
@given(seeds)
def test_sag_and_moment_are_continuous_and_free_ends_carry_nothing(seed):
    rng = np.random.default_rng(seed)
    beam = draw_beam(rng)
    loads = draw_loads(rng, beam.length)
    result = solve(beam, loads)
    left, right = (result.at(result.edges[1:-1], left=side) for side in (True, False))
    scale = np.abs(result.curves).max(axis=(1, 2, 3))
    assert left[0] == pytest.approx(right[0], abs=1e-9 * scale[0])
    jumps = np.isin(result.edges[1:-1], beam.support_at[beam.turn_stiffness > 0])
    assert left[1][0, ~jumps] == pytest.approx(right[1][0, ~jumps], abs=1e-9 * scale[1])
    _, M, _ = result.at([0.0, beam.length])
    for end, place in ((0, 0.0), (1, beam.length)):
        if place not in beam.support_at[beam.turn_stiffness > 0]:
            assert M[0, end] == pytest.approx(0.0, abs=1e-9 * scale[1])


@several
@given(seeds)
def test_superposition(seed):
    rng = np.random.default_rng(seed)
    beam = draw_beam(rng)
    loads = draw_loads(rng, beam.length, cases=3)
    weights = rng.uniform(-2, 2, (2, 3))
    combined = solve(beam, loads).combine(weights)
    for i, row in enumerate(weights):
        case = loads.patches[:, 0].astype(int), loads.points[:, 0].astype(int)
        patches, points = loads.patches.copy(), loads.points.copy()
        patches[:, 3:] *= row[case[0], None]
        points[:, 2] *= row[case[1]]
        patches[:, 0] = points[:, 0] = 0
        direct = solve(beam, Loads(1, patches, points))
        scale = np.abs(combined.curves).max(axis=(1, 2, 3))
        x = np.linspace(0, beam.length, 37)
        for ours, theirs, size in zip(combined.at(x), direct.at(x), scale, strict=True):
            assert ours[i] == pytest.approx(theirs[0], abs=1e-9 * size)
        assert combined.reactions[i] == pytest.approx(direct.reactions[0], abs=1e-9 * scale[2])


@several
@given(seeds)
def test_mirror_image(seed):
    rng = np.random.default_rng(seed)
    beam = draw_beam(rng)
    loads = draw_loads(rng, beam.length)
    L = beam.length
    mirrored = Beam(
        length=L,
        support_at=(L - beam.support_at)[::-1],
        EI=beam.EI,
        GA=beam.GA,
        support_stiffness=beam.support_stiffness[::-1],
        turn_stiffness=beam.turn_stiffness[::-1],
    )
    patches = loads.patches[:, [0, 2, 1, 4, 3]] * 1.0
    patches[:, 1:3] = L - patches[:, 1:3]
    points = loads.points * 1.0
    points[:, 1] = L - points[:, 1]
    one, other = solve(beam, loads), solve(mirrored, Loads(1, patches, points))
    x = np.linspace(0, L, 41)[1:-1]
    for a, b, sign in zip(one.at(x), other.at(L - x), (1, 1, -1), strict=True):
        assert a == pytest.approx(sign * b, abs=1e-8 * max(np.abs(a).max(), 1e-6))
    assert one.support_moments == pytest.approx(
        -other.support_moments[:, ::-1], abs=1e-8 * np.abs(one.curves[1]).max()
    )
    most, least = one.extremes(), other.extremes()
    assert most.w_max == pytest.approx(least.w_max[:, ::-1], abs=1e-9 * np.abs(one.curves[0]).max())


@several
@given(seeds)
def test_maxwell_a_force_here_moves_there_what_one_there_moves_here(seed):
    rng = np.random.default_rng(seed)
    beam = draw_beam(rng)
    x = rng.uniform(0, beam.length, 4)
    sag, _, _ = solve(beam, Loads.point(np.arange(4), x, 1.0)).at(x)
    assert sag == pytest.approx(sag.T, abs=1e-10 * np.abs(sag).max())
    assert (np.linalg.eigvalsh(sag) > -1e-9 * np.abs(sag).max()).all()


@several
@given(seeds)
def test_shear_only_adds_sag_on_average(seed):
    # The work of a load on its own sag grows as the beam gets softer
    rng = np.random.default_rng(seed)
    beam = draw_beam(rng)
    stiff = Beam(
        length=beam.length,
        support_at=beam.support_at,
        EI=beam.EI,
        support_stiffness=beam.support_stiffness,
        turn_stiffness=beam.turn_stiffness,
    )
    x = rng.uniform(0, beam.length)
    loads = Loads.point(0, x, 1.0)
    assert solve(beam, loads).at(x)[0] >= solve(stiff, loads).at(x)[0] - 1e-12


@several
@given(seeds)
def test_without_shear_deflection_as_with_a_very_high_shear_stiffness(seed):
    rng = np.random.default_rng(seed)
    beam = draw_beam(rng)
    loads = draw_loads(rng, beam.length)
    thin, nearly = (
        solve(
            Beam(
                length=beam.length,
                support_at=beam.support_at,
                EI=beam.EI,
                GA=GA,
                support_stiffness=beam.support_stiffness,
                turn_stiffness=beam.turn_stiffness,
            ),
            loads,
        )
        for GA in (np.inf, 1e9 * 12 * float(beam.EI) / shortest(beam) ** 2)
    )
    scale = np.abs(thin.curves).max(axis=(1, 2, 3))[:, None, None, None]
    assert nearly.curves / scale == pytest.approx(thin.curves / scale, abs=1e-7)


@several
@given(seeds)
def test_rigid_supports_as_with_very_stiff_springs(seed):
    rng = np.random.default_rng(seed)
    beam = draw_beam(rng, spring=False)
    loads = draw_loads(rng, beam.length)
    sprung = Beam(
        length=beam.length,
        support_at=beam.support_at,
        EI=beam.EI,
        GA=beam.GA,
        support_stiffness=1e9 * float(beam.EI) / shortest(beam) ** 3,
        turn_stiffness=np.where(
            beam.turn_stiffness > 0, 1e9 * float(beam.EI) / shortest(beam), 0.0
        ),
    )
    x = np.linspace(0, beam.length, 23)
    rigid, nearly = solve(beam, loads), solve(sprung, loads)
    # The springs still give by their reaction over k, more at the end of a long lever
    give = np.abs(nearly.reactions).max() / sprung.support_stiffness[0]
    give *= 10 * beam.length / shortest(beam)
    for a, b, more in zip(rigid.at(x), nearly.at(x), (give, 0.0, 0.0), strict=True):
        assert a == pytest.approx(b, abs=1e-6 * np.abs(a).max() + more)


def test_units_do_not_matter():
    # The same beam in mm and N, and in inches and pounds
    mm, N = 25.4, 4.4482216152605
    beam = Beam(
        length=40 * mm, support_at=[2 * mm, 20 * mm, 36 * mm], EI=3e5 * N * mm**2, GA=9e3 * N
    )
    imperial = Beam(length=40, support_at=[2, 20, 36], EI=3e5, GA=9e3)
    metric = solve(beam, Loads.linear(0, 3 * mm, 39 * mm, 2 * N / mm, 5 * N / mm)).extremes()
    other = solve(imperial, Loads.linear(0, 3, 39, 2, 5)).extremes()
    assert metric.w_max == pytest.approx(other.w_max * mm, rel=1e-9)
    assert metric.M_min == pytest.approx(other.M_min * N * mm, rel=1e-9)
    assert metric.V_abs_max == pytest.approx(other.V_abs_max * N, rel=1e-9)


@several
@given(seeds)
def test_extremes_are_never_beaten_by_samples_and_lie_on_the_curve(seed):
    rng = np.random.default_rng(seed)
    beam = draw_beam(rng)
    result = solve(beam, draw_loads(rng, beam.length, cases=2))
    most = result.extremes()
    for s, (start, end) in enumerate(result.spans):
        x = np.linspace(start, end, 1001)
        for i, name in enumerate("wMV"):
            inside = [result.at(x[1:], left=True)[i], result.at(x[:-1])[i]]  # not past the ends
            values = np.concatenate(inside, axis=-1)
            slack = 1e-11 * np.abs(values).max()
            for end_of, sign in (("max", 1), ("min", -1)):
                best = getattr(most, f"{name}_{end_of}")[:, s]
                assert (sign * values <= sign * best[:, None] + slack).all()
                place = getattr(most, f"{name}_{end_of}_at")[:, s]
                there = [result.at(place, left=side)[i].diagonal() for side in (True, False)]
                miss = np.abs(np.array(there) - best).min(axis=0)
                assert (miss <= 1e-9 * np.abs(result.curves[i]).max()).all()


def brute_force(result, always, sometimes):
    patterns = np.array(list(product([0, 1], repeat=result.cases)))
    return result.combine(always + patterns * sometimes)


@several
@given(seeds)
def test_envelope_equals_the_worst_of_all_patterns(seed):
    rng = np.random.default_rng(seed)
    beam = draw_beam(rng)
    cases = int(rng.integers(1, 5))
    result = solve(beam, draw_loads(rng, beam.length, cases, positive=bool(rng.integers(2))))
    always, sometimes = rng.uniform(0, 1, cases), rng.uniform(-1, 2, cases)
    sometimes[rng.random(cases) < 0.2] = 0.0
    worst = envelope(result, always, sometimes)
    every = brute_force(result, always, sometimes)
    tried = every.extremes()
    scale = dict(zip("wMV", np.abs(every.curves).max(axis=(1, 2, 3)), strict=True))
    for name in ("w_max", "M_max", "V_max", "w_min", "M_min", "V_min"):
        best = getattr(tried, name)
        best = best.max(axis=0) if name.endswith("max") else best.min(axis=0)
        found = getattr(worst.extremes, name)
        assert found == pytest.approx(best, abs=1e-10 * scale[name[0]])
        for s, pattern in enumerate(worst.patterns[name]):
            own = result.combine((always + pattern * sometimes)[None]).extremes()
            assert getattr(own, name)[0, s] == pytest.approx(found[s], abs=1e-10 * scale[name[0]])
    tiny = 1e-10 * scale["V"]
    assert worst.reaction_max == pytest.approx(every.reactions.max(axis=0), abs=tiny)
    assert worst.reaction_min == pytest.approx(every.reactions.min(axis=0), abs=tiny)
    for i, pattern in enumerate(worst.reaction_min_pattern):
        own = (always + pattern * sometimes) @ result.reactions[:, i]
        assert own == pytest.approx(worst.reaction_min[i], abs=tiny)


@several
@given(seeds)
def test_more_load_never_shrinks_the_envelope(seed):
    rng = np.random.default_rng(seed)
    beam = draw_beam(rng)
    result = solve(beam, draw_loads(rng, beam.length, 3, positive=True))
    none, some, more = np.zeros(3), rng.uniform(0, 1, 3), rng.uniform(1, 2, 3)
    low, high = envelope(result, none, some).extremes, envelope(result, none, more).extremes
    assert (high.w_max >= low.w_max - 1e-12 * np.abs(result.curves[0]).max()).all()
    assert (high.M_abs_max >= low.M_abs_max - 1e-12 * np.abs(result.curves[1]).max()).all()


def test_many_beams_at_once_are_as_each_alone():
    rng = np.random.default_rng(7)
    EI, GA = rng.uniform(1e8, 1e10, (4, 5)), rng.uniform(1e4, 1e7, (4, 5))
    k = rng.uniform(10, 1000, (4, 5, 3))
    k[..., 0] = np.inf
    k[1, 1] = np.inf
    turn = np.zeros((5, 3))
    turn[2, 0] = np.inf
    shape = {"length": 1700.0, "support_at": [0.0, 700.0, 1500.0]}
    loads = draw_loads(rng, 1700.0, cases=2)
    many = solve(Beam(**shape, EI=EI, GA=GA, support_stiffness=k, turn_stiffness=turn), loads)
    most = many.extremes()
    assert most.w_max.shape == (4, 5, 2, 3)
    for i, j in np.ndindex(4, 5):
        alone = Beam(
            **shape, EI=EI[i, j], GA=GA[i, j], support_stiffness=k[i, j], turn_stiffness=turn[j]
        )
        one = solve(alone, loads)
        assert many.reactions[i, j] == pytest.approx(one.reactions, rel=1e-9, abs=1e-9)
        assert most.w_max[i, j] == pytest.approx(one.extremes().w_max, rel=1e-9, abs=1e-12)
        sag = many.at([300.0, 1600.0])[0][i, j]
        assert sag == pytest.approx(one.at([300.0, 1600.0])[0], rel=1e-9, abs=1e-12)
    weighted = many.combine(rng.uniform(0, 1, (4, 5, 3, 2)))
    assert weighted.reactions.shape == (4, 5, 3, 3)


@pytest.mark.parametrize("supports", [[0.0], [200.0], [0.0, 500.0]])
def test_leading_axes_of_different_shapes_broadcast(supports):
    rng = np.random.default_rng(11)
    EI, GA = rng.uniform(1e8, 1e9, (3, 1)), rng.uniform(1e4, 1e6, 2)
    turn = rng.uniform(1e6, 1e8, (2, 1))
    shape = {"length": 900.0, "support_at": supports}
    loads = draw_loads(rng, 900.0, cases=2)
    for chosen in (
        {"EI": EI, "GA": GA, "turn_stiffness": turn},
        {"EI": 1e9, "turn_stiffness": turn},
    ):
        many = solve(Beam(**shape, **chosen), loads)
        lead = np.broadcast_shapes(np.shape(chosen["EI"]), (2,))
        assert many.reactions.shape == (*lead, 2, len(supports))
        for index in np.ndindex(lead):
            alone = Beam(
                **shape,
                EI=np.broadcast_to(chosen["EI"], lead)[index],
                GA=np.broadcast_to(chosen.get("GA", np.inf), lead)[index],
                turn_stiffness=turn[index[-1]],
            )
            one = solve(alone, loads)
            assert many.curves[(slice(None), *index)] == pytest.approx(
                one.curves, rel=1e-9, abs=1e-9
            )


def test_many_lengths_with_the_length_as_unit():
    L = np.array([400.0, 800.0, 1300.0])
    EI, GA, w = 2e9, 3e5, 0.4
    unit = Beam(length=1.0, support_at=[0.0, 0.6, 1.0], EI=EI / L**2, GA=GA)
    many = solve(unit, Loads.uniform(0, 0.0, 1.0, 1.0)).combine((w * L)[:, None, None]).extremes()
    for i, length in enumerate(L):
        beam = Beam(length=length, support_at=[0.0, 0.6 * length, length], EI=EI, GA=GA)
        alone = solve(beam, Loads.uniform(0, 0.0, length, w)).extremes()
        assert many.w_max[i] * length == pytest.approx(alone.w_max, rel=1e-9, abs=1e-12)
        assert many.M_min[i] * length == pytest.approx(alone.M_min, rel=1e-9, abs=1e-9)


def test_a_very_close_pair_of_supports_acts_as_a_clamp():
    # 1 mm apart under the end of a 900 mm cantilever: its own turning is L / 3 long
    beam = Beam(length=900.0, support_at=[0.0, 1.0], EI=2e9)
    tip = solve(beam, Loads.point(0, 900.0, 10.0)).at(900.0)[0][0, 0]
    exact = 10.0 * 899.0**2 * 900.0 / (3 * 2e9)  # standard overhang formula, from memory
    assert tip == pytest.approx(exact, rel=1e-9)


def test_a_load_edge_a_hair_from_a_support_does_no_harm():
    beam = Beam(length=900.0, support_at=[0.0, 300.0, 900.0], EI=2e9, GA=1e5)
    near = solve(beam, Loads.uniform(0, 0.0, 300.0 + 1e-10, 1.0) + Loads.point(0, 300 - 1e-10, 5.0))
    on = solve(beam, Loads.uniform(0, 0.0, 300.0, 1.0) + Loads.point(0, 300.0, 5.0))
    assert near.reactions == pytest.approx(on.reactions, rel=1e-9)
    assert near.extremes().w_max == pytest.approx(on.extremes().w_max, rel=1e-9)


def test_a_load_over_a_support_bends_nothing():
    beam = Beam(length=900.0, support_at=[0.0, 300.0, 900.0], EI=2e9)
    result = solve(beam, Loads.point([0, 1, 2], [0.0, 300.0, 900.0], 7.0))
    assert result.reactions == pytest.approx(7.0 * np.eye(3), abs=1e-12)
    assert np.abs(result.curves).max() == 0.0


def test_segments():
    beam = Beam(length=1000.0, support_at=[100.0, 600.0], EI=1e9)
    result = solve(beam, Loads.uniform(0, 0.0, 1000.0, 1.0))
    assert result.spans.tolist() == [[0.0, 100.0], [100.0, 600.0], [600.0, 1000.0]]
    assert result.is_overhang.tolist() == [True, False, True]


def test_a_support_that_only_turns_is_no_support():
    loads = Loads.uniform(0, 0.0, 900.0, 1.0)
    ends = {"length": 900.0, "EI": 2e9}
    plain = solve(Beam(support_at=[0.0, 900.0], **ends), loads)
    idle = solve(
        Beam(support_at=[0.0, 400.0, 900.0], support_stiffness=[np.inf, 0.0, np.inf], **ends), loads
    )
    assert idle.reactions[0] == pytest.approx([450.0, 0.0, 450.0], rel=1e-12)
    assert idle.extremes().w_max.max() == pytest.approx(plain.extremes().w_max.max(), rel=1e-12)


@pytest.mark.parametrize(
    ("supports", "told"),
    [
        ({"support_at": [400.0]}, "falls over"),
        ({"support_at": [0.0, 900.0], "support_stiffness": [np.inf, 0.0]}, "falls over"),
        ({"support_at": [0.0, 900.0], "support_stiffness": 0.0}, "not held up"),
        (
            {"support_at": [0.0], "support_stiffness": 0.0, "turn_stiffness": np.inf},
            "not held up",
        ),
        ({"support_at": []}, "not held up"),
    ],
)
def test_a_beam_free_to_move_is_a_mechanism(supports, told):
    with pytest.raises(Mechanism, match=told):
        solve(Beam(length=900.0, EI=1e9, **supports), Loads.point(0, 100.0, 1.0))


GOOD = {"length": 900.0, "support_at": [0.0, 900.0], "EI": 1e9, "GA": 1e5}


@pytest.mark.parametrize(
    ("name", "bad"),
    [
        ("length", 0.0),
        ("length", np.nan),
        ("length", np.inf),
        ("support_at", [0.0, 901.0]),
        ("support_at", [900.0, 0.0]),
        ("support_at", [0.0, 0.0]),
        ("support_at", [0.0, np.nan]),
        ("EI", 0.0),
        ("EI", np.inf),
        ("EI", np.nan),
        ("GA", 0.0),
        ("GA", np.nan),
        ("support_stiffness", -1.0),
        ("support_stiffness", [1.0, np.nan]),
        ("support_stiffness", [1.0, 1.0, 1.0]),
        ("turn_stiffness", -1.0),
    ],
)
def test_a_bad_beam_is_refused_by_the_name_of_the_argument(name, bad):
    with pytest.raises(ValueError, match=f"^{name}: "):
        Beam(**GOOD | {name: bad})


@pytest.mark.parametrize(
    ("make", "name"),
    [
        (lambda: Loads.uniform(0, 0.0, 901.0, 1.0), "patches: end"),
        (lambda: Loads.uniform(0, -1.0, 100.0, 1.0), "patches: start"),
        (lambda: Loads.point(0, 950.0, 1.0), "points: place"),
        (lambda: Loads.uniform(0, 100.0, 100.0, 1.0), "patches: start"),
        (lambda: Loads.uniform(0, 0.0, 100.0, np.nan), "patches"),
        (lambda: Loads.point(0, 0.0, np.inf), "points"),
        (lambda: Loads.point(0.5, 0.0, 1.0), "points: case"),
        (lambda: Loads.point(3, 0.0, 1.0, cases=2), "points: case"),
        (lambda: Loads.of(cases=0), "cases"),
    ],
)
def test_a_bad_load_is_refused_by_name(make, name):
    with pytest.raises(ValueError, match=f"^{name}"):
        solve(Beam(**GOOD), make())


def test_bad_questions_are_refused_by_name():
    result = solve(Beam(**GOOD), Loads.point([0, 1], 100.0, 1.0))
    with pytest.raises(ValueError, match=r"^x: "):
        result.at(901.0)
    with pytest.raises(ValueError, match=r"^weights: "):
        result.combine([1.0, 1.0])
    with pytest.raises(ValueError, match=r"^sometimes: "):
        envelope(result, [0.0, 0.0], [1.0])
    with pytest.raises(ValueError, match=r"^always: "):
        envelope(result, [0.0, np.nan], [1.0, 1.0])
    many = solve(Beam(**GOOD | {"EI": [1e9, 2e9]}), Loads.point([0, 1], 100.0, 1.0))
    with pytest.raises(ValueError, match=r"^result: "):
        envelope(many, [0.0, 0.0], [1.0, 1.0])


def test_an_end_missed_by_rounding_is_the_end():
    third = 1000.0 / 3
    beam = Beam(length=1000.0, support_at=[0.0, third, third + third + third], EI=1e9)
    total = solve(beam, Loads.uniform(0, 0.0, 1000.0 + 1e-10, 1.0)).reactions.sum()
    assert total == pytest.approx(1000.0, abs=1e-12)  # not 1000.0000000001


@given(st.lists(st.floats(0.001, 0.999), min_size=1, max_size=5, unique=True))
@example([0.15625, 0.28125, 1 / 3])  # once lost, between two parts of the interval
def test_every_root_of_a_polynomial_is_found(roots):
    roots = np.sort(roots)
    assume((np.diff(roots) > 0.02).all())  # closer ones are ill-conditioned in themselves
    coefficients = np.zeros((1, 6))
    power = np.poly(roots)[::-1]
    coefficients[0, : power.size] = power
    which, found = unit_roots(coefficients)
    assert (which == 0).all()
    assert np.sort(found) == pytest.approx(roots, abs=1e-6)


@pytest.mark.parametrize("place", [1 / 3, 2 / 3, 1 / 6, 1 / 2, 1 / 12])
def test_a_maximum_where_the_search_is_split_is_found(place):
    for scale in 10.0 ** np.arange(-8, 9):
        slope = np.zeros((1, 6))
        slope[0, :3] = scale * np.array([place, -1.0 + 0.5 * place, -0.5])  # (place - t)(1 + t/2)
        _, found = unit_roots(slope)
        assert found == pytest.approx([place], rel=1e-9)


@settings(max_examples=40, deadline=None)
@given(st.data())
def test_several_envelopes_at_once_equal_each_on_its_own(data):
    spans = data.draw(st.lists(st.floats(300.0, 900.0), min_size=1, max_size=4))
    at = np.concatenate([[0.0], np.cumsum(spans)])
    beam = Beam(length=float(at[-1]), support_at=at, EI=np.array(5e8), GA=np.array(4e5))
    count = len(spans)
    loads = Loads.uniform(range(count), at[:-1], at[1:], 1.0, cases=count)
    result = solve(beam, loads)
    weights = st.lists(st.floats(0.0, 2.0), min_size=count, max_size=count)
    always = [data.draw(weights) for _ in range(3)]
    sometimes = [data.draw(weights) for _ in range(3)]
    together = envelopes(result, always, sometimes)
    for one, fixed, moving in zip(together, always, sometimes, strict=True):
        alone = envelope(result, fixed, moving)
        for name in ("w_max", "w_min", "M_max", "M_min", "V_max", "V_min"):
            np.testing.assert_allclose(
                getattr(one.extremes, name), getattr(alone.extremes, name), rtol=1e-9, atol=1e-9
            )
        np.testing.assert_allclose(one.reaction_max, alone.reaction_max)
        largest, smallest = reaction_range(result, fixed, moving)
        np.testing.assert_allclose(largest, alone.reaction_max)
        np.testing.assert_allclose(smallest, alone.reaction_min)
