"""Which fastener for a join, how many and where: the whole table against all joins at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import isnan
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from shelfload import tables
from shelfload.check.result import CLOSE_FROM
from shelfload.check.screw_fate import Fate, fates
from shelfload.check.screw_resistance import Resistance, resistance
from shelfload.check.screw_rows import Room, counted, room
from shelfload.check.screw_stack import Lie, lie
from shelfload.check.screw_table import Columns, columns, whole_table
from shelfload.describe.joins import KINDS
from shelfload.idealise.joint import Force, Joint, LoadDuration
from shelfload.solve import placement
from shelfload.solve.fastener import acts_as_bolt
from shelfload.solve.withdrawal import effective_number_axial

Array = NDArray[np.float64]
Basis = Literal["EC5", "Wood Handbook"]

COUNTS = np.array([2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 14, 16, 20, 24, 30, 40], dtype=np.float64)
END_GRAIN_COUNT = 3.0  # least number on end grain, EN 1995-1-1:2004, 8.3.1.2(4), from memory
SHOWN = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """One way a fastener can give: what the join asks of all and what all hold [N]."""

    name: Literal["sideways", "thread pulled out", "head pulled through"]
    basis: Basis
    demand: float
    holds: float
    duration: LoadDuration
    mode: str = ""

    @property
    def used(self) -> float:
        """Demand over what all fasteners hold [-]."""
        return self.demand / self.holds


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """A fastener that can be set: how it lies, how many, where, what it holds."""

    screw: tables.Fastener
    length: float
    count: int
    positions: tuple[float, ...]
    least_spacing: float
    end: float
    rim: float
    reach: float
    cover: float
    links: tuple[Link, ...]
    d_ef: float

    @property
    def used(self) -> float:
        """The largest use, of sideways and pull together where both act [-]."""
        side = max((link.used for link in self.links if link.name == "sideways"), default=0.0)
        pull = max((link.used for link in self.links if link.name != "sideways"), default=0.0)
        return float(np.hypot(side, pull))

    @property
    def governs(self) -> str:
        """The link that gives first."""
        return max(self.links, key=lambda link: link.used).name if self.links else "least number"

    @property
    def spacing(self) -> float:
        """Between neighbours, the widest [mm]; 0 for a single one."""
        gaps = np.diff(self.positions)
        return float(gaps.max()) if gaps.size else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Refused:
    """A fastener that can't be used, and why."""

    screw: tables.Fastener
    length: float
    fate: Fate
    fits: int = 0
    reach: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """What is proposed for a join: the best first; or nothing, and why."""

    joint: Joint
    works: tuple[Option, ...]
    cheaper: Refused | None
    nearest: Refused | None

    @property
    def best(self) -> Option | None:
        """The cheapest that works."""
        return self.works[0] if self.works else None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Needed:
    """What each join asks, as characteristic resistance and in service, (joints, 1) [N]."""

    lateral_k: Array
    pull_k: Array
    lateral_w: Array
    pull_w: Array
    lateral_lasts: tuple[LoadDuration, ...]
    pull_lasts: tuple[LoadDuration, ...]


def choose(
    joints: Sequence[Joint], kinds: Sequence[str] = KINDS["screws"], shown: int = SHOWN
) -> list[Choice]:
    """Choose fasteners for joins from the whole table.

    Parameters
    ----------
    joints : sequence of Joint
        All that are to be made.
    kinds : sequence of str
        Kinds of fasteners to choose from.
    shown : int
        How many options to lay out for each join.
    """
    if not joints:
        return []
    table = whole_table()
    wanted = np.array([row.kind in kinds for row in table.rows])
    found = _Found.of(joints, table)
    # proposals pass with room to spare; what is described may use all of it
    ready = found.ready(CLOSE_FROM)
    first = np.where(ready.any(axis=-1), ready.argmax(axis=-1), -1)
    score = np.where(first >= 0, COUNTS[np.maximum(first, 0)], np.inf) * table.cost
    score = np.where(wanted, score, np.inf)
    choices = []
    for number, joint in enumerate(joints):
        order = np.argsort(score[number], kind="stable")[: max(shown, 1)]
        works = [
            found.option(number, int(at), int(COUNTS[first[number, at]]))
            for at in order
            if np.isfinite(score[number, at])
        ]
        choices.append(
            Choice(
                joint=joint,
                works=tuple(works),
                cheaper=_next_cheaper(found, number, wanted, score[number], table),
                nearest=None if works else _nearest(found, number, wanted),
            )
        )
    return choices


