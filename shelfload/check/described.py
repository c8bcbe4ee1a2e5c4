"""Is anything said to stand on it? A shelf under nothing passes, and that says nothing."""

from __future__ import annotations

from collections.abc import Iterable

from shelfload.check.result import Answer, Check
from shelfload.idealise.place import Place
from shelfload.idealise.whole import Whole


def something_stands_on_it(whole: Whole) -> Iterable[Answer]:
    """Ask units and lone shelves for which no contents at all are described.

    ``contents = "empty"`` says that nothing will stand there; nothing said may be forgotten.
    """
    for lone in whole.project.shelf:
        if not lone.contents:
            yield _silent(Place(unit=lone.name))
    for unit in whole.project.unit:
        if not unit.top_contents and not any(level.contents for level in unit.level):
            yield _silent(Place(unit=unit.name))
        for number, level in enumerate(unit.level, start=1):
            if not level.contents:
                yield Answer(
                    assumptions=(f"{unit.name}, level {number}: empty, as nothing is said",)
                )


def _silent(place: Place) -> Answer:
    check = Check(
        place=place,
        question="loads described",
        method="as described",
        source="as described",
        measure="force",
        reason="nothing is said to stand on it, so that a pass would mean nothing",
        remedy='Give its contents or a load; contents = "empty" says that it stays empty.',
    )
    return Answer(checks=(check,))
