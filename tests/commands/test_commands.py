"""The commands as a user runs them: processes, their output and their exit status."""

from __future__ import annotations

import json
import os
import subprocess
import sys

import pytest
from joining import sizes_as_sold_left_out

PLAIN = {**os.environ, "COLUMNS": "80", "PYTHONIOENCODING": "utf-8"}


def run(*arguments, stdin="", env=None):
    return subprocess.run(
        [sys.executable, "-m", "shelfload", *arguments],
        input=stdin,
        capture_output=True,
        text=True,
        encoding="utf-8",
        env={**PLAIN, **(env or {})},
        timeout=60,
        check=False,
    )


def one_shelf(*more, load="10 kg/m"):
    return run(
        "shelf", "--span", "600 mm", "--depth", "300 mm", "--thickness", "18 mm",
        "--material", "birch-plywood", "--load", load, *more,
    )  # fmt: skip


def test_example_piped_into_check_gives_every_check_whole():
    example = run("example")
    assert example.returncode == 0
    found = run("check", "-", "--format", "json", stdin=example.stdout)
    assert found.returncode in (0, 1), found.stderr
    data = json.loads(found.stdout)
    assert {"verdict", "checks", "safe_loads", "advice", "assumptions", "cautions"} <= set(data)
    assert data["checks"]
    for check in data["checks"]:
        assert check["verdict"] in ("passes", "close", "fails", "not checked")
        assert check["question"]
        assert check["place"]["unit"]
        if check["verdict"] == "not checked":
            assert check["reason"]
        else:
            assert check["method"]
            assert check["source"]
            assert check["unit"]
            assert isinstance(check["value"], float | int)
            assert isinstance(check["limit"], float | int)
            assert check["ratio"] is not None or check["limit"] == 0


def test_names_of_examples_are_listed_and_each_can_be_printed():
    listed = run("example", "--list")
    names = [line.split()[0] for line in listed.stdout.splitlines()]
    assert len(names) >= 3
    for name in names:
        assert run("example", name).stdout.startswith("#")


def test_passing_shelf_leaves_with_0_and_says_leave_it():
    found = one_shelf()
    assert found.returncode == 0, found.stdout + found.stderr
    assert "leave it as it is" in found.stdout


def test_failing_shelf_leaves_with_1_and_says_what_to_do():
    found = one_shelf(load="250 kg/m")
    assert found.returncode == 1
    assert "FAILS" in found.stdout
    assert "Passes with" in found.stdout


def test_five_mistakes_leave_with_2_and_are_all_named():
    text = """
[site]
service_class = "attic"
[[unit]]
name = "a"
depth = "400"
panel = { material = "brich-plywood", thickness = "18 mm" }
[[unit.level]]
hight = "300 mm"
bays = ["500 m m"]
"""
    found = run("check", "-", stdin=text)
    assert found.returncode == 2
    assert found.stdout == ""
    assert "Traceback" not in found.stderr
    for key in (
        "line 3, site.service_class",
        "line 6, unit[1].depth",
        "line 7, unit[1].panel.material",
        "line 9, unit[1].level[1].hight",
        "line 10, unit[1].level[1].bays",
    ):
        assert key in found.stderr
    assert "Did you mean birch-plywood?" in found.stderr
    assert "Did you mean height?" in found.stderr


@pytest.mark.parametrize(
    "arguments",
    [
        ["check", "no such file.toml"],
        ["check"],
        ["chekc", "-"],
        ["check", "-", "--format", "pdf"],
        ["example", "no-such-example"],
        ["shelf", "--span", "600 mm"],
    ],
)
def test_unusable_command_lines_leave_with_2_and_no_traceback(arguments):
    found = run(*arguments)
    assert found.returncode == 2
    assert found.stderr.startswith("shelfload: ")
    assert "Traceback" not in found.stderr


def test_options_of_one_shelf_are_named_as_typed_and_all_at_once():
    found = run(
        "shelf", "--span", "600", "--depth", "300 kg", "--thickness", "18 mm",
        "--material", "brich-plywood", "--load", "30", "--point", "20 kg", "--limit", "tolerible",
    )  # fmt: skip
    assert found.returncode == 2
    for option in ("--span", "--depth", "--material", "--load", "--point", "--limit"):
        assert f"{option}: found" in found.stderr, found.stderr
    assert "tolerable" in found.stderr


