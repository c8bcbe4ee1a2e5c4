"""Units that name each other: what they stand on or hang between must exist, without circles."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from shelfload.errors import nearest_name

Found = tuple[tuple[str | int, ...], str, str, str]
"""Key path, what was found, what is allowed, nearest name."""


def neighbour_mistakes(raw: Mapping[str, Any]) -> Iterator[Found]:
    """Return what is wrong with the names of neighbours in a raw description."""
    listed = raw.get("unit")
    units = [unit if isinstance(unit, dict) else {} for unit in _listed(listed)]
    names = [unit["name"] for unit in units if isinstance(unit.get("name"), str)]
    carried: dict[str, list[str]] = {}
    for number, unit in enumerate(units):
        # a name that is no text is a mistake that the model reports
        own = unit["name"] if isinstance(unit.get("name"), str) else ""
        for key, name in _named(unit):
            path = ("unit", number, *key)
            if name == own:
                yield path, repr(name), "allowed: another unit than itself", ""
            elif name in carried.get(own, []):
                yield path, f"{name!r} a second time", "allowed: each unit once", ""
            elif name not in names:
                yield path, repr(name), "allowed: the name of a unit", nearest_name(name, names)
            elif own:
                carried.setdefault(own, []).append(name)
    for number, unit in enumerate(units):
        called = unit.get("name")
        if isinstance(called, str) and called in _below(called, carried):
            yield (
                ("unit", number),
                f"{called!r} resting on itself",
                "allowed: no circle of units",
                "",
            )


def _listed(value: Any) -> list[Any]:
    return value if isinstance(value, list) else []


def _named(unit: Mapping[str, Any]) -> Iterator[tuple[tuple[str | int, ...], str]]:
    on = unit.get("on")
    for place, name in enumerate([on] if isinstance(on, str) else _listed(on)):
        if isinstance(name, str):
            yield ("on",) if isinstance(on, str) else ("on", place), name
    between = unit.get("between")
    if isinstance(between, dict):
        for side in ("left", "right"):
            if isinstance(between.get(side), str):
                yield ("between", side), between[side]


def _below(name: str, carried: Mapping[str, list[str]]) -> set[str]:
    """Return all units that carry one, directly or through others."""
    found: set[str] = set()
    waiting = list(carried.get(name, ()))
    while waiting:
        one = waiting.pop()
        if one not in found:
            found.add(one)
            waiting += carried.get(one, ())
    return found
