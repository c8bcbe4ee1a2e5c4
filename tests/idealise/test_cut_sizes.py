"""Cut sizes against sums worked by hand from the descriptions; no source but arithmetic.

Thicknesses are those ordered. Sizes are written here as the sums a person would make.
"""

from __future__ import annotations

import copy
from collections import Counter
from math import cos, pi, radians, sin

import pytest
from described import BOARD, unit
from hypothesis import given
from hypothesis import strategies as st

from shelfload.check.slipping import ASSUMED_PLAY
from shelfload.describe.examples import example_names, example_text
from shelfload.describe.reader import read_raw, read_text
from shelfload.idealise.cut_horizontals import LOOSE_PLAY
from shelfload.idealise.panels import cut_list, sheets
from shelfload.idealise.stack import unit_stack
from shelfload.idealise.weights import unit_weights

G = 9.80665  # m/s2, standard gravity (CGPM 1901)
IN = 25.4  # mm, exact


def cut(*units, shelf=(), **more):
    raw = {"materials": {"board": BOARD}, "fixings": {}, **more}
    if units:
        raw["unit"] = [copy.deepcopy(one) for one in units]
    if shelf:
        raw["shelf"] = list(shelf)
    description = read_raw(raw)
    return cut_list(description.project, description.catalogue)


def sizes(found, unit=None, kind=None):
    """Count pieces by size, to a tenth of a millimetre."""
    counted = Counter()
    for row in found.rows:
        panel = row.panel
        if unit in (None, panel.unit) and kind in (None, panel.kind):
            size = (panel.length.total, panel.width.total, panel.thickness)
            counted[tuple(round(value, 1) for value in size)] += row.count
    return counted


def listed(*pieces):
    counted = Counter()
    for count, length, width, thickness in pieces:
        counted[round(length, 1), round(width, 1), round(thickness, 1)] += count
    return counted


def one(found, part):
    (row,) = [row for row in found.rows if part in row.parts]
    return row


# Left cupboard, by hand. Outside 400 deep, 6.5 back over the rear edges: all else 393.5 deep.
# Heights: five horizontals of 18 and clear 420, 360, 360, 420: 90 + 1560 = 1650, the sides.
# Divider: stands under shelf 3, which runs through: three horizontals that are cut at it and
# the clear heights below: 3 x 18 + 420 + 360 + 360 = 1194.
# Bottom, shelf 1, shelf 2: two pieces each, 620 and two housings of 6: 632.
# Shelf 3: 620 + 18 + 620 + 12 = 1270; the top: 1258 + 12 = 1270.
# Back: outside 18 + 620 + 18 + 620 + 18 = 1294 wide.
EXPECTED = {
    "paper-cupboards": listed(
        (2, 5 * 18 + 420 + 360 + 360 + 420, 400 - 6.5, 18),
        (1, 3 * 18 + 420 + 360 + 360, 400 - 6.5, 18),
        (6, 620 + 6 + 6, 400 - 6.5, 18),
        (1, 620 + 18 + 620 + 6 + 6, 400 - 6.5, 18),
        (1, 1258 + 6 + 6, 400 - 6.5, 18),
        (1, 5 * 18 + 420 + 360 + 360 + 420, 3 * 18 + 620 + 620, 6.5),
        (2, 4 * 19 + 3 * 400, 400 - 3.2, 19),
        (4, 900 + 6 + 6, 400 - 3.2, 19),
        (1, 4 * 19 + 3 * 400, 900 + 2 * 19, 3.2),
    ),
    # panels over the 12 mm sides: full width; sides and dividers as high as the level is clear
    "bench-boxes": listed(
        (2, 14 * IN, 12 * IN - 6.5, 12),
        (2, 12 * IN, 12 * IN - 6.5, 12),
        (4, 14 * IN, 12 * IN - 6.5, 12),
        (4, 12 * IN, 12 * IN - 6.5, 12),
        (4, 3 * 24 * IN + 2 * 24 + 2 * 12, 12 * IN - 6.5, 12),
    ),
    "print-display": listed(
        (2, 4 * 18 + 250 + 300 + 300, 300, 18),
        (4, 1000 + 9 + 9, 300 - 20, 18),
        (4, 1000, 45, 20),
        (1, 1500 + 40 + 40, 700, 24),
        # a ring from 700 to 1000 over 60 degrees is cut from its outer chord by the height
        # from the inner corners to the top of the outer edge
        (1, 2 * 1000 * sin(radians(30)), round(1000 - 700 * cos(radians(30)), 1), 18),
    ),
    "tall-store": listed(
        (2, 6 * 18 + 400 + 380 + 380 + 360 + 300, 350 - 6.5, 18),
        (5, 700 + 6 + 6, 350 - 6.5, 18),
        (1, 700 - 1, 350 - 6.5, 18),
        (1, 6 * 18 + 400 + 380 + 380 + 360 + 300, 700 + 2 * 18, 6.5),
    ),
    # bearing as wide as the 15 mm side: panels over the sides
    "wall-cupboard": listed(
        (2, 220, 260 - 6.5, 15),
        (2, 200, 260 - 6.5, 15),
        (3, 850 + 2 * 15, 260 - 6.5, 15),
        (1, 3 * 15 + 220 + 200, 850 + 2 * 15, 6.5),
        (1, 850 + 2 * 15, 90, 18),
        (1, 1300, 220, 18),
    ),
    "bench-bridge": listed(
        (4, 4 * 18 + 420 + 420 + 360, 320 - 6.5, 18),
        (8, 340 + 6 + 6, 320 - 6.5, 18),
        (2, 4 * 18 + 420 + 420 + 360, 340 + 2 * 18, 6.5),
        (4, 320, 320 - 9, 18),
        (3, 560.5 + 574 + 560.5 + 4 * 18, 320 - 9, 18),
        (1, 3 * 18 + 320, 560.5 + 574 + 560.5 + 4 * 18, 9),
    ),
}


