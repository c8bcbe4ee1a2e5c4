"""Text <-> quantity <-> number in N, mm, MPa, kg, rad; the only importer of pint.

The number in a text is read by a small strict grammar; the name of its unit has to be in a
list of allowed names. Text is turned into numbers and back with a table of exact factors,
because loading pint takes longer (over a tenth of a second) than reading a description. pint
stays the authority: a test compares every row of the table with it. pint itself is loaded
only for a quantity: one that is made here (:func:`quantity`) or one that is passed in.
"""

from __future__ import annotations

from shelfload.units.factors import Dimension
from shelfload.units.names import LoadKind, factor
from shelfload.units.number import read_number
from shelfload.units.quantities import quantity
from shelfload.units.reading import Load, read, read_lengths, read_load, read_screw_diameter
from shelfload.units.showing import NO_FIGURE, UnitSystem, express, show, show_size, shown_value

__all__ = [
    "NO_FIGURE",
    "Dimension",
    "Load",
    "LoadKind",
    "UnitSystem",
    "express",
    "factor",
    "quantity",
    "read",
    "read_lengths",
    "read_load",
    "read_number",
    "read_screw_diameter",
    "show",
    "show_size",
    "shown_value",
]
