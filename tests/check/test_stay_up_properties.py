"""What must hold of any unit that stands, stands on others or hangs: whole descriptions."""

from __future__ import annotations

import pytest
from described import PER_AREA, G, asked, findings, the, unit
from hypothesis import given, settings
from hypothesis import strategies as st

from shelfload.check.bridge import whole_feet

HARD = {"floor": {"covering": "hard"}}
BRICK = {"wall": "solid brick", **HARD}
KIT = {"kit": {"tension": "300 N", "shear": "600 N", "source": "made up for tests"}}
FEW = settings(max_examples=10, deadline=None)
LOADS = st.integers(0, 60)


def tipping_margin(found, name):
    checks = asked(found, "standing", "tips over", unit=name)
    return min(check.limit / check.value for check in checks if check.value)


@FEW
@given(low=LOADS, high=LOADS, depth=st.integers(150, 400), width=st.integers(300, 1500))
def test_feet_of_a_bridge_bring_all_of_its_weight(low, high, depth, width):
    towers = [unit("l", bays=(200,), left="0 mm"), unit("r", bays=(200,), left=f"{width} mm")]
    back = {"material": "board", "thickness": "6 mm", "fixed": "glued"}
    bridge = unit(
        "b", on=["l", "r"], heights=(300, 300), bays=(width + 200,), depth=depth,
        loads=[low, high], back=back,
    )  # fmt: skip
    found = findings(*towers, bridge)
    placed, stack = found.whole.placed["b"], found.whole.stacks[2]
    feet = whole_feet(placed, stack)
    assert sum(foot.dead for foot in feet) == pytest.approx(placed.weights.dead, rel=1e-9)
    assert sum(foot.imposed for foot in feet) == pytest.approx((low + high) * G, abs=1e-6)


@FEW
@given(depth=st.integers(200, 400), more=st.integers(1, 200))
def test_deeper_lower_unit_never_tips_or_lets_lift_off_sooner(depth, more):
    def both(lower):
        found = findings(
            unit("low", depth=lower, heights=(500,)),
            unit("up", depth=300, heights=(700,), on="low"),
            site=HARD,
        )
        lifts = the(found, "standing", "lifts off", unit="up")
        return tipping_margin(found, "low"), lifts.limit - lifts.value

    shallow, deep = both(depth), both(depth + more)
    assert deep[0] >= shallow[0] * (1 - 1e-9)
    assert deep[1] >= shallow[1] - 1e-6


@FEW
@given(load=st.integers(1, 60), depth=st.integers(150, 400))
def test_contents_moved_to_the_upper_unit_never_raise_the_margin_of_the_lower(load, depth):
    def margin(below, above):
        found = findings(
            unit("low", depth=depth, heights=(700,), loads=[below]),
            unit("up", depth=depth, heights=(700,), loads=[above], on="low"),
        )
        return tipping_margin(found, "low")

    assert margin(0, load) <= margin(load, 0) * (1 + 1e-9)


@FEW
@given(count=st.integers(2, 6), height=st.integers(300, 1000), higher=st.integers(1, 100))
def test_more_or_higher_restraint_never_lowers_a_margin(count, height, higher):
    def used(number, at):
        chest = unit(
            heights=(360, 360, 360),
            drawers={"mass": "150 kg", "out": "700 mm"},
            restraint={
                "maker": "kit", "carcass": "kit", "count": number, "height": f"{at} mm",
            },
        )  # fmt: skip
        found = findings(chest, site=BRICK, fixings=KIT)
        return the(found, "restraint", "holds: fixing").ratio

    now = used(count, height)
    assert used(count + 1, height) <= now * (1 + 1e-9)
    assert used(count, height + higher) <= now * (1 + 1e-9)


@FEW
@given(count=st.integers(2, 6))
def test_one_restraint_lost_is_never_easier_than_all(count):
    tie = {"maker": "kit", "carcass": "kit", "count": count}
    upper = unit("up", heights=(900,), depth=200, on="low", restraint=tie,
                 drawers={"mass": "120 kg", "out": "700 mm"})  # fmt: skip
    found = findings(unit("low", depth=200), upper, site=BRICK, fixings=KIT)
    lost = the(found, "restraint", "pull if one", unit="up")
    kept = the(found, "restraint", "holds: fixing", unit="up")
    # 300 N of tension is the weakest link of both, loads as they are
    assert lost.value / 300.0 >= kept.ratio * (1 - 1e-9)


@FEW
@given(
    load=LOADS,
    depth=st.integers(150, 450),
    low=st.integers(50, 200),
    high=st.integers(210, 390),
)
def test_fixing_forces_are_the_load_whatever_hangs(load, depth, low, high):
    # pull alone: each line's tension is in proportion to its height, so that of the top one
    # gives all; shear alone: all alike. Two lines of two.
    hangs = {"maker": "odd", "carcass": "odd", "heights": [f"{low} mm", f"{high} mm"]}

    def used(**odd):
        made = unit(loads=[load], depth=depth, hangs=hangs, underside="700 mm")
        fixing = {"tension": "10000000 N", "shear": "10000000 N", "source": "test", **odd}
        found = findings(made, site=BRICK, fixings={"odd": fixing})
        return the(found, "wall", "holds: fixing in the wall").value

    weight = PER_AREA * depth * (2 * 960 + 2 * 400) + load * G
    T, V = used(tension="1 N"), used(shear="1 N")
    assert 4 * V == pytest.approx(weight + 150, rel=1e-4)
    moment = 2 * T * (high + low * low / high)
    assert moment == pytest.approx(weight * depth / 2 + 150 * depth, rel=1e-4)


@FEW
@given(load=st.integers(1, 60), heights=st.sets(st.integers(60, 380), min_size=2, max_size=4))
def test_a_lost_line_never_eases_the_others(load, heights):
    lines = sorted(heights)
    hangs = {"maker": "kit", "carcass": "kit", "heights": [f"{at} mm" for at in lines]}
    found = findings(unit(loads=[load], hangs=hangs, underside="1400 mm"), site=BRICK, fixings=KIT)
    lost = the(found, "wall", "pull if one line")
    weight = PER_AREA * 300 * (2 * 960 + 2 * 400) + load * G
    whole = weight * 150 * lines[-1] / sum(at * at for at in lines) / 2
    assert lost.value >= whole * (1 - 1e-9)