@pytest.mark.parametrize("name", EXPECTED)
def test_sizes_of_example_are_the_sums_made_by_hand(name):
    description = read_text(example_text(name))
    found = cut_list(description.project, description.catalogue)
    got = sizes(found)
    if name == "bench-boxes":
        backs = sizes(found, kind="back")
        got -= backs
        # each box has its own back: a bay, the side or half of the double divider at both ends
        width = 24 * IN + 12 + 12
        assert backs == listed((3, 14 * IN + 2 * 12, width, 6.5), (3, 12 * IN + 2 * 12, width, 6.5))
    assert got == EXPECTED[name]


@pytest.mark.parametrize("name", example_names())
def test_every_size_of_an_example_is_the_sum_of_its_parts_and_weighs_what_the_unit_does(name):
    description = read_text(example_text(name))
    found = cut_list(description.project, description.catalogue)
    assert found.rows
    for row in found.rows:
        for size in (row.panel.length, row.panel.width):
            assert size.total > 0
            assert size.terms
        assert row.panel.mass > 0
    for whole in description.project.unit:
        mass = sum(row.count * row.panel.mass for row in found.rows if row.panel.unit == whole.name)
        rail = sum(row.panel.mass for row in found.rows
                   if row.panel.unit == whole.name and row.panel.kind == "rail")  # fmt: skip
        # weights count uprights at full depth and shelves at the clear width: a few percent
        dead = unit_weights(whole, description.catalogue).dead / G
        assert mass - rail == pytest.approx(dead, rel=0.05)


def test_play_of_loose_shelves_is_that_of_slipping_off():
    assert LOOSE_PLAY == ASSUMED_PLAY


def board(**more):
    return unit(heights=(300, 400), bays=(500, 600), **more)


def test_unsaid_bearing_is_a_6_mm_housing_and_said():
    found = cut(board())
    assert one(found, "shelf 1, bay 1").panel.length.total == 500 + 6 + 6
    assert any("no bearing is described" in text for text in found.said)


def test_butted_ends_are_cut_to_the_clear_width():
    found = cut(board(joins={"shelves": "screws"}))
    panel = one(found, "shelf 1, bay 1").panel
    assert panel.length.total == 500
    assert (panel.fit, panel.bearing) == ("butted", 0.0)
    assert not any("no bearing" in text for text in found.said)


