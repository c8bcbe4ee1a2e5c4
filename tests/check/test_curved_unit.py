"""Units that are curved in plan: as straight ones on a vast radius, by hand on a small one."""

from __future__ import annotations

from math import atan2, cos, sin

import pytest
from described import PER_AREA, G, asked, findings, project, the, unit
from hypothesis import given, settings
from hypothesis import strategies as st

from shelfload.check.result import Verdict
from shelfload.describe.reader import read_raw
from shelfload.errors import DescriptionError
from shelfload.idealise.ring import ring_of

HARD = {"floor": {"covering": "hard"}}
VAST = {"inner_radius": "900 m"}
LOADS = (30, 40, 20)
FORMULAS = ("sag after years", "bending", "rolling shear", "shear", "bearing")


def store(plan=None, heights=(360, 360, 360), bays=(470, 470), **more):
    made = unit(
        heights=heights, bays=bays, loads=LOADS[: len(heights)], base="plinth", feet_back="0 mm",
        **more,
    )  # fmt: skip
    return {**made, **({"plan": plan} if plan else {})}


@pytest.mark.parametrize("front", ["outer", "inner"])
def test_vast_radius_gives_the_figures_of_the_straight_unit(front):
    # a plate stands in for the beam: contraction across alone may stiffen it by a few per cent
    straight = findings(store(), site=HARD)
    curved = findings(store({**VAST, "front": front}), site=HARD)
    for question in ("sag", "bending", "bearing"):
        one, other = (
            asked(found, "shelf 1", question, bay="bay 1")[0] for found in (straight, curved)
        )
        assert other.value == pytest.approx(one.value, rel=0.06)
    for question in ("uprights buckle", "uprights press"):
        one, other = (the(found, "level 1", question) for found in (straight, curved))
        assert other.value == pytest.approx(one.value, rel=0.06)
    for question in ("tips over by itself", "tips over when pulled"):
        one, other = (the(found, "standing", question) for found in (straight, curved))
        assert other.value == pytest.approx(one.value, rel=1e-3, abs=10.0)
        # chords between places on the arc, and the middles of the sides
        assert other.limit == pytest.approx(one.limit, rel=2e-3)
    one, other = (asked(found, "floor")[0] for found in (straight, curved))
    assert other.value == pytest.approx(one.value, rel=1e-3)


@settings(max_examples=4, deadline=None)
@given(
    radius=st.integers(500, 3000),
    front=st.sampled_from(["outer", "inner"]),
    runs=st.sampled_from(["between", "through"]),
    bays=st.sampled_from([(470, 470), (300, 640), (300, 300, 320)]),
)
def test_feet_bring_the_whole_weight_down(radius, front, runs, bays):
    plan = {"inner_radius": f"{radius} mm", "front": front}
    raw = store(plan, heights=(360,), bays=bays, shelf={"runs": runs})
    found = findings(raw, site=HARD)
    (stack,) = found.whole.stacks
    (placed,) = found.whole.placed.values()
    down = sum(foot.dead for foot in stack.feet)
    stored = LOADS[0] * len(bays) * G
    # ends of sides beside the two shelves are left out of the walk; ends along the radius, and
    # loads that are run up to the supports, add a little and never take away
    sides = 2 * PER_AREA * 300 * 2 * 20
    assert 0.985 <= down / (placed.weights.dead - sides) <= 1.03
    imposed = sum(foot.imposed for foot in stack.feet)
    assert imposed >= stored * 0.9999
    if runs == "between":  # else bays that would lift an upright are left out for it
        assert imposed <= 1.03 * stored
    assert all(foot.skew >= 1.0 for foot in stack.feet)


def test_shelf_of_a_unit_is_the_lone_curved_shelf():
    raw = store({"inner_radius": "700 mm"}, heights=(360,), bays=(960,), shelf={"bearing": "10 mm"})
    found = findings(raw)
    (beam,) = [beam for beam in found.whole.beams if beam.place.part == "top panel"]
    lone = {
        "name": "lone",
        "depth": "300 mm",
        "plan": {"inner_radius": "700 mm", "angle": f"{beam.plan.angle!r} rad"},
        "shelf": {"material": "board", "thickness": "20 mm", "bearing": "10 mm"},
        "contents": "empty",
        "fixed_down": True,
    }
    alone = findings(shelf=[lone])
    assert the(found, "top panel", "sag").value == pytest.approx(
        the(alone, "", "sag").value, rel=2e-3
    )


def test_span_of_the_sector_is_the_true_one_at_the_outer_edge():
    # uprights 20 mm thick whose middles are 960 + 20 apart at 850 mm: at the outer edge of
    # 1000 mm they are 1000 / 850 x 980 - 20 apart, and the shelf bears 5 mm at each end
    raw = store({"inner_radius": "700 mm"}, heights=(360,), bays=(960,), shelf={"bearing": "10 mm"})
    beam = next(beam for beam in findings(raw).whole.beams if beam.place.part == "top panel")
    assert beam.plan.angle * 1000.0 == pytest.approx(980.0 * 1000 / 850 - 20.0 + 10.0, rel=1e-5)


