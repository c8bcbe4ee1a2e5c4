"""Whole units as plane frames, solved for all their load cases at once."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from shelfload.describe.catalogue import Catalogue
from shelfload.describe.site import Site
from shelfload.errors import Mechanism
from shelfload.idealise.arrangement import Placed
from shelfload.idealise.elevation_draw import draw
from shelfload.idealise.elevation_loads import FrameCase, FrameLoads, frame_loads
from shelfload.idealise.elevation_plan import Plan, Stand
from shelfload.idealise.feet import UprightForce
from shelfload.idealise.geometry import shelf_name
from shelfload.idealise.place import Place
from shelfload.idealise.sections import NoFigure, ShelfSection
from shelfload.idealise.stack import Stack, horizontal_section
from shelfload.solve.frame import solve_frame
from shelfload.solve.frame_model import Frame
from shelfload.solve.frame_result import FrameResult
from shelfload.solve.load_path import passed_down
from shelfload.solve.mechanism import FreeMotion, free_motions

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Elevation:
    """Units that stand on each other as one plane frame.

    Attributes
    ----------
    placed : tuple of Placed
        The units, those below first.
    plan : Plan or None
        What of the frame is what in the units; None where ``reason`` says what is missing.
    loads : FrameLoads or None
        Its load cases.
    result : FrameResult or None
        Solved on the first day; None where it moves freely or can't be drawn.
    motions : tuple of FreeMotion
        How it moves freely.
    reason : str
        Why there is no frame.
    """

    placed: tuple[Placed, ...]
    plan: Plan | None = None
    loads: FrameLoads | None = None
    result: FrameResult | None = None
    motions: tuple[FreeMotion, ...] = ()
    reason: str = ""
    _kept: dict[bool, FrameResult | None] = field(default_factory=dict, repr=False, compare=False)

    @property
    def units(self) -> tuple[str, ...]:
        """Names of its units."""
        return tuple(placed.unit.name for placed in self.placed)

    @property
    def cases(self) -> Sequence[FrameCase]:
        """Load cases in the order of the result."""
        return () if self.loads is None else self.loads.cases

    def factors(self, **kinds: float) -> Array:
        """Return one factor for each case by its kind, 0 for kinds not named."""
        return np.array([kinds.get(case.kind, 0.0) for case in self.cases])

    def solved(self, frame: Frame) -> FrameResult:
        """Solve a changed frame for the same loads; raises Mechanism."""
        assert self.loads is not None  # noqa: S101 - a frame was drawn
        return solve_frame(
            frame,
            lines=self.loads.line_loads(),
            points=self.loads.point_loads(),
            nodal=self.loads.nodal_loads(len(frame.nodes)),
        )

    def under_weight(self, *, aged: bool = False) -> FrameResult | None:
        """Return the frame under its loads, new or after years; None where it can't carry them.

        One that sways freely is kept from it here: that it sways is another question.
        """
        if not aged and self.result is not None:
            return self.result
        if self.plan is None:
            return None
        if aged not in self._kept:
            held = self.result is None
            try:
                self._kept[aged] = self.solved(self.plan.frame(aged=aged, plumb=held))
            except Mechanism:
                self._kept[aged] = None
        return self._kept[aged]

    def upright_forces(self) -> tuple[UprightForce, ...]:
        """Return what each side and divider carries down at its foot, backs helping [N].

        The weight of backs comes in at the feet and is not in it. The imposed part is that
        of all bays that press it, full at once; empty where the frame can't carry them.
        """
        result = self.under_weight()
        if result is None or self.plan is None:
            return ()
        stands = self.plan.stands
        down = passed_down(result, [stand.member for stand in stands])
        dead = down @ self.factors(dead=1.0) + [self._own_weight(stand) for stand in stands]
        loaded = down * self.factors(contents=1.0, spot=1.0)
        imposed = np.maximum(loaded, 0.0).sum(axis=1)
        return tuple(
            UprightForce(
                place=_place(stand),
                upright=stand.upright,
                level=stand.level,
                dead=float(low),
                imposed=float(high),
            )
            for stand, low, high in zip(stands, dead, imposed, strict=True)
        )

    def _own_weight(self, stand: Stand) -> float:
        placed = next(one for one in self.placed if one.unit.name == stand.unit)
        return next(
            item.force
            for item in placed.weights.items
            if (item.name, item.level) == (stand.upright.name, stand.level)
        )


MOST_BAYS = 120
"""Bays of one frame: its free motions take the cube of that."""


def _place(stand: Stand) -> Place:
    return Place(unit=stand.unit, part=f"level {stand.level + 1}", bay=stand.upright.name)


def elevations(
    placed: Mapping[str, Placed],
    stacks: Mapping[str, Stack],
    site: Site,
    catalogue: Catalogue,
) -> tuple[Elevation, ...]:
    """Draw and solve every group of units that stand on each other.

    Parameters
    ----------
    placed : mapping of str to Placed
        Every unit by name, in its place.
    stacks : mapping of str to Stack
        Their shelves by name: the frame takes the same cross-sections.
    site : Site
        Climate, for creep.
    catalogue : Catalogue
        Resolves names.
    """
    return tuple(_elevation(group, placed, stacks, site, catalogue) for group in _groups(placed))


def _groups(placed: Mapping[str, Placed]) -> Iterator[tuple[Placed, ...]]:
    """Units that stand on each other, those below first; what hangs stands alone."""
    groups: list[set[str]] = []
    for name, one in placed.items():
        if one.unit.plan is not None:
            continue  # a plane frame knows no curve
        joined = {name, *one.unit.on}
        apart = [group for group in groups if not group & joined]
        together = [group for group in groups if group & joined]
        groups = [*apart, joined.union(*together)]
    order = list(placed)
    for group in sorted(groups, key=lambda names: min(order.index(name) for name in names)):
        yield tuple(_lowest_first([placed[name] for name in order if name in group]))


def _lowest_first(group: list[Placed]) -> Iterator[Placed]:
    waiting = list(group)
    while waiting:
        names = {one.unit.name for one in waiting}
        ready = next(one for one in waiting if not set(one.unit.on) & names)
        waiting.remove(ready)
        yield ready


def _elevation(
    group: tuple[Placed, ...],
    placed: Mapping[str, Placed],
    stacks: Mapping[str, Stack],
    site: Site,
    catalogue: Catalogue,
) -> Elevation:
    bays = sum(len(level.bays) for one in group for level in one.unit.level)
    if bays > MOST_BAYS:
        reason = (
            f"{bays} bays stand on each other; more than {MOST_BAYS} are not worked out as one "
            "frame. Describe smaller units"
        )
        return Elevation(placed=group, reason=reason)
    try:
        shapes = dict(_shapes(group, stacks, catalogue))
        plan = draw(group, shapes, site.service_class, catalogue)
    except NoFigure as missing:
        return Elevation(placed=group, reason=str(missing))
    loads = frame_loads(group, plan, placed, catalogue)
    drawn = Elevation(placed=group, plan=plan, loads=loads)
    try:
        return replace(drawn, result=drawn.solved(plan.frame()))
    except Mechanism as found:
        motions = tuple(free_motions(plan.frame()))
        return replace(drawn, motions=motions, reason="" if motions else str(found))


def _shapes(
    group: Sequence[Placed], stacks: Mapping[str, Stack], catalogue: Catalogue
) -> Iterator[tuple[tuple[str, int], ShelfSection]]:
    """Cross-section of each horizontal, as its beam has it."""
    for placed in group:
        unit = placed.unit
        known = {beam.place.part: beam.shape for beam in stacks[unit.name].shelves}
        for number in range(len(unit.level) + 1):
            name = shelf_name(unit, number)
            shape = known.get(name)
            yield (
                (unit.name, number),
                shape if shape is not None else horizontal_section(unit, number, catalogue),
            )
