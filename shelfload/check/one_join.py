"""One join without a file: the chooser's answer, or how the screw that is meant does."""

from __future__ import annotations

from dataclasses import dataclass

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
from shelfload.check.result import Check, Verdict, worst
from shelfload.check.screw_choice import Choice, choose, judge
from shelfload.check.screw_fate import called, member_words
from shelfload.check.screw_option import Option, Refused
from shelfload.describe.joins import KINDS
from shelfload.describe.one_join import OneJoin
from shelfload.idealise.doubles import (
    SPACINGS,
    PanelOfDouble,
    ScrewedDouble,
    double_slip,
    half_gain_spacing,
    screwed_double,
)
from shelfload.idealise.join_demand import HANDLING, lasting, passing
from shelfload.idealise.joint import NOTHING, RECESS, Joint, Member
from shelfload.idealise.place import Place
from shelfload.idealise.properties import stiffness
from shelfload.wording import figure, size

PLACE = Place(unit="join", part="join")
LOOSE = (
    "As a doubled shelf: count the two as loose panels, as no screw here has a slip that a code "
    "gives. Glue makes one shelf of them."
)
MARK_STEP = {"metric": 5.0, "inch": 6.35}  # 5 mm, 1/4 in: marks that a rule shows


@dataclass(frozen=True, slots=True, kw_only=True)
class JoinFindings:
    """What can be said of one join.

    ``options`` are lines of the join list, the cheapest that works first; ``double`` is the
    stiffness of the two as one doubled shelf over the spacing of the screws.
    """

    title: str
    joint: Joint
    checks: tuple[Check, ...]
    options: tuple[JoinLine, ...]
    advice: tuple[str, ...]
    assumptions: tuple[str, ...]
    double: ScrewedDouble | None = None

    @property
    def verdict(self) -> Verdict:
        """The gravest of its checks."""
        return worst(check.verdict for check in self.checks)


def one_join_findings(asked: OneJoin, round_to: float) -> JoinFindings:
    """Choose a fastener for a join, or judge the one that is meant.

    ``round_to`` is the step of the marks [mm].
    """
    joint = _joint(asked, round_to)
    said = _assumed(asked)
    title = _words(joint)
    if asked.screw is not None and asked.screw_length is not None:
        checks, options, advice = _judged(asked, joint, asked.screw, asked.screw_length)
    else:
        checks, options, advice = _chosen(asked, joint)
    double = _double(asked, joint, options) if asked.span is not None else None
    if double is not None:
        advice = (*advice, _worth(double))
    elif asked.span is not None:
        advice = (*advice, LOOSE)
    return JoinFindings(
        title=title,
        joint=joint,
        checks=checks,
        options=options,
        advice=advice,
        assumptions=said,
        double=double,
    )


def _words(joint: Joint) -> str:
    """What is joined, over which length, under which forces as they are."""
    pieces = f"{member_words(joint.first)} onto {member_words(joint.second)}"
    forces = [
        f"{figure(force.service, 'force')} {words}"
        for force, words in ((joint.lateral, "sideways"), (joint.pull, "apart"))
        if force.acts
    ]
    return f"{pieces}, over {size(joint.length)}; {' and '.join(forces)}"


def _joint(asked: OneJoin, round_to: float) -> Joint:
    lateral, pull = (
        NOTHING
        if value is None
        else passing(value)
        if asked.lasting == "short-term"
        else lasting(0.0, value, asked.lasting)
        for value in (asked.force, asked.pull)
    )
    if asked.lasting == "permanent":
        lateral, pull = (
            NOTHING if value is None else lasting(value, 0.0) for value in (asked.force, asked.pull)
        )
    if not lateral.acts and not pull.acts:
        lateral = passing(HANDLING)
    return Joint(
        first=Member(material=asked.first.material, thickness=asked.first.thickness),
        second=Member(
            material=asked.second.material, thickness=asked.second.thickness, entered=asked.into
        ),
        length=asked.length,
        lateral=lateral,
        pull=pull,
        service_class=asked.service_class,
        redriven=asked.redriven,
        recess=RECESS if asked.recess is None else asked.recess,
        round_to=round_to,
    )


def _assumed(asked: OneJoin) -> tuple[str, ...]:
    said = [text for text in (asked.first.said, asked.second.said) if text]
    if asked.force is None and asked.pull is None:
        said.append(
            f"no force given: {figure(HANDLING, 'force')} sideways for handling and knocks "
            "(common practice, no source)"
        )
    else:
        said.append(f"forces as they are, {asked.lasting}, factored by EN 1990 eq. (6.10)")
    if asked.recess is None:
        said.append(
            f"countersunk heads lie {size(RECESS)} below the face (common practice, no source)"
        )
    said.append("pilot and clearance holes are drilled as listed")
    said.append(
        "the direction of the force is not known: distances and strength are the worst of all"
    )
    if asked.redriven:
        said.append(
            "worn threads keep half of their pull-out and three quarters sideways "
            "(common practice, no source)"
        )
    return tuple(dict.fromkeys(said))


Answered = tuple[tuple[Check, ...], tuple[JoinLine, ...], tuple[str, ...]]


def _chosen(asked: OneJoin, joint: Joint) -> Answered:
    kinds = asked.kinds
    if asked.screw is not None:
        kinds = (asked.screw.kind,)
    choice = choose([joint], kinds)[0]
    if asked.screw is not None:
        works = tuple(o for o in choice.works if o.screw.name == asked.screw.name)
        choice = Choice(joint=joint, works=works, cheaper=choice.cheaper, nearest=choice.nearest)
    if choice.best is None:
        return _none(asked, choice)
    lines = tuple(
        line_of(
            option,
            joint,
            place=PLACE,
            join="",
            by=asked.by or "screws",
            along="along the join",
            cheaper=cheaper_of(choice) if number == 0 else "",
        )
        for number, option in enumerate(choice.works)
    )
    advice = [_do(lines[0])]
    if lines[0].cheaper:
        advice.append(f"The next cheaper fails: {lines[0].cheaper}.")
    advice += _undo(asked, joint)
    return tuple(option_checks(choice.best, joint, PLACE, "screws")), lines, tuple(advice)


