"""Do the nails or screws of a back hold the sideways force that keeps a unit square?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from shelfload.check.criteria import EC5, GAMMA_Q
from shelfload.check.frame_shelves import RELIED_ON
from shelfload.check.result import Check
from shelfload.check.screw_found import gamma_M, kmod
from shelfload.check.screw_resistance import TIMBER, embedment_of, resistance
from shelfload.check.screw_rows import PANEL_EDGE_RIM
from shelfload.check.screw_stack import lie
from shelfload.check.screw_table import columns
from shelfload.describe.model import Unit
from shelfload.describe.parts import Back, Shelf, Upright
from shelfload.idealise.elevation_plan import BackedBay
from shelfload.idealise.join_at import edge_of, member_of
from shelfload.idealise.joint import Joint, Member
from shelfload.idealise.place import Place
from shelfload.idealise.stack import back_of
from shelfload.idealise.weights import horizontal
from shelfload.idealise.whole import Whole
from shelfload.solve import connection, fastener
from shelfload.solve.spacing import PANEL_FACTOR, PENETRATION, nail_distances
from shelfload.solve.wall_diaphragm import WIDEST, hardest_fastener, narrow_share
from shelfload.wording import figure, size

NAIL_WIRE = 600.0
"""Least tensile strength of nail wire [MPa], EN 1995-1-1:2004, 8.3.1.1(4)."""
NOTHING = 1e-6
"""Shear flow of a back that nothing leans on, as where a unit hangs plumb [N/mm]."""
QUESTION = "fasteners of the back hold it square"
METHOD = (
    "shear flow of a sideways push and the lean of the weight times their spacing, more at the "
    "corners of the sheet (elastic group) and for narrow bays, factored short-term load"
)
SOURCE = f"{EC5}, 9.2.4.2 (method A)"


def back_fasteners(
    whole: Whole, backs: Sequence[BackedBay], flow: NDArray[np.float64]
) -> Iterator[Check]:
    """Ask of each unit the back whose fasteners come nearest to what they hold.

    Parameters
    ----------
    whole : Whole
        The idealised description.
    backs : sequence of BackedBay
        Backs of the frame.
    flow : ndarray, shape (backs,)
        Shear flow of push and lean, without factors [N/mm].
    """
    for name in dict.fromkeys(back.bay.unit for back in backs):
        found = [
            _check(whole, back, GAMMA_Q * float(each))
            for back, each in zip(backs, flow, strict=True)
            if back.bay.unit == name and back.hold.spacing is not None and each > NOTHING
        ]
        if found:
            yield max(found, key=_gravity)


def _gravity(check: Check) -> tuple[bool, float]:
    """What is not checked first, by the force; then by what is used."""
    return (True, check.value or 0.0) if check.reason else (False, check.ratio)


def _check(whole: Whole, back: BackedBay, flow: float) -> Check:
    unit = whole.placed[back.bay.unit].unit
    described = back_of(unit, unit.level[back.bay.level])
    spacing, fixed = back.hold.spacing, back.hold.fixed
    if described is None or spacing is None:
        raise AssertionError("asked of a back on fasteners")
    b, h = back.bay.width, back.bay.height
    corner = max(hardest_fastener(b, h, spacing), 1.0)
    force = flow * spacing * corner / float(narrow_share(b, h))
    limit, basis, reason = _held(whole, unit, back.bay.level, described, force)
    if not reason and spacing > WIDEST[fixed]:
        reason = (
            f"{fixed} every {size(spacing)}, where the rule asks for {size(WIDEST[fixed])} or less"
        )
    return Check(
        place=Place(
            unit=unit.name, part=f"level {back.bay.level + 1}", bay=f"bay {back.bay.number}"
        ),
        question=QUESTION,
        method=METHOD,
        source=f"{SOURCE}; {basis}" if basis else SOURCE,
        measure="force",
        value=force,
        limit=limit,
        reason=reason,
        governs=f"each of its {'nails' if fixed == 'nailed' else 'screws'}, every {size(spacing)}",
        remedy="Fix the back at a closer spacing, glue it, or back more bays.",
    )


def _held(
    whole: Whole, unit: Unit, level: int, back: Back, force: float
) -> tuple[float | None, str, str]:
    """What one fastener holds by design [N], on which basis, and why there is no figure."""
    must = f"each must hold {figure(force, 'force')}"
    what = "nails" if back.fixed == "nailed" else "screws"
    screw = back.screws.screw if back.screws is not None else None
    if (screw is None or screw.length is None) and not (back.diameter and back.length):
        ask = "diameter and length" if back.fixed == "nailed" else "screws, with their length"
        return None, "", f"the {what} of the back are not described ({ask}); {must}"
    joints = [
        Joint(
            first=member_of(whole, unit, back),
            second=edge,
            length=unit.level[level].height,
            service_class=whole.project.site.service_class,
        )
        for edge in _edges(whole, unit, level)
    ]
    d = back.diameter if screw is None or screw.length is None else screw.row.diameter
    length = back.length if screw is None or screw.length is None else screw.length
    faults = [
        fault
        for joint in joints
        if (fault := _misplaced(joint, back, d or 0.0, length or 0.0)) is not None
    ]
    if faults:
        return None, "", f"no design value for these {what}: {faults[0]}; {must}"
    by_rule = all(joint.second.material.kind in TIMBER for joint in joints)
    if by_rule and back.fixed == "nailed" and back.diameter and back.length:
        held = [nail_resistance(joint, back.diameter, back.length) for joint in joints]
    elif by_rule and screw is not None and screw.length is not None:
        chosen = columns([(screw.row, screw.length)])
        held = [
            float(resistance([joint], chosen, lie([joint], chosen)).lateral_k[0, 0])
            for joint in joints
        ]
    else:
        most = RELIED_ON[back.fixed]
        if force <= most:
            basis = "no rule for these fasteners in the edge of a panel: up to " + figure(
                most, "force"
            )
            return most, f"{basis} each is counted on (common practice, no source)", ""
        return None, "", f"no rule gives a strength for {what} in the edge of a panel; {must}"
    design = []
    for joint, R in zip(joints, held, strict=True):
        factor = kmod(joint, "short-term")
        if factor is None or np.isnan(R):
            into = joint.second.material.called
            why = f"no design value for these {what} in {into}: no rule for it"
            return None, "", f"{why}; {must}"
        design.append(R * factor / gamma_M())
    return min(design), f"{EC5}, 8.2.2 and 8.3", ""


def _edges(whole: Whole, unit: Unit, level: int) -> Iterator[Member]:
    """The edges that a back is fixed to: of the uprights of a level and the shelves beside it."""
    parts: list[Upright | Shelf] = [unit.sides]
    if len(unit.level[level].bays) > 1:
        parts.append(unit.dividers)
    parts += [horizontal(unit, level), horizontal(unit, level + 1)]
    for part in parts:
        across = isinstance(part, Shelf) and part.grain == "across"
        yield edge_of(member_of(whole, unit, part), end_grain=across)


def _misplaced(joint: Joint, back: Back, d: float, length: float) -> str | None:
    """Say what keeps a fastener of a back from holding as it should: too short, thin or close.

    Distances in solid wood are the code's, the force along the edge; in the edge of a panel, for
    which it has none, those that are common.
    """
    edge, nailed = joint.second, back.fixed == "nailed"
    into = edge.material.called
    reach = length - joint.first.thickness
    deep = PENETRATION["smooth nail" if nailed else "screw"] * d
    if reach < deep:
        return f"{size(max(reach, 0.0))} in {into}, where {size(deep)} is asked for"
    rim, apart = PANEL_EDGE_RIM * d, 0.0
    if edge.is_timber:
        least = nail_distances(d, edge.rho_k, 0.0, predrilled=not nailed)
        rim, apart = float(least.a_4c), PANEL_FACTOR * float(least.a_1)
    if np.isnan(rim):
        return f"{into} is too dense for nails without a hole drilled first"
    if edge.thickness / 2.0 < rim:
        return (
            f"{size(edge.thickness / 2)} from the faces of {into}, where {size(rim)} is asked for"
        )
    if (back.spacing or 0.0) < apart:
        return f"closer than {size(apart)} to each other"
    return None


def nail_resistance(joint: Joint, d: float, length: float) -> float:
    """Return what a smooth round nail holds sideways, characteristic; nan without a rule [N].

    Parameters
    ----------
    joint : Joint
        The sheet under its head, and the edge of solid wood that it goes into.
    d : float
        Diameter [mm].
    length : float
        From the head to the point [mm].

    Notes
    -----
    Without rope effect. Source: EN 1995-1-1:2004, 8.2.2, 8.3.1.1 and 8.3.1.2(1).
    """
    t_1 = joint.first.thickness
    t_2 = length - t_1
    if joint.second.entered == "end grain" or t_2 < PENETRATION["smooth nail"] * d:
        return float("nan")
    f_h = [
        np.asarray(
            embedment_of(
                member.material.kind,
                np.array(member.rho_k),
                np.array(member.thickness),
                np.array(d),
            )[0],
            dtype=np.float64,
        )
        for member in (joint.first, joint.second)
    ]
    modes = connection.single_shear(
        f_h[0], f_h[1], t_1, t_2, d, fastener.yield_moment(NAIL_WIRE, d)
    )
    return float(modes.min()) if not np.isnan(modes).any() else float("nan")
