"""Rows of the tables for someone looking for a sheet or for what things weigh."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TextIO

from shelfload import tables, units
from shelfload.report.text import fitted, numbered
from shelfload.units import Dimension, UnitSystem

_LOADS: dict[str, Dimension] = {
    "line": "line load",
    "area": "area load",
    "volume": "volume load",
    "each": "force",
}


def materials(word: str, system: UnitSystem, stream: TextIO) -> bool:
    """Print the materials whose name, family, alias or title holds ``word``; False if none do."""
    rows = [
        (
            row.name,
            units.show(row.density, "density", system),
            *(_stress(figure, system) for figure in (row.E_0, row.E_90, row.f_m_0)),
            f"{row.strength_basis}; {row.source} ({row.status})",
        )
        for row in tables.materials().values()
        if _has(word, row.name, row.family, row.title, row.kind, *row.aliases)
    ]
    header = ("name", "density", "E along", "E across", "bending", "source")
    return _printed(rows, header, "Strengths and sources", word, stream)


def contents(word: str, system: UnitSystem, stream: TextIO) -> bool:
    """Print the contents whose name or title holds ``word``; False if none do."""
    rows = [
        (
            row.name,
            row.title,
            _range(row, system),
            f"{row.basis}; {row.source} ({row.status})",
        )
        for row in tables.contents().values()
        if _has(word, row.name, row.title, row.category)
    ]
    header = ("name", "what", "weighs", "source")
    return _printed(rows, header, "Per what, and sources", word, stream)


def fasteners(word: str, stream: TextIO) -> bool:
    """Print the fasteners whose name, kind or title holds ``word``; False if none do."""
    rows = [
        (
            row.name,
            row.title,
            row.sold_lengths,
            f"{row.source} ({row.status})",
        )
        for row in tables.fasteners().values()
        if _has(word, row.name, row.title, row.kind)
    ]
    return _printed(rows, ("name", "what", "lengths sold", "source"), "Sources", word, stream)


def _stress(figure: float | None, system: UnitSystem) -> str:
    return "-" if figure is None else units.show(figure, "stress", system)


def _has(word: str, *texts: str) -> bool:
    return any(word.casefold() in text.casefold() for text in texts)


def _range(row: tables.Contents, system: UnitSystem) -> str:
    figures = [row.low, row.typical, row.high]
    shown = [
        units.show(figure, _LOADS[row.kind], system, as_mass=True)
        for figure in figures
        if figure is not None
    ]
    return " / ".join(dict.fromkeys(shown))


def _printed(
    rows: Sequence[tuple[str, ...]],
    header: tuple[str, ...],
    below: str,
    word: str,
    stream: TextIO,
) -> bool:
    """Print the rows; their last cells, long and often alike, stand once each below the table."""
    if not rows:
        stream.write(f"nothing is called {word!r}\n")
        return False
    sources = list(dict.fromkeys(row[-1] for row in rows))
    cells = [(*row[:-1], str(sources.index(row[-1]) + 1)) for row in rows]
    stream.write(f"{fitted(header, cells, kept=1)}\n\n{below}\n")
    for line in numbered(sources):
        stream.write(f"{line}\n")
    return True
