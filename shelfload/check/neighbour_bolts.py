"""A unit hung between two neighbours by fasteners through their sides."""

from __future__ import annotations

from shelfload import tables
from shelfload.check.demand import LASTING, Lasting, factors
from shelfload.check.result import Answer, Check
from shelfload.check.screw import dense, designed
from shelfload.describe.model import Unit
from shelfload.describe.standing import Between
from shelfload.idealise.arrangement import Placed, hung_end
from shelfload.idealise.place import Place
from shelfload.idealise.whole import Whole
from shelfload.solve import embedment
from shelfload.solve.connection import SINGLE_SHEAR_MODES, governing, single_shear
from shelfload.solve.fastener import yield_moment
from shelfload.tables import Material
from shelfload.wording import figure

BOLTS = ("bolt", "connector bolt", "machine screw and insert")
ASSUMED_STEEL = 400.0
"""Tensile strength of bolts whose class is not said [MPa]: class 4.6."""
UNEVEN = 1.25
"""Share of the most loaded fastener over an equal share (judgement, no source)."""


def between_checks(whole: Whole, placed: Placed, hand: float) -> Answer:
    """Shear of the fasteners through both sides; a pull on the front edge beside one of them."""
    unit = placed.unit
    between = unit.between
    if between is None:
        raise AssertionError("asked of a unit that is not hung between others")
    checks = []
    for side, name in (("left side", between.left), ("right side", between.right)):
        neighbour = whole.placed[name].unit
        place = Place(unit=unit.name, part="neighbours", bay=side)
        found = [_asked(whole, placed, between, neighbour, place, hand, n) for n in (0, 1)]
        checks.append(max(found, key=lambda check: check.ratio if check.value else -1.0))
        checks.append(_one_lost(whole, placed, between, place, found[0]))
    said = (
        f"{unit.name}: at least half of its weight on each neighbour, a pull of "
        f"{figure(hand, 'force', as_mass=True)} beside one of them",
        f"{unit.name}: the most loaded fastener takes {UNEVEN:g} times an equal share",
    )
    return Answer(checks=tuple(checks), assumptions=said)


def _asked(
    whole: Whole,
    placed: Placed,
    between: Between,
    neighbour: Unit,
    place: Place,
    hand: float,
    which: int,
) -> Check:
    lasting = LASTING[which]
    own = whole.catalogue.own_fixings.get(between.maker or "")
    values = own.values if own is not None else "design"
    f_G, f_Q, f_P = factors(lasting, values)
    dead, imposed = _on_end(whole, placed, place)
    V = f_G * dead + f_Q * imposed + f_P * hand
    each = V / between.count * UNEVEN
    question = "holds: fasteners through the sides"
    source = "EN 1995-1-1:2004, 8.2.2"
    reason, limit = "", None
    remedy = "Use connector bolts through both sides, more of them, or stand the unit on something."
    governs = f"{between.count} fasteners"
    if own is not None:
        source, limit = own.source, own.shear
        reason = "" if limit is not None else "no shear is declared"
    elif between.screw is None:
        reason = f"no fastener is described; each of {between.count} must hold "
        reason += figure(each, "force", as_mass=True)
    else:
        answer = _through_both(whole, placed.unit, neighbour, between.screw, lasting)
        if isinstance(answer, str):
            reason = f"{answer}; each of {between.count} must hold "
            reason += figure(each, "force", as_mass=True)
        else:
            limit = answer
    if stack_unknown := whole.stacks[list(whole.placed).index(placed.unit.name)].unknown:
        reason = reason or f"what hangs there is not known ({stack_unknown})"
    return Check(
        place=place,
        question=question,
        method=f"equal shares, {lasting} load",
        source=source,
        measure="force",
        value=each if limit is not None else None,
        limit=limit,
        reason=reason,
        governs=governs,
        as_mass=True,
        remedy=remedy,
    )


def _on_end(whole: Whole, placed: Placed, place: Place) -> tuple[float, float]:
    stack = whole.stacks[list(whole.placed).index(placed.unit.name)]
    return hung_end(placed, stack, 0 if place.bay == "left side" else -1)


def _one_lost(whole: Whole, placed: Placed, between: Between, place: Place, asked: Check) -> Check:
    """The others in that side if one fastener gives out, long-term load as it is."""
    question, method = "if one fastener gives out", "equal shares of the rest, loads as they are"
    if between.count < 2:
        return Check(
            place=place, question=question, method=method, source="statics", measure="count",
            value=1.0, limit=2.0, at_least=True, governs="one fastener alone",
            remedy="Use two fasteners or more in each side.",
        )  # fmt: skip
    each = sum(_on_end(whole, placed, place)) / (between.count - 1) * UNEVEN
    return Check(
        place=place,
        question=question,
        method=method,
        source="statics",
        measure="force",
        value=each,
        limit=asked.limit,
        reason=asked.reason,
        governs=f"{between.count - 1} of {between.count} left",
        as_mass=True,
        remedy="Use more fasteners in each side.",
    )


def _through_both(
    whole: Whole, unit: Unit, neighbour: Unit, screw: str, lasting: Lasting
) -> float | str:
    bolt = tables.fasteners()[screw]
    if bolt.kind not in BOLTS:
        return f"{bolt.title}: two thin sides leave a screw too little to hold in"
    d = bolt.root_diameter or bolt.diameter
    members = []
    for one in (neighbour, unit):
        side = one.sides
        resolved = whole.catalogue.material(
            side.material or one.panel.material, side.thickness or one.panel.thickness
        )
        f_h = _bolt_embedment(resolved.material, resolved.thickness, d)
        if f_h is None:
            return f"no bearing strength under bolts for {resolved.material.called}"
        members.append((f_h, resolved.thickness, resolved.material))
    (f_1, t_1, first), (f_2, t_2, second) = members
    M_y = yield_moment(bolt.f_u or ASSUMED_STEEL, d)
    R_k, _ = governing(single_shear(f_1, f_2, t_1, t_2, d, M_y), SINGLE_SHEAR_MODES)
    return designed(float(R_k), [first, second], whole.project.site.service_class, lasting)


def _bolt_embedment(material: Material, thickness: float, d: float) -> float | None:
    if material.kind == "plywood":
        return float(embedment.embedment_plywood_bolt(dense(material), d))
    if material.kind in ("particleboard", "osb"):
        return float(embedment.embedment_particleboard_bolt(d, thickness))
    if material.kind in ("solid", "glulam"):
        return float(embedment.embedment_predrilled(dense(material), d))
    return None
