"""A panel as it is ordered: its finished size, and the sum behind each length of it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from shelfload.describe.catalogue import Catalogue
from shelfload.idealise.pieces import MM3_PER_M3
from shelfload.tables import Material

Grain = Literal["along the length", "along the width", "either way", "none"]
Kind = Literal["side", "divider", "shelf", "back", "rail", "lipping", "strip", "web"]
Fit = Literal["housed", "over", "on supports", "butted", "between"]
"""How the two ends of a panel meet what they end at."""

GRAINED = ("solid", "glulam", "plywood", "osb", "bamboo", "blockboard")
SHEETS = ("plywood", "mdf", "hardboard", "particleboard", "osb", "bamboo", "blockboard")
"""Kinds of material that come in sheets; the rest is bought by length."""
SAME = 0.05  # mm, finer than any saw


@dataclass(frozen=True, slots=True)
class Term:
    """One part of a sum [mm], below zero where it is taken off, and what it is."""

    value: float
    words: str


@dataclass(frozen=True, slots=True)
class CutSum:
    """A size and the parts it is added up from."""

    terms: tuple[Term, ...]

    @property
    def total(self) -> float:
        """The finished size [mm]."""
        return sum(term.value for term in self.terms)

    def __add__(self, more: Iterable[Term]) -> CutSum:
        return CutSum((*self.terms, *more))


@dataclass(frozen=True, slots=True, kw_only=True)
class Bend:
    """A panel cut on a curve: its radii [mm] and the angle it goes through [rad]."""

    inner_radius: float
    outer_radius: float
    angle: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CutPanel:
    """One panel, strip or rail to be cut.

    Attributes
    ----------
    unit, part : str
        What it belongs to, and which part of it.
    levels : tuple of int
        The levels of the unit that it stands in or carries, counted from 1; none for a lone
        shelf.
    kind : str
        What it is.
    material, called : str
        Name as described, and the title of its row.
    length, width : CutSum
        Finished; the length of a shelf runs along the unit, that of an upright upright.
    thickness : float
        As ordered [mm].
    grain : str
        Which way the face grain runs.
    edges : tuple of str
        Edges on show.
    mass : float
        Of one [kg].
    fit : str
        How its ends meet what they end at.
    bearing : float
        What lies under each end, or sits in its housing [mm].
    sheet : bool
        Cut from a sheet, not bought by length.
    bend : Bend or None
        Where it is cut on a curve; length and width are then those of its blank.
    """

    unit: str
    part: str
    levels: tuple[int, ...] = ()
    kind: Kind
    material: str
    called: str
    length: CutSum
    width: CutSum
    thickness: float
    grain: Grain
    edges: tuple[str, ...]
    mass: float
    fit: Fit = "between"
    bearing: float = 0.0
    sheet: bool = True
    bend: Bend | None = None

    @property
    def area(self) -> float:
        """Of one, or of its blank [mm2]."""
        return self.length.total * self.width.total


@dataclass(frozen=True, slots=True)
class Stuff:
    """What a panel is cut from: name and thickness as ordered, row and thickness as measured."""

    name: str
    ordered: float
    row: Material
    measured: float

    def grain(self, wanted: Grain) -> Grain:
        """Return a grain direction for a panel of it: boards without grain have none."""
        return wanted if self.row.kind in GRAINED else "none"

    def mass(self, area: float) -> float:
        """Return the mass of a panel [kg] of some area [mm2]."""
        return self.row.density / MM3_PER_M3 * area * self.measured

    @property
    def in_sheets(self) -> bool:
        """Whether it comes in sheets."""
        return self.row.kind in SHEETS


def stuff(catalogue: Catalogue, name: str, thickness: float) -> Stuff:
    """Look up what a panel is cut from."""
    found = catalogue.material(name, thickness)
    return Stuff(name=name, ordered=thickness, row=found.material, measured=found.thickness)


def summed(*terms: Term) -> CutSum:
    """Return the sum of some parts, nothing left out but zeros."""
    return CutSum(tuple(term for term in terms if term.value != 0.0))


def depth_sum(depth: float, back: float, strips: Sequence[tuple[float, str]] = ()) -> CutSum:
    """Return front to back: outside, less the back, less what stands on the edges [mm]."""
    return summed(
        Term(depth, "depth outside"), Term(-back, "back"), *(Term(-w, name) for w, name in strips)
    )
