"""Rows of fasteners in a join: least distances, how many fit, how many count."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shelfload.check.screw_table import Columns
from shelfload.idealise.joint import Joint, Member
from shelfload.solve import connection_rows, spacing
from shelfload.solve.fastener import acts_as_bolt

Array = NDArray[np.float64]

PANEL_EDGE_RIM = 2.0
"""Of a screw in the edge of a panel from either face, in diameters (common practice, no source)."""
_ALONG, _ACROSS = 0.0, np.pi / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """Least distances and what fits, arrays of joints x fasteners.

    Attributes
    ----------
    spacing, end, rim : ndarray
        Between fasteners, from the end of the join, from the edge beside the row [mm].
    fits : ndarray
        Most fasteners of a row on the marks of the joint's step.
    too_thin : ndarray of bool
        The edge or end that the fastener goes into is too narrow for its rim.
    length, step, widest : ndarray, shape (joints,)
        Of each join, of its marks, and the widest spacing wanted [mm].
    timber, end_grain : ndarray of bool, shape (joints,)
        Whether rows along the grain count for less, and whether the point is in end grain.
    """

    spacing: Array
    end: Array
    rim: Array
    fits: NDArray[np.int_]
    too_thin: NDArray[np.bool_]
    length: Array
    step: Array
    widest: Array
    timber: NDArray[np.bool_]
    end_grain: NDArray[np.bool_]


def room(joints: Sequence[Joint], screws: Columns, d_ef: Array) -> Room:
    """Return the least distances of every fastener in every joint and how many fit.

    The direction of the force in the grain is not asked for: each distance is the largest
    that any direction asks. Distances of fasteners that are pulled count where a pull acts.
    """
    bolts = screws.is_bolt | acts_as_bolt(d_ef)
    a_1, end, rim = (np.zeros_like(d_ef) for _ in range(3))
    for which in ("first", "second"):
        members: list[Member] = [getattr(joint, which) for joint in joints]
        others = [joint.second if which == "first" else joint.first for joint in joints]
        for value, of_member in zip(
            (a_1, end, rim), _least(members, others, screws, bolts), strict=True
        ):
            np.maximum(value, of_member, out=value)
    pulled = np.array([[joint.pull.acts] for joint in joints]) & screws.is_screw
    axial = spacing.axial_distances(screws.d)
    a_1 = np.where(pulled, np.maximum(a_1, axial.a_1), a_1)
    rim = np.where(pulled, np.maximum(rim, axial.a_4c), rim)
    length = np.array([[joint.length] for joint in joints])
    step = np.array([[joint.round_to] for joint in joints])
    # on the marks of a rule, so that what fits here can be marked out
    first = np.ceil(end / step - 1e-9) * step
    pitch = np.maximum(np.ceil(a_1 / step - 1e-9), 1.0) * step
    fits = np.floor((length - 2.0 * first) / pitch + 1e-9).astype(np.int_) + 1
    return Room(
        spacing=a_1,
        end=end,
        rim=rim,
        fits=np.where(length >= 2.0 * first, fits, 0),
        too_thin=_too_thin(joints, screws),
        length=length[:, 0],
        step=step[:, 0],
        widest=np.array([joint.widest for joint in joints]),
        timber=np.array([joint.first.is_timber or joint.second.is_timber for joint in joints]),
        end_grain=np.array([joint.second.entered == "end grain" for joint in joints]),
    )


def _least(
    members: Sequence[Member], others: Sequence[Member], screws: Columns, bolts: NDArray[np.bool_]
) -> tuple[Array, Array, Array]:
    """Spacing, end and rim that one member asks; steel asks none."""
    rho = np.array([[member.rho_k] for member in members])
    d = screws.d
    along = spacing.nail_distances(d, rho, _ALONG, predrilled=True)
    across = spacing.nail_distances(d, rho, _ACROSS, predrilled=True)
    thick_along, thick_across = (spacing.bolt_distances(d, a) for a in (_ALONG, _ACROSS))
    panel_to_timber = np.array(
        [[one.is_timber != two.is_timber] for one, two in zip(members, others, strict=True)]
    )
    closer = np.where(panel_to_timber & ~bolts, spacing.PANEL_FACTOR, 1.0)
    # particleboard and OSB have no distances of their own: those of timber stand in
    a_1 = np.where(bolts, thick_along.a_1, along.a_1 * closer)
    end = np.where(bolts, np.maximum(thick_along.a_3t, thick_across.a_3c), along.a_3t)
    rim = np.where(bolts, thick_across.a_4t, across.a_4t)
    plywood = np.array([[member.material.kind == "plywood"] for member in members])
    loaded, _ = spacing.plywood_rim_distances(d, _ACROSS)
    # 80 mm to the end of a grain that splits: plywood does not, and 7 d are left
    end, rim = np.where(plywood, loaded, end), np.where(plywood, loaded, rim)
    steel = np.array([[member.material.kind == "steel"] for member in members])
    return tuple(np.where(steel, 0.0, value) for value in (a_1, end, rim))  # type: ignore[return-value]


def _too_thin(joints: Sequence[Joint], screws: Columns) -> NDArray[np.bool_]:
    half = np.array([[joint.second.thickness / 2.0] for joint in joints])
    edge = np.array([[joint.second.entered != "face"] for joint in joints])
    timber = np.array([[joint.second.is_timber] for joint in joints])
    across = spacing.nail_distances(
        screws.d, np.array([[joint.second.rho_k] for joint in joints]), _ACROSS, predrilled=True
    )
    needed = np.where(timber, across.a_4t, PANEL_EDGE_RIM * screws.d)
    return edge & (needed > half)


def counted(
    n: Array, gap: Array, d: Array, thick: NDArray[np.bool_], timber: NDArray[np.bool_]
) -> Array:
    """Return how many fasteners of a row count sideways along the grain.

    ``n`` stands on the last axis, rising, and ``gap`` [mm] for each; the others broadcast.
    Closer rows count for less each; as fewer of them may be counted on instead, more never
    count for less. Panels have no such reduction.
    """
    exponent = connection_rows.k_ef(np.maximum(gap, 4.0 * d), d, predrilled=True)
    thin = connection_rows.effective_number_nails(n, exponent)
    bolts = connection_rows.effective_number_bolts(n, np.maximum(gap, 4.0 * d), d)
    effective = np.where(timber, np.where(thick, bolts, thin), n)
    # a single one counts for one whatever its neighbours
    effective = np.where(n == 1.0, 1.0, effective)
    return np.maximum.accumulate(effective, axis=-1)
