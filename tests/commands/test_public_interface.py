"""The public interface as DEVELOPERS.md and the package docstring show it."""

from __future__ import annotations

import pytest

import shelfload
from shelfload import units
from shelfload.describe.examples import example_text
from shelfload.errors import DescriptionError


def test_file_text_and_mapping_give_the_same_outcome(tmp_path):
    text = example_text()
    path = tmp_path / "store.toml"
    path.write_text(text, encoding="utf-8")
    from_file, from_text = shelfload.check_file(path), shelfload.check_text(text)
    assert from_file.findings.checks == from_text.findings.checks
    assert from_file.verdict is from_text.verdict


def test_quantities_are_taken_as_well_as_text():
    def shelf(span):
        return shelfload.check_mapping(
            {
                "shelf": [
                    {
                        "name": "shelf",
                        "depth": "300 mm",
                        "spans": [span],
                        "shelf": {"material": "birch-plywood", "thickness": "18 mm"},
                    }
                ]
            }
        )

    quantity = units.quantity(914.4, "length")  # 3 ft = 36 in = 914.4 mm by definition
    assert shelf(quantity).findings.checks == shelf("3 ft").findings.checks
    assert shelf("3 ft").findings.checks[0].quantity.to("mm").magnitude > 0


def test_mistakes_are_raised_together():
    with pytest.raises(DescriptionError) as caught:
        shelfload.check_text("[[shelf]]\nname = 3\n")
    assert len(caught.value.mistakes) >= 3
