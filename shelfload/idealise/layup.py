"""The user's own plywood, its stiffness from its plies."""

from __future__ import annotations

from dataclasses import replace

from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import Project
from shelfload.solve.modulus import plywood_layup


def laid_up(project: Project, catalogue: Catalogue) -> Catalogue:
    """Return the catalogue with E along and across of every sheet described by its plies."""
    found = dict(catalogue.own_materials)
    for name, own in project.materials.items():
        row = found.get(name)
        if not own.plies or own.E_across is None or row is None:
            continue
        along, across = plywood_layup(own.E, own.E_across, own.plies)
        found[name] = replace(row, E_0=float(along), E_90=float(across))
    return replace(catalogue, own_materials=found)
