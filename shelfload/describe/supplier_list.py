"""A supplier's list of panels: CSV with a header, sizes in any unit that is said."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from shelfload import units
from shelfload.errors import DescriptionError, Mistake, QuantityError

MAX_BYTES = 2_000_000
MOST = 100_000
_LONGEST_HEADING = 80  # what is longer has no name of a column in it, and takes long to search
_COLUMNS: Mapping[str, tuple[str, ...]] = {
    "row": ("row",),
    "length": ("length", "long", "l"),
    "width": ("width", "wide", "w"),
    "thickness": ("thickness", "thick", "t"),
    "count": ("count", "qty", "quantity", "pieces", "pcs", "number"),
    "material": ("material", "board", "sheet"),
    "name": ("name", "panel", "part", "parts", "label", "description", "item"),
}
"""What a column may be called; others are passed over."""
_HEADING = re.compile(
    r"(?P<words>.*?)[\s,]*(?:[(\[/]\s*|\b(?:in\s+)?)(?P<unit>mm|cm|m|in|inch|inches|ft|\"|'|)\.?\s*[)\]]?",
    re.IGNORECASE | re.DOTALL,
)
"""What a column is called and the unit of its sizes: "Length (mm)", "cut width in inches"."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Supplied:
    """One line of a supplier's list; sizes [mm], thickness None where it is not listed."""

    line: int
    length: float
    width: float
    thickness: float | None
    count: int
    row: int | None = None
    name: str = ""
    material: str = ""


def read_supplier_file(path: Path) -> tuple[Supplied, ...]:
    """Read a supplier's list; see :func:`read_supplier_list`."""
    try:
        with path.open("rb") as stream:
            content = stream.read(MAX_BYTES + 1)
        text = content.decode("utf-8-sig")
    except OSError as fault:
        found = f"{path}: {fault.strerror or 'it can not be read'}"
        raise _single("file", found, "a CSV that can be read", str(path)) from None
    except UnicodeDecodeError:
        raise _single("file", "text that is not UTF-8", "UTF-8 text", str(path)) from None
    return read_supplier_list(text, str(path))


def read_supplier_list(text: str, origin: str = "") -> tuple[Supplied, ...]:
    """Read a list of panels with the columns length and width, and count, thickness and others.

    Parameters
    ----------
    text : str
        CSV parted by commas, semicolons or tabs. A size has its unit in the cell, or in the
        heading as in ``length [mm]`` or ``length in``.
    origin : str
        Name shown in messages.

    Raises
    ------
    DescriptionError
        With every mistake found, by line.
    """
    if len(text) > MAX_BYTES:
        raise _single("file", f"{len(text):,} characters", f"at most {MAX_BYTES:,}", origin)
    heading = text.partition("\n")[0]
    mark = max(",;\t", key=heading.count)
    try:
        lines = list(csv.reader(io.StringIO(text), delimiter=mark, strict=True))
    except csv.Error as fault:
        raise _single("file", f"no valid CSV ({fault})", "CSV with a header", origin) from None
    if not lines:
        raise _single("file", "nothing", "a header and a line for each panel", origin)
    columns = _headings(lines[0])
    lacking = [name for name in ("length", "width") if name not in columns]
    if lacking:
        asked = " and ".join(f"a column {name}" for name in lacking)
        words = f'{asked}; a column may be called as in "{lacking[0]} (mm)" or "{lacking[0]}"'
        raise _single("header", ", ".join(lines[0])[:60] or "nothing", words, origin)
    mistakes: list[Mistake] = []
    found = [
        row
        for number, cells in enumerate(lines[1:], start=2)
        if any(cell.strip() for cell in cells)
        and (row := _row(number, cells, columns, mistakes)) is not None
    ]
    if mistakes:
        raise DescriptionError(mistakes, origin)
    return tuple(found)


def _single(key: str, found: str, allowed: str, origin: str) -> DescriptionError:
    allowed = f"allowed: {allowed}"
    return DescriptionError([Mistake(key=key, found=found, allowed=allowed)], origin)


def _headings(cells: list[str]) -> dict[str, tuple[int, str]]:
    """Place and unit of each column that is known."""
    headings: list[tuple[list[str], str]] = []
    for cell in cells:
        match = _HEADING.fullmatch(cell.strip()[:_LONGEST_HEADING])
        said = re.findall(r"[^\W\d]+", match["words"].casefold()) if match else []
        headings.append((said, match["unit"] if match else ""))
    found: dict[str, tuple[int, str]] = {}
    # a heading of one word comes before "edge length" or "sheet width"
    for place in sorted(range(len(headings)), key=lambda at: len(headings[at][0]) > 1):
        for name, words in _COLUMNS.items():
            if name not in found and any(word in words for word in headings[place][0]):
                found[name] = (place, headings[place][1])
                break
    return found


def _row(
    number: int,
    cells: list[str],
    columns: Mapping[str, tuple[int, str]],
    mistakes: list[Mistake],
) -> Supplied | None:
    def cell(name: str) -> str:
        place = columns[name][0] if name in columns else len(cells)
        return cells[place].strip() if place < len(cells) else ""

    def size(name: str, *, needed: bool) -> float | None:
        text = cell(name)
        if not text and not needed:
            return None
        unit = columns[name][1]
        bare = re.fullmatch(r"[0-9][0-9 .,/-]*", text)
        try:
            read = units.read(f"{text} {unit}" if bare and unit else text, "length")
        except QuantityError as fault:
            refuse(name, fault.found, fault.allowed)
            return None
        if read <= 0.0:
            refuse(name, text, "a length above zero")
            return None
        return read

    def refuse(name: str, found: str, allowed: str) -> None:
        allowed = f"allowed: {allowed}"
        mistakes.append(Mistake(key=name, found=repr(found), allowed=allowed, line=number))

    before = len(mistakes)
    length, width = size("length", needed=True), size("width", needed=True)
    thickness = size("thickness", needed=False)
    count, row = cell("count"), cell("row")
    if count and not (re.fullmatch(r"[0-9]{1,6}", count) and 0 < int(count) <= MOST):
        refuse("count", count, f"a whole number up to {MOST}")
    if len(mistakes) > before or length is None or width is None:
        return None
    return Supplied(
        line=number,
        length=length,
        width=width,
        thickness=thickness,
        count=int(count or 1),
        row=int(row) if re.fullmatch(r"[0-9]{1,6}", row) else None,
        name=cell("name"),
        material=cell("material"),
    )
