"""Shelves that bend as plates: limits, equilibrium, safe loads, and what the report says."""

from __future__ import annotations

import os
import subprocess
import sys

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shelfload.check.assess import assess
from shelfload.check.result import Verdict
from shelfload.describe.examples import example_text
from shelfload.describe.reader import read_raw, read_text
from shelfload.solve.plate import AreaLoad, Edge, Edges, rectangle, solve_plate, stiffness_of

G = 9.80665  # m/s2, standard gravity (CGPM 1901)
NAILED = {"material": "hardboard", "thickness": "3.2 mm", "fixed": "nailed", "spacing": "100 mm"}
GLUED = {"material": "birch-plywood", "thickness": "12 mm", "fixed": "glued"}


def cupboard(back=None, width=900, depth=400, load="10 kg/m", contents=None, **shelf):
    """A box of two levels; the shelf asked about is the one between them."""
    level = {"height": "400 mm", "bays": [f"{width} mm"]}
    unit = {
        "name": "box",
        "depth": f"{depth} mm",
        "base": "plinth",
        "panel": {"material": "particleboard-p2", "thickness": "19 mm"},
        "shelf": {"bearing": "6 mm", **shelf},
        "level": [level, {**level, "contents": contents or {"load": load}}],
    }
    if back is not None:
        unit["back"] = back
    return {"unit": [unit]}


def findings(raw):
    description = read_raw(raw)
    return assess(description.project, description.catalogue)


def lone(contents=None, thickness="18 mm", material="birch-plywood", fixed_down=True, **more):
    shelf = {"material": material, "thickness": thickness, **more.pop("shelf", {})}
    one = {"name": "shelf", "depth": "300 mm", "shelf": shelf, "fixed_down": fixed_down, **more}
    if "plan" not in one:
        one["spans"] = ["900 mm"]
    if contents:
        one["contents"] = contents
    return findings({"shelf": [one]})


def shelf_1(found):
    (beam,) = [b for b in found.whole.beams if b.place.part in ("shelf 1", "")]
    return beam, found.whole.plates.get(beam.place)


def check(found, question, part="shelf 1"):
    return next(c for c in found.checks if c.question == question and c.place.part == part)


def unit_load(beam):
    return next(n for n, case in enumerate(beam.cases) if case.kind == "even")


# --- limits ----------------------------------------------------------------------------------


@pytest.mark.parametrize("depth", [250, 400])
def test_back_on_ever_fewer_nails_is_the_plain_beam(depth):
    half_as_loose, loose = (
        findings(cupboard({**NAILED, "spacing": spacing}, depth=depth))
        for spacing in ("500 m", "1000 m")
    )
    beam, plate = shelf_1(loose)
    case = unit_load(beam)
    w = plate.first_day.w[:, case].max()
    # what nails hold falls as 1 over their spacing: as much again is still to come
    w += w - shelf_1(half_as_loose)[1].first_day.w[:, case].max()
    # 0 = Poisson's ratio and ends free to twist: strips that bend alike, so the beam exactly;
    # the beam's load stops 3 mm before its ends, the plate's does not (< 0.1 %)
    plain = beam.result.at(np.linspace(0, 906, 199))[0][case].max()
    assert w == pytest.approx(plain, rel=1e-3)
    bare = check(findings(cupboard(depth=depth)), "sag after years")
    thinner = 3.2 / depth  # the back takes its thickness off the depth
    assert check(loose, "sag after years").value == pytest.approx(bare.value, rel=2 * thinner)


def test_stiff_glued_back_is_a_plate_on_three_edges():
    beam, plate = shelf_1(findings(cupboard(GLUED)))
    w = plate.first_day.w[:, unit_load(beam)].max()
    # row of the table: E 1600, G 100 through the thickness, 672 in the plane
    stiff = stiffness_of(1600.0, 1600.0, 0.0, 672.0, 100.0, 100.0, 19.0)
    depth = beam.shape.depth

    def three(far):
        edges = Edges(left=Edge("soft"), right=Edge("soft"), far=far)
        load = [AreaLoad(value=1 / depth)]
        solved = solve_plate(rectangle(906.0, depth), stiff, edges, load, settle="deflection")
        return abs(solved.largest_deflection().value)

    assert three(Edge("clamped")) < w < 1.03 * three(Edge("soft"))


