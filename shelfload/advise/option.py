"""One way to build something: what the whole check says of it, and what it takes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from shelfload.advise.changes import Kind
from shelfload.advise.find import Headroom
from shelfload.advise.purchase import Extra, Purchase, extra, purchase
from shelfload.check.assess import Findings, assess
from shelfload.check.result import Check, Verdict, worst
from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import Project
from shelfload.idealise.place import Place
from shelfload.idealise.whole import Whole

GOOD = (Verdict.PASSES, Verdict.CLOSE)
_DOUBTFUL = (Verdict.NOT_CHECKED, Verdict.FAILS)
_GRAVITY = {verdict: number for number, verdict in enumerate(Verdict)}


_APART = ("material", "corners")
"""Kinds that are no more of the same: another sheet to buy, or a joint that has to be made well."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One way to build a shelf or a unit, with what it does and what it takes.

    Attributes
    ----------
    kind : Kind or None
        What sort of change; None for none.
    words : str
        The change; "as described" for none.
    verdict : Verdict
        The gravest answer of what is asked, and of everything else that the change made worse.
    sag : float or None
        Sag after years of the shelf, its worst bay [mm].
    limit : float or None
        Sag allowed there [mm].
    used : float or None
        Largest utilisation of what is asked; infinite where it folds [-].
    safe_load : float or None
        Safe even load over the whole shelf, all bays together [N].
    thickness : float
        Clear height lost to the shelf [mm].
    extra : Extra
        What it takes more in mass, pieces, sheets and money.
    project : Project
        The changed description.
    spoils : str
        What else the change makes fail, or leaves open.
    """

    kind: Kind | None
    words: str
    verdict: Verdict
    sag: float | None
    limit: float | None
    used: float | None
    safe_load: float | None
    thickness: float
    extra: Extra
    project: Project
    spoils: str = ""

    @property
    def effort(self) -> tuple[bool, float, int, float]:
        """How large a change it is: smallest first, another material or another corner last.

        What weighs less than before is no smaller change for that; of these the one with the
        fewest pieces comes first.
        """
        return (
            self.kind in _APART,
            max(self.extra.mass, 0.0),
            self.extra.pieces,
            max(self.thickness, 0.0),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Options:
    """The choice for one shelf, or for what holds a unit together.

    Attributes
    ----------
    place : Place
        Which shelf or unit.
    question : str
        What is asked of the unit; empty for a shelf, of which everything is asked.
    now : Option
        As described.
    choices : tuple of Option
        Those worth a look, the smallest change that passes first.
    hidden : int
        How many more were tried and are no better in any respect, or do not pass.
    closing : str
        The choice in plain words.
    headroom : Headroom or None
        How far load and span of a shelf are from their limits.
    currency : str
        Of the price list; empty where there is none.
    """

    place: Place
    question: str = ""
    now: Option
    choices: tuple[Option, ...]
    hidden: int
    closing: str
    headroom: Headroom | None = None
    currency: str = ""


@dataclass(slots=True, kw_only=True)
class Bench:
    """Where changes are tried: what is asked of which place, and how it is as described.

    Attributes
    ----------
    full : Project
        The whole description, for what has to be bought.
    project : Project
        The part of it that a change can touch, which is checked.
    catalogue : Catalogue
        Resolves names.
    place : Place
        Of the shelf or unit.
    asks : callable
        Whether a check is asked of that place.
    before : Findings
        As described.
    instead : callable or None
        Whether a check answers for that place once nothing is asked of it any more.
    count : int
        How many changes were tried.
    """

    full: Project
    project: Project
    catalogue: Catalogue
    place: Place
    asks: Callable[[Check], bool]
    before: Findings
    instead: Callable[[Check], bool] | None = None
    count: int = 0
    _bought: Purchase | None = field(default=None, repr=False)

    def now(self) -> Option:
        """Return what is described as an option of its own."""
        return self._option(None, "as described", self.project, self.before)

    def tried(self, kind: Kind, words: str, project: Project) -> Option:
        """Check a change."""
        self.count += 1
        return self._option(kind, words, project, assess(project, self.catalogue))

    def _option(self, kind: Kind | None, words: str, project: Project, after: Findings) -> Option:
        here = [check for check in after.checks if self.asks(check)]
        if not here and self.instead is not None:
            here = [check for check in after.checks if self.instead(check)]
        sags = [check for check in here if check.question.startswith("sag")]
        worst_sag = max(sags, key=lambda check: check.ratio, default=None)
        spoiled = self._spoiled(after)
        loads = [load for load in after.safe_loads if load.place.same_part(self.place)]
        known = [load.even for load in loads if load.even is not None]
        return Option(
            kind=kind,
            words=words,
            verdict=worst(check.verdict for check in (*here, *spoiled)),
            sag=None if worst_sag is None else worst_sag.value,
            limit=None if worst_sag is None else worst_sag.limit,
            used=max((check.ratio for check in here if check.value is not None), default=None),
            safe_load=sum(known) if loads and len(known) == len(loads) else None,
            thickness=_thickness(after.whole, self.place)
            - _thickness(self.before.whole, self.place),
            extra=self._extra(project),
            project=project,
            spoils="; ".join(
                f"{check.place}: {check.question} ({check.verdict.value})" for check in spoiled
            ),
        )

    def _extra(self, project: Project) -> Extra:
        if self._bought is None:
            self._bought = purchase(self.full, self.catalogue)
        return extra(self._bought, purchase(_put_back(self.full, project), self.catalogue))

    def _spoiled(self, after: Findings) -> list[Check]:
        """Checks elsewhere that fail or are open, and were not so grave before."""
        grave: dict[tuple[str, str, str], int] = {}
        for check in self.before.checks:
            key = (check.place.unit, check.place.part, check.question)
            grave[key] = max(grave.get(key, 0), _GRAVITY[check.verdict])
        return [
            check
            for check in after.checks
            if check.verdict in _DOUBTFUL
            and not self.asks(check)
            and _GRAVITY[check.verdict]
            > grave.get((check.place.unit, check.place.part, check.question), 0)
        ]


def _put_back(full: Project, part: Project) -> Project:
    """Return the whole description with its changed units and shelves in their places."""
    units = {unit.name: unit for unit in part.unit}
    shelves = {lone.name: lone for lone in part.shelf}
    return full.model_copy(
        update={
            "unit": tuple(units.get(unit.name, unit) for unit in full.unit),
            "shelf": tuple(shelves.get(lone.name, lone) for lone in full.shelf),
        }
    )


def worth_a_look(tried: Sequence[Option]) -> list[Option]:
    """Drop what does not pass, and what another passing option beats in every respect.

    The smallest of each kind stays, so that a divider and a doubled panel can always be
    compared. Another material comes last: it is another sheet, not a change to this one.
    """
    passing = [option for option in tried if option.verdict in GOOD]
    first: dict[Kind | None, Option] = {}
    for option in passing:
        if option.kind not in first or option.effort < first[option.kind].effort:
            first[option.kind] = option
    kept = [
        one
        for one in passing
        if one is first[one.kind] or not any(_beats(other, one) for other in passing)
    ]
    return sorted(kept, key=lambda option: option.effort)


def _beats(one: Option, other: Option) -> bool:
    """Whether ``one`` is no larger, no dearer and no weaker, and better in one of them."""
    if (one.kind in _APART or other.kind in _APART) and one.kind != other.kind:
        return False
    if (one.extra.cost is None) != (other.extra.cost is None):
        return False
    mine, theirs = _merits(one), _merits(other)
    return all(a <= b + 1e-9 for a, b in zip(mine, theirs, strict=True)) and mine != theirs


def _merits(option: Option) -> tuple[float, ...]:
    # of what holds a unit together nothing is known but how far it is used
    strength = -(option.safe_load or 0.0) or (option.used or 0.0)
    return (*option.effort[1:], strength, option.extra.cost or 0.0)


def _thickness(whole: Whole, place: Place) -> float:
    beams = (beam for beam in whole.beams if beam.place.same_part(place))
    return next((beam.shape.thickness for beam in beams), 0.0)
