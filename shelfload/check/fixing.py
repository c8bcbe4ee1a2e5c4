"""What one fixing in the wall holds, link by link from the head to the stud or masonry."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np

from shelfload import tables
from shelfload.check import gauge_screw, screw
from shelfload.check.screw import EC5, Driven, Figure, Head
from shelfload.describe.catalogue import Catalogue
from shelfload.describe.parts import Panel
from shelfload.describe.site import NO_FIXING, Layer, Site
from shelfload.describe.standing import Held, OwnFixing
from shelfload.wording import size

ASSUMED_BOARD = Layer.model_construct(what="plasterboard", thickness=15.0)
"""Layer between unit and timber studs where none is described: one board of the thicker sort
(common practice, no source)."""

FIND_OUT = (
    "Find out what the wall is: knock along it, look for screw lines with a magnet, drill a "
    "trial hole where the unit will hide it, and look for cables and pipes first. Ask the "
    "fixing maker which fixing and which load this wall allows, and have a trial fixing "
    "pull-tested to at least twice its load."
)
INSTEAD_OF_BOARD = (
    "Screw into the studs behind the board, or through a rail that reaches from stud to stud; "
    "else open the board and set a timber batten between the studs, or stand the unit on the "
    "floor."
)

NOT_INTO_WALLS = ("nail", "ring-shank nail")

Values = Literal["design", "recommended"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """One link of the chain: what it holds per fixing [N], or why that is not known.

    ``tension`` and ``shear`` are None where the link does not see that force; ``refused``
    means that no load at all may be put on it; ``provisional`` gives figures that may fail
    a check but never pass one; ``sees_both`` marks a link that needs both figures.
    """

    name: str
    source: str
    tension: float | None = None
    shear: float | None = None
    values: Values = "design"
    reason: str = ""
    provisional: str = ""
    refused: str = ""
    governs: str = ""
    power: int = 1
    remedy: str = ""
    sees_both: bool = False
    of_carcass: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """The links under one load duration, and what was assumed for them."""

    links: tuple[Link, ...]
    said: tuple[str, ...] = ()


def layers_of(site: Site) -> tuple[tuple[Layer, ...], tuple[str, ...]]:
    """Return the layers between unit and stud or masonry, and what was assumed."""
    if site.wall_layers is not None:
        return site.wall_layers, ()
    if site.wall == "timber stud":
        thick = size(ASSUMED_BOARD.thickness)
        return (ASSUMED_BOARD,), (f"one layer of board, {thick}, over the studs",)
    return (), ()


def wall_chain(
    held: Held,
    head: Panel | Literal["steel"] | None,
    site: Site,
    catalogue: Catalogue,
    duration: Literal["long-term", "short-term"],
    *,
    pull_only: bool = False,
    without_carcass: bool = False,
    of_bracket: bool = False,
) -> Chain:
    """Return the links of one fixing from the panel under its head into the wall.

    ``pull_only`` is a strap that is only pulled; ``without_carcass`` leaves out the unit's
    side where the unit just lies on what is fixed; ``of_bracket`` asks for the load of a
    bracket instead.
    """
    layers, said = layers_of(site)
    gap = sum(layer.thickness for layer in layers)
    links: list[Link] = (
        [] if without_carcass else [_carcass(held, catalogue, of_bracket=of_bracket)]
    )
    links += _in_wall(held, head, gap, site, catalogue, duration, pull_only=pull_only)
    if gap and held.maker is not None:
        said = (
            *said,
            f"the maker's load is taken to hold through {size(gap)} of layers",
        )
    return Chain(links=tuple(links), said=said)


def _carcass(held: Held, catalogue: Catalogue, *, of_bracket: bool) -> Link:
    name = "the bracket itself" if of_bracket else "the unit's side of the fixing"
    if held.carcass is None and of_bracket:
        return Link(
            name=name,
            of_carcass=True,
            source="not described",
            reason="the load that its maker declares is not described",
            remedy="Enter it: carcass = a name of [fixings.NAME], with shear.",
        )
    if held.carcass is None:
        return Link(
            name=name,
            of_carcass=True,
            source="not described",
            reason="what joins rail, hanger or strap to the carcass is not described; it is "
            "often the weakest link",
            remedy="Use hangers or brackets whose maker declares a load in this panel, and "
            "enter it: carcass = a name of [fixings.NAME].",
        )
    return _declared(name, catalogue.own_fixings[held.carcass], of_carcass=True)


def _declared(name: str, own: OwnFixing, *, of_carcass: bool = False) -> Link:
    return Link(
        name=name,
        of_carcass=of_carcass,
        source=own.source,
        tension=own.tension,
        shear=own.shear,
        values=own.values,
        governs=f"{own.title or 'declared'} ({own.values} load)",
        sees_both=True,
    )


def _in_wall(
    held: Held,
    head: Panel | Literal["steel"] | None,
    gap: float,
    site: Site,
    catalogue: Catalogue,
    duration: Literal["long-term", "short-term"],
    *,
    pull_only: bool,
) -> Iterator[Link]:
    if site.wall == NO_FIXING:
        yield Link(
            name="the wall",
            source="as described",
            tension=0.0,
            shear=0.0,
            refused="no fixing to this wall is allowed",
            remedy="Stand it on the floor, tie it to the floor, a ceiling joist or to units "
            "beside it, or make it lower and deeper.",
        )
        return
    wall = tables.substrates()[site.wall or "unknown"]
    if wall.name == "plasterboard":
        yield Link(
            name="the board",
            source=f"{wall.source} ({wall.status})",
            tension=0.0,
            shear=0.0,
            refused="plasterboard alone holds nothing overhead and no tall unit",
            remedy=INSTEAD_OF_BOARD,
        )
    elif held.maker is not None:
        yield _declared("fixing in the wall", catalogue.own_fixings[held.maker])
    elif wall.by_formula:
        yield from _in_stud(held, head, gap, site, catalogue, duration, pull_only=pull_only)
    elif wall.tension is not None:
        yield Link(
            name="fixing in the wall",
            source=f"{wall.source} ({wall.status})",
            tension=wall.tension,
            shear=wall.shear,
            values="recommended",
            provisional=f"provisional: a typical load for {wall.title.lower()}, not this fixing's",
            governs=f"typical: {wall.fixing}",
            remedy="Enter the load that the fixing's maker declares for this wall: maker = a "
            "name of [fixings.NAME].",
        )
    else:
        yield Link(
            name="fixing in the wall",
            source=f"{wall.source} ({wall.status})",
            reason=f"{wall.title.lower()}: no load can be relied on",
            remedy=FIND_OUT,
        )


def _in_stud(
    held: Held,
    head: Panel | Literal["steel"] | None,
    gap: float,
    site: Site,
    catalogue: Catalogue,
    duration: Literal["long-term", "short-term"],
    *,
    pull_only: bool,
) -> Iterator[Link]:
    if held.screw is None or held.length is None:
        yield Link(
            name="fixing in the stud",
            source="not described",
            reason="no screw and no maker's load are described",
            remedy='Say which: screw = "coach-screw-8", length = "100 mm", or maker = a name '
            "of [fixings.NAME].",
        )
        return
    stud = catalogue.material(site.stud_material, 38.0).material
    top: Head = head if not isinstance(head, Panel) else None
    if isinstance(head, Panel):
        resolved = catalogue.material(head.material, head.thickness)
        top = (resolved.material, resolved.thickness)
    driven = Driven(
        screw=tables.fasteners()[held.screw],
        length=held.length,
        head=top,
        gap=gap,
        into=stud,
        service_class=site.service_class,
        duration=duration,
    )
    links = links_of(driven)
    yield from (link for link in links if link.name == "pull-out" or not pull_only)


def links_of(driven: Driven) -> Iterator[Link]:
    """Return the links of a screw: head, pull-out, shear with what is between, all together."""
    if driven.screw.kind in NOT_INTO_WALLS:
        yield Link(
            name="pull-out",
            source=f"{EC5}, 8.3.2(1), from memory",
            reason="nails hold no lasting pull",
            remedy="Use screws.",
        )
        return
    rules = gauge_screw if driven.screw.kind == "wood screw" else screw
    words: dict[str, Figure] = {"pull-out": rules.withdrawal(driven)}
    head = screw.head_pull_through(driven)
    if head is not None:
        words = {"head pull-through": head, **words}
    for name, answer in words.items():
        if isinstance(answer.value, str):
            yield Link(name=name, source=answer.source, reason=answer.value, remedy=answer.remedy)
        else:
            yield Link(
                name=name,
                source=answer.source,
                tension=answer.value,
                values=answer.values,
                governs=answer.governs,
                remedy=answer.remedy,
            )
    shear = rules.shear(driven)
    if isinstance(shear.value, str):
        yield Link(name="shear", source=shear.source, reason=shear.value, remedy=shear.remedy)
        return
    unknown = [name for name, a in words.items() if isinstance(a.value, str)]
    if unknown:
        yield Link(
            name="pull and shear together",
            source=shear.source,
            reason=f"what it bears in {' and '.join(unknown)} is not known",
            remedy=shear.remedy,
        )
        return
    # a design value is held against factored loads: 1.5 takes it down to loads as they are
    pulls = [
        a.value / (1.5 if a.values == "design" and shear.values == "recommended" else 1.0)
        for a in words.values()
        if not isinstance(a.value, str)
    ]
    yield Link(
        name="pull and shear together",
        source=f"{shear.source}; EN 1995-1-1:2004, (8.28)",
        tension=float(np.min(pulls)),
        shear=shear.value,
        values=shear.values,
        governs=shear.governs,
        power=2,
        remedy=f"{shear.remedy} More fixings, or less board between, help as well.".strip(),
    )
