"""Orthotropic plates with transverse shear on rectangles and annular sectors.

**Theory.** Mindlin's: bending by D11, D22, D12, D66 and shear by S1, S2, each in the material
axes x (grain) and y of the plan, also where the plan is curved. Small deflections, supports
that hold both ways.

**Element, and why.** A product of high-order (spectral) polynomials, few large elements, mesh
lines only where the solution has a kink (ends of loads, line supports, footprints) or an edge
layer. On rectangles and sectors the solution is smooth between such lines, so the error falls
exponentially with the order: order 8 gives sag to 0.1 % with 243 unknowns, while the error of
low-order quadrilaterals (MITC4) falls only with the square of their size. That decides it here,
since numpy has neither a sparse nor a banded solver: a few hundred unknowns go through one dense
LU in about 1 ms, and several strips through block elimination. Deflection
alone settles in 5-8 ms on a rectangle held on its edges (20-40 ms: sectors, pins), deflection and
moments in 10-20 ms (30-200 ms with thin edge layers, sectors, pins): see ``settle``. Locking is
absent for a reason of structure, not by reduced integration: rotations are kept as covariant
components, so that the gradient of every deflection polynomial is a pair of rotation
polynomials, and all integrals are full
(:mod:`shelfload.solve.plate_element`). Constant curvature and constant shear are met exactly.

**Accuracy, and how it is known.** The order rises 6, 8, 10 ... until the deflection field changes
by less than 0.25 % of its largest value and each moment by less than 1 % of the
largest moment; the finer solution is returned with both changes. As the error falls by two
times and mostly far more with each step, the remaining error is below the change. The tests
compare this estimate with order 16. Rounding limits it for length over thickness beyond 2000
(reactions to 1e-7 of the load there). ``PlateResult.settled`` is False where the last order was
reached without that, which happens for moments at singular places (a rigid pin, an edge where
clamped turns to free); deflection is then still good to ``deflection_error``.

**Which edge is which.** The condition of an edge matters more than any mesh:

- "hard" (w = 0, no rotation along the edge): an end let into a housing or groove and glued, or
  sitting on a full-length cleat and screwed: the support line can't twist.
- "soft" (w = 0 only): lying loose on a ledger or cleat, or screwed through its centre line into
  a thin side. Lets the cross-section shear and twist at the edge: a shelf
  900 x 300 x 18 mm on three edges sags 5-12 % more than on "hard" ones with low transverse shear
  (on its two ends 0-3 %), and it is the safe choice of the two. Within about
  ``sqrt(D66 / S)`` of a soft or free edge twist and shear change quickly, and thin elements are
  placed there.
- "elastic": held by nails or screws at a spacing: ``k_w`` = slip modulus (or the stiffness of
  the thing they go into) over spacing; ``k_turn`` likewise. A back screwed on is this, hardly
  ever "clamped".
- "clamped": glued to something much stiffer that can't turn itself. Rare; a long shelf that runs
  over a divider is a "line" support, which works that out by itself.
- pins are :class:`PointSupport`, never an edge. A true point has no stiffness in this theory
  (nor has a point load a finite moment), so both act on a small stated square.

Supports here pull as well as push. A negative reaction, or ``corner_uplift`` > 0, means the
edge must be held down there; if it only lies there, treat the edge as not held or add points
only where it presses. Kirchhoff's theory has a concentrated force ``2 M_xy`` at the corners of
simply supported plates; on "soft" edges it appears here as a narrow run of downward reaction
beside the corner, on "hard" edges as a twisting couple along the edge.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import chain
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from shelfload.errors import Mechanism
from shelfload.solve.plate_assembly import (
    HeldLine,
    add_springs,
    fixed_unknowns,
    held_lines,
)
from shelfload.solve.plate_element import Discretisation
from shelfload.solve.plate_elimination import PointHold, eliminate, require_held
from shelfload.solve.plate_field import Peak
from shelfload.solve.plate_input import PlateGeometry, Stiffness, rectangle, sector, stiffness_of
from shelfload.solve.plate_loads import footprint_box, footprint_mean, nodal_loads
from shelfload.solve.plate_mesh import Axis, axis_of
from shelfload.solve.plate_refine import add_corners, add_layers, clear_footprints, kinks
from shelfload.solve.plate_result import (
    DEFLECTION_CHANGE,
    MOMENT_CHANGE,
    PlateResult,
    change_between,
)
from shelfload.solve.plate_support import (
    AreaLoad,
    Edge,
    Edges,
    LineLoad,
    LineSupport,
    Load,
    PointLoad,
    PointSupport,
)

__all__ = [
    "AreaLoad",
    "Edge",
    "Edges",
    "LineLoad",
    "LineSupport",
    "Load",
    "Mechanism",
    "Peak",
    "PlateGeometry",
    "PlateResult",
    "PointLoad",
    "PointSupport",
    "Stiffness",
    "rectangle",
    "sector",
    "solve_plate",
    "stiffness_of",
]

Array = NDArray[np.float64]
Case = Sequence[Load]
ORDERS = (6, 8, 10, 12, 14)
STALLED = 0.8


def solve_plate(
    geometry: PlateGeometry,
    stiffness: Stiffness,
    edges: Edges,
    loads: Sequence[Load] | Sequence[Case],
    *,
    points: Sequence[PointSupport] = (),
    lines: Sequence[LineSupport] = (),
    settle: Literal["deflection", "moments"] = "moments",
    order: int | None = None,
) -> PlateResult:
    """Deflection, moments and reactions of a plate under one or several load cases.

    Parameters
    ----------
    geometry : PlateGeometry
        From :func:`rectangle` or :func:`sector` [mm, rad]
    stiffness : Stiffness
        From :func:`stiffness_of`, or given for a layered plate [N mm, N/mm]
    edges : Edges
        The four edges; one left out is free [-]
    loads : sequence of loads, or sequence of such sequences
        One case, or one sequence of loads per case [N, N/mm, N/mm2]
    points : sequence of PointSupport
        Pins [-]
    lines : sequence of LineSupport
        Dividers: lines of constant along or across coordinate, free to turn [-]
    settle : str
        "moments" raises the order until both have settled, "deflection" until that has: two to
        five times faster, for span tables and odds [-]
    order : int or None
        Polynomial order; None raises it until the result settles [-]

    Returns
    -------
    PlateResult
        One column per case [mm, N, N/mm]

    Raises
    ------
    Mechanism
        If the supports leave the plate free to lift or tilt as a whole.
    ValueError
        If a load or support is off the plate, or there is no load case.

    Notes
    -----
    Source: R. D. Mindlin, J. Appl. Mech. 18 (1951) 31 for the theory; discretisation own
    derivation, see the module's docstring.

    Examples
    --------
    A shelf 900 x 300 mm housed at both ends and fixed with nails to a back, load at the front:

    >>> plate = stiffness_of(3000.0, 2000.0, 0.25, 1000.0, 100.0, 100.0, 18.0)
    >>> nailed = Edge("elastic", k_w=2.0)
    >>> edges = Edges(left=Edge("hard"), right=Edge("hard"), far=nailed)
    >>> result = solve_plate(rectangle(900.0, 300.0), plate, edges,
    ...                      [AreaLoad(value=0.001), LineLoad(value=0.1, across=0.0)])
    >>> result.settled
    True
    >>> round(float(result.reaction("left")[0] / result.loads[0]), 2)
    0.19
    """
    cases = _separated(loads)
    held = held_lines(geometry, edges, lines)
    marks = kinks(geometry, held, points, chain.from_iterable(cases))
    add_layers(geometry, stiffness, held, marks)
    add_corners(geometry, stiffness, held, marks)
    clear_footprints(geometry, held, points, marks)

    def at(p: int) -> PlateResult:
        return _solve_at(geometry, stiffness, held, cases, points, marks, p)

    if order is not None:
        coarse, fine = at(max(order - 2, 3)), at(order)
        changes = change_between(coarse, fine)
        return replace(fine, deflection_error=changes[0], moment_error=changes[1])
    coarse, changes = at(ORDERS[0]), (np.inf, np.inf)
    for p in ORDERS[1:]:
        fine, before = at(p), changes[1]
        changes = change_between(coarse, fine)
        coarse = fine
        # moments that hardly move from order to order are singular somewhere
        if changes[0] < DEFLECTION_CHANGE and (
            settle == "deflection"
            or changes[1] < MOMENT_CHANGE
            or (p >= 10 and changes[1] > STALLED * before)
        ):
            break
    return replace(coarse, deflection_error=changes[0], moment_error=changes[1])


def _separated(loads: Sequence[Load] | Sequence[Case]) -> list[list[Load]]:
    """Load cases as lists; a flat sequence of loads is one case."""
    cases: list[list[Load]] = []
    flat: list[Load] = []
    for item in loads:
        if isinstance(item, AreaLoad | LineLoad | PointLoad):
            flat.append(item)
        else:
            cases.append(list(item))
    if flat and cases:
        raise ValueError("give either loads of one case or a sequence of cases, not both mixed")
    if not flat and not cases:
        raise ValueError("no load case")
    return cases or [flat]


def _solve_at(
    geometry: PlateGeometry,
    stiffness: Stiffness,
    held: Sequence[HeldLine],
    cases: Sequence[Case],
    points: Sequence[PointSupport],
    marks: tuple[list[float], list[float]],
    order: int,
) -> PlateResult:
    """One solution at a given order."""
    length, depth = geometry.size
    # the plate stretched to equal stiffness both ways: the longer way needs the higher order
    slender = length / depth * (stiffness.D22 / stiffness.D11) ** 0.25
    along = axis_of(
        geometry.along,
        marks[0],
        order + int(np.clip(round(slender - 1.0), 0, 6)),
        # a polynomial follows sine and cosine well over about 60 degrees
        min(1.0, 1.05 / (geometry.along[1] - geometry.along[0])) if geometry.curved else 1.0,
    )
    across = axis_of(
        geometry.across, marks[1], order + int(np.clip(round(1.0 / slender - 1.0), 0, 6)), 1.0
    )
    plate = Discretisation(geometry, stiffness, along, across)
    fixed, holders = fixed_unknowns(plate, held)
    holds = [_point_hold(plate, point) for point in points]
    require_held(plate, fixed, held, holds)
    strips = [plate.strip(e) for e in range(len(along.orders))]
    add_springs(plate, held, strips)
    forces = nodal_loads(plate, cases)
    try:
        unknowns, reactions, nodal = eliminate(plate, strips, fixed, holds, forces)
    except np.linalg.LinAlgError as error:
        raise Mechanism((), "the plate is held too loosely to be solved") from error
    return PlateResult(
        plate=plate,
        unknowns=unknowns,
        nodal=nodal,
        lines=held,
        holders=holders,
        point_reactions=reactions,
        loads=forces.sum(axis=(0, 1)),
        order=order,
        deflection_error=float("nan"),
        moment_error=float("nan"),
    )


def _point_hold(plate: Discretisation, point: PointSupport) -> PointHold:
    """A point support on the mesh."""
    axis: Axis = plate.along
    middle = sum(footprint_box(plate.geometry, point)[0]) / 2.0
    strip = int(np.clip(np.searchsorted(axis.breaks, middle) - 1, 0, len(axis.orders) - 1))
    return PointHold(footprint_mean(plate, point), point.k_w, strip)
