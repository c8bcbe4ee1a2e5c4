"""Shelf labels: a figure only where it may be relied on, in kilograms and pounds."""

from __future__ import annotations

import re

import pytest
from described import findings, unit
from outcomes import example_outcome

from shelfload.describe.examples import example_names
from shelfload.report.labels import labels

CONCRETE = {"floor": {"kind": "concrete", "covering": "hard"}}
KG_PER_LB = 0.45359237  # international avoirdupois pound, 1959


def of(found, shelf, unit_name="box"):
    return [label for label in labels(found) if (label.unit, label.shelf) == (unit_name, shelf)]


@pytest.mark.parametrize("name", list(example_names()))
def test_every_shelf_has_a_label_with_a_figure_or_a_reason(name):
    found = example_outcome(name).findings
    made = labels(found)
    shelves = {(shelf.place.unit, shelf.place.part or "shelf") for shelf in found.whole.shelves}
    assert {(label.unit, label.shelf) for label in made} == shelves
    for label in made:
        assert bool(label.even) != bool(label.reason)
        assert not label.point or label.even


@pytest.mark.parametrize("name", list(example_names()))
def test_label_never_says_more_than_the_safe_load(name):
    found = example_outcome(name).findings
    for label in labels(found):
        if not label.even:
            continue
        kg, lb = map(float, re.fullmatch(r"([\d.]+) kg \(([\d.]+) lb\)", label.even).groups())
        safe = [
            load.even
            for load in found.safe_loads
            if (load.place.unit, load.place.part or "shelf") == (label.unit, label.shelf)
        ]
        assert None not in safe
        assert kg * 9.80665 <= max(safe) + 1e-9  # N of one kilogram, CGPM 1901
        assert lb * KG_PER_LB * 9.80665 <= max(safe) + 1e-9


def test_shelf_that_fails_by_its_contents_is_told_the_smaller_load():
    found = findings(unit(loads=(400,)), site=CONCRETE)
    (label,) = of(found, "bottom panel")
    if label.even:
        assert float(label.even.split()[0]) < 400


def test_shelves_of_a_unit_that_tips_over_get_no_figure():
    found = example_outcome("paper-cupboards").findings
    for label in labels(found):
        if label.unit == "right cupboard":
            assert label.even == ""
            assert "tips over" in label.reason


def test_shelf_on_the_wall_gets_no_more_than_the_wall_was_checked_for():
    found = example_outcome("wall-cupboard").findings
    (shelf,) = of(found, "shelf 1", "ink cupboard")
    assert shelf.even.startswith("8 kg")  # as described; the panel alone would carry more
    (top,) = of(found, "top panel", "ink cupboard")
    assert top.even == ""
    assert "nothing is described" in top.reason


def test_shelf_with_an_open_question_gets_no_figure():
    hung = unit(loads=(10,), underside="1400 mm", hangs={"maker": "anchor"})
    found = findings(hung, site={"wall": "unknown"})
    assert any(c.verdict.value == "not checked" for c in found.checks if c.place.part == "wall")
    for label in labels(found):
        assert label.even == ""


def test_figure_on_one_spot_is_left_out_where_a_support_is_under_it():
    found = example_outcome("paper-cupboards").findings
    (label,) = of(found, "shelf 3", "left cupboard")  # its middle is over a divider
    assert label.even
    assert label.point == ""