def test_shelves_on_cleats_or_pins_lose_their_play_only():
    cleat = cut(board(joins={"shelves": {"by": "cleat"}}, shelf={"bearing": "20 mm"}))
    assert one(cleat, "shelf 1, bay 1").panel.length.total == 500
    loose = cut(board(shelf={"bearing": "20 mm", "loose": True}))
    panel = one(loose, "shelf 1, bay 1").panel
    assert panel.length.total == 500 - LOOSE_PLAY
    assert panel.bearing == 20 - LOOSE_PLAY / 2
    pins = {"from_front": "40 mm", "from_rear": "40 mm"}
    pinned = cut(board(shelf={"bearing": "8 mm", "pins": pins, "play": "3 mm"}))
    assert one(pinned, "shelf 1, bay 1").panel.length.total == 500 - 3


def test_two_shelves_meet_over_the_middle_of_a_divider():
    found = cut(board(base="plinth", shelf={"bearing": "20 mm"}))
    panel = one(found, "shelf 1, bay 1").panel
    # over the 20 mm side, and over half of the 20 mm divider
    assert panel.length.total == 500 + 20 + 10
    assert panel.edges == ("front", "left end")
    # the divider is cut at every shelf, and so are the sides
    assert sizes(found, kind="divider") == listed((1, 300, 300, 20), (1, 400, 300, 20))
    assert sizes(found, kind="side") == listed((2, 300, 300, 20), (2, 400, 300, 20))
    assert any("more than half of the divider" in text for text in found.said)


def test_bottom_panel_spans_between_the_sides_unless_a_plinth_carries_the_divider():
    between = cut(board(base="sides", shelf={"bearing": "5 mm"}))
    assert one(between, "bottom panel").panel.length.total == 500 + 20 + 600 + 5 + 5
    # the divider stands on it and runs on through shelf 1 and the top: 300 + 20 + 400 + 20
    assert sizes(between, kind="divider") == listed((1, 300 + 20 + 400 + 20, 300, 20))
    plinth = cut(board(base="plinth", shelf={"bearing": "5 mm"}))
    assert one(plinth, "bottom panel, bay 2").panel.length.total == 600 + 5 + 5
    assert sizes(plinth, kind="divider") == listed((1, 20 + 300 + 20 + 400 + 20, 300, 20))


def test_divider_with_none_above_stops_under_a_panel_through():
    raw = unit(heights=(300, 400), shelf={"bearing": "5 mm"})
    raw["level"][0]["bays"] = ["470 mm", "470 mm"]
    raw["level"][1]["bays"] = ["960 mm"]
    raw["level"][1]["shelf"] = {"runs": "through", "bearing": "5 mm"}
    found = cut(raw)
    assert sizes(found, kind="divider") == listed((1, 300, 300, 20))
    assert one(found, "shelf 1").panel.length.total == 470 + 20 + 470 + 5 + 5
    # without a panel through, the divider comes up between the two halves of shelf 1
    del raw["level"][1]["shelf"]
    found = cut(raw)
    assert sizes(found, kind="divider") == listed((1, 300 + 20, 300, 20))


def test_doubled_shelf_is_two_panels_and_parts_the_sides_of_boxes():
    double = {"panels": 2, "joined": "screwed", "bearing": "5 mm", "runs": "through"}
    whole = cut(board(shelf=double))
    assert one(whole, "shelf 1, lower panel").count >= 2
    height = 6 * 20 + 300 + 400
    assert sizes(whole, kind="side") == listed((2, height, 300, 20))
    boxes = cut(board(shelf=double, comes_apart="levels"))
    # between the two panels of shelf 1: bottom double, 300 and one panel; then the rest
    lower, upper = 2 * 20 + 300 + 20, 20 + 400 + 2 * 20
    assert sizes(boxes, kind="side") == listed((2, lower, 300, 20), (2, upper, 300, 20))


def test_lower_panel_of_a_double_may_be_another():
    second = {"material": "mdf", "thickness": "12 mm"}
    double = {"panels": 2, "joined": "glued", "second": second, "bearing": "5 mm"}
    raw = unit(heights=(300,), top=double, shelf={"bearing": "5 mm"})
    found = cut(raw)
    assert one(found, "top panel, lower panel").panel.thickness == 12
    assert one(found, "top panel, lower panel").panel.grain == "none"
    assert sizes(found, kind="side") == listed((2, 20 + 300 + 12 + 20, 300, 20))


