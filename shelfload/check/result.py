"""What a check says: few stored figures, the rest derived, four answers."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum
from math import inf, isfinite, nan
from typing import TYPE_CHECKING

from shelfload import units
from shelfload.check.join_line import JoinLine
from shelfload.idealise.place import Place
from shelfload.wording import Measure

if TYPE_CHECKING:
    import pint

CLOSE_FROM = 0.9
"""Share of the limit from which a pass is called close (common practice, no source)."""


class Verdict(Enum):
    """The four answers, worst last but one: not checked is never a pass."""

    PASSES = "passes"
    CLOSE = "close"
    NOT_CHECKED = "not checked"
    FAILS = "fails"


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One question asked of one place.

    Attributes
    ----------
    place : Place
        Where.
    question : str
        What is asked, in the trade's words.
    value, limit : float or None
        Demand and what is allowed, in the internal unit of ``measure``.
    measure : Measure
        What the two figures measure.
    at_least : bool
        True where the value must not be below the limit (a margin, an edge distance).
    reason : str
        Why there is no verdict from the figures; set, it makes the check "not checked"
        unless the figures already fail.
    governs : str
        What the figure came from: span, loading pattern, part of the section.
    method, source : str
        How the figure was found, and where the rule comes from.
    as_mass : bool
        Show a load as the mass that weighs on it.
    remedy : str
        What to do about it, where that is not a matter of the shelf's own section.
    """

    place: Place
    question: str
    method: str
    source: str
    measure: Measure
    value: float | None = None
    limit: float | None = None
    at_least: bool = False
    reason: str = ""
    governs: str = ""
    as_mass: bool = False
    remedy: str = ""

    def __post_init__(self) -> None:
        for figure in (self.value, self.limit):
            if figure is not None and not isfinite(figure):
                raise ValueError(f"{self.place}: {self.question}: a figure is not finite")
        if not self.reason and (self.value is None or self.limit is None):
            raise ValueError(f"{self.place}: {self.question}: no figure and no reason")

    def __bool__(self) -> bool:
        raise TypeError("a check has four answers; ask for its verdict")

    @property
    def quantity(self) -> pint.Quantity[float] | None:
        """The value as a quantity, to be asked in any unit; None where it has none."""
        if self.value is None or self.measure == "ratio" or self.measure == "count":
            return None
        return units.quantity(self.value, self.measure)

    @property
    def ratio(self) -> float:
        """Demand over what is allowed: above 1 fails; nan where there is none."""
        if self.value is None or self.limit is None:
            return nan
        over, under = (self.limit, self.value) if self.at_least else (self.value, self.limit)
        if under <= 0.0:
            return inf if over > 0.0 else 0.0
        return over / under

    @property
    def verdict(self) -> Verdict:
        """The answer."""
        ratio = self.ratio
        if ratio > 1.0:
            return Verdict.FAILS
        if self.reason:
            return Verdict.NOT_CHECKED
        return Verdict.CLOSE if ratio >= CLOSE_FROM else Verdict.PASSES


@dataclass(frozen=True, slots=True, kw_only=True)
class SafeLoad:
    """How much one bay of a shelf may carry, self-weight taken off.

    Attributes
    ----------
    place : Place
        Which shelf and bay.
    even : float or None
        Load spread evenly over the bay [N]; None where it is unknown.
    even_per_length : float or None
        The same per length of shelf [N/mm].
    point : float or None
        Load on one spot at the middle of the bay [N].
    governed_by, point_governed_by : str
        The question whose limit is reached first.
    reason : str
        Why it is unknown.
    """

    place: Place
    even: float | None = None
    even_per_length: float | None = None
    point: float | None = None
    governed_by: str = ""
    point_governed_by: str = ""
    reason: str = ""

    def __post_init__(self) -> None:
        if not self.reason and None in (self.even, self.even_per_length, self.point):
            raise ValueError(f"{self.place}: no safe load and no reason")


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What one question gives: checks, safe loads, joins, and what was assumed for them."""

    checks: tuple[Check, ...] = ()
    safe_loads: tuple[SafeLoad, ...] = ()
    joins: tuple[JoinLine, ...] = ()
    assumptions: tuple[str, ...] = ()
    models: tuple[tuple[Place, str], ...] = ()


def worst(verdicts: Iterable[Verdict]) -> Verdict:
    """Return the gravest of several verdicts: fails, then not checked, close, passes."""
    order = list(Verdict)
    return max(verdicts, key=order.index, default=Verdict.NOT_CHECKED)


def worst_of_each_question(checks: Iterable[Check]) -> list[Check]:
    """Keep of each question the gravest check, in the order in which they were first asked."""
    order = list(Verdict)

    def gravity(check: Check) -> tuple[int, float]:
        known = check.value is not None and check.limit is not None
        return order.index(check.verdict), check.ratio if known else 0.0

    found: dict[str, Check] = {}
    for check in checks:
        before = found.get(check.question)
        if before is None or gravity(check) > gravity(before):
            found[check.question] = check
    return list(found.values())
