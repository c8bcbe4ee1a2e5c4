"""No command needs a network, a home, a terminal or a right to write.

All commands run in one process: as a user without rights, in a network of its own without a
single interface, with a home that isn't there, in a folder that can't be written to. Where
this machine lets nobody do that, the audit hook of quiet_run.py still refuses and notes.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest
from every_command import COMMANDS, lay_out

import shelfload
from shelfload.cli import parser

ROOT = Path(shelfload.__file__).parents[1]
NOBODY = 65534


NO_NETWORK = ("unshare", "--net")
NO_RIGHTS = (
    *("setpriv", f"--reuid={NOBODY}", f"--regid={NOBODY}", "--clear-groups"),
    *("--bounding-set=-all", "--inh-caps=-all", "--no-new-privs"),
)


def fence(environment: dict[str, str]) -> tuple[str, ...]:
    """Return what to start a program with, so that it has as little as this machine allows.

    Nobody may be unable to reach the libraries, where they lie in somebody's home.
    """
    for tried in ((*NO_NETWORK, *NO_RIGHTS), NO_NETWORK, NO_RIGHTS):
        if shutil.which(tried[0]) is None:
            continue
        code = "import pydantic, numpy, every_command, shelfload.cli"
        started = [*tried, sys.executable, "-c", code]
        if not subprocess.run(
            started, env=environment, check=False, capture_output=True
        ).returncode:
            return tried
    return ()


@pytest.fixture(scope="module")
def quiet():
    environment = {
        "PATH": os.defpath,
        "HOME": "/nonexistent",
        "TMPDIR": "/nonexistent",
        "LC_ALL": "C",
        "PYTHONUTF8": "0",
        "PYTHONCOERCECLOCALE": "0",
        "PYTHONDONTWRITEBYTECODE": "1",
        "PYTHONPATH": os.pathsep.join((str(ROOT), str(ROOT / "tests"))),
        "OMP_NUM_THREADS": "1",
    }
    with tempfile.TemporaryDirectory() as name:
        folder = lay_out(Path(name))
        folder.chmod(0o555)
        found = subprocess.run(
            [
                *fence(environment),
                sys.executable,
                *("-X", "warn_default_encoding", "-W", "error"),
                str(ROOT / "tests" / "install" / "quiet_run.py"),
            ],
            cwd=folder,
            env=environment,
            stdin=subprocess.DEVNULL,
            capture_output=True,
            check=False,
            timeout=300,
        )
        folder.chmod(0o755)
    assert found.returncode == 0, found.stderr.decode()
    assert found.stderr == b""
    return json.loads(found.stdout)


def test_every_command_is_run():
    (commands,) = [action for action in parser()._actions if isinstance(action.choices, dict)]
    assert set(COMMANDS) == set(commands.choices)


@pytest.mark.parametrize("name", COMMANDS)
def test_command_needs_no_network_home_terminal_or_rights(quiet, name):
    done = quiet[name]
    assert done["status"] in (0, 1), done["err"]
    assert done["out"] > 50
    assert done["seen"] == []


def test_watch_sees_what_it_is_there_for(tmp_path):
    code = (
        "import quiet_run, socket, subprocess, sys\n"
        "sys.addaudithook(quiet_run.watch)\n"
        "for attempt in (lambda: socket.create_connection(('127.0.0.1', 9)),\n"
        "                lambda: subprocess.run(['true'])):\n"
        "    try:\n"
        "        attempt()\n"
        "    except RuntimeError as refused:\n"
        "        print(refused)\n"
        "open('written.txt', 'w', encoding='utf-8').close()\n"
        "print(quiet_run.seen[-1])\n"
    )
    found = subprocess.run(
        [sys.executable, "-c", code],
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(Path(__file__).parent)},
        capture_output=True,
        text=True,
        check=True,
    )
    assert "refused: socket." in found.stdout
    assert "refused: subprocess." in found.stdout
    assert "open 'written.txt' for writing" in found.stdout