@settings(max_examples=6, deadline=None)
@given(spacing=st.integers(30, 400), width=st.integers(400, 1100), depth=st.integers(200, 500))
def test_back_never_adds_to_the_work_of_the_load(spacing, width, depth):
    def work(s):
        beam, plate = shelf_1(findings(cupboard({**NAILED, "spacing": f"{s} mm"}, width, depth)))
        case = unit_load(beam)
        # what the load does is its mean sag; the front edge alone may go down a little more
        return plate.first_day.w[:, case].mean(), plate.first_day.back[case]

    (close, leaning), (wide, less), (none, nothing) = work(spacing), work(2 * spacing), work(10**6)
    assert close < wide < none * (1 + 1e-6)
    assert leaning > less > nothing >= 0.0


@settings(max_examples=10, deadline=None)
@given(width=st.integers(300, 1200), load=st.integers(1, 60), spot=st.floats(0.1, 0.9))
def test_ends_and_back_carry_the_load(width, load, spot):
    fill = {
        "load": f"{load} kg/m",
        "points": [{"load": "8 kg", "at": f"{spot * width:.1f} mm", "from_front": "60 mm"}],
    }
    beam, plate = shelf_1(findings(cupboard(NAILED, width=width, contents=fill)))
    for response in (plate.first_day, plate.crept):
        carried = response.ends + response.back
        assert carried == pytest.approx(response.total, rel=1e-6)
    case = next(n for n, c in enumerate(beam.cases) if c.kind == "contents")
    # the load runs up to the middle of the bearing, 3 mm beyond the clear width at each end
    spread = load * 1e-3 * G * (width + 6)
    assert plate.first_day.total[case] == pytest.approx(spread + 8 * G, rel=1e-3)


def test_lipping_creeps_with_its_shelf():
    # one material, one kdef: after years everything sags 1 + kdef times as much
    lip = {"material": "european-beech", "thickness": "20 mm", "height": "40 mm"}
    found = lone(
        {"load": "20 kg/m", "where": "front edge"}, material="european-beech",
        shelf={"lipping_front": lip},
    )  # fmt: skip
    beam, plate = shelf_1(found)
    assert beam.creep == pytest.approx(0.6)  # solid wood, class 1, EN 1995-1-1 Table 3.2
    assert plate.crept.w == pytest.approx(1.6 * plate.first_day.w, rel=1e-6)


# --- loads where they are --------------------------------------------------------------------


def test_load_on_the_front_edge_sags_more_there_than_spread_and_less_at_the_rear():
    spread = lone({"load": "20 kg/m", "points": [{"load": "1 g", "at": "1 mm",
                                                   "from_front": "1 mm"}]})  # fmt: skip
    front = lone({"load": "20 kg/m", "where": "front edge"})
    rear = lone({"load": "20 kg/m", "where": "rear edge"})
    plain = check(spread, "sag after years", "").value
    assert check(front, "sag after years", "").value > 1.05 * plain
    # front and rear are mirror images
    assert check(front, "sag after years", "").value == pytest.approx(
        check(rear, "sag after years", "").value, rel=1e-6
    )
    assert "load stands on an edge" in front.models[0]


def test_a_point_said_to_stand_at_the_front_edge_makes_a_plate_of_an_open_shelf():
    point = {"load": "10 kg", "at": "450 mm"}
    unsaid = lone({"points": [point]})
    said = lone({"points": [{**point, "from_front": "0 mm"}]})
    assert not unsaid.whole.plates
    assert said.whole.plates
    one, other = (check(found, "sag after years", "").value for found in (said, unsaid))
    assert one > other


def test_back_fixed_round_its_edge_only_holds_the_top_and_not_the_shelves():
    found = findings(cupboard({**NAILED, "holds": "edges"}))
    held = {place.part for place in found.whole.plates}
    assert held == {"bottom panel", "top panel"}
    assert any("round its edge only" in text for text in found.assumptions)


def test_half_of_a_bay_loaded_by_hand():
    q, L, a = 30e-3 * G, 906.0, 450.0
    found = lone({"load": "15 kg/m", "where": "left half"}, shelf={"bearing": "6 mm"})
    (beam,) = found.whole.beams
    case = next(n for n, c in enumerate(beam.cases) if c.kind == "contents")
    # all of 15 kg/m x 900 mm stands on the left 450 mm, 3 mm from the left support
    reaction = q * a * (L - 3.0 - a / 2) / L
    assert beam.result.reactions[case] == pytest.approx([reaction, q * a - reaction], rel=1e-9)
    assert not found.whole.plates


def test_half_loads_of_both_sides_add_up_to_the_whole():
    def sag(where):
        found = lone({"load": "15 kg/m", "where": where})
        (beam,) = found.whole.beams
        case = next(n for n, c in enumerate(beam.cases) if c.kind == "contents")
        return beam.result.at(np.array([453.0]))[0][case, 0]

    assert sag("left half") + sag("right half") == pytest.approx(2 * sag("all over"), rel=1e-9)


