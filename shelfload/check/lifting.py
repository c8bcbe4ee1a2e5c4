"""Can the people lift it? Each section as lifted, and the states in between."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from shelfload.check.curved import straight_only
from shelfload.check.result import Answer, Check
from shelfload.check.sections_lifted import (
    COUPLING,
    GRAVITY,
    Section,
    largest_box,
    lighter,
    one_person,
    sections,
)
from shelfload.describe.site import Site
from shelfload.idealise.arrangement import Placed
from shelfload.idealise.place import Place
from shelfload.idealise.ring import ring_of
from shelfload.idealise.stack import back_of
from shelfload.idealise.whole import Whole
from shelfload.solve.lifting import (
    distance_multiplier,
    people_needed,
    recommended_weight_limit,
    tilting_up_force,
    vertical_multiplier,
)
from shelfload.wording import figure, size

TEAM_SHARE = (1.0, 2.0 / 3.0, 0.5, 0.5)
"""What each person in a team of 1, 2, 3, 4 counts for: two thirds in pairs, half in threes, HSE
guidance on team handling (from memory); four as three (judgement)."""
TILT_SHARE = (1.0, 1.0, 1.0, 1.0)
"""Tilting up: each has a stretch of the edge to themselves, the floor takes the rest
(judgement, no source)."""
MOST_PEOPLE = 4
HANDS_FLAT = 300.0
"""Hands above the floor where one end of a unit that lies flat is taken up [mm]."""
CUT_OFF = 1750.0
SOURCE = "NIOSH revised lifting equation (published; cut-offs, grip and reach from memory)"


def putting_up(whole: Whole) -> Iterable[Answer]:
    """How many people does each section need, and what is unsteady on the way?"""
    for placed in whole.placed.values():
        yield _asked(whole, placed)


def _asked(whole: Whole, placed: Placed) -> Answer:
    site, unit = whole.project.site, placed.unit
    place = Place(unit=unit.name, part="lifting")
    team = site.lifters
    checks: list[Check] = []
    said = [
        "lifted empty, loose shelves out",
        f"people who lift: {team}" if team else f"as many people as it takes, up to {MOST_PEOPLE}",
    ]
    cut = sections(placed)
    on_floor = placed.bottom == 0.0 and unit.hangs is None
    ring = ring_of(unit)
    depth = unit.depth if ring is None else ring.envelope()
    for section in cut:
        if section.bottom == 0.0 and len(cut) == 1:
            checks.append(_tilted_up(place, placed, section, team))
        else:
            checks.append(_lifted(place, depth, section, site))
    if on_floor and len(cut) == 1:
        said.append(f"{unit.name}: put together lying flat where it is to stand, then tilted up")
    said += lighter(placed)
    said += largest_box(placed, site) if ring is None else ()
    if site.platform is not None:
        said.append(f"high lifts from a platform of {size(site.platform)}")
    checks += _states(whole, placed, cut)
    if ring is not None:
        # how it lies on its back, and how it tips half built, is not known of a curve
        checks = [
            check if check.question.startswith("people to lift") else straight_only(check)
            for check in checks
        ]
        said = [text for text in said if "lying flat" not in text]
    return Answer(checks=tuple(checks), assumptions=tuple(said))


def _people(
    place: Place,
    question: str,
    method: str,
    mass: float,
    single: float,
    share: tuple[float, ...],
    team: int | None,
    words: str,
) -> Check:
    needed = int(people_needed(mass, single, share))
    remedy = "Take it apart into lighter sections (comes_apart), or build it where it stands."
    if needed == 0:
        return Check(
            place=place,
            question=f"{question}: weight",
            method=method,
            source=SOURCE,
            measure="mass",
            value=mass,
            limit=single * max(n * s for n, s in enumerate(share, start=1)),
            governs=f"{words}; {len(share)} people",
            remedy=remedy,
        )
    return Check(
        place=place,
        question=question,
        method=method,
        source=SOURCE,
        measure="count",
        value=float(needed),
        limit=float(team or MOST_PEOPLE),
        governs=words,
        remedy="Ask more people, or take it apart into lighter sections (comes_apart).",
    )


def _tilted_up(place: Place, placed: Placed, section: Section, team: int | None) -> Check:
    """A unit lying on its back, its top end lifted first."""
    lying = [item for item in placed.weights.items if not item.moving and not item.loose]
    W = sum(item.force for item in lying)
    z_G = sum(item.force * item.z for item in lying) / W
    lift = float(tilting_up_force(W, z_G, section.height)) / GRAVITY
    single = float(
        recommended_weight_limit(
            1.0,
            vertical_multiplier(HANDS_FLAT),
            distance_multiplier(min(section.height, CUT_OFF)),
            1.0,
            1.0,
            COUPLING,
        )
    )
    words = (
        f"{section.name} {figure(section.mass, 'mass')}, {figure(lift, 'mass')} at its top end; "
        f"one person {figure(single, 'mass')}"
    )
    return _people(
        place, "people to tilt it up", "lift at the top end of a unit on its back", lift,
        single, TILT_SHARE, team, words,
    )  # fmt: skip


def _lifted(place: Place, depth: float, section: Section, site: Site) -> Check:
    question = f"people to lift {section.name}"
    method = "recommended weight limit at both ends of the lift, teams reduced"
    raised = section.bottom - (site.platform or 0.0)
    single = one_person(depth, section.height, max(raised, 0.0))
    at = size(section.bottom)
    if single <= 0.0:
        return Check(
            place=place,
            question=question,
            method=method,
            source=SOURCE,
            measure="mass",
            reason=f"{figure(section.mass, 'mass')} to {at} above the floor: higher than any "
            "published guidance for lifting by hand",
            remedy="Lift it in light sections from a firm platform (site.platform), or with a "
            "panel hoist.",
        )
    words = (
        f"{section.name} {figure(section.mass, 'mass')} to {at}; one person "
        f"{figure(single, 'mass')}"
    )
    return _people(place, question, method, section.mass, single, TEAM_SHARE, site.lifters, words)


def _states(whole: Whole, placed: Placed, cut: list[Section]) -> Iterator[Check]:
    """What may fold, fall or tip while it is put up."""
    unit = placed.unit
    place = Place(unit=unit.name, part="lifting")
    if len(cut) == 1 and placed.bottom == 0.0 and unit.hangs is None:
        backs = [back_of(unit, level) for level in unit.level]
        yield Check(
            place=place,
            question="square while tilted up",
            method="backs fixed before it is tilted up" if all(backs) else "open levels",
            source="statics",
            measure="count",
            value=float(sum(back is None for back in backs)),
            limit=0.0,
            governs="levels without a back; fix all backs while it lies flat",
            remedy="Fix a back or a diagonal batten to each open level before it is tilted up.",
        )
    if len(cut) > 1:
        yield from _part_stacked(placed, place)
    if unit.hangs is not None or unit.between is not None:
        yield _half_fixed(place, placed, cut, whole.project.site)


def _half_fixed(place: Place, placed: Placed, cut: list[Section], site: Site) -> Check:
    """One end on its first fixing, the other in the hands; heavier than one end of a section."""
    heaviest = max(cut, key=lambda section: section.mass)
    raised = max(heaviest.bottom - (site.platform or 0.0), 0.0)
    single = one_person(placed.unit.depth, heaviest.height, raised)
    words = (
        f"{figure(heaviest.mass / 2, 'mass')} at the free end; set it on a batten or props until "
        "every fixing is in"
    )
    return _people(
        place, "people at the free end, half fixed", "half of the heaviest section",
        heaviest.mass / 2, max(single, 1e-9), TEAM_SHARE, site.lifters, words,
    )  # fmt: skip


def _part_stacked(placed: Placed, place: Place) -> Iterator[Check]:
    """Each stage of a stack of empty sections, pushed at its top by the setting of the next."""
    weights = placed.weights
    dead = [item for item in weights.items if not item.moving and not item.loose]
    worst = None
    for number in range(len(placed.unit.level)):
        stage = [item for item in dead if item.level <= number]
        top = weights.panels[number + 1].z
        holding = sum(item.force * (weights.depth - item.x) for item in stage)
        push = holding / top
        if worst is None or push < worst[0]:
            worst = (push, number + 1)
    if worst is None:
        return
    yield Check(
        place=place,
        question="part-stacked and empty",
        method="pull at the top of each stage that tips it",
        source="ASTM F2057-23: sideways force (from memory)",
        measure="force",
        value=worst[0],
        limit=44.5,
        at_least=True,
        governs=f"after level {worst[1]}; tie each level back before the next is set on",
        remedy="Tie each level back to the wall or to its neighbour before the next is set on.",
    )
