"""How a plate is held and what stands on it, in the plate coordinates of its geometry."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Literal

from shelfload.solve.plate_input import Range, require_positive

EDGE_NAMES = ("left", "right", "near", "far")
EdgeKind = Literal["free", "soft", "hard", "clamped", "elastic"]


@dataclass(frozen=True, slots=True)
class Edge:
    """How one whole edge is held.

    Parameters
    ----------
    kind : str
        "free"; "soft": w = 0 only; "hard": w = 0 and no rotation along the edge (no twist of
        the support line); "clamped": w = 0 and no rotation at all; "elastic": springs [-]
    k_w : float
        Elastic edge: force per length and deflection [N/mm2]
    k_turn : float
        Soft, hard or elastic edge: moment per length and rotation about the edge [N]
    EI, GJ, GA : float
        Beam glued to the edge (a lipping) with its axis in the mid plane: bending, torsion,
        shear with shear factor (0: none of its own); near and far edges only [N mm2, N mm2, N]
    """

    kind: EdgeKind = "free"
    k_w: float = 0.0
    k_turn: float = 0.0
    EI: float = 0.0
    GJ: float = 0.0
    GA: float = 0.0

    def __post_init__(self) -> None:
        if self.kind not in ("free", "soft", "hard", "clamped", "elastic"):
            raise ValueError(f"edge kind {self.kind!r}: free, soft, hard, clamped or elastic")
        for name in ("k_w", "k_turn", "EI", "GJ", "GA"):
            value = getattr(self, name)
            if not (value >= 0.0 and math.isfinite(value)):
                raise ValueError(f"edge {name} = {value} must be finite and not negative")
        if self.k_w and self.kind != "elastic":
            raise ValueError(f"k_w belongs to an elastic edge, not to a {self.kind} one")
        if self.k_turn and self.kind in ("free", "clamped"):
            raise ValueError(f"k_turn does not go with a {self.kind} edge")


@dataclass(frozen=True, slots=True, kw_only=True)
class Edges:
    """The four edges; an edge left out is free.

    Parameters
    ----------
    left, right : Edge
        At the first and last along coordinate [-]
    near, far : Edge
        At the first and last across coordinate (sector: inner and outer radius) [-]
    """

    left: Edge = field(default_factory=Edge)
    right: Edge = field(default_factory=Edge)
    near: Edge = field(default_factory=Edge)
    far: Edge = field(default_factory=Edge)

    def __post_init__(self) -> None:
        for side in (self.left, self.right):
            if side.EI or side.GJ or side.GA:
                raise ValueError("an edge beam runs along the near or far edge only")


@dataclass(frozen=True, slots=True, kw_only=True)
class PointSupport:
    """A support under a small square, which holds the mean deflection of that square.

    Parameters
    ----------
    along, across : float
        Plate coordinates of its centre; pushed inward until the square is on the plate [mm, rad]
    k_w : float
        Spring, infinite for rigid [N/mm]
    footprint : float
        Side of the square [mm]
    """

    along: float
    across: float
    k_w: float = math.inf
    footprint: float = 10.0

    def __post_init__(self) -> None:
        if not self.k_w > 0.0:
            raise ValueError(f"point support: k_w = {self.k_w} must be positive")
        require_positive(footprint=self.footprint)


@dataclass(frozen=True, slots=True, kw_only=True)
class LineSupport:
    """A support along a line of constant along or across coordinate, free to turn.

    It may lie on an edge: an edge held over part of its length.

    Parameters
    ----------
    along, across : float or tuple of float or None
        One is the coordinate of the line, the other its range (None: all) [mm, rad]
    k_w : float
        Spring, infinite for rigid [N/mm2]
    """

    along: float | Range | None = None
    across: float | Range | None = None
    k_w: float = math.inf

    def __post_init__(self) -> None:
        _one_fixed("line support", self.along, self.across)
        if not self.k_w > 0.0:
            raise ValueError(f"line support: k_w = {self.k_w} must be positive")


@dataclass(frozen=True, slots=True, kw_only=True)
class AreaLoad:
    """Load per area, down positive.

    Parameters
    ----------
    value : float
        Load [N/mm2]
    along, across : tuple of float or None
        Range of the patch in plate coordinates, None for all of it [mm, rad]
    """

    value: float
    along: Range | None = None
    across: Range | None = None

    def __post_init__(self) -> None:
        _finite("area load", self.value)


@dataclass(frozen=True, slots=True, kw_only=True)
class LineLoad:
    """Load per length, down positive, on a line of constant along or across coordinate.

    Parameters
    ----------
    value : float
        Load [N/mm]
    along, across : float or tuple of float or None
        One is the coordinate of the line, the other its range (None: all) [mm, rad]
    """

    value: float
    along: float | Range | None = None
    across: float | Range | None = None

    def __post_init__(self) -> None:
        _one_fixed("line load", self.along, self.across)
        _finite("line load", self.value)


@dataclass(frozen=True, slots=True, kw_only=True)
class PointLoad:
    """Load spread evenly over a small square, down positive.

    Moment and shear under a true point load are infinite; those under the square are not,
    and grow with the logarithm of its smallness: state a footprint that is real.

    Parameters
    ----------
    value : float
        Load [N]
    along, across : float
        Plate coordinates of its centre; pushed inward until the square is on the plate [mm, rad]
    footprint : float
        Side of the square [mm]
    """

    value: float
    along: float
    across: float
    footprint: float = 20.0

    def __post_init__(self) -> None:
        _finite("point load", self.value)
        require_positive(footprint=self.footprint)


Load = AreaLoad | LineLoad | PointLoad


def _one_fixed(what: str, along: object, across: object) -> None:
    if isinstance(along, int | float) == isinstance(across, int | float):
        raise ValueError(f"{what}: exactly one of along and across is a single number")


def _finite(what: str, value: float) -> None:
    if not math.isfinite(value):
        raise ValueError(f"{what}: value {value} must be finite")
