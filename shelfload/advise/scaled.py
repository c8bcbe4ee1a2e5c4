"""A shelf with more or less of what it has: its spans and its loads multiplied."""

from __future__ import annotations

from typing import Any

from shelfload.advise.spot import Spot
from shelfload.describe.model import Project
from shelfload.describe.parts import Fill
from shelfload.units import Load

_FINEST = 6  # decimals of a span [mm]


def span_times(at: Spot, factor: float) -> Project:
    """Return the description with every span stretched, and the places of what stands on spots.

    ``factor`` is the new width over the old [-].
    """
    if at.lone is not None:
        return at.with_lone(
            length=None if at.lone.length is None else at.lone.length * factor,
            spans=tuple(round(span * factor, _FINEST) for span in at.lone.spans),
            contents=tuple(_moved(fill, factor) for fill in at.lone.fills),
        )
    levels = tuple(
        level.model_copy(
            update={
                "bays": tuple(round(bay * factor, _FINEST) for bay in level.bays),
                "contents": tuple(_moved(fill, factor) for fill in level.fills),
            }
        )
        for level in at.in_unit.level
    )
    top = tuple(_moved(fill, factor) for fill in at.in_unit.top_contents)
    return at.with_unit(level=levels, top_contents=top)


def _moved(fill: Fill | None, factor: float) -> Fill | None:
    if fill is None:
        return None
    points = tuple(point.model_copy(update={"at": point.at * factor}) for point in fill.points)
    return fill.model_copy(update={"points": points})


def load_times(at: Spot, factor: float) -> Project:
    """Return the description with what stands on the shelf multiplied by a factor [-]."""

    def times(fills: tuple[Fill | None, ...]) -> tuple[Fill | None, ...]:
        return tuple(None if fill is None else _fill_times(fill, factor) for fill in fills)

    if at.lone is not None:
        return at.with_lone(contents=times(at.lone.fills))
    if at.number == len(at.in_unit.level):
        return at.with_unit(top_contents=times(at.in_unit.top_contents))
    return at.with_level(at.number, contents=times(at.in_unit.level[at.number].fills))


def _fill_times(fill: Fill, factor: float) -> Fill:
    update: dict[str, Any] = {
        "fill": fill.fill * factor,
        "points": tuple(
            point.model_copy(update={"load": Load("total", point.load.value * factor)})
            for point in fill.points
        ),
    }
    if fill.load is not None:
        update["load"] = Load(fill.load.kind, fill.load.value * factor)
    return fill.model_copy(update=update)
