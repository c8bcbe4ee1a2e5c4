"""Start-up: what a user waits for before anything is worked out; reported, never asserted.

``import numpy`` alone is the calibration of this group: its ratio is 1 but for noise.
"""

from __future__ import annotations

import subprocess
import sys

import pytest

pytestmark = pytest.mark.benchmark(group="cold process")


def process(*arguments):
    subprocess.run([sys.executable, *arguments], stdout=subprocess.DEVNULL, check=False, timeout=60)


def test_bare_interpreter(benchmark):
    benchmark.pedantic(process, args=("-c", "pass"), rounds=10)


def test_import_of_numpy(benchmark):
    benchmark.pedantic(process, args=("-c", "import numpy"), rounds=10)


def test_help(benchmark):
    benchmark.pedantic(process, args=("-m", "shelfload", "--help"), rounds=10)


def test_import_of_the_package(benchmark):
    benchmark.pedantic(process, args=("-c", "import shelfload"), rounds=10)
