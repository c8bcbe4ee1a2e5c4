"""What years do to a shelf: creep of the whole section."""

from __future__ import annotations

from shelfload import tables
from shelfload.idealise.sections import ShelfSection, aged_stiffness


def section_creep(shape: ShelfSection, service_class: int) -> float | None:
    """Return kdef of a whole section [-]: the stiffness lost over years; None if not allowed.

    One material gives its own kdef; pieces of different materials share the load anew as
    they creep, which the aged section gives.
    """
    factors = [tables.kdef(piece.material.duration_class, service_class) for piece in shape.pieces]
    kdefs = [factor.value for factor in factors if factor is not None]
    if len(kdefs) < len(factors):
        return None
    return shape.EI_used / aged_stiffness(shape, kdefs) - 1.0
