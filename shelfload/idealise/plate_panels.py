"""The panels of a shelf as a plate: stiffness both ways, twist, and what lippings add."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from shelfload.idealise.properties import in_plane_shear, stiffness_or_guess
from shelfload.idealise.shelf_beam import ShelfBeam
from shelfload.solve import plate, section

Array = NDArray[np.float64]

EDGE_NAMES = ("front ", "rear ")
"""How the names of pieces begin that stand before or behind the panels."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Panels:
    """Panels of a shelf per length: stiffness, and stress in each per moment [1/mm2]."""

    stiffness: plate.Stiffness
    across_stress: Array
    twist_stress: Array
    said: tuple[str, ...]


def panels_of(beam: ShelfBeam) -> Panels:
    """Return the panels of a shelf as a plate, x along the shelf.

    Lippings are left out: they stiffen an edge. Poisson's ratio is taken as nought, which
    sags a little more. Panels that slide on screws act together along the span only.
    """
    panels = [piece for piece in beam.shape.pieces if piece.name.endswith("panel")]
    said: list[str] = []
    moduli = []
    for direction in ("along", "across"):
        rows = []
        for piece in panels:
            turned = piece.direction if direction == "along" else _other(piece.direction)
            stiff = stiffness_or_guess(piece.material, turned)
            said += [stiff.said] if stiff.said else []
            rows.append((stiff.E, stiff.G))
        moduli.append(np.array(rows).T)
    h = np.array([piece.height for piece in panels])
    z = np.array([piece.z for piece in panels])
    (E_x, G_x), (E_y, G_y) = moduli
    G_xy = []
    for piece in panels:
        G, guessed = in_plane_shear(piece.material)
        said += [guessed] if guessed else []
        G_xy.append(G)
    hollow = beam.shelf.hollow is not None
    glued = len(panels) == 1 or (beam.shelf.joined == "glued" and not hollow)

    def strip(E: Array, G: Array) -> section.Section:
        one = np.ones_like(h)
        if glued:
            return section.bonded(E=E, G=G, b=one, h=h, y=0.0 * one, z=z)
        return section.lying(E=E, G=G, b=one, h=h)

    lengthwise, crosswise = strip(E_x, G_x), strip(E_y, G_y)
    twist = strip(np.array(G_xy), G_x)
    D11, S1 = float(lengthwise.EI), float(lengthwise.GA)
    if beam.shape.panels_EI is not None:
        # ribs, webs and inlays are spread over the depth; across, the panels work alone
        edges = sum(piece.width for piece in beam.shape.pieces if piece.name.startswith(EDGE_NAMES))
        D11 = beam.shape.panels_EI / (beam.shape.depth - edges)
    if hollow:
        S1 = float(beam.shape.section.GA) / beam.shape.depth
    thinned = min(
        (p.height for p in beam.shape.pieces if p.name == "panel over a groove"), default=h[-1]
    )
    return Panels(
        stiffness=plate.Stiffness(
            D11=D11,
            D22=float(crosswise.EI),
            D12=0.0,
            D66=float(twist.EI),
            S1=S1,
            S2=float(crosswise.GA),
        ),
        across_stress=np.asarray(crosswise.stress_free) * float(h[-1] / thinned) ** 2,
        twist_stress=np.asarray(twist.stress_free),
        said=tuple(dict.fromkeys(said)),
    )


def _other(direction: Literal["along", "across"]) -> Literal["along", "across"]:
    return "across" if direction == "along" else "along"


def aged(stiff: plate.Stiffness, creep: float) -> plate.Stiffness:
    """Return a plate that has crept."""
    grown = 1.0 + creep
    return plate.Stiffness(
        D11=stiff.D11 / grown,
        D22=stiff.D22 / grown,
        D12=stiff.D12 / grown,
        D66=stiff.D66 / grown,
        S1=stiff.S1 / grown,
        S2=stiff.S2 / grown,
    )


def edge_beams(
    beam: ShelfBeam, stiff: plate.Stiffness
) -> tuple[tuple[float, float], tuple[float, float]]:
    """Bending and shear stiffness that lippings add to the front and the rear edge.

    What the whole section has beyond its panels goes to the lippings by their own stiffness.
    """
    strips = {
        name: next((p for p in beam.shape.pieces if p.name.startswith(name)), None)
        for name in EDGE_NAMES
    }
    own = {
        name: piece.stiffness.E * piece.width * piece.height**3 if piece else 0.0
        for name, piece in strips.items()
    }
    total = sum(own.values())
    gain = max(beam.shape.EI_used - stiff.D11 * beam.shape.depth, 0.0)
    found = []
    for name, piece in strips.items():
        if piece is None:
            found.append((0.0, 0.0))
            continue
        GA = 5.0 / 6.0 * piece.stiffness.G * piece.width * piece.height
        found.append((gain * own[name] / total, GA))
    return found[0], found[1]
