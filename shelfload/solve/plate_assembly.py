"""Supports and loads of a plate as springs, fixed unknowns and nodal forces on its mesh."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import partial

import numpy as np
from numpy.typing import NDArray

from shelfload.solve.plate_element import A, B, Discretisation, W
from shelfload.solve.plate_input import PlateGeometry, Range
from shelfload.solve.plate_mesh import Axis
from shelfload.solve.plate_support import (
    EDGE_NAMES,
    AreaLoad,
    Edge,
    Edges,
    LineLoad,
    LineSupport,
    Load,
    PointLoad,
    PointSupport,
)

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class HeldLine:
    """A line of the mesh that is held: an edge or an inner line.

    Parameters
    ----------
    name : str
        "left", "right", "near", "far" or "line 0", "line 1" ... [-]
    runs_along : bool
        True for a line of constant across coordinate [-]
    at : float
        Its constant coordinate [mm] or [rad]
    reach : tuple of float
        Its range in the other coordinate [mm] or [rad]
    hold : Edge
        How it is held [-]
    """

    name: str
    runs_along: bool
    at: float
    reach: Range
    hold: Edge

    @property
    def rigid(self) -> bool:
        """Whether the deflection is held at 0."""
        return self.hold.kind in ("soft", "hard", "clamped")


def held_lines(
    geometry: PlateGeometry, edges: Edges, lines: Sequence[LineSupport]
) -> list[HeldLine]:
    """Edges and line supports in one list, the four edges first.

    Parameters
    ----------
    geometry : PlateGeometry
        Plan [mm, rad]
    edges : Edges
        The four edges [-]
    lines : sequence of LineSupport
        Inner supports [-]

    Returns
    -------
    list of HeldLine
        Left, right, near, far, then the inner lines [mm, rad]

    Raises
    ------
    ValueError
        If a line support lies outside the plate.

    Notes
    -----
    Source: definition.
    """
    out = [
        HeldLine(
            name,
            name in ("near", "far"),
            {
                "left": geometry.along[0],
                "right": geometry.along[1],
                "near": geometry.across[0],
                "far": geometry.across[1],
            }[name],
            geometry.along if name in ("near", "far") else geometry.across,
            getattr(edges, name),
        )
        for name in EDGE_NAMES
    ]
    for n, line in enumerate(lines):
        runs_along, at, reach = placed(geometry, line, f"line support {n}")
        rigid = math.isinf(line.k_w)
        hold = Edge("soft") if rigid else Edge("elastic", k_w=line.k_w)
        out.append(HeldLine(f"line {n}", runs_along, at, reach, hold))
    return out


def placed(
    geometry: PlateGeometry, line: LineSupport | LineLoad, what: str
) -> tuple[bool, float, Range]:
    """Direction, constant coordinate and range of a line, checked to lie on the plate."""
    if isinstance(line.across, int | float):
        runs_along, at, reach = True, float(line.across), line.along
        crosswise, lengthwise = geometry.across, geometry.along
    else:
        assert isinstance(line.along, int | float)  # noqa: S101 - narrowed by __post_init__
        runs_along, at, reach = False, float(line.along), line.across
        crosswise, lengthwise = geometry.along, geometry.across
    if not crosswise[0] <= at <= crosswise[1]:
        raise ValueError(f"{what}: {at} is off the plate ({crosswise[0]} to {crosswise[1]})")
    return runs_along, at, within(lengthwise, reach, what)


def within(extent: Range, reach: float | Range | None, what: str) -> Range:
    """A range checked to be rising and on the plate; None is all of it."""
    if reach is None:
        return extent
    assert isinstance(reach, tuple)  # noqa: S101 - narrowed by __post_init__
    slack = 1e-9 * (extent[1] - extent[0])
    if not extent[0] - slack <= reach[0] < reach[1] <= extent[1] + slack:
        raise ValueError(f"{what}: range {reach} must rise and lie within {extent}")
    return reach


def footprint_box(geometry: PlateGeometry, item: PointLoad | PointSupport) -> tuple[Range, Range]:
    """Ranges along and across of a footprint, pushed inward onto the plate [mm, rad]."""
    out = []
    for centre, extent, unit in (
        (item.along, geometry.along, item.across if geometry.curved else 1.0),
        (item.across, geometry.across, 1.0),
    ):
        if not extent[0] <= centre <= extent[1]:
            raise ValueError(f"point at {centre} is off the plate ({extent[0]} to {extent[1]})")
        half = min(item.footprint / unit, extent[1] - extent[0]) / 2.0
        middle = min(max(centre, extent[0] + half), extent[1] - half)
        out.append((middle - half, middle + half))
    return out[0], out[1]


def kinks(
    geometry: PlateGeometry,
    lines: Sequence[HeldLine],
    points: Sequence[PointSupport],
    loads: Iterable[Load],
) -> tuple[list[float], list[float]]:
    """Coordinates along and across at which the solution has a kink, so that lines go there."""
    along: list[float] = []
    across: list[float] = []
    for load in [*loads, *points]:
        if isinstance(load, AreaLoad):
            along.extend(within(geometry.along, load.along, "area load"))
            across.extend(within(geometry.across, load.across, "area load"))
        elif isinstance(load, LineLoad):
            runs_along, at, reach = placed(geometry, load, "line load")
            (across if runs_along else along).append(at)
            (along if runs_along else across).extend(reach)
        else:
            box = footprint_box(geometry, load)
            along.extend(box[0])
            across.extend(box[1])
    for line in lines:
        (across if line.runs_along else along).append(line.at)
        (along if line.runs_along else across).extend(line.reach)
    return along, across


def nodal_loads(plate: Discretisation, cases: Sequence[Sequence[Load]]) -> Array:
    """Forces that do the same work as the loads, shape (along, across, cases) [N]."""
    along, across = plate.along, plate.across
    out = np.zeros((along.size, across.size, len(cases)))
    for c, case in enumerate(cases):
        for load in case:
            if isinstance(load, AreaLoad):
                a = within(plate.geometry.along, load.along, "area load")
                b = within(plate.geometry.across, load.across, "area load")
                spread = np.outer(along.load(*a, np.ones_like), across.load(*b, plate.scale))
            elif isinstance(load, LineLoad):
                runs_along, at, reach = placed(plate.geometry, load, "line load")
                here = np.array([at])
                if runs_along:
                    lengthwise = along.load(*reach, np.ones_like) * plate.scale(here)
                    spread = np.outer(lengthwise, across.basis(here))
                else:
                    spread = np.outer(along.basis(here), across.load(*reach, np.ones_like))
            else:
                spread = footprint_mean(plate, load)
            out[:, :, c] += load.value * spread
    return out


def footprint_mean(plate: Discretisation, item: PointLoad | PointSupport) -> Array:
    """Weights of the nodal deflections in the mean over a footprint, (along, across) [-]."""
    a, b = footprint_box(plate.geometry, item)
    if isinstance(item, PointSupport):
        # only where a line support crosses a footprint: one strip must hold all of it
        a = clipped(plate.along, a)
    spread = np.outer(plate.along.load(*a, np.ones_like), plate.across.load(*b, plate.scale))
    return np.asarray(spread / spread.sum())


def clipped(axis: Axis, reach: Range) -> Range:
    """The part of a range in the interval that holds its middle."""
    e = int(np.clip(np.searchsorted(axis.breaks, sum(reach) / 2.0) - 1, 0, len(axis.orders) - 1))
    return max(reach[0], float(axis.breaks[e])), min(reach[1], float(axis.breaks[e + 1]))


def fixed_unknowns(
    plate: Discretisation, lines: Sequence[HeldLine]
) -> tuple[NDArray[np.bool_], Array]:
    """Unknowns held at 0 and how many lines hold each deflection, (along, 3, across)."""
    fixed = np.zeros((plate.along.size, 3, plate.across.size), dtype=bool)
    holders = np.zeros((plate.along.size, plate.across.size))
    for line in lines:
        if not line.rigid:
            continue
        i, k = nodes_of(plate, line)
        tangent, normal = (A, B) if line.runs_along else (B, A)
        fixed[i, W, k] = True
        holders[i, k] += 1.0
        if line.hold.kind in ("hard", "clamped"):
            fixed[i, tangent, k] = True
        if line.hold.kind == "clamped":
            fixed[i, normal, k] = True
    return fixed, holders


def nodes_of(
    plate: Discretisation, line: HeldLine
) -> tuple[NDArray[np.intp] | int, NDArray[np.intp] | int]:
    """Indices along and across of the nodes on a line."""
    runs, stands = (plate.along, plate.across) if line.runs_along else (plate.across, plate.along)
    slack = 1e-6 * (runs.breaks[-1] - runs.breaks[0])
    nodes = runs.nodes
    on = np.flatnonzero((nodes >= line.reach[0] - slack) & (nodes <= line.reach[1] + slack))
    index = stands.line(line.at)
    return (on, index) if line.runs_along else (index, on)


def add_springs(plate: Discretisation, lines: Sequence[HeldLine], strips: Sequence[Array]) -> None:
    """Add springs and edge beams of the held lines to the strips, in place."""
    for line in lines:
        hold = line.hold
        if not (hold.k_w or hold.k_turn or hold.EI or hold.GJ or hold.GA):
            continue
        if line.runs_along:
            k = plate.across.line(line.at)
            h = float(plate.scale(np.array([line.at]))[0])
            for e, strip in enumerate(strips):
                middle = (plate.along.breaks[e] + plate.along.breaks[e + 1]) / 2.0
                if line.reach[0] < middle < line.reach[1]:
                    add_along(plate, e, strip[:, :, k, :, :, k], hold, h)
        else:
            i = plate.along.line(line.at)
            e = max(plate.along.starts.index(i) - 1, 0)
            end = strips[e][-1, :, :, -1] if i > 0 else strips[e][0, :, :, 0]
            end[W, :, W] += hold.k_w * plate.across.matrix(0, 0, inside(line))
            on = inside(line)
            turn = plate.across.matrix(0, 0, partial(per_square, on, plate))
            end[A, :, A] += hold.k_turn * turn


def per_square(on: Callable[[Array], Array], plate: Discretisation, y: Array) -> Array:
    """1 / h^2 within a range: the slope across a radial line is the unknown over h."""
    return on(y) / plate.scale(y) ** 2


def inside(line: HeldLine) -> Callable[[Array], Array]:
    """1 within the range of a line, 0 outside, as a function of the coordinate along it."""
    low, high = line.reach
    return lambda s: np.where((s > low) & (s < high), 1.0, 0.0)


def add_along(plate: Discretisation, e: int, line: Array, hold: Edge, h: float) -> None:
    """Add springs and a beam along one line of strip e; ``line`` is a view (m, 3, m, 3)."""
    _, weights, (values, slopes) = plate.along.table(e)
    line[:, W, :, W] += (values.T * (weights * h * hold.k_w)) @ values
    line[:, B, :, B] += (values.T * (weights * h * hold.k_turn)) @ values
    if not (hold.EI or hold.GJ or hold.GA):
        return
    none = np.zeros_like(values)
    turn = 1.0 if plate.geometry.curved else 0.0
    bend = np.stack([none, slopes / h**2, turn * values / h], axis=-1)
    twist = np.stack([none, -turn * values / h**2, slopes / h], axis=-1)
    shear = np.stack([slopes / h, -values / h, none], axis=-1)
    for strain, rigidity in ((bend, hold.EI), (twist, hold.GJ), (shear, hold.GA)):
        line += np.einsum("q,qia,qjb->iajb", weights * h * rigidity, strain, strain)
