"""Cut sizes of what lies: panels of shelves with their lippings, strips and webs.

A horizontal is cut between the uprights under it, as the load path has it: one panel over all
of them, or one for each gap. Its end goes as far into or over an upright as its bearing says.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import Unit
from shelfload.describe.parts import Shelf
from shelfload.idealise.cut_curved import on_a_curve
from shelfload.idealise.cut_shelf import layers, of_shelf
from shelfload.idealise.cut_size import SAME, CutPanel, CutSum, Fit, Term, depth_sum, summed
from shelfload.idealise.geometry import UprightAt, bays, shelf_name, uprights
from shelfload.idealise.ring import slab
from shelfload.idealise.shelf_beam import ASSUMED_BEARING
from shelfload.idealise.stack import back_thickness, beam_runs, carriers
from shelfload.idealise.weights import horizontal
from shelfload.wording import figure, size

LOOSE_PLAY = 2.0
"""Clear width less length of a loose shelf that says none [mm], as for slipping off it."""


@dataclass(frozen=True, slots=True)
class End:
    """How an end meets its upright: how far it goes in or over, and what bears it [mm]."""

    fit: Fit
    reach: float
    bearing: float
    words: str


def end_at(unit: Unit, shelf: Shelf, upright: UprightAt) -> End:
    """Return how the end of a shelf meets a side or a divider."""
    bearing = shelf.bearing
    if shelf.loose or shelf.pins is not None or _by(unit) == "cleat":
        play = _play(shelf) / 2.0
        return End("on supports", 0.0, max((bearing or ASSUMED_BEARING) - play, 0.0), "")
    if bearing is None and _by(unit) not in (None, "housing"):
        return End("butted", 0.0, 0.0, "")
    reach = ASSUMED_BEARING if bearing is None else bearing
    side = upright.name.endswith("side")
    whole = upright.right - upright.left
    whole = whole if side else whole / 2.0
    if reach >= whole - SAME:
        return End("over", whole, whole, "side" if side else "half divider")
    return End("housed", reach, reach, "housing")


def _by(unit: Unit) -> str | None:
    return unit.joins.shelves.by if unit.joins.shelves is not None else None


def _play(shelf: Shelf) -> float:
    if shelf.play is not None:
        return shelf.play
    return LOOSE_PLAY if shelf.loose else 0.0


def splits_at(unit: Unit, number: int, upright: UprightAt) -> bool:
    """Whether a horizontal is cut at an upright under it that runs on through."""
    below = unit.level[number - 1] if number > 0 else None
    shelf = horizontal(unit, number)
    runs = beam_runs(shelf, carriers(unit, below)) if carriers(unit, below) else []
    inner = [run[-1] for run in runs[:-1]]
    return any(abs(one.centre - upright.centre) <= 1.0 for one in inner) and (
        end_at(unit, shelf, upright).fit != "over"
    )


def covers_sides(unit: Unit, number: int) -> bool:
    """Whether a horizontal lies over the sides, which then end under it."""
    side = uprights(unit, unit.level[0])[0]
    return end_at(unit, horizontal(unit, number), side).fit == "over"


def horizontals(unit: Unit, catalogue: Catalogue, said: list[str]) -> Iterator[CutPanel]:
    """Return every panel that lies, from the floor up."""
    for number in range(len(unit.level) + 1):
        below = unit.level[number - 1] if number > 0 else None
        standing = carriers(unit, below)
        shelf = horizontal(unit, number)
        lowest = uprights(unit, unit.level[0])
        runs = beam_runs(shelf, standing) if standing else [(lowest[0], lowest[-1])]
        for count, run in enumerate(runs, start=1):
            bay = f", bay {count}" if len(runs) > 1 else ""
            yield from _pieces(unit, number, run, bay, catalogue, said)


def _clear(unit: Unit, number: int, run: tuple[UprightAt, ...]) -> CutSum:
    """Clear width between the outer uprights of a run: bays and the dividers between them."""
    level = unit.level[max(number - 1, 0)]
    within = [
        bay
        for bay in bays(unit, level)
        if bay.left >= run[0].right - SAME and bay.right <= run[-1].left + SAME
    ]
    standing = [
        upright
        for upright in uprights(unit, level)
        if run[0].right + SAME < upright.left and upright.right < run[-1].left - SAME
    ]
    return summed(
        *(Term(bay.right - bay.left, "bay") for bay in within),
        *(Term(upright.right - upright.left, "divider") for upright in standing),
    )


def _pieces(
    unit: Unit,
    number: int,
    run: tuple[UprightAt, ...],
    bay: str,
    catalogue: Catalogue,
    said: list[str],
) -> Iterator[CutPanel]:
    shelf = horizontal(unit, number)
    above = unit.level[number] if number < len(unit.level) else None
    below = unit.level[number - 1] if number > 0 else None
    ends = (end_at(unit, shelf, run[0]), end_at(unit, shelf, run[-1]))
    play = _play(shelf)
    clear = _clear(unit, number, run) + ([Term(-play, "play")] if play else [])
    length = clear + [Term(end.reach, end.words) for end in ends if end.reach]
    _say(unit, shelf, run, ends, said)
    over = tuple(
        f"{name} end"
        for name, end, at in zip(("left", "right"), ends, (run[0], run[-1]), strict=True)
        if end.fit == "over" and at.name.endswith("side")
    )
    frame = CutPanel(
        unit=unit.name,
        part=f"{shelf_name(unit, number)}{bay}",
        levels=(min(number + 1, len(unit.level)),),
        kind="shelf",
        material="",
        called="",
        length=length,
        width=depth_sum(unit.depth, back_thickness(unit, below, above)),
        thickness=0.0,
        grain="none",
        edges=("front", *over),
        mass=0.0,
        fit=ends[0].fit if ends[0].fit == ends[1].fit else "between",
        bearing=min(end.bearing for end in ends),
    )
    cut = slab(
        unit,
        back_thickness(unit, below, above),
        run,
        (ends[0].reach - play / 2.0, ends[1].reach - play / 2.0),
    )
    if cut is not None:
        sheets = layers(unit, shelf, catalogue)
        outer = unit.plan is not None and unit.plan.front == "outer"
        yield from on_a_curve(frame, shelf, sheets, cut, outer, catalogue, said)
        return
    short = length if ends[0].fit == ends[1].fit == "over" else clear
    yield from of_shelf(frame, shelf, layers(unit, shelf, catalogue), short, catalogue, said)


def _say(
    unit: Unit, shelf: Shelf, run: tuple[UprightAt, ...], ends: tuple[End, End], said: list[str]
) -> None:
    if shelf.bearing is None and ends[0].fit == "housed":
        said.append(
            "no bearing is described: shelf ends are taken as housed "
            f"{figure(ASSUMED_BEARING, 'length')} deep, as in the checks; say bearing, or "
            "joins.shelves for ends that only butt against the uprights"
        )
    if shelf.loose and shelf.play is None:
        play = size(LOOSE_PLAY)
        said.append(f"loose shelves are cut {play} short of the clear width")
    for end, at in zip(ends, (run[0], run[-1]), strict=True):
        if end.fit == "over" and shelf.bearing is not None and shelf.bearing > end.reach + SAME:
            what = "the side" if end.words == "side" else "half of the divider"
            said.append(
                f"{unit.name}: a bearing of {figure(shelf.bearing, 'length')} is more than "
                f"{what} on its {'left' if at is run[0] else 'right'}; "
                f"the panel is cut to cover {figure(end.reach, 'length')}"
            )
