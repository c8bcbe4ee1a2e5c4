"""How a join is written down, and what is wrong with it."""

from __future__ import annotations

import pytest

from shelfload.describe.joins import read_screw
from shelfload.describe.reader import read_raw
from shelfload.describe.writer import as_mapping
from shelfload.errors import DescriptionError, QuantityError, UnknownName

UNIT = {
    "name": "store",
    "depth": "350 mm",
    "panel": {"material": "birch-plywood", "thickness": "18 mm"},
    "level": [{"height": "400 mm", "bays": ["500 mm"]}],
}


def described(**unit):
    return read_raw({"unit": [{**UNIT, **unit}]})


def join(value):
    return described(joins={"shelves": value}).project.unit[0].joins.shelves


@pytest.mark.parametrize(
    ("text", "name", "length"),
    [
        ("4 x 35 mm", "chipboard-screw-4", 35.0),
        ("4,5 × 50 mm", "chipboard-screw-4-5", 50.0),
        ("3.5x30mm", "chipboard-screw-3-5", 30.0),
        # 1 1/4 in = 31.75 mm; No. 8 is 4.17 mm, Wood Handbook chapter 8
        ("No. 8 x 1 1/4 in", "wood-screw-no-8", 31.75),
        ("#6 x 1-1/4 in", "wood-screw-no-6", 31.75),
        ("M6 x 40 mm", "connector-bolt-m6", 40.0),
        ("chipboard-screw-5 x 60 mm", "chipboard-screw-5", 60.0),
        ("panel-connector-7x50", "panel-connector-7x50", None),
        ("full-thread-screw-4", "full-thread-screw-4", None),
    ],
)
def test_screws_are_read_as_people_write_them(text, name, length):
    row, found = read_screw(text)
    assert row.name == name
    assert found == pytest.approx(length) if length else found is None


@pytest.mark.parametrize(
    "text", ["9 x 30 mm", "4 x 0 mm", "No. 99 x 1 in", "4 x 30", "x", "4 x", "nail-2 x 40 mm"]
)
def test_screws_that_nobody_sells_are_refused(text):
    with pytest.raises((QuantityError, UnknownName)):
        read_screw(text)


def test_misspelled_screw_gets_the_nearest_name():
    with pytest.raises(UnknownName) as fault:
        read_screw("chipbord-screw-4 x 30 mm")
    assert fault.value.nearest.startswith("chipboard-screw-4")


def test_bare_text_is_a_way_or_a_screw():
    assert join("glue").by == "glue"
    assert not join("glue").demountable
    assert join("glue and screws").demountable is False
    assert join("bolts").by == "bolts"
    assert join("4 x 40 mm").screw.name == "chipboard-screw-4"
    assert join({"screw": "choose", "spacing": "150 mm"}).screw is None
    assert join("M6 x 40 mm").by == "bolts"
    assert join({"screw": "machine-screw-insert-m6", "count": 4}).by == "inserts"


@pytest.mark.parametrize(
    "value",
    [
        {"by": "glue", "count": 3},
        {"by": "housing", "screw": "4 x 40 mm"},
        {"by": "bolts", "screw": "4 x 40 mm"},
        {"count": 3, "spacing": "100 mm"},
        {"count": 0},
        {"spacing": "150"},
        {"by": "wishful thinking"},
        {"screw": 4},
        {"screw": {"name": "no-such-screw"}},
        {"scrw": "4 x 40 mm"},
        "4 x forty mm",
    ],
)
def test_wrong_joins_are_mistakes_with_their_key(value):
    with pytest.raises(DescriptionError) as fault:
        join(value)
    assert all("joins.shelves" in mistake.key for mistake in fault.value.mistakes)


def test_joins_come_back_from_what_is_written():
    project = described(
        joins={
            "shelves": "glue",
            "sides": {"by": "bolts", "redriven": True},
            "stack": {"screw": "No. 8 x 1 1/4 in", "count": 4},
        },
        shelf={"panels": 2, "joined": "screwed", "screws": {"spacing": "150 mm"}},
        back={
            "material": "hardboard", "thickness": "3.2 mm", "fixed": "screwed",
            "spacing": "100 mm", "screws": "3 x 20 mm",
        },
    ).project  # fmt: skip
    assert read_raw(as_mapping(project)).project == project


def test_nothing_said_is_nothing_described():
    joins = described().project.unit[0].joins
    assert joins.shelves is joins.sides is joins.stack is None
