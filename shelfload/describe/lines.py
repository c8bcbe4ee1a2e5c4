"""Which line of a TOML file a key stands on: tomllib does not say."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

Path = tuple[str | int, ...]

_HEADER = re.compile(r"^\s*(\[\[?)\s*([^\[\]]+?)\s*\]\]?\s*(?:#.*)?$")
_ENTRY = re.compile(
    r"""^\s*((?:"[^"]*"|'[^']*'|[\w-]+)(?:\s*\.\s*(?:"[^"]*"|'[^']*'|[\w-]+))*)\s*="""
)
_PIECE = re.compile(r"""\s*(?:"([^"]*)"|'([^']*)'|([\w-]+))\s*(?:\.|$)""")


def line_index(text: str) -> dict[Path, int]:
    """Map key paths such as ``("unit", 0, "depth")`` to line numbers from 1.

    Headers and ``key = `` lines are found; what stands inside an inline table or array
    is found through its parent (see :func:`line_of`).
    """
    index: dict[Path, int] = {}
    counts: dict[Path, int] = {}
    table: Path = ()
    for number, line in enumerate(text.splitlines(), start=1):
        if header := _HEADER.match(line):
            names = _pieces(header.group(2))
            table = _resolved(names[:-1], counts)
            last: Path = (*table, names[-1])
            if header.group(1) == "[[":
                counts[last] = counts.get(last, -1) + 1
                table = (*last, counts[last])
                index.setdefault(last, number)
            else:
                table = last
            index.setdefault(table, number)
        elif entry := _ENTRY.match(line):
            index.setdefault((*table, *_pieces(entry.group(1))), number)
    return index


def line_of(index: Mapping[Path, int], path: Sequence[str | int]) -> int | None:
    """Return the line of a key path, or of its nearest parent that has one."""
    place = tuple(path)
    while place:
        if place in index:
            return index[place]
        place = place[:-1]
    return None


def _pieces(dotted: str) -> list[str]:
    return [a or b or c for a, b, c in _PIECE.findall(dotted)]


def _resolved(names: Sequence[str], counts: dict[Path, int]) -> Path:
    """Put the running number of each array of tables behind its name."""
    path: Path = ()
    for name in names:
        path = (*path, name)
        if path in counts:
            path = (*path, counts[path])
    return path
