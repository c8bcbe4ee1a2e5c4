"""A divider or a doubled panel? Changes to a shelf side by side, each fully checked.

Every option is a changed description put through the same checks as any other; nothing is
judged by a shortcut formula.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from shelfload.advise.changes import (
    Change,
    Kind,
    changes,
    dividers,
    doubles,
    lippings,
)
from shelfload.advise.find import Headroom, headroom
from shelfload.advise.spot import Spot, concerned, spot
from shelfload.check.assess import Findings, assess
from shelfload.check.result import Check, Verdict, worst
from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import Project
from shelfload.describe.reader import Description
from shelfload.errors import UnknownName
from shelfload.idealise.place import Place
from shelfload.idealise.sections import STANDARD_GRAVITY
from shelfload.idealise.shelf_beam import ShelfBeam
from shelfload.idealise.whole import Whole
from shelfload.wording import figure

_GOOD = (Verdict.PASSES, Verdict.CLOSE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One way to build a shelf, with what it does and what it costs.

    Attributes
    ----------
    kind : Kind or None
        What sort of change; None for none.
    words : str
        The change; "as described" for none.
    verdict : Verdict
        The gravest answer of the shelf, and of everything else that the change made worse.
    sag : float or None
        Sag after years of the shelf, its worst bay [mm].
    limit : float or None
        Sag allowed there [mm].
    used : float or None
        Largest utilisation of the shelf [-].
    safe_load : float or None
        Safe even load over the whole shelf, all bays together [N].
    mass : float
        Added mass of the unit or shelf [kg].
    thickness : float
        Clear height lost to the shelf [mm].
    project : Project
        The changed description.
    spoils : str
        What else the change makes fail.
    """

    kind: Kind | None
    words: str
    verdict: Verdict
    sag: float | None
    limit: float | None
    used: float | None
    safe_load: float | None
    mass: float
    thickness: float
    project: Project
    spoils: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Options:
    """The choice for one shelf.

    Attributes
    ----------
    place : Place
        Which shelf.
    now : Option
        As described.
    choices : tuple of Option
        Those worth a look, the smallest change that passes first.
    hidden : int
        How many more were tried and are no better in any respect, or do not pass.
    closing : str
        The choice in plain words.
    headroom : Headroom
        How far load and span are from their limits.
    """

    place: Place
    now: Option
    choices: tuple[Option, ...]
    hidden: int
    closing: str
    headroom: Headroom


def options_for(description: Description, place: Place, *, most: int = 8) -> Options | None:
    """Compare changes to one shelf; None where the place is no shelf.

    Single changes come first; where none passes, a divider or a doubled panel is combined
    with a lipping.
    """
    project = concerned(description.project, place)
    at = spot(project, place)
    if at is None:
        return None
    catalogue = description.catalogue
    before = assess(project, catalogue)
    now = _option(None, "as described", project, place, before, before)
    tried = _tried(changes(at, catalogue), place, before, catalogue)
    if not any(option.verdict in _GOOD for option in tried):
        tried += _tried(_pairs(at), place, before, catalogue)
    shown = _worth_a_look(tried)[:most]
    return Options(
        place=place,
        now=now,
        choices=tuple(shown),
        hidden=len(tried) - len(shown),
        closing=_closing(now, shown),
        headroom=headroom(replace(description, project=project), place),
    )


def compared(
    description: Description, *, unit: str | None = None, shelf: str | None = None
) -> list[Options]:
    """Compare changes for the shelves asked for, or for all that fail or are close.

    Raises
    ------
    UnknownName
        If the description has no such unit or shelf.
    """
    findings = assess(description.project, description.catalogue)
    if unit is None and shelf is None:
        wanted = shelves_to_look_at(findings, description)
    else:
        everywhere = dict.fromkeys(
            Place(unit=check.place.unit, part=check.place.part) for check in findings.checks
        )
        shelves = [place for place in everywhere if spot(description.project, place) is not None]
        wanted = _named(shelves, unit, shelf)
    found = [options_for(description, place) for place in wanted]
    return [one for one in found if one is not None]


def _named(shelves: Sequence[Place], unit: str | None, shelf: str | None) -> list[Place]:
    if unit is not None and unit not in {place.unit for place in shelves}:
        raise UnknownName("unit", unit, [place.unit for place in shelves])
    inside = [place for place in shelves if unit in (None, place.unit)]
    if shelf is not None and shelf not in {place.part for place in inside}:
        raise UnknownName("shelf", shelf, [place.part for place in inside])
    return [place for place in inside if shelf in (None, place.part)]


def first_that_passes(
    description: Description, place: Place, before: Findings
) -> tuple[Option | None, int]:
    """Return the first single change that passes, and how many were tried."""
    project = concerned(description.project, place)
    at = spot(project, place)
    if at is None:
        return None, 0
    if project is not description.project:
        before = assess(project, description.catalogue)
    count = 0
    for change in changes(at, description.catalogue):
        after = assess(change.project, description.catalogue)
        option = _option(change.kind, change.words, change.project, place, before, after)
        count += 1
        if option.verdict in _GOOD:
            return option, count
    return None, count


def shelves_to_look_at(findings: Findings, description: Description) -> list[Place]:
    """Return the shelves that fail or are close, each once."""
    found: dict[Place, None] = {}
    for check in findings.checks:
        if check.verdict in (Verdict.FAILS, Verdict.CLOSE):
            place = Place(unit=check.place.unit, part=check.place.part)
            if spot(description.project, place) is not None:
                found.setdefault(place)
    return list(found)


