"""Forces on the most loaded fixing, and how each link of its chain stands up to them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from shelfload.check.criteria import GAMMA_G, GAMMA_Q
from shelfload.check.fixing import Chain, Link, Values
from shelfload.check.result import Check, worst_of_each_question
from shelfload.idealise.place import Place
from shelfload.solve.fixing_group import interaction
from shelfload.wording import figure

Lasting = Literal["long-term", "short-term"]
LASTING: tuple[Lasting, ...] = ("long-term", "short-term")


@dataclass(frozen=True, slots=True, kw_only=True)
class Pull:
    """Tension and shear on one fixing [N]."""

    tension: float
    shear: float


Demand = Mapping[tuple[Lasting, Values], Pull]
"""Forces by load duration, factored ("design") and as they are ("recommended")."""


def factors(lasting: Lasting, values: Values) -> tuple[float, float, float]:
    """Return the factors on own weight, contents and a passing hand or body."""
    passing = 1.0 if lasting == "short-term" else 0.0
    if values == "recommended":
        return 1.0, 1.0, passing
    return GAMMA_G, GAMMA_Q, GAMMA_Q * passing


@dataclass(frozen=True, slots=True, kw_only=True)
class Shared:
    """Forces on the most loaded of a number of fixings, and how they were found."""

    demand: Demand
    count: int
    method: str


def link_checks(
    place: Place, chains: Mapping[Lasting, Chain], wall: Shared, carcass: Shared
) -> list[Check]:
    """Return one check for each link, the weakest of them named."""
    pairs = zip(*(chains[lasting].links for lasting in LASTING), strict=True)
    asked = [
        check
        for links in pairs
        for check in _asked(place, links, carcass if links[0].of_carcass else wall)
    ]
    checks = worst_of_each_question(asked)
    known = [check for check in checks if check.value is not None and check.limit is not None]
    if not known:
        return checks
    weakest = max(known, key=lambda check: check.ratio)
    words = "weakest link" if len(known) == len(checks) else "weakest of the links that are known"
    return [
        replace(check, governs=f"{check.governs}; {words}".removeprefix("; "))
        if check is weakest
        else check
        for check in checks
    ]


def _asked(place: Place, links: Sequence[Link], shared: Shared) -> Iterator[Check]:
    for lasting, link in zip(LASTING, links, strict=True):
        yield _check(place, link, shared, lasting)


def _check(place: Place, link: Link, shared: Shared, lasting: Lasting) -> Check:
    pull = shared.demand[lasting, link.values]
    forces = f"each of {shared.count}: pull {_mass(pull.tension)}"
    if pull.shear:
        forces += f", shear {_mass(pull.shear)}"
    question = f"holds: {link.name}"
    method = f"{shared.method}, {lasting} load" + (
        ", factored" if link.values == "design" else ", loads as they are"
    )
    reason = link.reason
    if not reason and link.sees_both:
        missing = [
            word
            for word, known, needed in (
                ("pull", link.tension, pull.tension),
                ("shear", link.shear, pull.shear),
            )
            if known is None and needed > 0.0
        ]
        if missing:
            reason = f"no {' and no '.join(missing)} is declared"
    if reason:
        return Check(
            place=place,
            question=question,
            method=method,
            source=link.source,
            measure="force",
            reason=f"{reason}; {forces}",
            remedy=link.remedy,
        )
    governs = "; ".join(filter(None, (link.refused or link.governs, forces)))
    if link.tension is not None and link.shear is not None and not link.refused:
        used = float(
            interaction(pull.tension, link.tension, pull.shear, link.shear, link.power)
        ) ** (1.0 / link.power)
        return Check(
            place=place,
            question=question,
            method=f"{method}, pull and shear together",
            source=link.source,
            measure="ratio",
            value=used,
            limit=1.0,
            reason=link.provisional,
            governs=f"{governs}; may pull {_mass(link.tension)} or shear {_mass(link.shear)}",
            remedy=link.remedy,
        )
    value, limit = (
        (pull.tension, link.tension) if link.tension is not None else (pull.shear, link.shear)
    )
    if link.refused:
        value = max(pull.tension, pull.shear)
    return Check(
        place=place,
        question=question,
        method=method,
        source=link.source,
        measure="force",
        value=value,
        limit=limit,
        reason=link.provisional,
        governs=governs,
        as_mass=True,
        remedy=link.remedy,
    )


def _mass(force: float) -> str:
    return figure(force, "force", as_mass=True)
