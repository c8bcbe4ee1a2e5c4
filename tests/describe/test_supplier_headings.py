"""Headings of a supplier's list: units in brackets, several words, and what is told."""

from __future__ import annotations

import pytest

from shelfload.describe.supplier_list import read_supplier_list
from shelfload.errors import DescriptionError


@pytest.mark.parametrize(
    "heading",
    [
        "Length (mm),Width (mm),Qty",
        "Panel length [mm],Panel width [mm],No. of pieces",
        "Length/mm,Width/mm,pcs",
        "Length - mm,Width mm,count",
        "length in mm,width in mm,Quantity",
    ],
)
def test_units_of_the_heading_are_those_of_the_cells(heading):
    (panel,) = read_supplier_list(f"{heading}\n600,300,2\n")
    assert (panel.length, panel.width) == (600.0, 300.0)
    assert panel.count == 2


@pytest.mark.parametrize(
    "heading", ["Length (in),Width (in.)", 'length ("),width (")', "l in,w in"]
)
def test_inches_in_the_heading(heading):
    (panel,) = read_supplier_list(f"{heading}\n24 1/2,12\n")
    assert panel.length == pytest.approx(24.5 * 25.4)
    assert panel.width == pytest.approx(12 * 25.4)


def test_a_heading_of_one_word_comes_before_one_of_several():
    (panel,) = read_supplier_list("Sheet length (mm),Item,Length (mm),Width (mm)\n2500,a,600,300\n")
    assert (panel.length, panel.name) == (600.0, "a")


@pytest.mark.parametrize(
    ("heading", "lacking"),
    [
        ("Länge (mm),Breite (mm)", "a column length and a column width"),
        ("Length (mm),Depth (mm)", "allowed: a column width;"),
    ],
)
def test_what_a_column_may_be_called_is_told(heading, lacking):
    with pytest.raises(DescriptionError) as fault:
        read_supplier_list(f"{heading}\n600,300\n")
    assert lacking in str(fault.value)
    assert '(mm)"' in str(fault.value)
