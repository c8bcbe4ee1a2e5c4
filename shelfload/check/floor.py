"""Can the floor take it? Load per area, sheet between battens, joists."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import floor as whole_number

from shelfload import tables
from shelfload.check.criteria import EC5, GAMMA_G, GAMMA_Q, design
from shelfload.check.curved import straight_only
from shelfload.check.result import Answer, Check
from shelfload.describe.site import Floor, Joists
from shelfload.idealise.arrangement import Placed
from shelfload.idealise.loads import QUASI_PERMANENT
from shelfload.idealise.place import Place
from shelfload.idealise.properties import strength
from shelfload.idealise.stack import Stack
from shelfload.idealise.whole import Whole
from shelfload.solve.floor import effective_width, point_load_factors
from shelfload.solve.joist import joist_deflection, joist_moment, joist_shear
from shelfload.wording import figure, size

FLOOR_DEAD = 0.5e-3
"""Own weight of a timber floor with its ceiling [N/mm2] (common practice, no source)."""
SHEET_SPREAD = 1.2
"""Spread of a load along the span of the sheet: half of what solid slabs have (judgement)."""
JOIST_SAG = 250.0
"""Span over sag of joists after years: middle of the range of EN 1995-1-1, Table 7.2."""


def standing_on_the_floor(whole: Whole) -> Iterable[Answer]:
    """Does the floor carry each unit that stands on it, with all that stands on the unit?"""
    for placed, stack in zip(whole.placed.values(), whole.stacks, strict=True):
        if stands_on_the_floor(placed):
            yield _asked(whole, placed, stack)


def carried_by(whole: Whole, placed: Placed) -> tuple[float, float]:
    """Return own weight and contents of a unit and its share of all above it [N]."""
    dead, goods = placed.weights.dead, placed.weights.contents
    for name in placed.above:
        upper = whole.placed[name]
        own, stored = carried_by(whole, upper)
        dead += own / len(upper.below)
        goods += stored / len(upper.below)
    return dead, goods


def _asked(whole: Whole, placed: Placed, stack: Stack) -> Answer:
    described = whole.project.site.floor
    dead, goods = carried_by(whole, placed)
    place = Place(unit=placed.unit.name, part="floor")
    checks = list(_under(whole, placed, stack, dead, goods, place))
    said: list[str] = []
    if placed.unit.plan is not None:
        # which joists and battens meet a curve depends on where it stands
        checks = [straight_only(check) for check in checks]
    if described.joists is not None:
        said.append(
            f"floor: {figure(FLOOR_DEAD, 'area load')} of its own and the domestic load "
            "beside the unit"
        )
    else:
        checks = [*_on_the_whole(whole, placed, described, dead + goods, place), *checks]
    return Answer(checks=tuple(checks), assumptions=tuple(said))


def _under(
    whole: Whole, placed: Placed, stack: Stack, dead: float, goods: float, place: Place
) -> Iterator[Check]:
    """What is asked of described joists and a described sheet."""
    described = whole.project.site.floor
    if described.joists is not None:
        yield from _joists(whole, placed, described.joists, dead, goods, place)
    if described.sheet is not None:
        yield from _sheet(whole, placed, stack, described, place)


def stands_on_the_floor(placed: Placed) -> bool:
    """Whether a unit stands on the floor itself."""
    unit = placed.unit
    return unit.hangs is None and not placed.below and not (unit.underside or unit.rests_on)


def _on_the_whole(
    whole: Whole, placed: Placed, described: Floor, total: float, place: Place
) -> Iterator[Check]:
    """Compare the unit with what floors are designed for, where its joists are not known."""
    figures = tables.figures()
    kinds = {"concrete": "floor-storage-eu", "ceiling": "ceiling-no-storage-us"}
    row = figures[kinds.get(described.kind, "floor-domestic-eu")]
    limit, source = row.low, f"{row.source} ({row.status}); national values differ"
    if described.allowed is not None:
        limit, source = described.allowed.value, "as described"
    pressure = total / (placed.weights.width * placed.unit.depth)
    words = (
        f"{figure(total, 'force', as_mass=True)} on {size(placed.weights.width)} x "
        f"{size(placed.unit.depth)}"
    )
    spot = figures["floor-domestic-point-eu"]
    usual = described.kind in ("timber", "unknown") and described.allowed is None
    # the single load is designed for once: units may stand side by side on the same joists
    beside = [one for one in whole.placed.values() if stands_on_the_floor(one)]
    together = sum(sum(carried_by(whole, one)) for one in beside)
    if usual and limit < pressure and together <= spot.low:
        # whatever a floor does under one load of this size, it does less under a spread one
        yield Check(
            place=place,
            question="whole weight as one load on the floor",
            method="no more than the single load that floors are designed for"
            + (", all units together" if len(beside) > 1 else ""),
            source=f"{spot.source} ({spot.status}); national values differ",
            measure="force",
            value=together,
            limit=spot.low,
            governs=words,
            as_mass=True,
        )
        return
    question = "load on its own footprint"
    if pressure > limit and described.kind != "concrete":
        yield Check(
            place=place,
            question=question,
            method="weight over footprint",
            source=source,
            measure="area load",
            reason=f"{figure(pressure, 'area load')} on its footprint, floors are designed for "
            f"{figure(limit, 'area load')} over the whole room; a floor spreads such a load, how "
            "well depends on its joists",
            governs=words,
            remedy="Describe the joists (site.floor.joists), or ask the owner or a licensed "
            "person; stand heavy units across the joists and beside a bearing wall.",
        )
        return
    yield Check(
        place=place,
        question=question,
        method="weight over footprint",
        source=source,
        measure="area load",
        value=pressure,
        limit=limit,
        governs=words,
        remedy="Spread it on a larger base, or have the floor looked at by a licensed person.",
    )


def _joists(
    whole: Whole, placed: Placed, joists: Joists, dead: float, goods: float, place: Place
) -> Iterator[Check]:
    """A simple joist under its share of the unit, the room's load beside it."""
    site = whole.project.site
    resolved = whole.catalogue.material(joists.material, joists.width)
    material = resolved.material
    width, depth = placed.weights.width, placed.unit.depth
    across = joists.run == "across"
    reach, part = (width, depth) if across else (depth, width)
    count = max(whole_number(reach / joists.spacing), 1)
    part = min(part, joists.span)
    start = min(joists.from_wall, joists.span - part) if across else (joists.span - part) / 2
    room = tables.figures()["floor-domestic-eu"].low

    def loads(f_G: float, f_Q: float) -> tuple[float, float]:
        even = (f_G * FLOOR_DEAD + f_Q * room) * joists.spacing
        return even, (f_G * dead + f_Q * goods) / count / part

    even, spot = loads(GAMMA_G, GAMMA_Q)
    M = float(joist_moment(even, spot, start, part, joists.span))
    V = float(joist_shear(even, spot, start, part, joists.span))
    section = joists.width * joists.height**2 / 6
    basis = strength(material, "along")
    words = (
        f"{count} joist{'s' if count > 1 else ''} {joists.run} the unit, "
        f"{size(joists.width)} x {size(joists.height)}, "
        f"{material.called}"
    )
    remedy = (
        "Stand it across the joists and beside a bearing wall, spread it over more joists, "
        "or have the floor looked at by a licensed person."
    )
    for question, value, known, clause in (
        ("joists in bending", M / section, basis.f_m, "6.1.6"),
        ("joists in shear", 1.5 * V / (joists.width * joists.height), basis.f_shear, "6.1.7"),
    ):
        allowed = design(known, material, site.service_class, "long-term")
        if isinstance(allowed, str):
            yield Check(
                place=place, question=question, method="simple joist", source=f"{EC5}, {clause}",
                measure="stress", reason=f"{material.called}: {allowed}",
            )  # fmt: skip
            continue
        yield Check(
            place=place,
            question=question,
            method="simple joist, unit and domestic load together, factored long-term load",
            source=f"{EC5}, {clause}; loads EN 1990 eq. (6.10)",
            measure="stress",
            value=value,
            limit=allowed,
            governs=words,
            remedy=remedy,
        )
    kdef = tables.kdef(material.duration_class, site.service_class)
    if kdef is None:
        return
    EI = material.E_0 * joists.width * joists.height**3 / 12
    even = (FLOOR_DEAD * (1 + kdef.value) + room * (1 + 0.3 * kdef.value)) * joists.spacing
    spot = (dead + goods * QUASI_PERMANENT["long-term"]) / count / part * (1 + kdef.value)
    yield Check(
        place=place,
        question="joists sag after years",
        method=f"simple joist, creep {kdef.value:g}",
        source=f"{EC5}, 2.2.3 and Table 7.2",
        measure="length",
        value=float(joist_deflection(even, spot, start, part, joists.span, EI)),
        limit=joists.span / JOIST_SAG,
        governs=words,
        remedy=remedy,
    )


