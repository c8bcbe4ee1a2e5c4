"""Exit status of units that may come down: only what passes leaves with 0."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

BOX = """
[site]
{site}
[[unit]]
name = "box"
depth = "350 mm"
panel = {{ material = "birch-plywood", thickness = "18 mm" }}
shelf = {{ bearing = "6 mm" }}
back = {{ material = "birch-plywood", thickness = "6.5 mm", fixed = "glued" }}
{unit}
[[unit.level]]
height = "{height} mm"
bays = ["600 mm"]
contents = {{ load = "10 kg" }}
"""


def run(*arguments, stdin=""):
    return subprocess.run(
        [sys.executable, "-m", "shelfload", *arguments],
        input=stdin, capture_output=True, text=True, encoding="utf-8", timeout=60, check=False,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("site", "unit", "height", "status", "verdict"),
    [
        ("", "", 300, 0, "passes"),
        ("", "", 900, 1, None),
        ('wall = "unknown"', "hangs = {}\nunderside = '1400 mm'", 300, 1, "not checked"),
        ('wall = "solid brick"', "hangs = {}\nunderside = '1400 mm'", 300, 1, None),
        ('wall = "plasterboard"', "hangs = {}\nunderside = '1400 mm'", 300, 1, "fails"),
        ("", "underside = '500 mm'", 300, 1, "not checked"),
        ('wall = "cheese"', "", 300, 2, None),
    ],
)
def test_only_a_pass_leaves_with_nought(site, unit, height, status, verdict):
    text = BOX.format(site=site, unit=unit, height=height)
    found = run("check", "-", "--format", "json", stdin=text)
    assert found.returncode == status, found.stderr
    if verdict:
        assert json.loads(found.stdout)["verdict"] == verdict


@pytest.mark.parametrize("name", ["wall-cupboard", "tall-store", "bench-bridge"])
def test_examples_that_are_fixed_well_pass_and_fail_when_the_wall_is_not_known(name):
    example = run("example", name)
    assert run("check", "-", stdin=example.stdout).returncode == 0
    lines = [
        line
        for line in example.stdout.splitlines()
        if not line.startswith(("wall = ", "stud_spacing", "wall_layers"))
        and not line.strip().startswith("maker = ")
    ]
    text = "\n".join(lines).replace('maker = "frame-plug", ', "")
    unknown = run("check", "-", "--format", "json", stdin=text)
    assert unknown.returncode == 1, unknown.stderr
    data = json.loads(unknown.stdout)
    assert any("magnet" in caution for caution in data["cautions"])
    assert any(
        check["verdict"] == "not checked" and "unknown wall" in check["reason"]
        for check in data["checks"]
    )


def test_shelf_command_takes_brackets_cleat_and_rods():
    common = (
        "shelf", "--depth", "200 mm", "--thickness", "18 mm", "--material", "birch-plywood",
        "--load", "5 kg/m", "--wall", "unknown", "--format", "json",
    )  # fmt: skip
    for more in (
        ("--length", "1200 mm", "--brackets", "2", "--bracket-height", "150 mm"),
        ("--span", "800 mm", "--cleat", "60 mm"),
        ("--span", "800 mm", "--rods", "3", "--rod", "12 mm", "--rod-in-wall", "100 mm"),
    ):
        found = run(*common, *more)
        assert found.returncode == 1, found.stderr
        checks = json.loads(found.stdout)["checks"]
        assert any(
            check["place"]["part"] == "wall" and check["verdict"] == "not checked"
            for check in checks
        )
    wrong = run(*common, "--span", "800 mm", "--rods", "3", "--rod", "12 mm")
    assert wrong.returncode == 2
    assert "--rod-in-wall" in wrong.stderr
