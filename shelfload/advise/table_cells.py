"""Shelves of a table, all at once: their sections and criteria, and demands on them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from shelfload import tables
from shelfload.check.criteria import Criterion, criteria, sag_allowed
from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import LoneShelf
from shelfload.describe.parts import Back, Fill, Shelf
from shelfload.describe.site import Site
from shelfload.errors import QuantityError
from shelfload.idealise.loads import bay_load
from shelfload.idealise.lone import lone_beam
from shelfload.idealise.shelf_beam import ShelfBeam, Unbent
from shelfload.solve.rising import Rows
from shelfload.solve.span_rows import SpanRows, span_rows
from shelfload.units import Load

Array = NDArray[np.float64]

NOMINAL = 600.0
"""Clear span at which a shelf is idealised to learn what is asked of it [mm]."""
ANY_LOAD = Fill.model_construct(load=Load("line", 1.0))
Curve = Literal["sag", "moment", "shear", "reaction"]
CURVES: tuple[Curve, ...] = ("sag", "moment", "shear", "reaction")
QUESTIONS = ("sag", "bending", "shear", "bearing", "back")
"""What can decide, in the order of ``CURVES``; last the back of a shelf that leans on it."""

SUPPORTS: dict[str, int] = {"free ends": 1, "over one divider": 2, "over two dividers": 3}
"""How a shelf is held: ends free to turn, and how many equal spans one panel runs over."""

BACKED = "fixed back"
"""A support beyond those: two ends free to turn, and a back along the rear edge."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A material and the thickness it is sold in [mm]."""

    material: str
    thickness: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What a table is made for; lengths [mm].

    Attributes
    ----------
    sheets : tuple of Sheet
        One row each.
    depth : float
        Of the shelves, front to back.
    supports : tuple of str
        Keys of ``SUPPORTS``, or ``BACKED``.
    bearing : float or None
        Length of support under each end; None for the one that every check assumes.
    limit : str or None
        Row of the limits table; None for the default.
    grain : "along" or "across"
        Face grain along the span or across it.
    clear_height : float
        Height that contents by volume fill.
    site : Site
        Service class.
    catalogue : Catalogue
        Resolves names.
    back : Back or None
        What ``BACKED`` stands for.
    """

    sheets: tuple[Sheet, ...]
    depth: float
    supports: tuple[str, ...] = tuple(SUPPORTS)
    bearing: float | None = None
    limit: str | None = None
    grain: Literal["along", "across"] = "along"
    clear_height: float = 300.0
    site: Site = field(default_factory=Site)
    catalogue: Catalogue = field(default_factory=Catalogue)
    back: Back | None = None

    @property
    def sag_limit(self) -> tables.Limit:
        """The limit of sag that rules."""
        return self.catalogue.limit(self.limit)

    def described(self, sheet: Sheet, spans: tuple[float, ...]) -> LoneShelf:
        """Return the shelf of a cell as one would describe it, but for what stands on it."""
        return LoneShelf.model_construct(
            name="shelf",
            depth=self.depth,
            spans=spans,
            fixed_down=True,
            clear_height=self.clear_height,
            shelf=Shelf.model_construct(
                material=sheet.material,
                thickness=sheet.thickness,
                grain=self.grain,
                bearing=self.bearing,
                limit=self.limit,
            ),
        )

    def load_of(self, fill: Fill) -> float:
        """Return what contents weigh per length of shelf [N/mm].

        Raises
        ------
        QuantityError
            If they are counted one by one, so that it depends on the span.
        """
        one = self.catalogue.contents(fill.what).kind == "each" if fill.what else False
        if one or (fill.load is not None and fill.load.kind == "total"):
            raise QuantityError(
                fill.what or "a total load", "contents or loads by length, area or volume"
            )
        return bay_load(fill, NOMINAL, self.clear_height, self.depth, self.catalogue).even


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Question:
    """One criterion of all cells.

    Attributes
    ----------
    curve : Curve
        What is limited.
    always, sometimes : ndarray, shape (cells,)
        Factors on self-weight and on what stands there [-].
    allowed : ndarray, shape (cells, spans or supports)
        Largest value of the curve [N mm or N]; of sag, whose limit goes with the span, unused.
    """

    curve: Curve
    always: Array
    sometimes: Array
    allowed: Array


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Cells:
    """Shelves of all cells of one support, and what is asked of them.

    Attributes
    ----------
    EI, GA, weight : ndarray, shape (cells,)
        Bending [N mm2] and shear stiffness [N], self-weight per length [N/mm].
    widths : ndarray, shape (supports,)
        Of the supports along the shelf [mm].
    limit : Limit
        Of sag.
    criteria : tuple of Question
        Sag first.
    """

    EI: Array
    GA: Array
    weight: Array
    widths: Array
    limit: tables.Limit
    criteria: tuple[Question, ...]

    def solved(self, span: Array, rows: Rows) -> SpanRows:
        """Solve the shelves of some rows at clear spans [mm]."""
        start = np.broadcast_to(self.widths[:-1] / 2.0, (span.size, self.widths.size - 1))
        L = span[:, None] + (self.widths[:-1] + self.widths[1:]) / 2.0
        return span_rows(L, start, start + span[:, None], self.EI[rows], self.GA[rows])

    def ratio(self, asked: Question, solved: SpanRows, q: Array, rows: Rows) -> Array:
        """Return the largest ratio of demand to what is allowed, under loads q [N/mm]."""
        g, q = self.weight[rows] * asked.always[rows], q * asked.sometimes[rows]
        if asked.curve == "sag":
            allowed = sag_allowed(self.limit, solved.L, np.zeros(solved.L.shape, dtype=np.bool_))
        else:
            allowed = asked.allowed[rows]
        return np.asarray((_PEAKS[asked.curve](solved, g, q) / allowed).max(axis=-1))


_PEAKS = {
    "sag": SpanRows.largest_sag,
    "moment": SpanRows.largest_moment,
    "shear": SpanRows.largest_shear,
    "reaction": SpanRows.largest_reaction,
}


def shelf_of(asked: Asked, sheet: Sheet, spans: int) -> tuple[ShelfBeam, list[Criterion]] | str:
    """Return a shelf of a cell at some span with its criteria, or why it has none."""
    lone = asked.described(sheet, (NOMINAL,) * spans)
    lone = lone.model_copy(update={"contents": (ANY_LOAD,)})
    try:
        beam = lone_beam(lone, asked.site, asked.catalogue)
    except QuantityError as fault:
        return f"not sold so: {fault.allowed}"
    if isinstance(beam, Unbent):
        return beam.reason
    found = criteria(beam, asked.sag_limit)
    known = [one for one in found if isinstance(one, Criterion)]
    for one in found:
        if not isinstance(one, Criterion):
            return f"{one.question}: {one.reason}"
    return beam, known


def cells_of(
    asked: Asked, beams: Sequence[tuple[ShelfBeam, list[Criterion]]], columns: int
) -> Cells:
    """Put the figures of all shelves side by side, each for a number of columns."""

    def spread(values: Sequence[float] | Sequence[Array]) -> Array:
        return np.repeat(np.array(values, dtype=np.float64), columns, axis=0)

    first = beams[0][0]
    own = [case.kind for case in first.cases].index("self")
    contents = [case.kind for case in first.cases].index("contents")
    return Cells(
        EI=spread([beam.shape.EI_used for beam, _ in beams]),
        GA=spread([float(beam.shape.section.GA) for beam, _ in beams]),
        weight=spread([beam.shape.weight for beam, _ in beams]),
        widths=np.array([support.bearing for support in first.supports]),
        limit=asked.sag_limit,
        criteria=tuple(
            Question(
                curve=alike[0].curve,
                always=spread([one.always[own] for one in alike]),
                sometimes=spread([one.sometimes[contents] for one in alike]),
                allowed=spread([one.allowed for one in alike]),
            )
            for alike in zip(*(known for _, known in beams), strict=True)
        ),
    )


def assumed(beam: ShelfBeam) -> tuple[str, ...]:
    """Return what was assumed of a shelf's sheet, and whether its figures are estimates."""
    guessed = [piece.material.called for piece in beam.shape.pieces if piece.material.estimate]
    estimates = [f"figures of {name} are estimates: measure an offcut" for name in guessed]
    return (*estimates, *beam.shape.said)
