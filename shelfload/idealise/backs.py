"""How a back holds the rear edge of a shelf: hinged, sprung or held, computed from what it is.

The back is fixed to the shelf and to the uprights on both sides. Under the shelf's load it
is a deep beam on edge (see :mod:`shelfload.solve.edge_hold`). When every shelf of a unit is
loaded each has its share of the sheet, half the height to the next shelf above and below;
that share is taken, also where the others stand empty.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

from shelfload import tables
from shelfload.describe.catalogue import Catalogue
from shelfload.describe.parts import Back
from shelfload.solve import edge_hold, fastener, slip
from shelfload.tables import Material
from shelfload.wording import figure, size

EDGE_SHARE = 0.5
"""Share of the code's slip modulus kept for a fastener in the edge of a panel.

The code gives none for edges; the layers there split apart more easily than they crush
(own caution, no source).
"""
NAIL_DIAMETER, SCREW_DIAMETER = 1.4, 3.0
"""Thin pins and screws that backs are fixed with, where none are described [mm]."""
BUCKLING_SHARE = 0.5  # of the buckling stress that a back may be used to; own caution
POISSON = 0.0  # lowest buckling stress
TURNS_LITTLE = 3.0
"""Turning spring over the shelf's own depthwise stiffness from which an edge counts as held.

An edge spring k against a strip of stiffness D / depth turns k depth / D times less; this
only chooses the word, the figure is used as it is (own choice).
"""

YIELDS_LITTLE = 20.0
"""Line spring over the shelf's own from which an edge is called hinged and not sprung: it then
sags less than a twentieth of what the shelf would (own choice, a word only)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spring:
    """What the rear edge of a shelf stands on: per movement [N/mm2] and per turn [N]."""

    k_w: float
    k_turn: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class BackHold:
    """How a back holds one shelf.

    Attributes
    ----------
    first_day, after_years : Spring
        Slip in series with the sheet's own flexibility; after years both have crept.
    spacing : float or None
        Of the fasteners along the shelf [mm]; None for glue.
    shear_allowed : float
        Largest line load the sheet carries without buckling [N/mm].
    fixing : str
        Glued, or with what and how far apart.
    words : str
        The back and its fixing.
    said : tuple of str
        What was assumed.
    """

    first_day: Spring
    after_years: Spring
    spacing: float | None
    shear_allowed: float
    fixing: str
    words: str
    said: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """The part of a back that one shelf leans on.

    Attributes
    ----------
    height : float
        Its share of the sheet [mm].
    span : float
        Largest distance between uprights [mm].
    clear : tuple of float
        Smallest width and height between the lines that hold it [mm].
    """

    height: float
    span: float
    clear: tuple[float, float]


def sheet_of(heights: Sequence[float], spans: Sequence[float]) -> Sheet:
    """Return the share of a back, from the clear heights it closes beside the shelf [mm]."""
    return Sheet(height=sum(heights) / 2.0, span=max(spans), clear=(max(spans), max(heights)))


def back_hold(
    back: Back, sheet: Sheet, shelf: Material, service_class: int, catalogue: Catalogue
) -> BackHold | str:
    """Return how a back holds a shelf, or why it can't be counted on.

    Parameters
    ----------
    back : Back
        As described.
    sheet : Sheet
        The part of it that this shelf leans on.
    shelf : Material
        What the fasteners go into.
    service_class : int
        For creep.
    catalogue : Catalogue
        Resolves names.
    """
    if back.holds == "edges":
        return "the back is fixed round its edge only"
    resolved = catalogue.material(back.material, back.thickness)
    row, t = resolved.material, resolved.thickness
    if row.G_panel is None:
        return f"{row.called} has no known shear stiffness in its plane"
    joint = back_joint(back, row, shelf)
    if joint is None:
        return f"no slip modulus is published for fasteners in {shelf.called}"
    kdefs = [
        factor.value if (factor := tables.kdef(one.duration_class, service_class)) else None
        for one in (row, shelf)
    ]
    if kdefs[0] is None or kdefs[1] is None:
        return f"no creep figure for the back or the shelf in service class {service_class}"
    E = min(row.E_0, row.E_90 if row.E_90 is not None else row.E_0 / CROSS_GRAIN)
    flexible = float(edge_hold.deep_sheet_compliance(E, row.G_panel, t, sheet.height, sheet.span))
    turning = 0.0
    if back.fixed == "glued":
        turning = float(edge_hold.upright_strip_turning(E, t, max(sheet.clear[1], t)))

    # screws to the wall bear on the thin back alone
    K_wall = EDGE_SHARE * float(slip.slip_modulus(row.density, SCREW_DIAMETER))

    def spring(sheet_creep: float, slip_creep: float) -> Spring:
        aged = 1.0 / (1.0 + slip_creep)
        crept = flexible * (1.0 + sheet_creep)
        return Spring(
            k_w=_line_spring(back, sheet, joint.K * aged, K_wall * aged, crept),
            k_turn=turning / (1.0 + sheet_creep),
        )

    both = float(slip.joint_creep(kdefs[0], kdefs[1]))
    critical = edge_hold.shear_buckling_stress(E / (1.0 + kdefs[0]), POISSON, t, *sheet.clear)
    words = f"{figure(t, 'length')} {row.called} back {joint.words}"
    return BackHold(
        first_day=spring(0.0, 0.0),
        after_years=spring(kdefs[0], both),
        spacing=back.spacing if back.fixed != "glued" else None,
        shear_allowed=float(BUCKLING_SHARE * critical * t * sheet.height * 2.0 / sheet.span),
        fixing=joint.words,
        words=words,
        said=(
            *joint.said,
            "backs are taken as fixed along every shelf and upright they meet, at the spacing "
            'described (holds = "edges" says otherwise)',
        ),
    )


