"""A supplier's list against the cut list of the paper cupboards."""

from __future__ import annotations

import pytest

from shelfload.check.supplier import compared
from shelfload.describe.examples import example_text
from shelfload.describe.reader import read_raw, read_text
from shelfload.describe.supplier_list import read_supplier_list
from shelfload.errors import DescriptionError
from shelfload.idealise.panels import cut_list
from shelfload.wording import spelled

# sizes as worked by hand in tests/idealise/test_cut_sizes.py
RIGHT = """panel;length;width;thickness;qty
side;1650 mm;393,5 mm;18 mm;2
divider;1194 mm;393.5 mm;18 mm;1
shelf;632 mm;393.5 mm;18 mm;6
long shelf and top;1270 mm;393.5 mm;18 mm;2
back;1650 mm;1294 mm;6.5 mm;1
side;1276 mm;396.8 mm;19 mm;2
shelf;912 mm;396.8 mm;19 mm;4
back, turned: hardboard has no grain;938 mm;1276 mm;3.2 mm;1
"""


def differences(text, tolerance=1.0, description=None):
    if description is None:
        description = read_text(example_text("paper-cupboards"))
    cut = cut_list(description.project, description.catalogue)
    return compared(cut, read_supplier_list(text), tolerance, description.catalogue)


def changed(*pairs):
    text = RIGHT
    for old, new in pairs:
        assert text.count(old) == 1
        text = text.replace(old, new)
    return text


def test_right_list_has_no_difference():
    assert differences(RIGHT) == []


def test_three_planted_mistakes_are_found_and_no_others():
    found = differences(
        changed(
            # one shelf cut 5 mm short
            ("632 mm;393.5 mm;18 mm;6", "632 mm;393.5 mm;18 mm;5\nx;627 mm;393.5 mm;18 mm;1"),
            # the top forgotten
            ("1270 mm;393.5 mm;18 mm;2", "1270 mm;393.5 mm;18 mm;1"),
            # a panel nobody asked for
            ("back;1650", "spare;300 mm;200 mm;18 mm;1\nback;1650"),
        )
    )
    assert sorted(one.kind for one in found) == ["differs", "extra", "missing"]
    by_kind = {one.kind: one for one in found}
    assert by_kind["missing"].row.panel.length.total == 1270
    assert (by_kind["extra"].supplied.name, by_kind["extra"].count) == ("spare", 1)
    short = by_kind["differs"]
    assert (short.count, short.supplied.line) == (1, 5)
    assert spelled(short.words, "metric") == "length 5 mm less"
    # 6 mm housings: 6 - 2.5 each in the middle, 6 - 5 when pushed to one side
    means = spelled(short.means, "metric")
    assert "bearing left 3.5 mm of 6 mm" in means
    assert "1 mm at one end" in means
    assert "packing strip 2.5 mm thick" in means


def test_meaning_is_spelled_in_inches_alone_for_inch_readers():
    found = differences(changed(("632 mm;393.5 mm;18 mm;6", "24 1/2 in;393.5 mm;18 mm;6")))
    (one,) = found
    assert " mm" not in spelled(one.words + one.means, "inch")


@pytest.mark.parametrize(
    ("short_by", "words"),
    [
        (7, "comes off the other support"),
        (12, "no longer reaches both supports"),
    ],
)
def test_shelf_short_of_its_housings(short_by, words):
    found = differences(changed(("632 mm;393.5", f"{632 - short_by} mm;393.5")))
    (one,) = found
    assert one.count == 6
    assert words in spelled(one.means, "metric")


def test_butted_shelf_cut_short_leaves_a_gap():
    description = read_raw(
        {
            "unit": [
                {
                    "name": "box",
                    "depth": "300 mm",
                    "panel": {"material": "mdf", "thickness": "18 mm"},
                    "joins": {"shelves": "screws"},
                    "level": [{"height": "300 mm", "bays": ["500 mm"]}],
                }
            ]
        }
    )
    text = "length,width,count\n336 mm,300 mm,2\n497 mm,300 mm,2\n"
    (one,) = differences(text, description=description)
    assert "a gap of 3 mm at the support" in spelled(one.means, "metric")


