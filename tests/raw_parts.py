"""Where things stand in a raw description."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from random_parts import Draws, Raw


def units(raw: Raw) -> list[Raw]:
    return raw.get("unit", [])


def mm(value: float) -> str:
    return f"{value!r} mm"


def millimetres(text: str) -> float:
    return float(text.removesuffix(" mm"))


def every_fill(raw: Raw) -> Iterator[tuple[Any, Any]]:
    """Yield where each fill stands: its holder and its key."""
    holders = [(level, "contents") for unit in units(raw) for level in unit["level"]]
    holders += [(unit, "top_contents") for unit in units(raw)]
    holders += [(shelf, "contents") for shelf in raw.get("shelf", [])]
    for holder, key in holders:
        said = holder.get(key)
        if isinstance(said, list):
            yield from ((said, number) for number in range(len(said)))
        elif said is not None:
            yield holder, key


def every_shelf(raw: Raw) -> Iterator[Raw]:
    """Yield each table that describes a horizontal."""
    for unit in units(raw):
        yield from (unit[key] for key in ("shelf", "top") if key in unit)
        yield from (level["shelf"] for level in unit["level"] if "shelf" in level)
    yield from (shelf["shelf"] for shelf in raw.get("shelf", []))


def every_back(raw: Raw) -> Iterator[Raw]:
    for unit in units(raw):
        yield from (holder["back"] for holder in (unit, *unit["level"]) if has_back(holder))


def has_back(holder: Raw) -> bool:
    return isinstance(holder.get("back"), dict)


def every_held(raw: Raw) -> Iterator[Raw]:
    """Yield each table of fixings."""
    for unit in units(raw):
        yield from (unit[key] for key in ("hangs", "restraint", "between") if key in unit)
    yield from (shelf["supports"] for shelf in raw.get("shelf", []) if "supports" in shelf)


def every_join(raw: Raw) -> Iterator[Raw]:
    for unit in units(raw):
        yield from (one for one in unit.get("joins", {}).values() if isinstance(one, dict))


def one_of(d: Draws, found: Iterator[Any] | list[Any]) -> Any:
    listed = list(found)
    return d.one(*listed) if listed else None
