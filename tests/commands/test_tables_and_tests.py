"""Commands that print tables, odds, measurements and repairs, as a user runs them."""

from __future__ import annotations

import csv
import io
import json
import os
import subprocess
import sys

import pytest

PLAIN = {**os.environ, "COLUMNS": "80", "PYTHONIOENCODING": "utf-8"}
SHELF = """
[[shelf]]
name = "shelf"
depth = "300 mm"
spans = ["900 mm"]
fixed_down = true
shelf = { material = "birch-plywood", thickness = "12 mm" }
contents = { load = "20 kg/m" }
"""


def run(*arguments, stdin=""):
    return subprocess.run(
        [sys.executable, "-m", "shelfload", *arguments],
        input=stdin, capture_output=True, text=True, encoding="utf-8", env=PLAIN, timeout=60,
        check=False,
    )  # fmt: skip


def one_shelf(*more, material="birch-plywood", span="900 mm", load="30 kg/m"):
    return run(
        "shelf", "--span", span, "--depth", "300 mm", "--thickness", "18 mm",
        "--material", material, "--load", load, *more,
    )  # fmt: skip


def test_span_of_the_table_passes_and_a_little_more_fails():
    found = run(
        "span-table", "--material", "birch-plywood", "--thickness", "18 mm", "--load", "30 kg/m",
        "--dividers", "0", "--format", "csv",
    )  # fmt: skip
    assert found.returncode == 0, found.stderr
    (row,) = csv.DictReader(io.StringIO(found.stdout))
    span = float(row["span [mm]"])
    assert row["decided_by"] == "sag"
    assert one_shelf(span=f"{span} mm").returncode == 0
    assert one_shelf(span=f"{span + 0.2} mm").returncode == 1


def test_load_of_the_table_passes_and_a_little_more_fails():
    found = run(
        "load-table", "--material", "birch-plywood", "--thickness", "18 mm", "--spans", "900 mm",
        "--dividers", "0", "--format", "csv",
    )  # fmt: skip
    (row,) = csv.DictReader(io.StringIO(found.stdout))
    load = float(row["safe_load [kg/m]"])
    assert one_shelf(load=f"{load} kg/m").returncode == 0
    assert one_shelf(load=f"{load + 0.2} kg/m").returncode == 1


@pytest.mark.parametrize("command", ["span-table", "load-table"])
@pytest.mark.parametrize("form", ["terminal", "plain", "markdown"])
def test_tables_fit_and_name_their_limit(command, form):
    found = run(command, "--format", form, "--limit", "workshop", "--units", "inch")
    assert found.returncode == 0, found.stderr
    words = " ".join(found.stdout.split())
    assert "144" in words
    assert " mm" not in words.replace("mm2", "")
    if form != "markdown":
        assert max(map(len, found.stdout.splitlines())) <= 80


def test_mistakes_in_a_table_are_told_at_once():
    found = run("span-table", "--material", "mfd", "--depth", "3", "--load", "30 kg")
    assert found.returncode == 2
    for option in ("--material", "--depth", "--load"):
        assert option in found.stderr
    assert "Traceback" not in found.stderr


def test_odds_are_in_the_report_and_the_same_for_the_same_seed():
    first, second = (one_shelf("--odds", "--samples", "20000", "--seed", "3") for _ in range(2))
    assert first.stdout == second.stdout
    assert "\nOdds\n" in first.stdout
    assert "How the odds were found" in first.stdout
    assert first.stderr == ""
    data = json.loads(one_shelf("--odds", "--samples", "20000", "--format", "json").stdout)
    (shelf,) = data["odds"]["shelves"]
    assert 0.0 <= shelf["sag"]["from"] <= shelf["sag"]["chance"] <= shelf["sag"]["to"] <= 1.0
    assert shelf["limit"] == pytest.approx(4.53)
    assert "odds" not in json.loads(one_shelf("--format", "json").stdout)


def test_odds_do_not_change_the_verdict():
    assert one_shelf(load="10 kg/m").returncode == one_shelf("--odds", load="10 kg/m").returncode
    assert one_shelf("--odds", "--samples", "5").returncode == 2


