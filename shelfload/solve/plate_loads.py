"""Where loads and supports lie on a plate, and loads as nodal forces."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from shelfload.solve.plate_element import Discretisation
from shelfload.solve.plate_input import PlateGeometry, Range
from shelfload.solve.plate_mesh import Axis
from shelfload.solve.plate_support import (
    AreaLoad,
    LineLoad,
    LineSupport,
    Load,
    PointLoad,
    PointSupport,
)

Array = NDArray[np.float64]


def placed(
    geometry: PlateGeometry, line: LineSupport | LineLoad, what: str
) -> tuple[bool, float, Range]:
    """Direction, constant coordinate and range of a line, checked to lie on the plate.

    Parameters
    ----------
    geometry : PlateGeometry
        Plan [mm, rad]
    line : LineSupport or LineLoad
        The line [mm, rad]
    what : str
        How to call it in an error [-]

    Returns
    -------
    runs_along : bool
        True for a line of constant across coordinate [-]
    at : float
        Its constant coordinate [mm, rad]
    reach : tuple of float
        Its range in the other coordinate [mm, rad]

    Raises
    ------
    ValueError
        If it is off the plate.

    Notes
    -----
    Source: definition.
    """
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
    """A range checked to be rising and on the plate; None is all of it.

    Parameters
    ----------
    extent : tuple of float
        First and last coordinate of the plate [mm, rad]
    reach : tuple of float or None
        The range asked for [mm, rad]
    what : str
        How to call it in an error [-]

    Returns
    -------
    tuple of float
        The range [mm, rad]

    Raises
    ------
    ValueError
        If it does not rise or leaves the plate.

    Notes
    -----
    Source: definition.
    """
    if reach is None:
        return extent
    assert isinstance(reach, tuple)  # noqa: S101 - narrowed by __post_init__
    slack = 1e-9 * (extent[1] - extent[0])
    if not extent[0] - slack <= reach[0] < reach[1] <= extent[1] + slack:
        raise ValueError(f"{what}: range {reach} must rise and lie within {extent}")
    return reach


def footprint_box(geometry: PlateGeometry, item: PointLoad | PointSupport) -> tuple[Range, Range]:
    """Ranges of a footprint, pushed inward onto the plate.

    Parameters
    ----------
    geometry : PlateGeometry
        Plan [mm, rad]
    item : PointLoad or PointSupport
        Centre and footprint [mm, rad]

    Returns
    -------
    along, across : tuple of float
        Ranges [mm, rad]

    Raises
    ------
    ValueError
        If the centre is off the plate.

    Notes
    -----
    Source: own choice; what stands on a plate stands within it.
    """
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


def nodal_loads(plate: Discretisation, cases: Sequence[Sequence[Load]]) -> Array:
    """Forces that do the same work as the loads.

    Parameters
    ----------
    plate : Discretisation
        Mesh [mm, rad]
    cases : sequence of sequences of loads
        Loads of each case [N, N/mm, N/mm2]

    Returns
    -------
    ndarray, shape (along, across, cases)
        Nodal forces, down positive [N]

    Raises
    ------
    ValueError
        If a load is off the plate.

    Notes
    -----
    Source: virtual work, exact also where a load ends between mesh lines.
    """
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
    """Weights of the nodal deflections in the mean over a footprint.

    Parameters
    ----------
    plate : Discretisation
        Mesh [mm, rad]
    item : PointLoad or PointSupport
        Centre and footprint [mm, rad]

    Returns
    -------
    ndarray, shape (along, across)
        Weights, of sum 1 [-]

    Notes
    -----
    Source: own choice.
    """
    a, b = footprint_box(plate.geometry, item)
    if isinstance(item, PointSupport):
        # only where a line support crosses a footprint: one strip must hold all of it
        a = _clipped(plate.along, a)
    spread = np.outer(plate.along.load(*a, np.ones_like), plate.across.load(*b, plate.scale))
    return np.asarray(spread / spread.sum())


def _clipped(axis: Axis, reach: Range) -> Range:
    """The part of a range in the interval that holds its middle."""
    e = int(np.clip(np.searchsorted(axis.breaks, sum(reach) / 2.0) - 1, 0, len(axis.orders) - 1))
    return max(reach[0], float(axis.breaks[e])), min(reach[1], float(axis.breaks[e + 1]))