def _tried(
    wanted: Iterable[Change], place: Place, before: Findings, catalogue: Catalogue
) -> list[Option]:
    """Check changes; of a kind given in rising size, only up to the first that passes."""
    found: list[Option] = []
    done: set[str] = set()
    for change in wanted:
        series = f"{change.kind} {change.words.split(figure(0.0, 'length')[0])[0]}"
        if series in done:
            continue
        after = assess(change.project, catalogue)
        option = _option(change.kind, change.words, change.project, place, before, after)
        found.append(option)
        if option.verdict in _GOOD and change.kind in ("lipping", "thicker", "divider"):
            done.add(series)
    return found


def _pairs(at: Spot) -> Iterable[Change]:
    """Combine a divider, or a glued double, with a lipping; and the two with each other."""
    firsts = [*dividers(at, most=1), *(one for one in doubles(at) if "glued" in one.words)]
    for first in firsts:
        changed = spot(first.project, at.place)
        if changed is None:
            continue
        seconds = list(lippings(changed))
        if first.kind == "divider":
            seconds += [one for one in doubles(changed) if "glued" in one.words]
        for second in seconds:
            words = f"{first.words}, and {second.words}"
            yield Change(kind=second.kind, words=words, project=second.project)


def _option(
    kind: Kind | None, words: str, project: Project, place: Place, before: Findings, after: Findings
) -> Option:
    here = [check for check in after.checks if _at(check.place, place)]
    sags = [check for check in here if check.question.startswith("sag")]
    worst_sag = max(sags, key=lambda check: check.ratio, default=None)
    spoiled = _spoiled(place, before, after)
    verdict = worst(check.verdict for check in here)
    if spoiled:
        verdict = worst((verdict, *(check.verdict for check in spoiled)))
    loads = [load for load in after.safe_loads if _at(load.place, place)]
    known = [load.even for load in loads if load.even is not None]
    return Option(
        kind=kind,
        words=words,
        verdict=verdict,
        sag=None if worst_sag is None else worst_sag.value,
        limit=None if worst_sag is None else worst_sag.limit,
        used=max((check.ratio for check in here if check.value is not None), default=None),
        safe_load=sum(known) if loads and len(known) == len(loads) else None,
        mass=_mass(after.whole, place) - _mass(before.whole, place),
        thickness=_thickness(after.whole, place) - _thickness(before.whole, place),
        project=project,
        spoils="; ".join(f"{check.place}: {check.question}" for check in spoiled),
    )


def _spoiled(place: Place, before: Findings, after: Findings) -> list[Check]:
    """Checks elsewhere that did not fail before and do now."""
    failed = {
        (check.place.unit, check.place.part, check.question)
        for check in before.checks
        if check.verdict is Verdict.FAILS
    }
    return [
        check
        for check in after.checks
        if check.verdict is Verdict.FAILS
        and not _at(check.place, place)
        and (check.place.unit, check.place.part, check.question) not in failed
    ]


def _at(one: Place, other: Place) -> bool:
    return (one.unit, one.part) == (other.unit, other.part)


def _beams(whole: Whole, place: Place) -> list[ShelfBeam]:
    return [beam for beam in whole.beams if beam.place.unit == place.unit]


def _mass(whole: Whole, place: Place) -> float:
    """Mass of the unit's shelves, sides and dividers [kg]: what stands on the floor empty."""
    stacks = [stack for stack in whole.stacks if stack.forces]
    for stack in stacks:
        if stack.forces[0].place.unit == place.unit:
            lowest = min(force.level for force in stack.forces)
            feet = sum(force.dead for force in stack.forces if force.level == lowest)
            bottom = sum(
                _weight(beam) for beam in stack.shelves if beam.place.part == "bottom panel"
            )
            return (feet + bottom) / STANDARD_GRAVITY
    return sum(_weight(beam) for beam in _beams(whole, place)) / STANDARD_GRAVITY


def _weight(beam: ShelfBeam) -> float:
    return beam.shape.weight * beam.result.beam.length


def _thickness(whole: Whole, place: Place) -> float:
    beams = [beam for beam in _beams(whole, place) if _at(beam.place, place)]
    return beams[0].shape.thickness if beams else 0.0


def _worth_a_look(tried: Sequence[Option]) -> list[Option]:
    """Drop what does not pass, and what another passing option beats in every respect.

    The smallest of each kind stays, so that a divider and a doubled panel can always be
    compared. Another material comes last: it is another sheet, not a change to this one.
    """
    passing = [option for option in tried if option.verdict in _GOOD]
    first: dict[Kind | None, Option] = {}
    for option in passing:
        if option.kind not in first or option.mass < first[option.kind].mass:
            first[option.kind] = option
    kept = [
        one
        for one in passing
        if one is first[one.kind] or not any(_beats(other, one) for other in passing)
    ]
    return sorted(
        kept, key=lambda option: (option.kind == "material", option.mass, option.thickness)
    )


def _beats(one: Option, other: Option) -> bool:
    """Whether ``one`` is no heavier, no thicker and no weaker, and better in one of them."""
    if (one.kind == "material") != (other.kind == "material"):
        return False
    mine = (one.mass, one.thickness, -(one.safe_load or 0.0))
    theirs = (other.mass, other.thickness, -(other.safe_load or 0.0))
    return all(a <= b + 1e-9 for a, b in zip(mine, theirs, strict=True)) and mine != theirs


def _closing(now: Option, shown: Sequence[Option]) -> str:
    if now.verdict is Verdict.PASSES:
        return "It passes as described: leave it."
    if not shown:
        return "Nothing tried makes it pass: put less on it, or make it shorter."
    lightest = shown[0]
    most = max(shown, key=lambda option: option.safe_load or 0.0)
    words = f"The smallest change that passes is {lightest.words}."
    if most is not lightest and most.safe_load is not None:
        load = figure(most.safe_load, "force", as_mass=True, down=True)
        words += f" The one that then carries most is {most.words}: {load}."
    return words
