"""Single figures of floors, tipping, lifting and the trade, each with its source."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, partial

from shelfload.errors import TableError
from shelfload.tables.columns import NAME, SOURCED, Named, number, text
from shelfload.tables.reader import bundled
from shelfload.units import Dimension

GROUPS = ("floor", "tipping", "people", "wall", "handling", "trade rule")

KINDS: Mapping[str, Dimension | None] = {
    "area": "area load",
    "force": "force",
    "length": "length",
    "ratio": None,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One figure to compare with, or a range of them.

    Attributes
    ----------
    name, title : str
        Name, and the words a report uses
    kind : str
        ``area`` (load), ``force``, ``length`` or ``ratio``
    low, high : float, float or None
        The figure, or the two ends of a range [N/mm2], [N], [mm] or [-] by kind
    group : str
        One of ``GROUPS``; a ``trade rule`` is opinion, to be quoted as such
    conditions : str
        When it holds
    status, source, note : str
        Who says so
    """

    name: str
    title: str
    kind: str
    low: float
    group: str
    status: str
    source: str
    high: float | None = None
    conditions: str = ""
    note: str = ""

    def __post_init__(self) -> None:
        if self.high is not None and self.high <= self.low:
            raise ValueError(f"{self.name}: high must lie above low")


@cache
def figures() -> Mapping[str, Figure]:
    """Return every figure by name, read once."""
    found: dict[str, Figure] = {}
    for kind, dimension in KINDS.items():
        columns = {
            "name": NAME,
            "title": text(required=True),
            "low": number(dimension, required=True),
            "high": number(dimension),
            "group": text(*GROUPS, required=True),
            "conditions": text(),
            **SOURCED,
        }
        for row in bundled(f"figures_{kind}.csv", columns, partial(Figure, kind=kind)):
            if row.name in found:
                raise TableError(f"tables/figures_{kind}.csv: {row.name!r} stands twice")
            found[row.name] = row
    return Named("figure", found)
