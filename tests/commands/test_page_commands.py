"""The commands that write files: pages, drawings and labels, whole or not at all."""

from __future__ import annotations

import os
import stat
from xml.etree import ElementTree

import pytest

from shelfload.cli import main, writing
from shelfload.errors import DescriptionError

ONE = """
title = "One box"
[[unit]]
name = "box"
depth = "300 mm"
panel = { material = "birch-plywood", thickness = "18 mm" }
[[unit.level]]
height = "300 mm"
bays = ["500 mm"]
contents = { load = "5 kg" }
"""


@pytest.fixture
def described(tmp_path):
    path = tmp_path / "one.toml"
    path.write_text(ONE, encoding="utf-8")
    return str(path)


@pytest.mark.parametrize(
    ("command", "more", "ending"),
    [
        ("check", ["--format", "html"], "</html>\n"),
        ("check", ["--format", "json"], "}\n"),
        ("check", [], "\n"),
        ("draw", [], "</svg>\n"),
        ("draw", ["--unit", "box", "--units", "inch"], "</svg>\n"),
        ("labels", [], "</html>\n"),
    ],
)
def test_out_holds_what_would_be_printed_and_nothing_is_printed(
    described, tmp_path, capsys, command, more, ending
):
    out = tmp_path / "out"
    printed = main([command, described, *more])
    shown = capsys.readouterr().out
    assert main([command, described, *more, "--out", str(out)]) == printed
    assert capsys.readouterr().out == ""
    written = out.read_text(encoding="utf-8")
    assert written == shown
    assert written.endswith(ending)
    assert sorted(one.name for one in tmp_path.iterdir()) == ["one.toml", "out"]


def test_drawing_from_the_command_is_an_svg_file(described, tmp_path):
    out = tmp_path / "unit.svg"
    assert main(["draw", described, "--out", str(out)]) == 0
    assert ElementTree.parse(out).getroot().tag == "{http://www.w3.org/2000/svg}svg"


@pytest.mark.parametrize("where", ["missing/unit.svg", "."])
def test_file_that_cannot_be_written_is_a_mistake_and_leaves_nothing(
    described, tmp_path, capsys, where
):
    assert main(["draw", described, "--out", str(tmp_path / where)]) == 2
    assert "--out" in capsys.readouterr().err
    assert [one.name for one in tmp_path.iterdir()] == ["one.toml"]


def test_unknown_unit_is_a_mistake_and_the_old_file_stays(described, tmp_path, capsys):
    out = tmp_path / "unit.svg"
    out.write_text("old", encoding="utf-8")
    assert main(["draw", described, "--unit", "bix", "--out", str(out)]) == 2
    assert "did you mean box" in capsys.readouterr().err
    assert out.read_text(encoding="utf-8") == "old"


def test_stop_half_way_keeps_the_old_file_and_leaves_no_other(tmp_path, monkeypatch):
    out = tmp_path / "page.html"
    out.write_text("old", encoding="utf-8")

    def stopped(self, target):
        raise KeyboardInterrupt

    monkeypatch.setattr(writing.Path, "replace", stopped)
    with pytest.raises(KeyboardInterrupt):
        writing.write_out("new", str(out))
    assert out.read_text(encoding="utf-8") == "old"
    assert [one.name for one in tmp_path.iterdir()] == ["page.html"]


def test_rights_of_a_file_stay_and_a_new_one_gets_the_usual(tmp_path):
    old, new, usual = tmp_path / "old", tmp_path / "new", tmp_path / "usual"
    old.write_text("x", encoding="utf-8")
    old.chmod(0o640)
    usual.write_text("x", encoding="utf-8")
    writing.write_out("y", str(old))
    writing.write_out("y", str(new))
    assert stat.S_IMODE(old.stat().st_mode) == 0o640
    assert stat.S_IMODE(new.stat().st_mode) == stat.S_IMODE(usual.stat().st_mode)


def test_link_is_followed_and_a_device_is_written_to(tmp_path):
    real, link = tmp_path / "real", tmp_path / "link"
    real.write_text("x", encoding="utf-8")
    link.symlink_to(real)
    writing.write_out("y", str(link))
    assert link.is_symlink()
    assert real.read_text(encoding="utf-8") == "y"
    writing.write_out("y", os.devnull)


def test_name_with_a_nul_is_a_mistake():
    with pytest.raises(DescriptionError, match="--out"):
        writing.write_out("y", "a\0b")