# --- verdicts and safe loads -----------------------------------------------------------------


@pytest.mark.parametrize("back", [NAILED, GLUED])
def test_safe_load_put_on_the_shelf_is_just_allowed(back):
    found = findings(cupboard(back))
    safe = next(load for load in found.safe_loads if load.place.part == "shelf 1")
    again = findings(cupboard(back, load=f"{safe.even_per_length / G * 1e3:.9f} kg/m"))
    ratios = [c.ratio for c in again.checks if c.place.part == "shelf 1" and c.value is not None]
    assert max(ratios) == pytest.approx(1.0, rel=1e-4)


def test_more_load_never_sags_less_and_never_raises_what_may_be_added():
    sags = [
        check(findings(cupboard(NAILED, load=f"{load} kg/m")), "sag after years").value
        for load in (2, 5, 10, 20)
    ]
    assert sags == sorted(sags)


def test_shelf_that_would_break_without_its_back_is_not_checked():
    raw = cupboard({**NAILED, "wall_spacing": "100 mm"}, load="110 kg/m")
    raw["unit"][0]["shelf"]["limit"] = "workshop"
    found = findings(raw)
    fixings = [c for c in found.checks if c.question == "fixings of the back"]
    assert any(c.place.part == "shelf 1" for c in fixings)
    assert all(c.verdict is Verdict.NOT_CHECKED for c in fixings)
    assert "would break" in fixings[0].reason


def test_back_that_would_buckle_is_left_out_where_the_beam_passes():
    thin = {**NAILED, "thickness": "2.1 mm", "spacing": "50 mm"}
    raw = cupboard(thin, width=600, load="110 kg/m")
    raw["unit"][0]["panel"] = {"material": "birch-plywood", "thickness": "24 mm"}
    found = findings(raw)
    assert check(found, "sag after years").verdict in (Verdict.PASSES, Verdict.CLOSE)
    assert any("not counted is its" in text for text in found.models)


def test_solid_wood_without_a_strength_across_falls_back_on_the_plain_beam_for_bending():
    raw = cupboard(NAILED, load="20 kg/m")
    raw["unit"][0]["panel"] = {"material": "european-oak", "thickness": "20 mm"}
    found = findings(raw)
    bare = cupboard(load="20 kg/m")
    bare["unit"][0]["panel"] = {"material": "european-oak", "thickness": "20 mm"}
    with_back = check(found, "bending")
    without = check(findings(bare), "bending")
    # the back takes 3.2 of 400 mm off the depth
    assert with_back.value == pytest.approx(without.value, rel=0.02)
    assert with_back.value >= without.value * (1 - 1e-3)


def test_inch_file_gives_the_same_plate():
    metric = findings(cupboard(NAILED, width=914.4, depth=406.4))
    inch = cupboard(NAILED, load="10 kg/m")
    inch["unit"][0]["depth"] = "16 in"
    for level in inch["unit"][0]["level"]:
        level["bays"] = ["3 ft"]
    assert check(findings(inch), "sag after years").value == pytest.approx(
        check(metric, "sag after years").value, rel=1e-9
    )


# --- pins and curves -------------------------------------------------------------------------


def test_shelf_on_pins_sags_more_than_on_whole_edges_and_pins_carry_all():
    pins = {"from_front": "40 mm", "from_rear": "40 mm"}
    load = {"load": "20 kg/m"}
    on_pins = lone(load, shelf={"pins": pins})
    beam, plate = shelf_1(on_pins)
    plain = check(lone(load), "sag after years", "").value
    assert check(on_pins, "sag after years", "").value > plain
    assert plate.first_day.corners.sum(axis=0) == pytest.approx(plate.first_day.total, rel=1e-6)
    case = unit_load(beam)
    # even load, pins placed alike front and rear: a quarter each
    assert plate.first_day.corners[:, case] == pytest.approx(
        np.full(4, plate.first_day.total[case] / 4), rel=1e-6
    )
    assert "four pins" in on_pins.models[0]


def test_pins_far_in_let_the_shelf_tip_off_and_that_is_not_a_pass():
    pins = {"from_front": "150 mm", "from_rear": "20 mm"}
    fill = {"points": [{"load": "20 kg", "at": "450 mm"}]}
    found = lone(fill, shelf={"pins": pins})
    held = check(found, "held down on its supports", "")
    assert held.verdict is Verdict.NOT_CHECKED
    assert "lifts off a pin" in held.reason


