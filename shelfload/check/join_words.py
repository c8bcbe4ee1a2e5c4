"""Options and refusals of the chooser as lines, checks and sentences."""

from __future__ import annotations

from collections.abc import Iterator

from shelfload import tables
from shelfload.check.join_line import JoinLine
from shelfload.check.result import Check
from shelfload.check.screw_choice import Choice
from shelfload.check.screw_fate import Fate, called, member_words, why
from shelfload.check.screw_option import Basis, Link, LinkName, Option, Refused
from shelfload.check.screw_stack import TIP_COVER
from shelfload.idealise.joint import Joint
from shelfload.idealise.place import Place
from shelfload.wording import figure, size

HARD_FROM = 500.0
"""Characteristic density from which pilot holes are those of hardwood [kg/m3], as 10.4.5."""
BASES: dict[Basis, str] = {
    "EC5": "EN 1995-1-1, factored loads",
    "Wood Handbook": "Wood Handbook, working load: a fifth of the mean, 0.9 of it for lasting "
    "loads; loads as they are",
}
_SOURCES: dict[tuple[LinkName, Basis], str] = {
    ("sideways", "EC5"): "EN 1995-1-1:2004, 8.2.2 and 8.7.1",
    ("sideways", "Wood Handbook"): "Wood Handbook, FPL-GTR-282, Table 8-4; a fifth: judgement",
    ("thread pulled out", "EC5"): "EN 1995-1-1:2004+A1, 8.7.2",
    ("thread pulled out", "Wood Handbook"): "Wood Handbook, FPL-GTR-282, (8-10) and (8-11); a "
    "fifth of the mean, half of that in plywood: judgement",
    ("head pulled through", "EC5"): "EN 1995-1-1:2004, (8.26) for nails stands in, as no "
    "maker's strength is given; bolts 8.5.2(2)",
}
LONGER_STACK = (
    "Use bolts or connector bolts through both pieces, add a batten behind the second so that "
    "the screw finds more wood, or let the pieces bear on each other so that the screw only "
    "holds them together."
)
REMEDIES = {
    Fate.NO_RULE: "Let the piece bear on a cleat or in a housing so that no screw carries it, "
    "screw into a batten of solid wood or plywood, glue it, or test a sample join to failure "
    "and use a fifth of that.",
    Fate.PANEL_EDGE: "Let the panel bear in a housing or on a cleat of solid wood screwed through "
    "its face, use glued dowels, or fittings whose maker declares a load; screws in the edge "
    "may then hold it in place.",
    Fate.END_GRAIN: "Turn the join so that the screw enters the side of the grain, set a corner "
    "block or cleat, or use a bolt with a cross dowel and its maker's load.",
    Fate.BY_MAKER: "Ask the maker for its load in this panel, or use a connector bolt through "
    "both pieces.",
    Fate.SUNK: "Use washers or flat heads and do not countersink, or a thicker first piece.",
    Fate.FEW: "Use three or more.",
    Fate.SHORT: LONGER_STACK,
    Fate.THROUGH: LONGER_STACK,
    Fate.LONG_BOLT: "Take a shorter bolt.",
    Fate.NO_FIGURE: LONGER_STACK,
    Fate.NARROW: "Screw into a batten glued along it, at least ten diameters wide, or use "
    "thinner screws.",
    Fate.NO_ROOM: "Use thinner fasteners, a longer join or two rows.",
    Fate.WEAK: "Use thicker or longer fasteners, a thicker second piece, bolts, or let the "
    "pieces bear on each other.",
}


def reason_of(joint: Joint, refused: Refused | None) -> tuple[str, str]:
    """Return why a join has no value and what to do, each as words without a full stop first."""
    if refused is None:
        return "no fastener of the table fits", LONGER_STACK
    fate = refused.fate
    by_stack = fate in (Fate.SHORT, Fate.THROUGH, Fate.NO_FIGURE)
    text = why(fate, joint, refused.screw, refused.length, refused.fits)
    return text, REMEDIES[fate] if not by_stack else LONGER_STACK


