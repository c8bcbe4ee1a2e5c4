"""What any input may lead to: a refusal that names its place, or a whole and finite answer.

Each reader takes the text of an input and returns whether it was accepted; anything else than
a refusal of this package's own, with its place, is raised.
"""

from __future__ import annotations

import dataclasses
import io
import json
import re
import tempfile
import unicodedata
import warnings
from collections.abc import Callable, Iterator
from datetime import date
from enum import Enum
from math import isfinite, isnan
from pathlib import Path
from typing import Any, get_args

from shelfload import tables, units
from shelfload.advise.outcome import Outcome, outcome
from shelfload.describe.lines import line_index
from shelfload.describe.reader import Description, read_raw, read_text
from shelfload.describe.supplier_list import read_supplier_list
from shelfload.errors import DescriptionError, QuantityError, TableError
from shelfload.idealise.geometry import shelf_name
from shelfload.report import data, terminal, text
from shelfload.report.document import document
from shelfload.report.labels import labels_page
from shelfload.report.page import page
from shelfload.units.number import LONGEST_TEXT

SECTIONS = ("Assumed", "Sources", "Cautions")
_NO_FIGURE = re.compile(r"(?<![\w.-])-?(?:nan|inf|infinity)(?![\w-])", re.IGNORECASE)
_PLACED = re.compile(r"line \d+|: ")


class Broken(AssertionError):
    """The program broke its promise."""


def require(holds: bool, what: str) -> None:
    """Raise what was promised and is not so."""
    if not holds:
        raise Broken(what)


def quantity(typed: str) -> bool:
    """Read a text as every kind of quantity."""
    readers: list[Callable[[], Any]] = [
        lambda kind=kind: units.read(typed, kind)  # type: ignore[misc]
        for kind in get_args(units.Dimension)
    ]
    readers += [
        lambda: units.read_load(typed).value,
        lambda: units.read_lengths(typed),
        lambda: units.read_screw_diameter(typed),
        lambda: units.read_number(typed),
    ]
    accepted = False
    for read in readers:
        try:
            found = read()
        except QuantityError as fault:
            require(bool(fault.allowed), "a refusal that does not say what is allowed")
            require(len(fault.found) <= LONGEST_TEXT, "a refusal as long as its cause")
            continue
        accepted = True
        for number in found if isinstance(found, tuple) else (found,):
            require(isinstance(number, float), f"{number!r} is no float")
            require(isfinite(number) and number >= 0.0, f"{number!r} was read")
    return accepted


def toml(typed: str) -> bool:
    """Read a text as a description, without checking what it describes."""
    return described(typed) is not None


def described(typed: str) -> Description | None:
    """Return the description that a text holds, None where it is refused with its place."""
    line_index(typed)
    try:
        return read_text(typed, "typed")
    except DescriptionError as fault:
        placed(fault)
        return None


def placed(fault: DescriptionError) -> None:
    """Require that every mistake names its place and can be printed as it is."""
    require(bool(fault.mistakes), "a refusal without a mistake")
    for mistake in fault.mistakes:
        told = str(mistake)
        require(bool(mistake.key and mistake.found and mistake.allowed), f"half a refusal: {told}")
        require(len(told) < 5000, f"a refusal of {len(told)} characters")
        printable(told)


def printable(told: str) -> None:
    """Require that a text holds nothing that a terminal would obey, or can't print."""
    hidden = [
        character
        for character in told
        if character != "\n" and unicodedata.category(character)[0] == "C"
    ]
    require(not hidden, f"hidden characters {hidden[:3]!r} in {told[:200]!r}")


def supplier(typed: str) -> bool:
    """Read a text as a supplier's list."""
    try:
        rows = read_supplier_list(typed, "typed")
    except DescriptionError as fault:
        placed(fault)
        return False
    for row in rows:
        for size in (row.length, row.width, row.thickness):
            require(size is None or (isfinite(size) and size > 0.0), f"a size of {size!r}")
        require(row.count > 0, f"{row.count} panels")
    return True


def materials(typed: str) -> bool:
    """Read a text as a CSV of the user's own materials."""
    return _table(typed, tables.materials_from_csv)


def contents(typed: str) -> bool:
    """Read a text as a CSV of the user's own contents."""
    return _table(typed, tables.contents_from_csv)