def judge(
    joint: Joint, screw: tables.Fastener, length: float, count: int | None = None
) -> Option | Refused:
    """Say how a fastener of one's own choice does, in the number given or the least needed."""
    found = _Found.of([joint], columns([(screw, length)]))
    fate = Fate(found.fate[0, 0])
    fits = int(found.room.fits[0, 0])
    if fate is not Fate.GOOD or (count is not None and count > fits):
        return found.refused(0, 0, fate if fate is not Fate.GOOD else Fate.NO_ROOM)
    if count is None:
        ready = found.ready(CLOSE_FROM)[0, 0]
        possible = found.possible[0, 0]
        if ready.any():
            count = int(COUNTS[ready.argmax()])
        else:
            count = int(COUNTS[possible.nonzero()[0][-1]]) if possible.any() else min(fits, 2)
    return found.option(0, 0, count)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Found:
    """Everything about a set of fasteners in a set of joins."""

    joints: Sequence[Joint]
    screws: Columns
    lies: Lie
    holds: Resistance
    room: Room
    needed: _Needed
    fate: NDArray[np.int_]
    possible: NDArray[np.bool_]
    used: Array

    @classmethod
    def of(cls, joints: Sequence[Joint], screws: Columns) -> _Found:
        lies = lie(joints, screws)
        holds = resistance(joints, screws, lies)
        space = room(joints, screws, holds.d_ef)
        needed = _needed(joints)
        side, pull = _unit_uses(holds, needed)
        fate = fates(joints, screws, lies, holds, space, np.isnan(side) | np.isnan(pull))
        counts = _counted(joints, screws, space, holds.d_ef, COUNTS)
        used = np.hypot(
            side[..., None] / counts, pull[..., None] / effective_number_axial(COUNTS)
        )
        length = np.array([[[joint.length]] for joint in joints])
        widest = np.array([[[joint.widest]] for joint in joints])
        gap = (length - 2.0 * space.end[..., None]) / (COUNTS - 1.0)
        end_grain = np.array([[[joint.second.entered == "end grain"]] for joint in joints])
        fits = space.fits[..., None] >= COUNTS
        close_enough = (gap <= widest) | ((COUNTS + 1 > space.fits[..., None]) & fits)
        enough = np.where(end_grain, COUNTS >= END_GRAIN_COUNT, True)
        possible = fits & enough & (fate == Fate.GOOD)[..., None]
        fate = np.where((fate == Fate.GOOD) & ~(possible & (used <= 1.0)).any(-1), Fate.WEAK, fate)
        return cls(
            joints=joints,
            screws=screws,
            lies=lies,
            holds=holds,
            room=space,
            needed=needed,
            fate=np.where((fate == Fate.WEAK) & ~possible.any(-1), Fate.NO_ROOM, fate),
            possible=possible & close_enough,
            used=used,
        )

    def ready(self, share: float) -> NDArray[np.bool_]:
        """Which counts (last axis) do, at most ``share`` used."""
        return self.possible & (self.used <= share)

    def refused(self, joint: int, at: int, fate: Fate | None = None) -> Refused:
        screw, length = self.screws.at(at)
        return Refused(
            screw=screw,
            length=length,
            fate=Fate(self.fate[joint, at]) if fate is None else fate,
            fits=int(self.room.fits[joint, at]),
            reach=float(self.lies.reach[joint, at]),
        )

    def option(self, joint: int, at: int, count: int) -> Option:
        screw, length = self.screws.at(at)
        here = self.joints[joint]
        marks = placement.positions(
            here.length,
            count,
            float(self.room.end[joint, at]),
            float(self.room.spacing[joint, at]),
            here.round_to,
        )
        return Option(
            screw=screw,
            length=length,
            count=count,
            positions=tuple(float(mark) for mark in marks),
            least_spacing=float(self.room.spacing[joint, at]),
            end=float(self.room.end[joint, at]),
            rim=float(self.room.rim[joint, at]),
            reach=float(self.lies.reach[joint, at]),
            cover=float(self.lies.cover[joint, at]),
            links=tuple(self._links(joint, at, count)),
            d_ef=float(self.holds.d_ef[joint, at]),
        )

    def _links(self, joint: int, at: int, count: int) -> list[Link]:
        one = slice(joint, joint + 1), slice(at, at + 1)
        n = np.arange(1.0, count + 1.0)
        space = self.room
        along = _counted(
            self.joints[one[0]], columns([self.screws.at(at)]),
            Room(
                spacing=space.spacing[one], end=space.end[one], rim=space.rim[one],
                fits=space.fits[one], too_thin=space.too_thin[one],
            ),
            self.holds.d_ef[one], n,
        )[0, 0, -1]  # fmt: skip
        apart = float(effective_number_axial(count))
        needed, holds = self.needed, self.holds
        factor = tables.gamma_M("connections").value
        here = self.joints[joint]
        links = []

        def link(name, k, w, force, lasts, number):  # type: ignore[no-untyped-def]
            if not force.acts:
                return
            by_code = not isnan(k)
            if by_code:
                kmod = _kmod(here, lasts) or np.nan
                demand, each = force.design[lasts], k * kmod / factor
            else:
                demand, each = force.service, w
            if np.isfinite(each):
                links.append(
                    Link(
                        name=name,
                        basis="EC5" if by_code else "Wood Handbook",
                        demand=demand,
                        holds=each * number,
                        duration=lasts,
                        mode=str(holds.mode[joint, at]) if by_code and name == "sideways" else "",
                    )
                )

        link(
            "sideways", float(holds.lateral_k[joint, at]), float(holds.lateral_w[joint, at]),
            here.lateral, needed.lateral_lasts[joint], float(along),
        )  # fmt: skip
        link(
            "thread pulled out", float(holds.thread_k[joint, at]), float(holds.thread_w[joint, at]),
            here.pull, needed.pull_lasts[joint], apart,
        )  # fmt: skip
        link(
            "head pulled through", float(holds.head_k[joint, at]), np.nan,
            here.pull, needed.pull_lasts[joint], apart,
        )  # fmt: skip
        return links


