"""Mistakes on the command line name the option that was typed, and several near names."""

from __future__ import annotations

import sys

import pytest

from shelfload.cli import main

SHELF = (
    "shelf", "--depth", "300 mm", "--thickness", "18 mm", "--material", "birch-plywood",
    "--load", "30 kg/m",
)  # fmt: skip


@pytest.mark.parametrize(
    ("options", "told"),
    [
        (("--span", "900 mm", "--cleat", "40"), "--cleat: found 40;"),
        (("--span", "900 mm", "--brackets", "2"), "--bracket-height: found nothing; this option"),
        (
            ("--length", "900 mm", "--brackets", "1", "--bracket-height", "200 mm"),
            "--brackets: found 1; allowed: 2 or more.",
        ),
        (("--length", "900 mm", "--rods", "1"), "--rods: found 1; allowed: 2 or more."),
        (
            ("--length", "900 mm", "--cleat", "40 mm"),
            "--length: found no number of --brackets to be placed along it; allowed: --length",
        ),
        (
            ("--span", "900 mm", "--length", "900 mm", "--brackets", "2", "--bracket-height",
             "200 mm"),
            "--length: found --span or --spans too; allowed: --span, or --length with --brackets",
        ),
        (("--span", "900 mm", "--point", "20 kg @ 3 m"), "--point: found a point load at 3000 mm"),
        (("--span", "900 mm", "--lenght", "2 m"), "unknown option --lenght; see shelfload shelf"),
        (("--span", "900 mm", "--lenght=2 m"), "Did you mean --length?"),
        (
            ("--length", "900 mm", "--brackets", "2", "--screw", "5x60"),
            "a fastener that is known (shelfload fasteners lists them)",
        ),
    ],
)  # fmt: skip
def test_a_mistake_of_the_shelf_is_told_by_its_option(options, told, capsys):
    assert main([*SHELF, *options]) == 2
    assert told in capsys.readouterr().err


def test_every_unknown_option_is_told_at_once_before_what_is_missing(capsys):
    assert main(["shelf", "--lenght", "2 m", "--depht", "1 m"]) == 2
    said = capsys.readouterr().err
    assert "2 mistakes" in said
    assert "Did you mean --depth?" in said
    assert "required" not in said


def test_a_mistyped_command_gets_the_nearest(capsys):
    assert main(["chekc", "store.toml"]) == 2
    assert "Did you mean check?" in capsys.readouterr().err


def test_shortened_options_still_work(capsys):
    assert main([*SHELF, "--span", "900 mm", "--form", "json"]) in (0, 1)
    assert '"verdict"' in capsys.readouterr().out


def test_fasteners_are_listed_in_the_sizes_sold(capsys):
    assert main(["fasteners", "wood screw no. 8"]) == 0
    gauge = " ".join(capsys.readouterr().out.split())
    assert "wood-screw-no-8" in gauge
    assert "3/4, 1, 1 1/4" in gauge
    assert main(["fasteners", "chipboard-screw-4"]) == 0
    assert "16, 20, 25" in capsys.readouterr().out
    assert main(["fasteners", "no such thing"]) == 1


def test_mistakes_are_wrapped_for_a_terminal_only(capsys, monkeypatch):
    command = [*SHELF, "--length", "900 mm", "--cleat", "40 mm"]
    assert main(command) == 2
    line = capsys.readouterr().err.splitlines()[1]
    monkeypatch.setenv("COLUMNS", "60")
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True, raising=False)
    assert main(command) == 2
    wrapped = capsys.readouterr().err.splitlines()[1:]
    assert max(map(len, wrapped)) <= 60
    assert len(wrapped) > 1
    assert " ".join(" ".join(wrapped).split()) == " ".join(line.split())
