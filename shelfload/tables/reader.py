"""The one reader of every data table: strict, and precise about what is wrong.

A table is a UTF-8 CSV file whose header names each quantity with its unit, as in
``E_0 [MPa]``. That unit is the one the figures are read in. An empty cell means
unknown, never nought.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar
from unicodedata import category

from shelfload.errors import QuantityError, TableError, nearest_name
from shelfload.tables.columns import Column
from shelfload.units import Dimension, factor

# Units that are internal already; asking for them would load the units library.
_AS_IS = frozenset({("mm", "length"), ("MPa", "stress"), ("N", "force"), ("kg/m3", "density")})

MAX_BYTES = 2_000_000
_NUMBER = re.compile(r"[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d+)?")
_HEADER = re.compile(r"(?P<name>[^\[\]]+?)\s*(\[(?P<unit>[^\[\]]+)\])?")

Row = TypeVar("Row")
Cell = str | float | int | bool | tuple[str, ...] | tuple[float, ...] | None


def folder() -> Path:
    """Return the folder of the bundled tables, in a wheel or in a checkout.

    Raises
    ------
    RuntimeError
        The installation lacks its tables
    """
    # By path: importlib.resources would cost a cold start more than reading a table.
    package = Path(__file__).resolve().parents[1]
    packed = package / "_tables"
    if packed.is_dir():
        return packed
    # Without this test a folder called tables beside site-packages is taken for ours.
    if (package.parent / "pyproject.toml").is_file():
        return package.parent / "tables"
    raise RuntimeError("the tables are missing from this installation; install shelfload again")


def bundled(
    file: str,
    columns: Mapping[str, Column],
    build: Callable[..., Row],
    key: Sequence[str] = ("name",),
) -> tuple[Row, ...]:
    """Read a bundled table into rows; see :func:`rows_of`."""
    content = (folder() / file).read_text(encoding="utf-8-sig")
    return rows_of(content, f"tables/{file}", columns, build, key)


def rows_of(
    content: str,
    origin: str,
    columns: Mapping[str, Column],
    build: Callable[..., Row],
    key: Sequence[str] = ("name",),
) -> tuple[Row, ...]:
    """Read the text of a table strictly.

    Parameters
    ----------
    content : str
        Text of the file
    origin : str
        Name of the file as messages shall say it
    columns : mapping of str to Column
        Every column the table may have, by the name before the unit
    build : callable
        Makes a row out of the cells, called with the column names as keywords
    key : sequence of str
        Columns whose cells together may occur once only

    Returns
    -------
    tuple
        One built row per line, in the order of the file

    Raises
    ------
    TableError
        With the file, line and column, what was found and what is allowed
    """
    lines = csv.reader(content.splitlines(), strict=True)
    try:
        header = next(lines, [])
        heads = _heads(header, origin, columns)
        built: list[Row] = []
        seen: dict[tuple[str, ...], int] = {}
        for cells in lines:
            where = f"{origin}, line {lines.line_num}"
            if not any(cell.strip() for cell in cells):
                continue
            if len(cells) != len(heads):
                raise TableError(f"{where}: {len(cells)} cells under {len(heads)} columns")
            values = _values(cells, heads, where)
            identity = tuple(str(values.get(part)) for part in key)
            if identity in seen:
                raise TableError(
                    f"{where}: {', '.join(identity)} stands already in line {seen[identity]}"
                )
            seen[identity] = lines.line_num
            try:
                built.append(build(**values))
            except ValueError as problem:
                raise TableError(f"{where}: {problem}") from problem
    except csv.Error as problem:
        raise TableError(f"{origin}, line {lines.line_num}: {problem}") from problem
    if not built:
        raise TableError(f"{origin}: the table has no rows")
    return tuple(built)


@dataclass(frozen=True, slots=True)
class _Head:
    name: str
    column: Column
    factor: float


def _heads(header: Sequence[str], origin: str, columns: Mapping[str, Column]) -> list[_Head]:
    heads: list[_Head] = []
    for position, title in enumerate(header, start=1):
        where = f"{origin}, line 1, column {position}"
        match = _HEADER.fullmatch(title.strip())
        if match is None:
            raise TableError(f"{where}: found {title!r}; write a name, or a name [unit]")
        name, unit = match["name"], match["unit"]
        if name not in columns:
            near = nearest_name(name, columns)
            hint = f"; did you mean {near}?" if near else f"; known: {', '.join(columns)}"
            raise TableError(f"{where}: no column is called {name!r}{hint}")
        if any(head.name == name for head in heads):
            raise TableError(f"{where}: column {name!r} stands twice")
        heads.append(_Head(name, columns[name], _unit_factor(name, unit, where, columns[name])))
    present = {head.name for head in heads}
    missing = [name for name, column in columns.items() if column.required and name not in present]
    if missing:
        raise TableError(f"{origin}, line 1: column {', '.join(missing)} is missing")
    return heads


def _unit_factor(name: str, unit: str | None, where: str, column: Column) -> float:
    if column.holds not in {"number", "numbers"}:
        if unit is not None:
            raise TableError(f"{where}: column {name!r} takes no unit, found [{unit}]")
        return 1.0
    if column.dimension is None:
        if unit != "-":
            raise TableError(f"{where}: column {name!r} has no unit; write {name} [-]")
        return 1.0
    if unit is None:
        raise TableError(f"{where}: column {name!r} needs its unit, as in {name} [mm]")
    try:
        return unit_factor(unit, column.dimension)
    except QuantityError as problem:
        raise TableError(f"{where}: column {name!r}: {problem}") from problem


def unit_factor(unit: str, dimension: Dimension) -> float:
    """Return internal units per ``unit`` of ``dimension``."""
    return 1.0 if (unit, dimension) in _AS_IS else factor(unit, dimension)


def _values(cells: Sequence[str], heads: Sequence[_Head], where: str) -> dict[str, Cell]:
    values: dict[str, Cell] = {}
    for head, raw in zip(heads, cells, strict=True):
        cell = raw.strip()
        if cell:
            values[head.name] = _value(cell, head, where)
        elif head.column.required:
            raise TableError(f"{where}, column {head.name!r}: the cell is empty")
    return values


def _value(cell: str, head: _Head, where: str) -> Cell:
    column = head.column
    match column.holds:
        case "number":
            return _number(cell, head, where)
        case "numbers":
            return tuple(_number(part, head, where) for part in _parts(cell, head, where))
        case "words":
            return _parts(cell, head, where)
        case "flag" if cell in {"yes", "no"}:
            return cell == "yes"
        case "count" if cell.isascii() and cell.isdecimal():
            return int(cell)
        case "text" if not column.allowed or cell in column.allowed:
            return cell
    allowed = {"flag": ("yes", "no"), "count": ("a whole number",)}.get(
        column.holds, column.allowed
    )
    near = nearest_name(cell, allowed)
    hint = f"; did you mean {near}?" if near else ""
    raise TableError(
        f"{where}, column {head.name!r}: found {cell!r}; allowed: {', '.join(allowed)}{hint}"
    )


def _parts(cell: str, head: _Head, where: str) -> tuple[str, ...]:
    parts = tuple(part.strip() for part in cell.split(";"))
    if not all(parts):
        raise TableError(
            f"{where}, column {head.name!r}: found {cell!r}; an entry between semicolons is empty"
        )
    return parts


def _number(cell: str, head: _Head, where: str) -> float:
    if _NUMBER.fullmatch(cell) is None:
        raise TableError(
            f"{where}, column {head.name!r}: found {cell!r}; a number with a full stop is needed"
        )
    value = float(cell) * head.factor
    low, high = head.column.low, head.column.high
    if not low <= value <= high or value == float("inf"):
        raise TableError(
            f"{where}, column {head.name!r}: found {cell!r}; must lie between "
            f"{low / head.factor:g} and {high / head.factor:g}"
        )
    return value


def user_text(path: str | Path) -> str:
    """Return the text of a user's own table.

    Raises
    ------
    TableError
        The file can't be read, or is not UTF-8 text
    """
    try:
        with Path(path).open("rb") as stream:
            content = stream.read(MAX_BYTES + 1)
        if len(content) > MAX_BYTES:
            raise TableError(f"{path}: larger than {MAX_BYTES:,} bytes; leave out what is not used")
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as problem:
        raise TableError(f"{path}: not UTF-8 text; save it as CSV (UTF-8)") from problem
    except (OSError, ValueError) as problem:  # ValueError: a name that no file can have
        why = getattr(problem, "strerror", None) or "no name of a file"
        raise TableError(f"{path}: can't be read ({why})") from problem
    for number, line in enumerate(text.split("\n"), start=1):
        hidden = [c for c in line.rstrip("\r") if c != "\t" and category(c)[0] == "C"]
        if hidden:
            raise TableError(f"{path}, line {number}: found {hidden[0]!r}; no hidden characters")
    return text
