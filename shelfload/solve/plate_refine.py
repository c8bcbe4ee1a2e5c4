"""Mesh lines where the theory has edge layers or singular corners."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from shelfload.solve.plate_assembly import HeldLine
from shelfload.solve.plate_input import PlateGeometry, Range, Stiffness
from shelfload.solve.plate_loads import footprint_box, placed, within
from shelfload.solve.plate_support import AreaLoad, LineLoad, Load, PointSupport

Marks = tuple[list[float], list[float]]
CORNER_SHARES = (0.08, 0.008)


def kinks(
    geometry: PlateGeometry,
    lines: Sequence[HeldLine],
    points: Sequence[PointSupport],
    loads: Iterable[Load],
) -> tuple[list[float], list[float]]:
    """Coordinates at which the solution has a kink, so that mesh lines go there.

    Parameters
    ----------
    geometry : PlateGeometry
        Plan [mm, rad]
    lines : sequence of HeldLine
        Edges and line supports [mm, rad]
    points : sequence of PointSupport
        Pins [mm, rad]
    loads : iterable of loads
        Loads of all cases [mm, rad]

    Returns
    -------
    along, across : list of float
        Coordinates [mm, rad]

    Raises
    ------
    ValueError
        If something is off the plate.

    Notes
    -----
    Source: own choice.
    """
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


def add_layers(
    geometry: PlateGeometry,
    stiffness: Stiffness,
    held: Sequence[HeldLine],
    marks: Marks,
) -> None:
    """Add mesh lines beside edges that let the plate twist, where layers are thin.

    The tangential slope there decays as ``exp(-s / sqrt(D66 / S))``; a wide layer is resolved
    without further lines, and one thinner than 1/5000 of the plate changes sag by < 0.1 %.

    Parameters
    ----------
    geometry : PlateGeometry
        Plan [mm, rad]
    stiffness : Stiffness
        Bending [N mm] and shear [N/mm]
    held : sequence of HeldLine
        Edges first [-]
    marks : tuple of lists
        Mesh lines along and across, added to [mm, rad]

    Notes
    -----
    Source: own derivation; the limits are tested against order 16.
    """
    length, depth = geometry.size
    for line in held[:4]:
        if line.hold.kind in ("hard", "clamped"):
            continue
        S = stiffness.S1 if line.runs_along else stiffness.S2
        if geometry.curved:
            S = min(stiffness.S1, stiffness.S2)
        layer = (stiffness.D66 / S) ** 0.5
        size = depth if line.runs_along else length
        if not 2e-4 * size < layer < 0.05 * size:
            continue
        extent = geometry.across if line.runs_along else geometry.along
        share = 4.0 * layer / size * (extent[1] - extent[0])
        inward = line.at + share if line.at == extent[0] else line.at - share
        marks[1 if line.runs_along else 0].append(inward)


def add_corners(
    geometry: PlateGeometry, stiffness: Stiffness, held: Sequence[HeldLine], marks: Marks
) -> None:
    """Add mesh lines that close in on the singular corners of a sector.

    Where the grain runs obliquely into a corner between two held edges, the plate stretched to
    equal stiffness both ways has an obtuse corner there, at which moments are infinite (as at
    the corner of a simply supported skew plate) and no polynomial follows alone.

    Parameters
    ----------
    geometry : PlateGeometry
        Plan [mm, rad]
    stiffness : Stiffness
        Bending [N mm] and shear [N/mm]
    held : sequence of HeldLine
        Edges first [-]
    marks : tuple of lists
        Mesh lines along and across, added to [mm, rad]

    Notes
    -----
    Source: M. L. Williams, J. Appl. Mech. 19 (1952) 526 for the singularity; stretching: own
    derivation.
    """
    if not geometry.curved:
        return
    stretch = (stiffness.D22 / stiffness.D11) ** 0.25
    left, right, near, far = held[:4]
    for side in (left, right):
        for end in (near, far):
            kinds = {side.hold.kind, end.hold.kind}
            if not kinds <= {"soft", "hard", "clamped"}:
                continue
            outward = -1.0 if side is left else 1.0
            up = -1.0 if end is near else 1.0
            c, s = math.cos(side.at), math.sin(side.at)
            one = (-outward * c * stretch, outward * s)
            two = (-up * s * stretch, -up * c)
            cosine = (one[0] * two[0] + one[1] * two[1]) / (math.hypot(*one) * math.hypot(*two))
            if cosine > -0.05:
                continue
            for lines, edge, extent in (
                (marks[0], side, geometry.along),
                (marks[1], end, geometry.across),
            ):
                inward = -1.0 if edge.at == extent[1] else 1.0
                lines.extend(
                    edge.at + inward * share * (extent[1] - extent[0]) for share in CORNER_SHARES
                )


def clear_footprints(
    geometry: PlateGeometry,
    held: Sequence[HeldLine],
    points: Sequence[PointSupport],
    marks: Marks,
) -> None:
    """Remove lines that cut the footprint of a point support, save held ones.

    A point support must lie within one strip, so that only neighbouring strips are coupled;
    footprints that overlap share a strip.

    Parameters
    ----------
    geometry : PlateGeometry
        Plan [mm, rad]
    held : sequence of HeldLine
        Edges and line supports [mm, rad]
    points : sequence of PointSupport
        Pins [mm, rad]
    marks : tuple of lists
        Mesh lines along and across, removed from [mm, rad]

    Notes
    -----
    Source: own choice.
    """
    fixed = [line.at for line in held if not line.runs_along]
    for first, last in _merged([footprint_box(geometry, point)[0] for point in points]):
        marks[0][:] = [x for x in marks[0] if not first < x < last or x in fixed]


def _merged(ranges: Sequence[Range]) -> list[Range]:
    """Ranges with those that overlap joined into one."""
    out: list[Range] = []
    for first, last in sorted(ranges):
        if out and first < out[-1][1]:
            out[-1] = (out[-1][0], max(last, out[-1][1]))
        else:
            out.append((first, last))
    return out
