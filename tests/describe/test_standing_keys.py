"""What is said of walls, floors, neighbours and fixings: accepted, and mistakes told."""

from __future__ import annotations

import pytest
from described import project, unit

from shelfload.describe.reader import read_raw, read_text
from shelfload.errors import DescriptionError


def told(*units, **more):
    with pytest.raises(DescriptionError) as caught:
        read_raw(project(*units, **more))
    return [str(mistake) for mistake in caught.value.mistakes]


@pytest.mark.parametrize(
    ("site", "wanted"),
    [
        ({"wall": "plaster board"}, "Did you mean plasterboard?"),
        ({"wall": "unknwon"}, "Did you mean unknown?"),
        ({"wall": "no fixing alowed"}, "Did you mean no fixing allowed?"),
        ({"wall": "solid brick", "stud_spacing": "400 mm"}, "stud_spacing with wall"),
        ({"floor": {"kind": "wood"}}, "site.floor.kind: found 'wood'"),
        ({"floor": {"joist": {}}}, "Did you mean joists?"),
        ({"floor": {"sheet": {"material": "osb-3", "thickness": "18 mm"}}}, "battens"),
        ({"floor": {"allowed": "40 kg"}}, "a load per area"),
        ({"lifters": 0}, "site.lifters"),
        ({"wall_layers": [{"what": "board", "thickness": 12}]}, '"12 mm"'),
    ],
)
def test_mistakes_of_a_site_are_told_with_what_is_allowed(site, wanted):
    found = told(unit(), site=site)
    assert any(wanted in line for line in found), found


@pytest.mark.parametrize(
    ("keys", "wanted"),
    [
        ({"on": "bix"}, "unit[1].on: found 'bix'"),
        ({"on": ["other", "box"]}, "unit[1].on[2]: found 'box'; allowed: another unit than itself"),
        ({"between": {"left": "other", "right": "othr"}}, "Did you mean other?"),
        (
            {"hangs": {"screw": "coach-screw-9", "length": "80 mm"}},
            "mean coach-screw-8, coach-screw-6 or coach-screw-10?",
        ),
        (
            {"hangs": {"screw": "No. 10 x 3 in", "length": "80 mm"}},
            "a length in screw and in length",
        ),
        ({"back": {"rabbet": "9 mm"}}, "There is no key for one let into a rebate"),
        ({"hangs": {"screw": "coach-screw-8"}}, "screw and length not both said"),
        ({"hangs": {"maker": "ancor"}}, "Did you mean anchor?"),
        (
            {"hangs": {"maker": "anchor", "screw": "coach-screw-8", "length": "80 mm"}},
            "both screw and maker",
        ),
        ({"hangs": {}, "on": "other"}, "hangs and on"),
        ({"restraint": {"heigt": "1 m"}}, "Did you mean height?"),
        ({"comes_apart": "box"}, "Did you mean boxes?"),
        ({"drawers": {"mass": "5 kg"}}, "drawers.out: found nothing"),
    ],
)
def test_mistakes_of_how_a_unit_stands_are_told(keys, wanted):
    found = told(unit(**keys), unit("other"))
    assert any(wanted in line for line in found), found


@pytest.mark.parametrize(
    ("keys", "name", "length"),
    [
        ({"screw": "No. 10 x 3 in"}, "wood-screw-no-10", 76.2),
        ({"screw": "#10", "length": "3 in"}, "wood-screw-no-10", 76.2),
        ({"screw": "6 x 100 mm"}, "chipboard-screw-6", 100.0),
        ({"screw": "coach-screw-8 x 80 mm"}, "coach-screw-8", 80.0),
        ({"screw": "coach-screw-8", "length": "80 mm"}, "coach-screw-8", 80.0),
    ],
)
def test_a_screw_may_be_written_as_it_is_sold(keys, name, length):
    (found,) = read_raw(project(unit(restraint=keys))).project.unit
    assert found.restraint is not None
    assert found.restraint.screw == name
    assert found.restraint.length == pytest.approx(length)


def test_units_in_a_circle_are_told():
    found = told(unit("a", on="b"), unit("b", on="c"), unit("c", on="a"))
    assert sum("no circle of units" in line for line in found) == 3


@pytest.mark.parametrize(
    ("body", "wanted"),
    [
        ({"source": "x"}, "neither tension nor shear"),
        ({"tension": "300 N"}, "fixings.own.source: found nothing"),
        ({"tension": "300 N", "source": "x", "values": "safe"}, "'design' or 'recommended'"),
    ],
)
def test_loads_of_a_maker_need_a_source(body, wanted):
    found = told(unit(), fixings={"own": body})
    assert any(wanted in line for line in found), found


@pytest.mark.parametrize(
    ("supports", "wanted"),
    [
        ({"kind": "bracket", "height": "1 m"}, "supports"),
        ({"kind": "brackets"}, "height: found nothing"),
        ({"kind": "rods", "number": 1, "diameter": "12 mm", "in_wall": "80 mm"}, "number"),
    ],
)
def test_mistakes_of_supports_are_told(supports, wanted):
    shelf = {
        "name": "board",
        "depth": "200 mm",
        "spans": ["800 mm"],
        "shelf": {"material": "board", "thickness": "20 mm"},
        "supports": supports,
    }
    found = told(shelf=[shelf])
    assert any(wanted in line for line in found), found


def test_length_and_brackets_stand_for_spans_but_not_both():
    text = """
[[shelf]]
name = "board"
depth = "200 mm"
length = "1 m"
shelf = { material = "birch-plywood", thickness = "18 mm" }
supports = { kind = "brackets", number = 2, height = "150 mm" }
"""
    assert read_text(text).project.shelf[0].spans == ()
    with pytest.raises(DescriptionError, match="spans"):
        read_text(text.replace('length = "1 m"', 'length = "1 m"\nspans = ["800 mm"]'))
    with pytest.raises(DescriptionError, match="without spans"):
        read_text(text.replace('length = "1 m"', ""))


def test_all_mistakes_come_at_once():
    found = told(unit(on="bix", hangs={"maker": "nobody"}), site={"wall": "cheese"})
    assert len(found) >= 3
