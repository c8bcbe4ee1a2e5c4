"""Findings of two descriptions compared question by question, for relations between them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import isnan
from typing import Any

from random_parts import Raw
from relations import Relation

from shelfload import tables
from shelfload.check.assess import QUESTIONS, _put
from shelfload.check.result import Check, Verdict, worst
from shelfload.describe.catalogue import Catalogue
from shelfload.describe.reader import read_raw
from shelfload.idealise.whole import Whole, idealise
from shelfload.tables import Material
from shelfload.tables.stock import materials

DOUBTFUL = (Verdict.FAILS, Verdict.NOT_CHECKED)
LESS = 0.8
"""What is left of a figure of a material that is lowered."""
Asked = tuple[str, Check]
"""Name of the function that asked, and what it found."""


def materials_in(raw: Raw) -> list[str]:
    """Return the names of all materials that a raw description uses, each once."""

    def within(value: Any) -> Iterator[str]:
        if isinstance(value, dict):
            if isinstance(value.get("material"), str):
                yield value["material"]
            value = list(value.values())
        if isinstance(value, list):
            for one in value:
                yield from within(one)

    return sorted(set(within({key: raw[key] for key in raw if key != "materials"})))


def whole_of(raw: Raw, figure: str = "", factor: float = 1.0, of: str = "") -> Whole:
    """Idealise a raw description, one figure of one of its materials times a factor."""
    description = read_raw(raw)
    catalogue = description.catalogue
    if figure:
        own = {**catalogue.own_materials}
        own |= {row.name: _lowered(row, figure, factor) for row in _rows(catalogue, of)}
        catalogue = _Lowered(own, catalogue.own_contents, catalogue.own_fixings)
    return idealise(description.project, catalogue)


def _lowered(row: Material, figure: str, factor: float) -> Material:
    known = getattr(row, figure)
    return row if known is None else replace(row, **{figure: factor * known})


def _rows(catalogue: Catalogue, name: str) -> list[Material]:
    """Return the rows that a name may stand for: its own, or all thicknesses of its family."""
    own = catalogue.own_materials.get(name)
    return [own] if own is not None else list(tables.families().get(name) or [materials()[name]])


class _Lowered(Catalogue):
    """A catalogue that looks for the row behind a name before it looks for the user's own."""

    def material(self, name: str, thickness: float | None = None) -> tables.Resolved:
        found = Catalogue(
            {key: row for key, row in self.own_materials.items() if row.status == "own"}
        ).material(name, thickness)
        return replace(found, material=self.own_materials.get(found.material.name, found.material))


def all_asked(whole: Whole) -> list[Asked]:
    """Put every question and keep who asked it."""
    return [
        (question.__name__, check)
        for question in QUESTIONS
        for answer in _put(question, whole)
        for check in answer.checks
    ]


def words_of(check: Check) -> str:
    """Return a question without what is added to it: people, drawers, a line of screws lost."""
    return check.question.partition(",")[0]


@dataclass(frozen=True)
class Break:
    """Something that got better and should not have."""

    what: str
    unit: str
    part: str
    bay: str
    question: str
    before: str
    after: str

    def __str__(self) -> str:
        at = " ".join(filter(None, (self.unit, self.part, self.bay)))
        return f"{at}: {self.question}: {self.what}: {self.before} -> {self.after}"


def _key(check: Check, relation: Relation) -> tuple[str, str, str, str]:
    bay = "" if relation.by_part else check.place.bay
    return check.place.unit, check.place.part, bay, words_of(check)


def _spared(asked: list[Asked], relation: Relation) -> set[tuple[str, str, str, str]]:
    return {
        _key(check, relation) for _, check in asked if relation.spares(check.question, check.method)
    }


TOLERANCE = {
    "plate": 0.01,
    "elevation frame": 0.002,
    "column": 0.002,
    "factored loads and push": 0.002,
}
"""By the first words of a method: a mesh that follows the loads, a frame that is iterated."""


def _tolerance(checks: list[Check]) -> float:
    return max(
        (
            most
            for check in checks
            for words, most in TOLERANCE.items()
            if check.method.startswith(words)
        ),
        default=1e-6,
    )


def _gathered(
    asked: list[Asked], relation: Relation
) -> dict[tuple[str, str, str, str], list[Check]]:
    found: dict[tuple[str, str, str, str], list[Check]] = {}
    for _, check in asked:
        found.setdefault(_key(check, relation), []).append(check)
    return found


def _worst_ratio(checks: list[Check]) -> float:
    ratios = [check.ratio for check in checks if not isnan(check.ratio)]
    return max(ratios, default=float("nan"))


def _by_question(asked: list[Asked]) -> dict[tuple[str, str], list[Check]]:
    found: dict[tuple[str, str], list[Check]] = {}
    for who, check in asked:
        found.setdefault((who, check.place.unit), []).append(check)
    return found


def breaks(before: list[Asked], after: list[Asked], relation: Relation) -> Iterator[Break]:
    """Yield whatever is better after a change that makes nothing better."""
    spared = _spared(before, relation) | _spared(after, relation)
    old, new = (
        [(who, check) for who, check in asked if _key(check, relation) not in spared]
        for asked in (before, after)
    )
    was, now = (worst(check.verdict for _, check in asked) for asked in (old, new))
    if was in DOUBTFUL and now not in DOUBTFUL:
        yield Break("verdict of all", "", "", "", "", was.value, now.value)
    of_new = _by_question(new)
    for (who, unit), checks in _by_question(old).items():
        was, now = (
            worst(check.verdict for check in some) for some in (checks, of_new.get((who, unit), []))
        )
        if was in DOUBTFUL and now not in DOUBTFUL:
            yield Break("verdict of a question", unit, "", "", who, was.value, now.value)
    gathered = _gathered(new, relation)
    for key, checks in _gathered(old, relation).items():
        if key not in gathered:
            continue
        was, now = (worst(check.verdict for check in some) for some in (checks, gathered[key]))
        if was in DOUBTFUL and now not in DOUBTFUL:
            yield Break("verdict", *key, was.value, now.value)
        ratios = _worst_ratio(checks), _worst_ratio(gathered[key])
        if ratios[1] < ratios[0] * (1.0 - _tolerance([*checks, *gathered[key]])):
            yield Break("ratio", *key, f"{ratios[0]:.5g}", f"{ratios[1]:.5g}")
