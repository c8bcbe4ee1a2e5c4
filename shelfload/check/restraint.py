"""What ties a standing unit back to the wall: how hard it is pulled, and whether it holds."""

from __future__ import annotations

from collections.abc import Iterator

from shelfload import tables
from shelfload.check.demand import LASTING, Pull, Shared, link_checks
from shelfload.check.fixing import FIND_OUT, Chain, wall_chain
from shelfload.check.hanging import OVERHEAD_FROM
from shelfload.check.result import Check
from shelfload.check.screw import STEEL
from shelfload.check.tipping_body import MARGIN, Body, Scenario, moments
from shelfload.describe.site import NO_FIXING, Site
from shelfload.errors import QuantityError
from shelfload.idealise.arrangement import Placed
from shelfload.idealise.place import Place
from shelfload.idealise.whole import Whole
from shelfload.solve.studs import least_studs_met, stud_places
from shelfload.solve.tipping import restraint_force
from shelfload.wording import figure, size

STUD_EDGE = 25.0
"""Least distance of a restraint from the end of the unit [mm] (common practice, no source)."""
ASSUMED_SPACING = 610.0
"""Widest usual stud spacing [mm], taken where none is described."""
MOST_PER_STUD = 2
"""Fixings of one row that share the load in one stud; more split it (judgement)."""
UNDER_TOP = 50.0
"""How far below the top a restraint is taken where its height is not said [mm]."""


def restraint_checks(
    whole: Whole, placed: Placed, body: Body, asked: list[Scenario]
) -> tuple[list[Check], list[str]]:
    """Force and number of the fixings that tie a unit back, and whether they hold."""
    unit, site = placed.unit, whole.project.site
    place = Place(unit=unit.name, part="restraint")
    height = (unit.restraint.height if unit.restraint else None) or (
        max(placed.weights.height - UNDER_TOP, placed.weights.height / 2)
    )
    if height > placed.weights.height:
        raise QuantityError(
            f"{unit.name}: a restraint at {height:.0f} mm",
            f"a height above the underside up to {placed.weights.height:.0f} mm",
        )
    count = (unit.restraint.count if unit.restraint else None) or 2
    least = tables.figures()["tip-restraint"]
    shared_by = count
    if site.wall == "timber stud":
        spacing = site.stud_spacing or ASSUMED_SPACING
        met = int(least_studs_met(placed.weights.width, spacing, STUD_EDGE))
        shared_by = min(count, MOST_PER_STUD * max(met, 1))
    needed = {}
    for values, factor in (("design", MARGIN), ("recommended", 1.0)):
        total = max(
            float(restraint_force(*moments(body, scenario), height, factor)) for scenario in asked
        )
        needed[values] = Pull(tension=max(total / shared_by, least.low), shear=0.0)
    said = [
        f"{unit.name}: each restraint holds {figure(least.low, 'force')} or more "
        f"({least.source}; {least.status})"
    ]
    words = (
        f"{count} fixings at {figure_of(height)} above its underside, each for "
        f"{figure(needed['design'].tension, 'force')}"
    )
    if unit.restraint is None:
        return [_not_tied(place, site, words)], said
    demand = {(lasting, values): pull for lasting in LASTING for values, pull in needed.items()}
    shared = Shared(demand=demand, count=count, method="moments about the front feet")  # type: ignore[arg-type]
    chains = {
        lasting: wall_chain(unit.restraint, STEEL, site, whole.catalogue, lasting, pull_only=True)
        for lasting in LASTING
    }
    said += [f"{unit.name}: {text}" for text in chains["long-term"].said]
    if unit.restraint.count is None:
        said.append(f"{unit.name}: two restraints")
    checks = link_checks(place, chains, shared, shared)
    if placed.unit.on or placed.bottom >= OVERHEAD_FROM:
        total = max(float(restraint_force(*moments(body, one), height, 1.0)) for one in asked)
        checks.append(_one_lost(place, chains["long-term"], total, count, least.low))
    checks += _studs_behind(whole, placed, count, place)
    if count < 2:
        checks.append(
            Check(
                place=place,
                question="number of restraints",
                method="counted",
                source="two studs near the top: common practice, no source",
                measure="count",
                value=float(count),
                limit=2.0,
                at_least=True,
                remedy="Use two restraints, as far apart as the studs allow.",
            )
        )
    return checks, said


def _one_lost(place: Place, chain: Chain, total: float, count: int, least: float) -> Check:
    """What the others get if one restraint gives out, loads as they are."""
    known = [link.tension for link in chain.links if link.tension is not None and not link.refused]
    blank = any(link.reason or link.provisional or link.refused for link in chain.links)
    question, method = "pull if one restraint gives out", "the others, loads as they are"
    if count < 2:
        return Check(
            place=place, question=question, method=method, source="statics", measure="count",
            value=1.0, limit=2.0, at_least=True, governs="one restraint alone",
            remedy="Use two restraints or more.",
        )  # fmt: skip
    each = max(total / (count - 1), least)
    return Check(
        place=place,
        question=question,
        method=method,
        source="statics",
        measure="force",
        value=each,
        limit=min(known, default=None),
        reason="a link of the chain is not checked" if blank or not known else "",
        governs=f"{count - 1} of {count} left",
        as_mass=True,
        remedy="Use more restraints.",
    )


def _studs_behind(whole: Whole, placed: Placed, count: int, place: Place) -> Iterator[Check]:
    """Whether there is a stud for each of two restraints, wherever the studs may be."""
    site, restraint = whole.project.site, placed.unit.restraint
    if site.wall != "timber stud" or restraint is None:
        return
    width, spacing = placed.weights.width, site.stud_spacing or ASSUMED_SPACING
    if restraint.first_stud is not None:
        met = most = stud_places(0.0, width, spacing, restraint.first_stud, STUD_EDGE).size
    else:
        met = int(least_studs_met(width, spacing, STUD_EDGE))
        most = met + 1
    wanted = min(count, 2)
    yield Check(
        place=place,
        question="studs behind it",
        method=f"studs at {figure_of(spacing)} behind {figure_of(width)}",
        source="own count; two studs near the top: common practice, no source",
        measure="count",
        value=None if met < wanted <= most else float(met),
        limit=float(wanted) - 0.5,
        at_least=True,
        reason=f"it meets {met} or {most} studs, which depends on where they are: find them and "
        "say first_stud"
        if met < wanted <= most
        else "",
        remedy="Move the unit, or fix a batten over two studs and tie the unit to that.",
    )


def _not_tied(place: Place, site: Site, words: str) -> Check:
    if site.wall == NO_FIXING:
        reason = f"no fixing to this wall is allowed; needed are {words}"
        remedy = (
            "Tie it to the ceiling joists, the floor or to units beside it by a means that a "
            "licensed person accepts, or make it lower and deeper."
        )
    elif site.wall is None or site.wall == "unknown":
        reason = f"the wall is not known; needed are {words}"
        remedy = FIND_OUT
    else:
        reason = f"nothing that ties it back is described; needed are {words}"
        remedy = "Say how it is tied back: [unit.restraint] with screw and length, or maker."
    return Check(
        place=place,
        question="tied to the wall",
        method="moments about the front feet, margin 1.5",
        source="ASTM F2057-23 and the Australian information standard of 2024: scope from "
        "686 mm (published)",
        measure="force",
        reason=reason,
        remedy=remedy,
    )


def figure_of(length: float) -> str:
    """Return a length as it stands in a sentence."""
    return size(length)
