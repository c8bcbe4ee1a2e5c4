"""Will it stay on the wall? Hung units, and units hung between their neighbours."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

import numpy as np

from shelfload import tables
from shelfload.check.criteria import design
from shelfload.check.demand import LASTING, Demand, Pull, Shared, factors, link_checks
from shelfload.check.fixing import FIND_OUT, wall_chain
from shelfload.check.neighbour_bolts import between_checks
from shelfload.check.result import Answer, Check
from shelfload.describe.parts import Panel
from shelfload.describe.site import Site
from shelfload.describe.standing import Hung
from shelfload.errors import QuantityError
from shelfload.idealise.arrangement import Placed
from shelfload.idealise.place import Place
from shelfload.idealise.properties import strength
from shelfload.idealise.stack import back_of
from shelfload.idealise.whole import Whole
from shelfload.solve.fixing_group import tension_by_rotation, tension_with_one_lost, wall_moment
from shelfload.solve.studs import continuous_rail, least_studs_met, stud_places
from shelfload.wording import figure

HAND = 150.0
HAND_OVER_PEOPLE = 300.0
"""A hand pulling down on the front edge [N]; the higher where people are below (common
practice, no source). Where children are about, the climbing child of the figures table."""

TOP_ROW = 50.0
"""How far below the top a row of fixings is taken where none is described [mm]."""
STUD_EDGE = 25.0
"""Least distance of a screw from the end of the rail [mm] (common practice, no source)."""
ASSUMED_SPACING = 610.0
"""Widest usual stud spacing [mm], taken where none is described."""
ASSUMED_RAIL = 80.0
"""Rail height taken for its bending where none is described [mm]."""
OVERHEAD_FROM = 1000.0


def staying_on_the_wall(whole: Whole) -> Iterable[Answer]:
    """Will each hung unit stay on the wall, and what gives first?"""
    for placed in whole.placed.values():
        if placed.unit.hangs is not None:
            yield _hung(whole, placed, placed.unit.hangs)
        elif placed.unit.between is not None:
            yield between_checks(whole, placed, hand(whole.project.site))


def hand(site: Site) -> float:
    """Return the pull down on a front edge that is reckoned with [N]."""
    pull = HAND_OVER_PEOPLE if site.people_below else HAND
    return max(pull, tables.figures()["child-climbing"].low) if site.children else pull


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """Where the fixings of one row are along the rail [mm], and how even they share.

    ``share`` is the part of the row's load on the most loaded fixing, ``moment`` the largest
    moment in the rail per unit of load [mm].
    """

    places: int
    count: int
    share: float
    moment: float
    said: tuple[str, ...] = ()


def row_of(width: float, hung: Hung, site: Site) -> Row | Check:
    """Place the fixings of a row: in the studs it meets, or evenly on masonry."""
    hangers = np.linspace(0.0, width, hung.hangers) if hung.hangers > 1 else np.array([width / 2])
    even = np.full(hangers.size, 1.0 / hangers.size)
    if site.wall not in ("timber stud", "metal stud"):
        count = hung.count or 2
        at = np.linspace(0.0, width, count) if count > 1 else np.array([width / 2])
        share, moment = _shared(even, hangers, at, width)
        said = () if hung.count else ("two fixings in each row",)
        return Row(places=count, count=count, share=share, moment=moment, said=said)
    spacing = site.stud_spacing or ASSUMED_SPACING
    said_spacing = (
        ()
        if site.stud_spacing
        else (f"studs at {figure(spacing, 'length')}, the widest usual spacing",)
    )
    if hung.first_stud is not None:
        candidates = [stud_places(0.0, width, spacing, hung.first_stud, STUD_EDGE)]
        said = said_spacing
    else:
        least = int(least_studs_met(width, spacing, STUD_EDGE))
        tried = [
            stud_places(0.0, width, spacing, first, STUD_EDGE)
            for first in np.linspace(0.0, spacing, 49)[:-1]
        ]
        candidates = [studs for studs in tried if studs.size == least] or tried[:1]
        said = (*said_spacing, "studs where they suit the unit least, as none is located")
    fewest = min(studs.size for studs in candidates)
    if fewest < 2:
        return _too_few_studs(fewest, width, spacing)
    worst = max((_shared(even, hangers, studs, width) for studs in candidates), key=lambda s: s[0])
    count = max(hung.count or fewest, fewest)
    per_stud = count // fewest
    return Row(
        places=fewest, count=count, share=worst[0] / per_stud, moment=worst[1], said=said
    )


def _shared(
    loads: np.ndarray, at: np.ndarray, fixings: np.ndarray, width: float
) -> tuple[float, float]:
    if fixings.size < 2:
        return 1.0, width / 4
    forces = continuous_rail(loads, at, fixings, width)
    return float(np.max(np.abs(forces.reactions))), float(forces.moment)


def _too_few_studs(met: int, width: float, spacing: float) -> Check:
    return Check(
        place=Place(unit=""),
        question="studs met",
        method=f"studs at {figure(spacing, 'length')} behind {figure(width, 'length')} of rail",
        source="own count; two studs for wall cabinets: common practice, no source",
        measure="count",
        value=float(met),
        limit=2.0,
        at_least=True,
        remedy="Let a longer rail reach two studs or more, or set a batten between the studs.",
    )


def _hung(whole: Whole, placed: Placed, hung: Hung) -> Answer:
    site = whole.project.site
    unit, weights = placed.unit, placed.weights
    place = Place(unit=unit.name, part="wall")
    heights = hung.heights or (weights.height - TOP_ROW,)
    if max(heights) > weights.height:
        raise QuantityError(
            f"{unit.name}: a row of fixings at {max(heights):.0f} mm",
            f"heights above the underside up to {weights.height:.0f} mm",
        )
    row = row_of(weights.width, hung, site)
    said = [
        f"{unit.name}: a pull of {figure(hand(site), 'force', as_mass=True)} on its front edge",
        f"{unit.name}: contents stand at mid-depth",
    ]
    if isinstance(row, Check):
        return Answer(checks=(replace(row, place=place),), assumptions=tuple(said))
    if not hung.heights:
        said.append(
            f"{unit.name}: one row of fixings, {figure(TOP_ROW, 'length')} below its top"
        )
    said += [f"{unit.name}: {text}" for text in row.said]
    head = head_panel(placed, hung)
    turn = "rotation about the lower rear edge"
    at = np.asarray(heights)
    count = row.count * len(heights)
    wall = Shared(
        demand=_forces(placed, hung, site, at, row.share, row.share / len(heights)),
        count=count,
        method=turn,
    )
    by_hanger = 1.0 / hung.hangers
    carcass = Shared(
        demand=_forces(placed, hung, site, at, by_hanger, by_hanger),
        count=hung.hangers,
        method=turn,
    )
    chains = {
        lasting: wall_chain(hung, head, site, whole.catalogue, lasting) for lasting in LASTING
    }
    said += [f"{unit.name}: {text}" for text in chains["long-term"].said]
    checks = link_checks(place, chains, wall, carcass)
    checks += _studs_checks(place, row, site)
    checks += _rail_check(whole, placed, hung, np.asarray(heights), row, place)
    if placed.bottom >= OVERHEAD_FROM or site.people_below:
        checks += _one_lost(placed, hung, np.asarray(heights), row, chains, site, place)
    return Answer(checks=tuple(checks), assumptions=tuple(said))


def head_panel(placed: Placed, hung: Hung) -> Panel | None:
    """Return what the heads bear on: the rail, else the thin back, else nothing known."""
    if hung.through is not None:
        return hung.through
    back = back_of(placed.unit, placed.unit.level[-1])
    if back is None:
        return None
    return Panel.model_construct(material=back.material, thickness=back.thickness)


def lever_off(hung: Hung) -> float:
    """Return how far the unit's back stands off the wall [mm]."""
    return hung.through.thickness if hung.behind and hung.through is not None else 0.0


