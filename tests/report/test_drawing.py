"""Drawings: to scale, with the figures of the report, and valid SVG whatever is written in it."""

from __future__ import annotations

import re
from math import cos, sin
from xml.etree import ElementTree

import pytest
from described import findings, unit
from hostile import SHORT, description
from outcomes import example_outcome

import shelfload
from shelfload.check.join_line import JoinLine
from shelfload.check.result import Verdict
from shelfload.describe.examples import example_names
from shelfload.errors import UnknownName
from shelfload.idealise.place import Place
from shelfload.report.drawing import drawings, groups, standalone, together
from shelfload.report.screw_layout import screw_layout
from shelfload.report.states import exaggeration, sag_shapes, states
from shelfload.report.svg import inner, visible

SVG = "{http://www.w3.org/2000/svg}"


def parsed(drawing):
    return ElementTree.fromstring(inner(drawing, ""))


def texts(drawing):
    return ["".join(node.itertext()) for node in parsed(drawing).iter(f"{SVG}text")]


def boards(drawing, kind="d-board"):
    return [
        {key: float(node.get(key)) for key in ("x", "y", "width", "height")}
        for node in parsed(drawing).iter(f"{SVG}rect")
        if node.get("class") == kind
    ]


@pytest.mark.parametrize("name", list(example_names()))
@pytest.mark.parametrize("system", ["metric", "inch"])
def test_file_of_each_example_is_valid_and_says_what_it_shows(name, system):
    outcome = example_outcome(name)
    drawn = drawings(outcome.findings, system)
    root = ElementTree.fromstring(
        standalone(outcome.title, drawn, together(outcome.findings, system))
    )
    assert root.find(f"{SVG}title").text == outcome.title
    inside = [node for node in root.iter(f"{SVG}svg") if node is not root]
    assert len(inside) >= 2 * len(drawn)
    for node in inside:
        assert node.find(f"{SVG}title").text
        assert node.find(f"{SVG}desc").text
    ids = [node.get("id") for node in root.iter() if node.get("id")]
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("name", list(example_names()))
def test_everything_drawn_lies_on_its_sheet(name):
    findings_ = example_outcome(name).findings
    sheets = [view for one in drawings(findings_, "metric") for view in (*one.views, *one.layouts)]
    for drawing in [*sheets, *together(findings_, "metric")]:
        for node in parsed(drawing).iter(f"{SVG}rect"):
            if node.get("width") is None or node.get("x") is None:
                continue
            x, y = float(node.get("x")), float(node.get("y"))
            assert x >= 0.0
            assert y >= -1e-6
            assert x + float(node.get("width")) <= drawing.width + 1e-6
            assert y + float(node.get("height")) <= drawing.height + 1e-6


def test_inch_drawings_show_no_millimetre_and_the_other_way_round():
    outcome = example_outcome("paper-cupboards")
    for system, foreign in (("metric", r"\d (in|lb)\b"), ("inch", r"\d (mm|kg)\b")):
        for one in drawings(outcome.findings, system):
            for view in one.views:
                assert not [text for text in texts(view) if re.search(foreign, text)]


def test_elevation_is_to_scale_in_both_directions():
    # sides of 20 mm, 960 mm clear, 360 mm high between two boards of 20 mm: 1000 x 400 mm
    found = findings(unit())
    front = drawings(found, "metric")[0].views[0]
    drawn = [one for one in boards(front) if one["width"] != 18.0]  # a swatch of the key
    left = min(one["x"] for one in drawn)
    right = max(one["x"] + one["width"] for one in drawn)
    top = min(one["y"] for one in drawn)
    low = max(one["y"] + one["height"] for one in drawn)
    assert (right - left) / 1000.0 == pytest.approx((low - top) / 400.0, rel=1e-3)
    assert {"1000 mm", "400 mm", "360 mm", "960 mm"} <= set(texts(front))


def test_sag_shape_is_as_deep_as_the_report_says_and_level_at_its_supports():
    found = findings(unit(loads=(30,)))
    (bottom,) = [one for one in sag_shapes(found, "box") if one.beam.place.part == "bottom panel"]
    sag = next(c for c in found.checks if c.place == bottom.beam.place and "sag" in c.question)
    assert max(bottom.sag) == pytest.approx(sag.value, rel=1e-9)
    assert bottom.sag[[0, -1]] == pytest.approx([0.0, 0.0], abs=1e-6)
    assert bottom.sag == pytest.approx(bottom.sag[::-1], rel=1e-6)  # symmetric load, symmetric sag


