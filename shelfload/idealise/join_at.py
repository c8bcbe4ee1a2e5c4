"""A join of a unit: what meets what, and alike ones counted together."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from shelfload.describe.joins import Join
from shelfload.describe.model import Unit
from shelfload.describe.parts import Back, Shelf, Upright
from shelfload.idealise.join_demand import at_least
from shelfload.idealise.joint import NOTHING, Entered, Force, Joint, Member
from shelfload.idealise.place import Place
from shelfload.idealise.whole import Whole

Carries = Literal["nothing", "bearing", "friction", "screws", "glue", "wall"]


@dataclass(frozen=True, slots=True, kw_only=True)
class JoinAt:
    """A join of a unit.

    Attributes
    ----------
    place : Place
        Of the part it holds, of several alike the most loaded.
    parts : tuple of str
        All parts that have it.
    kind : str
        ``shelf end``, ``side by side``, ``box on box``, ``double``, ``back``, ``between``.
    words : str
        What meets what.
    joint : Joint or None
        As mechanics sees it; None where nothing is to be drilled.
    join : Join or None
        As described; None where nothing was said.
    carries : str
        What carries the force if no screw does.
    along : str
        Which way marks run.
    joins : int
        How many are alike.
    spacing : float or None
        Described or assumed [mm].
    glued : bool
        Held by glue; screws are a back-up.
    """

    place: Place
    kind: str
    words: str
    joint: Joint | None
    join: Join | None
    carries: Carries
    along: str = ""
    joins: int = 1
    spacing: float | None = None
    glued: bool = False
    parts: tuple[str, ...] = ()


def add_join(found: list[JoinAt], one: JoinAt) -> None:
    """Add a join, or count it to one of the same unit that is alike or less loaded."""
    here = one.place.part
    for number, other in enumerate(found):
        if _alike(one, other):
            heavier = max((other, one), key=_load)
            if one.joint is not None and other.joint is not None and heavier.joint is not None:
                # the one pulled apart most need not be the one pushed sideways most
                both = replace(
                    heavier.joint,
                    lateral=at_least(one.joint.lateral, other.joint.lateral),
                    pull=at_least(one.joint.pull, other.joint.pull),
                )
                heavier = replace(heavier, joint=both)
            parts = other.parts if here in other.parts else (*other.parts, here)
            found[number] = replace(heavier, joins=one.joins + other.joins, parts=parts)
            return
    found.append(replace(one, parts=(here,)))


def _load(one: JoinAt) -> float:
    if one.joint is None:
        return 0.0
    forces = (one.joint.lateral, one.joint.pull)
    return max((max(f.design.values(), default=0.0) for f in forces), default=0.0)


def _alike(one: JoinAt, other: JoinAt) -> bool:
    same = ("kind", "words", "join", "carries", "along", "spacing", "glued")
    if one.place.unit != other.place.unit or any(
        getattr(one, name) != getattr(other, name) for name in same
    ):
        return False
    a, b = one.joint, other.joint
    if a is None or b is None:
        return a is b
    return (a.first, a.second, a.length) == (b.first, b.second, b.length)


def member_of(
    whole: Whole, unit: Unit, part: Shelf | Upright | Back, entered: Entered = "face"
) -> Member:
    """Return a part of a unit as a member of a join."""
    resolved = whole.catalogue.material(
        part.material or unit.panel.material, part.thickness or unit.panel.thickness
    )
    return Member(material=resolved.material, thickness=resolved.thickness, entered=entered)


def edge_of(member: Member, *, end_grain: bool) -> Member:
    """Return a member that the point enters by its edge, or by the end of its grain."""
    entered: Entered = "end grain" if end_grain and member.is_timber else "edge"
    return replace(member, entered=entered)


def joint_of(
    whole: Whole, join: Join | None, first: Member, second: Member, length: float,
    lateral: Force, pull: Force = NOTHING,
) -> Joint:  # fmt: skip
    """Return a joint on the site of a description."""
    return Joint(
        first=first,
        second=second,
        length=length,
        lateral=lateral,
        pull=pull,
        service_class=whole.project.site.service_class,
        redriven=join is not None and join.redriven,
    )
