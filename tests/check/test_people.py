"""People on seats, platforms, beds and benches: stated loads placed by hand."""

from __future__ import annotations

import pytest
from described import PER_AREA, G, asked, findings, the, unit
from hypothesis import given, settings
from hypothesis import strategies as st
from printed import printed

from shelfload.check.result import Verdict
from shelfload.describe.reader import DescriptionError
from shelfload.idealise.people import people_load

SHELF = {"material": "board", "thickness": "40 mm", "bearing": "20 mm"}
# N: EN 12520 seat load, from memory; EN 1991-1-1:2002 Table 6.2 category A; AS/NZS 4387.4:1996
SEAT, STANDING, BENCH = 1300.0, 2000.0, 1000.0


def lone(people, span=980, **more):
    shelf = {"name": "s", "depth": "400 mm", "spans": [f"{span} mm"], "shelf": SHELF, **more}
    return findings(shelf=[{**shelf, "contents": {"people": people}}])


def bending(found):
    return next(check for check in found.checks if check.question == "bending").value


@pytest.mark.parametrize(
    ("people", "force"), [("sitting", SEAT), ("standing", STANDING), ("leaning", BENCH)]
)
def test_one_person_in_the_middle_by_hand(people, force):
    # span 980 + 20 = 1000; M = 1.5 F L / 4 + 1.35 g L^2 / 8 with g = 2 x PER_AREA x 400 N/mm;
    # W = 400 x 40^2 / 6
    found = lone(people, span=980)
    L, W = 1000.0, 400 * 40**2 / 6
    M = 1.5 * force * L / 4 + 1.35 * 2 * PER_AREA * 400 * L**2 / 8
    assert bending(found) == pytest.approx(M / W, rel=1e-6)
    # short-term plywood: kmod 0.9 (EN 1995-1-1 Table 3.1), gamma_M 1.2: 30 x 0.9 / 1.2
    check = next(check for check in found.checks if check.question == "bending")
    assert check.limit == pytest.approx(22.5)


def test_one_person_beside_a_support_by_hand():
    found = lone("leaning")
    own = 1.35 * 2 * PER_AREA * 400 * 1000 / 2
    bears = the(found, "", "bearing, someone beside a support")
    assert bears.value == pytest.approx((own + 1.5 * BENCH) / (20 * 400), rel=1e-6)
    shears = the(found, "", "rolling shear, someone beside")
    assert shears.value == pytest.approx(1.5 * (own + 1.5 * BENCH) / (40 * 400), rel=1e-6)


def test_row_of_sitters_takes_half_a_metre_each():
    load = people_load("sitting", 1600.0, 400.0)
    assert [force for force, _, _ in load.spots] == [SEAT] * 3
    assert [at for _, at, _ in load.spots] == pytest.approx([1600 / 6, 800, 1600 * 5 / 6])
    assert load.persons == 3
    assert people_load("sitting", 999.0, 400.0).persons == 1


def test_platform_carries_the_larger_of_single_and_even_load():
    # 2 kN/m2 x 2 m x 0.4 m = 1600 N < 2000 N; x 2 m x 1.5 m = 6000 N: 4000 more
    assert len(people_load("standing", 2000.0, 400.0).spots) == 1
    wide = people_load("standing", 2000.0, 1500.0)
    assert sum(force for force, _, _ in wide.spots) == pytest.approx(6000.0)
    assert {duration for _, _, duration in wide.spots[1:]} == {"medium-term"}
    # a bed: 2 kN/m2 x 2 m x 0.9 m = 3600 N and one who sits down on it
    bed = people_load("sleeping", 2000.0, 900.0)
    assert sum(force for force, _, _ in bed.spots) == pytest.approx(3600.0 + SEAT)


def test_even_load_in_four_strips_bends_as_it_should():
    strips = people_load("sleeping", 1000.0, 900.0).spots[1:]
    middle = sum(force * min(at, 1000.0 - at) / 2 for force, at, _ in strips)
    assert middle == pytest.approx(2e-3 * 900 * 1000**2 / 8)


def seat(people="sitting", bays=(500, 500), site=None, **more):
    made = unit("seat", heights=(400,), bays=bays, depth=400, **more)
    return findings(
        {**made, "top_contents": {"people": people}}, site=site or {"floor": {"covering": "hard"}}
    )


def test_people_on_cupboards_are_between_the_uprights():
    found = seat()
    # one in each bay, from the middle of the divider to the outside: 530 wide, the middle at 265;
    # panel from 17 to 523 between its bearings of 6: 248 from one, 258 from the other
    R = SEAT * (265 - 17) / (523 - 17)
    beams = [beam for beam in found.whole.beams if beam.place.part == "top panel"]
    assert len(beams) == 2
    spots = [sum(force for force, _, _ in bay.load.points) for beam in beams for bay in beam.bays]
    assert spots == [SEAT, SEAT]
    forces = {force.upright.name: force.imposed for force in found.whole.stacks[0].forces}
    assert forces["divider 1"] == pytest.approx(2 * R, rel=1e-6)
    assert sum(forces.values()) == pytest.approx(2 * SEAT, rel=1e-9)


def test_weight_of_people_reaches_the_floor():
    found = seat(site={"floor": {"kind": "concrete", "covering": "hard"}})
    own = PER_AREA * 400 * (2 * 1020 + 2 * 440 + 400)
    load = the(found, "floor", "load on its own")
    assert load.value == pytest.approx((own + 2 * SEAT) / (1060 * 400), rel=1e-6)


