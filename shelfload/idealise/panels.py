"""Every panel of a description with its finished size, and the sheets that they take."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil

from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import Project, Unit
from shelfload.idealise.cut_horizontals import horizontals
from shelfload.idealise.cut_lone import lone_panels
from shelfload.idealise.cut_size import SAME, CutPanel, Term, stuff, summed
from shelfload.idealise.cut_uprights import backs, standing
from shelfload.idealise.geometry import uprights
from shelfload.wording import figure


@dataclass(frozen=True, slots=True, kw_only=True)
class CutRow:
    """Panels of one unit that are all alike: one of them, how many, and which."""

    number: int
    panel: CutPanel
    count: int
    parts: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CutList:
    """Everything to be cut, alike panels in one row, and what was assumed."""

    rows: tuple[CutRow, ...]
    said: tuple[str, ...]

    @property
    def count(self) -> int:
        """How many panels, strips and rails there are."""
        return sum(row.count for row in self.rows)

    @property
    def mass(self) -> float:
        """Of all of them [kg]."""
        return sum(row.count * row.panel.mass for row in self.rows)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheets:
    """Sheets of one material and thickness, counted by area alone.

    Attributes
    ----------
    material, called : str
        Name as described and title.
    thickness : float
        As ordered [mm].
    area, mass : float
        Of the panels, without waste [mm2], [kg].
    count : int
        Whole sheets, waste included.
    too_large : tuple of int
        Numbers of the rows that no sheet is large enough for, grain along the sheet.
    """

    material: str
    called: str
    thickness: float
    area: float
    mass: float
    count: int
    too_large: tuple[int, ...]


def cut_list(project: Project, catalogue: Catalogue) -> CutList:
    """Return every panel that a description holds, with the sums behind its size."""
    said: list[str] = []
    panels: list[CutPanel] = []
    for unit in project.unit:
        panels += standing(unit, catalogue)
        panels += horizontals(unit, catalogue, said)
        panels += backs(unit, catalogue)
        panels += _rails(unit, catalogue, said)
    for lone in project.shelf:
        panels += lone_panels(lone, catalogue, said)
    said += _about(project, panels, catalogue)
    return CutList(rows=tuple(_rows(panels)), said=tuple(dict.fromkeys(said)))


def _rows(panels: Sequence[CutPanel]) -> Iterator[CutRow]:
    alike: dict[CutPanel, list[CutPanel]] = {}
    for panel in panels:
        # where it belongs aside, everything that a saw or an eye would notice is the same
        key = replace(panel, part="", levels=())
        alike.setdefault(key, []).append(panel)
    for number, same in enumerate(alike.values(), start=1):
        levels = sorted({level for panel in same for level in panel.levels})
        yield CutRow(
            number=number,
            panel=replace(same[0], levels=tuple(levels)),
            count=len(same),
            parts=tuple(dict.fromkeys(panel.part for panel in same)),
        )


def sheets(
    cut: CutList, size: tuple[float, float], waste: float, catalogue: Catalogue
) -> list[Sheets]:
    """Count the sheets that a cut list takes, by area.

    Parameters
    ----------
    cut : CutList
        What is cut.
    size : tuple of float
        Length and width of a sheet, the face grain along the length [mm]
    waste : float
        Share of the sheets bought that becomes offcuts and sawdust, below 1 [-]
    catalogue : Catalogue
        Resolves names.
    """
    found = []
    wanted = [row for row in cut.rows if row.panel.sheet]
    for name, thickness in dict.fromkeys(
        (row.panel.material, row.panel.thickness) for row in wanted
    ):
        rows = [
            row for row in wanted if (row.panel.material, row.panel.thickness) == (name, thickness)
        ]
        area = sum(row.count * row.panel.area for row in rows)
        found.append(
            Sheets(
                material=name,
                called=stuff(catalogue, name, thickness).row.called,
                thickness=thickness,
                area=area,
                mass=sum(row.count * row.panel.mass for row in rows),
                count=ceil(area / (size[0] * size[1] * (1.0 - waste)) - 1e-9),
                too_large=tuple(row.number for row in rows if not _fits(row.panel, size)),
            )
        )
    return found


def _fits(panel: CutPanel, size: tuple[float, float]) -> bool:
    length, width = panel.length.total, panel.width.total
    along, across = (width, length) if panel.grain == "along the width" else (length, width)
    if along <= size[0] + SAME and across <= size[1] + SAME:
        return True
    free = panel.grain in ("either way", "none")
    return free and across <= size[0] + SAME and along <= size[1] + SAME


def _rails(unit: Unit, catalogue: Catalogue, said: list[str]) -> Iterator[CutPanel]:
    hung = unit.hangs
    if hung is None or hung.through is None:
        return
    if hung.rail_height is None:
        said.append(f"{unit.name}: its rail is not in the list, since rail_height is not said")
        return
    rail = stuff(catalogue, hung.through.material, hung.through.thickness)
    at = uprights(unit, unit.level[0])
    sides = () if not hung.behind else (at[0], at[-1])
    dividers = at[1:-1]
    length = summed(
        *(Term(width, "bay") for width in unit.level[0].bays),
        *(Term(one.right - one.left, "divider") for one in dividers),
        *(Term(one.right - one.left, "side") for one in sides),
    )
    width = summed(Term(hung.rail_height, "rail height"))
    where = "behind it is as long as the unit is wide" if hung.behind else "runs side to side"
    said.append(f"{unit.name}: the rail {where}")
    for _ in range(max(len(hung.heights), 1)):
        yield CutPanel(
            unit=unit.name, part="rail", kind="rail", material=rail.name, called=rail.row.called,
            length=length, width=width, thickness=rail.ordered,
            grain=rail.grain("along the length"), edges=(),
            mass=rail.mass(length.total * width.total), sheet=rail.in_sheets,
        )  # fmt: skip


def _about(project: Project, panels: Sequence[CutPanel], catalogue: Catalogue) -> Iterator[str]:
    """Say what the description leaves open and the sizes rest on."""
    kinds = {panel.kind for panel in panels}
    if "back" in kinds:
        yield (
            "backs lie over the rear edges of sides, dividers and shelves, which are that much "
            "less deep than the unit; they are taken as cut to the unit's outer width"
        )
    if {"side", "divider"} & kinds:
        yield "uprights have their face grain upright; the description doesn't say"
    if "divider" in kinds:
        yield (
            "dividers stand between what is above and below them, not housed; where shelves are "
            "cut between uprights, the divider runs through"
        )
    if any(len({level.back for level in unit.level}) > 1 for unit in project.unit):
        yield (
            "an upright beside levels with and without a back is cut to the lesser depth; where "
            "two backs meet, they meet behind the middle of a shelf"
        )
    for unit in project.unit:
        if unit.base == "plinth" and not unit.on:
            yield f"{unit.name}: its plinth is not described and not in the list"
        if unit.drawers is not None or unit.doors is not None:
            yield f"{unit.name}: drawers and doors are not in the list"
        if unit.comes_apart == "boxes" and any(
            panel.kind == "shelf" and "bay" not in panel.part
            for panel in panels
            if panel.unit == unit.name and any(len(level.bays) > 1 for level in unit.level)
        ):
            yield (
                f"{unit.name}: it comes apart in boxes, but panels run over several bays: boxes "
                'with tops and bottoms of their own need runs = "between" and doubled dividers'
            )
    for name, thickness in dict.fromkeys(
        (panel.material, panel.thickness) for panel in panels if panel.sheet
    ):
        found = stuff(catalogue, name, thickness)
        if abs(found.measured - thickness) > SAME:
            yield (
                f"{found.row.called} ordered as {figure(thickness, 'length')} is usually "
                f"{figure(found.measured, 'length')} thick; sums take it as ordered: measure the "
                "sheets before they are cut"
            )
