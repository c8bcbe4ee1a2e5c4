"""Speed of drawing and solving whole units as frames.

Run with: pytest tests/benchmarks --benchmark-only (one core: OMP_NUM_THREADS=1).
"""

from __future__ import annotations

from typing import Any

import pytest

from shelfload.describe.reader import read_raw
from shelfload.idealise.elevation import elevations
from shelfload.idealise.whole import idealise

HARDBOARD = {"material": "hardboard", "thickness": "3.2 mm", "fixed": "nailed", "spacing": "100 mm"}


def shelves(count: int) -> dict[str, Any]:
    """A cupboard with ``count`` horizontals over two bays."""
    level = {"height": "300 mm", "bays": ["600 mm", "600 mm"], "contents": {"load": "20 kg/m"}}
    return {
        "unit": [
            {
                "name": "cupboard",
                "depth": "350 mm",
                "panel": {"material": "birch-plywood", "thickness": "18 mm"},
                "back": HARDBOARD,
                "level": [level] * (count - 1),
            }
        ]
    }


@pytest.mark.benchmark(group="elevation")
@pytest.mark.parametrize("count", [4, 8, 16])
def test_drawing_and_solving_a_unit(benchmark: Any, count: int) -> None:
    description = read_raw(shelves(count))
    project, catalogue = description.project, description.catalogue
    whole = idealise(project, catalogue)
    stacks = dict(zip(whole.placed, whole.stacks, strict=True))
    found = benchmark(elevations, whole.placed, stacks, project.site, catalogue)
    assert found[0].result is not None


@pytest.mark.benchmark(group="elevation")
@pytest.mark.parametrize("count", [4, 8, 16])
def test_solving_alone(benchmark: Any, count: int) -> None:
    description = read_raw(shelves(count))
    (elevation,) = idealise(description.project, description.catalogue).elevations
    frame = elevation.plan.frame()
    result = benchmark(elevation.solved, frame)
    assert len(result.frame.members) == 5 * (count - 1) + 2
