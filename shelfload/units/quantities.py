"""Quantities of pint, going out and coming in; pint is loaded when the first one is."""

from __future__ import annotations

import re
from functools import cache
from numbers import Real
from typing import TYPE_CHECKING, Any, Final

from shelfload.units.factors import FACTORS, INTERNAL, Dimension
from shelfload.units.names import LOADS
from shelfload.units.number import bounded, refusal

if TYPE_CHECKING:
    import pint

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
    Source: see :func:`shelfload.units.factor`.
    """
    made: pint.Quantity[float] = registry().Quantity(float(value), pint_name(INTERNAL[dimension]))
    return made


def read_quantity(
    value: Any,
    wanted: tuple[Dimension, ...],
    in_words: str,
) -> tuple[Dimension, float]:
    """Return which of the dimensions a quantity of any registry has, and its number."""
    if not hasattr(value, "magnitude") or not hasattr(value, "dimensionality"):
        unit_missing = isinstance(value, Real) and not isinstance(value, bool)
        hint = "; a number without a unit can't be used" if unit_missing else ""
        raise refusal(value, in_words + hint)
    import pint

    if isinstance(value.magnitude, Real) and not value.unitless:
        for dimension in wanted:
            internal = INTERNAL[dimension]
            targets = {pint_name(internal): 1.0}
            if dimension in LOADS:
                targets[pint_name(internal.replace("N", "kg"))] = float(FACTORS["force"]["kg"])
            for target, scale in targets.items():
                try:
                    number = float(value.to(target).magnitude) * scale
                except pint.errors.PintError:
                    continue
                if number < 0:
                    raise refusal(value, f"{in_words}, not negative")
                return dimension, bounded(number, value)
    raise refusal(value, in_words)


@cache
def registry(number_type: type = float) -> pint.UnitRegistry[Any]:
    """Return a registry that knows the units of this package only.

    One of fractions is exact, for comparing factors; pint can't print its quantities.
    """
    import pint

    registry: pint.UnitRegistry[Any] = pint.UnitRegistry(None, non_int_type=number_type)
    for line in _DEFINITIONS.strip().splitlines():
        registry.define(line)
    return registry


def pint_name(unit: str) -> str:
    """Write an allowed unit as pint reads it."""
    return re.sub(r"(?<=[a-z])([23])", r"**\1", unit).replace(" ", "*")
