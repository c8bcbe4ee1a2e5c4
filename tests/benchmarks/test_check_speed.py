"""Speed of a whole check, as a process and as a solve alone; reported, never asserted.

The first two benchmarks belong together: the process is meant to take no more than 1.5
times the bare import of the libraries it stands on.
"""

from __future__ import annotations

import subprocess
import sys

import pytest

from shelfload.check.assess import assess
from shelfload.describe.reader import read_text

LEVEL = """
[[unit.level]]
height = "350 mm"
bays = ["700 mm"]
contents = { load = "20 kg/m" }
"""
EIGHT_SHELVES = (
    """
[[unit]]
name = "cupboard"
depth = "400 mm"
base = "plinth"
panel = { material = "birch-plywood", thickness = "18 mm" }
"""
    + LEVEL * 7
)


def process(*arguments):
    subprocess.run([sys.executable, *arguments], stdout=subprocess.DEVNULL, check=False, timeout=60)


@pytest.mark.benchmark(group="cold process")
def test_bare_import_of_the_libraries(benchmark):
    benchmark(process, "-c", "import numpy, pint, rich.console")


@pytest.mark.benchmark(group="cold process")
def test_check_of_an_eight_shelf_unit(benchmark, tmp_path):
    path = tmp_path / "cupboard.toml"
    path.write_text(EIGHT_SHELVES, encoding="utf-8")
    benchmark(process, "-m", "shelfload", "check", str(path))


@pytest.mark.benchmark(group="warm")
def test_eight_shelves_idealised_solved_and_checked(benchmark):
    description = read_text(EIGHT_SHELVES)
    findings = benchmark(assess, description.project, description.catalogue)
    assert len(findings.whole.shelves) == 8


@pytest.mark.benchmark(group="warm")
def test_description_read(benchmark):
    assert benchmark(read_text, EIGHT_SHELVES).project.unit
