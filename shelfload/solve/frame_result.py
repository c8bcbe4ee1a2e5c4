"""What a solved plane frame can be asked."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from shelfload.solve.frame_model import Floats, Frame
from shelfload.solve.frame_segments import STATES, Segments
from shelfload.solve.stationary import highest_and_lowest, polynomial_values

Quantity = Literal["axial", "shear", "moment", "deflection", "sag", "slope", "stretch"]
"""Axial force, shear, moment (sagging), movement across the member, the same from the line
between its ends, turn of the section, movement along the member."""


class Extremes(NamedTuple):
    """Greatest and least value along each member in each case, and where.

    Parameters
    ----------
    highest, lowest : ndarray, shape (m, cases)
        Values, in the unit of the quantity [-]
    highest_at, lowest_at : ndarray, shape (m, cases)
        Places, from the member's first node [mm]

    Notes
    -----
    Source: own definition.
    """

    highest: Floats
    highest_at: Floats
    lowest: Floats
    lowest_at: Floats

    @property
    def largest(self) -> Floats:
        """Greatest size without sign, shape (m, cases)."""
        return np.maximum(np.abs(self.highest), np.abs(self.lowest))


@dataclass(frozen=True, slots=True, eq=False)
class FrameResult:
    """Movements and forces of a frame, one column for each load case.

    Parameters
    ----------
    frame : Frame
        The frame [-]
    displacements : ndarray, shape (n, 3, cases)
        Movement of each node: right, down, clockwise turn [mm] and [rad]
    end_forces : ndarray, shape (m, 2, 3, cases)
        What each end of each member puts on its node: right, down, clockwise
        [N] and [N mm]
    shear_flow : ndarray, shape (p, cases)
        Shear flow of each panel; negative where the top of a panel is pushed to the right
        of its bottom (first edge given level) [N/mm]
    support_forces : ndarray, shape (n, 3, cases)
        What the frame puts on its supports, right, down, clockwise: a floor that is
        pressed has a positive second value, one that would have to hold the frame down a
        negative one; over all nodes they sum to the loads [N] and [N mm]
    segments : Segments
        State along the members, for the methods below [-]

    Notes
    -----
    Source: own definition.
    """

    frame: Frame
    displacements: Floats
    end_forces: Floats
    shear_flow: Floats
    support_forces: Floats
    segments: Segments

    def combine(self, factors: ArrayLike) -> FrameResult:
        """Add up load cases with factors, as many combinations as wanted.

        Parameters
        ----------
        factors : array_like, shape (combinations, cases)
            Factor on each case [-]

        Returns
        -------
        result : FrameResult
            One column for each combination [mm], [N], [N mm]

        Notes
        -----
        With one case for each bay, rows of 0 and 1 are all patterns of full and empty bays:
        the worst is then found for certain, extremes along the members included.

        Source: superposition; the theory is linear.
        """
        weights = np.atleast_2d(np.asarray(factors, dtype=float)).T
        parts = self.segments
        return FrameResult(
            self.frame,
            self.displacements @ weights,
            self.end_forces @ weights,
            self.shear_flow @ weights,
            self.support_forces @ weights,
            replace(parts, **{name: getattr(parts, name) @ weights for name in STATES}),
        )

    def along(self, member: ArrayLike, at: ArrayLike, quantity: Quantity) -> Floats:
        """Exact value of a quantity at places along members.

        Parameters
        ----------
        member : array_like, one or (k,)
            Member [-]
        at : array_like, one or (k,)
            Place, from the member's first node; at a point load, the value is the one
            just beyond it [mm]
        quantity : str
            "axial" or "shear" [N], "moment" [N mm], "deflection", "sag" or "stretch"
            [mm], "slope" [rad]; sag is the deflection from the line between the ends

        Returns
        -------
        values : ndarray, shape (k, cases)
            In the unit of the quantity [-]

        Raises
        ------
        ValueError
            A place is off its member.

        Notes
        -----
        Source: own derivation, integration of the beam equations.
        """
        which, place = np.broadcast_arrays(
            np.atleast_1d(np.asarray(member, dtype=np.intp)), np.asarray(at, dtype=float)
        )
        length = self.frame.length[which]
        if not np.all((place >= 0) & (place <= length * (1.0 + 1e-9))):
            raise ValueError("a place lies off its member")
        parts = self.segments
        # One rising key for all segments: number of the member, and less than one for place.
        key = parts.member + 0.5 * parts.start / self.frame.length[parts.member]
        wanted = which + 0.5 * np.minimum(place / length + 1e-12, 1.0)
        segment = np.searchsorted(key, wanted, side="right") - 1
        inside = (place - parts.start[segment]) / parts.length[segment]
        return polynomial_values(self._polynomials(quantity)[:, segment], inside[:, None])

    def extremes(self, quantity: Quantity) -> Extremes:
        """Greatest and least value of a quantity along every member.

        Parameters
        ----------
        quantity : str
            As for :meth:`along` [-]

        Returns
        -------
        extremes : Extremes
            True extremes, not values at stations [-]

        Notes
        -----
        Source: own derivation: zeros of the derivative between the loads.
        """
        parts = self.segments
        top, top_at, bottom, bottom_at = highest_and_lowest(self._polynomials(quantity))
        start, length = parts.start[:, None], parts.length[:, None]
        top_at = start + length * top_at
        bottom_at = start + length * bottom_at
        first = parts.first[:-1]
        if len(first) == len(parts.member):
            return Extremes(top, top_at, bottom, bottom_at)
        highest = np.maximum.reduceat(top, first)
        lowest = np.minimum.reduceat(bottom, first)
        is_top = top == highest[parts.member]
        is_bottom = bottom == lowest[parts.member]
        return Extremes(
            highest,
            np.minimum.reduceat(np.where(is_top, top_at, np.inf), first),
            lowest,
            np.minimum.reduceat(np.where(is_bottom, bottom_at, np.inf), first),
        )

    def _polynomials(self, quantity: Quantity) -> Floats:
        """Coefficients by rising power of the part of each segment, shape (power, s, cases)."""
        parts = self.segments
        h = parts.length[:, None]
        q, dq = h * parts.across, h * (parts.across_end - parts.across)
        if quantity == "shear":
            return np.stack([parts.shear, -q, -dq / 2.0])
        V = h * parts.shear
        if quantity == "moment":
            return np.stack([parts.moment, V, -h * q / 2.0, -h * dq / 6.0])
        if quantity in ("axial", "stretch"):
            n, dn = h * parts.along, h * (parts.along_end - parts.along)
            if quantity == "axial":
                return np.stack([parts.axial, -n, -dn / 2.0])
            soft = h / self.frame.EA[parts.member][:, None]
            return np.stack([parts.stretch, soft * parts.axial, -soft * n / 2.0, -soft * dn / 6.0])
        bend = h / self.frame.EI[parts.member][:, None]
        if quantity == "slope":
            M = parts.moment
            return np.stack(
                [parts.slope, -bend * M, -bend * V / 2.0, bend * h * q / 6.0, bend * h * dq / 24.0]
            )
        if quantity not in ("deflection", "sag"):
            raise ValueError(f"unknown quantity {quantity!r}")
        bend = h * bend
        shear = h / self.frame.GA[parts.member][:, None]
        level, tilt = parts.deflection, h * parts.slope
        if quantity == "sag":
            c, s = self.frame.direction.T
            ends = self.displacements[self.frame.members]
            across = c[:, None, None] * ends[:, :, 1] - s[:, None, None] * ends[:, :, 0]
            chord = ((across[:, 1] - across[:, 0]) / self.frame.length[:, None])[parts.member]
            level = level - across[parts.member, 0] - chord * parts.start[:, None]
            tilt = tilt - h * chord
        return np.stack(
            [
                level,
                tilt + shear * parts.shear,
                -bend * parts.moment / 2.0 - shear * q / 2.0,
                -bend * V / 6.0 - shear * dq / 6.0,
                bend * h * q / 24.0,
                bend * h * dq / 120.0,
            ]
        )
