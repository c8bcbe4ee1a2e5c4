"""A shelf that has sagged already: what of it is set, and what each remedy does now.

What is measured corrects what is computed: the elastic part and the creep of this shelf are
those that it showed, and every remedy is checked as a changed description, scaled alike.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import inf
from typing import Any

from shelfload.advise.asked import Reader, above_zero
from shelfload.advise.changes import Change, backs, dividers, doubles, lippings
from shelfload.advise.sagged import Sagged, SaggedShelf, as_seen, computed_shelf, is_at
from shelfload.advise.spot import Spot, spot
from shelfload.check.assess import Findings, assess
from shelfload.check.result import Verdict
from shelfload.describe.reader import Description
from shelfload.errors import DescriptionError, Mistake
from shelfload.idealise.place import Place
from shelfload.idealise.shelf_beam import ShelfBeam
from shelfload.solve.creep import crept, set_left, turned_over, turned_until
from shelfload.units import read
from shelfload.wording import figure

FULL_YEARS = 10.0
"""When creep has come to the kdef of the code: permanent loads last more than 10 years
(EN 1995-1-1:2004, Table 2.1)."""
POWERS = (0.20, 0.33)
"""Powers of time between which creep of wood and boards grows (Findley's law, from memory)."""
FAR_OFF = (0.7, 1.3)
"""Sag over what was expected, beyond which something else is wrong (judgement)."""
PRESSED_OUT = 0.026
"""Share of a set that a prop at mid-span leaves: evenly loaded against centrally loaded shape."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """What a remedy does: sag [mm] at once and after years, and whether that is allowed.

    Sags are None where they can't be worked out; ``limit`` is what the span it leaves allows.
    """

    words: str
    at_once: float | None
    after_years: float | None
    limit: float
    note: str = ""
    verdict: Verdict = Verdict.NOT_CHECKED


@dataclass(frozen=True, slots=True, kw_only=True)
class Repair:
    """The state of a shelf and the choice.

    Attributes
    ----------
    place : Place
        Which shelf.
    elastic, set : float
        Part of its sag that goes with the load, and part that stays at first [mm].
    expected : float
        Sag that the description would have led to by now [mm].
    limit : float
        Sag allowed [mm].
    remedies : tuple of Remedy
        Leaving it first.
    findings : tuple of str
        The state in words.
    turned : tuple of float
        Years after turning over until it sags as now, least and most; inf for never.
    """

    place: Place
    elastic: float
    set: float
    expected: float
    limit: float
    remedies: tuple[Remedy, ...]
    findings: tuple[str, ...]
    turned: tuple[float, float]


def repaired(description: Description, place: Place, seen: Sagged) -> Repair:
    """Work out what a sagged shelf has come to and what each remedy would do.

    Raises
    ------
    DescriptionError
        If the place is no shelf with a sag, or what was seen can't be.
    """
    at = spot(description.project, place)
    before = assess(description.project, description.catalogue)
    computed = None if at is None else computed_shelf(before, place)
    if at is None or computed is None:
        raise _mistake("--shelf", str(place), "a shelf whose sag can be worked out")
    if seen.emptied is not None and not 0.0 <= seen.emptied < seen.loaded:
        raise _mistake("--emptied", "as much as under load", "less than the sag under load")
    power = sum(POWERS) / 2.0
    by_now = float(crept(seen.years, computed.creep, FULL_YEARS, power))
    expected = computed.first * (1.0 + by_now)
    shelf = as_seen(computed, seen, by_now)
    set_now = shelf.elastic * shelf.creepier * by_now
    law = (shelf.k_def, FULL_YEARS)
    turned = sorted(
        float(turned_until(seen.loaded / shelf.elastic, seen.years, *law, m)) for m in POWERS
    )
    leaving = Remedy(
        words="leave it as it is",
        at_once=seen.loaded,
        after_years=max(shelf.final, seen.loaded),
        limit=shelf.limit,
        verdict=_verdict(max(shelf.final, seen.loaded), shelf.limit),
    )
    turning = Remedy(
        words="turn it over",
        at_once=shelf.elastic * float(turned_over(0.0, seen.years, *law, power)),
        after_years=shelf.final,
        limit=shelf.limit,
        note=_turning(at, turned),
        verdict=_verdict(shelf.final, shelf.limit),
    )
    empty = Remedy(
        words="empty it for a year",
        at_once=set_now,
        after_years=shelf.elastic * float(set_left(1.0, seen.years, *law, power)),
        limit=shelf.limit,
        note="stays empty: filled again it soon sags as before, and some set stays for good",
    )
    return Repair(
        place=place,
        elastic=shelf.elastic,
        set=set_now,
        expected=expected,
        limit=shelf.limit,
        remedies=(leaving, turning, empty, *_stiffened(description, at, shelf, set_now)),
        findings=tuple(_state(before, place, seen, set_now, expected)),
        turned=(turned[0], turned[-1]),
    )


def _mistake(key: str, found: str, allowed: str) -> DescriptionError:
    return DescriptionError([Mistake(key=key, found=found, allowed=f"allowed: {allowed}")])


def _verdict(sag: float, limit: float) -> Verdict:
    return Verdict.PASSES if sag <= limit else Verdict.FAILS


def _turning(at: Spot, turned: list[float]) -> str:
    shape = at.shelf
    if shape.lipping_front or shape.lipping_rear:
        return "its strip would then stand up: not with this shelf"
    if turned[-1] == inf:
        again = "it sagged beyond what it will come to, and does not reach that again"
    elif turned[-1] < 1.0 / 12.0:
        again = "it is as bad as now again within a month"
    else:
        again = f"as bad as now again after {_years(turned[0])} to {_years(turned[-1])}"
    fixed = "" if shape.loose else "; only if it can be taken out"
    return f"{again}{fixed}"


def _years(time: float) -> str:
    if time == inf:
        return "never"
    return f"{time * 12.0:.0f} months" if time < 2.0 else f"{time:.0f} years"


def _stiffened(
    description: Description, at: Spot, shelf: SaggedShelf, set_now: float
) -> Iterator[Remedy]:
    """Strips, a back, a divider, a second panel: the first of each kind that does, or the most."""
    for kind, tried in (
        ("front strip", (one for one in lippings(at) if "rear" not in one.words)),
        ("strips", (one for one in lippings(at) if "rear" in one.words)),
        ("back", backs(at)),
        ("divider", dividers(at, most=1)),
        ("double", (one for one in doubles(at) if "glued" in one.words)),
    ):
        last: Remedy | None = None
        for change in tried:
            last = _with(description, at, shelf, set_now, change, kind)
            if last.verdict is Verdict.PASSES:
                break
        if last is not None:
            yield last


def _with(
    description: Description,
    at: Spot,
    shelf: SaggedShelf,
    set_now: float,
    change: Change,
    kind: str,
) -> Remedy:
    after = assess(change.project, description.catalogue)
    computed = computed_shelf(after, at.place)
    if computed is None:
        return Remedy(
            words=change.words,
            at_once=None,
            after_years=None,
            limit=shelf.limit,
            note="can't be worked out",
        )
    if kind == "divider":
        left = PRESSED_OUT * set_now
        note = "presses the set out while it is empty: wedge it up to level"
    elif kind == "back":
        left = set_now / 2.0
        note = "rear edge pressed level first: the set stays in front; so does a cleat under it"
    else:
        left = set_now * _spring_back(description, at, change)
        note = "glued on while empty and propped straight; about this much of the set springs back"
    elastic = shelf.softer * computed.first
    # what has crept already creeps no further: no remedy that stiffens ends up worse than none
    final = min(left + elastic * (1.0 + shelf.creepier * computed.creep), shelf.final)
    spoils = [
        check
        for check in after.checks
        if check.verdict is Verdict.FAILS
        and (check.place.unit, check.place.part) == (at.place.unit, at.place.part)
        and not check.question.startswith("sag")
    ]
    if spoils:
        note += f"; but it fails for {spoils[0].question}"
    return Remedy(
        words=change.words,
        at_once=left + elastic,
        after_years=final,
        limit=computed.limit,
        note=note,
        verdict=Verdict.FAILS if spoils else _verdict(final, computed.limit),
    )


def _spring_back(description: Description, at: Spot, change: Change) -> float:
    """Share of a set that comes back when a panel held straight and stiffened is let go.

    Source: own derivation: the moment that holds the panel straight, EI kappa, bends the
    stiffened section back by EI kappa / EI'.
    """
    now = _stiffness(assess(at.project, description.catalogue), at.place)
    then = _stiffness(assess(change.project, description.catalogue), at.place)
    return min(now / then, 1.0)


def _stiffness(findings: Findings, place: Place) -> float:
    beams: list[ShelfBeam] = [beam for beam in findings.whole.beams if is_at(beam.place, place)]
    return min(beam.shape.EI_used for beam in beams)


def _state(
    findings: Findings,
    place: Place,
    seen: Sagged,
    set_now: float,
    expected: float,
) -> Iterator[str]:
    failing = [
        check.question
        for check in findings.checks
        if is_at(check.place, place)
        and check.verdict is Verdict.FAILS
        and not check.question.startswith("sag")
    ]
    if failing:
        yield (
            f"Take the load off now: it fails for {', '.join(dict.fromkeys(failing))}, not only "
            "for its sag."
        )
    known = "measured" if seen.emptied is not None else "worked out, not measured: empty it to see"
    yield (
        f"Of its {figure(seen.loaded, 'length')}, {figure(seen.loaded - set_now, 'length')} goes "
        f"when it is emptied and {figure(set_now, 'length')} is set ({known})."
    )
    ratio = seen.loaded / expected
    yield (
        f"The description would have led to {figure(expected, 'length')} by now: it sagged "
        f"{figure(ratio, 'ratio')} times that."
    )
    if not FAR_OFF[0] <= ratio <= FAR_OFF[1]:
        cause = (
            "heavier contents, a softer sheet, damp, supports that give, or a cracked panel"
            if ratio > 1.0
            else "lighter contents, a stiffer sheet, or ends and back that hold it"
        )
        yield (
            f"That is far from what was described. Look for the reason ({cause}) before mending "
            "it; a crack or a loose joint is not mended by any of these."
        )


def sagged_asked(options: Mapping[str, Any]) -> Sagged:
    """Read what was seen.

    Raises
    ------
    DescriptionError
        With every mistake, each under the name of its option.
    """
    reader = Reader()
    loaded = reader.read("--sag", above_zero, options["sag"], 1.0)
    emptied = options["emptied"]
    if emptied is not None:
        emptied = reader.read("--emptied", lambda text: read(text, "length"), emptied, 0.0)
    reader.done()
    return Sagged(years=options["years"], loaded=loaded, emptied=emptied)
