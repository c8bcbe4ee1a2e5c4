"""Advice: what fails first, remedies that really pass, and nothing done where all is well."""

from __future__ import annotations

import pytest

import shelfload
from shelfload.check.result import Verdict


def shelf(load, **shelf_keys):
    return {
        "shelf": [
            {
                "name": "paper shelf",
                "depth": "300 mm",
                "spans": ["900 mm"],
                "shelf": {"material": "birch-plywood", "thickness": "12 mm", **shelf_keys},
                "contents": {"load": load},
            }
        ]
    }


def test_remedy_named_passes_when_it_is_described_and_checked():
    outcome = shelfload.check_mapping(shelf("30 kg/m"))
    assert outcome.verdict is Verdict.FAILS
    first, second = outcome.advice
    assert "Passes with a glued front lipping" in first.text
    assert "shelfload options" in second.text
    strip = {"material": "c16", "thickness": "20 mm", "height": "40 mm"}
    again = shelfload.check_mapping(shelf("30 kg/m", lipping_front=strip))
    assert again.verdict in (Verdict.PASSES, Verdict.CLOSE)


def test_nothing_to_do_is_said_as_plainly():
    outcome = shelfload.check_mapping(shelf("2 kg/m"))
    assert [advice.text for advice in outcome.advice] == [
        "Everything checked passes: leave it as it is."
    ]


def test_hopeless_shelf_says_what_was_tried():
    outcome = shelfload.check_mapping(shelf("900 kg/m"))
    assert "single changes is enough" in outcome.advice[0].text


@pytest.mark.parametrize("part", ["bottom panel", "shelf 1", "top panel"])
def test_remedies_reach_every_shelf_of_a_unit(part):
    level = {"height": "300 mm", "bays": ["900 mm"], "contents": {"load": "30 kg/m"}}
    outcome = shelfload.check_mapping(
        {
            "unit": [
                {
                    "name": "box",
                    "depth": "300 mm",
                    "panel": {"material": "birch-plywood", "thickness": "12 mm"},
                    "level": [level, level],
                    "top_contents": {"load": "30 kg/m"},
                }
            ]
        }
    )
    texts = [advice.text for advice in outcome.advice if part in advice.place.part]
    assert texts
    assert "Passes with" in texts[0]
