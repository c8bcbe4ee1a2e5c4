"""What to do about each shelf: how far it is off, and the first change that passes.

A remedy is a changed description put through the same checks; none is a rule of thumb.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from shelfload.advise.spot import spot
from shelfload.check.assess import Findings
from shelfload.check.result import Check, Verdict
from shelfload.describe.reader import Description
from shelfload.idealise.place import Place
from shelfload.wording import figure

_SEARCHED = ((15, 3), (30, 1))
"""Up to so many bays, failing shelves for which a change is looked for at once; ``options`` does
the rest."""
_SIDE_BY_SIDE = (
    "Other changes side by side, with what each buys and takes: shelfload options FILE, or "
    "--compare for a page."
)
_NO_MASS = 0.05  # kg, not worth a word


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """One thing to do, or to leave alone.

    Attributes
    ----------
    place : Place
        Where.
    text : str
        What, in plain words.
    """

    place: Place
    text: str


def advise(description: Description, findings: Findings) -> Iterator[Advice]:
    """Say what fails and what would help, then what can be left alone."""
    by_part: dict[Place, list[Check]] = {}
    for check in findings.checks:
        by_part.setdefault(check.place, []).append(check)
    gravest = {place: max(checks, key=_gravity) for place, checks in by_part.items()}
    searched: dict[Place, str] = {}
    for verdict in (Verdict.FAILS, Verdict.NOT_CHECKED, Verdict.CLOSE):
        told: dict[str, list[Place]] = {}
        for place, check in gravest.items():
            if check.verdict is verdict:
                text = _sentence(description, findings, check, searched)
                also = _also(check, by_part[place])
                told.setdefault(text + also, []).append(place)
        for text, places in told.items():
            yield Advice(place=_together(places), text=text)
    if searched:
        yield Advice(place=Place(unit=""), text=_SIDE_BY_SIDE)
    calm = [place for place, check in gravest.items() if check.verdict is Verdict.PASSES]
    if calm:
        yield Advice(place=Place(unit=""), text=_leave_alone(calm, len(by_part)))


def _also(gravest: Check, checks: list[Check]) -> str:
    """Name what else fails or is not checked at the same place."""
    others = [
        check
        for check in checks
        if check is not gravest and check.verdict in (Verdict.FAILS, Verdict.NOT_CHECKED)
    ]
    if not others:
        return ""
    named = dict.fromkeys(f"{check.question} ({check.verdict.value})" for check in others)
    return f" Here also: {', '.join(named)}."


def _gravity(check: Check) -> tuple[int, float]:
    return list(Verdict).index(check.verdict), check.ratio if check.value is not None else 0.0


def _together(places: list[Place]) -> Place:
    """Name several places of one unit in one go."""
    first = places[0]
    if len(places) == 1:
        return first
    if all(place.unit == first.unit for place in places):
        parts = dict.fromkeys(
            ", ".join(piece for piece in (place.part, place.bay) if piece) for place in places
        )
        return Place(unit=first.unit, part=" and ".join(parts))
    return Place(unit=" and ".join(str(place) for place in places))


def _leave_alone(calm: list[Place], count: int) -> str:
    if len(calm) == count:
        return "Everything checked passes: leave it as it is."
    many = f"The other {len(calm)} places pass" if len(calm) > 1 else f"{calm[0]} passes"
    return f"{many}: leave as described."


def _sentence(
    description: Description, findings: Findings, check: Check, searched: dict[Place, str]
) -> str:
    if check.value is None or check.limit is None:
        return f"{check.question} is not checked: {check.reason}. {check.remedy}".rstrip()
    value = figure(check.value, check.measure, as_mass=check.as_mass)
    limit = figure(check.limit, check.measure, as_mass=check.as_mass)
    if check.verdict is Verdict.NOT_CHECKED:
        said = f"{check.question} is {value}, allowed {limit}, but no pass: {check.reason}."
        return f"{said} {check.remedy}".rstrip()
    if check.verdict is Verdict.CLOSE:
        return f"passes, but close: {check.question} {value}, allowed {limit}."
    off = f"{check.question} is {value}, allowed is {limit}."
    return " ".join(
        piece for piece in (off, _help(description, findings, check, searched)) if piece
    )


def _help(
    description: Description, findings: Findings, check: Check, searched: dict[Place, str]
) -> str:
    place = Place(unit=check.place.unit, part=check.place.part)
    if check.remedy or spot(description.project, place) is None:
        return check.remedy or check.reason
    if place not in searched:
        if len(searched) >= _searched(description):
            return "The options command shows what would help."
        searched[place] = _first_change(description, findings, place)
    return searched[place]


def _searched(description: Description) -> int:
    """Return for how many shelves a change is looked for: each takes many whole checks."""
    bays = sum(len(level.bays) for unit in description.project.unit for level in unit.level)
    spans = sum(max(len(lone.spans), 1) for lone in description.project.shelf)
    return next((count for most, count in _SEARCHED if bays + spans <= most), 0)


def _first_change(description: Description, findings: Findings, place: Place) -> str:
    # a description with nothing that fails need not load all the changes there are
    from shelfload.advise.options import first_that_passes

    option, count = first_that_passes(description, place, findings)
    if option is None or option.sag is None:
        return (
            f"None of {count} single changes is enough: the options command looks at pairs; "
            "less load or a shorter span always helps."
        )
    takes = ""
    if option.extra.mass > _NO_MASS:
        takes = f", {figure(option.extra.mass, 'mass')} more"
    return f"Passes with {option.words}: sag {figure(option.sag, 'length')}{takes}."
