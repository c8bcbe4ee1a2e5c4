"""What a benchmark is measured against: a loop, or a bare start, timed right beside it.

A second means nothing on another machine, or on this one while it is busy; the ratio to work
of the same kind means more. Each benchmark gets its own calibration, before and after it.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable, Iterator
from time import perf_counter

import numpy as np
import pytest

COLD = "cold process"
"""Group of the benchmarks that start a process."""


def loop() -> float:
    """Do plain Python and small numpy arrays, half the time each: what a check is made of."""
    total, seen = 0.0, {}
    for n in range(12_000):
        seen[n % 97] = total
        total += (n * n) % 7 + len(seen)
    stiffness = np.eye(8) * 2.0 - np.eye(8, k=1) - np.eye(8, k=-1)
    x = np.linspace(0.0, 1.0, 64)
    for n in range(120):
        shape = np.linalg.solve(stiffness, np.arange(8.0) + n)
        total += float(np.max(np.polyval(shape[:4], x) * x[::-1]))
    return total


def bare_start() -> None:
    """Start a process that does nothing but load numpy."""
    subprocess.run([sys.executable, "-c", "import numpy"], check=True)


def best(work: Callable[[], object], rounds: int) -> float:
    """Least time that some work took [s]."""
    times = []
    for _ in range(rounds):
        start = perf_counter()
        work()
        times.append(perf_counter() - start)
    return min(times)


@pytest.fixture(autouse=True)
def calibrated(request: pytest.FixtureRequest) -> Iterator[None]:
    """Note beside each benchmark how fast the machine was while it ran."""
    if "benchmark" not in request.fixturenames:
        yield
        return
    benchmark = request.getfixturevalue("benchmark")
    cold = benchmark.group == COLD
    work, rounds = (bare_start, 3) if cold else (loop, 7)
    before = best(work, rounds)
    yield
    benchmark.extra_info["against"] = "import numpy" if cold else "loop"
    benchmark.extra_info["calibration"] = min(before, best(work, rounds))
