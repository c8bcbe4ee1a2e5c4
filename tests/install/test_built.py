"""The comparison of what was built with the checkout; building itself is done by .ci/run."""

from __future__ import annotations

import io
import runpy
import tarfile
import zipfile
from pathlib import Path

BUILT = runpy.run_path(str(Path(__file__).with_name("built.py")))


def pack(folder: Path, package: dict[str, bytes], source: dict[str, bytes]) -> None:
    with zipfile.ZipFile(folder / "x-1-py3-none-any.whl", "w") as wheel:
        for name, content in {**package, "x-1.dist-info/METADATA": b""}.items():
            wheel.writestr(name, content)
    with tarfile.open(folder / "x-1.tar.gz", "w:gz") as archive:
        for name, content in {**source, "PKG-INFO": b"", "pyproject.toml": b""}.items():
            member = tarfile.TarInfo(f"x-1/{name}")
            member.size = len(content)
            archive.addfile(member, io.BytesIO(content))


def as_it_should_be() -> tuple[dict[str, bytes], dict[str, bytes]]:
    checkout, root = BUILT["checkout"], BUILT["ROOT"]
    package = {
        name.replace("tables/", "shelfload/_tables/", 1) if name.startswith("tables/") else name: c
        for name, c in checkout("shelfload", "tables").items()
    }
    source = checkout("shelfload", "tables", "tests") | {
        name: (root / name).read_bytes() for name in ("README.md", "DEVELOPERS.md", "SAFETY.md")
    }
    return package, source


def test_complete_archives_have_no_faults(tmp_path: Path) -> None:
    pack(tmp_path, *as_it_should_be())
    assert BUILT["faults"](tmp_path) == []


def test_missing_changed_and_stray_files_are_told(tmp_path: Path) -> None:
    package, source = as_it_should_be()
    del source["tables/kdef.csv"]
    package["shelfload/_tables/kmod.csv"] += b" "
    package["tables/kmod.csv"] = b""
    pack(tmp_path, package, source)
    assert BUILT["faults"](tmp_path) == [
        "the sdist lacks tables/kdef.csv",
        "the wheel has tables/kmod.csv for no reason",
        "the wheel: shelfload/_tables/kmod.csv differs",
    ]