CROSS_GRAIN = 30.0  # E_0 / E_90 of softwood, EN 384


@dataclass(frozen=True, slots=True, kw_only=True)
class BackJoint:
    """Slip modulus of one fastener between back and shelf [N/mm], infinite for glue."""

    K: float
    words: str
    said: tuple[str, ...] = ()


def back_joint(back: Back, row: Material, shelf: Material) -> BackJoint | None:
    """Return what one fastener of a back slips; None where no slip modulus is published."""
    if back.fixed == "glued":
        return BackJoint(K=inf, words="glued on")
    if not {row.kind, shelf.kind} <= KNOWN_SLIP:
        return None
    nailed = back.fixed == "nailed"
    screw = back.screws.screw.row if back.screws is not None and back.screws.screw else None
    said: tuple[str, ...] = ()
    if screw is not None and screw.root_diameter is not None:
        d = float(fastener.effective_diameter(screw.shank_diameter or 0.0, screw.root_diameter, 0))
    elif back.diameter is not None:
        d = back.diameter
    else:
        d = NAIL_DIAMETER if nailed else SCREW_DIAMETER
        name = "nails" if nailed else "screws"
        said = (f"no diameter described for the {name} of a back: {figure(d, 'length')}",)
    rho = slip.mean_density(row.density, shelf.density)
    K = slip.slip_modulus_nail(rho, d) if nailed else slip.slip_modulus(rho, d)
    every = size(back.spacing or 0.0, down=True)
    return BackJoint(
        K=float(EDGE_SHARE * K),
        words=f"{back.fixed} every {every}",
        said=(
            *said,
            f"fasteners of a back sit in edges of panels: {EDGE_SHARE:g} of the code's slip "
            "modulus is counted",
        ),
    )


KNOWN_SLIP = {"solid", "glulam", "plywood", "particleboard", "osb", "hardboard", "blockboard"}
"""Kinds whose fasteners the slip modulus of EN 1995-1-1, Table 7.1 is taken for.

Hardboard and particleboard stand among the panels of 8.3.1.3; blockboard is taken as plywood.
"""


def _line_spring(back: Back, sheet: Sheet, K: float, K_wall: float, flexible: float) -> float:
    spacing = back.spacing or 1.0
    to_shelf = spacing / K
    if back.wall_spacing is not None:
        # held by the wall all along, it no longer spans from upright to upright
        return float(edge_hold.series_spring(to_shelf, back.wall_spacing / K_wall))
    ends = float(edge_hold.end_slip_compliance(K, spacing, sheet.height, sheet.span))
    return float(edge_hold.series_spring(to_shelf, flexible, ends))


def hold_in_words(hold: BackHold, shelf: float, D_across: float, depth: float) -> str:
    """Return held, hinged or sprung: whether the edge can turn, and whether it gives way.

    Parameters
    ----------
    hold : BackHold
        The back.
    shelf : float
        Line load for each mm of sag of the shelf without a back, after years [N/mm2].
    D_across : float
        Its stiffness across, per length [N mm].
    depth : float
        Front to back [mm].
    """
    if hold.first_day.k_turn * depth >= TURNS_LITTLE * D_across:
        return "held"
    return "hinged" if hold.after_years.k_w >= YIELDS_LITTLE * shelf else "sprung"