def test_one_shelf_takes_every_option():
    found = run(
        "shelf", "--spans", "24 in, 24 in", "--depth", "12 in", "--thickness", "3/4 in",
        "--material", "birch-plywood", "--contents", "books", "--doubled", "glued",
        "--lipping", "3/4 in x 1 1/2 in", "--person", "80 kg @ 1 ft", "--bearing", "3/4 in",
        "--overhang", "4 in", "--service-class", "humid", "--limit", "workshop", "--units", "inch",
        "--name", "work bench",
    )  # fmt: skip
    assert found.returncode in (0, 1), found.stderr
    assert "work bench" in found.stdout
    assert " mm" not in found.stdout.partition("Sources")[0]


def test_inch_report_of_a_unit_shows_no_millimetres_and_the_other_way_round():
    def shown(*options):
        text = run("check", "-", "--full", "--format", "plain", *options, stdin=example).stdout
        # names of sources and contents are quoted as they are
        before, _, after = " ".join(text.split()).partition(" Sources -------")
        return before + after[after.index(" Cautions -----") :]

    example = run("example").stdout
    inch, metric = sizes_as_sold_left_out(shown("--units", "inch")), shown()
    for word in (" mm", " kg", " MPa", " kN"):
        assert f"{word} " not in inch, inch[inch.index(f"{word} ") - 60 :][:90]
    for word in (" lb", " psi", " lb/ft"):
        assert f"{word} " not in metric, word


@pytest.mark.parametrize("form", ["terminal", "plain", "markdown", "json"])
def test_every_format_has_the_same_verdict_and_fits(form):
    example = run("example", "print-display").stdout
    found = run("check", "-", "--format", form, stdin=example)
    assert found.returncode in (0, 1), found.stderr
    words = " ".join(found.stdout.casefold().split())
    data = json.loads(run("check", "-", "--format", "json", stdin=example).stdout)
    assert data["verdict"] in words
    assert "\x1b[" not in found.stdout
    if form in ("terminal", "plain"):
        widest = max(found.stdout.splitlines(), key=len)
        assert len(widest) <= 80, widest
    for caution in ("hidden defects", "codes"):
        assert caution in words


def test_colour_is_off_with_no_color_and_verdicts_stay_words():
    found = run(
        "check", "-", stdin=run("example").stdout, env={"NO_COLOR": "1", "FORCE_COLOR": "1"}
    )
    assert "\x1b[3" not in found.stdout
    assert "passes" in found.stdout


def test_options_of_what_fails_are_shown_side_by_side():
    text = """
[[shelf]]
name = "paper shelf"
depth = "300 mm"
spans = ["900 mm"]
shelf = { material = "birch-plywood", thickness = "12 mm" }
contents = { load = "30 kg/m" }
"""
    found = run("options", "-", stdin=text)
    assert found.returncode == 1, found.stderr
    words = " ".join(found.stdout.split())
    for wanted in ("as described", "FAILS", "second panel", "lipping", "The smallest change"):
        assert wanted in words
    assert run("options", "-", "--unit", "papershelf", stdin=text).returncode == 2


@pytest.mark.parametrize(
    ("wanted", "given"),
    [
        ("span", ["--thickness", "18 mm", "--load", "30 kg/m"]),
        ("thickness", ["--span", "900 mm", "--load", "30 kg/m"]),
        ("load", ["--span", "900 mm", "--thickness", "18 mm"]),
    ],
)
def test_what_is_left_out_can_be_found(wanted, given):
    found = run(
        "shelf", "--find", wanted, "--depth", "300 mm", "--material", "birch-plywood", *given
    )
    assert found.returncode == 0, found.stderr
    assert found.stdout.startswith("Found: ")


def test_tables_can_be_looked_up():
    found = run("materials", "birch-plywood-18mm")
    assert found.returncode == 0
    assert "birch-plywood-18mm" in found.stdout
    assert "from memory" in " ".join(found.stdout.split())
    found = run("contents", "books", "--units", "inch")
    assert "lb/ft" in found.stdout
    assert run("materials", "nothing-like-it").returncode == 1


def test_entry_point_and_module_are_the_same():
    found = run("--help")
    assert found.returncode == 0
    assert "check" in found.stdout
