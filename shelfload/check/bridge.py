"""Units on units and bridges: do they land on something, press it too hard, or slide?"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from shelfload import tables
from shelfload.check.criteria import EC5, GAMMA_G, GAMMA_Q, design
from shelfload.check.result import Answer, Check
from shelfload.idealise.arrangement import Placed
from shelfload.idealise.place import Place
from shelfload.idealise.properties import strength
from shelfload.idealise.stack import Stack, UprightForce
from shelfload.idealise.weights import horizontal
from shelfload.idealise.whole import Whole
from shelfload.solve.bearing import bearing_ratio
from shelfload.solve.tipping import sliding_ratio
from shelfload.wording import figure

FRICTION = 0.2
"""Friction of painted or lacquered wood on wood, the low end (common practice, no source)."""


def standing_on_units(whole: Whole) -> Iterable[Answer]:
    """Does each unit that stands on others land well, and does it stay there?"""
    for placed, stack in zip(whole.placed.values(), whole.stacks, strict=True):
        if placed.unit.on:
            yield _asked(whole, placed, stack)
        elif (placed.unit.underside or placed.unit.rests_on) and not placed.unit.hangs and placed.unit.between is None:
            yield Answer(checks=(_on_something(placed, stack),))


def _on_something(placed: Placed, stack: Stack) -> Check:
    rest = placed.unit.rests_on
    if rest is not None:
        return Check(
            place=Place(unit=placed.unit.name, part="standing"),
            question=f"weight on the {rest.what}",
            method="whole unit, full",
            source=rest.source,
            measure="force",
            value=placed.weights.total,
            limit=rest.allowed,
            as_mass=True,
            remedy="Put less on it, or hang it from the wall.",
        )
    most = max((foot.dead + foot.imposed for foot in stack.feet), default=placed.weights.total)
    return Check(
        place=Place(unit=placed.unit.name, part="standing"),
        question="what carries it",
        method="none",
        source="not described",
        measure="force",
        reason="it stands above the floor on something that is not described; it weighs "
        f"{figure(placed.weights.total, 'force', as_mass=True)} full, up to "
        f"{figure(most, 'force', as_mass=True)} on one upright",
        remedy="Name the unit below (on), what else carries it (rests_on), or say how it hangs "
        "(hangs).",
    )


def _asked(whole: Whole, placed: Placed, stack: Stack) -> Answer:
    below = [whole.placed[name] for name in placed.below]
    checks = list(_sliding(placed))
    for foot in stack.feet:
        checks += _landing(whole, placed, foot, below)
    if len(below) > 1:
        checks += _level(placed, below)
    said = (
        *placed.said,
        f"{placed.unit.name}: friction {FRICTION:g} on what it stands on, "
        "as no screws between them are counted",
    )
    return Answer(checks=tuple(checks), assumptions=said)


def _sliding(placed: Placed) -> Iterator[Check]:
    push = tables.figures()["pull-on-a-tall-unit"]
    empty = placed.weights.dead
    used = float(sliding_ratio(push.low, empty, FRICTION))
    yield Check(
        place=Place(unit=placed.unit.name, part="standing"),
        question="slides when pulled, empty",
        method="push against friction",
        source=f"{push.source} ({push.status})",
        measure="force",
        value=push.low,
        limit=push.low / used,
        remedy="Screw it down to what it stands on.",
    )


def _level(placed: Placed, below: list[Placed]) -> Iterator[Check]:
    tops = [one.top for one in below]
    yield Check(
        place=Place(unit=placed.unit.name, part="standing"),
        question="towers of one height",
        method="tops of what is below",
        source="as described; 2 mm: judgement, to be packed",
        measure="length",
        value=max(tops) - min(tops),
        limit=2.0,
        remedy="Pack the lower one or make both of one height.",
    )


def _landing(
    whole: Whole, placed: Placed, foot: UprightForce, below: list[Placed]
) -> Iterator[Check]:
    """Contact of one upright with the top panel of what it stands on."""
    place = Place(unit=placed.unit.name, part="standing", bay=foot.upright.name)
    left, right = placed.left + foot.upright.left, placed.left + foot.upright.right
    contact, carrier = max(
        (
            (min(right, one.right) - max(left, one.left), number)
            for number, one in enumerate(below)
        ),
    )
    under = below[carrier]
    source = f"{EC5}, 6.1.5 with k_c,90 = 1"
    wanted = right - left
    yield Check(
        place=place,
        question="lands on what is below",
        method="upright over the top of the unit below",
        source="geometry as described",
        measure="length",
        value=max(contact, 0.0),
        limit=wanted,
        at_least=True,
        governs=under.unit.name if contact > 0 else "nothing is under it",
        remedy="Move or widen what is below so that the whole upright stands on it.",
    )
    if contact <= 0.0:
        return
    top = horizontal(under.unit, len(under.unit.level))
    resolved = whole.catalogue.material(
        top.material or under.unit.panel.material, top.thickness or under.unit.panel.thickness
    )
    basis = strength(resolved.material, "along")
    allowed = design(
        basis.f_bearing, resolved.material, whole.project.site.service_class, "long-term"
    )
    question = "presses on what is below"
    if isinstance(allowed, str):
        yield Check(
            place=place, question=question, method="bearing", source=source, measure="stress",
            reason=f"{resolved.material.called}: {allowed}",
        )  # fmt: skip
        return
    force = GAMMA_G * foot.dead + GAMMA_Q * foot.imposed
    depth = min(placed.unit.depth, under.unit.depth)
    used = float(bearing_ratio(force, depth, contact, allowed))
    yield Check(
        place=place,
        question=question,
        method="factored load over the contact",
        source=f"{source}; loads EN 1990 eq. (6.10)",
        measure="stress",
        value=used * allowed,
        limit=allowed,
        governs=f"{figure(force, 'force', as_mass=True)} on {figure(contact, 'length')} x "
        f"{figure(depth, 'length')}; {resolved.material.called} ({basis.bearing_basis})",
    )
