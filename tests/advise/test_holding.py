"""What holds a unit together: options for one that sways, and for joins that do not hold."""

from __future__ import annotations

import pytest

from shelfload.advise.holding import STAKES
from shelfload.advise.options import compared, holding_options
from shelfload.check.assess import assess
from shelfload.check.result import Verdict
from shelfload.describe.reader import read_raw

GOOD = (Verdict.PASSES, Verdict.CLOSE)
SQUARE, JOINS = STAKES


def box(**more):
    level = {"height": "350 mm", "bays": ["700 mm"], "contents": {"load": "8 kg/m"}}
    return read_raw(
        {
            "unit": [
                {
                    "name": "box",
                    "depth": "300 mm",
                    "base": "plinth",
                    "panel": {"material": "birch-plywood", "thickness": "18 mm"},
                    "level": [level, level],
                    **more,
                }
            ]
        }
    )


def asked(project, catalogue, stake):
    return [check for check in assess(project, catalogue).checks if stake.asks(check)]


@pytest.fixture(scope="module")
def swaying():
    description = box()
    found = compared(description)
    return description, next(one for one in found if one.question == SQUARE.words)


def test_a_box_that_folds_gets_options_that_stop_it(swaying):
    description, found = swaying
    assert found.now.verdict is Verdict.FAILS
    kinds = {option.kind for option in found.choices}
    assert {"back", "corners"} <= kinds
    for option in found.choices:
        checks = asked(option.project, description.catalogue, SQUARE)
        assert checks
        assert {check.verdict for check in checks} <= set(GOOD)
        assert option.used == pytest.approx(max(check.ratio for check in checks))


def test_backs_come_before_corners_that_have_to_be_made_well(swaying):
    _, found = swaying
    kinds = [option.kind == "corners" for option in found.choices]
    assert kinds == sorted(kinds)
    assert "a back of" in found.closing


def test_no_level_is_backed_that_stands_without(swaying):
    description, found = swaying
    backed = next(option for option in found.choices if option.kind == "back")
    unit = backed.project.unit[0]
    closed = [number for number, level in enumerate(unit.level) if level.back is not None]
    for number in closed:
        levels = tuple(
            level.model_copy(update={"back": None}) if at == number else level
            for at, level in enumerate(unit.level)
        )
        fewer = unit.model_copy(update={"level": levels})
        project = backed.project.model_copy(update={"unit": (fewer,)})
        verdicts = [check.verdict for check in asked(project, description.catalogue, SQUARE)]
        assert Verdict.FAILS in verdicts


def test_brackets_are_as_stiff_as_need_be_and_no_stiffer(swaying):
    description, found = swaying
    option = next(one for one in found.choices if "brackets" in one.words)
    stiff = option.project.unit[0].corners
    soft = option.project.unit[0].model_copy(update={"corners": stiff * 0.85})
    project = option.project.model_copy(update={"unit": (soft,)})
    checks = asked(project, description.catalogue, SQUARE)
    assert max(check.ratio for check in checks) > 1.0


def test_soft_backs_are_fixed_better():
    thin = {"material": "hardboard", "thickness": "3.2 mm", "fixed": "nailed", "spacing": "340 mm"}
    tall = {"height": "1500 mm", "bays": ["700 mm"], "contents": {"load": "400 kg/m"}}
    found = holding_options(box(back=thin, level=[tall, tall]), "box", SQUARE)
    assert found.now.used is not None
    words = {option.words for option in found.choices}
    assert words & {"its backs glued on", "its backs fixed twice as closely"}


def test_joins_that_do_not_hold_get_others_that_do():
    # no rule gives a value for a screw in the edge of plywood: tests/check/test_joins.py
    few = {"shelves": {"screw": "4 x 50 mm", "count": 2}}
    description = box(joins=few, corners="glued")
    before = asked(description.project, description.catalogue, JOINS)
    assert {check.verdict for check in before} == {Verdict.NOT_CHECKED}
    found = holding_options(description, "box", JOINS)
    words = " ".join(option.words for option in found.choices)
    assert "cleat" in words
    assert "housed" in words
    assert "edge" not in words
    for option in found.choices:
        assert option.kind == "join"
        checks = asked(option.project, description.catalogue, JOINS)
        assert {check.verdict for check in checks} <= set(GOOD)
        housed = option.project.unit[0].joins.shelves.by == "housing"
        assert bool(checks) is not housed


def test_a_unit_that_stands_square_has_no_such_options():
    glued = {"material": "birch-plywood", "thickness": "6.5 mm", "fixed": "glued"}
    assert not [one for one in compared(box(back=glued)) if one.question]
