"""What the columns of a table may hold, and rows that are looked up by name."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal, TypeVar, overload

from shelfload.errors import UnknownName
from shelfload.units import Dimension

Row = TypeVar("Row")
Other = TypeVar("Other")

STATUSES = ("published", "common practice", "from memory", "estimate", "derived")


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """What one column of a table may hold.

    Attributes
    ----------
    holds : str
        ``text``, ``number``, ``count``, ``flag`` (yes/no), ``words`` or ``numbers``
        (lists parted by semicolons)
    dimension : str or None
        Dimension that the unit in the header must have; None for pure numbers and words
    required : bool
        Whether an empty cell, or a missing column, stops loading
    allowed : tuple of str
        The only words a text cell may hold; empty for any
    low, high : float
        Least and greatest number allowed, in internal units
    """

    holds: Literal["text", "number", "count", "flag", "words", "numbers"]
    dimension: Dimension | None = None
    required: bool = False
    allowed: tuple[str, ...] = ()
    low: float = 0.0
    high: float = float("inf")


def text(*allowed: str, required: bool = False) -> Column:
    """Column of words, free or one of ``allowed``."""
    return Column(holds="text", allowed=allowed, required=required)


def number(
    dimension: Dimension | None = None,
    *,
    required: bool = False,
    low: float = 0.0,
    high: float = float("inf"),
) -> Column:
    """Column of numbers with a unit of ``dimension`` in its header, ``[-]`` for None."""
    return Column(holds="number", dimension=dimension, required=required, low=low, high=high)


NAME = text(required=True)
SOURCED: Mapping[str, Column] = {
    "status": text(*STATUSES, required=True),
    "source": text(required=True),
    "note": text(),
}


def folded(name: str) -> str:
    """Return ``name`` as it is compared: lower case, hyphens between words."""
    return "-".join(re.split(r"[\s_-]+", name.strip().casefold()))


class Named(Mapping[str, Row]):
    """Rows by name; an unknown name raises UnknownName with the nearest one."""

    __slots__ = ("_folded", "_rows", "_what")

    def __init__(self, what: str, rows: Mapping[str, Row]) -> None:
        self._what = what
        self._rows = dict(rows)
        self._folded = {folded(name): row for name, row in rows.items()}

    def __getitem__(self, name: str) -> Row:
        try:
            return self._folded[folded(name)]
        except KeyError:
            raise UnknownName(self._what, name, self._rows) from None

    @overload
    def get(self, key: str, /) -> Row | None: ...
    @overload
    def get(self, key: str, /, default: Row | Other) -> Row | Other: ...
    def get(self, key: str, /, default: Row | Other | None = None) -> Row | Other | None:
        """Return the row of that name, or ``default``."""
        return self._folded.get(folded(key), default)

    def __contains__(self, name: object) -> bool:
        return isinstance(name, str) and folded(name) in self._folded

    def __iter__(self) -> Iterator[str]:
        return iter(self._rows)

    def __len__(self) -> int:
        return len(self._rows)
