"""Checksums of the tables: a changed value is told by table, row and column.

    python tests/table_sums.py                                  what differs, and how it reads now
    python tests/table_sums.py --looked-at materials_wood.csv:c24 kmod.csv

The second form writes the checksums of these rows, or of all rows of a table, anew. Name what
you have looked at again, against its source; the rest keeps failing.
"""

from __future__ import annotations

import argparse
import sys
import tomllib
from collections.abc import Iterable, Mapping, Sequence
from hashlib import sha256
from pathlib import Path

from table_rows import ROWS, Row

FILE = Path(__file__).parent / "tables" / "checksums.toml"
_HEADING = "# Written by tests/table_sums.py: the row, then a short sum for each cell.\n"
EMPTY = "-"


def short(*parts: str, length: int) -> str:
    return sha256("\x1f".join(parts).encode()).hexdigest()[:length]


def of_row(row: Row) -> dict[str, str]:
    """Sum of the row under an empty name, and of each cell under the column with its unit."""
    cells = {
        f"{column} [{row.units[column]}]" if column in row.units else column: value
        for column, value in row.cells.items()
    }
    whole = short(row.key, *(part for pair in cells.items() for part in pair), length=16)
    return {"": whole} | {
        column: short(row.key, column, value, length=4) if value else EMPTY
        for column, value in cells.items()
    }


Sums = Mapping[str, Mapping[str, Mapping[str, str]]]


def present(rows: Iterable[Row] = ROWS) -> dict[str, dict[str, dict[str, str]]]:
    """Sums of the tables as they stand: table, row, column."""
    found: dict[str, dict[str, dict[str, str]]] = {}
    for row in rows:
        found.setdefault(row.table, {})[row.key] = of_row(row)
    return found


def written(path: Path = FILE) -> dict[str, dict[str, dict[str, str]]]:
    """Sums as they were written when somebody last looked."""
    with path.open("rb") as stream:
        stored = tomllib.load(stream)
    return {
        table: {
            key: dict(zip(["", *content["columns"]], sums.split(), strict=True))
            for key, sums in content["rows"].items()
        }
        for table, content in stored.items()
    }


def differences(table: str, key: str, was: Sums, now: Sums) -> list[str]:
    """What differs in a row: its columns, or that the row is new or gone."""
    before, after = was.get(table, {}).get(key), now.get(table, {}).get(key)
    if before == after:
        return []
    if before is None:
        return ["the row is new"]
    if after is None:
        return ["the row is gone"]
    columns = [name for name in {**before, **after} if before.get(name) != after.get(name)]
    # the row without a column: a cell changed to one of the same short sum, or columns moved
    return [name for name in columns if name] or ["some cell, or the order of columns"]


def places(*sums: Sums) -> list[tuple[str, str]]:
    return sorted({(table, key) for one in sums for table, rows in one.items() for key in rows})


def text(sums: Sums) -> str:
    """Lay sums out as TOML; the columns of a table stand once."""
    lines = [_HEADING]
    for table, rows in sorted(sums.items()):
        columns = [name for name in next(iter(rows.values())) if name]
        lines.append(f'["{table}"]')
        lines.append("columns = [" + ", ".join(f'"{name}"' for name in columns) + "]")
        lines.append(f'["{table}".rows]')
        lines += [f'"{key}" = "{" ".join(sums.values())}"' for key, sums in rows.items()]
        lines.append("")
    return "\n".join(lines)


def columns_changed(table: str, was: Sums, now: Sums) -> bool:
    before, after = (list(next(iter(sums.get(table, {}).values()), {})) for sums in (was, now))
    return bool(before and after) and before != after


def show(table: str, key: str, columns: Sequence[str], row: Row | None) -> None:
    print(f"{table}:{key}")
    for column in columns:
        value = row.cells.get(column.partition(" [")[0]) if row else None
        print(f"  {column}" + (f": now {value!r}" if value is not None else ""))


def main(arguments: Sequence[str]) -> int:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument(
        "--looked-at", nargs="+", metavar="TABLE[:ROW]", default=[], help="rows to write anew"
    )
    looked_at = set(parser.parse_args(arguments).looked_at)
    was, now = (written() if FILE.exists() else {}), present()
    everything = places(was, now)
    known = {table for table, _ in everything} | {f"{table}:{key}" for table, key in everything}
    if unknown := looked_at - known:
        print(f"no such table or row: {', '.join(sorted(unknown))}", file=sys.stderr)
        return 2
    for name in looked_at:
        table = name.partition(":")[0]
        if table not in looked_at and columns_changed(table, was, now):
            print(f"{table} has other columns now: look at all of it", file=sys.stderr)
            return 2
    rows = {(row.table, row.key): row for row in ROWS}
    kept: dict[str, dict[str, dict[str, str]]] = {}
    left = 0
    for table, key in everything:
        changed = differences(table, key, was, now)
        accepted = bool({table, f"{table}:{key}"} & looked_at)
        if changed and not accepted:
            left += 1
            show(table, key, changed, rows.get((table, key)))
        source = now if accepted or not changed else was
        if key in source.get(table, {}):
            kept.setdefault(table, {})[key] = source[table][key]
    if looked_at:
        FILE.write_text(text(kept), encoding="utf-8", newline="\n")
    print(f"{left} row{'' if left == 1 else 's'} to look at")
    return int(left > 0)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