def test_curve_of_ever_larger_radius_is_the_straight_shelf():
    straight = lone({"load": "20 kg/m"})
    wanted = check(straight, "sag after years", "").value
    radius = 60_000.0  # mm
    arc = {"inner_radius": f"{radius} mm", "angle": f"{906.0 / (radius + 150.0)} rad"}
    curved = lone({"load": "20 kg/m"}, plan=arc)
    assert curved.whole.plates
    assert check(curved, "sag after years", "").value == pytest.approx(wanted, rel=0.01)


@pytest.mark.parametrize("front", ["inner", "outer"])
def test_curved_shelf_sags_more_than_its_straightened_middle_line(front):
    arc = {"inner_radius": "600 mm", "angle": "80 deg", "front": front}
    found = lone({"load": "10 kg/m"}, plan=arc)
    beam, plate = shelf_1(found)
    case = unit_load(beam)
    plain = beam.result.at(np.linspace(0, beam.result.spans[0, 1], 99))[0][case].max()
    assert plate.first_day.w[:, case].max() > plain
    assert plate.first_day.ends[case] == pytest.approx(plate.first_day.total[case], rel=1e-6)
    # load per length of the middle line
    assert plate.first_day.total[case] == pytest.approx(beam.result.spans[0, 1], rel=1e-6)
    outermost = plate.across[np.argmax(plate.first_day.w[:, case])]
    assert outermost == pytest.approx(0.0 if front == "outer" else 300.0)


def test_curved_shelf_that_lies_loose_lifts_at_a_corner():
    arc = {"inner_radius": "600 mm", "angle": "80 deg"}
    loose = lone({"load": "10 kg/m"}, plan=arc, fixed_down=False)
    assert check(loose, "held down on its supports", "").verdict is Verdict.NOT_CHECKED
    fixed = lone({"load": "10 kg/m"}, plan=arc)
    assert not [c for c in fixed.checks if c.question == "held down on its supports"]


# --- the example and the report --------------------------------------------------------------


def test_example_has_a_shelf_that_fails_as_a_beam_and_passes_by_its_back():
    text = example_text("paper-cupboards")
    description = read_text(text)
    found = assess(description.project, description.catalogue)
    (right,) = [unit for unit in description.project.unit if unit.name == "right cupboard"]
    sag = next(
        c
        for c in found.checks
        if (c.place.unit, c.place.part, c.question)
        == ("right cupboard", "shelf 2", "sag after years")
    )
    assert sag.verdict is Verdict.PASSES
    bare = description.project.model_copy(
        update={"unit": (right.model_copy(update={"back": None}),)}
    )
    open_back = assess(bare, description.catalogue)
    assert check(open_back, "sag after years", "shelf 2").verdict is Verdict.FAILS
    how = next(text for text in found.models if "right cupboard" in text and "plate" in text)
    assert "shelf 2" in how
    assert "plate on three edges" in how
    (figures,) = [text for text in found.models if text.startswith("right cupboard, shelf 2: ")]
    assert "passes; as a plain beam" in figures
    assert "fails" in figures


def test_report_names_the_model_and_the_plain_beam():
    shown = subprocess.run(
        [sys.executable, "-m", "shelfload", "check", "-"],
        input=example_text("paper-cupboards"),
        capture_output=True,
        text=True,
        encoding="utf-8",
        env={**os.environ, "COLUMNS": "400", "PYTHONIOENCODING": "utf-8"},
        timeout=60,
        check=False,
    )
    assert shown.returncode == 1, shown.stderr
    lines = shown.stdout.splitlines()
    how = next(x for x in lines if "right cupboard" in x and "plate on three edges" in x)
    assert "two ends and the back (sprung)" in how
    assert "Tempered hardboard back nailed every 100 mm holds its rear edge" in how
    figures = next(x for x in lines if "right cupboard, shelf 2: sag" in x)
    assert "passes; as a plain beam" in figures
    assert "fails (allowed" in figures


def test_two_spots_that_stand_as_long_are_each_counted_once():
    # superposition: both together are the two one by one
    near, far = ({"load": "20 kg", "at": at} for at in ("300 mm", "650 mm"))

    def whole(*points):
        brief = [{**point, "duration": "short-term"} for point in points]
        beam, plate = shelf_1(findings(cupboard(GLUED, contents={"points": brief})))
        spots = [n for n, case in enumerate(beam.cases) if case.kind == "spot"]
        return plate.first_day.w[:, spots].sum(axis=1), plate.first_day.total[spots].sum()

    w, total = whole(near, far)
    assert total == pytest.approx(40.0 * 9.80665, rel=1e-9)
    alone = [whole(point)[1] for point in (near, far)]
    assert alone == pytest.approx([20.0 * 9.80665] * 2, rel=1e-9)
    assert w.max() < sum(whole(point)[0].max() for point in (near, far)) * 1.01
