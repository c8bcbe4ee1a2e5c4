"""What rules a fastener out in a join, in the order in which it is asked, and in words."""

from __future__ import annotations

from collections.abc import Sequence
from enum import IntEnum

import numpy as np
from numpy.typing import NDArray

from shelfload import tables
from shelfload.check.screw_resistance import EC5_PANELS, TIMBER, Resistance
from shelfload.check.screw_rows import Room
from shelfload.check.screw_stack import TIP_COVER, Lie
from shelfload.check.screw_table import Columns
from shelfload.idealise.joint import Joint, Member
from shelfload.wording import size

HEAD_COVER = 1.0
"""Least of the first member left under a sunk head [mm] (common practice, no source)."""


class Fate(IntEnum):
    """Why a fastener can't be used; the later, the further it came."""

    NO_RULE = 0
    PANEL_EDGE = 1
    END_GRAIN = 2
    BY_MAKER = 3
    LONG_BOLT = 4
    SUNK = 5
    SHORT = 6
    THROUGH = 7
    NO_FIGURE = 8
    NARROW = 9
    FEW = 10
    NO_ROOM = 11
    WEAK = 12
    GOOD = 13


def fates(
    joints: Sequence[Joint],
    screws: Columns,
    lies: Lie,
    holds: Resistance,
    space: Room,
    no_figure: NDArray[np.bool_],
) -> NDArray[np.int_]:
    """Return what becomes of each fastener in each joint before any are counted."""
    shape = lies.reach.shape

    def each(flags: Sequence[bool]) -> NDArray[np.bool_]:
        return np.broadcast_to(np.array(flags)[:, None], shape)

    sideways = [joint.lateral.acts for joint in joints]
    edge = [joint.second.entered != "face" for joint in joints]
    panel = [not joint.second.is_timber for joint in joints]
    end = [joint.second.entered == "end grain" for joint in joints]
    pulled = [joint.pull.acts for joint in joints]
    chips = [joint.second.material.kind == "particleboard" for joint in joints]
    bolts = screws.is_bolt & np.ones(shape, dtype=np.bool_)
    edge_refused = [
        into and board and (side or not chip)
        for into, board, side, chip in zip(edge, panel, sideways, chips, strict=True)
    ]
    end_refused = [into and pull for into, pull in zip(end, pulled, strict=True)]
    least = np.where(bolts, 0.0, 4.0 - 1e-9) * screws.d
    conditions = [
        (Fate.NO_RULE, each([not all(_ruled(joint)) for joint in joints])),
        (Fate.PANEL_EDGE, each(edge_refused) | (bolts & each(edge))),
        (Fate.END_GRAIN, each(end_refused)),
        (Fate.BY_MAKER, screws.by_maker & np.ones(shape, dtype=np.bool_)),
        (Fate.LONG_BOLT, lies.long),
        (Fate.SUNK, screws.sunk & (lies.t_1 < screws.head_depth + HEAD_COVER)),
        (Fate.SHORT, lies.short | (lies.reach < least)),
        (Fate.THROUGH, lies.through),
        (Fate.NO_FIGURE, no_figure | np.isnan(holds.d_ef)),
        (Fate.NARROW, space.too_thin),
        (Fate.NO_ROOM, space.fits < 2),
    ]
    return np.select(
        [held for _, held in conditions], [int(fate) for fate, _ in conditions], int(Fate.GOOD)
    )


def _ruled(joint: Joint) -> tuple[bool, bool]:
    kinds = (*TIMBER, *EC5_PANELS)
    return joint.first.material.kind in (*kinds, "steel"), joint.second.material.kind in kinds


def called(screw: tables.Fastener, length: float) -> str:
    """Return a fastener in words with its length, as the packet says it."""
    words, sold = screw_words(screw), screw.length_words(length)
    if words.endswith(" mm") and sold.endswith(" mm"):
        words = words.removesuffix(" mm")  # "4 x 35 mm"
    return f"{words} x {sold}"


def screw_words(screw: tables.Fastener) -> str:
    """Return a fastener in words, by the size it is sold by whatever the reader's units."""
    if screw.kind == "full-thread screw":
        return f"Full-thread screw {screw.diameter:g} mm"
    return screw.title.partition(",")[0]


def member_words(member: Member) -> str:
    """Return a member in words."""
    where = "" if member.entered == "face" else f", into its {member.entered}"
    return f"{size(member.thickness)} {member.material.called}{where}"


def why(fate: Fate, joint: Joint, screw: tables.Fastener, length: float, fits: int) -> str:
    """Return in words why a fastener can't be used in a join."""
    name = called(screw, length)
    second, d = joint.second, screw.diameter
    if fate is Fate.NO_RULE:
        first_ok, _ = _ruled(joint)
        culprit = (joint.second if first_ok else joint.first).material.called
        return f"the code has no rule for screws in {culprit}"
    if fate is Fate.PANEL_EDGE:
        return f"no rule gives a value for a screw in the edge of {second.material.called}"
    if fate is Fate.END_GRAIN:
        return "screws pull out of end grain without warning, and no rule gives them a value"
    if fate is Fate.BY_MAKER:
        return f"{screw_words(screw)}: only its maker can say what it holds in this panel"
    if fate is Fate.LONG_BOLT:
        return f"{name} is longer than the stack"
    if fate is Fate.THROUGH:
        left = size(TIP_COVER)
        return f"{name} comes through the far face or leaves less than {left} before it"
    if fate is Fate.SUNK:
        first = size(joint.first.thickness)
        return f"{name}: its sunk head goes through {first} of first piece"
    if fate is Fate.FEW:
        return "end grain needs three screws or more"
    if fate is Fate.SHORT:
        recess = joint.recess if screw.head_shape == "countersunk" else 0.0
        reach = max(length + recess - joint.first.thickness, 0.0)
        if "bolt" in screw.kind:
            return f"{name} is too short for the stack and its nut"
        return (
            f"{name} reaches {size(reach, down=True)} into the second piece; rules begin at "
            f"4 diameters, {size(4 * d, up=True)}"
        )
    if fate is Fate.NO_FIGURE:
        return f"{name}: {_no_figure(joint, screw, length)}"
    if fate is Fate.NARROW:
        return f"{name} is too thick for an edge {size(second.thickness)} wide"
    if fate is Fate.NO_ROOM:
        many = "not two" if fits < 2 else f"only {fits}"
        return f"{name}: {many} fit in {size(joint.length)} with their distances kept"
    if fate is Fate.WEAK:
        return f"{name}: the {fits} that fit do not hold the force"
    return f"{name}: {fits} of them would be needed"


def _no_figure(joint: Joint, screw: tables.Fastener, length: float) -> str:
    recess = joint.recess if screw.head_shape == "countersunk" else 0.0
    reach = length + recess - joint.first.thickness
    thread = min((screw.thread_share or 0.0) * length, reach)
    needed = 6 * screw.diameter
    if joint.service_class > 1 and thread < needed:
        return "below the code's least penetration nothing counts outside heated rooms"
    if thread < needed:
        return (
            f"{size(max(thread, 0.0), down=True)} of thread in the second piece, the code asks "
            f"{size(needed, up=True)}, and the handbook has no figure for these panels"
        )
    if joint.pull.acts and not joint.lateral.acts:
        return "no rule says what its thread holds in this panel"
    if screw.f_u is None:
        return "the strength of its steel is not known"
    return "no rule gives it a value here"
