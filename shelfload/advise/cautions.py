"""Cautions that a description calls for; SAFETY.md holds the same in full.

Each caution has one trigger, so that a report carries those that matter for the piece at
hand and no wall of text that nobody reads.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from shelfload.check.assess import Findings
from shelfload.check.result import Verdict
from shelfload.describe.model import Project, Unit
from shelfload.describe.reader import Description
from shelfload.tables import Material

OVERHEAD_FROM = 1000.0
"""Underside above which a unit can fall on someone [mm] (common practice, no source)."""
TALL_FROM = 686.0
"""Height from which free-standing storage is asked to be held to the wall [mm].

27 in: the scope of ASTM F2057-23 and of the Australian information standard of 2024.
"""

ALWAYS = (
    "A computed pass covers what is described, not what can't be seen: hidden defects, "
    "poor glue, worn threads, a bad sheet, an unknown wall. Look, knock and test.",
    "Local building codes, the fixing maker's data and licensed practice come before any "
    "figure here. Where they differ, follow them.",
    "Put no load on anything until all of its fixings are in.",
)
OVERHEAD = (
    "Overhead: lift with two people or more, hold the piece on props or a temporary batten "
    "until it is fixed, and keep everyone out from under it. Wear eye protection when "
    "driving screws above your head.",
    "Overhead: find cables and pipes in the wall before drilling, and have a fixing whose "
    "strength you don't know pull-tested or judged by a licensed person.",
)
TALL = (
    "Tall: hold it to the wall near its top, into studs or masonry and never into "
    "plasterboard alone, whatever the figures say. Stand it level and load it from the "
    "bottom up."
)
CHILDREN = (
    "Children climb shelves and open drawers. Keep what tempts them low, and fix every "
    "piece that could come over, low ones too."
)
GLASS = (
    "Glass breaks without warning and into sharp pieces. Use toughened or laminated glass "
    "with polished edges, on soft pads, and ask the glazier for the load it may carry."
)
ACRYLIC = "Acrylic goes on sagging for years and cracks at drilled holes. Keep it lightly loaded."
ESTIMATE = (
    "Some figures used here are estimates, not published values: {names}. Measure the sag "
    "of an offcut under a known weight before you rely on them."
)
BORROWED = (
    "No creep or load-duration rule of its own: {names}. The nearest board's values stand in."
)
CLASS_3 = "Outdoors: most sheet goods swell, delaminate or rot. Use only boards made for it."
EARTHQUAKE = (
    "Earthquakes are not checked. Where they happen, restrain units and contents as your "
    "local authority says."
)
NOT_CHECKED = (
    "Something above is not checked. That is not a pass: find out what is missing before you build."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Seen:
    project: Project
    materials: tuple[Material, ...]
    not_checked: bool


def is_overhead(project: Project, unit: Unit) -> bool:
    """Whether a unit could fall on someone."""
    return project.site.people_below or (unit.underside or 0.0) >= OVERHEAD_FROM


def unit_height(unit: Unit) -> float:
    """Return the height of a unit over its levels and panels as ordered [mm]."""
    panel = unit.panel.thickness
    shelves = [level.shelf or unit.shelf for level in unit.level] + [unit.top or unit.shelf]
    return sum(level.height for level in unit.level) + sum(
        (shelf.thickness or panel) * shelf.panels for shelf in shelves
    )


def _any_overhead(seen: _Seen) -> bool:
    return any(is_overhead(seen.project, unit) for unit in seen.project.unit) or (
        seen.project.site.people_below
    )


def _any_tall(seen: _Seen) -> bool:
    return any(unit_height(unit) >= TALL_FROM for unit in seen.project.unit)


def _kinds(*kinds: str) -> Callable[[_Seen], bool]:
    return lambda seen: any(material.kind in kinds for material in seen.materials)


_TRIGGERS: tuple[tuple[Callable[[_Seen], bool], tuple[str, ...]], ...] = (
    (lambda seen: seen.not_checked, (NOT_CHECKED,)),
    (_any_overhead, OVERHEAD),
    (_any_tall, (TALL, EARTHQUAKE)),
    (lambda seen: seen.project.site.children, (CHILDREN,)),
    (_kinds("glass"), (GLASS,)),
    (_kinds("acrylic"), (ACRYLIC,)),
    (lambda seen: seen.project.site.service_class == 3, (CLASS_3,)),
    (lambda _: True, ALWAYS),
)


def cautions(description: Description, findings: Findings) -> Iterator[str]:
    """Return the cautions that a description and its findings call for."""
    materials = {
        piece.material.name: piece.material
        for shelf in findings.whole.beams
        for piece in shelf.shape.pieces
    }
    seen = _Seen(
        project=description.project,
        materials=tuple(materials.values()),
        not_checked=any(check.verdict is Verdict.NOT_CHECKED for check in findings.checks),
    )
    for holds, texts in _TRIGGERS:
        if holds(seen):
            yield from texts
    estimated = [material.called for material in seen.materials if material.estimate]
    if estimated:
        yield ESTIMATE.format(names=", ".join(estimated))
    borrowed = [material.called for material in seen.materials if material.duration_borrowed]
    if borrowed:
        yield BORROWED.format(names=", ".join(borrowed))
