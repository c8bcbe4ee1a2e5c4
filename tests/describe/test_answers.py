"""Answers to questions: read as typed, refused with what is allowed, written as TOML takes them."""

from __future__ import annotations

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shelfload import tables
from shelfload.describe import answers
from shelfload.errors import QuantityError, UnknownName


@given(st.text(alphabet=st.characters(exclude_categories=("Cs",))))
def test_quoted_text_is_read_back_by_toml(text):
    assert tomllib.loads(f"a = {answers.quoted(text)}")["a"] == text


def test_bare_number_is_in_the_unit_asked_for_at_first():
    assert answers.length("metric", 2.0, 3000.0)("600") == "600 mm"
    assert answers.length("inch", 2.0, 3000.0)("23 5/8") == "23 5/8 in"
    assert answers.length("inch", 2.0, 3000.0)("600 mm") == "600 mm"


@pytest.mark.parametrize(
    ("text", "taken"),
    [("100", True), ("99.9", False), ("200", True), ("200.1", False), ("8 in", False)],
)
def test_length_between_two_bounds(text, taken):
    read = answers.length("metric", 100.0, 200.0)
    if taken:
        assert read(text)
    else:
        with pytest.raises(QuantityError, match="from 100 mm to 200 mm"):
            read(text)


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("600", ["600 mm"] * 3),
        ("600;700; 800 mm", ["600 mm", "700 mm", "800 mm"]),
        ("600, 700, 24 in", ["600 mm", "700 mm", "24 in"]),
    ],
)
def test_one_length_for_all_or_as_many_as_wanted(text, read):
    assert answers.lengths("metric", 3, 1.0, 5000.0)(text) == read


def test_other_numbers_of_lengths_are_refused():
    with pytest.raises(QuantityError, match="one for all, or 3"):
        answers.lengths("metric", 3, 1.0, 5000.0)("600; 700")


@pytest.mark.parametrize("text", ["1", "4", "04"])
def test_whole_number(text):
    assert answers.whole_number(1, 4)(text) == str(int(text))


@pytest.mark.parametrize("text", ["0", "5", "2.0", "-1", "two", "", "00002"])
def test_other_numbers_are_refused(text):
    with pytest.raises(QuantityError, match="from 1 to 4"):
        answers.whole_number(1, 4)(text)


def test_choice_takes_a_word_or_its_beginning():
    read = answers.choice("screws", "screwed double", "bolts")
    assert read("BOLTS") == "bolts"
    assert read("b") == "bolts"
    assert read("screws") == "screws"
    for wrong in ("screw", "x", ""):
        with pytest.raises(QuantityError, match="screws, screwed double, bolts"):
            read(wrong)
    with pytest.raises(QuantityError) as fault:
        read("bolds")
    assert fault.value.nearest == "bolts"


@pytest.mark.parametrize(
    ("text", "read"), [("yes", "true"), ("Y", "true"), ("no", "false"), ("N", "false")]
)
def test_yes_and_no(text, read):
    assert answers.yes_no(text) == read


def test_neither_yes_nor_no():
    with pytest.raises(QuantityError, match="yes or no"):
        answers.yes_no("perhaps")


@pytest.mark.parametrize("text", ["a", "paper store", "x" * 80])
def test_name(text):
    assert answers.called(text) == text


@pytest.mark.parametrize("text", ["", "x" * 81, "a\x07b", "a\nb"])
def test_no_name(text):
    with pytest.raises(QuantityError, match="1 to 80 characters"):
        answers.called(text)


def test_material_and_its_thickness():
    assert answers.material("birch-plywood") == "birch-plywood"
    with pytest.raises(UnknownName):
        answers.material("brich-plywood")
    assert answers.thickness("metric", "birch-plywood")("18") == "18 mm"
    with pytest.raises(QuantityError):
        answers.thickness("metric", "particleboard-p4")("50")
    with pytest.raises(QuantityError, match="from 2 mm to 120 mm"):
        answers.thickness("metric", "birch-plywood")("121")


ONE_BY_ONE = next(name for name, row in tables.contents().items() if row.kind == "each")
SPREAD = next(name for name, row in tables.contents().items() if row.kind == "line")


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("empty", "empty"),
        ("Nothing", "empty"),
        ("none", "empty"),
        ("20 kg/m", {"load": "20 kg/m"}),
        ("40 kg", {"load": "40 kg"}),
        (f"12 {ONE_BY_ONE}", {"what": ONE_BY_ONE, "count": 12}),
        (f"12 x {ONE_BY_ONE}", {"what": ONE_BY_ONE, "count": 12}),
        (SPREAD, SPREAD),
    ],
)
def test_what_stands_in_a_bay_is_written_as_toml(text, written):
    (entry,) = answers.contents(1)(text)
    assert tomllib.loads(f"a = {entry}")["a"] == written


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("30", QuantityError),  # a load without a unit
        ("0 kg", QuantityError),
        ("3 m", QuantityError),
        ("books of all kinds", UnknownName),
        ("3 boks", QuantityError),
        (ONE_BY_ONE, QuantityError),  # how many?
        (f"0 {ONE_BY_ONE}", QuantityError),
        (f"12 {SPREAD}", QuantityError),
    ],
)
def test_what_can_not_stand_in_a_bay(text, fault):
    with pytest.raises(fault):
        answers.contents(1)(text)


def test_one_entry_for_all_bays_or_one_each():
    each = answers.contents(2)("20 kg; empty")
    assert each == ['{ load = "20 kg" }', '"empty"']
    both = answers.contents(2)("20 kg")
    assert both == ['{ load = "20 kg" }'] * 2
    with pytest.raises(QuantityError, match="2 parted by ;"):
        answers.contents(2)("1 kg; 2 kg; 3 kg")
    assert answers.alike(both) == '{ load = "20 kg" }'
    assert tomllib.loads(f"a = {answers.alike(each)}")["a"] == [{"load": "20 kg"}, "empty"]
