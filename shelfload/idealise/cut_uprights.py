"""Cut sizes of what stands: sides and dividers, and the backs behind them.

A unit is a pile of thicknesses and clear heights. An upright runs through all of them except
where a horizontal lies over it, and where the unit comes apart.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import Unit
from shelfload.describe.parts import Back, Upright
from shelfload.idealise.cut_horizontals import covers_sides, splits_at
from shelfload.idealise.cut_shelf import layers
from shelfload.idealise.cut_size import CutPanel, CutSum, Term, depth_sum, stuff, summed
from shelfload.idealise.geometry import UprightAt, uprights
from shelfload.idealise.ring import ring_of
from shelfload.idealise.stack import back_of, back_thickness
from shelfload.idealise.weights import horizontal


@dataclass(frozen=True, slots=True)
class Storey:
    """A thickness or a clear height in the pile of a unit: from which horizontal or level.

    ``parts_below``: the unit comes apart under it.
    """

    term: Term
    number: int
    lies: bool
    parts_below: bool = False


def pile(unit: Unit, catalogue: Catalogue) -> list[Storey]:
    """Return thicknesses and clear heights of a unit from its underside up."""
    found: list[Storey] = []
    for number in range(len(unit.level) + 1):
        shelf = horizontal(unit, number)
        sheets = layers(unit, shelf, catalogue)
        terms = [Term(sheet.ordered, "panel") for sheet in sheets]
        if shelf.hollow is not None:
            terms.insert(1, Term(shelf.hollow.height, "hollow"))
        inner = 0 < number < len(unit.level)
        parted = inner and unit.comes_apart != "no"
        # a double that is not glued parts between its panels, all else under the shelf,
        # which is then lifted with the level above it
        at = len(terms) - 1 if shelf.panels == 2 and shelf.joined != "glued" else 0
        found += [
            Storey(term, number, lies=True, parts_below=parted and place == at)
            for place, term in enumerate(terms)
        ]
        if number < len(unit.level):
            found.append(Storey(Term(unit.level[number].height, "clear height"), number, False))
    return found


def standing(unit: Unit, catalogue: Catalogue) -> Iterator[CutPanel]:
    """Return every panel of the sides and dividers."""
    storeys = pile(unit, catalogue)
    left, *_, right = uprights(unit, unit.level[0])
    for side in (left, right):
        runs_on = [not (one.lies and covers_sides(unit, one.number)) for one in storeys]
        yield from _upright(unit, unit.sides, side.name, storeys, runs_on, catalogue)
    inner = [
        (number, at)
        for number, level in enumerate(unit.level)
        for at in uprights(unit, level)[1:-1]
    ]
    lines: list[UprightAt] = []
    for _, at in inner:
        if not any(abs(at.centre - line.centre) <= 1.0 for line in lines):
            lines.append(at)
    for line in sorted(lines, key=lambda one: one.centre):
        levels = {number for number, at in inner if abs(at.centre - line.centre) <= 1.0}
        runs_on = [
            (splits_at(unit, one.number, line) if one.lies else one.number in levels)
            for one in storeys
        ]
        yield from _upright(unit, unit.dividers, "divider", storeys, runs_on, catalogue)


def _upright(
    unit: Unit,
    upright: Upright,
    name: str,
    storeys: Sequence[Storey],
    runs_on: Sequence[bool],
    catalogue: Catalogue,
) -> Iterator[CutPanel]:
    sheet = stuff(
        catalogue,
        upright.material or unit.panel.material,
        upright.thickness or unit.panel.thickness,
    )
    for run in _unbroken(storeys, runs_on):
        levels = sorted({one.number for one in run if not one.lies})
        back = back_thickness(unit, *(unit.level[number] for number in levels))
        length = summed(*(one.term for one in run))
        width = depth_sum(unit.depth, back)
        edges = ["front"]
        if name != "divider" and run[-1] is storeys[-1]:
            edges.append("top end")
        lifted = unit.hangs is not None or unit.underside is not None
        if name != "divider" and run[0] is storeys[0] and lifted:
            edges.append("bottom end")
        for number in range(upright.panels):
            layer = f", panel {number + 1} of 2" if upright.panels == 2 else ""
            yield CutPanel(
                unit=unit.name,
                part=name + layer,
                levels=tuple(number + 1 for number in levels),
                kind="divider" if name == "divider" else "side",
                material=sheet.name,
                called=sheet.row.called,
                length=length,
                width=width,
                thickness=sheet.ordered,
                grain=sheet.grain("along the length"),
                edges=tuple(edges),
                mass=sheet.mass(length.total * width.total),
                sheet=sheet.in_sheets,
            )


def _unbroken(storeys: Sequence[Storey], runs_on: Sequence[bool]) -> Iterator[list[Storey]]:
    run: list[Storey] = []
    for one, on in zip(storeys, runs_on, strict=True):
        if run and (not on or one.parts_below):
            yield run
            run = []
        if on:
            run.append(one)
    if run:
        yield run


def backs(unit: Unit, catalogue: Catalogue) -> Iterator[CutPanel]:
    """Return the backs: over the rear edges of everything, one sheet as high as it stays alike."""
    for back, run in _backed(unit, pile(unit, catalogue)):
        levels = sorted({one.number for one in run if not one.lies})
        sheet = stuff(catalogue, back.material, back.thickness)
        length = summed(*(one.term for one in run))
        for name, width in _back_widths(unit, levels):
            width = width + _bent(unit, back.thickness, width)
            yield CutPanel(
                unit=unit.name,
                part=name,
                levels=tuple(number + 1 for number in levels),
                kind="back",
                material=sheet.name,
                called=sheet.row.called,
                length=length,
                width=width,
                thickness=sheet.ordered,
                grain=sheet.grain("either way"),
                edges=(),
                mass=sheet.mass(length.total * width.total),
                sheet=sheet.in_sheets,
            )


def _bent(unit: Unit, thickness: float, width: CutSum) -> list[Term]:
    """What a back bent round the rear of a curved unit is longer or shorter than its bays."""
    ring = ring_of(unit)
    if ring is None:
        return []
    # sides are as thick inside as outside; all else grows with the radius
    sides = sum(term.value / 2 for term in width.terms if term.words == "side")
    share = float(ring.radius(thickness / 2)) / ring.middle - 1.0
    return [Term((width.total - sides) * share, "bent behind the middle")]


def _backed(unit: Unit, storeys: Sequence[Storey]) -> Iterator[tuple[Back, list[Storey]]]:
    """Runs of the pile behind one and the same back."""
    run: list[Storey] = []
    held: Back | None = None
    for number in range(len(unit.level) + 1):
        here = [one for one in storeys if one.lies and one.number == number]
        back = back_of(unit, unit.level[number]) if number < len(unit.level) else None
        parted = any(one.parts_below for one in here)
        if held is not None and back == held and not parted:
            run += here
        else:
            lower, upper = _meeting(here, held, back)
            if held is not None:
                yield held, run + lower
            run, held = upper, back
        run += [one for one in storeys if not one.lies and one.number == number]


def _meeting(
    here: list[Storey], below: Back | None, above: Back | None
) -> tuple[list[Storey], list[Storey]]:
    """What of a horizontal is behind the back below it, and behind the one above."""
    if below is None or above is None:
        return (here, []) if above is None else ([], here)
    for place, one in enumerate(here):
        if one.parts_below:
            return here[:place], here[place:]
    halves = [Storey(Term(one.term.value / 2, "half panel"), one.number, True) for one in here]
    return halves, halves.copy()


def _back_widths(unit: Unit, levels: Sequence[int]) -> Iterator[tuple[str, CutSum]]:
    """Name and width of each back: over the whole unit, or over each box of a level."""
    level = unit.level[levels[0]]
    at = uprights(unit, level)
    side = Term(at[0].right - at[0].left, "side")
    divider = at[1].right - at[1].left
    inner = [Term(divider, "divider") for _ in at[2:]]
    if unit.comes_apart != "boxes" or unit.dividers.panels < 2 or not inner:
        yield "back", summed(side, *(Term(width, "bay") for width in level.bays), *inner, side)
        return
    half = Term(divider / 2, "half divider")
    for number, width in enumerate(level.bays, start=1):
        first = side if number == 1 else half
        last = side if number == len(level.bays) else half
        # the same sum whichever end the side is at
        ends = sorted((first, last), key=lambda term: term.words, reverse=True)
        yield f"back, bay {number}", summed(Term(width, "bay"), *ends)