@pytest.mark.parametrize(
    ("largest", "expected"), [(0.0, 1), (100.0, 0.1), (16.0, 1), (7.9, 2), (0.0031, 5000)]
)
def test_exaggeration_is_a_round_number_that_fits(largest, expected):
    assert exaggeration(largest, 1.0, 16.0) == expected


def test_state_of_a_shelf_is_its_gravest_check():
    found = findings(unit(loads=(400,)))
    state = states(found, "box")["bottom panel"]
    here = [c for c in found.checks if c.place.part == "bottom panel"]
    assert state.verdict is Verdict.FAILS
    assert state.used == max(c.ratio for c in here if c.verdict is Verdict.FAILS)
    front = drawings(found, "metric")[0].views[0]
    assert any("FAILS" in text for text in texts(front))
    assert "u1-front-fails" in front.body


def test_marks_of_a_join_are_to_scale_and_dimensioned_from_one_end():
    line = JoinLine(
        place=Place(unit="box", part="shelf 1"), join="a to b", by="screws", demountable="yes",
        fastener="screw 4 mm x 35 mm", count=3, positions=(30.0, 150.0, 270.0), edge=20.0,
        along="along the depth",
    )  # fmt: skip
    drawing = screw_layout(line, 1, "j", "metric")
    marks = [float(n.get("cx")) for n in parsed(drawing).iter(f"{SVG}circle")]
    (board,) = boards(drawing)
    per_mm = board["width"] / 300.0  # first mark from the left end, last one from the right
    assert marks == pytest.approx([board["x"] + at * per_mm for at in line.positions], abs=0.02)
    assert {"30 mm", "150 mm", "270 mm", "300 mm"} <= set(texts(drawing))
    assert "at least 20 mm from an edge" in " ".join(texts(drawing))


def test_join_without_marks_has_no_layout():
    line = JoinLine(place=Place(unit="box"), join="a to b", by="glue", demountable="no")
    assert screw_layout(line, 1, "j", "metric") is None


def test_units_on_each_other_are_drawn_together_and_others_alone():
    whole = example_outcome("bench-bridge").findings.whole
    assert groups(whole) == [{"left tower", "right tower", "bridge"}]
    assert together(example_outcome("paper-cupboards").findings, "metric") == []


def test_unknown_unit_is_named_with_the_nearest():
    with pytest.raises(UnknownName, match="left tower"):
        drawings(example_outcome("bench-bridge").findings, "metric", "left towr")


def test_hostile_text_stays_text():
    outcome = shelfload.check_mapping(description())
    drawn = drawings(outcome.findings, "metric")
    root = ElementTree.fromstring(standalone(outcome.title, drawn))
    found = {node.tag.removeprefix(SVG) for node in root.iter()}
    assert not found & {"script", "b", "i", "img", "a", "foreignObject", "image", "use"}
    assert not [node for node in root.iter() for name in node.attrib if name.startswith("on")]
    assert any(SHORT[:20] in "".join(node.itertext()) for node in root.iter(f"{SVG}text"))


def test_hidden_characters_are_made_visible():
    # U+202E turns the reading direction, U+0007 rings a bell, U+200B is nothing at all
    assert visible("a\u202eb\u0007c\u200bd\ne") == "a\ufffdb\ufffdc\ufffdd e"


@pytest.mark.parametrize("front", ["outer", "inner"])
def test_curved_unit_is_drawn_as_a_ring_with_its_front_at_the_foot(front):
    bow = unit(name="bow", heights=(350, 350), bays=(490, 490), base="plinth")
    bow["level"][1] |= {"bays": ["1000 mm"]}
    bow["plan"] = {"inner_radius": "900 mm", "front": front}
    bow["back"] = {"material": "board", "thickness": "4 mm", "fixed": "glued"}
    found = findings(bow)
    (drawn,) = drawings(found, "metric")
    elevation, plan = drawn.views
    assert "unrolled" in elevation.title
    assert "1040 mm along the middle" in plan.description
    assert f"the front is the {front} edge" in plan.description
    outline, *_ = re.findall(r'd="M([^"Z]*) Z"', plan.body)
    places = [tuple(map(float, pair.split(","))) for pair in outline.split(" L")]
    x, y = zip(*places, strict=True)
    # 1040 mm on a middle radius of 1050 mm: chord and rise of the ring
    half = 1040 / 1050 / 2
    per_mm = (max(x) - min(x)) / (2 * 1200 * sin(half))
    assert max(y) - min(y) == pytest.approx(per_mm * (1200 - 900 * cos(half)), rel=1e-2)
    # the first half is the rear: a bow's bulges down to the front, a hollow's up to the rear
    assert (y[len(y) // 4] > y[0]) == (front == "outer")
    everything = standalone("bow", [drawn])
    assert ElementTree.fromstring(everything).tag.endswith("svg")
