"""The user's own materials and contents as rows of the tables."""

from __future__ import annotations

from shelfload.describe.model import OwnContents, OwnMaterial
from shelfload.tables import Contents, Material
from shelfload.tables.stock import own_material


def contents_row(name: str, own: OwnContents) -> Contents:
    """Return a row of the contents table for the user's own contents."""
    kind = "each" if own.load.kind == "total" else own.load.kind
    return Contents(
        name=name,
        title=own.title or name,
        kind=kind,
        typical=own.load.value,
        category="own",
        basis="as given",
        status="own",
        source=own.source,
    )


def material_row(name: str, own: OwnMaterial) -> Material:
    """Return a row of the materials table for the user's own material.

    A sheet described by its plies stands here with the stiffness of its veneer across the
    grain, the least it can have, until it is laid up (:mod:`shelfload.idealise.layup`).
    """
    least = own.E_across if own.plies and own.E_across is not None else own.E
    return own_material(
        name=name,
        title=own.title or name,
        kind=own.kind,
        density=own.density,
        E_0=least,
        E_90=own.E_across,
        G_0=own.G,
        G_90=own.G,
        f_m_0=own.bending_strength,
        f_r_0=own.shear_strength,
        strength_basis="characteristic",
        thickness_actual=own.thickness,
        status="own",
        source=own.source,
    )
