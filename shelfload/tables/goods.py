"""What stands on a shelf, and what it weighs."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, partial
from pathlib import Path

from shelfload.errors import QuantityError, TableError
from shelfload.tables.columns import NAME, SOURCED, Column, Named, number, text
from shelfload.tables.factors import DURATIONS
from shelfload.tables.reader import bundled, rows_of, unit_factor, user_text
from shelfload.units import Dimension


@dataclass(frozen=True, slots=True, kw_only=True)
class Contents:
    """One kind of contents; None means unknown.

    Attributes
    ----------
    name, title : str
        Name as typed in a description, and the words a report uses
    kind : str
        ``line`` (per length of shelf), ``area`` (of shelf), ``volume`` (of the stack or
        the bay) or ``each``
    low, typical, high : float or None, float, float or None
        Load [N/mm], [N/mm2], [N/mm3] or [N] by kind
    row_depth : float or None
        Depth of the row front to back, of a line load [mm]
    duration : str
        Duration of the load: contents of storage are long-term
    category : str
        Group in a list
    basis : str
        What the figure counts
    status, source, note : str
        Who says so
    """

    name: str
    title: str
    kind: str
    typical: float
    category: str
    basis: str
    status: str
    source: str
    low: float | None = None
    high: float | None = None
    row_depth: float | None = None
    duration: str = "long-term"
    note: str = ""

    def __post_init__(self) -> None:
        low = self.typical if self.low is None else self.low
        high = self.typical if self.high is None else self.high
        if not low <= self.typical <= high:
            raise ValueError(f"{self.name}: low, typical and high must rise")


# kind: dimension of the load
KINDS: Mapping[str, Dimension] = {
    "line": "line load",
    "area": "area load",
    "volume": "volume load",
    "each": "force",
}


def _columns(kind: str) -> Mapping[str, Column]:
    load = number(KINDS[kind], low=0.0)
    return {
        "name": NAME,
        "title": text(required=True),
        "low": load,
        "typical": number(KINDS[kind], required=True),
        "high": load,
        "row_depth": number("length", low=1.0, high=2000.0),
        "duration": text(*DURATIONS),
        "category": text(required=True),
        "basis": text(required=True),
        **SOURCED,
    }


@cache
def contents() -> Mapping[str, Contents]:
    """Return every kind of contents by name, read once."""
    found: dict[str, Contents] = {}
    for kind in KINDS:
        file = f"contents_{kind}.csv"
        for row in bundled(file, _columns(kind), partial(Contents, kind=kind)):
            if row.name in found:
                raise TableError(
                    f"tables/{file}: {row.name!r} stands also under {found[row.name].kind}"
                )
            found[row.name] = row
    return Named("contents", found)


def contents_from_csv(path: str | Path) -> tuple[Contents, ...]:
    """Read a user's own contents, one kind to a file.

    Parameters
    ----------
    path : str or Path
        CSV file; the unit of its ``typical`` column tells the kind: per length, per
        area, per volume or each

    Returns
    -------
    tuple of Contents
        In the order of the file

    Raises
    ------
    TableError
        With file, line and column
    """
    content = user_text(path)
    kind = _kind_told(content, str(path))
    columns = {
        name: Column(holds="text") if name in {"title", "category", "basis"} else column
        for name, column in _columns(kind).items()
    }
    columns["status"] = Column(holds="text")
    return rows_of(content, str(path), columns, partial(_users_own, kind))


def _users_own(kind: str, *, name: str, **values: object) -> Contents:
    named = {"title": name, "category": "own", "basis": "as given", "status": "as given", **values}
    return Contents(name=name, kind=kind, **named)  # type: ignore[arg-type]


def _kind_told(content: str, origin: str) -> str:
    header = next(csv.reader(content.splitlines()), [])
    for title in header:
        name, _, unit = title.partition("[")
        if name.strip() != "typical":
            continue
        for kind, dimension in KINDS.items():
            try:
                unit_factor(unit.strip(" ]"), dimension)
            except QuantityError:
                continue
            return kind
        raise TableError(
            f"{origin}, line 1, column 'typical': found {title!r}; write its unit, "
            "as in typical [kg/m], [kg/m2], [kg/m3] or [kg]"
        )
    raise TableError(f"{origin}, line 1: column typical is missing, as in typical [kg/m]")
