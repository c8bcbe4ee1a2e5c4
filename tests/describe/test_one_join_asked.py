"""The options of one join: read in any unit, and every mistake under the name of its option."""

from __future__ import annotations

import pytest
from joined import asked
from printed import printed

from shelfload.describe.joins import KINDS
from shelfload.errors import DescriptionError


def test_pieces_lengths_and_forces_in_inches_and_pounds():
    # 1 in = 25.4 mm, 1 lbf = 4.4482216 N
    found = asked(
        "pine 1 1/2 in", "c24 45 mm", "12 in", force="10 lb", pull="2 lb", recess="1/8 in"
    )
    assert found.first.thickness == pytest.approx(38.1)
    assert found.length == pytest.approx(304.8)
    assert found.force == printed("44.48")
    assert found.pull == printed("8.90")
    assert found.recess == pytest.approx(3.175)
    assert found.into == "face"


@pytest.mark.parametrize(("climate", "number"), [("indoor", 1), ("humid", 2), ("outdoor", 3)])
def test_climate_is_a_service_class(climate, number):
    assert asked(service_class=climate).service_class == number


def test_where_the_point_goes_in():
    assert asked(into_edge=True).into == "edge"
    assert asked(into_end_grain=True).into == "end grain"


def test_screw_brings_its_own_way():
    found = asked(screw="4 x 40 mm")
    assert found.screw.name == "chipboard-screw-4"
    assert found.screw_length == 40.0
    assert found.by == "screws"
    assert found.kinds == KINDS["screws"]
    bolted = asked(by="bolts")
    assert (bolted.screw, bolted.screw_length) == (None, None)
    assert bolted.kinds == KINDS["bolts"]
    assert asked().kinds == KINDS["screws"]


def test_span_and_depth_of_a_double():
    found = asked(span="800 mm", depth="300 mm", count=3)
    assert (found.span, found.depth, found.count) == (800.0, 300.0, 3)


@pytest.mark.parametrize(
    ("wrong", "key", "words"),
    [
        ({"first": "plywood"}, "--from", "material and its thickness"),
        ({"second": "plastik 18 mm"}, "--into", "that is known"),
        ({"length": "0 mm"}, "--length", "above zero"),
        ({"length": "-3 mm"}, "--length", "without a sign"),
        ({"force": "0 N"}, "--force", "above zero"),
        ({"pull": "-1 kg"}, "--pull", "without a sign"),
        ({"recess": "3 kg"}, "--recess", "allowed: "),
        ({"by": "nails"}, "--by", "screws, "),
        ({"by": "glue"}, "--by", "screws, "),
        ({"screw": "4 x 40 mm", "by": "bolts"}, "--screw", "no --by"),
        ({"span": "600 mm"}, "--span", "both or neither"),
        ({"depth": "300 mm"}, "--span", "both or neither"),
        ({"into_edge": True, "into_end_grain": True}, "--into-edge", "one of the two"),
        (
            {"second": "birch-plywood 18 mm", "into_end_grain": True},
            "--into-end-grain",
            "solid wood",
        ),
        ({"count": 1}, "--count", "two or more"),
    ],
)
def test_mistake_stands_under_its_option(wrong, key, words):
    with pytest.raises(DescriptionError) as fault:
        asked(**wrong)
    (mistake,) = fault.value.mistakes
    assert mistake.key == key
    assert words in mistake.allowed


def test_two_screws_are_enough_to_ask():
    assert asked(count=2).count == 2


def test_nearest_name_is_offered():
    with pytest.raises(DescriptionError) as fault:
        asked("brich-plywood 18 mm", screw="4 x 40 mn")
    by_key = {mistake.key: mistake for mistake in fault.value.mistakes}
    assert by_key["--from"].nearest == "birch-plywood"
    assert set(by_key) == {"--from", "--screw"}
