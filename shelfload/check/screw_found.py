"""Everything about a set of fasteners in a set of joins, worked out in one go."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from math import isfinite, isnan

import numpy as np
from numpy.typing import NDArray

from shelfload import tables
from shelfload.check.screw_fate import Fate, fates
from shelfload.check.screw_option import Link, LinkName, Option, Refused
from shelfload.check.screw_resistance import Resistance, resistance
from shelfload.check.screw_rows import Room, counted, room
from shelfload.check.screw_stack import Lie, lie
from shelfload.check.screw_table import Columns
from shelfload.idealise.joint import Force, Joint, LoadDuration
from shelfload.solve import placement
from shelfload.solve.fastener import acts_as_bolt
from shelfload.solve.withdrawal import effective_number_axial

Array = NDArray[np.float64]

COUNTS = np.array([*range(2, 11), 12, 14, 16, 20, 24, 30, 40, 60, 100], dtype=np.float64)
END_GRAIN_COUNT = 3.0  # least number on end grain, EN 1995-1-1:2004, 8.3.1.2(4), from memory


@dataclass(frozen=True, slots=True, kw_only=True)
class Needed:
    """What each join asks: as characteristic resistance, and in service, (joints, 1) [N].

    nan where the code allows no such load; ``lasts`` is the load duration that governs.
    """

    k: Array
    w: Array
    acts: NDArray[np.bool_]
    lasts: tuple[LoadDuration, ...]

    @classmethod
    def of(cls, joints: Sequence[Joint], forces: Sequence[Force]) -> Needed:
        """Return what forces on joins ask of their fasteners."""
        found = [_governing(joint, force) for joint, force in zip(joints, forces, strict=True)]
        return cls(
            k=np.array([[value] for value, _ in found]),
            w=np.array([[force.service] for force in forces]),
            acts=np.array([[force.acts] for force in forces]),
            lasts=tuple(lasts for _, lasts in found),
        )


@cache
def gamma_M() -> float:
    """Return the partial factor of connections [-]."""
    return tables.gamma_M("connections").value


def kmod(joint: Joint, lasts: LoadDuration) -> float | None:
    """Return the root of the product of both members' factors; None where not allowed.

    Source: EN 1995-1-1:2004, equation (2.6); steel has no factor.
    """
    members = [m for m in (joint.first, joint.second) if m.material.kind != "steel"]
    product = 1.0
    for member in members:
        factor = tables.kmod(member.material.duration_class, joint.service_class, lasts)
        if factor is None:
            return None
        product *= factor.value
    return product ** (1.0 / len(members)) if members else 1.0


def _governing(joint: Joint, force: Force) -> tuple[float, LoadDuration]:
    factor = gamma_M()
    found: list[tuple[float, LoadDuration]] = []
    for lasts, value in force.design.items():
        duration = kmod(joint, lasts)
        found.append((np.nan if duration is None else value * factor / duration, lasts))
    # a load that the code does not allow leaves no figure at all
    return max(found, key=lambda one: (isnan(one[0]), one[0]), default=(0.0, "permanent"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """Fasteners in joins: arrays of joints x fasteners.

    Attributes
    ----------
    fate : ndarray of int
        What rules each out, or ``Fate.GOOD``.
    count : ndarray of int
        Least number that does, 0 for none.
    used : ndarray
        Use of the number that is used least [-]; infinite where none can be set.
    """

    joints: Sequence[Joint]
    screws: Columns
    lies: Lie
    holds: Resistance
    room: Room
    lateral: Needed
    pull: Needed
    fate: NDArray[np.int_]
    count: NDArray[np.int_]
    used: Array

    @classmethod
    def of(cls, joints: Sequence[Joint], screws: Columns, share: float) -> Found:
        """Work everything out; a number does where at most ``share`` of it is used."""
        lies = lie(joints, screws)
        holds = resistance(joints, screws, lies)
        space = room(joints, screws, holds.d_ef)
        lateral = Needed.of(joints, [joint.lateral for joint in joints])
        pull = Needed.of(joints, [joint.pull for joint in joints])
        side, apart = _unit_uses(holds, lateral, pull)
        fate = fates(joints, screws, lies, holds, space, np.isnan(side) | np.isnan(apart))
        count, least = np.zeros(fate.shape, dtype=np.int_), np.full(fate.shape, np.inf)
        # only what is left is counted out: the last axis makes everything much larger
        at = np.nonzero(fate == Fate.GOOD)
        numbers, used, fits = _numbers(screws, space, holds.d_ef, (side, apart), at, share)
        count[at], least[at] = numbers, used
        fate[at] = np.where(numbers > 0, Fate.GOOD, np.where(fits, Fate.WEAK, Fate.NO_ROOM))
        return cls(
            joints=joints,
            screws=screws,
            lies=lies,
            holds=holds,
            room=space,
            lateral=lateral,
            pull=pull,
            fate=fate,
            count=count,
            used=least,
        )

    def refused(self, joint: int, at: int, fate: Fate | None = None) -> Refused:
        """Return one fastener in one join as refused."""
        screw, length = self.screws.at(at)
        return Refused(
            screw=screw,
            length=length,
            fate=Fate(self.fate[joint, at]) if fate is None else fate,
            fits=int(self.room.fits[joint, at]),
        )

    def option(self, joint: int, at: int, count: int) -> Option:
        """Return a number of one fastener in one join."""
        screw, length = self.screws.at(at)
        here = self.joints[joint]
        end, least = float(self.room.end[joint, at]), float(self.room.spacing[joint, at])
        marks = placement.positions(here.length, count, end, least, here.round_to)
        return Option(
            screw=screw,
            length=length,
            count=count,
            positions=tuple(marks.tolist()),
            least_spacing=least,
            end=end,
            rim=float(self.room.rim[joint, at]),
            reach=float(self.lies.reach[joint, at]),
            cover=float(self.lies.cover[joint, at]),
            links=tuple(self._links(joint, at, count)),
            d_ef=float(self.holds.d_ef[joint, at]),
        )

    def _links(self, joint: int, at: int, count: int) -> Iterator[Link]:
        here, holds = self.joints[joint], self.holds
        n = np.arange(1.0, count + 1.0)
        one = np.array([joint]), np.array([at])
        number = float(_counted(self.screws, self.room, holds.d_ef, one, n)[0, -1])
        apart = float(effective_number_axial(count))
        asked: tuple[tuple[LinkName, Array, Array | None, Force, LoadDuration, float], ...] = (
            ("sideways", holds.lateral_k, holds.lateral_w, here.lateral,
             self.lateral.lasts[joint], number),
            ("thread pulled out", holds.thread_k, holds.thread_w, here.pull,
             self.pull.lasts[joint], apart),
            ("head pulled through", holds.head_k, None, here.pull, self.pull.lasts[joint], apart),
        )  # fmt: skip
        for name, by_code, by_handbook, force, lasts, counts in asked:
            R_k = float(by_code[joint, at])
            if not force.acts or R_k == np.inf:
                continue
            if isnan(R_k):
                R_w = np.nan if by_handbook is None else float(by_handbook[joint, at])
                if isfinite(R_w):
                    yield Link(
                        name=name, basis="Wood Handbook", demand=force.service,
                        holds=R_w * counts, duration=lasts,
                    )  # fmt: skip
                continue
            factor = (kmod(here, lasts) or np.nan) / gamma_M()
            yield Link(
                name=name, basis="EC5", demand=force.design[lasts], holds=R_k * factor * counts,
                duration=lasts, mode=str(holds.mode[joint, at]) if name == "sideways" else "",
            )  # fmt: skip


At = tuple[NDArray[np.intp], ...]
"""Places in arrays of joints x fasteners."""


def _numbers(
    screws: Columns,
    space: Room,
    d_ef: Array,
    unit_uses: tuple[Array, Array],
    at: At,
    share: float,
) -> tuple[NDArray[np.int_], Array, NDArray[np.bool_]]:
    """Return for some places the least number that does, the least use, and whether any fits."""
    counts = _counted(screws, space, d_ef, at, COUNTS)
    side, apart = (use[at][:, None] for use in unit_uses)
    used = np.hypot(side / counts, apart / effective_number_axial(COUNTS))
    possible = space.fits[at][:, None] >= COUNTS
    possible &= ~space.end_grain[at[0], None] | (COUNTS >= END_GRAIN_COUNT)
    close = possible & (_gaps(space, at, COUNTS) <= space.widest[at[0], None])
    # the most that the table of numbers holds must do for a very long join
    close |= possible & ~close.any(-1, keepdims=True) & (COUNTS == COUNTS[-1])
    ready = close & (used <= share)
    numbers = np.where(ready.any(-1), COUNTS[ready.argmax(-1)], 0.0).astype(np.int_)
    least = np.where(possible, used, np.inf).min(-1, initial=np.inf)
    return numbers, np.asarray(least), np.asarray(possible.any(-1))


def _gaps(space: Room, at: At, n: Array) -> Array:
    room = space.length[at[0], None] - 2.0 * space.end[at][:, None]
    return np.maximum(room, 0.0) / np.maximum(n - 1.0, 1.0)


def _counted(screws: Columns, space: Room, d_ef: Array, at: At, n: Array) -> Array:
    thick = screws.is_bolt[at[1]] | acts_as_bolt(d_ef[at])
    # marks are rounded: a gap may be a step narrower than an even one
    gap = np.maximum(_gaps(space, at, n) - space.step[at[0], None], 0.0)
    return counted(n, gap, screws.d[at[1], None], thick[:, None], space.timber[at[0], None])


def _unit_uses(holds: Resistance, lateral: Needed, pull: Needed) -> tuple[Array, Array]:
    """Use of a single fastener, sideways and apart; nan where there is no figure."""
    side = np.where(
        np.isnan(holds.lateral_k), lateral.w / _held(holds.lateral_w), lateral.k / holds.lateral_k
    )
    thread = np.where(
        np.isnan(holds.thread_k), pull.w / _held(holds.thread_w), pull.k / holds.thread_k
    )
    apart = np.maximum(thread, pull.k / holds.head_k)
    return np.where(lateral.acts, side, 0.0), np.where(pull.acts, apart, 0.0)


def _held(R: Array) -> Array:
    return np.where(R > 0.0, R, np.nan)
