"""Random whole units made worse: nothing that is asked of them may look better for it.

DEVELOPERS.md, "Never quietly unsafe", has the relations and how to run many more examples.
"""

from __future__ import annotations

import random
from typing import Any

from compared import DOUBTFUL, LESS, Asked, all_asked, breaks, materials_in, whole_of
from hypothesis import HealthCheck, Phase, given, note, settings
from hypothesis import strategies as st
from random_parts import Draws, Raw
from random_units import description
from relations import RELATIONS, Relation, both_states, changes

from shelfload.check.result import Check, Verdict
from shelfload.errors import DescriptionError, QuantityError
from shelfload.idealise.arrangement import Placed
from shelfload.idealise.geometry import shelf_name
from shelfload.idealise.weights import horizontal
from shelfload.idealise.whole import Whole

LONG = settings.default.max_examples > 100
RARELY = settings(
    max_examples=settings.default.max_examples if LONG else 16,
    deadline=None,
    derandomize=not LONG,
    database=None,
    # a try costs up to a second: what fails is printed as it was drawn
    phases=[Phase.generate],
    suppress_health_check=list(HealthCheck),
)
MOST = 3
"""Changes of each description."""


def _draws(data: st.DataObject) -> Draws:
    return Draws(lambda low, high: data.draw(st.integers(low, high)))


class _Asked:
    """Findings of raw descriptions; one that several changes start from is asked once."""

    def __init__(self, raw: Raw) -> None:
        self.raw = raw
        self.found: list[Asked] | None = None

    def of(self, raw: Raw, *lowered: Any) -> list[Asked]:
        if lowered or raw != self.raw:
            return all_asked(whole_of(raw, *lowered))
        if self.found is None:
            self.found = all_asked(whole_of(raw))
        return self.found


def _better(d: Draws, asked: _Asked, relation: Relation, before: Raw, after: Raw) -> list[str]:
    """Return what is better after a change; nothing where one of the two can't be described."""
    lowered = [()] * 2
    if relation.weakened:
        of = d.one(*materials_in(before))
        lowered = [(relation.weakened, factor, of) for factor in (1.0, LESS)]
    try:
        was, now = asked.of(before, *lowered[0]), asked.of(after, *lowered[1])
    except (DescriptionError, QuantityError):
        return []
    return [f"{relation.name}: {found}" for found in breaks(was, now, relation)]


@RARELY
@given(data=st.data())
def test_whatever_makes_a_unit_worse_makes_no_answer_better(data):
    d = _draws(data)
    raw = description(d)
    asked = _Asked(raw)
    for relation, before, after in changes(d, raw, MOST):
        better = _better(d, asked, relation, before, after)
        if better:
            note(f"{before}\n->\n{after}")
        assert not better


def test_every_relation_finds_something_to_change():
    """None of them passes because it never applies."""
    idle = {relation.name for relation in RELATIONS}
    for seed in range(300):
        d = Draws(random.Random(seed).randint)  # noqa: S311
        raw = description(d)
        idle -= {r.name for r in RELATIONS if r.name in idle and both_states(d, raw, r)}
    assert not idle


@RARELY
@given(data=st.data())
def test_every_question_is_answered_or_says_why_not(data):
    raw = description(_draws(data))
    try:
        whole = whole_of(raw)
    except (DescriptionError, QuantityError):
        return
    asked = all_asked(whole)
    note(f"{raw}")
    checks = [check for _, check in asked]
    for check in checks:
        assert _is_whole(check), check
    for placed in whole.placed.values():
        told = {who for who, check in asked if check.place.unit == placed.unit.name}
        assert _questions_of(whole, placed) <= told
        parts = {c.place.part for who, c in asked if who == "carrying"}
        shelves = [shelf_name(placed.unit, n) for n in range(len(placed.unit.level) + 1)]
        assert set(shelves) <= parts
        for number, name in enumerate(shelves):
            _asked_of_a_loose_one(placed, number, name, checks)
    for lone in whole.project.shelf:
        own = [check for check in checks if check.place.unit == lone.name]
        assert any(check.question.startswith("sag") for check in own)
        assert lone.supports is None or any(check.place.part == "wall" for check in own)


def _is_whole(check: Check) -> bool:
    if check.verdict is Verdict.NOT_CHECKED:
        return bool(check.reason.strip())
    return None not in (check.value, check.limit)


def _questions_of(whole: Whole, placed: Placed) -> set[str]:
    """Return which questions concern a unit, by how it stands."""
    unit = placed.unit
    wanted = {"carrying", "staying_square", "uprights_carrying", "putting_up"}
    if unit.hangs is not None or unit.between is not None:
        wanted.add("staying_on_the_wall")
    else:
        wanted.add("standing_up")
        above_the_floor = placed.below or unit.underside or unit.rests_on
        wanted.add("standing_on_units" if above_the_floor else "standing_on_the_floor")
    return wanted


def _asked_of_a_loose_one(placed: Placed, number: int, name: str, checks: list[Check]) -> None:
    shelf = horizontal(placed.unit, number)
    own = [c for c in checks if (c.place.unit, c.place.part) == (placed.unit.name, name)]
    if shelf.loose or shelf.pins is not None:
        slips = [check for check in own if check.question.startswith("slips off")]
        assert slips or any(c.verdict in DOUBTFUL or c.value == 0.0 for c in own)
