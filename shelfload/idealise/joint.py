"""One join as mechanics sees it: two members face to face or face to edge, and its forces."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import inf
from typing import Literal

from shelfload import tables
from shelfload.idealise.loads import Duration

Entered = Literal["face", "edge", "end grain"]
LoadDuration = Duration
MEAN_TO_CHARACTERISTIC = 0.85
"""Characteristic over mean density where no characteristic one is tabled [-].

1 - 1.645 x 0.09 for panels; the coefficient of variation is common practice, no source.
"""
SG_PER_DENSITY = 1120.0  # density at 12 % moisture over oven-dry specific gravity [kg/m3]
RECESS = 1.0
"""How deep a countersunk head lies below the face [mm] (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """A panel, board or plate that a fastener goes through or into.

    Attributes
    ----------
    material : Material
        Its row.
    thickness : float
        As it measures [mm].
    entered : "face", "edge" or "end grain"
        Where the point goes in; the head is always on a face.
    """

    material: tables.Material
    thickness: float
    entered: Entered = "face"

    @property
    def rho_k(self) -> float:
        """Characteristic density [kg/m3]."""
        if self.material.density_k is not None:
            return self.material.density_k
        return MEAN_TO_CHARACTERISTIC * self.material.density

    @property
    def gravity(self) -> float:
        """Oven-dry specific gravity [-]."""
        return self.material.density / SG_PER_DENSITY

    @property
    def depth(self) -> float:
        """How deep a fastener can go before it comes out [mm]; an edge has no far face."""
        return self.thickness if self.entered == "face" else inf

    @property
    def is_timber(self) -> bool:
        """Whether the timber rules apply."""
        return self.material.kind in ("solid", "glulam")


@dataclass(frozen=True, slots=True, kw_only=True)
class Force:
    """One kind of force on a join [N]: factored by load duration, and as it is in service."""

    design: Mapping[Duration, float] = field(default_factory=dict)
    service: float = 0.0

    @property
    def acts(self) -> bool:
        """Whether there is any."""
        return self.service > 0.0 or any(value > 0.0 for value in self.design.values())


NOTHING = Force()


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """A join to be made.

    Attributes
    ----------
    first, second : Member
        The one under the head, and the one with the point or the nut.
    length : float
        Along which fasteners can be set [mm].
    lateral, pull : Force
        Along the face between the two, and apart.
    service_class : int
        Of the site.
    redriven : bool
        Taken apart and put together again: worn threads count less.
    recess : float
        How deep countersunk heads lie below the face [mm].
    widest : float
        Largest spacing wanted [mm].
    round_to : float
        Step of the marks [mm].
    """

    first: Member
    second: Member
    length: float
    lateral: Force = NOTHING
    pull: Force = NOTHING
    service_class: int = 1
    redriven: bool = False
    recess: float = RECESS
    widest: float = 300.0
    round_to: float = 5.0