@pytest.mark.parametrize(
    ("old", "new", "words", "means"),
    [
        ("1194 mm", "1190 mm", "length 4 mm less", "a gap of 4 mm under the panel"),
        ("1194 mm", "1197 mm", "length 3 mm more", "trim 3 mm off"),
        ("1194 mm;393.5", "1194 mm;390", "width 3.5 mm less", "3.5 mm less deep"),
        ("1194 mm;393.5 mm;18 mm", "1194 mm;393.5 mm;15 mm", "thickness 3 mm less", "sags more"),
        ("1650 mm;393,5 mm", "1647 mm;393,5 mm", "length 3 mm less", "stands askew"),
        ("1650 mm;1294 mm", "1650 mm;1290 mm", "width 4 mm less", "stays bare"),
        ("1194 mm;393.5 mm", "393.5 mm;1194 mm", "exchanged", "grain would run the other way"),
    ],
)
def test_each_kind_of_difference_says_what_it_means(old, new, words, means):
    (one,) = differences(changed((old, new)))
    assert words in spelled(one.words, "metric")
    assert means in spelled(one.means, "metric")


def test_tolerance_decides_what_differs():
    text = changed(("1194 mm", "1192.5 mm"))
    assert len(differences(text, 1.0)) == 1
    assert differences(text, 1.5) == []


def test_known_material_that_is_another_is_a_difference_and_a_trade_name_is_not():
    head = RIGHT.replace("qty\n", "qty;material\n").replace(";1\n", ";1;mdf\n", 1)
    (one,) = differences(head)
    assert "material mdf instead of birch-plywood" in one.words
    assert differences(head.replace("mdf", "our best ply")) == []


def test_row_numbers_of_the_cut_list_come_first():
    # rows 4 and 5 are alike in size: the line says which of them is wrong
    text = changed(
        ("1270 mm;393.5 mm;18 mm;2", "1270 mm;393.5 mm;18 mm;1\nx;1180 mm;393.5 mm;18 mm;1")
    )
    rows = {"1180": "5", "1270": "4"}
    head, *body = text.splitlines()
    numbers = [next((n for size, n in rows.items() if size in line), "") for line in body]
    lines = [f"{number};{line}" for number, line in zip(numbers, body, strict=True)]
    (one,) = differences("\n".join([f"row;{head}", *lines]))
    assert (one.kind, one.row.number) == ("differs", 5)


@pytest.mark.parametrize(
    "text",
    [
        "row,length [mm],width [mm],thickness [mm],count\n1,1650,393.5,18,2\n",
        "Length (mm)\tWidth (mm)\tThickness mm\tQty\n1650\t393,5\t18\t2\n",
        "length in;width in;pieces\n64 122/127;15 1/2;2\n",
        "count,L,W\n2,1650 mm,393.5 mm\n\n",
    ],
)
def test_lists_are_read_in_the_ways_they_are_written(text):
    (row,) = read_supplier_list(text)
    assert row.length == pytest.approx(1650, abs=0.1)
    assert row.width == pytest.approx(393.5, abs=0.5)
    assert row.count == 2


def test_every_mistake_of_a_list_is_told_with_its_line():
    text = "length,width,thickness,count\n600,300 mm,18 mm,1\n600 mm,0 mm,18 kg,0\n600 mm,1,,x\n"
    with pytest.raises(DescriptionError) as fault:
        read_supplier_list(text, "order.csv")
    told = [(mistake.line, mistake.key) for mistake in fault.value.mistakes]
    assert told == [
        (2, "length"), (3, "width"), (3, "thickness"), (3, "count"), (4, "width"), (4, "count"),
    ]  # fmt: skip


@pytest.mark.parametrize("text", ["", "a,b\n1,2\n", "length\n600 mm\n", 'length,width\n"6\n'])
def test_what_is_no_list_is_refused(text):
    with pytest.raises(DescriptionError):
        read_supplier_list(text)