def bow(front="outer", **more):
    """Nearly a half ring, 300 deep, on its two sides: 3 rad on a middle radius of 1000 / 3."""
    middle = 1000.0 / 3
    return {
        **unit(heights=TALL, bays=(960,), loads=(0, 0, 0), **more),
        "plan": {"inner_radius": f"{middle - 150.0!r} mm", "front": front},
    }


TALL = (360, 360)


def test_bow_on_its_two_sides_falls_over_its_bulge():
    """The middles of its sides are the only feet; the mass of its shelves is far in front of them.

    Slice of a ring of radii a, b: centre at 2 (b^3 - a^3) / (3 (b^2 - a^2)) from the middle of
    the circle, times sin h / h for half an angle h.
    """
    found = findings(bow(), site=HARD)
    check = the(found, "standing", "tips over by itself")
    assert check.verdict is Verdict.FAILS
    assert "front" in check.governs
    a, b = 1000 / 3 - 150.0, 1000 / 3 + 150.0
    R = 1000 / 3
    h = 960.0 / 2 / R  # of the shelves between the sides
    side = 490.0 / R  # to the middle of a side
    far = 2 * (b**3 - a**3) / (3 * (b**2 - a**2)) * sin(h) / h
    shelf, upright = 3 * PER_AREA * 300 * 960, 2 * PER_AREA * 300 * 780
    edge = b * cos(side)  # outer corners of the two sides are the front edge
    # the sides' weight is at mid-depth, behind the edge; all of a shelf's slices tip or hold
    net = shelf * (far - edge) - upright * (edge - R * cos(side))
    assert check.value - check.limit * 1.5 == pytest.approx(net, rel=5e-3)


def test_same_bow_stands_on_a_plinth():
    found = findings(bow(base="plinth", feet_back="0 mm"), site=HARD)
    assert the(found, "standing", "tips over by itself").verdict is Verdict.PASSES


def test_curve_on_a_plinth_is_steadier_than_its_depth_says():
    def spare(plan):
        found = findings(store(plan, bays=(960,)), site=HARD)
        check = the(found, "standing", "tips over when pulled")
        return check.limit / check.value

    assert spare({"inner_radius": "500 mm"}) > 1.2 * spare(None)


def test_depth_of_the_box_round_it_by_hand():
    raw = read_raw(project(store({"inner_radius": "700 mm"}))).project.unit[0]
    ring = ring_of(raw)
    # width 2 x 470 + 3 x 20 = 1000 on a radius of 850
    assert ring.angle == pytest.approx(1000 / 850)
    assert ring.envelope() == pytest.approx(1000 - 700 * cos(500 / 850))


def test_places_in_plan_turn_as_seen_from_the_front():
    for front in ("outer", "inner"):
        raw = store({"inner_radius": "700 mm", "front": front})
        ring = ring_of(read_raw(project(raw)).project.unit[0])
        left, middle, right = ring.at(300.0, [0.0, 500.0, 1000.0])
        assert left[0] < middle[0] < right[0]
        assert middle[0] == pytest.approx(0.0)
        # the front lies forward of the rear
        assert (ring.at(300.0, 500.0) - ring.at(0.0, 500.0))[1] == pytest.approx(300.0)
        assert abs(atan2(right[0], abs(right[1]))) == pytest.approx(500 / 850)


def everything():
    """A curved unit of which as much as can be is described."""
    hold = {"maker": "anchor", "carcass": "anchor"}
    made = store({"inner_radius": "900 mm"}, bays=(470,), restraint=hold)
    made["joins"] = {"shelves": "screws", "sides": "screws", "stack": "screws"}
    made["comes_apart"] = "levels"
    made["shelf"] = {"loose": True}
    made["level"][1]["shelf"] = {"panels": 2, "joined": "screwed", "screws": {"spacing": "150 mm"}}
    made["back"] = {
        "material": "board", "thickness": "20 mm", "fixed": "screwed", "spacing": "100 mm"
    }  # fmt: skip
    made["level"][2]["contents"] = {"people": "sitting"}
    return made


