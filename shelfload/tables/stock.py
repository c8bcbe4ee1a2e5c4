"""Materials: what a board weighs, how stiff and how strong it is, and who says so."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any

from shelfload.errors import TableError
from shelfload.tables.columns import NAME, SOURCED, Column, Named, folded, number, text
from shelfload.tables.reader import bundled, rows_of, user_text

KINDS = (
    "solid",
    "glulam",
    "plywood",
    "mdf",
    "hardboard",
    "particleboard",
    "osb",
    "bamboo",
    "blockboard",
    "steel",
    "aluminium",
    "glass",
    "acrylic",
)
E_BASES = ("apparent", "true", "product minimum")
STRENGTH_BASES = (
    "characteristic",
    "clear-wood mean",
    "product minimum",
    "minimum yield",
    "estimate",
    "datasheet",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """One row of the materials tables; None means unknown, so not checked.

    "Along" and "across" mean the grain of solid wood and the face grain of a panel.

    Attributes
    ----------
    name, title : str
        Name as typed in a description, and the words a report uses
    family : str
        Name under which several thicknesses are sold together; empty for none
    kind : str
        One of ``KINDS``
    aliases : tuple of str
        Everyday names; they mean the whole family where there is one
    thickness_nominal, thickness_actual : float or None
        What a sheet is called, and what it measures and bends as [mm]
    thickness_over, thickness_to : float or None
        Band of thicknesses the row is valid for: over < t <= to [mm]
    density, density_k : float, float or None
        Mean and characteristic density [kg/m3]
    E_0, E_90 : float, float or None
        Mean modulus of elasticity in flatwise bending along and across [MPa]
    E_basis : str
        ``apparent`` (shear sag already in it), ``true`` or ``product minimum``
    E_005 : float or None
        5th percentile of E_0 [MPa]
    G_0, G_90 : float or None
        Shear modulus for flatwise bending along and across, planar or rolling shear
        where the plies or chips shear so [MPa]
    G_panel : float or None
        Shear modulus in the plane of the panel: racking, edgewise bending [MPa]
    f_m_0, f_m_90 : float or None
        Flatwise bending strength along and across, on the full section [MPa]
    f_t_0, f_c_0 : float or None
        Tension and compression strength along [MPa]
    f_c_90 : float or None
        Bearing strength across the face [MPa]
    f_v : float or None
        Panel shear strength, through the thickness; of solid wood, along the grain [MPa]
    f_r_0, f_r_90 : float or None
        Shear strength in flatwise bending along and across: planar (rolling) shear of a
        panel; along solid wood the same as f_v [MPa]
    strength_basis : str
        One of ``STRENGTH_BASES``
    cov_E, cov_f : float or None
        Coefficient of variation of E and of bending strength [-]
    duration_class : str
        Row of the creep and load-duration tables
    duration_borrowed : bool
        True where the board has no such row of its own
    gamma_M_class : str
        Row of the partial-factor table
    estimate : bool
        True where values that carry a verdict are estimates
    status, source, note : str
        Who says so
    """

    name: str
    title: str
    kind: str
    density: float
    E_0: float
    status: str
    source: str
    family: str = ""
    aliases: tuple[str, ...] = ()
    thickness_nominal: float | None = None
    thickness_actual: float | None = None
    thickness_over: float | None = None
    thickness_to: float | None = None
    density_k: float | None = None
    E_90: float | None = None
    E_basis: str = "true"
    E_005: float | None = None
    G_0: float | None = None
    G_90: float | None = None
    G_panel: float | None = None
    f_m_0: float | None = None
    f_m_90: float | None = None
    f_t_0: float | None = None
    f_c_0: float | None = None
    f_c_90: float | None = None
    f_v: float | None = None
    f_r_0: float | None = None
    f_r_90: float | None = None
    strength_basis: str = "estimate"
    cov_E: float | None = None
    cov_f: float | None = None
    duration_class: str = ""
    duration_borrowed: bool = False
    gamma_M_class: str = ""
    estimate: bool = False
    note: str = ""

    @property
    def called(self) -> str:
        """The title without the thickness of its sheet, which a report gives in its own units."""
        sized = self.thickness_nominal is not None or self.thickness_over is not None
        return self.title.rpartition(",")[0] or self.title if sized else self.title


_STIFFNESS = number("stress", low=1.0, high=1e6)
_STRENGTH = number("stress", low=0.05, high=1000.0)
_THICKNESS = number("length", low=0.1, high=1000.0)
_COV = number(low=0.005, high=1.0)

COLUMNS: Mapping[str, Column] = {
    "name": NAME,
    "title": text(required=True),
    "family": text(),
    "aliases": Column(holds="words"),
    "kind": text(*KINDS, required=True),
    "thickness_nominal": _THICKNESS,
    "thickness_actual": _THICKNESS,
    "thickness_over": _THICKNESS,
    "thickness_to": _THICKNESS,
    "density": number("density", required=True, low=50.0, high=20000.0),
    "density_k": number("density", low=50.0, high=20000.0),
    "E_0": number("stress", required=True, low=1.0, high=1e6),
    "E_90": _STIFFNESS,
    "E_basis": text(*E_BASES, required=True),
    "E_005": _STIFFNESS,
    "G_0": _STIFFNESS,
    "G_90": _STIFFNESS,
    "G_panel": _STIFFNESS,
    **dict.fromkeys(
        ("f_m_0", "f_m_90", "f_t_0", "f_c_0", "f_c_90", "f_v", "f_r_0", "f_r_90"), _STRENGTH
    ),
    "strength_basis": text(*STRENGTH_BASES, required=True),
    "cov_E": _COV,
    "cov_f": _COV,
    "duration_class": text(required=True),
    "duration_borrowed": Column(holds="flag"),
    "gamma_M_class": text(required=True),
    "estimate": Column(holds="flag"),
    **SOURCED,
}

FILES = (
    "materials_wood.csv",
    "materials_plywood.csv",
    "materials_boards.csv",
    "materials_other.csv",
)

# What a user's own row is given where it says only E_0, density and thickness: the
# creep and partial factor of its kind, of chipboard (the worst common sheet) for none.
_BY_KIND: Mapping[str, tuple[str, str]] = {
    "solid": ("solid timber", "solid timber"),
    "glulam": ("glulam", "glulam"),
    "plywood": ("plywood", "plywood"),
    "mdf": ("MDF.LA", "fibreboard"),
    "hardboard": ("hardboard HB.LA", "fibreboard"),
    "particleboard": ("particleboard P5", "particleboard"),
    "osb": ("OSB/2", "OSB"),
    "bamboo": ("solid timber", "solid timber"),
    "blockboard": ("plywood", "plywood"),
    "steel": ("steel", "steel"),
    "aluminium": ("aluminium", "aluminium"),
    "glass": ("float glass", "glass"),
    "acrylic": ("acrylic", "acrylic"),
}
_MAY_LEAVE_OUT = (
    "title",
    "kind",
    "E_basis",
    "strength_basis",
    "duration_class",
    "gamma_M_class",
)


@cache
def materials() -> Mapping[str, Material]:
    """Return every material by its row name, read once."""
    rows = [row for file in FILES for row in bundled(file, COLUMNS, Material)]
    by_name = {row.name: row for row in rows}
    if len(by_name) != len(rows):
        doubled = Counter(row.name for row in rows).most_common(1)[0][0]
        raise TableError(f"{', '.join(FILES)}: material {doubled!r} stands twice")
    return Named("material", by_name)


@cache
def families() -> Mapping[str, tuple[Material, ...]]:
    """Return the rows of each family, thinnest first."""
    found: dict[str, list[Material]] = {}
    for row in materials().values():
        if row.family:
            found.setdefault(row.family, []).append(row)
    return Named("family", {name: tuple(rows) for name, rows in found.items()})


@cache
def aliases() -> Mapping[str, str]:
    """Return the row or family that each everyday name means."""
    meant: dict[str, str] = {}
    for row in materials().values():
        for alias in map(folded, row.aliases):
            if alias in meant or alias in materials() or alias in families():
                raise TableError(f"material {row.name!r}: alias {alias!r} is taken already")
            meant[alias] = row.family or row.name
    return meant


def materials_from_csv(path: str | Path) -> tuple[Material, ...]:
    """Read a user's own materials: name, E_0, density, a thickness and source are needed.

    Parameters
    ----------
    path : str or Path
        CSV file with the column names of :class:`Material`, each quantity with its
        unit; ``thickness`` stands for ``thickness_actual``

    Returns
    -------
    tuple of Material
        In the order of the file

    Raises
    ------
    TableError
        With file, line and column
    """
    columns = {
        name: replace(column, required=False) if name in _MAY_LEAVE_OUT else column
        for name, column in {**COLUMNS, "thickness": _THICKNESS}.items()
    }
    return rows_of(user_text(path), str(path), {**columns, "status": text()}, own_material)


def own_material(*, thickness: float | None = None, **values: Any) -> Material:
    """Make a row of a user's own material out of what is known of it.

    Parameters
    ----------
    thickness : float or None
        Short for ``thickness_actual`` [mm]
    **values
        Fields of :class:`Material`: name, E_0, density and source, the rest optional

    Returns
    -------
    Material
        With the creep and partial factor of its kind, and marked as borrowing them

    Raises
    ------
    ValueError
        No thickness is given
    """
    if thickness is not None:
        values["thickness_actual"] = thickness
    if not any(key in values for key in ("thickness_actual", "thickness_to")):
        raise ValueError(f"{values['name']}: a thickness is needed, as in thickness [mm]")
    duration_class, gamma_M_class = _BY_KIND[values.setdefault("kind", "particleboard")]
    values.setdefault("title", values["name"])
    values.setdefault("status", "as given")
    values.setdefault("duration_borrowed", "duration_class" not in values)
    values.setdefault("duration_class", duration_class)
    values.setdefault("gamma_M_class", gamma_M_class)
    values["name"] = folded(values["name"])
    return Material(**values)
