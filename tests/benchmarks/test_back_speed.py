"""How long a unit with backs takes: every shelf a plate, equal shelves solved once."""

from __future__ import annotations

import pytest

from shelfload.check.assess import assess
from shelfload.describe.reader import read_raw
from shelfload.idealise.plate_response import unit_response

BACK = {"material": "hardboard", "thickness": "3.2 mm", "fixed": "nailed", "spacing": "100 mm"}


def cupboard(levels, back):
    level = {"height": "350 mm", "bays": ["620 mm", "620 mm"], "contents": {"load": "20 kg/m"}}
    unit = {
        "name": "cupboard",
        "depth": "400 mm",
        "base": "plinth",
        "panel": {"material": "birch-plywood", "thickness": "18 mm"},
        "level": [level] * levels,
    }
    if back:
        unit["back"] = BACK
    return read_raw({"unit": [unit]})


@pytest.mark.parametrize("levels", [1, 4, 8])
@pytest.mark.parametrize("back", [False, True], ids=["open", "backed"])
def test_unit_checked_cold(benchmark, levels, back):
    description = cupboard(levels, back)

    def check():
        unit_response.cache_clear()
        return assess(description.project, description.catalogue)

    found = benchmark(check)
    assert bool(found.whole.plates) is back


def test_unit_checked_again_as_advice_does(benchmark):
    description = cupboard(4, back=True)
    assert benchmark(assess, description.project, description.catalogue).whole.plates