def _sheet(
    whole: Whole, placed: Placed, stack: Stack, described: Floor, place: Place
) -> Iterator[Check]:
    """Line load of the heaviest foot, midway between two battens."""
    sheet = described.sheet
    spacing = described.battens or (described.joists.spacing if described.joists else None)
    if sheet is None or spacing is None:
        return
    question, source = "floor sheet under the heaviest upright", f"{EC5}, 6.1.6"
    if not stack.feet:
        yield Check(
            place=place, question=question, method="sheet over battens", source=source,
            measure="stress", reason=f"what its uprights bring is not known ({stack.unknown})",
        )  # fmt: skip
        return
    resolved = whole.catalogue.material(sheet.material, sheet.thickness)
    foot = max(stack.feet, key=lambda one: GAMMA_G * one.dead + GAMMA_Q * one.imposed)
    P = GAMMA_G * foot.dead + GAMMA_Q * foot.imposed
    factors = point_load_factors(described.sheet_spans)
    thickness = foot.upright.right - foot.upright.left
    along = described.joists is None or described.joists.run == "along"
    if along:
        # the line runs with the sheet's span: its load is spread over that length
        helped = float(effective_width(thickness, spacing / 2, spacing, SHEET_SPREAD))
        share = min(spacing / placed.unit.depth, 1.0)
        M = max(factors.sagging, factors.hogging) * P * share * spacing / 2
        words = "battens or joists along the unit; half as for a load on one spot"
    else:
        helped = placed.unit.depth
        M = max(factors.sagging, factors.hogging) * P * spacing
        words = "battens or joists across the unit, upright midway between two"
    stress = M * 6.0 / (helped * resolved.thickness**2)
    basis = strength(resolved.material, "across")
    f_m = basis.f_m if basis.f_m is not None else strength(resolved.material, "along").f_m
    allowed = design(f_m, resolved.material, whole.project.site.service_class, "long-term")
    if isinstance(allowed, str):
        yield Check(
            place=place, question=question, method="sheet over battens", source=source,
            measure="stress", reason=f"{resolved.material.called}: {allowed}",
        )  # fmt: skip
        return
    yield Check(
        place=place,
        question=question,
        method=f"sheet over {described.sheet_spans} span(s), factored long-term load, its "
        "weaker direction",
        source=f"{source}; loads EN 1990 eq. (6.10)",
        measure="stress",
        value=stress,
        limit=allowed,
        reason="provisional: how far the sheet spreads this load is a judgement" if along else "",
        governs=f"{foot.upright.name}, {figure(P, 'force', as_mass=True)}; {words}",
        remedy="Set a board or plinth of 18 mm or more under the uprights, or stand them over "
        "the battens.",
    )
