"""Are the joins right? A list to drill from, and a check of what is described."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from math import ceil

from shelfload import tables
from shelfload.check.join_line import JoinLine
from shelfload.check.join_words import (
    cheaper_of,
    line_of,
    option_checks,
    reason_of,
    refusal_check,
    why_none,
)
from shelfload.check.result import Answer, Check
from shelfload.check.screw_choice import Choice, choose, judge
from shelfload.check.screw_fate import called
from shelfload.check.screw_option import Option, Refused
from shelfload.check.screw_stack import TIP_COVER
from shelfload.describe.joins import KINDS, Join
from shelfload.idealise.doubles import PanelOfDouble, double_slip, screwed_double
from shelfload.idealise.join_at import JoinAt
from shelfload.idealise.join_demand import HANDLING, HANDLING_PULL, shelf_shear
from shelfload.idealise.joint import Force, Joint
from shelfload.idealise.place import Place
from shelfload.idealise.unit_joins import CLEAT, unit_joins
from shelfload.idealise.whole import Whole
from shelfload.solve import placement
from shelfload.solve.slip import slip_modulus_ultimate
from shelfload.wording import figure, size

WHAT = {
    "shelf end": "screws of shelf ends",
    "cleat": "screws of the cleat",
    "double": "screws of the double",
    "side by side": "fasteners of boxes side by side",
    "box on box": "fasteners of box on box",
    "between": "fasteners through the sides",
    "back": "screws of the back",
}
DOUBLE_SPACING = 150.0  # of the screws of a double where none is described [mm]
CLAMP_SPACING = 200.0  # of screws that only draw panels together [mm] (common practice)
CLAMP_REACH = 30.0  # of such a screw into an edge [mm] (common practice, no source)


def holding_together(whole: Whole) -> Iterable[Answer]:
    """Choose a fastener for every join, and check those that are described.

    What is not described gets a proposal, which is no check: nothing else counts on it. A
    described join that no rule gives a value is "not checked".
    """
    found = [_forced(whole, one) for one in unit_joins(whole)]
    proposals = _proposals(found)
    for number, one in enumerate(found):
        yield _answer(one, proposals.get(number))


def _proposals(found: list[JoinAt]) -> dict[int, tuple[Choice, Option | None]]:
    """Choose for all joins at once; bolts where no screw does."""
    asked = [number for number, one in enumerate(found) if one.joint is not None]
    chosen: dict[int, tuple[Choice, Option | None]] = {}
    by_kinds: dict[tuple[str, ...], list[int]] = {}
    for number in asked:
        by_kinds.setdefault(_kinds(found[number]), []).append(number)
    for kinds, numbers in by_kinds.items():
        choices = choose(_joints(found, numbers), kinds, shown=1)
        chosen |= {n: (c, None) for n, c in zip(numbers, choices, strict=True)}
    none = [n for n, (choice, _) in chosen.items() if choice.best is None]
    for n, bolt in zip(none, choose(_joints(found, none), KINDS["bolts"], shown=1), strict=True):
        chosen[n] = (chosen[n][0], bolt.best)
    return chosen


def _joints(found: list[JoinAt], numbers: list[int]) -> list[Joint]:
    return [joint for n in numbers if (joint := found[n].joint) is not None]


def _kinds(one: JoinAt) -> tuple[str, ...]:
    if one.kind == "between":
        return KINDS["bolts"]
    return KINDS.get(one.join.by, KINDS["screws"]) if one.join is not None else KINDS["screws"]


def _answer(one: JoinAt, proposal: tuple[Choice, Option | None] | None) -> Answer:
    if one.joint is None or proposal is None:
        return Answer(joins=(_undrilled(one),))
    choice, bolt = proposal
    said = _said(one)
    if one.join is None or not _relied_on(one):
        return Answer(joins=(_proposed(one, choice, bolt),), assumptions=said)
    checks, line = _described(one, one.joint, one.join, choice, bolt)
    return Answer(checks=checks, joins=(line,), assumptions=said)


def _relied_on(one: JoinAt) -> bool:
    """Whether the screws of a described join carry something by themselves."""
    return one.carries != "bearing"


def _places(one: JoinAt) -> Place:
    parts = one.parts
    words = ", ".join(parts) if len(parts) < 3 else f"{parts[0]} to {parts[-1]}"
    return Place(unit=one.place.unit, part=words)


def _said(one: JoinAt) -> tuple[str, ...]:
    if one.kind == "cleat":
        thick = size(CLEAT[1])
        return (f"cleats not described: softwood, class C16, {thick} thick",)
    return (
        f"joins that come apart: at least {figure(HANDLING, 'force')} sideways and "
        f"{figure(HANDLING_PULL, 'force')} apart for handling and knocks (common practice, no "
        "source)",
    )


def _undrilled(one: JoinAt) -> JoinLine:
    """A join without a screw: glued, housed, or lying."""
    by, demountable, note = "lying on each other", "yes", ""
    if one.glued:
        by, demountable = "glue", "no: glued"
    elif one.kind == "shelf end":
        loose = one.words.startswith("loose")
        by = "pins or cleats" if loose else "housing or cleat"
        demountable = "yes" if loose else "yes, if not glued"
        note = "the shelf rests on its bearing, which carries it; nothing to drill"
    elif one.kind == "back" and one.spacing is not None:
        by = f"as described, every {size(one.spacing, down=True)}"
        note = "nails and screws in the edges of panels have no design value"
    return JoinLine(
        place=_places(one),
        join=one.words,
        by=by,
        demountable=demountable,
        proposed=one.join is None,
        joins=one.joins,
        note=note,
    )


def _proposed(one: JoinAt, choice: Choice, bolt: Option | None) -> JoinLine:
    joint = choice.joint
    note = "holds it in place; the bearing carries" if one.carries == "bearing" else ""
    if choice.best is not None:
        return _line(one, joint, choice.best, note=note, cheaper=cheaper_of(choice))
    text, _ = why_none(choice)
    clamp = _clamp(one, joint)
    if one.kind in ("double", "back", "shelf end") and clamp is not None:
        return replace(clamp, note="; ".join(p for p in (note, f"no design value: {text}") if p))
    if bolt is not None:
        return _line(one, joint, bolt, by="bolts", note=f"no screw: {text}")
    return JoinLine(
        place=_places(one),
        join=one.words,
        by="nothing found",
        demountable="-",
        joins=one.joins,
        note=text,
    )


def _clamp(one: JoinAt, joint: Joint) -> JoinLine | None:
    """The longest usual screw that stays inside the stack: it draws together, and no more."""
    depth = min(joint.second.depth, CLAMP_REACH + TIP_COVER)
    inside = joint.first.thickness + depth - joint.recess - TIP_COVER
    usual = [
        (row.order or 99, -length, row)
        for row in tables.fasteners().values()
        if row.kind == "chipboard screw"
        for length in row.lengths
        if joint.first.thickness + 2.0 * row.diameter <= length <= inside
        and row.diameter <= joint.second.thickness / 4.0
    ]
    if not usual:
        return None
    _, length, row = min(usual, key=lambda one: one[:2])
    end = 10.0 * row.diameter
    spacing = one.spacing or CLAMP_SPACING
    if joint.length < 2.0 * end + 5.0 * row.diameter:
        return None
    count = placement.count_for_spacing(joint.length, spacing, end)
    fits = placement.count_that_fits(joint.length, 5.0 * row.diameter, end)
    count = max(min(count, fits), 2)
    try:
        marks = placement.positions(joint.length, count, end, 5.0 * row.diameter)
    except ValueError:
        return None
    option = Option(
        screw=row, length=-length, count=count, positions=tuple(float(m) for m in marks),
        least_spacing=5.0 * row.diameter, end=end, rim=0.0, reach=0.0, cover=0.0, links=(),
        d_ef=row.diameter,
    )  # fmt: skip
    line = _line(one, joint, option)
    clamps = replace(line, used=None, basis="none", governs="clamps only", edge=None)
    # a back's rows run along edges of several lengths: a spacing is all that can be said
    return replace(clamps, count=0, positions=()) if one.kind == "back" else clamps


def _line(
    one: JoinAt, joint: Joint, option: Option, *, by: str = "", note: str = "", cheaper: str = ""
) -> JoinLine:
    described = one.join
    return line_of(
        option,
        joint,
        place=_places(one),
        join=one.words,
        by=by or (described.by if described is not None else "screws"),
        along=one.along,
        joins=one.joins,
        proposed=described is None or described.screw is None,
        demountable="no: glued, screws are a back-up" if one.glued else "",
        note=note,
        cheaper=cheaper,
    )


def _described(
    one: JoinAt, joint: Joint, join: Join, choice: Choice, bolt: Option | None
) -> tuple[tuple[Check, ...], JoinLine]:
    """Check a join as described: with its own screw, or with the one chosen for it."""
    what = WHAT[one.kind]
    screw = join.screw
    found: Option | Refused | None = choice.best
    if screw is not None:
        length = screw.length or _best_length(joint, screw.row)
        found = judge(joint, screw.row, length, _count(one, joint, join))
    elif found is not None and (join.count or join.spacing):
        found = judge(joint, found.screw, found.length, _count(one, joint, join))
    if isinstance(found, Option):
        line = _line(one, joint, found, cheaper=cheaper_of(choice) if screw is None else "")
        return tuple(option_checks(found, joint, one.place, what)), line
    text, remedy = why_none(choice) if found is None else reason_of(joint, found)
    if found is not None and choice.best is not None:
        text = f"{text}; {_short(choice.best)} would do"
    elif bolt is not None:
        text = f"{text}; {_short(bolt)} would do"
    line = JoinLine(
        place=_places(one),
        join=one.words,
        by=join.by if found is None else f"{join.by}, {called(found.screw, found.length)}",
        demountable="no: glued" if one.glued else "yes",
        proposed=False,
        joins=one.joins,
        note=f"not checked: {text}",
    )
    return (refusal_check(one.place, what, text, remedy),), line


def _short(option: Option) -> str:
    return f"{option.count} x {called(option.screw, option.length)}"


def _best_length(joint: Joint, row: tables.Fastener) -> float:
    """The longest that stays inside, or the shortest sold."""
    inside = joint.first.thickness + joint.second.depth - joint.recess - TIP_COVER
    return max((length for length in row.lengths if length <= inside), default=min(row.lengths))


def _count(one: JoinAt, joint: Joint, join: Join) -> int | None:
    spacing = join.spacing or one.spacing
    if join.count is not None:
        return join.count
    return max(2, ceil(joint.length / spacing)) if spacing else None


def _forced(whole: Whole, one: JoinAt) -> JoinAt:
    """Put the shear flow on the screws of a double that are counted on."""
    if one.kind != "double" or one.join is None or one.joint is None or one.glued:
        return one
    joint = one.joint
    beams = [
        beam
        for beam in whole.beams
        if (beam.place.unit, beam.place.part) == (one.place.unit, one.place.part)
    ]
    screw = one.join.screw
    if not beams:
        return one
    row = screw.row if screw is not None else tables.fasteners()["chipboard-screw-4"]
    K = double_slip(joint.second.material, joint.first.material, row, 0.0)
    if K is None:
        return one
    spacing = one.join.spacing or DOUBLE_SPACING
    panels = [
        PanelOfDouble(E=piece.stiffness.E, width=piece.width, thickness=piece.height)
        for piece in beams[0].shape.pieces[:2]
    ]
    double = screwed_double(
        *panels,
        span=joint.length,
        slip_modulus=float(slip_modulus_ultimate(K)),
        spacing=spacing,
    )
    count = max(2, ceil(joint.length / spacing))
    share = float(double.force_per_shear[0]) * count
    shear = max((shelf_shear(beam) for beam in beams), key=lambda force: force.service)
    lateral = Force(
        design={lasts: share * V for lasts, V in shear.design.items()},
        service=share * shear.service,
    )
    return replace(one, joint=replace(joint, lateral=lateral), spacing=spacing)
