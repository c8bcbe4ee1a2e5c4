"""Text to number: lengths, loads, lists and screws as people type them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from shelfload.errors import QuantityError
from shelfload.units.factors import FACTORS, Dimension
from shelfload.units.names import (
    IN_WORDS,
    LOADS,
    LoadKind,
    factor,
    unit_name,
    unit_refusal,
    wanted_in_words,
)
from shelfload.units.number import (
    LONGEST_TEXT,
    LOOKALIKES,
    NUMBER,
    bounded,
    leading_number,
    refusal,
    tidied,
)
from shelfload.units.quantities import read_quantity

if TYPE_CHECKING:
    import pint

_FEET_INCHES: Final = re.compile(
    r"(?P<feet>[0-9]+) ?(?:'|(?:ft|foot|feet)\.?)[ -]{0,3}(?P<inches>[0-9][0-9 ./,-]*?) ?"
    r"(?P<mark>\"|(?:in|inch|inches)\.?)?",
    re.IGNORECASE,
)
_SPACING_WORDS: Final = re.compile(
    r"(?:(?<=[\"'.])| )(?:o\.? ?c\.?|c[-/ ]?c|c\. ?c\.?|c to c|(?:on )?cent(?:er|re)s?)$",
    re.IGNORECASE,
)
_ENDS_IN_FEET: Final = re.compile(r"(?:(?<!')'|ft\.?|foot|feet)$", re.IGNORECASE)
_ENDS_IN_INCHES: Final = re.compile(r"(?:\"|''|in\.?|inch|inches)$", re.IGNORECASE)

# Shank diameters of US wood screws. Source: Wood Handbook (USDA FPL-GTR-282), chapter 8.
_SCREW_GAUGES: Final = {
    4: 2.84,
    5: 3.18,
    6: 3.51,
    7: 3.84,
    8: 4.17,
    9: 4.50,
    10: 4.83,
    12: 5.49,
    14: 6.15,
}
_METRIC_SIZES: Final = (2, 2.5, 3, 3.5, 4, 5, 6, 8, 10, 12, 14, 16, 20)
_GAUGE: Final = re.compile(
    r"(?:(?:no|nr|number|gauge)\.? ?|[#№] ?)([0-9]{1,2})|([0-9]{1,2}) ?-?(?:gauge|ga)\.?",
    re.IGNORECASE,
)
_METRIC: Final = re.compile(r"[Mm] ?([0-9]{1,2}(?:[.,]5)?)")
_SCREW_IN_WORDS: Final = "a screw diameter such as '4 mm', 'No. 8', '3/16 in' or 'M6'"


@dataclass(frozen=True, slots=True)
class Load:
    """A load as typed, with what it is spread over.

    Parameters
    ----------
    kind : {"total", "line", "area", "volume"}
        What the load is per: nothing, a length, an area or a volume [-]
    value : float
        Size of the load, by kind [N, N/mm, N/mm2 or N/mm3]
    """

    kind: LoadKind
    value: float


def read(value: str | pint.Quantity[float], dimension: Dimension) -> float:
    """Read a text with a unit, or a quantity, as a number in internal units.

    Parameters
    ----------
    value : str or pint.Quantity
        What was typed, for example ``"1 1/2 in"``, ``"12,5 mm"``, ``"25 lb/ft"`` [as typed]
    dimension : Dimension
        What is wanted; where a force is wanted, a mass means its weight [-]

    Returns
    -------
    number : float
        Finite, zero or positive [mm, mm2, kg, kg/m3, N, N/mm, N/mm2, N/mm3, MPa, N mm, rad]

    Raises
    ------
    QuantityError
        If there is no such number, no unit, another dimension, a sign, or a size that
        nothing built has.

    Notes
    -----
    Source: own grammar. A weight is mass x 9.80665 m/s2 (standard gravity, SI brochure).
    The full stop is always a decimal mark. One comma is a decimal mark too, except before
    exactly three digits, where it might mark thousands: that is refused. Spacings may end
    in "o.c.", "c/c" or "centres" and begin with "@".
    """
    return _parse(value, (dimension,))[1]


def read_load(value: str | pint.Quantity[float]) -> Load:
    """Read a load and find out from its unit what it is spread over.

    Parameters
    ----------
    value : str or pint.Quantity
        What was typed, for example ``"40 psf"``, ``"20 kg"``, ``"600 kg/m3"`` [as typed]

    Returns
    -------
    load : Load
        Kind and size [N, N/mm, N/mm2 or N/mm3]

    Raises
    ------
    QuantityError
        If the value is not a load.

    Notes
    -----
    Source: own grammar. A mass stands for its weight, mass x 9.80665 m/s2.
    """
    dimension, number = _parse(value, tuple(LOADS))
    return Load(LOADS[dimension], number)


def read_lengths(value: str) -> tuple[float, ...]:
    """Read a list of lengths as typed on a command line.

    Parameters
    ----------
    value : str
        Lengths, each with its unit, for example ``"600 mm, 24 in"`` [as typed]

    Returns
    -------
    lengths : tuple of float
        In the order given [mm]

    Raises
    ------
    QuantityError
        If one of them is not a length, or if a comma can be read in two ways.

    Notes
    -----
    Source: own grammar. Where a semicolon stands in the text, semicolons part the list and
    commas are decimal marks. Otherwise commas part the list, and a comma between two digits
    with no space ("24,24 in") is refused, since it may be either; so is a length in feet
    followed by less than 12 in ("5 ft, 6 in"), since it may be one length.
    """
    if not isinstance(value, str) or len(value) > 10 * LONGEST_TEXT:
        raise refusal(value, "a list of lengths such as '600 mm, 600 mm'")
    if ";" in value:
        return tuple(read(part, "length") for part in value.split(";"))
    if re.search(r"[0-9],[0-9]", value):
        raise refusal(
            value,
            "lengths parted by a comma and a space, or by ';' where a comma is a decimal mark",
        )
    parts = [part.strip() for part in value.translate(LOOKALIKES).split(",")]
    if not all(parts):
        raise refusal(value, "lengths such as '600 mm, 600 mm', none of them left out")
    lengths = tuple(read(part, "length") for part in parts)
    for feet, inches, length in zip(parts, parts[1:], lengths[1:], strict=False):
        may_be_one = _ENDS_IN_FEET.search(feet) and _ENDS_IN_INCHES.search(inches)
        if may_be_one and length < factor("ft", "length"):
            raise refusal(value, "one length as '5 ft 6 in', or two parted by ';' as '5 ft; 6 in'")
    return lengths


def read_screw_diameter(value: str) -> float:
    """Read the nominal diameter of a screw or bolt.

    Parameters
    ----------
    value : str
        A length, a US wood screw gauge or a metric size, for example ``"4 mm"``,
        ``"No. 8"``, ``"M6"`` [as typed]

    Returns
    -------
    diameter : float
        Outer diameter of a metric size, shank diameter of a gauge [mm]

    Raises
    ------
    QuantityError
        If the text names no diameter between 1 and 30 mm.

    Notes
    -----
    Source: gauges from the Wood Handbook (USDA FPL-GTR-282), chapter 8.
    """
    text = tidied(value, _SCREW_IN_WORDS)
    if gauge := _GAUGE.fullmatch(text):
        size = int(gauge[1] or gauge[2])
        if size not in _SCREW_GAUGES:
            raise refusal(value, f"a screw gauge of {', '.join(map(str, _SCREW_GAUGES))}")
        return _SCREW_GAUGES[size]
    if metric := _METRIC.fullmatch(text):
        diameter = float(metric[1].replace(",", "."))
        if diameter not in _METRIC_SIZES:
            raise refusal(value, f"a metric size of M{', M'.join(map(str, _METRIC_SIZES))}")
        return diameter
    if NUMBER.fullmatch(text):
        raise refusal(value, f"{_SCREW_IN_WORDS}; a bare number may be a gauge or millimetres")
    if _SPACING_WORDS.search(text) or text.startswith("@"):
        raise refusal(value, f"{_SCREW_IN_WORDS}, not a spacing")
    try:
        diameter = read(text, "length")
    except QuantityError as error:
        raise refusal(value, _SCREW_IN_WORDS, error.nearest) from error
    if not 1 <= diameter <= 30:
        raise refusal(value, "a screw diameter from 1 mm to 30 mm")
    return diameter


def _parse(value: object, wanted: tuple[Dimension, ...]) -> tuple[Dimension, float]:
    in_words = wanted_in_words(wanted)
    if not isinstance(value, str):
        return read_quantity(value, wanted, in_words)
    text = tidied(value, in_words)
    if "length" in wanted:
        text = _SPACING_WORDS.sub("", text.removeprefix("@").lstrip()).rstrip()
        if feet_inches := _FEET_INCHES.fullmatch(text):
            inches = _inches_after_feet(feet_inches, value)
            return "length", bounded(float(inches * FACTORS["length"]["in"]), value)
    number, rest = leading_number(text, value, in_words)
    if not rest:
        raise refusal(value, f"{in_words}; a number without a unit can't be used")
    unit = unit_name(rest)
    for dimension in wanted:
        if unit in FACTORS[dimension]:
            return dimension, bounded(float(number * FACTORS[dimension][unit]), value)
    raise unit_refusal(rest, value, wanted)


def _inches_after_feet(match: re.Match[str], found: str) -> Fraction:
    inches, rest = leading_number(match["inches"], found, IN_WORDS["length"])
    if rest or inches >= 12 or not match["mark"]:
        raise refusal(found, "feet and less than 12 inches, as in '5 ft 6 1/2 in'")
    return 12 * int(match["feet"]) + inches
