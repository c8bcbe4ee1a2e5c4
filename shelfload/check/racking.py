"""Does it stay square? Sideways load on each level, and the backs that resist it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from shelfload.check.result import Answer, Check, worst_of_each_question
from shelfload.check.tipping import restrained
from shelfload.describe.model import Level
from shelfload.describe.parts import Back
from shelfload.idealise.arrangement import Placed
from shelfload.idealise.geometry import bays
from shelfload.idealise.place import Place
from shelfload.idealise.stack import back_of
from shelfload.idealise.weights import Weight
from shelfload.idealise.whole import Whole
from shelfload.solve.shear_panel import shear_panel_stiffness, sheet_slenderness
from shelfload.solve.slip import mean_density, slip_modulus, slip_modulus_nail
from shelfload.tables import Material
from shelfload.wording import figure

LEAN = 1.0 / 200.0
"""Sideways share of the vertical load: initial lean, EN 1995-1-1:2004, 5.4.4(2)."""
PUSH = 150.0
"""Someone leaning on one end, sideways [N] (common practice, no source)."""
SWAY = 1.0 / 200.0
"""Largest sway of a level over its height (common practice, no source)."""
ASSUMED_SCREW, ASSUMED_NAIL = 3.0, 1.4
"""Diameter of back fasteners where none is described: the thinnest usual [mm]."""
BUCKLING_SAFETY = 1.5
NU = 0.3


@dataclass(frozen=True, slots=True, kw_only=True)
class Braced:
    """A bay with a back that keeps its level square."""

    stiffness: float
    width: float
    height: float
    thickness: float
    E: float
    spacing: float


def staying_square(whole: Whole) -> Iterable[Answer]:
    """Which levels resist a sideways load, and by how much do they sway?"""
    for placed in whole.placed.values():
        yield _asked(whole, placed)


def _asked(whole: Whole, placed: Placed) -> Answer:
    unit = placed.unit
    open_levels = [
        number for number, level in enumerate(unit.level) if back_of(unit, level) is None
    ]
    held = restrained(unit) or unit.hangs is not None or unit.between is not None
    checks: list[Check] = []
    braced: list[Check] = []
    said = [
        f"a sideways push of {figure(PUSH, 'force')} at the top, and 1/200 of the weight above",
        "corners of boxes are taken as hinges",
    ]
    for number, level in enumerate(unit.level):
        place = Place(unit=unit.name, part=f"level {number + 1}")
        force = PUSH + LEAN * _above(whole, placed, number)
        if number not in open_levels:
            braced += _braced_checks(whole, placed, level, place, force)
        elif held and len(open_levels) == 1:
            checks.append(_held_level(place, force))
        else:
            checks.append(_open_level(place, force, open_levels))
    checks += worst_of_each_question(braced)
    if any(back is not None and back.fixed != "glued" for back in _backs(placed)):
        said.append(
            f"fasteners of backs: screws of {figure(ASSUMED_SCREW, 'length')}, nails of "
            f"{figure(ASSUMED_NAIL, 'length')}"
        )
    return Answer(checks=tuple(checks), assumptions=tuple(said))


def _backs(placed: Placed) -> list[Back | None]:
    return [back_of(placed.unit, level) for level in placed.unit.level]


def _above(whole: Whole, placed: Placed, number: int) -> float:
    """Weight above the middle of a level, full, with what stands on the unit [N]."""
    weights = placed.weights
    middle = weights.floor_of(number) + placed.unit.level[number].height / 2

    def counts(item: Weight) -> bool:
        return item.z > middle or (item.moving and item.level > number)

    here = sum(item.force for item in weights.items if counts(item))
    for name in placed.above:
        upper = whole.placed[name]
        here += (upper.weights.total + _above_all(whole, upper)) / len(upper.below)
    return here


def _above_all(whole: Whole, placed: Placed) -> float:
    return sum(
        (whole.placed[name].weights.total + _above_all(whole, whole.placed[name]))
        / len(whole.placed[name].below)
        for name in placed.above
    )


def _open_level(place: Place, force: float, open_levels: list[int]) -> Check:
    names = ", ".join(str(number + 1) for number in open_levels)
    return Check(
        place=place,
        question="stays square",
        method="open bays with hinged corners: nothing resists",
        source="statics",
        measure="force",
        value=force,
        limit=0.0,
        governs="no bay of this level has a back",
        remedy=f"Give one bay of each open level ({names}) a fixed back, or screw the shelf "
        "above and below such a level to the wall.",
    )


def _held_level(place: Place, force: float) -> Check:
    return Check(
        place=place,
        question="stays square",
        method="none: the wall fixings keep its top where it is",
        source="statics",
        measure="force",
        reason="the only open level; the wall fixings must also take "
        f"{figure(force, 'force')} sideways",
        remedy="Give one of its bays a fixed back.",
    )


def bay_bracing(
    whole: Whole, placed: Placed, level: Level, back: Back
) -> tuple[list[Braced], str]:
    """Return the bays that a back braces, or why nothing can be said of it."""
    unit = placed.unit
    resolved = whole.catalogue.material(back.material, back.thickness)
    material = resolved.material
    if material.G_panel is None:
        return [], f"{material.called}: no shear modulus in its plane is tabled"
    side = whole.catalogue.material(
        unit.sides.material or unit.panel.material, unit.sides.thickness or unit.panel.thickness
    )
    K = _slip(back, material, side.material)
    spacing = back.spacing or 1.0
    side_half = side.thickness / 2
    found = []
    for bay in bays(unit, level):
        width = bay.right - bay.left + 2 * side_half
        height = level.height + side_half
        stiff = float(
            shear_panel_stiffness(material.G_panel, resolved.thickness, width, height, K, spacing)
        )
        found.append(
            Braced(
                stiffness=stiff,
                width=width,
                height=height,
                thickness=resolved.thickness,
                E=min(material.E_0, material.E_90 or material.E_0),
                spacing=spacing if back.fixed != "glued" else 0.0,
            )
        )
    return found, ""


def _slip(back: Back, material: Material, side: Material) -> float:
    if back.fixed == "glued":
        return float("inf")
    rho = float(mean_density(material.density, side.density))
    if back.fixed == "screwed":
        return float(slip_modulus(rho, ASSUMED_SCREW))
    return float(slip_modulus_nail(rho, ASSUMED_NAIL))


def _braced_checks(
    whole: Whole, placed: Placed, level: Level, place: Place, force: float
) -> Iterator[Check]:
    back = back_of(placed.unit, level)
    if back is None:
        raise AssertionError("asked of a level with a back")
    braced, why = bay_bracing(whole, placed, level, back)
    source = "EN 1995-1-1:2004, Table 7.1 (slip) and 9.2.4.2 (shear flow); own derivation"
    if why:
        yield Check(
            place=place, question="stays square", method="backs as shear panels", source=source,
            measure="length", reason=why,
        )  # fmt: skip
        return
    total = sum(one.stiffness * one.width for one in braced)
    angle = force / total
    flow = max(one.stiffness for one in braced) * angle
    words = f"{figure(force, 'force')} sideways"
    if braced[0].spacing:
        words += f"; {figure(flow * braced[0].spacing, 'force')} on each fastener of the back"
    yield Check(
        place=place,
        question="stays square",
        method="backs as shear panels with slipping fasteners, corners as hinges",
        source=f"{source}; limit height / 200: common practice, no source",
        measure="length",
        value=angle * level.height,
        limit=SWAY * level.height,
        governs=words,
        remedy="Fix the back at a closer spacing, glue it, or use a thicker one.",
    )
    for number, one in enumerate(braced, start=1):
        slender = float(sheet_slenderness(min(one.width, one.height), one.thickness))
        if slender > 100.0 and number == 1:
            yield _buckling(place, one, one.stiffness * angle, slender)


def _buckling(place: Place, one: Braced, flow: float, slender: float) -> Check:
    """A thin back may buckle in shear: plate on hinged edges."""
    short, long = sorted((one.width, one.height))
    k = 5.34 + 4.0 * (short / long) ** 2
    critical = k * 3.141592653589793**2 * one.E / (12.0 * (1.0 - NU**2))
    critical *= (one.thickness / short) ** 2
    return Check(
        place=place,
        question="back buckles in shear",
        method=f"plate on hinged edges, k {k:.2f}, safety {BUCKLING_SAFETY:g}",
        source="Timoshenko & Gere, Theory of Elastic Stability, 9.7: buckling in shear",
        measure="stress",
        value=flow / one.thickness,
        limit=critical / BUCKLING_SAFETY,
        governs=f"clear size over thickness {slender:.0f}, above the 100 of EN 1995-1-1, 9.2.4.2",
        remedy="Use a thicker back.",
    )