def why_none(choice: Choice) -> tuple[str, str]:
    """Return why no fastener at all works in a join, and what to do."""
    joint, nearest = choice.joint, choice.nearest
    stack_bound = nearest is not None and nearest.fate in (
        Fate.SHORT,
        Fate.THROUGH,
        Fate.NO_FIGURE,
    )
    if not stack_bound or joint.second.entered != "face":
        return reason_of(joint, nearest)
    inside = joint.second.thickness - TIP_COVER
    text = (
        f"{member_words(joint.first)} on {member_words(joint.second)} leaves at most "
        f"{size(inside, down=True)} of screw in the second piece; "
    )
    thinnest = min(row.diameter for row in tables.fasteners().values() if "screw" in row.kind)
    if inside < 4 * thinnest:
        text += "no rule counts less than 4 diameters"
    elif joint.service_class > 1:
        text += "the code asks 6 diameters of thread, and nothing else counts outside heated rooms"
    else:
        text += (
            "the code asks 6 diameters of thread there, and the handbook's formulas for less "
            "do not cover these panels or do not reach the force"
        )
    text += ": screws may draw the pieces together, but nothing may rely on them"
    return text, LONGER_STACK


def line_of(
    option: Option,
    joint: Joint,
    *,
    place: Place,
    join: str,
    by: str,
    along: str = "",
    joins: int = 1,
    proposed: bool = True,
    demountable: str = "",
    note: str = "",
    cheaper: str = "",
) -> JoinLine:
    """Return an option as a line of the join list."""
    screw = option.screw
    hard = joint.second.rho_k > HARD_FROM
    sunk = screw.head_shape == "countersunk"
    is_screw = "bolt" not in screw.kind
    bases = dict.fromkeys(link.basis for link in option.links)
    return JoinLine(
        place=place,
        join=join,
        by=by,
        demountable=demountable or demountable_words(screw, redriven=joint.redriven),
        proposed=proposed,
        fastener=called(screw, option.length),
        name=screw.name,
        length=option.length,
        count=option.count,
        joins=joins,
        spacing=option.spacing or None,
        positions=option.positions,
        along=along,
        edge=option.rim,
        pilot=(screw.pilot_hardwood if hard else screw.pilot_softwood) if is_screw else None,
        clearance=screw.clearance,
        countersink=screw.head_diameter if sunk else None,
        countersink_depth=(screw.head_depth or 0.0) + joint.recess if sunk else None,
        used=option.used,
        basis="; ".join(BASES[basis] for basis in bases),
        governs=_governs(option),
        note=note,
        cheaper=cheaper,
    )


def _governs(option: Option) -> str:
    worst = max(option.links, key=lambda link: link.used, default=None)
    if worst is None:
        return "least number"
    words: str = worst.name
    if worst.mode:
        words += f", mode {worst.mode}, d_ef {figure(option.d_ef, 'length')}"
    return f"{words} ({worst.basis})"


def demountable_words(screw: tables.Fastener, *, redriven: bool) -> str:
    """Say whether a fastener can be undone and redone."""
    if screw.demountable:
        return "yes"
    if redriven:
        return "yes, worn threads counted"
    return "once or twice: threads wear"


def cheaper_of(choice: Choice) -> str:
    """Say why the next cheaper option fails."""
    one = choice.cheaper
    if one is None:
        return ""
    return why(one.fate, choice.joint, one.screw, one.length, one.fits)


def option_checks(option: Option, joint: Joint, place: Place, what: str) -> Iterator[Check]:
    """Return the checks of a join with this option: each link, and both kinds of force."""
    words = f"{option.count} x {called(option.screw, option.length)}"
    if joint.redriven:
        words += ", worn threads counted"
    for link in option.links:
        yield _link_check(link, place, what, words)
    if option.sideways > 0.0 and option.apart > 0.0:
        yield Check(
            place=place,
            question=f"{what}: sideways and pull together",
            value=option.used,
            limit=1.0,
            measure="ratio",
            method=words,
            source="EN 1995-1-1:2004, (8.28); each share on the basis of its own check",
            governs=_governs(option),
        )


def _link_check(link: Link, place: Place, what: str, words: str) -> Check:
    return Check(
        place=place,
        question=f"{what}: {link.name}",
        value=link.demand,
        limit=link.holds,
        measure="force",
        method=f"{words}; {BASES[link.basis]}",
        source=_SOURCES[link.name, link.basis],
        governs=f"{words}" + (f", mode {link.mode}" if link.mode else f" ({link.basis})"),
        remedy=REMEDIES[Fate.WEAK],
    )


def refusal_check(place: Place, what: str, text: str, remedy: str) -> Check:
    """Return the check of a join that has no value."""
    return Check(
        place=place,
        question=f"{what}: holds",
        method="none",
        source="EN 1995-1-1:2004, 8.3 and 8.7",
        measure="force",
        reason=text,
        remedy=remedy,
    )
