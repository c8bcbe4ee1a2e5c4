"""How stiff must the sheet of a shelf be, and which sheets are?"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil, inf
from typing import Any

from shelfload import tables
from shelfload.advise.search import largest_below
from shelfload.advise.spot import Spot
from shelfload.check.assess import checks_of_shelf
from shelfload.check.result import Check, Verdict
from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import Project
from shelfload.errors import QuantityError, UnknownName
from shelfload.idealise.cut_size import SHEETS
from shelfload.idealise.layup import laid_up
from shelfload.idealise.properties import stiffness
from shelfload.tables import Material

_NAME = "stiffness needed"
_MODULI = ("E_0", "E_90", "E_005", "G_0", "G_90", "G_panel")
_LEAST, _MOST = 1e-3, 1e2
"""Factors on the sheet's own stiffness between which is looked."""
_GROWN = 1.5  # what depends on the stiffness shows at this factor
_STEP = 10.0  # MPa that the figure is rounded up to
_GOOD = (Verdict.PASSES, Verdict.CLOSE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Needed:
    """A sheet just stiff enough: its modulus along the span [MPa], and the shelf made of it."""

    E: float
    like: str
    project: Project
    catalogue: Catalogue


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitting:
    """A sheet or board of the tables that passes: its modulus along the span [MPa]."""

    called: str
    E: float
    sheet: bool


def needed_stiffness(at: Spot, catalogue: Catalogue) -> Needed | None:
    """Return the least stiff sheet with which everything that depends on stiffness passes.

    Its other figures, creep and strength among them, are those of the sheet described; E and
    G go together. What fails at any stiffness is left to the check of what is found. None
    where no stiffness helps.
    """
    resolved = laid_up(at.project, catalogue).material(at.material, at.thickness)
    row = resolved.material
    own = stiffness(row, at.shelf.grain)
    if own is None:
        return None

    def of(factor: float) -> tuple[Project, Catalogue]:
        stiffer = _times(row, factor, resolved.thickness)
        with_it = replace(catalogue, own_materials={**catalogue.own_materials, _NAME: stiffer})
        return at.with_shelf(material=_NAME, thickness=resolved.thickness), with_it

    def checks(factor: float) -> dict[tuple[str, str], Check]:
        project, with_it = of(factor)
        found = checks_of_shelf(project, with_it, at.place)
        return {(check.place.bay, check.question): check for check in found}

    now, stiffer = checks(1.0), checks(_GROWN)
    asked = {key for key, check in now.items() if _depends(check, stiffer.get(key))}

    def demand(softness: float) -> float:
        found = checks(1.0 / softness)
        # a question that comes or goes with the stiffness depends on it
        wanted = [check for key, check in found.items() if key in asked or key not in now]
        if any(check.verdict is Verdict.NOT_CHECKED for check in wanted):
            return inf
        return max((check.ratio for check in wanted), default=inf)

    softest = largest_below(demand, 1.0 / _MOST, 1.0 / _LEAST, start=1.0)
    if softest is None:
        return None
    E = ceil(own.E / softest / _STEP - 1e-6) * _STEP
    project, with_it = of(E / own.E)
    return Needed(E=E, like=row.called, project=project, catalogue=with_it)


def _depends(check: Check, stiffer: Check | None) -> bool:
    if check.value is None or stiffer is None or stiffer.value is None:
        return False
    return abs(stiffer.ratio - check.ratio) > 1e-6 * max(check.ratio, 1e-9)


def _times(row: Material, factor: float, thickness: float) -> Material:
    """Return a row with every modulus multiplied, as a material of the user's own."""
    tabled = {name: getattr(row, name) for name in _MODULI}
    moduli: dict[str, Any] = {
        name: None if value is None else value * factor for name, value in tabled.items()
    }
    return replace(
        row,
        name=_NAME,
        title=f"sheet like {row.called}, as stiff as needed",
        family="",
        aliases=(),
        thickness_nominal=None,
        thickness_actual=thickness,
        thickness_over=None,
        thickness_to=None,
        status="looked for",
        source="the stiffness looked for; all else as tabled",
        **moduli,
    )


def sheets_that_pass(at: Spot, catalogue: Catalogue, most: int) -> list[Fitting]:
    """Return what of the same thickness makes a shelf pass: sheets, then boards, rising in E.

    Each is checked with its own creep and strength, until ``most`` have passed.
    """
    rows: dict[str, tuple[str, Fitting]] = {}
    for name in (*catalogue.own_materials, *tables.families(), *tables.materials()):
        try:
            row = catalogue.material(name, at.thickness).material
        except (QuantityError, UnknownName):
            continue
        stiff = stiffness(row, at.shelf.grain)
        if stiff is not None:
            one = Fitting(called=row.called, E=stiff.E, sheet=row.kind in SHEETS)
            rows.setdefault(row.name, (name, one))
    found: list[Fitting] = []
    for name, one in sorted(rows.values(), key=lambda row: (not row[1].sheet, row[1].E)):
        checks = checks_of_shelf(at.with_shelf(material=name), catalogue, at.place)
        if checks and all(check.verdict in _GOOD for check in checks):
            found.append(one)
        if len(found) == most:
            break
    return found