def _forces(
    placed: Placed,
    hung: Hung,
    site: Site,
    heights: np.ndarray,
    pull_share: float,
    shear_share: float,
) -> Demand:
    """Pull and shear on the most loaded fixing, by rotation about the lower rear edge."""
    weights, off = placed.weights, lever_off(hung)
    own = weights.dead
    own_arm = weights.moment(lambda item: item.x + off, moving=False) / own
    goods = weights.contents
    goods_arm = weights.moment(lambda item: item.x + off, moving=True) / goods if goods else 0.0
    found: dict[tuple[str, str], Pull] = {}
    for lasting in LASTING:
        for values in ("design", "recommended"):
            f_G, f_Q, f_P = factors(lasting, values)
            P = f_P * hand(site)
            M = wall_moment(f_G * own, own_arm, P, weights.depth + off)
            M = M + wall_moment(f_Q * goods, goods_arm)
            rows = tension_by_rotation(M, heights)
            V = f_G * own + f_Q * goods + P
            found[lasting, values] = Pull(
                tension=float(rows.max()) * pull_share, shear=V * shear_share
            )
    return found  # type: ignore[return-value]


def _studs_checks(place: Place, row: Row, site: Site) -> Iterator[Check]:
    if site.wall in ("timber stud", "metal stud"):
        yield Check(
            place=place,
            question="studs met",
            method="studs whose middle lies behind the rail",
            source="own count; two studs for wall cabinets: common practice, no source",
            measure="count",
            value=float(row.places),
            limit=2.0,
            at_least=True,
            governs=f"{row.share:.0%} of a row's load on one fixing",
        )


