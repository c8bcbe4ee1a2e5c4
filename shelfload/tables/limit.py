"""Limits of sag, in people's words, and the sizes that sawn lumber really has."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from shelfload.tables.columns import NAME, SOURCED, Column, Named, number, text
from shelfload.tables.reader import bundled


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """A limit of sag: span / ratio, or an absolute figure, whichever there is.

    Attributes
    ----------
    name, words : str
        Name as typed, and what it means to someone looking at the shelf
    ratio, cantilever_ratio : float or None
        Span, or length of an overhang, divided by the sag allowed [-]
    absolute : float or None
        Sag allowed whatever the span [mm]
    applies_to : str
        ``final`` (with creep) or ``instantaneous``
    default : bool
        True for the one that is taken when none is asked for
    status, source, note : str
        Who says so
    """

    name: str
    words: str
    applies_to: str
    status: str
    source: str
    ratio: float | None = None
    cantilever_ratio: float | None = None
    absolute: float | None = None
    default: bool = False
    note: str = ""

    def __post_init__(self) -> None:
        if self.ratio is None and self.absolute is None:
            raise ValueError(f"{self.name}: a limit needs a ratio or an absolute figure")


@dataclass(frozen=True, slots=True, kw_only=True)
class LumberSize:
    """What a nominal size of sawn lumber measures.

    Attributes
    ----------
    name : str
        Nominal size in inches, as in ``1x12``
    thickness, width : float
        Dressed, dry size [mm]
    inches : str
        The same in inches, as printed
    status, source, note : str
        Who says so
    """

    name: str
    thickness: float
    width: float
    inches: str
    status: str
    source: str
    note: str = ""


_RATIO = number(low=10.0, high=2000.0)


@cache
def limits() -> Mapping[str, Limit]:
    """Return every limit of sag by name, read once."""
    columns = {
        "name": NAME,
        "words": text(required=True),
        "ratio": _RATIO,
        "cantilever_ratio": _RATIO,
        "absolute": number("length", low=0.1, high=50.0),
        "applies_to": text("final", "instantaneous", required=True),
        "default": Column(holds="flag"),
        **SOURCED,
    }
    return Named("limit", {row.name: row for row in bundled("limits.csv", columns, Limit)})


@cache
def lumber() -> Mapping[str, LumberSize]:
    """Return the nominal lumber sizes by name, read once."""
    columns = {
        "name": NAME,
        "thickness": number("length", required=True, low=5.0, high=400.0),
        "width": number("length", required=True, low=5.0, high=400.0),
        "inches": text(required=True),
        **SOURCED,
    }
    return Named(
        "lumber size", {row.name: row for row in bundled("lumber.csv", columns, LumberSize)}
    )
