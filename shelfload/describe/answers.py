"""Answers as people type them, checked one at a time; each comes back as it is written down."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Sequence
from contextlib import suppress
from typing import TypeAlias

from shelfload import tables, units
from shelfload.errors import QuantityError, UnknownName, nearest_name
from shelfload.units import UnitSystem

Read: TypeAlias = Callable[[str], str]
_YES, _NO = ("yes", "y", "true"), ("no", "n", "false")
_COUNTED = re.compile(r"(?P<count>[0-9]{1,5}) ?[x×]? +(?P<name>[a-z].*)", re.IGNORECASE)
_UNIT = {"metric": "mm", "inch": "in"}


def quoted(text: str) -> str:
    """Write a text as TOML does."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def length(system: UnitSystem, low: float, high: float) -> Read:
    """Read one length between two bounds [mm]; a bare number is in the unit asked for at first."""

    def read(text: str) -> str:
        typed = with_unit(text, system)
        value = units.read(typed, "length")
        if not low <= value <= high:
            ends = (units.show(end, "length", system) for end in (low, high))
            raise QuantityError(typed, f"from {' to '.join(ends)}")
        return typed

    return read


def with_unit(text: str, system: UnitSystem) -> str:
    """Add the unit asked for at first to a number that has none."""
    try:
        units.read_number(text)
    except QuantityError:
        return text
    return f"{text} {_UNIT[system]}"


def lengths(system: UnitSystem, count: int, low: float, high: float) -> Callable[[str], list[str]]:
    """Read as many lengths as wanted, parted by ``;`` or a comma and a space, or one for all."""
    one = length(system, low, high)

    def read(text: str) -> list[str]:
        parts = [part.strip() for part in re.split(r";|, ", text)]
        found = [one(part) for part in parts]
        if len(found) not in (1, count):
            raise QuantityError(text, f"one for all, or {count} parted by ;")
        return found * count if len(found) == 1 else found

    return read


def whole_number(low: int, high: int) -> Read:
    """Read how many."""

    def read(text: str) -> str:
        if not re.fullmatch(r"[0-9]{1,4}", text) or not low <= int(text) <= high:
            raise QuantityError(text, f"a whole number from {low} to {high}")
        return str(int(text))

    return read


def choice(*options: str) -> Read:
    """Read one of some words, or its beginning."""

    def read(text: str) -> str:
        typed = text.casefold()
        found = [option for option in options if option.startswith(typed)]
        if typed in options:
            return typed
        if len(found) != 1:
            raise QuantityError(text, ", ".join(options), nearest_name(typed, options))
        return found[0]

    return read


def yes_no(text: str) -> str:
    """Read yes or no, as TOML writes it."""
    if text.casefold() not in (*_YES, *_NO):
        raise QuantityError(text, "yes or no")
    return "true" if text.casefold() in _YES else "false"


def called(text: str) -> str:
    """Read what something is called."""
    if not 1 <= len(text) <= 80 or not text.isprintable():
        raise QuantityError(text[:60], "a name of 1 to 80 characters")
    return text


def material(text: str) -> str:
    """Read what a sheet is made of."""
    with suppress(QuantityError):  # known, but sold in several thicknesses
        tables.material(text, None)
    return text


def thickness(system: UnitSystem, name: str) -> Read:
    """Read a thickness that a material is sold in."""
    one = length(system, 2.0, 120.0)

    def read(text: str) -> str:
        typed = one(text)
        tables.material(name, units.read(typed, "length"))
        return typed

    return read


def contents(bays: int) -> Callable[[str], list[str]]:
    """Read what stands in each bay, parted by ``;``, or one entry for all, as TOML entries."""

    def read(text: str) -> list[str]:
        parts = [part.strip() for part in text.split(";")]
        if len(parts) not in (1, bays):
            raise QuantityError(text, f"one entry for all bays, or {bays} parted by ;")
        found = [_entry(part) for part in parts]
        return found * bays if len(found) == 1 else found

    return read


def _entry(text: str) -> str:
    if text.casefold() in ("empty", "nothing", "none"):
        return '"empty"'
    counted = _COUNTED.fullmatch(text)
    known = tables.contents()
    name = counted["name"] if counted else text
    row = known.get(name)
    if row is None and (not counted or not _is_load(text)):
        if re.match(r"[0-9.½¼¾]", text):
            load = units.read_load(text)  # says what is wrong with it
            return _load(text, load.value)
        raise UnknownName("contents", name, known)
    if row is None:
        return _load(text, units.read_load(text).value)
    if row.kind == "each":
        if counted is None or int(counted["count"]) == 0:
            raise QuantityError(text, f'how many, as in "12 {name}"')
        return f"{{ what = {quoted(name)}, count = {int(counted['count'])} }}"
    if counted:
        raise QuantityError(text, f'"{name}" alone: it is not counted one by one')
    return quoted(name)


def _is_load(text: str) -> bool:
    try:
        units.read_load(text)
    except QuantityError:
        return False
    return True


def _load(text: str, value: float) -> str:
    if value <= 0.0:
        raise QuantityError(text, "a load above zero, or empty")
    return f"{{ load = {quoted(text)} }}"


def alike(entries: Sequence[str]) -> str:
    """Write one entry where all are alike, else a list."""
    return entries[0] if len(set(entries)) == 1 else f"[{', '.join(entries)}]"