def _rail_check(
    whole: Whole, placed: Placed, hung: Hung, heights: np.ndarray, row: Row, place: Place
) -> Iterator[Check]:
    """The rail as a beam over the studs, bent flat by the pull."""
    if hung.through is None or row.moment <= 0.0:
        return
    site = whole.project.site
    resolved = whole.catalogue.material(hung.through.material, hung.through.thickness)
    allowed = design(
        strength(resolved.material, "along").f_m, resolved.material, site.service_class, "long-term"
    )
    source = "EN 1995-1-1:2004, 6.1.6"
    question = "rail between the fixings"
    if isinstance(allowed, str):
        yield Check(
            place=place, question=question, method="beam over the fixings", source=source,
            measure="stress", reason=f"{resolved.material.called}: {allowed}",
        )  # fmt: skip
        return
    tall = hung.rail_height or ASSUMED_RAIL
    weights, off = placed.weights, lever_off(hung)
    f_G, f_Q, _ = factors("long-term", "design")
    M = f_G * weights.moment(lambda item: item.x + off, moving=False)
    M += f_Q * weights.moment(lambda item: item.x + off, moving=True)
    pull = float(tension_by_rotation(M, heights).max())
    stress = pull * row.moment * 6.0 / (tall * resolved.thickness**2)
    yield Check(
        place=place,
        question=question,
        method="beam over the fixings, bent flat by the pull, factored long-term load",
        source=source,
        measure="stress",
        value=stress,
        limit=allowed,
        governs=f"rail {figure(tall, 'length')} x {figure(resolved.thickness, 'length')}",
        remedy="Use a thicker rail, or more fixings nearer to the sides.",
    )


def _one_lost(
    placed: Placed,
    hung: Hung,
    heights: np.ndarray,
    row: Row,
    chains: dict,  # type: ignore[type-arg]
    site: Site,
    place: Place,
) -> Iterator[Check]:
    """What the others get if any one fixing gives out, loads as they are."""
    weights, off = placed.weights, lever_off(hung)
    M = weights.moment(lambda item: item.x + off, moving=False)
    M += weights.moment(lambda item: item.x + off, moving=True)
    z = np.repeat(heights, row.count)
    lost = float(tension_with_one_lost(M, z))
    known = [
        link.tension
        for link in chains["long-term"].links
        if link.tension is not None and not link.refused
    ]
    blank = [link for link in chains["long-term"].links if link.reason or link.provisional]
    question = "pull if one fixing gives out"
    if not np.isfinite(lost):
        yield Check(
            place=place, question=question, method="group without one fixing",
            source="own derivation", measure="count", value=1.0, limit=2.0, at_least=True,
            governs="one fixing alone", remedy="Use two fixings or more.",
        )  # fmt: skip
        return
    if not known:
        yield Check(
            place=place, question=question, method="group without one fixing, loads as they are",
            source="own derivation", measure="force",
            reason=f"no resistance is known; the others get {figure(lost, 'force', as_mass=True)}",
            remedy=FIND_OUT if site.wall in (None, "unknown") else "",
        )  # fmt: skip
        return
    yield Check(
        place=place,
        question=question,
        method="group without one fixing, loads as they are",
        source="own derivation",
        measure="force",
        value=lost,
        limit=min(known),
        reason="a link of the chain is not checked" if blank else "",
        as_mass=True,
        remedy="Use more fixings.",
    )
