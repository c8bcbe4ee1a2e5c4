"""The rows of tables/*.csv as they stand in the files, read without the program."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

FOLDER = Path(__file__).resolve().parents[1] / "tables"
FILES = sorted(FOLDER.glob("*.csv"))
_HEAD = re.compile(r"(?P<name>[^\[\]]+?)(?: \[(?P<unit>[^\[\]]+)\])?")


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row: where it stands, its key, and its cells by the name of the column."""

    table: str
    line: int
    key: str
    cells: Mapping[str, str]
    units: Mapping[str, str]

    def __str__(self) -> str:
        return f"{self.table}:{self.key}"

    def number(self, column: str) -> float | None:
        return float(self.cells[column]) if self.cells.get(column) else None


def heads(path: Path) -> list[tuple[str, str]]:
    """Name and unit of each column; an empty unit for words."""
    with path.open(encoding="utf-8", newline="") as stream:
        first = next(csv.reader(stream, strict=True))
    found = []
    for title in first:
        match = _HEAD.fullmatch(title)
        assert match is not None, f"{path.name}: {title!r} is neither a name nor a name [unit]"
        found.append((match["name"], match["unit"] or ""))
    return found


def rows(path: Path) -> Iterator[Row]:
    names = heads(path)
    with path.open(encoding="utf-8", newline="") as stream:
        lines = csv.reader(stream, strict=True)
        next(lines)
        for cells in lines:
            assert len(cells) == len(names), f"{path.name}, line {lines.line_num}"
            by_name = dict(zip((name for name, _ in names), cells, strict=True))
            key = by_name["name"]
            if "service_class" in by_name:  # the one table with several rows to a name
                key += f" in class {by_name['service_class']}"
            yield Row(
                table=path.name,
                line=lines.line_num,
                key=key,
                cells=by_name,
                units={name: unit for name, unit in names if unit},
            )


ROWS = [row for path in FILES for row in rows(path)]
