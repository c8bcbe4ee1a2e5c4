"""How wide the columns of a table are, so that it fits and no word is broken."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Sequence
from itertools import pairwise

_AT_HYPHENS = re.compile(r"(\s+|(?<=[^\W\d]-)(?=[^\W\d]))")


class _AtHyphens(textwrap.TextWrapper):
    """Breaks after any hyphen between letters; by default "p2" would not leave its board."""

    wordsep_re = _AT_HYPHENS


def column_widths(
    header: Sequence[str], rows: Sequence[Sequence[str]], room: int, *, kept: int = 0
) -> list[int] | None:
    """Return the widths at which a table takes ``room``, or None if a word would be broken.

    Each column gets what it needs; the widest give way until all fit, down to their longest
    word and then to its parts between hyphens. The first ``kept`` columns, names to be typed
    again, stay whole.
    """
    columns = list(zip(header, *rows, strict=True))
    widths = [max(map(len, cells)) for cells in columns]
    words = [max(len(word) for cell in cells for word in [*cell.split(), ""]) for cells in columns]
    parts = [
        max(len(part.strip()) for cell in cells for part in _AT_HYPHENS.split(cell))
        for cells in columns
    ]
    for least in (words, parts):
        while sum(widths) > room:
            spare = [at for at in range(kept, len(widths)) if widths[at] > least[at]]
            if not spare:
                break
            widths[max(spare, key=widths.__getitem__)] -= 1
    return widths if sum(widths) <= room else None


def wrapped(cell: str, width: int) -> str:
    """Return a cell in lines of at most ``width``, broken at hyphens only where it must be."""
    whole = max(map(len, cell.split()), default=0) <= width
    wrapper = textwrap.TextWrapper(width, break_on_hyphens=False) if whole else _AtHyphens(width)
    return "\n".join(wrapper.wrap(cell))


def record(header: Sequence[str], row: Sequence[str]) -> list[str]:
    """Return a row that is too wide for columns: its first cell, then "header value" each."""
    first, *others = zip(header, row, strict=True)
    told = [f"{name} {cell}" for name, cell in others if cell]
    return [first[1] or first[0], *(f"{one};" for one, _ in pairwise(told)), *told[-1:]]