def test_nothing_passes_by_a_figure_for_straight_units():
    floor = {
        "covering": "hard",
        "joists": {"material": "c24", "width": "45 mm", "height": "195 mm", "spacing": "400 mm",
                   "span": "3 m", "run": "across"},
        "sheet": {"material": "board", "thickness": "20 mm"},
    }  # fmt: skip
    found = findings(everything(), site={"floor": floor, "wall": "solid brick"})
    known = (
        *FORMULAS, "bending both ways", "tips over", "uprights buckle", "uprights press",
        "people to lift",
    )  # fmt: skip
    for check in found.checks:
        if not check.question.startswith(known) or "someone beside" in check.question:
            assert check.verdict is Verdict.NOT_CHECKED, check.question
    assert not found.joins
    asked_of = {check.question for check in found.checks}
    assert {"stays square", "fasteners of its joins", "tied to the wall"} <= asked_of
    assert any(question.startswith("joists") for question in asked_of)
    assert any(question.startswith("floor sheet") for question in asked_of)


def test_back_of_a_curve_never_makes_a_shelf_better():
    panel = {"material": "birch-plywood", "thickness": "18 mm"}
    back = {"material": "birch-plywood", "thickness": "4 mm", "fixed": "glued"}
    bare, backed = (
        findings({**store({"inner_radius": "900 mm"}, heights=(360,), **more), "panel": panel})
        for more in ({}, {"back": back})
    )
    one, other = (the(found, "bottom panel", "sag", bay="bay 1").value for found in (bare, backed))
    assert other > one
    for before, after in zip(bare.safe_loads, backed.safe_loads, strict=True):
        assert after.even <= before.even * 1.001


def test_tie_to_a_wall_is_never_counted_on():
    hold = {"maker": "anchor", "carcass": "anchor"}
    tied = store({"inner_radius": "900 mm"}, bays=(470,), restraint=hold)
    free = store({"inner_radius": "900 mm"}, bays=(470,))
    one, other = (
        the(
            findings(raw, site={"wall": "solid brick", **HARD}), "standing", "tips over when pulled"
        )
        for raw in (tied, free)
    )
    assert one.value == other.value
    assert one.limit == other.limit


@pytest.mark.parametrize(
    "more",
    [
        {"hangs": {"maker": "anchor", "heights": ["300 mm"]}},
        {"underside": "700 mm"},
        {"shelf": {"pins": {"from_front": "40 mm", "from_rear": "40 mm"}}},
    ],
)
def test_curves_off_the_floor_or_on_pins_are_refused(more):
    with pytest.raises(DescriptionError):
        read_raw(project(store({"inner_radius": "900 mm"}, **more)))


def test_more_than_a_bow_is_refused():
    with pytest.raises(DescriptionError, match="degrees"):
        read_raw(project(store({"inner_radius": "100 mm"})))


def test_nothing_stands_on_a_curved_unit():
    upper = unit(name="upper", bays=(960,), on=["box"])
    with pytest.raises(DescriptionError, match="curved"):
        read_raw(project(store({"inner_radius": "900 mm"}), upper))


@pytest.mark.parametrize("more", [{"loose": True}, {}])
def test_lone_curved_shelf_is_not_asked_as_a_straight_one(more):
    lone = {
        "name": "lone",
        "depth": "300 mm",
        "plan": {"inner_radius": "700 mm", "angle": "60 deg"},
        "shelf": {"material": "board", "thickness": "20 mm", "bearing": "20 mm", **more},
        "contents": {"people": "sitting"},
        "fixed_down": True,
    }
    asked_of = findings(shelf=[lone]).checks
    straight = [
        check for check in asked_of if "slips off" in check.question or "beside" in check.question
    ]
    assert straight
    assert all(check.verdict is Verdict.NOT_CHECKED for check in straight)


def test_bearing_of_a_curved_shelf_is_that_of_its_hardest_pressed_quarter():
    raw = store({"inner_radius": "400 mm"}, heights=(360,), bays=(700,))
    found = findings(raw)
    beam = next(beam for beam in found.whole.beams if beam.place.part == "bottom panel")
    even = float(beam.result.reactions.sum(axis=1)[0]) / 2.0
    assert even > 0.0
    plate = found.whole.plates[beam.place]
    quarters = 4.0 * plate.first_day.quarters[:, :, 0]
    # both ends alike, and the outer corner takes more than an even share
    assert quarters[0].max() > plate.first_day.supports[0, 0]
    assert plate.first_day.supports[:, 0].sum() == pytest.approx(2.0 * even, rel=0.02)


def test_loose_shelf_of_a_curved_unit_that_lifts_at_a_corner_is_no_pass():
    raw = store({"inner_radius": "400 mm"}, bays=(700,), shelf={"loose": True})
    check = the(findings(raw), "shelf 1", "held down on its supports")
    assert check.verdict is Verdict.NOT_CHECKED
    assert "lifts off" in check.reason


@pytest.mark.parametrize(
    ("plan", "bays"), [({"inner_radius": "25 mm"}, (150,)), ({"inner_radius": "100 mm"}, (50, 50))]
)
def test_bays_without_room_at_the_inner_radius_are_refused(plan, bays):
    with pytest.raises(DescriptionError, match="inner radius"):
        read_raw(project(store(plan, bays=bays)))
