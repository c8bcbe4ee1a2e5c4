"""Cells of a table for shelves with a fixed back: each a plate on three edges, as in a check.

The shelf stands in one bay of a unit cut from its own sheet, with a clear height as asked
above and below it, both closed by the back.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import exp, inf, isfinite, log, prod

from shelfload.advise.search import largest_below
from shelfload.advise.table_cells import ANY_LOAD, NOMINAL, QUESTIONS, Asked, Sheet
from shelfload.check.criteria import criteria
from shelfload.check.plate_demands import BACK_IN_SHEAR
from shelfload.check.plates import plate_answer
from shelfload.check.result import Answer
from shelfload.check.safe_load import safe_loads
from shelfload.check.shelves import shelf_checks
from shelfload.errors import QuantityError
from shelfload.idealise.backs import back_hold, sheet_of
from shelfload.idealise.lone import lone_beam
from shelfload.idealise.plates import shelf_plate
from shelfload.idealise.shelf_beam import ShelfBeam, Unbent

_NEAR = 1e-4  # how near a span is found by halving
_CLOSE, _VERY_CLOSE = 5e-3, 3e-4
"""Logarithm of safe load over load below which the span is put right by interpolation, with
several spans to go by and with few."""
_POINTS = 4  # spans that are interpolated between
_ROUNDS = 8
_STEEP = 3.0  # about how the safe load falls with the span
_NAMED = {BACK_IN_SHEAR: "back", "bending both ways and twist": "bending"}


class NoFigure(ValueError):
    """A shelf of a table has no figure with its back; the message says why."""


class BackedShelf:
    """One sheet of a table as a shelf with a fixed back, at any span.

    Parameters
    ----------
    asked : Asked
        With a back.
    sheet : Sheet
        What the shelf is cut from.
    """

    def __init__(self, asked: Asked, sheet: Sheet) -> None:
        self._asked, self._sheet = asked, sheet
        self._known: dict[float, tuple[float, int]] = {}

    def safe_load(self, span: float) -> tuple[float, int]:
        """Return the safe even load on a clear span [N/mm], and which question decides.

        Raises
        ------
        NoFigure
            If the shelf can't be checked, or its back is not counted on.
        """
        if span not in self._known:
            self._known[span] = self._found(span)
        return self._known[span]

    def longest(self, load: float, low: float, high: float) -> tuple[float, int]:
        """Return the largest clear span [mm] with a safe load [N/mm], and what decides.

        0 where even ``low`` is too long, infinite where ``high`` passes.
        """
        for _ in range(_ROUNDS):
            span = self._interpolated(load)
            if not low < span < high:
                break
            near, by = self.safe_load(span)
            if near <= 0.0:
                break
            alike = len(self._like(span))
            if abs(log(near / load)) < (_CLOSE if alike > _POINTS // 2 else _VERY_CLOSE):
                return self._interpolated(load), by
        found = largest_below(
            lambda x: self._demand(load, x), low, high, start=NOMINAL, power=_STEEP, within=_NEAR
        )
        if found is None or found >= high:
            return (0.0 if found is None else inf), -1
        return found, self.safe_load(found)[1]

    def _like(self, span: float) -> list[tuple[float, float]]:
        """Logarithms of safe load and span of what is known and limited by the same, near first."""
        by = self._known[span][1]
        alike = [
            (log(carries), log(one))
            for one, (carries, why) in self._known.items()
            if carries > 0.0 and why == by
        ]
        return sorted(alike, key=lambda one: abs(one[1] - log(span)))

    def _interpolated(self, load: float) -> float:
        """Return the span [mm] for a safe load, by those worked out already for any load."""
        known = [span for span, (carries, _) in self._known.items() if carries > 0.0]
        if not known:
            return NOMINAL
        nearest = min(known, key=lambda span: abs(log(self._known[span][0] / load)))
        points = self._like(nearest)[:_POINTS]
        x = log(load)
        if len(points) == 1:
            ((at, span),) = points
            return exp(span - (x - at) / _STEEP)
        # the polynomial through all points, by Lagrange
        total = 0.0
        for number, (at, span) in enumerate(points):
            others = [other for n, (other, _) in enumerate(points) if n != number]
            total += span * prod((x - other) / (at - other) for other in others)
        return exp(total)

    def _demand(self, load: float, span: float) -> float:
        carries = self.safe_load(span)[0]
        return load / carries if carries > 0.0 else inf

    def _found(self, span: float) -> tuple[float, int]:
        beam = self._beam(span)
        limit = self._asked.sag_limit
        asked = criteria(beam, limit)
        plain = Answer(
            checks=tuple(shelf_checks(beam, asked)), safe_loads=tuple(safe_loads(beam, asked))
        )
        plate = shelf_plate(beam)
        answer = plain if plate is None else plate_answer(beam, plate, asked, plain)
        (load,) = answer.safe_loads
        if load.even_per_length is None:
            raise NoFigure(load.reason)
        return load.even_per_length, _question(load.governed_by)

    def _beam(self, span: float) -> ShelfBeam:
        asked, sheet = self._asked, self._sheet
        lone = asked.described(sheet, (span,)).model_copy(update={"contents": (ANY_LOAD,)})
        try:
            beam = lone_beam(lone, asked.site, asked.catalogue)
        except QuantityError as fault:
            raise NoFigure(f"not sold so: {fault.allowed}") from None
        if isinstance(beam, Unbent):
            raise NoFigure(beam.reason)
        if asked.back is None:
            raise AssertionError("asked for without a back")
        hold = back_hold(
            asked.back,
            sheet_of([asked.clear_height, asked.clear_height], [span + sheet.thickness]),
            beam.shape.pieces[0].material,
            beam.service_class,
            asked.catalogue,
        )
        if isinstance(hold, str):
            raise NoFigure(f"with this back: {hold}")
        return replace(beam, hold=hold)


def _question(name: str) -> int:
    named = _NAMED.get(name, name)
    fitting = (
        number
        for number, question in enumerate(QUESTIONS)
        if named.startswith(question) or named.endswith(question)
    )
    return next(fitting, -1)


def backed_spans(
    asked: Asked, sheet: Sheet, loads: Sequence[float], low: float, high: float
) -> list[tuple[float, int]]:
    """Return the largest clear span [mm] under each load [N/mm], and what decides.

    Raises
    ------
    NoFigure
        As :meth:`BackedShelf.safe_load`.
    """
    shelf = BackedShelf(asked, sheet)
    # the ends first: what lies between is then interpolated
    rising = sorted(set(loads))
    order = dict.fromkeys([*rising[:1], *rising[-1:], *rising])
    found = {load: shelf.longest(load, low, high) for load in order}
    return [found[load] for load in loads]


def backed_loads(asked: Asked, sheet: Sheet, spans: Sequence[float]) -> list[tuple[float, int]]:
    """Return the safe even load [N/mm] on each clear span [mm], and what decides.

    Raises
    ------
    NoFigure
        As :meth:`BackedShelf.safe_load`.
    """
    shelf = BackedShelf(asked, sheet)
    found = [shelf.safe_load(span) for span in spans]
    return [(load if isfinite(load) else inf, by) for load, by in found]
