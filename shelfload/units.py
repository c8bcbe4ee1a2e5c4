"""Text <-> quantity <-> number in N, mm, MPa, kg, rad; the only importer of pint.

The number in a text is read by a small strict grammar; only the name of the unit, once it is
found in a list of allowed names, goes to pint. pint itself is loaded on first use.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, lru_cache
from numbers import Real
from typing import TYPE_CHECKING, Any, Final, Literal

from shelfload.errors import QuantityError, nearest_name

if TYPE_CHECKING:
    import pint

Dimension = Literal[
    "length",
    "area",
    "mass",
    "force",
    "line load",
    "area load",
    "volume load",
    "stress",
    "density",
    "stiffness",
    "line stiffness",
    "rotational stiffness",
    "moment",
    "angle",
]
UnitSystem = Literal["metric", "inch"]
LoadKind = Literal["total", "line", "area", "volume"]

_LONGEST_TEXT: Final = 60
_SMALLEST: Final = 1e-9
_LARGEST: Final = 1e12
_LARGEST_SHOWN: Final = 1e18  # beyond this a number is a solver's failure, not a figure

# A round-off free registry: definitions are exact (SI brochure 9th ed.; NIST SP 811 app. B).
_DEFINITIONS: Final = """
milli- = 1/1000 = m-
centi- = 1/100 = c-
deca- = 10 = da-
kilo- = 1000 = k-
mega- = 1000000 = M-
giga- = 1000000000 = G-
meter = [length] = m = metre
gram = [mass] = g
second = [time] = s
radian = [] = rad
degree = 0.017453292519943295 * radian = deg
inch = 0.0254 * meter = in = inches
foot = 12 * inch = ft = feet
yard = 3 * foot = yd
tonne = 1000 * kilogram = t
pound = 0.45359237 * kilogram = lb
ounce = pound / 16 = oz
newton = kilogram * meter / second ** 2 = N
pascal = newton / meter ** 2 = Pa
standard_gravity = 9.80665 * meter / second ** 2 = g_0
gram_force = gram * standard_gravity = gf
kilogram_force = kilogram * standard_gravity = kgf
tonne_force = tonne * standard_gravity = tf
pound_force = pound * standard_gravity = lbf
ounce_force = ounce * standard_gravity = ozf
pound_force_per_square_inch = pound_force / inch ** 2 = psi
kip_per_square_inch = 1000 * psi = ksi
pound_force_per_square_foot = pound_force / foot ** 2 = psf
pound_force_per_foot = pound_force / foot = plf
pound_per_cubic_foot = pound / foot ** 3 = pcf
"""

# Internal unit first; a unit may stand under several dimensions, the likeliest comes first.
_ALLOWED: Final[dict[Dimension, tuple[str, ...]]] = {
    "length": ("mm", "cm", "m", "in", "ft", "yd"),
    "area": ("mm2", "cm2", "m2", "in2", "ft2"),
    "mass": ("kg", "g", "t", "lb", "oz"),
    "density": ("kg/m3", "g/cm3", "lb/ft3", "pcf"),
    "force": ("N", "kN", "daN", "kgf", "lbf", "kg", "g", "t", "lb", "oz"),
    "line load": (
        *("N/mm", "N/m", "kN/m", "daN/m", "kgf/m", "lbf/ft", "lbf/in", "plf"),
        *("kg/m", "kg/cm", "kg/mm", "lb/ft", "lb/in"),
    ),
    "stress": ("MPa", "GPa", "N/mm2", "kN/mm2", "kN/cm2", "psi", "ksi", "lb/in2", "lbf/in2"),
    "area load": (
        *("N/mm2", "N/m2", "kN/m2", "Pa", "kPa", "daN/m2", "kgf/m2", "psf", "lbf/ft2"),
        *("kg/m2", "t/m2", "lb/ft2"),
    ),
    "volume load": ("N/mm3", "N/m3", "kN/m3", "lbf/ft3", "kg/m3", "g/cm3", "lb/ft3", "pcf"),
    "stiffness": ("N/mm", "N/m", "kN/m", "kN/mm", "lb/in", "lbf/in", "lb/ft", "lbf/ft"),
    "line stiffness": ("N/mm2", "kN/m2", "MPa", "lb/in2", "lbf/in2", "psi"),
    "moment": ("N mm", "N m", "kN m", "kg m", "lb ft", "lb in", "lbf ft", "lbf in"),
    "rotational stiffness": (
        *("N mm/rad", "N m/rad", "kN m/rad", "N mm/deg", "N m/deg", "kN m/deg"),
        *("lb ft/rad", "lb in/rad", "lbf ft/rad", "lbf in/rad"),
    ),
    "angle": ("rad", "deg"),
}
_IN_WORDS: Final[dict[Dimension, str]] = {
    "length": "a length such as '600 mm' or '23 5/8 in'",
    "area": "an area such as '0.5 m2'",
    "mass": "a mass such as '12 kg' or '25 lb'",
    "density": "a density such as '650 kg/m3'",
    "force": "a force or a weight such as '0.5 kN' or '20 kg'",
    "line load": "a load per length such as '30 kg/m' or '25 lb/ft'",
    "stress": "a stress such as '9000 MPa' or '1300 ksi'",
    "area load": "a load per area such as '2 kPa' or '40 psf'",
    "volume load": "a load per volume such as '600 kg/m3'",
    "stiffness": "a stiffness such as '500 N/mm'",
    "line stiffness": "a stiffness per length such as '10 N/mm2'",
    "moment": "a moment such as '150 N m'",
    "rotational stiffness": "a rotational stiffness such as '2 kN m/rad'",
    "angle": "an angle such as '30 deg'",
}
_LOAD_IN_WORDS: Final = "a load such as '20 kg', '30 kg/m', '25 lb/ft', '2 kPa' or '600 kg/m3'"
_LOADS: Final[dict[Dimension, LoadKind]] = {
    "force": "total",
    "line load": "line",
    "area load": "area",
    "volume load": "volume",
}
# Where a force is meant, a mass stands for its weight.
_WEIGHT_OF: Final = {"g": "gf", "kg": "kgf", "t": "tf", "lb": "lbf", "oz": "ozf", "pcf": "pcf*g_0"}
_NO_WEIGHT: Final[tuple[Dimension, ...]] = ("length", "area", "mass", "density", "angle")

_SPELLINGS: Final = {
    spelling: name
    for name, spellings in {
        "mm": "millimetre millimetres millimeter millimeters",
        "cm": "centimetre centimetres centimeter centimeters",
        "m": "metre metres meter meters",
        "in": 'inch inches "',
        "ft": "foot feet lf '",
        "ft2": "sqft sf",
        "m2": "sqm",
        "yd": "yard yards",
        "g": "gram grams",
        "kg": "kgs kilo kilos kilogram kilograms kilogramme kilogrammes",
        "t": "tonne tonnes",
        "lb": "lbs pound pounds",
        "oz": "ounce ounces",
        "N": "newton newtons",
        "kN": "kilonewton kilonewtons",
        "kgf": "kp",
        "in2": "sqin",
        "rad": "radian radians",
        "deg": "degree degrees degs °",
        "N mm": "Nmm",
        "N m": "Nm",
        "kN m": "kNm",
    }.items()
    for spelling in spellings.split()
}
_KNOWN_UNITS: Final = tuple(dict.fromkeys(unit for units in _ALLOWED.values() for unit in units))
_KNOWN_WORDS: Final = (
    *dict.fromkeys(word.rstrip("23") for unit in _KNOWN_UNITS for word in re.split("[ /]", unit)),
    *_SPELLINGS,
)
_FOLDED_WORDS: Final = {word.casefold(): word for word in reversed(_KNOWN_WORDS)}

_VULGAR: Final = {
    sign: f"{num}/{den}"
    for den, signs in {
        2: "½",
        3: "⅓⅔",
        4: "¼_¾",
        5: "⅕⅖⅗⅘",
        6: "⅙___⅚",
        8: "⅛_⅜_⅝_⅞",
    }.items()
    for num, sign in enumerate(signs, start=1)
    if sign != "_"
}
_VULGAR_SIGN: Final = re.compile(rf" ?(-?) ?([{''.join(_VULGAR)}])")
_LOOKALIKES: Final = str.maketrans("′’‘‵″”“⁄∕−‐‑–", "''''\"\"\"//----")

_NUMBER: Final = re.compile(
    r"(?:(?P<whole>[0-9]+)[ -])?(?P<num>[0-9]+)/(?P<den>[0-9]+)"
    r"|(?P<decimal>[0-9]+(?:[.,][0-9]+)?|\.[0-9]+)"
)
_MORE_NUMBER: Final = re.compile(r"[ .,_/'-]*[0-9]")
_EXPONENT: Final = re.compile(r"[0-9.] ?[eE] ?[+-]?[0-9]")
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
_NUMBER_IN_WORDS: Final = "a number such as 12.5, 3/4, 1 1/2 or 12,5"

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


# ---------------------------------------------------------------- text to number


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
    dimension, number = _parse(value, tuple(_LOADS))
    return Load(_LOADS[dimension], number)


def read_number(text: str) -> float:
    """Read a number without a unit by the strict grammar.

    Parameters
    ----------
    text : str
        Decimal, fraction, mixed number or decimal comma, without sign or exponent [-]

    Returns
    -------
    number : float
        Zero or positive [-]

    Raises
    ------
    QuantityError
        If the text is not wholly one such number.

    Notes
    -----
    Source: own grammar.
    """
    tidy = _tidied(text, _NUMBER_IN_WORDS)
    number, rest = _leading_number(tidy, text, _NUMBER_IN_WORDS)
    if rest:
        raise _refusal(text, f"{_NUMBER_IN_WORDS}, without a unit")
    return float(number)


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
    if not isinstance(value, str) or len(value) > 10 * _LONGEST_TEXT:
        raise _refusal(value, "a list of lengths such as '600 mm, 600 mm'")
    if ";" in value:
        return tuple(read(part, "length") for part in value.split(";"))
    if re.search(r"[0-9],[0-9]", value):
        raise _refusal(
            value,
            "lengths parted by a comma and a space, or by ';' where a comma is a decimal mark",
        )
    parts = [part.strip() for part in value.translate(_LOOKALIKES).split(",")]
    if not all(parts):
        raise _refusal(value, "lengths such as '600 mm, 600 mm', none of them left out")
    lengths = tuple(read(part, "length") for part in parts)
    for feet, inches, length in zip(parts, parts[1:], lengths[1:], strict=False):
        may_be_one = _ENDS_IN_FEET.search(feet) and _ENDS_IN_INCHES.search(inches)
        if may_be_one and length < factor("ft", "length"):
            raise _refusal(value, "one length as '5 ft 6 in', or two parted by ';' as '5 ft; 6 in'")
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
    text = _tidied(value, _SCREW_IN_WORDS)
    if gauge := _GAUGE.fullmatch(text):
        size = int(gauge[1] or gauge[2])
        if size not in _SCREW_GAUGES:
            raise _refusal(value, f"a screw gauge of {', '.join(map(str, _SCREW_GAUGES))}")
        return _SCREW_GAUGES[size]
    if metric := _METRIC.fullmatch(text):
        diameter = float(metric[1].replace(",", "."))
        if diameter not in _METRIC_SIZES:
            raise _refusal(value, f"a metric size of M{', M'.join(map(str, _METRIC_SIZES))}")
        return diameter
    if _NUMBER.fullmatch(text):
        raise _refusal(value, f"{_SCREW_IN_WORDS}; a bare number may be a gauge or millimetres")
    if _SPACING_WORDS.search(text) or text.startswith("@"):
        raise _refusal(value, f"{_SCREW_IN_WORDS}, not a spacing")
    try:
        diameter = read(text, "length")
    except QuantityError as error:
        raise _refusal(value, _SCREW_IN_WORDS, error.nearest) from error
    if not 1 <= diameter <= 30:
        raise _refusal(value, "a screw diameter from 1 mm to 30 mm")
    return diameter


def _parse(value: object, wanted: tuple[Dimension, ...]) -> tuple[Dimension, float]:
    in_words = _wanted(wanted)
    if not isinstance(value, str):
        return _parse_quantity(value, wanted, in_words)
    text = _tidied(value, in_words)
    if "length" in wanted:
        text = _SPACING_WORDS.sub("", text.removeprefix("@").lstrip()).rstrip()
        if feet_inches := _FEET_INCHES.fullmatch(text):
            inches = _inches_after_feet(feet_inches, value)
            return "length", _bounded(float(inches * _factor("in", "length")), value)
    number, rest = _leading_number(text, value, in_words)
    if not rest:
        raise _refusal(value, f"{in_words}; a number without a unit can't be used")
    unit = _unit_name(rest)
    for dimension in wanted:
        if unit in _ALLOWED[dimension]:
            return dimension, _bounded(float(number * _factor(unit, dimension)), value)
    raise _unit_refusal(rest, value, wanted)


def _parse_quantity(
    value: Any,
    wanted: tuple[Dimension, ...],
    in_words: str,
) -> tuple[Dimension, float]:
    if not hasattr(value, "magnitude") or not hasattr(value, "dimensionality"):
        unit_missing = isinstance(value, Real) and not isinstance(value, bool)
        hint = "; a number without a unit can't be used" if unit_missing else ""
        raise _refusal(value, in_words + hint)
    import pint

    if isinstance(value.magnitude, Real) and not value.unitless:
        for dimension in wanted:
            internal = _ALLOWED[dimension][0]
            targets = {_pint_name(internal): 1.0}
            if dimension in _LOADS:
                targets[_pint_name(internal.replace("N", "kg"))] = factor("kg", "force")
            for target, scale in targets.items():
                try:
                    number = float(value.to(target).magnitude) * scale
                except pint.errors.PintError:
                    continue
                if number < 0:
                    raise _refusal(value, f"{in_words}, not negative")
                return dimension, _bounded(number, value)
    raise _refusal(value, in_words)


def _tidied(value: object, in_words: str) -> str:
    """Return the text with single plain spaces, straight marks and ``n/d`` fractions."""
    if not isinstance(value, str):
        raise _refusal(value, in_words)
    if len(value) > _LONGEST_TEXT:
        raise _refusal(value, f"{in_words}, in at most {_LONGEST_TEXT} characters")
    text = " ".join(value.translate(_LOOKALIKES).split()).replace("''", '"')
    text = _VULGAR_SIGN.sub(lambda sign: f"{sign[1] or ' '}{_VULGAR[sign[2]]} ", text)
    return " ".join(text.split())


def _leading_number(text: str, found: str, in_words: str) -> tuple[Fraction, str]:
    """Return the number that a tidied text begins with, and what follows it."""
    if text.startswith(("-", "+")):
        raise _refusal(found, f"{in_words}, without a sign")
    if _EXPONENT.search(text):
        raise _refusal(found, f"{in_words}, written out without an exponent")
    match = _NUMBER.match(text)
    if match is None:
        raise _refusal(found, f"{in_words}; it has to begin with {_NUMBER_IN_WORDS}")
    rest = text[match.end() :]
    if _MORE_NUMBER.match(rest):
        raise _refusal(found, f"{in_words}; one number only, without thousands separators")
    return _number_value(match, found), rest.strip()


def _number_value(match: re.Match[str], found: str) -> Fraction:
    if decimal := match["decimal"]:
        before, comma, after = decimal.partition(",")
        if comma and len(after) == 3 and before.strip("0"):
            raise _refusal(
                found,
                f"{before}.{after} or {before}{after}; the comma in {decimal} may be a decimal"
                " mark or part thousands",
            )
        return Fraction(decimal.replace(",", "."))
    whole, num, den = (int(match[name] or 0) for name in ("whole", "num", "den"))
    if den == 0 or (match["whole"] and num >= den):
        raise _refusal(found, "a fraction such as 3/4 or 1 1/2")
    return whole + Fraction(num, den)


def _inches_after_feet(match: re.Match[str], found: str) -> Fraction:
    inches, rest = _leading_number(match["inches"], found, _IN_WORDS["length"])
    if rest or inches >= 12 or not match["mark"]:
        raise _refusal(found, "feet and less than 12 inches, as in '5 ft 6 1/2 in'")
    return 12 * int(match["feet"]) + inches


def _bounded(number: float, found: object) -> float:
    if number == 0 or _SMALLEST <= number <= _LARGEST:
        return number
    raise _refusal(found, "a size that can be built")


def _refusal(found: object, allowed: str, nearest: str = "") -> QuantityError:
    text = found if isinstance(found, str) else str(found)
    if len(text) > _LONGEST_TEXT:
        text = text[: _LONGEST_TEXT - 3] + "..."
    return QuantityError(text, allowed, nearest)


# ---------------------------------------------------------------- names of units


def factor(unit: str, dimension: Dimension) -> float:
    """Return how many internal units one of the given units is.

    Parameters
    ----------
    unit : str
        Name of the unit, for example ``"kN/m2"`` or ``"lb/ft"`` [-]
    dimension : Dimension
        What it measures; where a force is meant, a mass means its weight [-]

    Returns
    -------
    factor : float
        Internal units per given unit [internal unit / unit]

    Raises
    ------
    QuantityError
        If the unit is not one of those allowed for the dimension.

    Notes
    -----
    Source: SI brochure, 9th edition; NIST SP 811, appendix B (exact definitions).
    """
    name = _unit_name(unit)
    if name not in _ALLOWED[dimension]:
        raise _unit_refusal(unit, unit, (dimension,))
    return float(_factor(name, dimension))


@cache
def _factor(name: str, dimension: Dimension) -> Fraction:
    one = _registry().Quantity(Fraction(1), _pint_name(name, weighed=dimension not in _NO_WEIGHT))
    return Fraction(one.to(_pint_name(_ALLOWED[dimension][0])).magnitude)


@cache
def _registry() -> pint.UnitRegistry[Any]:
    import pint

    registry: pint.UnitRegistry[Any] = pint.UnitRegistry(None, non_int_type=Fraction)
    for line in _DEFINITIONS.strip().splitlines():
        registry.define(line)
    return registry


def _pint_name(unit: str, *, weighed: bool = False) -> str:
    """Write an allowed unit as pint reads it, if ``weighed`` with a mass as its weight."""
    over, _, under = unit.partition("/")
    if weighed:
        over = " ".join(_WEIGHT_OF.get(word, word) for word in over.split())
    name = f"{over}/{under}" if under else over
    return re.sub(r"(?<=[a-z])([23])", r"**\1", name).replace(" ", "*")


@lru_cache(maxsize=1024)
def _unit_name(typed: str) -> str:
    """Bring the spellings of a unit to one: ``lbs. per sq. ft`` is ``lb/ft2``."""
    text = typed.translate(_LOOKALIKES).replace("²", "2").replace("³", "3")
    text = re.sub(r" ?(?:\^|\*\*) ?(?=[23])", "", text)
    text = re.sub(r"(?<=[^\W_])\.(?=\W|$)", "", text)
    text = re.sub(r"(?<=[^\W\d]) ?[.·⋅*-] ?(?=[^\W\d])", " ", text)
    text = re.sub(r"\b(?:sq|square) +([^\W\d]+)", r"\g<1>2", text, flags=re.IGNORECASE)
    text = re.sub(r"\b(?:cu|cubic) +([^\W\d]+)", r"\g<1>3", text, flags=re.IGNORECASE)
    text = re.sub(r" ?/ ?| per ", "/", " ".join(text.split()))
    text = re.sub(r"[^\W\d]+|[\"'°]", lambda word: _word(word[0]), text)
    over, slash, under = text.partition("/")
    if over in ("ft lb", "ft lbf", "in lb", "in lbf"):
        over = " ".join(reversed(over.split()))
    return over + slash + under


def _word(typed: str) -> str:
    """Return the one name of a single unit; typed capitals matter only for m, M, n, N."""
    word = typed if typed in _KNOWN_WORDS else _FOLDED_WORDS.get(typed.casefold(), typed)
    if typed[0] in "mMnN" and word[0] != typed[0] and len(word) < 4:
        return typed
    return _SPELLINGS.get(word, word)


def _unit_refusal(unit: str, found: str, wanted: tuple[Dimension, ...]) -> QuantityError:
    names = tuple(dict.fromkeys(name for kind in wanted for name in _ALLOWED[kind]))
    allowed = _wanted(wanted)
    if len(wanted) == 1:
        allowed += f", in {', '.join(names)}"
    name = _unit_name(unit)
    for dimension, units in _ALLOWED.items():
        if name in units:
            kind = _IN_WORDS[dimension].partition(" such as")[0]
            return _refusal(found, f"{allowed}; this is {kind}")
    if re.search(r"(?<![^\W\d])[0-9]", name):
        return _refusal(found, f"{allowed}; one number, then one unit")
    spellings = tuple(word for word, short in _SPELLINGS.items() if short in names)
    return _refusal(found, allowed, nearest_name(unit[:_LONGEST_TEXT], (*spellings, *names)))


def _wanted(dimensions: tuple[Dimension, ...]) -> str:
    return _IN_WORDS[dimensions[0]] if len(dimensions) == 1 else _LOAD_IN_WORDS


# ---------------------------------------------------------------- number to text


def express(value: float, unit: str, dimension: Dimension) -> float:
    """Return an internal number in the given unit, unrounded.

    Parameters
    ----------
    value : float
        Number in the internal unit of the dimension [internal unit]
    unit : str
        Name of the unit wanted [-]
    dimension : Dimension
        What the number measures [-]

    Returns
    -------
    number : float
        The same size in ``unit`` [unit]

    Raises
    ------
    QuantityError
        If the unit is not one of those allowed for the dimension.

    Notes
    -----
    Source: see :func:`factor`.
    """
    return value / factor(unit, dimension)


def quantity(value: float, dimension: Dimension) -> pint.Quantity[float]:
    """Return an internal number as a pint quantity, in the internal unit.

    Parameters
    ----------
    value : float
        Number in the internal unit of the dimension [internal unit]
    dimension : Dimension
        What the number measures [-]

    Returns
    -------
    quantity : pint.Quantity
        Of a registry that knows the units of this package only [internal unit]

    Notes
    -----
    Source: see :func:`factor`.
    """
    made: pint.Quantity[float] = _registry().Quantity(
        float(value), _pint_name(_ALLOWED[dimension][0])
    )
    return made


# (upper bound in the unit, unit, decimals): the first row whose bound exceeds the number.
_Rows = tuple[tuple[float, str, int], ...]


def _three_figures(unit: str) -> _Rows:
    return (*((10.0 ** (k + 1), unit, 2 - k) for k in range(11)), (math.inf, unit, -9))


def _tenths_below_ten(unit: str) -> _Rows:
    return ((10, unit, 1), (math.inf, unit, 0))


_PEOPLE: Final[dict[tuple[Dimension, UnitSystem], _Rows]] = {
    ("length", "metric"): ((100, "mm", 1), (math.inf, "mm", 0)),
    ("length", "inch"): ((10, "in", 2), (math.inf, "in", 1)),
    ("area", "metric"): ((1e5, "mm2", 0), (math.inf, "m2", 2)),
    ("area", "inch"): ((144, "in2", 1), (math.inf, "ft2", 1)),
    ("mass", "metric"): _tenths_below_ten("kg"),
    ("mass", "inch"): _tenths_below_ten("lb"),
    ("force", "metric"): ((10, "N", 1), (1000, "N", 0), *_three_figures("kN")),
    ("force", "inch"): _tenths_below_ten("lbf"),
    ("line load", "metric"): ((10, "N/m", 1), (1000, "N/m", 0), *_three_figures("kN/m")),
    ("line load", "inch"): _tenths_below_ten("lbf/ft"),
    ("area load", "metric"): ((1, "kN/m2", 3), *_three_figures("kN/m2")),
    ("area load", "inch"): _tenths_below_ten("psf"),
    ("volume load", "metric"): _three_figures("kN/m3"),
    ("volume load", "inch"): _tenths_below_ten("lbf/ft3"),
    ("stress", "metric"): _three_figures("MPa"),
    ("stress", "inch"): _three_figures("psi"),
    ("density", "metric"): _tenths_below_ten("kg/m3"),
    ("density", "inch"): ((math.inf, "lb/ft3", 1),),
    ("stiffness", "metric"): _three_figures("N/mm"),
    ("stiffness", "inch"): _three_figures("lbf/in"),
    ("line stiffness", "metric"): _three_figures("N/mm2"),
    ("line stiffness", "inch"): _three_figures("lbf/in2"),
    ("moment", "metric"): _three_figures("N m"),
    ("moment", "inch"): _three_figures("lbf ft"),
    ("rotational stiffness", "metric"): _three_figures("N m/rad"),
    ("rotational stiffness", "inch"): _three_figures("lbf ft/rad"),
    ("angle", "metric"): ((math.inf, "deg", 1),),
    ("angle", "inch"): ((math.inf, "deg", 1),),
}
_PEOPLE_AS_MASS: Final[dict[tuple[Dimension, UnitSystem], _Rows]] = {
    ("force", "metric"): _tenths_below_ten("kg"),
    ("force", "inch"): _tenths_below_ten("lb"),
    ("line load", "metric"): _tenths_below_ten("kg/m"),
    ("line load", "inch"): _tenths_below_ten("lb/ft"),
    ("area load", "metric"): _tenths_below_ten("kg/m2"),
    ("area load", "inch"): _tenths_below_ten("lb/ft2"),
    ("volume load", "metric"): _tenths_below_ten("kg/m3"),
    ("volume load", "inch"): _tenths_below_ten("lb/ft3"),
}
NO_FIGURE: Final = "no figure"


def shown_value(
    value: float,
    dimension: Dimension,
    system: UnitSystem = "metric",
    as_mass: bool = False,
) -> tuple[float, str]:
    """Return a number rounded for people, and the name of its unit.

    Parameters
    ----------
    value : float
        Number in the internal unit of the dimension [internal unit]
    dimension : Dimension
        What the number measures [-]
    system : {"metric", "inch"}
        Which units to show [-]
    as_mass : bool
        Show a load as the mass that weighs as much [-]

    Returns
    -------
    number : float
        Rounded; nan where ``value`` is not finite or beyond all sense (over 1e18) [unit]
    unit : str
        Name of the unit, one that :func:`read` accepts [-]

    Notes
    -----
    Source: own rounding, about three figures and never finer than can be measured.
    """
    number, unit, decimals = _in_people_units(value, dimension, system, as_mass=as_mass)
    if unit == "in" and (numerator := _thirty_seconds(number)) is not None:
        return numerator / 32, unit
    return (_rounded(number, decimals) if math.isfinite(number) else math.nan), unit


def show(
    value: float,
    dimension: Dimension,
    system: UnitSystem = "metric",
    *,
    digits: int | None = None,
    as_mass: bool = False,
) -> str:
    """Write a number with its unit, rounded for people.

    Parameters
    ----------
    value : float
        Number in the internal unit of the dimension [internal unit]
    dimension : Dimension
        What the number measures [-]
    system : {"metric", "inch"}
        Which units to show [-]
    digits : int, optional
        Decimals to print, zeros included; by default as many as make sense [-]
    as_mass : bool
        Show a load as the mass that weighs as much [-]

    Returns
    -------
    text : str
        Number and unit, or :data:`NO_FIGURE` where the number is not finite or over 1e18 [-]

    Notes
    -----
    Source: own rounding. An inch length that is a whole number of 1/32 in, as typed lengths
    are and computed ones are not, is written as a workshop fraction.
    """
    number, unit, decimals = _in_people_units(value, dimension, system, as_mass=as_mass)
    if not math.isfinite(number):
        return NO_FIGURE
    if digits is None:
        if unit == "in" and (numerator := _thirty_seconds(number)) is not None:
            return f"{_workshop_fraction(numerator)} in"
        text = f"{_rounded(number, decimals):.{max(decimals, 0)}f}"
        return f"{text.rstrip('0').rstrip('.') if '.' in text else text} {unit}"
    return f"{_rounded(number, digits):.{max(digits, 0)}f} {unit}"


def _in_people_units(
    value: float, dimension: Dimension, system: UnitSystem, *, as_mass: bool
) -> tuple[float, str, int]:
    table = _PEOPLE_AS_MASS if as_mass and dimension in _LOADS else _PEOPLE
    if not abs(value) <= _LARGEST_SHOWN:
        value = math.nan
    *finer, (_, coarsest, fewest) = table[dimension, system]
    for bound, unit, decimals in finer:
        number = express(value, unit, dimension)
        if abs(number) < bound:
            return number, unit, decimals
    return express(value, coarsest, dimension), coarsest, fewest


def _rounded(number: float, decimals: int) -> float:
    # Nudged so that a tie rounds the same whether it came from mm or from inches; + 0.0
    # turns -0.0 into 0.0.
    return round(number + 1e-12 * number, decimals) + 0.0


def _thirty_seconds(inches: float) -> int | None:
    """Return a length in whole thirty-seconds of an inch, None if it is not one."""
    number = inches * 32
    return round(number) if math.isfinite(number) and abs(number - round(number)) < 1e-6 else None


def _workshop_fraction(numerator: int) -> str:
    whole, over = divmod(abs(numerator), 32)
    common = math.gcd(over, 32)
    fraction = f"{over // common}/{32 // common}" if over else ""
    sign = "-" if numerator < 0 else ""
    return sign + (" ".join(filter(None, (str(whole) if whole else "", fraction))) or "0")
