"""Weights and centres of gravity of whole units, added up by hand."""

from __future__ import annotations

import pytest
from described import PER_AREA, G, project, unit
from hypothesis import given, settings
from hypothesis import strategies as st

from shelfload.describe.reader import read_raw
from shelfload.idealise.arrangement import arrange
from shelfload.idealise.whole import idealise
from shelfload.solve.beam import envelope


def weighed(*units, **more):
    description = read_raw(project(*units, **more))
    return arrange(description.project, description.catalogue)


def test_box_of_four_boards_weighs_what_its_boards_weigh():
    box = weighed(unit(loads=[24]))["box"].weights
    # outside 1000 x 400 x 300: two horizontals of 960 between two sides of 400
    assert box.width == pytest.approx(1000.0)
    assert box.height == pytest.approx(400.0)
    assert box.dead == pytest.approx(PER_AREA * 300 * (2 * 960 + 2 * 400), rel=1e-12)
    assert box.contents == pytest.approx(24 * G, rel=1e-12)


def test_centre_of_gravity_of_two_levels_by_hand():
    # heights 360 and 160: horizontals at z 10, 390, 570; sides 580 high; contents at 20 + 180
    # and 400 + 80
    box = weighed(unit(heights=(360, 160), loads=[10, 30]))["box"].weights
    shelf = PER_AREA * 300 * 960
    sides = 2 * PER_AREA * 300 * 580
    moment = shelf * (10 + 390 + 570) + sides * 290
    assert box.moment(lambda item: item.z, moving=False) == pytest.approx(moment, rel=1e-12)
    goods = 10 * G * 200 + 30 * G * 480
    assert box.moment(lambda item: item.z, moving=True) == pytest.approx(goods, rel=1e-12)
    assert box.moment(lambda item: item.x, moving=False) == pytest.approx(150 * box.dead)


def test_bridge_stands_on_its_towers_flush_with_their_outer_ends():
    tower = unit("left", bays=(360,))
    placed = weighed(
        tower, {**tower, "name": "right"}, unit("top", bays=(1960,), on=["left", "right"])
    )
    assert placed["top"].bottom == pytest.approx(400.0)
    assert placed["right"].left == pytest.approx(1600.0)
    assert placed["left"].above == ("top",)


@settings(max_examples=20, deadline=None)
@given(
    loads=st.lists(st.integers(0, 60), min_size=1, max_size=4),
    base=st.sampled_from(["sides", "plinth", "flat"]),
    bays=st.sampled_from([(900,), (500, 700), (300, 400, 500)]),
)
def test_feet_carry_the_whole_unit(loads, base, bays):
    description = read_raw(
        project(unit(heights=[300] * len(loads), bays=bays, loads=loads, base=base))
    )
    whole = idealise(description.project, description.catalogue)
    (stack,) = whole.stacks
    dead = sum(foot.dead for foot in stack.feet)
    weights = whole.placed["box"].weights
    # shelves are counted with their bearing in the stack, sides only beside the levels: the
    # two ways of adding up differ by the board in the corners and over dividers, nothing else
    corners = PER_AREA * 300 * (40 + 20 * (len(bays) - 1)) * (len(loads) + 1)
    assert dead == pytest.approx(weights.dead, abs=corners)
    full = sum(foot.imposed for foot in stack.feet)
    assert full >= weights.contents * 0.999 - 1e-6


def test_forces_add_up_down_the_sides():
    description = read_raw(project(unit(heights=(300, 300, 300), loads=(10, 20, 30))))
    whole = idealise(description.project, description.catalogue)
    (stack,) = whole.stacks
    left = {force.level: force for force in stack.forces if force.upright.name == "left side"}
    # the side of level 1 carries shelves 1, 2 and the top: half of 20 + 30 kg of contents
    assert left[0].imposed == pytest.approx(25 * G, rel=1e-6)
    assert left[1].imposed == pytest.approx(15 * G, rel=1e-6)
    assert left[2].imposed == pytest.approx(0.0, abs=1e-6)
    assert left[0].dead > left[1].dead > left[2].dead > 0.0


def test_feet_of_a_unit_load_the_top_panel_they_land_on():
    upper = unit("upper", bays=(460,), on="lower", left="200 mm", loads=[40])
    lower = unit("lower", left="0 mm")
    description = read_raw(project(upper, lower))
    whole = idealise(description.project, description.catalogue)
    stacks = dict(zip(whole.placed, whole.stacks, strict=True))
    top = next(beam for beam in stacks["lower"].shelves if beam.place.part == "top panel")
    weights = top.weights({"landing": 1.0})
    # both sides land inside the span: 40 kg on the lower top, 20 kg from each
    assert float((weights @ top.result.reactions).sum()) == pytest.approx(40 * G, rel=1e-6)
    alone = read_raw(project(unit("lower", left="0 mm")))
    bare = idealise(alone.project, alone.catalogue).stacks[0]
    bare_top = next(beam for beam in bare.shelves if beam.place.part == "top panel")
    loaded = envelope(top.result, top.weights({"self": 1.0}), weights).extremes.M_max.max()
    empty = envelope(
        bare_top.result, bare_top.weights({"self": 1.0}), bare_top.weights({"contents": 1.0})
    ).extremes.M_max.max()
    assert loaded > 5 * empty
