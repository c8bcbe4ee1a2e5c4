"""Tipping about an edge: free bodies by hand, and what must never help."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shelfload.solve import tipping

N = 4
BODY = st.tuples(
    *[
        st.lists(st.floats(low, high), min_size=N, max_size=N)
        for low, high in [(1, 500), (0, 600), (0, 2200)]
    ]
)
EDGE, TILT = st.floats(150, 600), st.floats(0, 0.1)
ACTION = st.fixed_dictionaries(
    {
        "H": st.floats(0, 400),
        "h": st.floats(0, 2200),
        "P": st.floats(1, 400),
        "d": st.floats(1, 400),
        "z_P": st.floats(0, 1800),
    }
)


def margin(body, edge, tilt, action):  # type: ignore[no-untyped-def]
    return tipping.tipping_margin(*tipping.tipping_moments(*body, edge, tilt=tilt, **action))


def test_tall_body_by_hand() -> None:
    # Carcass 300 N at x 150, z 900; load 500 N at x 170, z 1300; edge at 300; pull 44.5 N at 1400;
    # 267 N at 100 beyond the edge.
    # Holds: 300 x 150 + 500 x 130 = 110 000. Tips: 44.5 x 1400 + 267 x 100 = 89 000.
    # Margin 1.236. For a margin of 2 a strap at 1800: (178 000 - 110 000) / 1800 = 37.78 N.
    held, tips = tipping.tipping_moments(
        [300, 500], [150, 170], [900, 1300], 300, H=44.5, h=1400, P=267, d=100
    )
    assert held == pytest.approx(110_000)
    assert tips == pytest.approx(89_000)
    assert tipping.tipping_margin(held, tips) == pytest.approx(1.236, abs=5e-4)
    assert tipping.restraint_force(held, tips, 1800, 2) == pytest.approx(37.78, abs=5e-3)
    # Left over 21 000: a further 15 N at 1400 sends it over.
    assert tipping.push_to_tip(held, tips, 1400) == pytest.approx(15.0)


def test_leaning_body_by_hand() -> None:
    # 400 N at x 100, z 1000, edge 300, leaning 0.05 rad: arm 200 cos - 1000 sin
    # = 199.75 - 49.98 = 149.8 mm: 59 908 N mm.
    held, tips = tipping.tipping_moments([400], [100], [1000], 300, tilt=0.05)
    assert held == pytest.approx(59_908, rel=5e-5)
    assert tips == 0.0
    assert tipping.tipping_margin(held, tips) == np.inf
    # Goes over at atan(200 / 1000) = 0.1974 rad.
    assert tipping.tilt_to_tip([400], [100], [1000], 300) == pytest.approx(0.1974, abs=5e-5)


def test_weight_beyond_the_edge_tips_and_load_behind_it_holds() -> None:
    held, tips = tipping.tipping_moments([100, 50], [100, 400], [0, 0], 300, P=10, d=-100)
    assert held == pytest.approx(100 * 200 + 10 * 100)
    assert tips == pytest.approx(50 * 100)


def test_nothing_at_all_has_no_margin() -> None:
    assert np.isnan(tipping.tipping_margin(0.0, 0.0))
    assert tipping.tipping_margin(0.0, 5.0) == 0.0


def test_scenarios_in_one_call() -> None:
    scenarios = {"H": [0, 50, 0], "h": 1400, "P": [0, 0, 267], "d": 200}
    held, tips = tipping.tipping_moments([300, 500], [150, 170], [900, 1300], 300, **scenarios)
    assert held == pytest.approx([110_000] * 3)
    assert tips == pytest.approx([0, 70_000, 53_400])
    fillings = np.array([[300, 500], [300, 0]])
    held, _ = tipping.tipping_moments(fillings, [150, 170], [900, 1300], [300, 320])
    assert held == pytest.approx([110_000, 300 * 170])


@given(BODY, EDGE, TILT, ACTION, st.floats(0, 300))
def test_deeper_base_never_tips_sooner(body, edge, tilt, action, more) -> None:
    deeper = margin(body, edge + more, tilt, action)
    assert deeper >= margin(body, edge, tilt, action) * (1 - 1e-9)


@given(BODY, EDGE, TILT, ACTION, st.floats(0, 800), st.integers(0, N - 1))
def test_moving_mass_up_never_raises_the_margin(body, edge, tilt, action, lift, which) -> None:
    W, x, z = body
    up = [height + lift * (i == which) for i, height in enumerate(z)]
    assert margin((W, x, up), edge, tilt, action) <= margin(body, edge, tilt, action) * (1 + 1e-9)


@given(BODY, EDGE, TILT, TILT, ACTION)
def test_more_lean_never_raises_the_margin(body, edge, one, other, action) -> None:
    # Arms shrink with the lean as long as a weight is above its base and behind the edge.
    W, x, z = body
    x = [min(place, edge) for place in x]
    action = {**action, "P": 0.0, "H": action["H"] + 1.0, "h": action["h"] + 1.0}
    less, more = sorted([one, other])
    upright, leaning = (margin((W, x, z), edge, t, action) for t in (less, more))
    assert leaning <= upright * (1 + 1e-9) + 1e-12


@given(BODY, EDGE, ACTION, st.floats(1, 3), st.floats(100, 2200))
def test_restraint_brings_the_margin_that_is_asked_for(body, edge, action, factor, h) -> None:
    held, tips = tipping.tipping_moments(*body, edge, **action)
    F = tipping.restraint_force(held, tips, h, factor)
    assert F >= 0
    assert held + F * h >= factor * tips * (1 - 1e-9)
    if F > 0:
        assert held + F * h == pytest.approx(factor * tips)


@given(BODY, EDGE)
def test_tilt_to_tip_is_where_the_moments_cancel(body, edge) -> None:
    W, x, z = (np.array(v) for v in body)
    x = np.minimum(x, edge - 1)
    lean = tipping.tilt_to_tip(W, x, z, edge)
    held, tips = tipping.tipping_moments(W, x, z, edge, tilt=lean)
    assert held - tips == pytest.approx(0, abs=1e-9 * (W * (edge + z)).sum())


def test_restraint_at_the_base_is_refused() -> None:
    with pytest.raises(ValueError, match="above the base"):
        tipping.restraint_force(1, 2, 0, 1)


def test_sliding_by_hand() -> None:
    # 800 N, pulled with 120 N, friction 0.3: 120 / 240 = 0.5; on a slope of 0.05 rad
    # (120 + 39.98) / (240 x 0.99875) = 0.6674.
    assert tipping.sliding_ratio(120, 800, 0.3) == pytest.approx(0.5)
    assert tipping.sliding_ratio(120, 800, 0.3, 0.05) == pytest.approx(0.6674, abs=5e-5)
