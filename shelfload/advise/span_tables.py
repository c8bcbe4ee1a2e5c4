"""Tables of spans and of safe loads: the checks of a shelf asked for many shelves at once.

Every figure of a cell (section, creep, strengths, factors, limit) is taken from the criteria
of the checks themselves; only the search for the span or load runs over all cells together.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shelfload.advise.backed_cells import NoFigure, backed_loads, backed_spans
from shelfload.advise.table_cells import (
    BACKED,
    CURVES,
    NOMINAL,
    SUPPORTS,
    Asked,
    Cells,
    Question,
    Sheet,
    assumed,
    cells_of,
    shelf_of,
)
from shelfload.check.criteria import Criterion
from shelfload.idealise.shelf_beam import ShelfBeam
from shelfload.solve.rising import Rows, reaches_one
from shelfload.solve.span_rows import SpanRows

Array = NDArray[np.float64]

SHORTEST, LONGEST = 50.0, 6000.0
"""Clear spans between which a table looks [mm]; no sheet is sold longer."""
_LEAST, _MOST = 1e-6, 1e4
"""Loads between which a table looks [N/mm]."""
_POWER = {"sag": 3.0, "moment": 2.0, "shear": 1.0, "reaction": 1.0}
"""How demands grow with the span where the load per length stays."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Table:
    """Cells of a table for each support.

    Attributes
    ----------
    values : mapping of support to ndarray, shape (sheets, columns)
        Largest clear span [mm] or safe load [N/mm]; 0 where nothing passes, inf where it is
        beyond what was looked at, nan where it can't be said.
    governs : mapping of support to ndarray of int, same shape
        Which of ``QUESTIONS`` decides; -1 for none.
    missing : tuple of str
        For each sheet why it has no figures; empty where it has them.
    said : tuple of tuple of str
        For each sheet what was assumed of it.
    """

    values: dict[str, Array]
    governs: dict[str, NDArray[np.intp]]
    missing: tuple[str, ...]
    said: tuple[tuple[str, ...], ...]


def span_table(asked: Asked, loads: Sequence[float]) -> Table:
    """Find the largest clear span of every sheet under every load [N/mm] on every support."""
    return _table(
        asked,
        loads,
        _longest_spans,
        lambda sheet: backed_spans(asked, sheet, loads, SHORTEST, LONGEST),
    )


def load_table(asked: Asked, spans: Sequence[float]) -> Table:
    """Find the safe even load of every sheet on every clear span [mm] and support.

    It is what a check gives as safe load per length: in the worst pattern of full and empty
    spans, self-weight taken off.
    """
    return _table(asked, spans, _largest_loads, lambda sheet: backed_loads(asked, sheet, spans))


def _longest_spans(cells: Cells, loads: Array) -> list[Array]:
    """Search on sag first, which mostly decides, and on the others where they are worse there."""
    first, *others = cells.criteria
    by_sag = _longest(cells, first, loads, np.arange(loads.size))
    there = np.clip(by_sag, SHORTEST, LONGEST)
    solved = cells.solved(there, np.arange(loads.size))
    found = [by_sag]
    for asked in others:
        spans = np.full_like(loads, np.inf)
        rows = np.flatnonzero(cells.ratio(asked, solved, loads, np.arange(loads.size)) > 1.0)
        if rows.size:
            spans[rows] = _longest(cells, asked, loads, rows)
        found.append(spans)
    return found


def _longest(cells: Cells, asked: Question, loads: Array, rows: Rows) -> Array:
    return reaches_one(
        lambda span, some: cells.ratio(
            asked, cells.solved(span, rows[some]), loads[rows[some]], rows[some]
        ),
        start=np.full(rows.size, NOMINAL),
        low=SHORTEST,
        high=LONGEST,
        power=_POWER[asked.curve],
    )


def _largest_loads(cells: Cells, spans: Array) -> list[Array]:
    solved = cells.solved(spans, np.arange(spans.size))
    first, *others = cells.criteria
    by_sag = _largest(cells, first, solved, np.arange(spans.size))
    there = np.clip(by_sag, _LEAST, _MOST)
    found = [by_sag]
    for asked in others:
        loads = np.full_like(spans, np.inf)
        rows = np.flatnonzero(cells.ratio(asked, solved, there, np.arange(spans.size)) > 1.0)
        if rows.size:
            loads[rows] = _largest(cells, asked, solved.some(rows), rows)
        found.append(loads)
    return found


def _largest(cells: Cells, asked: Question, solved: SpanRows, rows: Rows) -> Array:
    """Find the load at which one question reaches its limit; 0 where the empty shelf does."""
    empty = cells.ratio(asked, solved, np.zeros(rows.size), rows)
    if not asked.sometimes.any():
        return np.where(empty < 1.0, np.inf, 0.0)
    load = reaches_one(
        lambda q, some: cells.ratio(asked, solved.some(some), q, rows[some]),
        start=np.ones(rows.size),
        low=_LEAST,
        high=_MOST,
        power=1.0,
    )
    return np.where(empty < 1.0, load, 0.0)


def _table(
    asked: Asked,
    columns: Sequence[float],
    solved: Callable[[Cells, Array], list[Array]],
    backed: Callable[[Sheet], list[tuple[float, int]]],
) -> Table:
    values: dict[str, Array] = {}
    governs: dict[str, NDArray[np.intp]] = {}
    missing = [""] * len(asked.sheets)
    said: list[tuple[str, ...]] = [()] * len(asked.sheets)
    for support in asked.supports:
        if support == BACKED:
            values[support], governs[support] = _with_back(asked, len(columns), backed, missing)
            continue
        beams: list[tuple[int, ShelfBeam, list[Criterion]]] = []
        for row, sheet in enumerate(asked.sheets):
            found = shelf_of(asked, sheet, SUPPORTS[support])
            if isinstance(found, str):
                missing[row] = found
            else:
                beams.append((row, *found))
                said[row] = assumed(found[0])
        shape = (len(asked.sheets), len(columns))
        values[support], governs[support] = np.full(shape, np.nan), np.full(shape, -1)
        if not beams:
            continue
        cells = cells_of(asked, [one[1:] for one in beams], len(columns))
        column = np.tile(np.asarray(columns, dtype=np.float64), len(beams))
        each = np.stack(solved(cells, column))
        which = np.array([CURVES.index(one.curve) for one in cells.criteria])
        best = each.min(axis=0)
        rows = [one[0] for one in beams]
        values[support][rows] = best.reshape(len(beams), -1)
        decides = np.where(np.isfinite(best), which[each.argmin(axis=0)], -1)
        governs[support][rows] = decides.reshape(len(beams), -1)
    return Table(values=values, governs=governs, missing=tuple(missing), said=tuple(said))


def _with_back(
    asked: Asked,
    columns: int,
    backed: Callable[[Sheet], list[tuple[float, int]]],
    missing: list[str],
) -> tuple[Array, NDArray[np.intp]]:
    """Fill the cells of shelves with a fixed back, sheet by sheet; ``missing`` takes why not."""
    shape = (len(asked.sheets), columns)
    values, governs = np.full(shape, np.nan), np.full(shape, -1)
    for row, sheet in enumerate(asked.sheets):
        try:
            found = backed(sheet)
        except NoFigure as why:
            missing[row] = missing[row] or str(why)
            continue
        values[row] = [value for value, _ in found]
        governs[row] = [by for _, by in found]
    return values, governs
