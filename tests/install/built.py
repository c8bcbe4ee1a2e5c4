"""Compare what was built with the checkout: python tests/install/built.py DIST [PYTHON].

The source archive and the wheel must carry every table, example and template, byte for byte,
and nothing that doesn't belong. With the Python of an environment that the wheel is installed
in, its tables are read and compared too.
"""

from __future__ import annotations

import subprocess
import sys
import tarfile
import zipfile
from collections.abc import Mapping, Sequence
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PACKED = "shelfload/_tables"
BEYOND = {"PKG-INFO", ".gitignore", "pyproject.toml"}
READ = (
    "from shelfload import tables\n"
    "import sys\n"
    "folder = tables.folder()\n"
    "print(*sorted(path.name for path in folder.glob('*.csv')))\n"
    "rows = (tables.materials(), tables.contents(), tables.fasteners(), tables.figures(),\n"
    "        tables.limits(), tables.lumber(), tables.studs(), tables.substrates())\n"
    "print(*map(len, rows))\n"
)


def checkout(*folders: str) -> dict[str, bytes]:
    return {
        path.relative_to(ROOT).as_posix(): path.read_bytes()
        for folder in folders
        for path in (ROOT / folder).rglob("*")
        if path.is_file() and path.suffix != ".pyc"
    }


def in_sdist(path: Path) -> dict[str, bytes]:
    with tarfile.open(path) as archive:
        return {
            member.name.partition("/")[2]: archive.extractfile(member).read()  # type: ignore[union-attr]
            for member in archive.getmembers()
            if member.isfile()
        }


def in_wheel(path: Path) -> dict[str, bytes]:
    with zipfile.ZipFile(path) as archive:
        return {
            name: archive.read(name) for name in archive.namelist() if ".dist-info/" not in name
        }


def compared(what: str, found: Mapping[str, bytes], wanted: Mapping[str, bytes]) -> list[str]:
    return [
        *(f"{what} lacks {name}" for name in sorted(wanted.keys() - found.keys())),
        *(f"{what} has {name} for no reason" for name in sorted(found.keys() - wanted.keys())),
        *(
            f"{what}: {name} differs"
            for name in sorted(wanted.keys() & found.keys())
            if wanted[name] != found[name]
        ),
    ]


def faults(dist: Path) -> list[str]:
    sdist, wheel = in_sdist(next(dist.glob("*.tar.gz"))), in_wheel(next(dist.glob("*.whl")))
    everything = checkout("shelfload", "tables", "tests")
    everything |= {
        name: (ROOT / name).read_bytes() for name in ("README.md", "DEVELOPERS.md", "SAFETY.md")
    }
    package = {
        name.replace("tables/", f"{PACKED}/", 1) if name.startswith("tables/") else name: content
        for name, content in checkout("shelfload", "tables").items()
    }
    sdist = {name: content for name, content in sdist.items() if name not in BEYOND}
    return compared("the sdist", sdist, everything) + compared("the wheel", wheel, package)


def tables_seen_by(python: str, folder: Path) -> str:
    return subprocess.run(
        [python, "-I", "-c", READ], cwd=folder, capture_output=True, text=True, check=True
    ).stdout


def main(arguments: Sequence[str]) -> int:
    dist = Path(arguments[0])
    found = faults(dist)
    if len(arguments) > 1:
        names, counts = tables_seen_by(arguments[1], dist).splitlines()
        wanted = " ".join(sorted(path.name for path in (ROOT / "tables").glob("*.csv")))
        if names != wanted:
            found.append(f"installed are the tables {names}")
        if any(count == "0" for count in counts.split()):
            found.append(f"an installed table has no rows: {counts}")
    print("\n".join(found) or "sdist and wheel carry what the checkout has")
    return int(bool(found))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
