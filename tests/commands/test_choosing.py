"""Choosing from the command line: options with prices, looking for what passes, fixed backs."""

from __future__ import annotations

import csv
import io

import pytest

from shelfload.cli import main

SHELF = """
[[shelf]]
name = "shelf"
depth = "300 mm"
spans = ["900 mm"]
fixed_down = true
shelf = { material = "birch-plywood", thickness = "12 mm" }
contents = { load = "20 kg/m" }
"""
STOCK = """
[[stock]]
material = "birch-plywood"
thickness = "12 mm"
price = "61 EUR"
[[stock]]
material = "birch-plywood"
thickness = "15 mm"
price = "24.50 EUR/m2"
"""
THIN_BACK = "hardboard 3.2 mm, nailed every 100 mm"
BOX = """
[[unit]]
name = "box"
depth = "300 mm"
base = "plinth"
panel = { material = "birch-plywood", thickness = "12 mm" }
[[unit.level]]
height = "300 mm"
bays = ["900 mm"]
contents = { load = "20 kg/m" }
[[unit.level]]
height = "300 mm"
bays = ["900 mm"]
contents = { load = "20 kg/m" }
"""


@pytest.fixture
def run(tmp_path, capsys):
    def ran(text, *arguments):
        file = tmp_path / "store.toml"
        file.write_text(text, encoding="utf-8")
        status = main([arguments[0], str(file), *arguments[1:], "--format", "plain"])
        return status, " ".join(capsys.readouterr().out.split())

    return ran


def test_price_is_a_column_only_where_one_is_given(run):
    status, shown = run(SHELF + STOCK, "options")
    assert status == 1
    assert "price, EUR" in shown
    assert "Without a price in the description:" in shown
    assert "glue, fasteners and work are not counted" in shown
    _, bare = run(SHELF, "options")
    assert "price" not in bare
    assert "sheets" in bare


@pytest.mark.parametrize("wanted", ["span", "load", "thickness", "stiffness"])
def test_what_is_looked_for_is_found_and_checked(run, wanted):
    status, shown = run(SHELF, "options", "--find", wanted)
    assert status == 0
    assert shown.startswith("Found: ")
    assert "What to do" in shown


def test_shelf_to_look_at_has_to_be_named(run, capsys):
    assert run(BOX, "options", "--find", "span", "--unit", "box")[0] == 2
    status, shown = run(BOX, "options", "--find", "span", "--unit", "box", "--shelf", "shelf 1")
    assert status == 1  # the box itself still folds
    assert "all bays" in shown


def test_swaying_box_gets_options_and_a_shelf_asked_for_alone_does_not(run):
    _, shown = run(BOX, "options", "--unit", "box")
    assert "box: staying square" in shown
    assert "a back of" in shown
    _, shown = run(BOX, "options", "--unit", "box", "--shelf", "shelf 1")
    assert "staying square" not in shown


def test_failing_check_names_a_change_and_the_command(run):
    _, shown = run(SHELF, "check")
    assert "Passes with" in shown
    assert "shelfload options FILE" in shown


def test_table_with_a_back_says_which(capsys):
    asked = ["load-table", "--material", "birch-plywood", "--thickness", "12 mm", "--dividers",
             "0", "--spans", "600 mm", "--back", THIN_BACK]  # fmt: skip
    assert main([*asked, "--format", "plain"]) == 0
    shown = " ".join(capsys.readouterr().out.split())
    assert "fixed back" in shown
    assert "Tempered hardboard nailed every 100 mm" in shown
    assert main([*asked, "--format", "csv"]) == 0
    rows = list(csv.DictReader(io.StringIO(capsys.readouterr().out)))
    assert [row["support"] for row in rows] == ["free ends", "fixed back"]
    assert all(float(row["safe_load [kg/m]"]) > 0.0 for row in rows)


def test_where_the_search_ends_is_no_limit(run):
    text = SHELF.replace("20 kg/m", "10 g").replace("900 mm", "100 mm")
    _, printed = run(text, "options", "--unit", "shelf")
    assert "it has room for more than 100.00 times its load" in printed
