"""Cautions that a description calls for; SAFETY.md holds the same in full.

Each caution has one trigger, so that a report carries those that matter for the piece at
hand and no wall of text that nobody reads.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from shelfload.check.assess import Findings
from shelfload.check.result import Verdict
from shelfload.check.sections_lifted import sections
from shelfload.check.tipping_body import is_tall
from shelfload.describe.model import Project
from shelfload.describe.reader import Description
from shelfload.solve.lifting import LOAD_CONSTANT
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
HUNG = (
    "On the wall: a chain is as strong as its weakest link, and that is often the cupboard's own "
    "rail or side. Use every fixing that is reckoned with, in every stud, and hang nothing on "
    "one line of screws alone.",
    "On the wall: set the piece down on a level batten or props, fix it, load it lightly for a "
    "day, look again, and only then fill it.",
)
UNKNOWN_WALL = (
    "The wall is not known well enough. Knock along it, find studs by screw lines with a magnet "
    "and by a trial hole that will be hidden, look for cables and pipes first, and ask the maker "
    "of the fixing for its load in that wall. Have a trial fixing pull-tested to at least twice "
    "its load, or stand the piece on the floor."
)
PLASTERBOARD = (
    "Plasterboard alone holds nothing over people's heads and ties no tall unit back, whatever "
    "the packet of the anchor says. Go through it into studs, a batten or masonry."
)
MAKERS_LOADS = (
    "A maker's load holds in the wall, at the depth and at the distances from edges and joints "
    "that the maker names, in a hole drilled and cleaned as told. Elsewhere it means nothing."
)
DRAWERS = (
    "Children and drawers: a child on an open drawer tips most chests. Tie it to the wall, and "
    "fit stops that let one drawer open at a time."
)
BRIDGE = (
    "Unit on unit: screw the pieces to each other and to the wall, so that nothing can be pushed "
    "off. Put the lower ones up, level and tied back, before anything is set on them; take down "
    "from the top."
)
HEAVY = (
    "Heavy pieces: take loose shelves, drawers and doors out first, agree who calls the lift, "
    "clear the way, and stop when one of you can't. Take apart what can be taken apart."
)
RACKING = (
    "Something here can fold sideways. Until its backs or braces are fixed it must not be "
    "stood up, moved or loaded: tack a diagonal batten across it."
)
FLOOR = (
    "The floor is not cleared for this load. Ask the owner or a licensed person, most of all for "
    "old floors, lofts and ceilings, and watch for cracks, sag and doors that start to stick."
)
PEOPLE = (
    "People on it: the loads are those of sitting, standing or lying still. Jumping, and more "
    "people than it has room for, are not checked. Round edges, fix it to the wall, and where "
    "one can fall from it give it the guard rail that local rules ask for."
)
NOT_CHECKED = (
    "Something above is not checked. That is not a pass: find out what is missing before you build."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Seen:
    project: Project
    materials: tuple[Material, ...]
    not_checked: bool
    findings: Findings


def _any_overhead(seen: _Seen) -> bool:
    raised = any(placed.bottom >= OVERHEAD_FROM for placed in seen.findings.whole.placed.values())
    return raised or seen.project.site.people_below


def _any_tall(seen: _Seen) -> bool:
    return any(
        placed.weights.height >= TALL_FROM or is_tall(seen.findings.whole, placed)
        for placed in seen.findings.whole.placed.values()
    )


def _any_hung(seen: _Seen) -> bool:
    return any(unit.hangs or unit.between for unit in seen.project.unit) or any(
        lone.supports is not None for lone in seen.project.shelf
    )


def _needs_wall(seen: _Seen) -> bool:
    return _any_hung(seen) or _any_tall(seen)


def _wall_unknown(seen: _Seen) -> bool:
    wall = seen.project.site.wall
    return _needs_wall(seen) and wall in (None, "unknown", "metal stud", "lath and plaster")


def _any_people(seen: _Seen) -> bool:
    fills = [fill for lone in seen.project.shelf for fill in lone.fills]
    for unit in seen.project.unit:
        fills += [*unit.top_contents, *(fill for level in unit.level for fill in level.fills)]
    return any(fill is not None and fill.people is not None for fill in fills)


def _any_heavy(seen: _Seen) -> bool:
    return any(
        section.mass > LOAD_CONSTANT
        for placed in seen.findings.whole.placed.values()
        for section in sections(placed)
    )


def _not_passed(seen: _Seen, part: str, question: str = "") -> bool:
    return any(
        check.verdict in (Verdict.FAILS, Verdict.NOT_CHECKED)
        for check in seen.findings.checks
        if check.place.part.startswith(part) and check.question.startswith(question)
    )


def _kinds(*kinds: str) -> Callable[[_Seen], bool]:
    return lambda seen: any(material.kind in kinds for material in seen.materials)


_TRIGGERS: tuple[tuple[Callable[[_Seen], bool], tuple[str, ...]], ...] = (
    (lambda seen: seen.not_checked, (NOT_CHECKED,)),
    (_any_overhead, OVERHEAD),
    (_any_tall, (TALL, EARTHQUAKE)),
    (_any_hung, HUNG),
    (_wall_unknown, (UNKNOWN_WALL,)),
    (lambda seen: _needs_wall(seen) and seen.project.site.wall == "plasterboard", (PLASTERBOARD,)),
    (lambda seen: bool(seen.project.fixings), (MAKERS_LOADS,)),
    (lambda seen: any(unit.on for unit in seen.project.unit), (BRIDGE,)),
    (lambda seen: seen.project.site.children, (CHILDREN,)),
    (
        lambda seen: seen.project.site.children and any(unit.drawers for unit in seen.project.unit),
        (DRAWERS,),
    ),
    (_any_people, (PEOPLE,)),
    (_any_heavy, (HEAVY,)),
    (lambda seen: _not_passed(seen, "", "stays square"), (RACKING,)),
    (lambda seen: _not_passed(seen, "floor"), (FLOOR,)),
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
        findings=findings,
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
