"""From a material's name and a thickness to the row that bends, and its real thickness."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import isfinite
from typing import Any

from shelfload.errors import QuantityError, UnknownName
from shelfload.tables.columns import folded
from shelfload.tables.stock import Material, aliases, families, materials
from shelfload.units import show, show_size
from shelfload.wording import size

# A sheet called 18 mm measures 17.6 mm; anything nearer than this is the same sheet.
SAME_SHEET = 0.3

# 1/8 to 1 1/8 in, in the sizes panels are sold by in North America [mm].
_A_32ND = 25.4 / 32.0
INCH_SHEETS = (3.175, 6.35, 9.525, 12.7, 15.875, 19.05, 25.4, 28.575)

_LOWER = (
    "density_k",
    "E_0",
    "E_90",
    "E_005",
    "G_0",
    "G_90",
    "G_panel",
    "f_m_0",
    "f_m_90",
    "f_t_0",
    "f_c_0",
    "f_c_90",
    "f_v",
    "f_r_0",
    "f_r_90",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Resolved:
    """A material as it is used.

    Attributes
    ----------
    material : Material
        Row, or the lower values of two neighbouring rows
    thickness : float
        Thickness that bends [mm]
    said : str
        What was decided, in words for the report; empty where nothing was
    """

    material: Material
    thickness: float
    said: str


def material(name: str, thickness: float | None = None, own: Sequence[Material] = ()) -> Resolved:
    """Find the row a name and a thickness mean, and say what was assumed.

    Parameters
    ----------
    name : str
        Row, family or everyday name
    thickness : float or None
        Thickness as typed; None where the name alone tells it [mm]
    own : sequence of Material
        The user's own rows, which come before the bundled ones of the same name

    Returns
    -------
    Resolved
        Row, actual thickness [mm], and the words for the report's assumptions

    Raises
    ------
    UnknownName
        No material, family or everyday name is like this
    QuantityError
        The thickness is missing, or none of that name is sold so thick; says what is
    """
    if thickness is not None and thickness <= 0:
        raise QuantityError(f"{thickness:g} mm", "a thickness above 0")
    key = folded(name)
    rows, said = _rows_called(key, own), ""
    if not rows:
        meant = aliases().get(key)
        if meant is None:
            owned = [row.name for row in own]
            raise UnknownName("material", name, [*owned, *families(), *materials(), *aliases()])
        key, said = meant, f"{name} is taken as {meant}"
        rows = _rows_called(meant, own)
    found = _sized(key, rows, thickness)
    return replace(found, said="; ".join(part for part in (said, found.said) if part))


def _rows_called(key: str, own: Sequence[Material]) -> tuple[Material, ...]:
    """Rows of that name or family, the user's before the bundled."""
    mine = tuple(row for row in own if key in (folded(row.name), folded(row.family)))
    if mine:
        return mine
    if key in families():
        return families()[key]
    return (materials()[key],) if key in materials() else ()


def _sized(key: str, rows: Sequence[Material], thickness: float | None) -> Resolved:
    if thickness is None:
        return _untyped(key, rows)
    if rows[0].kind == "plywood" and _is_inch_sheet(thickness):
        return _inch_plywood(key, rows, thickness)
    sheets = [row for row in rows if row.thickness_actual is not None]
    if not sheets:
        return _banded(key, rows, thickness)
    return (
        _by_name(sheets, thickness)
        or _by_measure(sheets, thickness)
        or _near_name(sheets, thickness)
        or _between(key, sheets, thickness)
    )


def _inch_plywood(key: str, rows: Sequence[Material], thickness: float) -> Resolved:
    """Plywood called by inches is commonly 1/32 in thinner: what is called 3/4 is 23/32."""
    thinner = thickness - _A_32ND
    sheets = [row for row in rows if row.thickness_actual is not None]
    thinnest = min(sheets, key=_measure, default=None)
    if thinnest is None:
        found = _banded(key, rows, thinner)
    elif thinner < _measure(thinnest) <= thickness:
        found = Resolved(material=thinnest, thickness=thinner, said="")
    else:
        found = _by_measure(sheets, thinner) or _between(key, sheets, thinner)
    said = (
        f"plywood called {_mm(thickness)} is commonly {_mm(_A_32ND)} thinner: "
        f"{_mm(thinner)} is used; measure yours, and give that in decimals"
    )
    return replace(found, said="; ".join(part for part in (said, found.said) if part))


def _untyped(key: str, rows: Sequence[Material]) -> Resolved:
    if len(rows) == 1 and rows[0].thickness_actual is not None:
        return Resolved(
            material=rows[0], thickness=rows[0].thickness_actual, said=_nominal(rows[0])
        )
    raise QuantityError(f"{key} without a thickness", sold(rows))


