"""A shelf under nothing is no pass, unless it is said to stay empty."""

from __future__ import annotations

import pytest

import shelfload
from shelfload.check.result import Verdict


def lone(**more):
    body = {
        "name": "shelf",
        "depth": "300 mm",
        "spans": ["600 mm"],
        "shelf": {"material": "birch-plywood", "thickness": "18 mm"},
        **more,
    }
    return shelfload.check_mapping({"shelf": [body]})


def box(*contents, **more):
    levels = [
        {"height": "300 mm", "bays": ["500 mm"], **({} if what is None else {"contents": what})}
        for what in contents
    ]
    body = {
        "name": "box",
        "depth": "300 mm",
        "panel": {"material": "birch-plywood", "thickness": "18 mm"},
        "level": levels,
        **more,
    }
    return shelfload.check_mapping({"unit": [body]})


def asked(outcome):
    return [check for check in outcome.findings.checks if check.question == "loads described"]


def test_shelf_with_nothing_said_is_not_checked():
    outcome = lone()
    assert outcome.verdict is Verdict.NOT_CHECKED
    (check,) = asked(outcome)
    assert "nothing is said" in check.reason


@pytest.mark.parametrize("contents", ["empty", {"load": "5 kg"}])
def test_shelf_with_something_said_is_checked(contents):
    assert lone(contents=contents).verdict is Verdict.PASSES


def test_unit_is_asked_only_where_nothing_at_all_is_said():
    assert asked(box(None, None))
    assert not asked(box("empty", None))
    assert not asked(box(None, top_contents={"load": "5 kg"}))


def test_level_with_nothing_said_is_listed_as_empty():
    assumed = box({"load": "5 kg"}, None).findings.assumptions
    assert any("level 2: empty" in text for text in assumed)
