"""Run the tests with the oldest and the newest libraries that pyproject.toml admits.

    python tests/install/versions.py                                  both, this Python, all tests
    python tests/install/versions.py --python 3.12 --python /opt/py/bin/python
    python tests/install/versions.py --bounds lowest -- tests/tables -q

Needs uv (pip install uv), which resolves to the lowest versions; each environment is made
anew in a folder that is thrown away.
"""

from __future__ import annotations

import argparse
import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
RESOLUTION = {"lowest": "lowest-direct", "newest": "highest"}


def uv(*arguments: str, environment: Path | None = None) -> None:
    found = shutil.which("uv", path=os.pathsep.join((str(Path(sys.executable).parent), os.defpath)))
    found = found or shutil.which("uv")
    if found is None:
        raise SystemExit("uv is needed: pip install uv")
    env = {**os.environ, **({"VIRTUAL_ENV": str(environment)} if environment else {})}
    subprocess.run([found, *arguments], env=env, cwd=ROOT, check=True)


def tested(python: str, bounds: str, pytest: Sequence[str]) -> int:
    with tempfile.TemporaryDirectory() as folder:
        Path(folder).chmod(0o755)  # some tests run as nobody
        environment = Path(folder) / "venv"
        # pip too: a reference library asks for it
        uv("venv", "--quiet", "--seed", "--python", python, str(environment))
        uv(
            *("pip", "install", "--quiet", "--resolution", RESOLUTION[bounds]),
            *("--editable", ".[test]"),
            environment=environment,
        )
        print(f"\n== {python}, {bounds}", flush=True)
        uv("pip", "list", "--quiet", environment=environment)
        inside = environment / ("Scripts" if os.name == "nt" else "bin") / "python"
        return subprocess.run([inside, "-m", "pytest", *pytest], cwd=ROOT, check=False).returncode


def main(arguments: Sequence[str]) -> int:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--python", action="append", help="version or path; once or more")
    parser.add_argument("--bounds", nargs="+", choices=RESOLUTION, default=list(RESOLUTION))
    parser.add_argument("pytest", nargs="*", help="for pytest, after a double dash")
    asked = parser.parse_args(arguments)
    failed = 0
    for python in asked.python or [sys.executable]:
        for bounds in asked.bounds:
            failed |= tested(python, bounds, asked.pytest)
    return int(failed != 0)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