def _banded(key: str, rows: Sequence[Material], thickness: float) -> Resolved:
    for row in rows:
        if (row.thickness_over or 0.0) < thickness <= (row.thickness_to or float("inf")):
            return Resolved(material=row, thickness=thickness, said="")
    raise QuantityError(f"{key} of {_typed(thickness)}", sold(rows))


def _by_name(sheets: Sequence[Material], thickness: float) -> Resolved | None:
    """Sheet whose nominal thickness was typed; inch sizes are another system of names."""
    row = _nearest_called(sheets, thickness)
    if _is_inch_sheet(thickness) or abs(_called(row) - thickness) > 0.05:
        return None
    return Resolved(material=row, thickness=_measure(row), said=_nominal(row))


def _near_name(sheets: Sequence[Material], thickness: float) -> Resolved | None:
    """Sheet called nearly so: the thinner of what it measures and what was typed."""
    row = _nearest_called(sheets, thickness)
    if _is_inch_sheet(thickness) or abs(_called(row) - thickness) > SAME_SHEET:
        return None
    thinner = min(thickness, _measure(row))
    said = f"{_mm(thickness)} is taken as {row.called}, and {_mm(thinner)} is used"
    return Resolved(material=row, thickness=thinner, said=said)


def _nearest_called(sheets: Sequence[Material], thickness: float) -> Material:
    return min(sheets, key=lambda sheet: abs(_called(sheet) - thickness))


def _by_measure(sheets: Sequence[Material], thickness: float) -> Resolved | None:
    """Sheet that measures what was typed."""
    row = min(sheets, key=lambda sheet: abs(_measure(sheet) - thickness))
    if abs(_measure(row) - thickness) > SAME_SHEET:
        return None
    said = f"{_mm(thickness)} is taken as {row.called} (measures {_mm(_measure(row))})"
    return Resolved(material=row, thickness=thickness, said=said)


def _between(key: str, sheets: Sequence[Material], thickness: float) -> Resolved:
    """Lower values of the two neighbours, with the thickness as typed."""
    thinner = [row for row in sheets if _measure(row) < thickness]
    thicker = [row for row in sheets if _measure(row) > thickness]
    if not thinner or not thicker:
        raise QuantityError(f"{key} of {_typed(thickness)}", sold(sheets))
    below, above = max(thinner, key=_measure), min(thicker, key=_measure)
    lower: dict[str, Any] = {
        field: _lower(getattr(below, field), getattr(above, field)) for field in _LOWER
    }
    row = replace(
        below,
        name=key,
        title=below.title.rpartition(",")[0] or key,  # its thickness is said beside it
        thickness_nominal=None,
        thickness_actual=thickness,
        density=max(below.density, above.density),
        **lower,
    )
    said = (
        f"no {key} of {_mm(thickness)} is tabled: the lower values of {below.name} and "
        f"{above.name} are used with {_mm(thickness)}"
    )
    return Resolved(material=row, thickness=thickness, said=said)


def _lower(first: float | None, second: float | None) -> float | None:
    return None if first is None or second is None else min(first, second)


def _mm(thickness: float) -> str:
    return size(thickness)


def _typed(thickness: float) -> str:
    """A thickness as either system has it, for a message that knows no reader."""
    if not isfinite(thickness):
        return f"{thickness:g} mm"
    metric, inch = show(thickness, "length"), show_size(thickness, "inch")
    # a metric sheet needs no inches beside it
    return metric if float(metric.split()[0]) == thickness else f"{metric} ({inch})"


def _called(row: Material) -> float:
    return row.thickness_nominal or _measure(row)


def _measure(row: Material) -> float:
    if row.thickness_actual is None:
        raise ValueError(f"{row.name} has no thickness of its own")
    return row.thickness_actual


def _nominal(row: Material) -> str:
    if _called(row) == _measure(row):
        return ""
    return f"{_mm(_called(row))} nominal is {_mm(_measure(row))} actual"


def _is_inch_sheet(thickness: float) -> bool:
    return any(abs(thickness - size) < 0.05 for size in INCH_SHEETS)


def sold(rows: Sequence[Material]) -> str:
    """Return the thicknesses of a family or row in words."""
    parts = []
    for row in rows:
        if row.thickness_actual is not None:
            parts.append(f"{_called(row):g} mm")
        elif row.thickness_to is None:
            parts.append("any thickness")
        else:
            parts.append(f"over {row.thickness_over or 0:g} to {row.thickness_to:g} mm")
    return f"a thickness; tabled: {', '.join(parts)}"
