"""A divider or a doubled panel? Changes side by side, each fully checked.

Every option is a changed description put through the same checks as any other; nothing is
judged by a shortcut formula.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from itertools import chain
from math import floor

from shelfload.advise.changes import (
    Change,
    changes,
    dividers,
    doubles,
    lippings,
    rear_lippings,
)
from shelfload.advise.find import Headroom, headroom
from shelfload.advise.holding import STAKES, Stake
from shelfload.advise.option import GOOD, Bench, Option, Options, worth_a_look
from shelfload.advise.scaled import load_times, span_times
from shelfload.advise.spot import Spot, concerned, spot
from shelfload.check.assess import Findings, assess
from shelfload.check.result import Check, Verdict
from shelfload.describe.model import Project
from shelfload.describe.reader import Description
from shelfload.describe.stock import one_currency
from shelfload.errors import DescriptionError, Mistake, UnknownName
from shelfload.idealise.geometry import shelf_name
from shelfload.idealise.place import Place
from shelfload.wording import figure

_LESS = ("load", "span")
"""Kinds that ask less of a shelf instead of making it better."""


def options_for(
    description: Description, place: Place, *, most: int = 8, findings: Findings | None = None
) -> Options | None:
    """Compare changes to one shelf; None where the place is no shelf.

    Single changes come first; where none passes, a divider or a doubled panel is combined
    with a lipping. ``findings`` are those of the description, where they are known already.
    """
    bench = _bench(description, place, findings=findings)
    at = spot(bench.project, place)
    if at is None:
        return None
    now = bench.now()
    room = headroom(replace(description, project=bench.project), place)
    tried = _tried(bench, chain(changes(at, bench.catalogue), rear_lippings(at)))
    if not any(option.verdict in GOOD for option in tried):
        tried += _tried(bench, _pairs(at))
    shown = worth_a_look(tried)[:most]
    if now.verdict is Verdict.FAILS:
        shown += [one for one in _tried(bench, _less(at, room)) if one.verdict in GOOD]
    return Options(
        place=place,
        now=now,
        choices=tuple(shown),
        hidden=bench.count - len(shown),
        closing=_closing(now, shown, "Nothing tried makes it pass: put less on it, or make it "
                         "shorter."),
        headroom=room,
        currency=one_currency(description.project.stock),
    )  # fmt: skip


def holding_options(
    description: Description, unit: str, stake: Stake, findings: Findings | None = None
) -> Options:
    """Compare changes to what holds a unit together: backs, corners, or its joins."""
    place = Place(unit=unit)
    bench = _bench(description, place, stake, findings)
    now = bench.now()
    tried = list(stake.options(bench))
    shown = worth_a_look(tried)
    return Options(
        place=place,
        question=stake.words,
        now=now,
        choices=tuple(shown),
        hidden=bench.count - len(shown),
        closing=_closing(now, shown, "Nothing tried here makes it pass: see what the check says."),
        currency=one_currency(description.project.stock),
    )


def _bench(
    description: Description,
    place: Place,
    stake: Stake | None = None,
    findings: Findings | None = None,
) -> Bench:
    project = concerned(description.project, place)
    if findings is None or project != description.project:
        findings = assess(project, description.catalogue)
    return Bench(
        full=description.project,
        project=project,
        catalogue=description.catalogue,
        place=place,
        asks=_of_shelf(place) if stake is None else _of_unit(place, stake),
        before=findings,
        instead=None
        if stake is None
        else lambda check: (
            check.place.unit == place.unit and check.question.startswith(stake.instead)
        ),
    )


def _of_shelf(place: Place) -> Callable[[Check], bool]:
    """Everything about a shelf but its joins, which have options of their own."""
    return lambda check: (
        check.place.same_part(place) and not any(stake.asks(check) for stake in STAKES)
    )


def _of_unit(place: Place, stake: Stake) -> Callable[[Check], bool]:
    return lambda check: check.place.unit == place.unit and stake.asks(check)


def compared(
    description: Description, *, unit: str | None = None, shelf: str | None = None
) -> list[Options]:
    """Compare changes for what is asked for, or for everything that fails or is close.

    Raises
    ------
    UnknownName
        If the description has no such unit or shelf.
    """
    findings = assess(description.project, description.catalogue)
    if unit is None and shelf is None:
        wanted = shelves_to_look_at(findings, description)
    else:
        wanted = _named(_shelves(description.project), unit, shelf)
    found = [options_for(description, place, findings=findings) for place in wanted]
    if shelf is None:
        found += [
            holding_options(description, name, stake, findings)
            for name, stake in _held_badly(findings, description)
            if unit in (None, name)
        ]
    return [one for one in found if one is not None]


def _held_badly(findings: Findings, description: Description) -> list[tuple[str, Stake]]:
    """Units that sway or whose joins fail, each with what is at stake."""
    return [
        (unit.name, stake)
        for unit in description.project.unit
        for stake in STAKES
        if any(
            check.verdict in stake.calls and check.place.unit == unit.name and stake.asks(check)
            for check in findings.checks
        )
    ]


def the_shelf(description: Description, unit: str | None, shelf: str | None) -> Place:
    """Return the place of the one shelf that a unit's and a shelf's name stand for.

    Raises
    ------
    UnknownName
        If the description has no such unit or shelf.
    DescriptionError
        If there are several.
    """
    found = _named(_shelves(description.project), unit, shelf)
    if len(found) > 1:
        named = "; ".join(str(place) for place in found)
        allowed = f"allowed: --unit and --shelf that name one of: {named}"
        raise DescriptionError([Mistake(key="--find", found="several shelves", allowed=allowed)])
    return found[0]


def _shelves(project: Project) -> list[Place]:
    """Every shelf described, on its own or in a unit."""
    lone = [Place(unit=one.name) for one in project.shelf]
    return lone + [
        Place(unit=unit.name, part=shelf_name(unit, number))
        for unit in project.unit
        for number in range(len(unit.level) + 1)
    ]


def _named(shelves: Sequence[Place], unit: str | None, shelf: str | None) -> list[Place]:
    if unit is not None and unit not in {place.unit for place in shelves}:
        raise UnknownName("unit", unit, [place.unit for place in shelves])
    inside = [place for place in shelves if unit in (None, place.unit)]
    if shelf is not None and shelf not in {place.part for place in inside}:
        raise UnknownName("shelf", shelf, [place.part for place in inside])
    return [place for place in inside if shelf in (None, place.part)]


def first_that_passes(
    description: Description, place: Place, findings: Findings
) -> tuple[Option | None, int]:
    """Return the first single change that passes, and how many were tried."""
    bench = _bench(description, place, findings=findings)
    at = spot(bench.project, place)
    if at is None:
        return None, 0
    for change in changes(at, bench.catalogue):
        option = bench.tried(change.kind, change.words, change.project)
        if option.verdict in GOOD:
            return option, bench.count
    return None, bench.count


def shelves_to_look_at(findings: Findings, description: Description) -> list[Place]:
    """Return the shelves that fail or are close, each once."""
    found: dict[Place, None] = {}
    for check in findings.checks:
        if check.verdict in (Verdict.FAILS, Verdict.CLOSE):
            if any(stake.asks(check) for stake in STAKES):
                continue
            place = Place(unit=check.place.unit, part=check.place.part)
            if spot(description.project, place) is not None:
                found.setdefault(place)
    return list(found)


def _tried(bench: Bench, wanted: Iterable[Change]) -> list[Option]:
    """Check changes; of a kind given in rising size, only up to the first that passes."""
    found: list[Option] = []
    done: set[str] = set()
    for change in wanted:
        series = f"{change.kind} {change.words.split(figure(0.0, 'length')[0])[0]}"
        if series in done:
            continue
        option = bench.tried(change.kind, change.words, change.project)
        found.append(option)
        if option.verdict in GOOD and change.kind in ("lipping", "thicker", "divider"):
            done.add(series)
    return found


def _less(at: Spot, room: Headroom) -> Iterable[Change]:
    """Put less on it, or make it shorter: to the percent that passes."""
    if room.load is not None and room.load < 1.0 and (share := floor(room.load * 100.0) / 100.0):
        yield Change(kind="load", words=f"{share:.0%} of its load", project=load_times(at, share))
    if room.span is not None and room.span < 1.0 and (share := floor(room.span * 100.0) / 100.0):
        yield Change(kind="span", words=f"{share:.0%} of its span", project=span_times(at, share))


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


def _closing(now: Option, shown: Sequence[Option], none: str) -> str:
    if now.verdict is Verdict.PASSES:
        return "It passes as described: leave it."
    if not shown:
        return none
    least = shown[0]
    words = f"The smallest change that passes is {least.words}."
    most = max(shown, key=lambda option: option.safe_load or 0.0)
    if most is not least and most.safe_load is not None:
        load = figure(most.safe_load, "force", as_mass=True, down=True)
        words += f" The one that then carries most is {most.words}: {load}."
    priced = [one for one in shown if one.extra.cost is not None and one.kind not in _LESS]
    cheapest = min(priced, key=lambda option: option.extra.cost or 0.0, default=least)
    if cheapest is not least:
        words += f" The cheapest of those with a price is {cheapest.words}."
    return words
