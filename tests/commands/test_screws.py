"""The command for one join, as a user runs it."""

from __future__ import annotations

import json
import os
import subprocess
import sys

import pytest
from joining import sizes_as_sold_left_out

PLAIN = {**os.environ, "COLUMNS": "80", "PYTHONIOENCODING": "utf-8"}


def screws(*arguments):
    return subprocess.run(
        [sys.executable, "-m", "shelfload", "screws", *arguments],
        capture_output=True,
        text=True,
        encoding="utf-8",
        env=PLAIN,
        timeout=60,
        check=False,
    )


def join(first="birch-plywood 18 mm", second="c24 45 mm", *more, length="400 mm", form="plain"):
    return screws("--from", first, "--into", second, "--length", length, "--format", form, *more)


def test_join_that_works_leaves_with_0_and_can_be_drilled_from():
    found = join("birch-plywood 18 mm", "c24 45 mm", "--force", "30 kg", form="json")
    assert found.returncode == 0, found.stderr
    data = json.loads(found.stdout)
    best = data["joins"][0]
    assert best["count"] == len(best["positions"]) >= 2
    assert best["length_unit"] == "mm"
    assert all(best[key] > 0 for key in ("length", "pilot", "clearance", "countersink", "edge"))
    assert best["positions"] == [400 - mark for mark in reversed(best["positions"])]
    assert best["cheaper"]
    assert data["verdict"] == "passes"
    assert {check["verdict"] for check in data["checks"]} == {"passes"}


@pytest.mark.parametrize(
    ("first", "second", "more", "word"),
    [
        ("birch-plywood 12 mm", "birch-plywood 12 mm", ("--screw", "3.5 x 20 mm"), "9 mm"),
        ("birch-plywood 18 mm", "birch-plywood 18 mm", ("--into-edge",), "edge"),
        ("c24 22 mm", "c24 45 mm", ("--into-end-grain", "--pull", "5 kg"), "end grain"),
        ("mdf 18 mm", "mdf 18 mm", (), "no rule"),
        ("birch-plywood 18 mm", "c24 45 mm", ("--by", "inserts"), "maker"),
        ("birch-plywood 18 mm", "c24 45 mm", ("--force", "3000 kg"), "do not hold"),
    ],
)
def test_join_without_a_design_value_leaves_with_1_and_says_why(first, second, more, word):
    found = join(first, second, *more)
    assert found.returncode == 1, found.stderr
    assert "not checked" in found.stdout
    assert word in " ".join(found.stdout.split())


def test_described_screw_that_is_too_weak_fails_with_figures():
    found = join(
        "birch-plywood 18 mm", "c24 45 mm",
        "--screw", "4 x 40 mm", "--count", "2", "--force", "300 kg", form="json",
    )  # fmt: skip
    assert found.returncode == 1
    data = json.loads(found.stdout)
    assert data["verdict"] == "fails"
    assert data["checks"][0]["ratio"] > 1


def test_inch_report_shows_no_millimetres():
    found = screws(
        "--from", "birch-plywood 3/4 in", "--into", "c24 1 1/2 in", "--length", "12 in",
        "--force", "60 lb", "--pull", "20 lb", "--units", "inch", "--redriven", "--format", "plain",
    )  # fmt: skip
    assert found.returncode == 0, found.stderr
    # screws keep the millimetres they are sold by, in the table parted by its columns
    before, _, rest = found.stdout.partition("Joins and drilling")
    told = sizes_as_sold_left_out(before + rest[rest.index("Assumed") :])
    words = told.replace("(", " ").replace(",", " ").split()
    assert "in" in words
    # the sheet is called by its inches and measured in millimetres by nobody here
    assert "mm" not in words


def test_doubled_shelf_gets_a_table_of_spacing_against_stiffness():
    found = join(
        "birch-plywood 18 mm", "birch-plywood 24 mm",
        "--span", "800 mm", "--depth", "300 mm", form="json",
    )  # fmt: skip
    data = json.loads(found.stdout)
    stiffness = data["double"]["stiffness_over_loose"]
    assert stiffness == sorted(stiffness, reverse=True)
    assert 1 < stiffness[-1] < stiffness[0] < data["double"]["glued_over_loose"]


@pytest.mark.parametrize("form", ["terminal", "plain", "markdown", "json"])
def test_every_format_prints_and_fits(form):
    found = join("birch-plywood 18 mm", "birch-plywood 18 mm", "--force", "10 kg", form=form)
    assert found.returncode == 0, found.stderr
    assert "mm" in found.stdout
    if form in ("terminal", "plain"):
        assert all(len(line) <= 80 for line in found.stdout.splitlines())


def test_all_mistakes_come_at_once_and_leave_with_2():
    found = screws(
        "--from", "plastik 18 mm", "--into", "c24 45", "--length", "12 i", "--force", "60 kg/m",
        "--screw", "9 x 30 mm", "--by", "nails", "--span", "600 mm",
    )  # fmt: skip
    assert found.returncode == 2
    assert "Traceback" not in found.stderr
    for option in ("--from", "--into", "--length", "--force", "--screw", "--by", "--span"):
        assert f"  {option}: " in found.stderr


@pytest.mark.parametrize(
    "more",
    [
        ("--into-edge", "--into-end-grain"),
        ("--into-end-grain",),
        ("--count", "1"),
        ("--length", "-3 mm"),
        ("--force", "0 N"),
        ("--lasting", "forever"),
    ],
)
def test_what_makes_no_sense_leaves_with_2(more):
    found = join("birch-plywood 18 mm", "birch-plywood 18 mm", *more)
    assert found.returncode == 2
    assert "Traceback" not in found.stderr


@pytest.mark.parametrize("length", ["5 mm", "60 mm", "40 m"])
def test_very_short_and_very_long_joins_are_answered(length):
    found = join("birch-plywood 18 mm", "c24 45 mm", "--force", "10 kg", length=length)
    assert found.returncode in (0, 1)
    assert "Traceback" not in found.stderr
