"""Number to text, rounded for people."""

from __future__ import annotations

import math
from typing import Final, Literal

from shelfload.units.factors import Dimension
from shelfload.units.names import LOADS, factor

UnitSystem = Literal["metric", "inch"]

_LARGEST_SHOWN: Final = 1e18  # beyond this a number is a solver's failure, not a figure

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
    ("stress", "inch"): (
        *((10.0 ** (k + 1), "psi", 2 - k) for k in range(5)),
        *_three_figures("ksi"),
    ),
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


def shown_value(
    value: float,
    dimension: Dimension,
    system: UnitSystem = "metric",
    as_mass: bool = False,
    *,
    down: bool = False,
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
    down : bool
        Round towards zero, as what something can carry must be [-]

    Returns
    -------
    number : float
        Rounded; nan where ``value`` is not finite or beyond all sense (over 1e18) [unit]
    unit : str
        Name of the unit, one that :func:`read` accepts [-]

    Notes
    -----
    Source: own rounding, about three figures and never finer than can be measured. Rounding
    down overlooks a part in 10^12, so that 24 kg computed with round-off is still 24 kg.
    """
    number, unit, decimals = in_people_units(value, dimension, system, as_mass=as_mass)
    if unit == "in" and (numerator := _thirty_seconds(number)):
        return numerator / 32, unit
    return (_rounded(number, decimals, down=down) if math.isfinite(number) else math.nan), unit


def show(
    value: float,
    dimension: Dimension,
    system: UnitSystem = "metric",
    *,
    digits: int | None = None,
    as_mass: bool = False,
    down: bool = False,
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
    down : bool
        Round towards zero, as what something can carry must be [-]

    Returns
    -------
    text : str
        Number and unit; "under" the smallest step, as in "under 0.1 mm", for a number of
        either sign that is not zero but rounds to it; :data:`NO_FIGURE` where the number is
        not finite or over 1e18 [-]

    Notes
    -----
    Source: own rounding, see :func:`shown_value`. An inch length that is a whole number of
    1/32 in, as typed lengths are and computed ones are not, is written as a workshop fraction.
    """
    number, unit, decimals = in_people_units(value, dimension, system, as_mass=as_mass)
    if not math.isfinite(number):
        return NO_FIGURE
    if digits is not None:
        decimals = digits
    elif unit == "in" and (numerator := _thirty_seconds(number)):
        return f"{_workshop_fraction(numerator)} in"
    rounded = _rounded(number, decimals, down=down)
    if rounded == 0 != value:
        return f"under {10.0**-decimals:.{max(decimals, 0)}f} {unit}"
    text = f"{rounded:.{max(decimals, 0)}f}"
    if digits is None and "." in text:
        text = text.rstrip("0").rstrip(".")
    return f"{text} {unit}"


def show_size(
    value: float, system: UnitSystem = "metric", *, down: bool = False, up: bool = False
) -> str:
    """Write the size of a thing as a shop or a rule has it: in inches, as a fraction.

    Parameters
    ----------
    value : float
        Thickness, length, spacing or the like; never a sag or a limit [mm]
    system : {"metric", "inch"}
        Which units to show [-]
    down, up : bool
        Round a largest spacing down, a least distance up [-]

    Returns
    -------
    text : str
        Number and unit, as :func:`show` where metric; :data:`NO_FIGURE` as there [-]

    Notes
    -----
    Source: own rounding. Typed fractions stay as they are; else 1/64 in below half an inch, as
    drills and thin boards go, 1/32 in above, and 1/16 in where the way of rounding is asked for.
    """
    if system == "metric" or not abs(value) <= _LARGEST_SHOWN:
        return show(value, "length", system, down=down)
    inches = express(value, "in", "length")
    if (numerator := _thirty_seconds(inches)) is not None and (numerator or not value):
        return f"{_workshop_fraction(numerator)} in" if numerator else "0 in"
    parts = 64 if abs(inches) < 0.5 else 16 if down or up else 32
    whole = math.floor(inches * parts) if down else math.ceil(inches * parts)
    if not down and not up:
        whole = round(inches * parts)
    return f"{_workshop_fraction(whole, parts)} in" if whole else f"under 1/{parts} in"


def in_people_units(
    value: float, dimension: Dimension, system: UnitSystem, *, as_mass: bool
) -> tuple[float, str, int]:
    """Return a number in the unit that suits its size, that unit, and the decimals to show."""
    table = _PEOPLE_AS_MASS if as_mass and dimension in LOADS else _PEOPLE
    if not abs(value) <= _LARGEST_SHOWN:
        value = math.nan
    *finer, (_, coarsest, fewest) = table[dimension, system]
    for bound, unit, decimals in finer:
        number = express(value, unit, dimension)
        if abs(number) < bound:
            return number, unit, decimals
    return express(value, coarsest, dimension), coarsest, fewest


def _rounded(number: float, decimals: int, *, down: bool) -> float:
    # Nudged so that a tie, or a whole step, rounds the same whether it came from mm or from
    # inches; + 0.0 turns -0.0 into 0.0.
    nudged = number + 1e-12 * number
    rounded = round(nudged, decimals)
    if down and abs(rounded) > abs(nudged):
        rounded = round(rounded - math.copysign(10.0**-decimals, number), decimals)
    return rounded + 0.0


def _thirty_seconds(inches: float) -> int | None:
    """Return a length in whole thirty-seconds of an inch, None if it is not so many."""
    number = inches * 32
    return round(number) if math.isfinite(number) and abs(number - round(number)) < 1e-6 else None


def _workshop_fraction(numerator: int, parts: int = 32) -> str:
    whole, over = divmod(abs(numerator), parts)
    common = math.gcd(over, parts)
    fraction = f"{over // common}/{parts // common}" if over else ""
    sign = "-" if numerator < 0 else ""
    return sign + " ".join(filter(None, (str(whole) if whole else "", fraction)))
