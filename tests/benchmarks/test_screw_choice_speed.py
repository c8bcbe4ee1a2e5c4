"""How long the chooser takes for the joins of a large unit, the whole fasteners table each.

The aim is 50 joins in less than 50 ms; speed is reported here and asserted nowhere.
"""

from __future__ import annotations

import pytest
from joining import joint, member

from shelfload.check.screw_choice import choose
from shelfload.check.screw_table import whole_table
from shelfload.describe.joins import KINDS

PIECES = [
    member("birch-plywood", 17.6),
    member("birch-plywood", 12.0),
    member("c24", 45.0),
    member("particleboard-p2", 19.0),
    member("birch-plywood", 23.2),
    member("c24", 22.0),
    member("osb-3", 18.0),
]


def joints(count):
    return [
        joint(
            PIECES[n % 7],
            PIECES[(3 * n + 1) % 7],
            50.0 + 20.0 * n,
            10.0 + 2.0 * n if n % 3 == 0 else 0.0,
            length=200.0 + 20.0 * n,
        )
        for n in range(count)
    ]


@pytest.mark.parametrize("count", [1, 50, 500])
def test_choosing_among_the_whole_table(benchmark, count):
    whole_table(KINDS["screws"])  # read once, as in any run
    found = benchmark(choose, joints(count))
    assert len(found) == count
    assert any(choice.best is not None for choice in found) or count == 1
