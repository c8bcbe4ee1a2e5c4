"""The command for cut sizes as a user runs it."""

from __future__ import annotations

import contextlib
import csv
import io
import json
import re
import sys
from types import SimpleNamespace

import pytest

from shelfload.cli import main
from shelfload.describe.examples import example_text


def run(*arguments, stdin=""):
    out, err, given = io.StringIO(), io.StringIO(), sys.stdin
    sys.stdin = io.StringIO(stdin)
    try:
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
            status = main(arguments)
    finally:
        sys.stdin = given
    return SimpleNamespace(returncode=status, stdout=out.getvalue(), stderr=err.getvalue())


@pytest.fixture(autouse=True)
def narrow(monkeypatch):
    monkeypatch.setenv("COLUMNS", "80")


@pytest.fixture(scope="module")
def example():
    return example_text()


@pytest.fixture(scope="module")
def boxes():
    return example_text("bench-boxes")


@pytest.mark.parametrize("form", ["terminal", "plain"])
def test_report_fits_and_shows_the_sum_of_every_size(example, form):
    found = run("panels", "-", "--format", form, stdin=example)
    assert found.returncode == 0, found.stderr
    assert max(map(len, found.stdout.splitlines())) <= 80
    words = " ".join(found.stdout.split())
    assert "632 mm = 620 mm (bay) + 2 x 6 mm" in words
    assert "in all" in words


@pytest.mark.parametrize("form", ["terminal", "plain", "markdown", "csv"])
def test_each_reader_sees_one_system_of_units(example, boxes, form):
    def shown(units):
        text = "".join(
            run("panels", "-", "--format", form, "--units", units, stdin=one).stdout
            for one in (example, boxes)
        )
        return f" {' '.join(text.replace('|', ' ').replace(',', ' ').replace('[', ' [').split())} "

    inch, metric = shown("inch"), shown("metric")
    for unit in ("mm", "kg", "m2"):
        assert f" {unit} " not in inch
        assert f"[{unit}]" not in inch
    for unit in ("in", "lb", "ft2"):
        # "in" is a word as well: only after a digit is it a unit
        assert not any(f"{digit} {unit} " in metric for digit in range(10))
        assert f"[{unit}]" not in metric
    assert any(f"{digit} in " in inch for digit in range(10)) or form == "csv"
    assert " mm " in metric or "[mm]" in metric


def test_csv_can_be_sent_back_as_the_suppliers_list(example, tmp_path):
    for units in ("metric", "inch"):
        order = tmp_path / f"{units}.csv"
        order.write_text(
            run("panels", "-", "--format", "csv", "--units", units, stdin=example).stdout
        )
        found = run("panels", "-", "--compare", str(order), stdin=example)
        assert found.returncode == 0, found.stdout[:500]
        assert "the supplier's list matches" in " ".join(found.stdout.split())


def test_supplier_with_mistakes_leaves_with_1_and_names_them(example, tmp_path):
    rows = list(
        csv.reader(io.StringIO(run("panels", "-", "--format", "csv", stdin=example).stdout))
    )
    length, count = rows[0].index("length [mm]"), rows[0].index("count")
    rows[3][length] = "627.0"
    rows[6][count] = "2"
    del rows[5]
    order = tmp_path / "order.csv"
    with order.open("w", newline="") as stream:
        csv.writer(stream).writerows(rows)
    found = run("panels", "-", "--format", "json", "--compare", str(order), stdin=example)
    assert found.returncode == 1
    data = json.loads(found.stdout)
    kinds = sorted((one["kind"], one["count"]) for one in data["differences"])
    assert kinds == [("differs", 6), ("extra", 1), ("missing", 1)]
    looser = run("panels", "-", "--compare", str(order), "--tolerance", "1/4 in", stdin=example)
    assert "Differs" not in looser.stdout


def test_json_sizes_are_the_sums_of_their_parts(boxes):
    data = json.loads(run("panels", "-", "--format", "json", stdin=boxes).stdout)
    assert data["schema_version"] == 1
    for panel in data["panels"]:
        for size in ("length", "width"):
            parts = sum(part["value"] for part in panel[f"{size}_sum"])
            assert parts == pytest.approx(panel[size], abs=1e-3)
    assert data["sheets"]
    assert data["assumptions"]


@pytest.mark.parametrize(
    "arguments",
    [
        ["--waste", "15"],
        ["--waste", "95%"],
        ["--sheet", "2440 mm"],
        ["--sheet", "0 mm x 1220 mm"],
        ["--tolerance", "1"],
        ["--compare", "no such list.csv"],
    ],
)
def test_what_can_not_be_used_leaves_with_2(example, arguments):
    found = run("panels", "-", *arguments, stdin=example)
    assert found.returncode == 2
    assert found.stdout == ""
    assert found.stderr.startswith("shelfload: ")
    assert "Traceback" not in found.stderr


def test_more_waste_never_takes_fewer_sheets(example):
    def counted(waste):
        found = run("panels", "-", "--format", "json", "--waste", waste, stdin=example)
        return [sheet["count"] for sheet in json.loads(found.stdout)["sheets"]]

    some, much = counted("5%"), counted("60 %")
    assert all(a <= b for a, b in zip(some, much, strict=True))
    assert sum(some) < sum(much)


@pytest.mark.parametrize("units", ["metric", "inch"])
@pytest.mark.parametrize("command", ["panels", "check"])
def test_no_figure_is_finer_than_anyone_can_measure(boxes, command, units):
    text = run(command, "-", "--format", "plain", "--units", units, stdin=boxes).stdout
    # sources and their clauses are quoted as they are
    text = text.partition("\nSources\n")[0]
    figures = re.findall(r"[0-9]+(?:\.[0-9]+)?", text)
    assert figures
    for number in figures:
        whole, _, decimals = number.partition(".")
        assert len(decimals) <= 3, number
        assert len((whole + decimals).lstrip("0")) <= 5, number


def test_names_that_look_like_formulas_are_no_formulas_in_a_spreadsheet(example):
    hostile = example.replace('name = "left cupboard"', 'name = "=1+2|x<b>"')
    text = run("panels", "-", "--format", "csv", stdin=hostile).stdout
    units = {row["unit"] for row in csv.DictReader(io.StringIO(text))}
    assert "'=1+2|x<b>" in units
    markdown = run("panels", "-", "--format", "markdown", stdin=hostile).stdout
    assert "\\<b\\>" in markdown
