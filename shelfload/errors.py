"""One family of errors: each says where, what was found and what is allowed.

A mistake in what the user wrote is a :class:`Mistake`. Mistakes are gathered and raised
together as one :class:`DescriptionError`, so that a person mends a file in one go.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher, get_close_matches
from typing import Final
from unicodedata import category

_LONGEST: Final = 400  # characters of a key or of what was found that a message shows
_NEAR: Final = 3  # names offered at most: more is a list, not a hint
_AS_NEAR: Final = 0.06  # likenesses that close to the best are as good a guess


class ShelfloadError(Exception):
    """Base of every error this package raises on purpose; its message can be printed anywhere."""

    def __str__(self) -> str:
        return printable(super().__str__())


class QuantityError(ShelfloadError, ValueError):
    """A number with a unit that can't be used: ``found`` as typed, ``allowed`` in words."""

    def __init__(self, found: str, allowed: str, nearest: str = "") -> None:
        self.found = found
        self.allowed = allowed
        self.nearest = nearest
        hint = f"; did you mean {nearest}?" if nearest else ""
        super().__init__(f"found {found!r}; allowed: {allowed}{hint}")


class TableError(ShelfloadError):
    """A data table that can't be used; the message names file, line and column."""


class UnknownName(ShelfloadError, ValueError):
    """A name that no table holds, with the nearest ones that it does hold."""

    def __init__(self, what: str, found: str, known: Iterable[str]) -> None:
        self.what = what
        self.found = found
        self.known = tuple(known)
        self.nearest = nearest_name(found, self.known)
        hint = f"; did you mean {self.nearest}?" if self.nearest else ""
        super().__init__(f"no {what} is called {found!r}{hint}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Mistake:
    """One thing wrong in a description: place, what was found, what is allowed."""

    key: str
    found: str
    allowed: str
    nearest: str = ""
    line: int | None = None

    def __str__(self) -> str:
        key, found = _shortened(self.key), _shortened(self.found)
        place = key if self.line is None else f"line {self.line}, {key}"
        hint = f" Did you mean {self.nearest}?" if self.nearest else ""
        told = f"{place}: found {found}; {self.allowed}.{hint}"
        return printable(told).replace("\n", "\\n")


class DescriptionError(ShelfloadError):
    """All mistakes of one description or command line, together."""

    def __init__(self, mistakes: Sequence[Mistake], origin: str = "") -> None:
        self.mistakes = tuple(mistakes)
        self.origin = origin
        super().__init__("\n".join(str(mistake) for mistake in self.mistakes))


def _shortened(text: str) -> str:
    return text if len(text) <= _LONGEST else f"{text[: _LONGEST - 3]}..."


def printable(text: str) -> str:
    """Write what a terminal would obey, or can't print, as it is written in a TOML file."""
    return "".join(f"\\u{ord(c):04x}" if c != "\n" and category(c)[0] == "C" else c for c in text)


class Mechanism(ShelfloadError):
    """A structure that can move freely; ``free`` holds the indices that move."""

    def __init__(self, free: Sequence[int], message: str) -> None:
        self.free = tuple(free)
        super().__init__(message)


def nearest_name(found: str, known: Iterable[str]) -> str:
    """Return the known names that look most like ``found`` as "a, b or c", or an empty string.

    One that is clearly nearer than all others stands alone. Where nothing looks alike, names
    that hold ``found`` as one of their words are near: "pine" in "southern-pine".
    """
    folded: dict[str, str] = {}
    for name in known:
        folded.setdefault(_folded(name), name)
    wanted = _folded(found)
    alike = SequenceMatcher(b=wanted)
    ratios: list[tuple[float, str]] = []
    for name in get_close_matches(wanted, folded, n=2 * _NEAR, cutoff=0.6):
        alike.set_seq1(name)
        ratios.append((alike.ratio(), name))
    if not ratios:
        holding = [name for name in folded if wanted in name.split("-")]
        return in_a_row([folded[name] for name in holding[:_NEAR]])
    best = max(ratio for ratio, _ in ratios)
    near = [name for ratio, name in ratios if ratio >= best - _AS_NEAR]
    return in_a_row([folded[name] for name in near[:_NEAR]])


def in_a_row(names: Sequence[str]) -> str:
    """Return the names as "a, b or c"."""
    *first, last = names or [""]
    return f"{', '.join(first)} or {last}" if first else last


def _folded(name: str) -> str:
    return re.sub("[ _]", "-", name.casefold())
