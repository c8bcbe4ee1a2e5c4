"""Cut sizes of shelves on supports of their own, straight or cut on a curve."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import cos, pi, sin

from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import LoneShelf
from shelfload.idealise.cut_horizontals import LOOSE_PLAY, layers, of_shelf
from shelfload.idealise.cut_size import (
    Bend,
    CutPanel,
    CutSum,
    Term,
    depth_sum,
    stuff,
    summed,
)
from shelfload.idealise.lone import laid_out
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
    """A ring cut out of a rectangular blank; strips on its edges follow the curve."""
    plan = lone.plan
    if plan is None:
        raise TypeError("a straight shelf has no curve")
    edges = {"front": lone.shelf.lipping_front, "rear": lone.shelf.lipping_rear}
    strips = [strip for strip in lone.shelf.strips if strip.where in edges]
    taken = {
        at: (lip.thickness if lip is not None else 0.0)
        + sum(strip.width for strip in strips if strip.where == at)
        for at, lip in edges.items()
    }
    at_outer = "front" if plan.front == "outer" else "rear"
    at_inner = "rear" if at_outer == "front" else "front"
    inner = plan.inner_radius + taken[at_inner]
    outer = plan.inner_radius + lone.depth - taken[at_outer]
    half = plan.angle / 2.0
    wide, corner = half >= pi / 2, outer if half >= pi / 2 else inner
    sine = "2 x outer radius" + ("" if wide else " x sine of half the angle")
    cosine = f"{'outer' if wide else 'inner'} radius x cosine of half the angle"
    chord = 2.0 * outer * (1.0 if wide else sin(half))
    rise = outer - corner * cos(half)
    frame = _frame(
        lone,
        summed(Term(chord, sine)),
        summed(Term(outer, "outer radius"), Term(-corner * cos(half), cosine)),
        lone.shelf.bearing or ASSUMED_BEARING,
    )
    bend = Bend(inner_radius=inner, outer_radius=outer, angle=plan.angle)
    share = half * (outer**2 - inner**2) / (chord * rise)
    middle = plan.angle * (inner + outer) / 2.0
    front = plan.angle * (plan.inner_radius + (lone.depth if plan.front == "outer" else 0.0))
    said.append(
        f"{lone.name}: length and width are those of the blank; it is cut to the radii given"
    )
    # the ring's width has lost its lippings already: only panels are taken from here
    bare = lone.shelf.model_copy(update={"lipping_front": None, "lipping_rear": None, "strips": ()})
    sheets_ = layers(None, bare, catalogue)
    for panel in of_shelf(frame, bare, sheets_, frame.length, catalogue, said):
        edged = tuple(edge for edge in panel.edges if edge != "front" or not taken["front"])
        if panel.kind == "web":
            yield replace(panel, length=summed(Term(middle, "middle line")))
        else:
            yield replace(panel, bend=bend, mass=panel.mass * share, edges=edged)
    for at, lip in edges.items():
        if lip is None:
            continue
        strip = stuff(catalogue, lip.material, lip.thickness)
        run = front if at == "front" else 2.0 * plan.angle * _middle(lone) - front
        length = summed(Term(run, "angle x radius of that edge"))
        yield replace(
            frame, part=f"shelf, {at} lipping", kind="lipping", material=strip.name,
            called=strip.row.called, length=length, width=summed(Term(lip.height, "height")),
            thickness=strip.ordered, grain=strip.grain("along the length"),
            edges=("front",) if at == "front" else (), mass=strip.mass(run * lip.height),
            fit="between", bearing=0.0, sheet=strip.in_sheets,
        )  # fmt: skip
    if lone.shelf.strips:
        said.append(f"{lone.name}: strips along a curved shelf are not in the list")


def _middle(lone: LoneShelf) -> float:
    return (lone.plan.inner_radius if lone.plan is not None else 0.0) + lone.depth / 2.0
