"""Every unit that is understood, and exactly how many internal units it is.

The factors are multiplied out from a few definitions, as fractions, so that a length typed in
inches and the same in millimetres give the same number. A test compares every row with pint,
so that the table can't drift from it.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Final, Literal

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

# In N, mm, kg, rad. Source: SI brochure, 9th edition; NIST SP 811, appendix B. All are exact but
# the degree, which is pi / 180 to the digits of a float.
_CM, _M, _IN = 10, 1000, Fraction("25.4")
_FT = 12 * _IN
_G, _LB = Fraction(1, 1000), Fraction("0.45359237")
_OZ = _LB / 16
_KGF = Fraction("9.80665")  # standard gravity: the weight of 1 kg
_LBF, _OZF = _LB * _KGF, _OZ * _KGF
_DAN, _KN = 10, 1000
_DEG = Fraction("0.017453292519943295")
_ONE = Fraction(1)

# The internal unit first. A unit may stand under several dimensions; the likeliest comes first.
# Where a force is meant, a mass stands for its weight.
FACTORS: Final[dict[Dimension, dict[str, int | Fraction]]] = {
    "length": {"mm": 1, "cm": _CM, "m": _M, "in": _IN, "ft": _FT, "yd": 3 * _FT},
    "area": {"mm2": 1, "cm2": _CM**2, "m2": _M**2, "in2": _IN**2, "ft2": _FT**2},
    "mass": {"kg": 1, "g": _G, "t": 1000, "lb": _LB, "oz": _OZ},
    "density": {
        "kg/m3": 1,
        "g/cm3": 1000,
        "lb/ft3": _LB * (_M / _FT) ** 3,
        "pcf": _LB * (_M / _FT) ** 3,
    },
    "force": {
        "N": 1,
        "kN": _KN,
        "daN": _DAN,
        "kgf": _KGF,
        "lbf": _LBF,
        "kg": _KGF,
        "g": _G * _KGF,
        "t": 1000 * _KGF,
        "lb": _LBF,
        "oz": _OZF,
    },
    "line load": {
        "N/mm": 1,
        "N/m": _ONE / _M,
        "kN/m": 1,
        "daN/m": _ONE * _DAN / _M,
        "kgf/m": _KGF / _M,
        "lbf/ft": _LBF / _FT,
        "lbf/in": _LBF / _IN,
        "plf": _LBF / _FT,
        "kg/m": _KGF / _M,
        "kg/cm": _KGF / _CM,
        "kg/mm": _KGF,
        "lb/ft": _LBF / _FT,
        "lb/in": _LBF / _IN,
    },
    "stress": {
        "MPa": 1,
        "GPa": 1000,
        "N/mm2": 1,
        "kN/mm2": _KN,
        "kN/cm2": _ONE * _KN / _CM**2,
        "psi": _LBF / _IN**2,
        "ksi": 1000 * _LBF / _IN**2,
        "lb/in2": _LBF / _IN**2,
        "lbf/in2": _LBF / _IN**2,
    },
    "area load": {
        "N/mm2": 1,
        "N/m2": _ONE / _M**2,
        "kN/m2": _ONE * _KN / _M**2,
        "Pa": _ONE / _M**2,
        "kPa": _ONE * _KN / _M**2,
        "daN/m2": _ONE * _DAN / _M**2,
        "kgf/m2": _KGF / _M**2,
        "psf": _LBF / _FT**2,
        "lbf/ft2": _LBF / _FT**2,
        "kg/m2": _KGF / _M**2,
        "t/m2": 1000 * _KGF / _M**2,
        "lb/ft2": _LBF / _FT**2,
    },
    "volume load": {
        "N/mm3": 1,
        "N/m3": _ONE / _M**3,
        "kN/m3": _ONE * _KN / _M**3,
        "lbf/ft3": _LBF / _FT**3,
        "kg/m3": _KGF / _M**3,
        "g/cm3": _G * _KGF / _CM**3,
        "lb/ft3": _LBF / _FT**3,
        "pcf": _LBF / _FT**3,
    },
    "stiffness": {
        "N/mm": 1,
        "N/m": _ONE / _M,
        "kN/m": 1,
        "kN/mm": _KN,
        "lb/in": _LBF / _IN,
        "lbf/in": _LBF / _IN,
        "lb/ft": _LBF / _FT,
        "lbf/ft": _LBF / _FT,
    },
    "line stiffness": {
        "N/mm2": 1,
        "kN/m2": _ONE * _KN / _M**2,
        "MPa": 1,
        "lb/in2": _LBF / _IN**2,
        "lbf/in2": _LBF / _IN**2,
        "psi": _LBF / _IN**2,
    },
    "moment": {
        "N mm": 1,
        "N m": _M,
        "kN m": _KN * _M,
        "kg m": _KGF * _M,
        "lb ft": _LBF * _FT,
        "lb in": _LBF * _IN,
        "lbf ft": _LBF * _FT,
        "lbf in": _LBF * _IN,
    },
    "rotational stiffness": {
        "N mm/rad": 1,
        "N m/rad": _M,
        "kN m/rad": _KN * _M,
        "N mm/deg": 1 / _DEG,
        "N m/deg": _M / _DEG,
        "kN m/deg": _KN * _M / _DEG,
        "lb ft/rad": _LBF * _FT,
        "lb in/rad": _LBF * _IN,
        "lbf ft/rad": _LBF * _FT,
        "lbf in/rad": _LBF * _IN,
    },
    "angle": {"rad": 1, "deg": _DEG},
}
INTERNAL: Final[dict[Dimension, str]] = {kind: next(iter(row)) for kind, row in FACTORS.items()}