def _none(asked: OneJoin, choice: Choice) -> Answered:
    text, remedy = why_none(choice)
    bolts = _instead(asked, choice.joint)
    advice = [f"No fastener has a design value here: {text}.", remedy]
    lines: tuple[JoinLine, ...] = ()
    if bolts is not None:
        lines = (
            line_of(
                bolts,
                choice.joint,
                place=PLACE,
                join="",
                by="bolts",
                along="along the join",
                note="instead of screws",
            ),
        )
        advice.append(f"Bolts do it: {_do(lines[0])}")
    return (refusal_check(PLACE, "screws", text, remedy),), lines, tuple(advice)


def _instead(asked: OneJoin, joint: Joint) -> Option | None:
    if asked.by == "bolts":
        return None
    return choose([joint], KINDS["bolts"], shown=1)[0].best


def _judged(asked: OneJoin, joint: Joint, screw: tables.Fastener, length: float) -> Answered:
    found = judge(joint, screw, length, asked.count)
    if isinstance(found, Refused):
        text, remedy = reason_of(joint, found)
        better = choose([joint], asked.kinds, shown=1)[0]
        advice = [f"Not this one: {text}.", remedy]
        if better.best is None:
            advice.insert(1, f"Nor any other: {why_none(better)[0]}.")
        lines: tuple[JoinLine, ...] = ()
        if better.best is not None:
            lines = (_line(better.best, joint, asked, "instead"),)
            advice.append(f"This one does: {_do(lines[0])}")
        elif (bolts := _instead(asked, joint)) is not None:
            lines = (_line(bolts, joint, asked, "bolts instead"),)
            advice.append(f"Bolts do it: {_do(lines[0])}")
        return (refusal_check(PLACE, "screws", text, remedy),), lines, tuple(advice)
    line = _line(found, joint, asked, "")
    checks = tuple(option_checks(found, joint, PLACE, "screws"))
    advice = [_do(line)] if found.used <= 1.0 else [f"Not enough: {check_words(checks)}"]
    if found.used > 1.0:
        better = choose([joint], asked.kinds, shown=1)[0]
        if better.best is not None:
            line_better = _line(better.best, joint, asked, "instead")
            return checks, (line, line_better), (*advice, f"This one does: {_do(line_better)}")
    return checks, (line,), (*advice, *_undo(asked, joint))


def check_words(checks: tuple[Check, ...]) -> str:
    """Say what the worst check asks and what it finds."""
    worst_one = max(checks, key=lambda check: check.ratio)
    value, limit = (
        figure(number or 0.0, worst_one.measure) for number in (worst_one.value, worst_one.limit)
    )
    return f"{worst_one.question} is {value}, allowed is {limit}."


def _line(option: Option, joint: Joint, asked: OneJoin, note: str) -> JoinLine:
    by = "bolts" if "bolt" in option.screw.kind else asked.by or "screws"
    return line_of(
        option, joint, place=PLACE, join="", by=by, along="along the join",
        proposed=not note, note=note,
    )  # fmt: skip


def _do(line: JoinLine) -> str:
    at = ", ".join(size(mark) for mark in line.positions[: (line.count + 1) // 2])
    return f"{line.count} x {line.fastener}, at {at} from each end."


def _undo(asked: OneJoin, joint: Joint) -> list[str]:
    """What to use instead where the join is taken apart often."""
    if not asked.redriven:
        return []
    bolt = _instead(asked, joint)
    words = "To take it apart often: "
    if bolt is not None:
        words += f"{bolt.count} x {called(bolt.screw, bolt.length)}, or "
    return [
        words + "a machine screw and a threaded insert with its maker's load, or a cleat that "
        "the piece only lies on."
    ]


def _double(asked: OneJoin, joint: Joint, options: tuple[JoinLine, ...]) -> ScrewedDouble | None:
    E = [stiffness(member.material, "along") for member in (joint.first, joint.second)]
    if E[0] is None or E[1] is None or asked.depth is None or asked.span is None:
        return None
    # no code gives the slip of screws that it gives no strength, and bolts have play
    holding = [line for line in options if "bolt" not in line.name and line.used is not None]
    if not holding:
        return None
    row = tables.fasteners()[holding[0].name]
    K = double_slip(joint.first.material, joint.second.material, row, 0.0)
    if K is None:
        return None
    panels = [
        PanelOfDouble(E=one.E, width=asked.depth, thickness=member.thickness)
        for one, member in zip((E[0], E[1]), (joint.first, joint.second), strict=True)
    ]
    return screwed_double(*panels, span=asked.span, slip_modulus=K, spacing=SPACINGS)


def _worth(double: ScrewedDouble) -> str:
    closest = float(double.spacing[0])
    most, glued = (EI / double.EI_lying - 1.0 for EI in (float(double.EI[0]), double.EI_glued))
    half = half_gain_spacing(double)
    gives = (
        f"screws every {size(closest, down=True)} stiffen it by {most:.0%} over loose panels, "
        f"glue by {glued:.0%}"
    )
    if half < closest:
        return (
            f"As a doubled shelf: {gives}; no row of screws that can be set comes near glue. "
            "Glue the two, or count them as loose and use no more screws than hold them together."
        )
    return (
        f"As a doubled shelf: {gives}. Every {size(half, down=True)} gives half of what glue "
        "does; closer screws buy little."
    )