def test_measured_entry_is_accepted_by_check():
    pasted = run(
        "measure", "--span", "800 mm", "--width", "100 mm", "--thickness", "11.7 mm",
        "--like", "birch-plywood", "--reading", "2 kg = 1.6 mm", "--reading", "2 kg = 1.7 mm",
        "--reading", "5 kg = 4.1 mm", "--sag-error", "0.1 mm", "--name", "my-ply",
        "--length", "850 mm", "--mass", "0.68 kg", "--format", "toml",
    )  # fmt: skip
    assert pasted.returncode == 0, pasted.stderr
    text = pasted.stdout + SHELF.replace("birch-plywood", "my-ply")
    found = run("check", "-", "--format", "json", stdin=text)
    assert found.returncode in (0, 1), found.stderr
    data = json.loads(found.stdout)
    assert {check["question"] for check in data["checks"]} >= {"sag after years", "bending"}
    assert all(check["value"] is not None for check in data["checks"])
    table = run(
        "span-table", "--file", "-", "--material", "my-ply", "--thickness", "11.7 mm",
        "--load", "20 kg/m", "--dividers", "0", "--format", "csv", stdin=text,
    )  # fmt: skip
    assert table.returncode == 0, table.stderr
    assert table.stdout.splitlines()[1].startswith("my-ply,11.7,free ends")


def test_entry_of_an_unknown_sheet_leaves_its_strength_unchecked():
    pasted = run(
        "measure", "--span", "800 mm", "--width", "100 mm", "--thickness", "12 mm",
        "--kind", "osb", "--reading", "5 kg = 12 mm", "--name", "found-sheet", "--format", "toml",
    )  # fmt: skip
    text = pasted.stdout + SHELF.replace("birch-plywood", "found-sheet")
    data = json.loads(run("check", "-", "--format", "json", stdin=text).stdout)
    unknown = [check for check in data["checks"] if check["verdict"] == "not checked"]
    assert any(check["question"] == "bending" for check in unknown)


def test_measurement_that_tells_nothing_leaves_with_1_and_no_entry():
    found = run(
        "measure", "--span", "300 mm", "--width", "100 mm", "--thickness", "18 mm",
        "--kind", "mdf", "--reading", "1 kg = 0.2 mm",
    )  # fmt: skip
    assert found.returncode == 1
    assert "Too stiff to tell" in found.stdout
    assert "[materials" not in found.stdout
    assert run("measure", "--span", "1 m", "--reading", "x").returncode == 2


def test_proof_and_repair_of_a_shelf():
    good = run("proof", "-", "--reading", "10 kg = 2.6 mm", stdin=SHELF)
    assert good.returncode == 0, good.stdout + good.stderr
    soft = run("proof", "-", "--reading", "10 kg = 9 mm", stdin=SHELF)
    assert soft.returncode == 1
    assert "softer than described" in " ".join(soft.stdout.split())
    mended = run("repair", "-", "--years", "4", "--sag", "11 mm", "--emptied", "4 mm", stdin=SHELF)
    assert mended.returncode == 1
    words = " ".join(mended.stdout.split())
    assert "turn it over" in words
    assert max(map(len, mended.stdout.splitlines())) <= 80
    inch = run("repair", "-", "--years", "4", "--sag", "7/16 in", "--units", "inch", stdin=SHELF)
    assert " mm" not in inch.stdout


def test_places_that_are_not_there_are_refused():
    assert (
        run("repair", "-", "--years", "1", "--sag", "5 mm", "--unit", "x", stdin=SHELF).returncode
        == 2
    )
    found = run("proof", "-", "--shelf", "shelf 4", "--reading", "1 kg = 1 mm", stdin=SHELF)
    assert found.returncode == 2
    two = SHELF + SHELF.replace('"shelf"', '"other"')
    assert run("repair", "-", "--years", "1", "--sag", "5 mm", stdin=two).returncode == 2
    assert run("repair", "-", "--years", "-1", "--sag", "5 mm", stdin=SHELF).returncode == 2
