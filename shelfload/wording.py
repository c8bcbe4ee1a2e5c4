"""Sentences with figures in them, spelled in the reader's units only when printed.

Checks and assumptions are worded long before anyone knows whether the reader wants
millimetres or inches. A figure is therefore put into a sentence as a mark, and the report
spells all marks in one system.
"""

from __future__ import annotations

import re
from typing import Literal, TypeAlias, cast

from shelfload import units
from shelfload.units import Dimension, UnitSystem

Measure: TypeAlias = Dimension | Literal["ratio", "count"]
"""What a figure measures: a dimension, a plain ratio or a number of things."""

# Private-use characters: names and free text of a description may not contain them.
_OPEN, _SPLIT, _CLOSE = "\ue000", "\ue001", "\ue002"
_MARK = re.compile(f"{_OPEN}([^{_CLOSE}]*){_CLOSE}")


def figure(value: float, measure: Measure, *, as_mass: bool = False, down: bool = False) -> str:
    """Return a mark for a figure in internal units, to be put into a sentence.

    ``as_mass`` spells a load as the mass that weighs on it, ``down`` rounds a capacity down.
    """
    flags = ("mass" if as_mass else "") + ("down" if down else "")
    return f"{_OPEN}{measure}{_SPLIT}{float(value)!r}{_SPLIT}{flags}{_CLOSE}"


def size(value: float, *, down: bool = False, up: bool = False) -> str:
    """Return a mark for the size of a thing [mm]: a thickness, a screw, a spacing.

    ``down`` rounds a largest spacing down, ``up`` a least distance up. What decides a verdict,
    a sag or its limit, is a ``figure``.
    """
    flags = ("down" if down else "") + ("up" if up else "")
    return f"{_OPEN}size{_SPLIT}{float(value)!r}{_SPLIT}{flags}{_CLOSE}"


def spelled(text: str, system: UnitSystem) -> str:
    """Return the sentence with every mark spelled in ``system``."""

    def spell(match: re.Match[str]) -> str:
        measure, value, flags = match.group(1).split(_SPLIT)
        number = float(value)
        if measure == "ratio":
            return f"{number:.2f}"
        if measure == "size":
            return units.show_size(number, system, down="down" in flags, up="up" in flags)
        if measure == "count":
            return f"{number:.0f}"
        return units.show(
            number,
            cast(Dimension, measure),
            system,
            as_mass="mass" in flags,
            down="down" in flags,
        )

    return _MARK.sub(spell, text)