def test_people_near_the_front_edge_tip_a_seat_on_a_recessed_plinth():
    # they sit 60 behind the front (EN 1022, from memory); feet 150 behind it: 90 in front of them
    found = seat(base="plinth", feet_back="150 mm")
    tips = the(found, "standing", "tips over by itself")
    assert tips.question.endswith("people near its front edge")
    assert tips.value == pytest.approx(2 * SEAT * 90)
    own = PER_AREA * 400 * (2 * 1020 + 2 * 440 + 400)
    assert tips.limit == pytest.approx(own * (250 - 200) / 1.5)
    assert tips.verdict is Verdict.FAILS
    # feet 50 behind it: they only hold it down, and are left out
    assert the(seat(base="plinth", feet_back="50 mm"), "standing", "tips").value == 0.0


def test_one_on_the_end_of_a_bench_lifts_the_other_end():
    found = lone("sitting", overhang_right="400 mm")
    held = the(found, "", "held down on its supports")
    assert held.verdict is Verdict.NOT_CHECKED
    assert not asked(lone("sitting", overhang_right="400 mm", fixed_down=True), "", "held down")


def test_people_press_a_bridge_on_its_towers():
    towers = [unit("l", bays=(360,), left="0 mm"), unit("r", bays=(360,), left="1600 mm")]
    bridge = unit("bridge", bays=(1960,), on=["l", "r"])
    found = findings(*towers, {**bridge, "top_contents": {"people": "standing"}})
    # half of its own weight, half of the one who stands in the middle of 2000
    own = PER_AREA * 300 * (1960 + 400)
    press = the(found, "standing", "presses on", unit="bridge", bay="left side")
    assert press.value == pytest.approx((1.35 * own + 1.5 * STANDING / 2) / (20 * 300), rel=1e-6)


def test_sitters_hang_on_the_wall_with_a_hung_seat():
    hangs = {"maker": "anchor", "carcass": "anchor", "heights": ["350 mm"]}
    made = unit(hangs=hangs, underside="400 mm", top_contents={"people": "sitting"})
    found = findings(made, site={"wall": "solid brick"})
    # 1000 wide: two of 1300 N at 300 - 60 = 240; own weight at 150, hand 150 N at 300, over 350
    own = PER_AREA * 300 * (2 * 960 + 2 * 400)
    M = own * 150 + 2 * SEAT * 240 + 150 * 300
    V = own + 2 * SEAT + 150
    check = the(found, "wall", "holds: fixing in the wall")
    assert check.value == pytest.approx(M / 350 / 2 / 300 + V / 2 / 600, rel=1e-6)


def test_people_add_to_what_else_stands_there():
    alone = lone("sitting")
    shelf = {"name": "s", "depth": "400 mm", "spans": ["980 mm"], "shelf": SHELF}
    both = findings(shelf=[{**shelf, "contents": {"people": "sitting", "load": "20 kg"}}])
    more = 1.5 * 20 * G / 980  # N/mm over the clear width
    # M in the middle of 1000 of a load on the middle 980
    M = more * (980 / 2 * 500 - 490**2 / 2)
    assert bending(both) - bending(alone) == pytest.approx(M / (400 * 40**2 / 6), rel=1e-4)


def test_unknown_people_are_a_mistake():
    with pytest.raises(DescriptionError, match="people"):
        lone("dancing")


def test_sources_of_people_are_told():
    found = lone("sleeping")
    sources = {
        source for beam in found.whole.beams for bay in beam.bays for source in bay.load.sources
    }
    assert any("EN 12520" in source and "from memory" in source for source in sources)
    assert any("EN 1991-1-1" in source and "published" in source for source in sources)
    assert any("anywhere on it" in text for text in found.assumptions)
    assert SEAT == printed("1300")


@settings(max_examples=8, deadline=None)
@given(span=st.integers(400, 2200), people=st.sampled_from(["sitting", "standing", "sleeping"]))
def test_people_never_make_a_shelf_stronger(span, people):
    shelf = {"name": "s", "depth": "400 mm", "spans": [f"{span} mm"], "shelf": SHELF}
    without = findings(shelf=[{**shelf, "contents": {"load": "10 kg"}}])
    there = findings(shelf=[{**shelf, "contents": {"load": "10 kg", "people": people}}])
    assert bending(there) > bending(without)


def test_one_on_a_seat_is_never_put_over_a_divider_below():
    # two cupboards 470 wide under one open bay of 960 with a seat in it, one panel through
    seat = unit("seat", heights=(400, 800), depth=400, shelf={"runs": "through"})
    seat["level"][0]["bays"] = ["470 mm", "470 mm"]
    seat["level"][1]["contents"] = {"people": "sitting"}
    found = findings(seat)
    (beam,) = [one for one in found.whole.beams if one.place.part == "shelf 1"]
    assert [len(bay.load.points) for bay in beam.bays] == [1, 1]
    # in the middle of each half: the bay from 20 to 980 is cut over the divider at 500
    places = [bay.start + bay.load.points[0][1] for bay in beam.bays]
    assert places == pytest.approx([260 - 17, 740 - 17], abs=3.1)
    placed = found.whole.placed["seat"]
    assert placed.weights.contents == pytest.approx(2 * SEAT)
