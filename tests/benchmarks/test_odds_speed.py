"""Speed of the odds; reported, never asserted. Meant: a million samples in under 0.3 s."""

from __future__ import annotations

from shelfload.advise.odds import odds
from shelfload.check.assess import assess
from shelfload.describe.reader import read_raw

SHELF = {
    "shelf": [
        {
            "name": "shelf",
            "depth": "300 mm",
            "spans": ["900 mm"],
            "contents": "books",
            "shelf": {"material": "birch-plywood", "thickness": "18 mm"},
        }
    ]
}


def test_a_million_samples_of_a_shelf(benchmark):
    description = read_raw(SHELF)
    findings = assess(description.project, description.catalogue)
    found = benchmark(odds, findings, samples=1_000_000)
    assert found.samples == 1_000_000
