"""Rows of the tables for someone looking for a sheet or for what things weigh."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TextIO

from shelfload import tables, units
from shelfload.report.text import fitted
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
            f"{units.show(row.density, 'density', system)}",
            units.show(row.E_0, "stress", system),
            "-" if row.E_90 is None else units.show(row.E_90, "stress", system),
            "-" if row.f_m_0 is None else units.show(row.f_m_0, "stress", system),
            f"{row.strength_basis}; {row.source} ({row.status})",
        )
        for row in tables.materials().values()
        if _has(word, row.name, row.family, row.title, row.kind, *row.aliases)
    ]
    header = ("name", "density", "E along", "E across", "bending", "basis and source")
    return _printed(rows, header, word, stream)


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
    return _printed(rows, ("name", "what", "weighs", "per, and source"), word, stream)


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
    rows: Sequence[tuple[str, ...]], header: tuple[str, ...], word: str, stream: TextIO
) -> bool:
    stream.write((fitted(header, rows, kept=1) if rows else f"nothing is called {word!r}") + "\n")
    return bool(rows)
