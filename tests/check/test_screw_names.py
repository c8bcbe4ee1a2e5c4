"""Screws are called as their packets call them, whatever the reader's units."""

from __future__ import annotations

import pytest

from shelfload import tables
from shelfload.check.screw_fate import called
from shelfload.wording import size, spelled


@pytest.mark.parametrize(
    ("name", "length", "words"),
    [
        ("chipboard-screw-4", 40.0, "Chipboard-type screw 4 x 40 mm"),
        ("chipboard-screw-4-5", 31.75, "Chipboard-type screw 4.5 x 31.75 mm"),
        ("full-thread-screw-3-5", 35.0, "Full-thread screw 3.5 x 35 mm"),
        # 31.8 and 44.4 mm of the table are 1 1/4 and 1 3/4 in to 0.05 mm
        ("wood-screw-no-8", 31.8, "Wood screw No. 8 x 1 1/4 in"),
        ("wood-screw-no-8", 44.4, "Wood screw No. 8 x 1 3/4 in"),
        ("bolt-m6", 40.0, "Hexagon bolt M6 with washers x 40 mm"),
        ("coach-screw-8", 80.0, "Coach screw M8 x 80 mm"),
    ],
)
def test_names_are_those_of_the_trade_in_both_systems(name, length, words):
    text = called(tables.fasteners()[name], length)
    assert spelled(text, "metric") == spelled(text, "inch") == words


def test_every_length_of_the_table_is_a_size_that_is_sold():
    for row in tables.fasteners().values():
        if row.kind == "wood screw":
            # eighths of an inch
            sold = {row.length_words(length).split("/")[-1] for length in row.lengths}
            assert sold <= {f"{n} in" for n in range(1, 9)}, row.name
        assert row.sold_lengths.count(",") == len(row.lengths) - 1


def test_a_spacing_is_rounded_down_and_a_distance_from_an_edge_up():
    assert spelled(f"every {size(115.0, down=True)}", "inch") == "every 4 1/2 in"
    assert spelled(f"at least {size(20.0, up=True)}", "inch") == "at least 13/16 in"
    assert spelled(f"every {size(115.0, down=True)}", "metric") == "every 115 mm"