def _counted(
    joints: Sequence[Joint], screws: Columns, space: Room, d_ef: Array, n: Array
) -> Array:
    thick = screws.is_bolt | acts_as_bolt(d_ef)
    timber = np.array([[[joint.first.is_timber or joint.second.is_timber]] for joint in joints])
    length = np.array([[[joint.length]] for joint in joints])
    return counted(
        n, length, space.end[..., None], screws.d[:, None], thick[..., None], timber
    )


def _unit_uses(holds: Resistance, needed: _Needed) -> tuple[Array, Array]:
    """Use of a single fastener, sideways and apart; nan where there is no figure."""
    by_code = ~np.isnan(holds.lateral_k)
    side = np.where(
        by_code, needed.lateral_k / holds.lateral_k, needed.lateral_w / holds.lateral_w
    )
    thread = np.where(
        ~np.isnan(holds.thread_k),
        needed.pull_k / holds.thread_k,
        needed.pull_w / np.where(holds.thread_w > 0.0, holds.thread_w, np.nan),
    )
    pull = np.maximum(thread, needed.pull_k / holds.head_k)
    none = np.zeros_like(side)
    return (
        np.where(needed.lateral_k > 0.0, side, none),
        np.where(needed.pull_k > 0.0, pull, none),
    )


def _kmod(joint: Joint, lasts: LoadDuration) -> float | None:
    """Root of the product of both members' factors, EN 1995-1-1:2004, equation (2.6)."""
    members = [m for m in (joint.first, joint.second) if m.material.kind != "steel"]
    product = 1.0
    for member in members:
        factor = tables.kmod(member.material.duration_class, joint.service_class, lasts)
        if factor is None:
            return None
        product *= factor.value
    return product ** (1.0 / len(members)) if members else 1.0


def _needed(joints: Sequence[Joint]) -> _Needed:
    factor = tables.gamma_M("connections").value

    def governing(joint: Joint, force: Force) -> tuple[float, LoadDuration]:
        found: list[tuple[float, LoadDuration]] = []
        for lasts, value in force.design.items():
            kmod = _kmod(joint, lasts)
            found.append((np.nan if kmod is None else value * factor / kmod, lasts))
        # nan first: a load that the code does not allow leaves no figure
        return max(found, key=lambda one: (isnan(one[0]), one[0]), default=(0.0, "permanent"))

    lateral = [governing(joint, joint.lateral) for joint in joints]
    pull = [governing(joint, joint.pull) for joint in joints]
    return _Needed(
        lateral_k=np.array([[value] for value, _ in lateral]),
        pull_k=np.array([[value] for value, _ in pull]),
        lateral_w=np.array([[joint.lateral.service] for joint in joints]),
        pull_w=np.array([[joint.pull.service] for joint in joints]),
        lateral_lasts=tuple(lasts for _, lasts in lateral),
        pull_lasts=tuple(lasts for _, lasts in pull),
    )


def _next_cheaper(
    found: _Found, joint: int, wanted: NDArray[np.bool_], score: Array, table: Columns
) -> Refused | None:
    """Of those that would cost less than the best and can't be used, the one nearest to it."""
    best = float(score.min())
    if not np.isfinite(best):
        return None
    would = np.where(wanted & ~np.isfinite(score), 2.0 * table.cost, -1.0)
    cheaper = (would > 0.0) & (would < best)
    if not cheaper.any():
        return None
    order = np.lexsort((would, np.where(cheaper, found.fate[joint], -1)))
    return found.refused(joint, int(order[-1]))


def _nearest(found: _Found, joint: int, wanted: NDArray[np.bool_]) -> Refused | None:
    """The one that comes furthest before something rules it out."""
    fate = np.where(wanted, found.fate[joint], -1)
    furthest = int(fate.max())
    if furthest < 0:
        return None
    same = np.flatnonzero(fate == furthest)
    reach = found.lies.reach[joint, same] / found.screws.d[same]
    return found.refused(joint, int(same[int(reach.argmax())]))