def test_webs_lippings_and_strips_are_in_the_list():
    shelf = {
        "panels": 2, "joined": "glued", "bearing": "5 mm",
        "hollow": {"height": "30 mm", "web": "20 mm", "webs": 3},
        "lipping_front": {"material": "board", "thickness": "15 mm", "height": "60 mm"},
        "strips": [{"material": "board", "width": "25 mm", "height": "40 mm", "fixed": "glued"}],
    }  # fmt: skip
    found = cut(unit(top=shelf, shelf={"bearing": "5 mm"}))
    webs = one(found, "top panel, web")
    assert (webs.count, webs.panel.length.total, webs.panel.width.total) == (3, 970, 30)
    lip = one(found, "top panel, front lipping").panel
    assert (lip.length.total, lip.width.total, lip.thickness) == (960, 60, 15)
    strip = one(found, "top panel, under strip").panel
    assert (strip.length.total, strip.width.total, strip.thickness) == (960, 40, 25)
    upper = one(found, "top panel, upper panel").panel
    assert upper.width.total == 300 - 15
    assert upper.edges == ()
    assert lip.edges == ("front",)


def test_backs_of_two_kinds_meet_behind_the_middle_of_a_shelf():
    back = {"material": "board", "fixed": "glued"}
    raw = board(back={**back, "thickness": "6 mm"}, shelf={"bearing": "5 mm"})
    raw["level"][1]["back"] = {**back, "thickness": "9 mm"}
    found = cut(raw)
    width = 20 + 500 + 20 + 600 + 20
    assert sizes(found, kind="back") == listed(
        (1, 20 + 300 + 10, width, 6), (1, 10 + 400 + 20, width, 9)
    )
    # the sides run past both: as deep as the thicker back leaves
    assert sizes(found, kind="side") == listed((2, 3 * 20 + 300 + 400, 300 - 9, 20))


def test_back_of_one_level_covers_the_panels_below_and_above_it():
    raw = board(shelf={"bearing": "5 mm"})
    raw["level"][0]["back"] = {"material": "board", "thickness": "6 mm", "fixed": "glued"}
    assert sizes(cut(raw), kind="back") == listed((1, 20 + 300 + 20, 1160, 6))


def test_sheet_without_a_grain_says_so_and_grain_across_is_kept():
    board_ = {"material": "mdf", "thickness": "18 mm"}
    found = cut(unit(panel=board_, shelf={"bearing": "5 mm", "grain": "across"}))
    assert {row.panel.grain for row in found.rows} == {"none"}
    found = cut(unit(shelf={"bearing": "5 mm", "grain": "across"}))
    assert one(found, "top panel").panel.grain == "along the width"


def lone(**more):
    return {
        "name": "desk",
        "depth": "600 mm",
        "shelf": {"material": "board", "thickness": "20 mm", "bearing": "40 mm"},
        **more,
    }


def test_lone_shelf_reaches_over_its_supports():
    found = cut(shelf=[lone(spans=["700 mm", "800 mm"], overhang_right="120 mm")])
    # left bearing, span, inner support of 20, span, half the right bearing and the overhang
    assert sizes(found) == listed((1, 40 + 700 + 20 + 800 + 20 + 120, 600, 20))


def test_curved_shelf_is_a_blank_with_two_radii():
    plan = {"inner_radius": "1000 mm", "angle": "60 deg"}
    found = cut(shelf=[lone(depth="300 mm", plan=plan)])
    (row,) = found.rows
    panel = row.panel
    # chord of the outer edge 2 R sin 30; from the inner corners r cos 30 to the crown R
    assert panel.length.total == pytest.approx(2 * 1300 * sin(radians(30)))
    assert panel.width.total == pytest.approx(1300 - 1000 * cos(radians(30)))
    assert (panel.bend.inner_radius, panel.bend.outer_radius) == (1000, 1300)
    area = radians(60) / 2 * (1300**2 - 1000**2)
    assert panel.mass == pytest.approx(500e-9 * 20 * area)


