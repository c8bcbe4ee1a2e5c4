"""Options side by side: every figure is that of a full check of the changed description."""

from __future__ import annotations

import pytest

import shelfload
from shelfload.advise.options import compared, options_for
from shelfload.check.assess import _by_itself, assess, checks_of_shelf
from shelfload.check.result import Verdict
from shelfload.describe.reader import read_raw
from shelfload.describe.writer import as_mapping
from shelfload.errors import UnknownName
from shelfload.idealise.place import Place

PAPER_BOX = {
    "title": "a 12 mm plywood shelf under paper",
    "unit": [
        {
            "name": "paper box",
            "depth": "400 mm",
            "base": "plinth",
            "panel": {"material": "birch-plywood", "thickness": "12 mm"},
            "level": [
                {"height": "350 mm", "bays": ["900 mm"], "contents": {"load": "15 kg/m"}},
                {
                    "height": "350 mm",
                    "bays": ["900 mm"],
                    "contents": {
                        "load": "24 kg",
                        "points": [{"load": "3 kg", "at": "700 mm"}],
                    },
                },
            ],
        }
    ],
}
SHELF = Place(unit="paper box", part="shelf 1")


@pytest.fixture(scope="module")
def found():
    return options_for(read_raw(PAPER_BOX), SHELF)


def test_failing_shelf_gets_a_divider_and_a_doubled_panel(found):
    assert found.now.verdict is Verdict.FAILS
    kinds = {option.kind for option in found.choices}
    assert {"divider", "double"} <= kinds
    assert "smallest change that passes" in found.closing


def test_every_figure_equals_a_check_of_the_changed_description_written_out(found):
    for option in (found.now, *found.choices):
        outcome = shelfload.check_mapping(as_mapping(option.project))
        here = [
            check
            for check in outcome.findings.checks
            if (check.place.unit, check.place.part) == (SHELF.unit, SHELF.part)
        ]
        sags = [check for check in here if check.question == "sag after years"]
        gravest = max(sags, key=lambda check: check.ratio)
        assert option.sag == pytest.approx(gravest.value, rel=1e-9)
        assert option.limit == pytest.approx(gravest.limit, rel=1e-9)
        used = max(check.ratio for check in here if check.value is not None)
        assert option.used == pytest.approx(used, rel=1e-9)
        loads = [load.even for load in outcome.findings.safe_loads if load.place.part == SHELF.part]
        assert option.safe_load == pytest.approx(sum(loads), rel=1e-6)


def test_load_that_stood_in_a_bay_is_still_there_after_a_divider(found):
    divided = next(option for option in found.choices if option.kind == "divider")
    level = divided.project.unit[0].level[0]
    assert len(level.bays) == len(divided.project.unit[0].level[0].fills)
    # 15 kg/m stays 15 kg/m; widths and the divider fill the old bay
    assert sum(level.bays) + 12.0 * (len(level.bays) - 1) == pytest.approx(900.0)


def test_smallest_change_comes_first_and_other_materials_last(found):
    better = [option for option in found.choices if option.kind not in ("load", "span")]
    own = [max(option.extra.mass, 0.0) for option in better if option.kind != "material"]
    assert own == sorted(own)
    kinds = [option.kind == "material" for option in better]
    assert kinds == sorted(kinds)


def test_added_mass_of_a_second_panel_by_hand(found):
    double = next(option for option in found.choices if option.kind == "double")
    # birch plywood 12 mm, 695 kg/m3; 400 deep, 900 clear and 6 mm of housing at each end, and
    # two sides that are 12 mm taller, as clear heights stay
    area = 400 * 912 + 2 * 400 * 12
    assert double.extra.area == pytest.approx(area)
    assert double.extra.mass == pytest.approx(695e-9 * area * 12, rel=1e-9)
    assert double.extra.pieces == 1
    assert double.thickness == pytest.approx(12.0)


def test_passing_shelf_is_left_alone():
    raw = {**PAPER_BOX, "unit": [{**PAPER_BOX["unit"][0]}]}
    raw["unit"][0]["panel"] = {"material": "birch-plywood", "thickness": "24 mm"}
    found = options_for(read_raw(raw), SHELF)
    assert found.now.verdict is Verdict.PASSES
    assert found.closing == "It passes as described: leave it."


def test_pairs_are_tried_where_no_single_change_is_enough():
    raw = {**PAPER_BOX, "unit": [{**PAPER_BOX["unit"][0], "depth": "250 mm"}]}
    heavy = {"height": "350 mm", "bays": ["2400 mm"], "contents": {"load": "110 kg/m"}}
    raw["unit"][0]["panel"] = {"material": "mdf", "thickness": "12 mm"}
    raw["unit"][0]["level"] = [heavy, heavy]
    raw["unit"][0]["shelf"] = {"bearing": "25 mm"}
    found = options_for(read_raw(raw), SHELF)
    assert found.choices
    better = [option for option in found.choices if option.kind not in ("load", "span")]
    assert all(", and " in option.words for option in better)
    assert found.hidden > 0


def test_all_that_fail_are_compared_and_names_are_checked():
    description = read_raw(PAPER_BOX)
    assert SHELF in [one.place for one in compared(description)]
    (one,) = compared(description, unit="paper box", shelf="top panel")
    assert one.place.part == "top panel"
    with pytest.raises(UnknownName, match="did you mean shelf 1"):
        compared(description, shelf="shelf1")
    with pytest.raises(UnknownName, match="did you mean paper box"):
        compared(description, unit="paper bos")


def test_shelves_worked_out_before_give_the_same_answers_as_worked_out_anew(found):
    description = read_raw(PAPER_BOX)
    for option in (found.now, *found.choices[:3]):
        kept = assess(option.project, description.catalogue)
        _by_itself.cache_clear()
        anew = assess(option.project, description.catalogue)
        assert kept.checks == anew.checks
        assert kept.safe_loads == anew.safe_loads
        assert kept.assumptions == anew.assumptions


def test_one_shelf_is_answered_as_in_the_whole():
    description = read_raw(PAPER_BOX)
    whole = assess(description.project, description.catalogue).checks
    own = checks_of_shelf(description.project, description.catalogue, SHELF)
    assert own
    assert list(own) == [check for check in whole if check.place.same_part(SHELF)]


def test_less_load_and_a_shorter_span_are_options_of_what_fails(found):
    kinds = [option.kind for option in found.choices]
    assert kinds[-2:] == ["load", "span"]
    for option in found.choices[-2:]:
        assert option.verdict is Verdict.CLOSE
        assert "%" in option.words


def test_a_shelf_on_brackets_is_offered_more_of_them():
    # brackets that the program places along a length: no spans to split
    lone = {
        "name": "long shelf",
        "depth": "250 mm",
        "length": "2400 mm",
        "fixed_down": True,
        "supports": {"kind": "brackets", "number": 2, "height": "200 mm", "maker": "arm"},
        "shelf": {"material": "birch-plywood", "thickness": "18 mm"},
        "contents": {"load": "40 kg/m"},
    }
    arm = {"tension": "900 N", "shear": "900 N", "source": "made up for tests"}
    raw = {"fixings": {"arm": arm}, "site": {"wall": "timber-stud"}, "shelf": [lone]}
    found = options_for(read_raw(raw), Place(unit="long shelf"))
    assert any(option.words.endswith("brackets instead of 2") for option in found.choices)