def _table(typed: str, read: Callable[[Path], tuple[Any, ...]]) -> bool:
    with tempfile.TemporaryDirectory(prefix="shelfload-") as folder:
        path = Path(folder) / "own.csv"
        path.write_bytes(typed.encode("utf-8", "surrogatepass"))
        try:
            rows = read(path)
        except TableError as fault:
            told = str(fault)
            require(told.startswith(str(path)), f"a refusal that does not name the file: {told}")
            require(len(told) < 5000, f"a refusal of {len(told)} characters")
            printable(told.removeprefix(str(path)))
            return False
    for row in rows:
        finite(row, row.name)
    return True


def check(typed: str) -> bool:
    """Check a description as text, in every format."""
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        description = described(typed)
        if description is None:
            return False
        complete(description, typed)
    return True


def check_raw(raw: dict[str, Any]) -> bool:
    """Check a description given as dicts and lists, in every format."""
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        try:
            description = read_raw(raw)
        except DescriptionError as fault:
            placed(fault)
            return False
        complete(description, json.dumps(raw))
    return True


def complete(description: Description, typed: str) -> Outcome:
    """Require a whole report: every shelf, every section, every figure or its reason."""
    found = outcome(description)
    checks = found.findings.checks
    named = {(one.place.unit, one.place.part) for one in checks}
    project = description.project
    for lone in project.shelf:
        require(any(unit == lone.name for unit, _ in named), f"nothing is said of {lone.name}")
    for unit in project.unit:
        for number in range(len(unit.level) + 1):
            part = shelf_name(unit, number)
            require((unit.name, part) in named, f"nothing is said of {unit.name}, {part}")
    for one in checks:
        where = f"{one.place}: {one.question}"
        known = one.value is not None and one.limit is not None
        require(known or bool(one.reason.strip()), f"{where}: neither figures nor a reason")
        require(isnan(one.ratio) != known, f"{where}: a ratio of {one.ratio!r}")
        none_allowed = known and (one.value if one.at_least else one.limit) <= 0.0  # type: ignore[operator]
        require(not known or isfinite(one.ratio) or none_allowed, f"{where}: {one.ratio!r}")
    finite(checks, "checks")
    finite(found.findings.safe_loads, "safe loads")
    finite(found.findings.joins, "joins")
    for name in found.findings.whole.placed:
        finite(found.findings.whole.upright_forces(name), f"uprights of {name}")
    _printed(found, typed)
    return found


def _printed(found: Outcome, typed: str) -> None:
    may_say = bool(_NO_FIGURE.search(typed))
    printable(labels_page(found.title, found.findings, date(2024, 2, 29)))
    for system in get_args(units.UnitSystem):
        reports = {}
        for full in (False, True):
            laid_out = document(found, system, full=full)
            stream = io.StringIO()
            terminal.write(laid_out, stream)
            reports |= {
                f"terminal {full}": stream.getvalue(),
                f"plain {full}": text.plain(laid_out),
                f"markdown {full}": text.markdown(laid_out),
            }
        reports["page"] = page(found, system, full=True)
        reports["json"] = data.render(found, system)
        for form, report in reports.items():
            printable(report)
            require(may_say or not _NO_FIGURE.search(report), f"{form} holds nan or inf")
            if form != "json":
                for section in SECTIONS:
                    require(section in report, f"{form} has no section {section}")
        read = json.loads(reports["json"], parse_constant=_no_number)
        require(len(read["checks"]) == len(found.findings.checks), "JSON has other checks")


def _no_number(name: str) -> None:
    raise Broken(f"JSON holds {name}")


def finite(value: Any, where: str) -> None:
    """Require that no figure is nan or infinite, however deep it stands."""
    for place, number in _figures(value, where):
        require(isfinite(number), f"{place} is {number!r}")


def _figures(value: Any, where: str) -> Iterator[tuple[str, float]]:
    if isinstance(value, float):
        yield where, value
    elif isinstance(value, tuple | list):
        for number, one in enumerate(value):
            yield from _figures(one, f"{where}[{number}]")
    elif dataclasses.is_dataclass(value) and not isinstance(value, Enum):
        for field in dataclasses.fields(value):
            yield from _figures(getattr(value, field.name), f"{where}.{field.name}")


READERS: dict[str, Callable[[str], bool]] = {
    "quantity": quantity,
    "toml": toml,
    "supplier": supplier,
    "materials": materials,
    "contents": contents,
    "check": check,
}
"""Every reader by the name of its folder of kept cases."""
