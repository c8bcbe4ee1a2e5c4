"""Where the fixings of a rail are, and how evenly they share what hangs from it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from shelfload.check.restraint import ASSUMED_SPACING, MOST_PER_STUD, STUD_EDGE
from shelfload.check.result import Check
from shelfload.describe.site import Site
from shelfload.describe.standing import Hung
from shelfload.idealise.place import Place
from shelfload.solve.studs import continuous_rail, least_studs_met, stud_places
from shelfload.wording import size

LEAST_STUDS = 1.5
"""More than one stud: half-way between, so that two pass and are not called close."""


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
        () if site.stud_spacing else (f"studs at {size(spacing)}, the widest usual spacing",)
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
    count = min(max(hung.count or fewest, fewest), MOST_PER_STUD * fewest)
    if hung.count is not None and hung.count > count:
        said = (*said, f"no more than {MOST_PER_STUD} fixings of a row counted in each stud")
    per_stud = count // fewest
    return Row(places=fewest, count=count, share=worst[0] / per_stud, moment=worst[1], said=said)


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
        method=f"studs at {size(spacing)} behind {size(width)} of rail",
        source="own count; two studs for wall cabinets: common practice, no source",
        measure="count",
        value=float(met),
        limit=LEAST_STUDS,
        at_least=True,
        remedy="Let a longer rail reach two studs or more, or set a batten between the studs.",
    )
