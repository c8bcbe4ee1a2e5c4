"""What a description takes to buy: panels, sheets by area, and money where prices are given."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil

from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import Project
from shelfload.describe.stock import Stock
from shelfload.errors import QuantityError, UnknownName
from shelfload.idealise.cut_size import CutPanel
from shelfload.idealise.panels import CutList, CutRow, cut_list, sheets

SHEET = (2440.0, 1220.0)
"""Length and width of a sheet where the description gives none [mm]."""
WASTE = 0.15
"""Share of what is bought that becomes offcuts and sawdust (common practice, no source)."""
_ALIKE = 0.5
"""Thicknesses nearer than this are one sheet, as in the comparison of cut lists [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bought:
    """What one kind of sheet or board comes to.

    Attributes
    ----------
    called : str
        Title of its row.
    thickness : float
        As ordered [mm].
    area : float
        Of the panels, without waste [mm2].
    sheets : int or None
        Whole sheets with waste; None for what is bought by length.
    cost : float or None
        In the currency of the price list; None where it has no price.
    """

    called: str
    thickness: float
    area: float
    sheets: int | None
    cost: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Purchase:
    """What a whole description takes: pieces, mass [kg], and what they are cut from."""

    pieces: int
    mass: float
    kinds: Mapping[tuple[str, float], Bought]


@dataclass(frozen=True, slots=True, kw_only=True)
class Extra:
    """What one description takes more than another; below zero what it saves.

    Attributes
    ----------
    pieces : int
        Panels and strips [-].
    mass : float
        Of them [kg].
    area : float
        Of panels and strips, without waste [mm2].
    more, fewer : int
        Whole sheets of the kinds that take more, and of those that take fewer [-].
    cost : float or None
        In the currency of the price list; None where a price is missing.
    unpriced : tuple of tuple
        Title and thickness [mm] of what has no price.
    """

    pieces: int
    mass: float
    area: float
    more: int
    fewer: int
    cost: float | None
    unpriced: tuple[tuple[str, float], ...]


def purchase(project: Project, catalogue: Catalogue) -> Purchase:
    """Return what a description takes, kind by kind."""
    cut = cut_list(project, catalogue)
    by_kind: dict[tuple[str, float], list[CutRow]] = {}
    for row in cut.rows:
        by_kind.setdefault((row.panel.material, row.panel.thickness), []).append(row)
    return Purchase(
        pieces=cut.count,
        mass=cut.mass,
        kinds={
            kind: _bought(rows, sold_as(kind, project.stock, catalogue), catalogue)
            for kind, rows in by_kind.items()
        },
    )


def extra(before: Purchase, after: Purchase) -> Extra:
    """Return what ``after`` takes more than ``before``."""
    kinds = [
        (before.kinds.get(kind), after.kinds.get(kind))
        for kind in dict.fromkeys((*before.kinds, *after.kinds))
    ]
    changed = [(old, new) for old, new in kinds if old != new]
    sheets_ = [_count(new) - _count(old) for old, new in changed]
    unpriced = {
        (one.called, one.thickness): None
        for pair in changed
        for one in pair
        if one is not None and one.cost is None
    }
    cost = sum(_cost(new) - _cost(old) for old, new in changed)
    return Extra(
        pieces=after.pieces - before.pieces,
        mass=after.mass - before.mass,
        area=sum(_area(new) - _area(old) for old, new in changed),
        more=sum(count for count in sheets_ if count > 0),
        fewer=-sum(count for count in sheets_ if count < 0),
        cost=None if unpriced else cost,
        unpriced=tuple(unpriced),
    )


def _count(one: Bought | None) -> int:
    return (one.sheets or 0) if one is not None else 0


def _cost(one: Bought | None) -> float:
    return (one.cost or 0.0) if one is not None else 0.0


def _area(one: Bought | None) -> float:
    return one.area if one is not None else 0.0


def sold_as(kind: tuple[str, float], stock: Sequence[Stock], catalogue: Catalogue) -> Stock | None:
    """Return the row of the price list that a material and thickness [mm] are bought as."""
    wanted = _row(catalogue, *kind)
    for one in stock:
        near = abs(one.thickness - kind[1]) <= _ALIKE
        if near and wanted == _row(catalogue, one.material, one.thickness):
            return one
    return None


def _row(catalogue: Catalogue, material: str, thickness: float) -> str:
    try:
        return catalogue.material(material, thickness).material.name
    except (QuantityError, UnknownName):
        return material


def _bought(rows: Sequence[CutRow], stock: Stock | None, catalogue: Catalogue) -> Bought:
    first: CutPanel = rows[0].panel
    area = sum(row.count * row.panel.area for row in rows)
    size = SHEET
    if stock is not None:
        size = (stock.length or SHEET[0], stock.width or SHEET[1])
    counted = sheets(CutList(rows=tuple(rows), said=()), size, WASTE, catalogue)
    whole = counted[0].count if counted else None
    return Bought(
        called=first.called,
        thickness=first.thickness,
        area=area,
        sheets=whole,
        cost=None if stock is None else _paid(stock, size, area, whole),
    )


def _paid(stock: Stock, size: tuple[float, float], area: float, whole: int | None) -> float:
    """What an area of panels costs: whole sheets by the piece, else the area with waste."""
    with_waste = area / (1.0 - WASTE)
    if stock.price.per == "area":
        return stock.price.amount * with_waste
    if stock.price.per == "length":
        return stock.price.amount * with_waste / size[1]
    pieces = ceil(with_waste / (size[0] * size[1]) - 1e-9) if whole is None else whole
    return stock.price.amount * pieces
