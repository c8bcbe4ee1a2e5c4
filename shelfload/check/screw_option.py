"""A fastener that can be set in a join, and one that can't."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from shelfload import tables
from shelfload.check.screw_fate import Fate
from shelfload.idealise.joint import LoadDuration

Basis = Literal["EC5", "Wood Handbook"]
LinkName = Literal["sideways", "thread pulled out", "head pulled through"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """One way a fastener can give: what the join asks of all and what all hold [N]."""

    name: LinkName
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
    """A fastener that can be set: how it lies, how many, where, what it holds [mm, N].

    Attributes
    ----------
    screw, length, count : Fastener, float, int
        Which, how long, how many.
    positions : tuple of float
        Marks from one end of the join.
    least_spacing, end, rim : float
        Least distances kept: between them, from the end, from an edge beside the row.
    reach, cover : float
        Into the second member, and left of it before the point.
    links : tuple of Link
        Everything that is asked of it.
    d_ef : float
        Diameter counted sideways.
    """

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
    def sideways(self) -> float:
        """Use sideways [-]."""
        return max((link.used for link in self.links if link.name == "sideways"), default=0.0)

    @property
    def apart(self) -> float:
        """Use by what pulls the join apart [-]."""
        return max((link.used for link in self.links if link.name != "sideways"), default=0.0)

    @property
    def used(self) -> float:
        """Use of both together, EN 1995-1-1:2004, equation (8.28) [-]."""
        return float(np.hypot(self.sideways, self.apart))

    @property
    def spacing(self) -> float:
        """Between neighbours, the widest [mm]; 0 for a single one."""
        gaps = np.diff(self.positions)
        return float(gaps.max()) if gaps.size else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Refused:
    """A fastener that can't be used, and why; ``fits`` is how many there is room for."""

    screw: tables.Fastener
    length: float
    fate: Fate
    fits: int = 0
