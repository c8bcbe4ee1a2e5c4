"""Cut sizes of panels on a curve: a part of a ring, cut out of a rectangular blank."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import cos, sin

from shelfload.describe.catalogue import Catalogue
from shelfload.describe.parts import Shelf
from shelfload.idealise.cut_shelf import of_shelf
from shelfload.idealise.cut_size import Bend, CutPanel, CutSum, Stuff, Term, stuff, summed
from shelfload.idealise.ring import Slab

OFF = "ends off the radius"


def blank(cut: Slab) -> tuple[CutSum, CutSum]:
    """Return length and width of the rectangle that a part of a ring is cut from."""
    half = cut.angle / 2.0
    chord, drop = 2.0 * cut.outer * sin(half), cut.inner * cos(half)
    length = [Term(chord, "2 x outer radius x sine of half the angle")]
    width = [
        Term(cut.outer, "outer radius"),
        Term(-drop, "inner radius x cosine of half the angle"),
    ]
    if any(cut.off):
        at_outer, at_inner = cut.half_angles(cut.outer), cut.half_angles(cut.inner)
        length.append(Term(cut.outer * sum(sin(one) for one in at_outer) - chord, OFF))
        width.append(Term(drop - cut.inner * min(cos(one) for one in at_inner), OFF))
    return summed(*length), summed(*width)


def on_a_curve(
    frame: CutPanel,
    shelf: Shelf,
    sheets: list[Stuff],
    cut: Slab,
    front_is_outer: bool,
    catalogue: Catalogue,
    said: list[str],
) -> Iterator[CutPanel]:
    """Return panels, webs and lippings of a shelf on a curve; strips are not in it.

    Parameters
    ----------
    frame : CutPanel
        Where the shelf is and how its ends fit.
    shelf : Shelf
        As described.
    sheets : list of Stuff
        Its panels from the lower one up.
    cut : Slab
        Its plan, over everything.
    front_is_outer : bool
        Whether the outer edge is the front.
    catalogue : Catalogue
        Resolves names.
    said : list of str
        Takes what was assumed.
    """
    edges = {"front": shelf.lipping_front, "rear": shelf.lipping_rear}
    beside = [strip for strip in shelf.strips if strip.where in edges]
    taken = {
        at: (lip.thickness if lip is not None else 0.0)
        + sum(strip.width for strip in beside if strip.where == at)
        for at, lip in edges.items()
    }
    at_outer, at_inner = ("front", "rear") if front_is_outer else ("rear", "front")
    bare = replace(cut, inner=cut.inner + taken[at_inner], outer=cut.outer - taken[at_outer])
    length, width = blank(bare)
    frame = replace(frame, length=length, width=width)
    bend = Bend(inner_radius=bare.inner, outer_radius=bare.outer, angle=bare.angle)
    share = bare.area / (length.total * width.total)
    middle = bare.length((bare.inner + bare.outer) / 2.0)
    said.append(
        f"{frame.unit}: length and width are those of the blank; it is cut to the radii given"
    )
    if any(cut.off):
        said.append(
            f"{frame.unit}: ends of curved panels are parallel to the middle of their upright, "
            "which lies along the radius and is as thick inside as outside; the angle given is "
            "between these middles: make a template before anything is cut"
        )
    # the ring's width has lost its lippings already: only panels are taken from here
    plain = shelf.model_copy(update={"lipping_front": None, "lipping_rear": None, "strips": ()})
    for panel in of_shelf(frame, plain, sheets, length, catalogue, said):
        shown = tuple(edge for edge in panel.edges if edge != "front" or not taken["front"])
        if panel.kind == "web":
            yield replace(panel, length=summed(Term(middle, "middle line")))
        else:
            yield replace(panel, bend=bend, mass=panel.mass * share, edges=shown)
    for at, lip in edges.items():
        if lip is None:
            continue
        strip = stuff(catalogue, lip.material, lip.thickness)
        run = cut.length(cut.outer if at == at_outer else cut.inner)
        yield replace(
            frame, part=f"{frame.part}, {at} lipping", kind="lipping", material=strip.name,
            called=strip.row.called, length=summed(Term(run, "angle x radius of that edge")),
            width=summed(Term(lip.height, "height")), thickness=strip.ordered,
            grain=strip.grain("along the length"), edges=("front",) if at == "front" else (),
            mass=strip.mass(run * lip.height), fit="between", bearing=0.0, sheet=strip.in_sheets,
        )  # fmt: skip
    if shelf.strips:
        said.append(f"{frame.unit}: strips along a curved shelf are not in the list")
