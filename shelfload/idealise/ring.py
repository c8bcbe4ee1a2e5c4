"""A unit that is curved in plan: where things are, seen from above.

Along a unit everything is measured on the middle of its depth, from its left outer face, and
across it forward from its rear, as for straight units; here these become places in plan. The
uprights stand along the radius and are as thick inside as outside.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, cos

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shelfload.describe.model import Unit, outer_width
from shelfload.describe.parts import Arc
from shelfload.idealise.geometry import UprightAt

Array = NDArray[np.float64]
SLICES = 24
"""Parts that a spread weight is cut into along the curve: its centre is then right to 0.1 %."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RingPlan:
    """A part of a ring: inner radius, depth, length along its middle [mm], where its front is."""

    inner: float
    depth: float
    width: float
    front_is_outer: bool

    @property
    def middle(self) -> float:
        """Radius of the middle of the depth [mm]."""
        return self.inner + self.depth / 2.0

    @property
    def angle(self) -> float:
        """From one end to the other [rad]."""
        return self.width / self.middle

    def radius(self, x: ArrayLike) -> Array:
        """Radius of places forward of the rear [mm]."""
        forward = np.asarray(x, dtype=np.float64)
        return self.inner + (forward if self.front_is_outer else self.depth - forward)

    def turn(self, y: ArrayLike) -> Array:
        """Angle of places along the unit, from its middle [rad]."""
        return np.asarray(y, dtype=np.float64) / self.middle - self.angle / 2.0

    def at(self, x: ArrayLike, y: ArrayLike) -> Array:
        """Places in plan, shape (..., 2): to the right, and forward of the centre [mm].

        Parameters
        ----------
        x : array_like
            Forward of the rear [mm].
        y : array_like
            Along the middle of the depth from the left end [mm].
        """
        r, turn = np.broadcast_arrays(self.radius(x), self.turn(y))
        forward = r * np.cos(turn)
        return np.stack([r * np.sin(turn), forward if self.front_is_outer else -forward], axis=-1)

    def spread(self, x: float, y: float, across: float, along: float) -> Array:
        """Middles of equal parts of a weight spread about a place, shape (parts, 2) [mm].

        Parameters
        ----------
        x, y : float
            The middle of it, as for ``at`` [mm].
        across, along : float
            How far it reaches across and along the unit in all [mm].

        Notes
        -----
        Source: own derivation: a slice of a ring of radii a < b, spread by area, has its centre
        at 2 (b^3 - a^3) / (3 (b^2 - a^2)).
        """
        if across <= 0.0 and along <= 0.0:
            return self.at(x, y)[np.newaxis]
        ends = np.sort(self.radius([x - across / 2.0, x + across / 2.0]))
        r = ends[0]
        if across > 0.0:
            r = 2.0 * (ends[1] ** 3 - ends[0] ** 3) / (3.0 * (ends[1] ** 2 - ends[0] ** 2))
        middle = r - self.inner if self.front_is_outer else self.depth - (r - self.inner)
        steps = (np.arange(SLICES) + 0.5) / SLICES - 0.5
        return self.at(middle, y + along * steps)

    def envelope(self) -> float:
        """Depth of the straight box that it fits into [mm]."""
        half = self.angle / 2.0
        outer = self.inner + self.depth
        return outer - (self.inner * cos(half) if cos(half) > 0.0 else outer * cos(half))


def ring_of(unit: Unit) -> RingPlan | None:
    """Return a unit's plan, None where it is straight."""
    if unit.plan is None:
        return None
    return RingPlan(
        inner=unit.plan.inner_radius,
        depth=unit.depth,
        width=outer_width(unit, unit.level[0]),
        front_is_outer=unit.plan.front == "outer",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Slab:
    """A horizontal between two uprights of a curved unit.

    Attributes
    ----------
    inner, outer : float
        Its radii [mm].
    angle : float
        Between the middles of the uprights at its ends [rad].
    off : tuple of float
        How far its left and its right end lie inside those middles [mm].
    """

    inner: float
    outer: float
    angle: float
    off: tuple[float, float]

    def length(self, radius: float) -> float:
        """Along the curve at a radius, from end to end [mm]."""
        return self.angle * radius - sum(radius * _inside(off, radius) for off in self.off)

    def half_angles(self, radius: float) -> tuple[float, float]:
        """Angles of its ends from its middle, at a radius [rad]."""
        left, right = (self.angle / 2.0 - _inside(off, radius) for off in self.off)
        return left, right

    @property
    def area(self) -> float:
        """In plan; r asin(off / r) taken as off [mm2]."""
        ring = self.angle / 2.0 * (self.outer**2 - self.inner**2)
        return ring - sum(self.off) * (self.outer - self.inner)


def _inside(off: float, radius: float) -> float:
    """Angle at a radius that a line parallel to the radius lies off it [rad]."""
    return asin(max(-1.0, min(off / radius, 1.0)))


def slab(
    unit: Unit, back: float, run: tuple[UprightAt, ...], reach: tuple[float, float]
) -> Slab | None:
    """Return the plan of a horizontal, None in a straight unit.

    Parameters
    ----------
    unit : Unit
        As described.
    back : float
        Thickness of the back behind it [mm].
    run : tuple of UprightAt
        The uprights under it.
    reach : tuple of float
        How far its ends go in or over the outer ones [mm].
    """
    ring = ring_of(unit)
    if ring is None:
        return None
    inner, outer = ring.inner, ring.inner + ring.depth
    if ring.front_is_outer:
        inner += back
    else:
        outer -= back
    first, last = run[0], run[-1]
    return Slab(
        inner=inner,
        outer=outer,
        # rounded, so that bays that are alike are cut alike
        angle=round((last.centre - first.centre) / ring.middle, 9),
        off=(
            round(first.right - first.centre - reach[0], 6),
            round(last.centre - last.left - reach[1], 6),
        ),
    )


def sector(unit: Unit, back: float, run: tuple[UprightAt, ...], bearing: float) -> Arc | None:
    """Return a shelf as a sector with ends along the radius, None in a straight unit.

    Its true ends lie parallel to the middle of their uprights; the sector has the true span at
    the outer edge, where it is longest, and a little more further in.
    """
    cut = slab(unit, back, run, (bearing / 2.0, bearing / 2.0))
    if cut is None or unit.plan is None:
        return None
    return Arc.model_construct(
        inner_radius=cut.inner, angle=cut.length(cut.outer) / cut.outer, front=unit.plan.front
    )
