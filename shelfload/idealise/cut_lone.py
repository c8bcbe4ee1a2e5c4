"""Cut sizes of shelves on supports of their own, straight or cut on a curve."""

from __future__ import annotations

from collections.abc import Iterator

from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import LoneShelf
from shelfload.idealise.cut_curved import on_a_curve
from shelfload.idealise.cut_horizontals import LOOSE_PLAY
from shelfload.idealise.cut_shelf import layers, of_shelf
from shelfload.idealise.cut_size import CutPanel, CutSum, Term, depth_sum, summed
from shelfload.idealise.lone import laid_out
from shelfload.idealise.ring import Slab
from shelfload.idealise.shelf_beam import ASSUMED_BEARING
from shelfload.wording import figure


def lone_panels(lone: LoneShelf, catalogue: Catalogue, said: list[str]) -> Iterator[CutPanel]:
    """Return a shelf of its own: over its supports, from outer edge to outer edge."""
    shelf = lone.shelf
    bearing = ASSUMED_BEARING if shelf.bearing is None else shelf.bearing
    play = shelf.play if shelf.play is not None else LOOSE_PLAY if shelf.loose else 0.0
    if lone.plan is not None:
        yield from _curved(lone, catalogue, said)
        return
    if lone.length is not None:
        length = summed(Term(lone.length, "length"), Term(-play, "play"))
    else:
        out = [lone.overhang_left or 0.0, lone.overhang_right or 0.0]
        ends = [
            # an overhang is measured from the middle of the outer support
            (Term(bearing / 2, "half bearing"), Term(over, "overhang"))
            if over > bearing / 2
            else (Term(bearing, "bearing"),)
            for over in out
        ]
        spans = laid_out(lone).spans
        length = summed(
            *(Term(span, "span") for span in spans),
            *(Term(lone.support_width, "support") for _ in spans[1:]),
            *(term for end in ends for term in end),
            Term(-play, "play"),
        )
        if shelf.bearing is None:
            said.append(
                f"{lone.name}: no bearing is described, {figure(bearing, 'length')} at each end "
                "is counted, as in the checks"
            )
    frame = _frame(lone, length, depth_sum(lone.depth, 0.0), max(bearing - play / 2, 0.0))
    sheets_ = layers(None, shelf, catalogue)
    yield from of_shelf(frame, shelf, sheets_, length, catalogue, said)


def _frame(lone: LoneShelf, length: CutSum, width: CutSum, bearing: float) -> CutPanel:
    return CutPanel(
        unit=lone.name, part="shelf", kind="shelf", material="", called="", length=length,
        width=width, thickness=0.0, grain="none", edges=("front", "left end", "right end"),
        mass=0.0, fit="on supports", bearing=bearing,
    )  # fmt: skip


def _curved(lone: LoneShelf, catalogue: Catalogue, said: list[str]) -> Iterator[CutPanel]:
    """A shelf on a curve, its ends along the radius."""
    plan = lone.plan
    if plan is None:
        raise TypeError("a straight shelf has no curve")
    cut = Slab(
        inner=plan.inner_radius,
        outer=plan.inner_radius + lone.depth,
        angle=plan.angle,
        off=(0.0, 0.0),
    )
    frame = _frame(lone, summed(), summed(), lone.shelf.bearing or ASSUMED_BEARING)
    sheets_ = layers(None, lone.shelf, catalogue)
    yield from on_a_curve(frame, lone.shelf, sheets_, cut, plan.front == "outer", catalogue, said)