def test_lipped_curved_shelf_loses_its_lipping_from_the_radius():
    plan = {"inner_radius": "400 mm", "angle": "120 deg"}
    lip = {"material": "board", "thickness": "20 mm", "height": "40 mm"}
    shelf = {**lone()["shelf"], "lipping_front": lip}
    found = cut(shelf=[lone(depth="300 mm", plan=plan, shelf=shelf)])
    ring = one(found, "shelf").panel
    assert ring.bend.outer_radius == 700 - 20
    assert ring.length.total == pytest.approx(2 * 680 * sin(radians(60)))
    assert ring.width.total == pytest.approx(680 - 400 * cos(radians(60)))
    strip = one(found, "shelf, front lipping").panel
    assert strip.length.total == pytest.approx(120 / 180 * pi * 700)


def corners(row, off):
    """Corners of a slab in plan, whose ends lie ``off`` inside lines along the radius [mm]."""
    bend = row.panel.bend
    half = bend.angle / 2
    found = []
    for r in (bend.inner_radius, bend.outer_radius):
        # on the line at the half angle, moved ``off`` towards the middle, at distance r from 0
        along = (r**2 - off**2) ** 0.5
        found.append((along * sin(half) - off * cos(half), along * cos(half) + off * sin(half)))
    return found


@pytest.mark.parametrize("front", ["outer", "inner"])
def test_shelf_of_a_curved_unit_is_cut_between_the_faces_of_its_uprights(front):
    raw = unit(bays=(960,), shelf={"bearing": "8 mm"})
    raw["plan"] = {"inner_radius": "850 mm", "front": front}
    raw["back"] = {"material": "board", "thickness": "4 mm", "fixed": "glued"}
    found = cut(raw)
    row = one(found, "top panel")
    bend = row.panel.bend
    # middles of the sides 960 + 20 apart on the middle radius of 1000 mm
    assert bend.angle == pytest.approx(0.98)
    assert (bend.inner_radius, bend.outer_radius) == (
        (854.0, 1150.0) if front == "outer" else (850.0, 1146.0)
    )
    # half of 20 mm less the 8 mm that go in
    inner, outer = corners(row, 10.0 - 8.0)
    assert row.panel.length.total == pytest.approx(2 * outer[0])
    assert row.panel.width.total == pytest.approx(bend.outer_radius - inner[1])
    back = one(found, "back")
    # sides 20 mm each, and between their middles the angle times the radius of its middle
    radius = 852.0 if front == "outer" else 1148.0
    assert back.panel.width.total == pytest.approx(0.98 * radius + 20.0)


def test_unit_of_vast_radius_is_cut_as_the_straight_one():
    straight = cut(unit(bays=(470, 470), heights=(300, 300)))
    curved = cut({**unit(bays=(470, 470), heights=(300, 300)), "plan": {"inner_radius": "900 m"}})
    assert [row.count for row in curved.rows] == [row.count for row in straight.rows]
    for a, b in zip(curved.rows, straight.rows, strict=True):
        assert a.panel.length.total == pytest.approx(b.panel.length.total, rel=1e-3)
        assert a.panel.width.total == pytest.approx(b.panel.width.total, abs=0.4)
    assert curved.mass == pytest.approx(straight.mass, rel=1e-3)


def test_sheets_count_area_over_what_waste_leaves():
    description = read_text(example_text("paper-cupboards"))
    found = cut_list(description.project, description.catalogue)
    wanted = {
        (one.material, one.thickness): one
        for one in sheets(found, (2440.0, 1220.0), 0.15, description.catalogue)
    }
    ply = wanted["birch-plywood", 18.0]
    area = 393.5 * (2 * 1650 + 1194 + 6 * 632 + 2 * 1270)
    assert ply.area == pytest.approx(area)
    # 4.26 m2 of 2.98 m2 less 15 %: 1.68 sheets
    assert ply.count == 2
    tight = sheets(found, (2440.0, 1220.0), 0.0, description.catalogue)
    assert all(less.count <= wanted[less.material, less.thickness].count for less in tight)


def test_panel_larger_than_a_sheet_is_named():
    description = read_text(example_text("paper-cupboards"))
    found = cut_list(description.project, description.catalogue)
    (back,) = [row for row in found.rows if row.panel.kind == "back" and row.panel.thickness > 6]
    all_sheets = sheets(found, (2440.0, 1220.0), 0.15, description.catalogue)
    # 1650 x 1294 is wider than 1220 either way round; everything else fits
    assert [number for sheet in all_sheets for number in sheet.too_large] == [back.number]


