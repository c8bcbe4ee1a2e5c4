"""Speed of a span table; reported, never asserted. Meant: 10,000 cells in under half a second."""

from __future__ import annotations

import numpy as np

from shelfload.advise.span_tables import load_table, span_table
from shelfload.advise.table_cells import BACKED, Asked, Sheet
from shelfload.describe.parts import Back

SHEETS = tuple(
    Sheet(material=material, thickness=thickness)
    for material in ("birch-plywood", "mdf", "particleboard-p2", "european-oak", "c24")
    for thickness in np.linspace(12.0, 30.0, 10).tolist()
)
ASKED = Asked(sheets=SHEETS, depth=300.0, supports=("over two dividers",))


def test_ten_thousand_spans_over_two_dividers(benchmark):
    loads = np.linspace(0.05, 1.0, 200).tolist()
    table = benchmark(span_table, ASKED, loads)
    assert table.values["over two dividers"].size == 10_000


def test_ten_thousand_safe_loads_over_two_dividers(benchmark):
    spans = np.linspace(300.0, 1500.0, 200).tolist()
    table = benchmark(load_table, ASKED, spans)
    assert table.values["over two dividers"].size == 10_000


def test_five_by_five_spans_with_a_fixed_back(benchmark):
    back = Back.model_construct(
        material="birch-plywood", thickness=6.5, fixed="screwed", spacing=150.0
    )
    names = ("birch-plywood", "spruce-plywood", "particleboard-p2", "c24", "osb-3")
    sheets = tuple(Sheet(material=name, thickness=18.0) for name in names)
    asked = Asked(sheets=sheets, depth=300.0, supports=(BACKED,), back=back)
    loads = np.linspace(0.1, 0.5, 5).tolist()
    table = benchmark.pedantic(span_table, (asked, loads), rounds=1)
    assert table.values[BACKED].size == 25
