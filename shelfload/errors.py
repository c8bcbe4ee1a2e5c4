"""One family of errors: each says where, what was found and what is allowed.

A mistake in what the user wrote is a :class:`Mistake`. Mistakes are gathered and raised
together as one :class:`DescriptionError`, so that a person mends a file in one go.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from difflib import get_close_matches


class ShelfloadError(Exception):
    """Base of every error this package raises on purpose."""


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
        place = self.key if self.line is None else f"line {self.line}, {self.key}"
        hint = f" Did you mean {self.nearest}?" if self.nearest else ""
        return f"{place}: found {self.found}; {self.allowed}.{hint}"


class DescriptionError(ShelfloadError):
    """All mistakes of one description or command line, together."""

    def __init__(self, mistakes: Sequence[Mistake], origin: str = "") -> None:
        self.mistakes = tuple(mistakes)
        self.origin = origin
        super().__init__("\n".join(str(mistake) for mistake in self.mistakes))


class Mechanism(ShelfloadError):
    """A structure that can move freely; ``free`` holds the indices that move."""

    def __init__(self, free: Sequence[int], message: str) -> None:
        self.free = tuple(free)
        super().__init__(message)


def nearest_name(found: str, known: Iterable[str]) -> str:
    """Return the known name that looks most like ``found``, or an empty string."""
    folded = {name.casefold().replace("_", "-"): name for name in known}
    close = get_close_matches(found.casefold().replace("_", "-"), folded, n=1, cutoff=0.6)
    return folded[close[0]] if close else ""
