"""Completion scripts, the schema command, and the example at the foot of every help text."""

from __future__ import annotations

import argparse
import json
import shlex
import shutil
import subprocess

import pytest

from shelfload.cli import main, parser
from shelfload.describe.examples import example_text


def commands():
    (actions,) = [
        action for action in parser()._actions if isinstance(action, argparse._SubParsersAction)
    ]
    return actions.choices


@pytest.mark.parametrize("name", commands())
def test_help_of_a_command_ends_with_one_example_of_it(name):
    text = commands()[name].epilog
    assert text.startswith(f"Example: shelfload {name}")
    assert text.count("Example:") == 1
    for line in shlex.split(text.removeprefix("Example: ").replace("|", ";")):
        assert line


# new asks; options and repair check many changes of a unit, and are run on one shelf elsewhere
@pytest.mark.parametrize("name", sorted(set(commands()) - {"new", "options", "repair"}))
def test_example_in_the_help_runs(name, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "store.toml").write_text(example_text())
    main(["panels", "store.toml", "--format", "csv"])
    (tmp_path / "order.csv").write_text(capsys.readouterr().out)
    words = commands()[name].epilog.removeprefix("Example: shelfload ")
    first = words.partition("|")[0].partition(">")[0]
    assert main(shlex.split(first)) in (0, 1)
    made = {path.name for path in tmp_path.iterdir()} - {"store.toml", "order.csv"}
    shown = capsys.readouterr()
    assert shown.out or made
    assert "mistake" not in shown.err


def test_schema_is_json_and_says_which_draft(capsys):
    assert main(["schema"]) == 0
    assert json.loads(capsys.readouterr().out)["$schema"].endswith("2020-12/schema")


@pytest.mark.parametrize("shell", ["bash", "zsh", "tcsh"])
def test_completion_names_every_command(shell, capsys):
    assert main(["completion", shell]) == 0
    script = capsys.readouterr().out
    assert all(name in script for name in commands())


@pytest.mark.skipif(shutil.which("bash") is None, reason="bash is not installed")
def test_bash_completes_a_command_an_option_and_a_choice(tmp_path, capsys):
    main(["completion", "bash"])
    script = tmp_path / "complete"
    script.write_text(capsys.readouterr().out)

    def completed(*typed):
        words = " ".join(shlex.quote(word) for word in ("shelfload", *typed))
        ask = (
            f"source {script}; COMP_WORDS=({words}); COMP_CWORD={len(typed)}; "
            'COMP_LINE="${COMP_WORDS[*]}"; COMP_POINT=${#COMP_LINE}; '
            '_shtab_shelfload; printf "%s\\n" "${COMPREPLY[@]}"'
        )
        return subprocess.run(
            ["bash", "-c", ask], capture_output=True, text=True, timeout=60, check=True
        ).stdout.split()

    assert completed("pan") == ["panels"]
    assert completed("panels", "--toler") == ["--tolerance"]
    assert "inch" in completed("check", "--units", "in")