@pytest.mark.parametrize("grain", ["along", "across"])
def test_grain_decides_whether_a_long_panel_fits(grain):
    raw = unit(bays=(2300,), depth=600, shelf={"bearing": "5 mm", "grain": grain})
    description = read_raw({"materials": {"board": BOARD}, "unit": [raw]})
    found = cut_list(description.project, description.catalogue)
    (sheet,) = sheets(found, (2440.0, 1220.0), 0.15, description.catalogue)
    assert bool(sheet.too_large) is (grain == "across")


@pytest.mark.parametrize("name", example_names())
def test_panels_are_as_long_and_deep_as_the_beams_that_are_checked(name):
    description = read_text(example_text(name))
    found = cut_list(description.project, description.catalogue)
    cut_ = {
        (row.panel.unit, part.removesuffix(", lower panel")): row.panel
        for row in found.rows
        for part in row.parts
        if row.panel.kind == "shelf"
    }
    compared = 0
    for whole in description.project.unit:
        for beam in unit_stack(whole, description.project.site, description.catalogue).shelves:
            if beam.shelf.loose:
                continue  # cut short by its play; the beam spans from cleat to cleat
            part = ", ".join(filter(None, (beam.place.part, beam.place.bay)))
            panel = cut_[whole.name, part]
            ends = beam.supports[-1].at - beam.supports[0].at
            if beam.plan is not None:
                # a blank; the ring is as deep as the sector, whose true span is at its outer edge
                assert panel.bend.inner_radius == beam.plan.inner_radius
                assert panel.bend.outer_radius - panel.bend.inner_radius == beam.shape.depth
                chord = 2 * panel.bend.outer_radius * sin(beam.plan.angle / 2)
                assert panel.length.total == pytest.approx(chord + beam.supports[0].bearing, abs=1)
                compared += 1
                continue
            # supports stand in the middle of the bearings: half of one more at both ends
            assert panel.length.total == pytest.approx(ends + beam.supports[0].bearing)
            edges = [beam.shelf.lipping_front, beam.shelf.lipping_rear]
            lips = sum(lip.thickness for lip in edges if lip is not None)
            assert panel.width.total + lips == pytest.approx(beam.shape.depth)
            compared += 1
    assert compared or not description.project.unit


LENGTHS = st.integers(200, 900)


@given(
    heights=st.lists(LENGTHS, min_size=1, max_size=4),
    bays=st.lists(LENGTHS, min_size=1, max_size=4),
    bearing=st.sampled_from([0, 5, 9, 12, 20]),
    base=st.sampled_from(["sides", "plinth", "flat"]),
    runs=st.sampled_from(["between", "through"]),
    apart=st.sampled_from(["no", "levels", "boxes"]),
)
def test_what_stands_and_what_lies_fill_the_outside_of_any_unit(
    heights, bays, bearing, base, runs, apart
):
    shelf = {"runs": runs} | ({"bearing": f"{bearing} mm"} if bearing else {})
    joins = {} if bearing else {"joins": {"shelves": "screws"}}
    found = cut(
        unit(heights=heights, bays=bays, shelf=shelf, base=base, comes_apart=apart, **joins)
    )
    levels = len(heights)
    # upwards: one side, and the panels that lie over it
    sides = sum(
        row.count * row.panel.length.total for row in found.rows if row.panel.kind == "side"
    )
    over = (levels + 1) * 20 if bearing == 20 else 0
    assert sides / 2 + over == sum(heights) + (levels + 1) * 20
    # across: shelf 1 or the top, less what is sunk into uprights, and the uprights not covered
    top = [
        row.panel.length.total
        for row in found.rows
        for part in row.parts
        if part.startswith("top panel")
    ]
    pieces = len(bays) if runs == "between" else 1
    assert len(top) == pieces
    inner = sum(bays) + 20 * (len(bays) - 1)
    into_dividers = 2 * (pieces - 1) * min(bearing, 10)
    between = 20 * (pieces - 1)
    assert sum(top) == inner - between + into_dividers + 2 * bearing
    # every divider is cut as often as it is crossed
    for row in found.rows:
        if row.panel.kind == "divider":
            assert row.panel.length.total <= sum(heights) + (levels + 1) * 20
