"""Which names of units are understood, in which spellings, and what they stand for."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Final, Literal

from shelfload.errors import QuantityError, in_a_row, nearest_name
from shelfload.units.factors import FACTORS, Dimension
from shelfload.units.number import LONGEST_TEXT, LOOKALIKES, refusal

LoadKind = Literal["total", "line", "area", "volume"]

IN_WORDS: Final[dict[Dimension, str]] = {
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
LOADS: Final[dict[Dimension, LoadKind]] = {
    "force": "total",
    "line load": "line",
    "area load": "area",
    "volume load": "volume",
}

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
_KNOWN_UNITS: Final = tuple(dict.fromkeys(unit for units in FACTORS.values() for unit in units))
_KNOWN_WORDS: Final = (
    *dict.fromkeys(word.rstrip("23") for unit in _KNOWN_UNITS for word in re.split("[ /]", unit)),
    *_SPELLINGS,
)
# what is meant by a unit of another kind, or by one that only looks like a known one
_MEANT: Final = {"psi": ("psf",), "psf": ("psi",), "stone": ("lb", "kg")}
_FOLDED_WORDS: Final = {word.casefold(): word for word in reversed(_KNOWN_WORDS)}


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
    name = unit_name(unit)
    if name not in FACTORS[dimension]:
        raise unit_refusal(unit, unit, (dimension,))
    return float(FACTORS[dimension][name])


@lru_cache(maxsize=1024)
def unit_name(typed: str) -> str:
    """Bring the spellings of a unit to one: ``lbs. per sq. ft`` is ``lb/ft2``."""
    if typed in _KNOWN_UNITS:
        return typed
    text = typed.translate(LOOKALIKES).replace("²", "2").replace("³", "3")
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


def unit_refusal(unit: str, found: str, wanted: tuple[Dimension, ...]) -> QuantityError:
    """Return the error for a unit that none of the dimensions wanted has."""
    names = tuple(dict.fromkeys(name for kind in wanted for name in FACTORS[kind]))
    allowed = wanted_in_words(wanted)
    if len(wanted) == 1:
        allowed += f", in {', '.join(names)}"
    name = unit_name(unit)
    for dimension, units in FACTORS.items():
        if name in units:
            kind = IN_WORDS[dimension].partition(" such as")[0]
            return refusal(found, f"{allowed}; this is {kind}", _meant(name, names))
    if re.search(r"(?<![^\W\d])[0-9]", name):
        return refusal(found, f"{allowed}; one number, then one unit")
    return refusal(found, allowed, _near(unit[:LONGEST_TEXT], name, names))


def _near(typed: str, name: str, names: tuple[str, ...]) -> str:
    """Return what an unknown unit may have meant; "lb/m" and "kg/ft" mix two systems."""
    over, slash, under = name.partition("/")
    if slash and under.rstrip("23") in _KNOWN_WORDS:
        for unit in names:
            if unit.startswith(f"{over}/") and _power(unit) == _power(under):
                return unit
    if name in _MEANT:
        return _meant(name, names)
    spellings = tuple(word for word, short in _SPELLINGS.items() if short in names)
    return nearest_name(typed, (*names, *spellings))


def _meant(name: str, names: tuple[str, ...]) -> str:
    return in_a_row([unit for unit in _MEANT.get(name, ()) if unit in names])


def _power(unit: str) -> str:
    return unit[-1] if unit[-1] in "23" else ""


def wanted_in_words(dimensions: tuple[Dimension, ...]) -> str:
    """Return what is wanted with an example, as a message says it."""
    return IN_WORDS[dimensions[0]] if len(dimensions) == 1 else _LOAD_IN_WORDS
