"""Changes to what holds a unit together: backs and corners against swaying, and its joins."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from math import ceil, floor, inf, log10

from shelfload.advise.changes import Kind
from shelfload.advise.option import GOOD, Bench, Option
from shelfload.advise.search import largest_below
from shelfload.check.assess import assess
from shelfload.check.back_fasteners import QUESTION as FASTENERS
from shelfload.check.frame import TRIED
from shelfload.check.joins import WHAT
from shelfload.check.racking import QUESTION as SQUARE
from shelfload.check.result import Check, Verdict
from shelfload.describe.joins import Join
from shelfload.describe.model import Project, Unit
from shelfload.describe.parts import Back
from shelfload.idealise.backs import NAIL_DIAMETER, SCREW_DIAMETER
from shelfload.idealise.stack import back_of
from shelfload.wording import figure, size

SHEETS = (
    Back.model_construct(
        material=TRIED[0], thickness=TRIED[1], fixed="nailed", spacing=TRIED[2],
        diameter=NAIL_DIAMETER, length=25.0,
    ),
    Back.model_construct(
        material="birch-plywood", thickness=6.5, fixed="screwed", spacing=150.0,
        diameter=SCREW_DIAMETER, length=30.0,
    ),
    Back.model_construct(material="birch-plywood", thickness=6.5, fixed="glued"),
)  # fmt: skip
"""Backs that are tried where one is missing: thin and nailed, stiffer on screws, and glued."""
_SOFTEST, _STIFFEST = 1e5, 1e11
"""Stiffness of corners between which brackets are looked for [N mm/rad]."""
_NEAR = 0.05  # how near: the figure is rounded up to two digits anyway
_JOINS: dict[str, tuple[str, ...]] = {
    "shelves": (WHAT["shelf end"], WHAT["cleat"]),
    "sides": (WHAT["side by side"],),
    "stack": (WHAT["box on box"],),
}
_IN_WORDS = {"shelves": "shelf ends", "sides": "boxes side by side", "stack": "box on box"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Stake:
    """What is asked of a unit, its questions, and the answers that call for a change.

    ``instead`` answers where a change leaves none of the questions: a shelf in housings has no
    screws that carry, but its bearing.
    """

    words: str
    questions: tuple[str, ...]
    calls: tuple[Verdict, ...]
    options: Callable[[Bench], Iterator[Option]]
    instead: tuple[str, ...] = ()

    def asks(self, check: Check) -> bool:
        """Whether a check is one of them."""
        return check.question.startswith(self.questions)


def _unit_of(bench: Bench) -> Unit:
    return next(unit for unit in bench.project.unit if unit.name == bench.place.unit)


def _with(bench: Bench, **update: object) -> Project:
    changed = _unit_of(bench).model_copy(update=update)
    units = tuple(changed if one.name == changed.name else one for one in bench.project.unit)
    return bench.project.model_copy(update={"unit": units})


def square_options(bench: Bench) -> Iterator[Option]:
    """Try backs, better fixed backs, glued corners, and corners with brackets."""
    unit = _unit_of(bench)
    without = [n for n, level in enumerate(unit.level) if back_of(unit, level) is None]
    if without:
        for sheet in SHEETS:
            yield from _fewest_backs(bench, sheet, without)
    if len(without) < len(unit.level):
        yield from _better_backs(bench, without)
    if unit.corners == "pinned":
        yield bench.tried("corners", "its corners glued", _with(bench, corners="glued"))
        yield from _brackets(bench)


def _fewest_backs(bench: Bench, sheet: Back, levels: list[int]) -> Iterator[Option]:
    """Back every open level, then take away again what is not needed."""
    best = _backed(bench, sheet, levels)
    if best.verdict in GOOD:
        kept = levels
        for level in reversed(levels):
            fewer = [one for one in kept if one != level]
            if fewer and (option := _backed(bench, sheet, fewer)).verdict in GOOD:
                kept, best = fewer, option
    yield best


def _backed(bench: Bench, sheet: Back, levels: list[int]) -> Option:
    unit = _unit_of(bench)
    changed = tuple(
        level.model_copy(update={"back": sheet}) if number in levels else level
        for number, level in enumerate(unit.level)
    )
    material = bench.catalogue.material(sheet.material, sheet.thickness).material
    board = f"{size(sheet.thickness)} {material.called}"
    fixed = "glued on"
    if sheet.spacing is not None:
        of = f"{size(sheet.diameter or 0.0)} x {size(sheet.length or 0.0)}"
        fixed = f"{sheet.fixed} ({of}) every {size(sheet.spacing, down=True)}"
    where = "all levels" if len(levels) == len(unit.level) else _levels_in_words(levels)
    words = f"a back of {board} {fixed} in {where}"
    return bench.tried("back", words, _with(bench, level=changed))


def _levels_in_words(levels: list[int]) -> str:
    numbers = [str(level + 1) for level in levels]
    if len(numbers) == 1:
        return f"level {numbers[0]}"
    return f"levels {', '.join(numbers[:-1])} and {numbers[-1]}"


def _better_backs(bench: Bench, without: list[int]) -> Iterator[Option]:
    changes: list[tuple[str, Callable[[Back], Back]]] = [
        ("its backs glued on", lambda back: back.model_copy(update={"fixed": "glued"})),
        ("its backs fixed twice as closely", _closer),
        ("its backs a size thicker", lambda back: _thicker(bench, back)),
    ]
    unit = _unit_of(bench)
    for words, change in changes:
        levels = tuple(
            level
            if number in without or (back := back_of(unit, level)) is None
            else level.model_copy(update={"back": change(back)})
            for number, level in enumerate(unit.level)
        )
        if levels != unit.level:
            yield bench.tried("back", words, _with(bench, level=levels))


def _closer(back: Back) -> Back:
    if back.spacing is None or back.fixed == "glued":
        return back
    return back.model_copy(update={"spacing": back.spacing / 2.0})


def _thicker(bench: Bench, back: Back) -> Back:
    row = bench.catalogue.material(back.material, back.thickness).material
    larger = [sheet for sheet in bench.catalogue.sheets(row) if sheet > back.thickness + 0.5]
    return back.model_copy(update={"thickness": larger[0]}) if larger else back


def _brackets(bench: Bench) -> Iterator[Option]:
    """Find how stiff brackets in the corners must be; their maker must say that they are."""

    def stiff(corner: float) -> Project:
        return _with(bench, corners=corner)

    def demand(softness: float) -> float:
        bench.count += 1
        checks = [
            check
            for check in assess(stiff(1.0 / softness), bench.catalogue).checks
            if bench.asks(check)
        ]
        if any(check.verdict is Verdict.NOT_CHECKED for check in checks):
            return inf
        return max((check.ratio for check in checks), default=inf)

    softest = largest_below(demand, 1.0 / _STIFFEST, 1.0 / _SOFTEST, within=_NEAR)
    if softest is None:
        return
    needed = _rounded_up(1.0 / softest)
    words = (
        f"brackets in its corners that resist {figure(needed, 'rotational stiffness')} each, by "
        "their maker's figure"
    )
    yield bench.tried("corners", words, stiff(needed))


def _rounded_up(value: float) -> float:
    """Round up to two digits."""
    step = 10.0 ** (floor(log10(value)) - 1)
    return ceil(value / step - 1e-9) * step


def join_options(bench: Bench) -> Iterator[Option]:
    """Try other screws, more of them, bolts, and for shelf ends a cleat or a housing."""
    joins = _unit_of(bench).joins
    for key, questions in _JOINS.items():
        join: Join | None = getattr(joins, key)
        asked = any(
            check.question.startswith(questions) and check.verdict in _OPEN
            for check in bench.before.checks
            if check.place.unit == bench.place.unit
        )
        if join is None or not asked:
            continue
        for words, other in _other_joins(key, join):
            changed = joins.model_copy(update={key: other})
            kind: Kind = "join"
            words = f"{_IN_WORDS[key]}: {words}"
            yield bench.tried(kind, words, _with(bench, joins=changed))


def _other_joins(key: str, join: Join) -> Iterator[tuple[str, Join]]:
    if join.screw is not None:
        chosen = join.model_copy(update={"screw": None, "count": None, "spacing": None})
        yield f"the {join.by} that the join list chooses", chosen
    if join.count is not None:
        yield (
            f"{2 * join.count} instead of {join.count} in each",
            join.model_copy(update={"count": 2 * join.count}),
        )
    if join.spacing is not None:
        yield "twice as many", join.model_copy(update={"spacing": join.spacing / 2.0})
    if join.by != "bolts":
        yield "bolts right through", Join.model_construct(by="bolts")
    if key == "shelves":
        if join.by != "cleat":
            yield "a cleat screwed under each", Join.model_construct(by="cleat")
        if join.by != "housing":
            yield "housed in the uprights", Join.model_construct(by="housing")


_OPEN = (Verdict.FAILS, Verdict.NOT_CHECKED)

STAKES = (
    Stake(
        words="staying square",
        questions=(SQUARE, "glued corners hold", "back buckles in shear", FASTENERS),
        calls=(Verdict.FAILS,),
        options=square_options,
    ),
    Stake(
        words="its joins",
        questions=tuple(question for named in _JOINS.values() for question in named),
        calls=_OPEN,
        options=join_options,
        instead=("bearing",),
    ),
)
