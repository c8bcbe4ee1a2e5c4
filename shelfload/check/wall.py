"""Will it stay on the wall? Hung units, and units hung between their neighbours."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

import numpy as np

from shelfload.check.criteria import design
from shelfload.check.demand import LASTING, Lasting, Shared, factors, link_checks
from shelfload.check.fixing import FIND_OUT, Chain, wall_chain
from shelfload.check.hanging import OVERHEAD_FROM, Hanging, hand, hanging
from shelfload.check.neighbour_bolts import between_checks
from shelfload.check.rail_row import LEAST_STUDS, Row, row_of
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
from shelfload.solve.fixing_group import tension_by_rotation, tension_with_one_lost
from shelfload.wording import figure, size

TOP_ROW = 50.0
"""How far below the top a row of fixings is taken where none is described [mm]."""
ONE_LINE = (
    "one line of fixings alone: if the rail or that line goes, nothing holds it; a second line "
    "lower down (heights) would"
)
ASSUMED_RAIL = 80.0
"""Rail height taken for its bending where none is described [mm]."""


def staying_on_the_wall(whole: Whole) -> Iterable[Answer]:
    """Will each hung unit stay on the wall, and what gives first?"""
    for placed in whole.placed.values():
        if placed.unit.hangs is not None:
            yield _hung(whole, placed, placed.unit.hangs)
        elif placed.unit.between is not None:
            yield between_checks(whole, placed, hand(whole.project.site))


def _hung(whole: Whole, placed: Placed, hung: Hung) -> Answer:
    site = whole.project.site
    unit, weights = placed.unit, placed.weights
    place = Place(unit=unit.name, part="wall")
    heights = hung.heights or (max(weights.height - TOP_ROW, weights.height / 2),)
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
        said.append(f"{unit.name}: one row of fixings, {figure(TOP_ROW, 'length')} below its top")
    said += [f"{unit.name}: {text}" for text in row.said]
    head = head_panel(placed, hung)
    turn = "rotation about the lower rear edge"
    at = np.asarray(heights)
    count = row.count * len(heights)
    load = hanging(whole, placed, hung)
    wall = Shared(
        demand=load.forces(at, row.share, row.share / len(heights)),
        count=count,
        method=turn,
    )
    by_hanger = 1.0 / hung.hangers
    carcass = Shared(
        demand=load.forces(at, by_hanger, by_hanger),
        count=hung.hangers,
        method=turn,
    )
    chains = {
        lasting: wall_chain(hung, head, site, whole.catalogue, lasting) for lasting in LASTING
    }
    said += [f"{unit.name}: {text}" for text in chains["long-term"].said]
    checks = link_checks(place, chains, wall, carcass)
    checks += _studs_checks(place, row, site)
    checks += _rail_check(whole, load, hung, at, row, place)
    if placed.bottom >= OVERHEAD_FROM or site.people_below:
        checks += _one_lost(load, at, row, chains, site, place)
        if len(heights) > 1:
            checks.append(_line_lost(load, at, row, chains, place))
        else:
            said.append(f"{unit.name}: {ONE_LINE}")
    return Answer(checks=tuple(checks), assumptions=tuple(said))


def head_panel(placed: Placed, hung: Hung) -> Panel | None:
    """Return what the heads bear on: the rail, else the thin back, else nothing known."""
    if hung.through is not None:
        return hung.through
    back = back_of(placed.unit, placed.unit.level[-1])
    if back is None:
        return None
    return Panel.model_construct(material=back.material, thickness=back.thickness)


def _studs_checks(place: Place, row: Row, site: Site) -> Iterator[Check]:
    if site.wall in ("timber stud", "metal stud"):
        yield Check(
            place=place,
            question="studs met",
            method="studs whose middle lies behind the rail",
            source="own count; two studs for wall cabinets: common practice, no source",
            measure="count",
            value=float(row.places),
            limit=LEAST_STUDS,
            at_least=True,
            governs=f"{row.share:.0%} of a row's load on one fixing",
        )


def _rail_check(
    whole: Whole, load: Hanging, hung: Hung, heights: np.ndarray, row: Row, place: Place
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
    M = load.moment(*factors("long-term", "design"))
    pull = float(tension_by_rotation(M, heights).max()) * load.skew
    stress = pull * row.moment * 6.0 / (tall * resolved.thickness**2)
    yield Check(
        place=place,
        question=question,
        method="beam over the fixings, bent flat by the pull, factored long-term load",
        source=source,
        measure="stress",
        value=stress,
        limit=allowed,
        governs=f"rail {size(tall)} x {size(resolved.thickness)}",
        remedy="Use a thicker rail, or more fixings nearer to the sides.",
    )


def _one_lost(
    load: Hanging,
    heights: np.ndarray,
    row: Row,
    chains: Mapping[Lasting, Chain],
    site: Site,
    place: Place,
) -> Iterator[Check]:
    """What the others get if any one fixing gives out, loads as they are."""
    M = load.moment(1.0, 1.0, 0.0)
    z = np.repeat(heights, row.count)
    uneven = max(row.share * row.count, 1.0) * load.skew
    lost = float(tension_with_one_lost(M, z)) * uneven
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


def _line_lost(
    load: Hanging, heights: np.ndarray, row: Row, chains: Mapping[Lasting, Chain], place: Place
) -> Check:
    """What the other lines get if the one that pulls hardest gives out, loads as they are."""
    M = load.moment(1.0, 1.0, 0.0)
    left = np.delete(heights, int(np.argmax(heights)))
    links = chains["long-term"].links
    known = [link.tension for link in links if link.tension is not None and not link.refused]
    blank = any(link.reason or link.provisional or link.refused for link in links)
    pull = float(tension_by_rotation(M, left).max()) * row.share * load.skew
    return Check(
        place=place,
        question="pull if one line of fixings gives out",
        method="the other lines, loads as they are",
        source="statics",
        measure="force",
        value=pull,
        limit=min(known, default=None),
        reason="a link of the chain is not checked" if blank or not known else "",
        governs=f"{len(left)} of {len(heights)} lines left",
        as_mass=True,
        remedy="Set the lines further above the underside, or use more fixings in each.",
    )
