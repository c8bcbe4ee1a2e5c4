"""README.md shows what the program really prints, and its own file is the one it checks."""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
from doctest import ELLIPSIS, OutputChecker
from pathlib import Path

import pytest

README = Path(__file__).resolve().parents[2] / "README.md"
TEXT = README.read_text(encoding="utf-8")
CONSOLE = re.findall(r"```console\n\$ ([^\n]+)\n(.*?)```", TEXT, flags=re.DOTALL)
TOML = re.findall(r"```toml\n(.*?)```", TEXT, flags=re.DOTALL)


@pytest.mark.parametrize(("command", "printed"), CONSOLE, ids=[command for command, _ in CONSOLE])
def test_command_prints_what_the_readme_shows(command, printed, tmp_path):
    (description,) = TOML
    (tmp_path / "paper-box.toml").write_text(description, encoding="utf-8")
    run = subprocess.run(
        [sys.executable, "-m", *shlex.split(command)],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        encoding="utf-8",
        env={
            **os.environ,
            "COLUMNS": "80",
            "PYTHONIOENCODING": "utf-8",
            "PYTHONPATH": str(README.parent),
        },
        timeout=120,
        check=False,
    )
    assert run.returncode in (0, 1), run.stderr
    shown = OutputChecker().check_output(printed, run.stdout, ELLIPSIS)
    assert shown, run.stdout


def test_python_of_the_readme_runs(tmp_path, monkeypatch, capsys):
    (code,) = re.findall(r"```python\n(.*?)```", TEXT, flags=re.DOTALL)
    (tmp_path / "paper-box.toml").write_text(TOML[0], encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    exec(compile(code, "README.md", "exec"), {})  # noqa: S102 - our own text
    assert "fails" in capsys.readouterr().out
