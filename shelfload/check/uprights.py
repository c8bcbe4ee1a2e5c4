"""Do sides and dividers carry what stands on them? Buckling, bending from one side, bearing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from shelfload.check.criteria import EC5, GAMMA_G, GAMMA_Q, design
from shelfload.check.pressing import pressing
from shelfload.check.result import Answer, Check, worst_of_each_question
from shelfload.describe.model import Unit
from shelfload.describe.parts import Upright
from shelfload.idealise.arrangement import Placed
from shelfload.idealise.feet import UprightForce
from shelfload.idealise.place import Place
from shelfload.idealise.properties import GRADE_REDUCTION, NORMAL_QUANTILE_05, strength
from shelfload.idealise.shelf_beam import ASSUMED_BEARING
from shelfload.idealise.weights import horizontal
from shelfload.idealise.whole import Whole
from shelfload.solve.column import (
    BETA_C_SOLID,
    compression_bending_ratios,
    couple_moment,
    relative_slenderness,
    slenderness,
    unbalanced_moment,
)
from shelfload.tables import Material
from shelfload.wording import figure, size

ASSUMED_COV_E = 0.2
"""Scatter of E where the table has none: above every board of the table (0.1 to 0.16)."""
BORROWED_COMPRESSION = 0.5
"""Compression over bending strength where no compression strength is published.

Every board of the tables with both figures has 0.7 or more of its lower bending strength; one
half is kept as a margin.
"""


def uprights_carrying(whole: Whole) -> Iterable[Answer]:
    """Does any side or divider buckle, or cut into what is below?"""
    for placed, stack in zip(whole.placed.values(), whole.stacks, strict=True):
        checks, said = _of_unit(whole, placed, whole.upright_forces(placed.unit.name))
        if stack.unknown:
            checks.append(_not_known(placed, stack.unknown))
        yield Answer(checks=tuple(checks), assumptions=tuple(said))


def _not_known(placed: Placed, missing: str) -> Check:
    return Check(
        place=Place(unit=placed.unit.name),
        question="uprights buckle",
        method="none",
        source="not known",
        measure="ratio",
        reason=f"what they carry is not known ({missing})",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """An upright's panel: material, thickness of one layer, layers, whether they act as one."""

    material: Material
    thickness: float
    layers: int
    glued: bool

    @property
    def total(self) -> float:
        """Thickness of all layers [mm]."""
        return self.thickness * self.layers


def board_of(whole: Whole, unit: Unit, name: str) -> Board:
    """Return what a side or divider is made of."""
    described: Upright = unit.sides if name.endswith("side") else unit.dividers
    resolved = whole.catalogue.material(
        described.material or unit.panel.material, described.thickness or unit.panel.thickness
    )
    return Board(
        material=resolved.material,
        thickness=resolved.thickness,
        layers=described.panels,
        glued=described.joined == "glued",
    )


def _of_unit(
    whole: Whole, placed: Placed, forces: Sequence[UprightForce]
) -> tuple[list[Check], list[str]]:
    checks: list[Check] = []
    said: list[str] = []
    for force in forces:
        checks += _buckling(whole, placed, forces, force)
        checks += _foot(whole, placed, force)
    checks = worst_of_each_question(checks)
    boards = [board_of(whole, placed.unit, force.upright.name) for force in forces]
    if any(board.layers > 1 and not board.glued for board in boards):
        said.append("doubled uprights that are not glued buckle each for itself")
    if any(board.material.f_c_0 is None for board in boards):
        said.append(
            f"uprights without a published compression strength: {BORROWED_COMPRESSION:g} of "
            "their bending strength"
        )
    if boards:
        said.append(
            "uprights: ends held in place and free to turn, the hold of the back not counted"
        )
    return checks, said


def factored(force: UprightForce) -> float:
    """Return the factored load on an upright, as if all of it were as hard pressed as its corner.

    A shelf cut on a curve hands its load to an upright unevenly over its depth [N].
    """
    return (GAMMA_G * force.dead + GAMMA_Q * force.imposed) * force.skew


def _uneven(force: UprightForce) -> str:
    if force.skew <= 1.0:
        return ""
    return f"; {figure(force.skew, 'ratio')} times its load, as at its hardest pressed quarter"


def stiffness_05(material: Material) -> float:
    """Return the 5th percentile of E, along or across, whichever is less [MPa]."""
    mean = (
        min(material.E_0, material.E_90 or material.E_0)
        if material.kind != "solid"
        else (material.E_0)
    )
    if material.E_005 is not None:
        return material.E_005 * mean / material.E_0
    if material.E_basis == "product minimum":
        return mean
    return mean * (1.0 - NORMAL_QUANTILE_05 * (material.cov_E or ASSUMED_COV_E))


def compression_strength(material: Material) -> float | None:
    """Return the characteristic compression strength along an upright [MPa]."""
    if material.f_c_0 is not None:
        if material.strength_basis == "clear-wood mean":
            cov = material.cov_f or 0.16
            return material.f_c_0 * (1.0 - NORMAL_QUANTILE_05 * cov) * GRADE_REDUCTION
        return material.f_c_0
    bending = weak_bending(material)
    return None if bending is None else BORROWED_COMPRESSION * bending


def weak_bending(material: Material) -> float | None:
    """Return the lower bending strength of a panel whose grain is not known to stand [MPa]."""
    along = strength(material, "along").f_m
    across = strength(material, "across").f_m if material.kind != "solid" else None
    known = [value for value in (along, across) if value is not None]
    return min(known, default=None)


def _buckling(
    whole: Whole, placed: Placed, forces: Sequence[UprightForce], force: UprightForce
) -> Iterator[Check]:
    board = board_of(whole, placed.unit, force.upright.name)
    place = Place(unit=placed.unit.name, part=f"level {force.level + 1}")
    question, source = "uprights buckle", f"{EC5}, 6.3.2"
    service = whole.project.site.service_class
    f_c_k = compression_strength(board.material)
    f_c = design(f_c_k, board.material, service, "long-term")
    f_m = design(weak_bending(board.material), board.material, service, "long-term")
    for known in (f_c, f_m):
        if isinstance(known, str):
            yield Check(
                place=place, question=question, method="column", source=source, measure="ratio",
                reason=f"{board.material.called}: {known}",
            )  # fmt: skip
            return
    depth, length = placed.unit.depth, unheld_height(placed.unit, force.level)
    N = factored(force)
    # panels that only touch each other share the load and buckle singly
    t = board.total if board.glued else board.thickness
    each = N / (1 if board.glued else board.layers)
    added = _shelf_above(forces, force)
    arm = max(board.total / 2 - ASSUMED_BEARING / 2, 0.0)
    M = float(couple_moment(unbalanced_moment(0.0, added, 0.0, arm), 0.0, length))
    A, W = t * depth, depth * t**2 / 6
    rel = relative_slenderness(
        slenderness(length, depth * t**3 / 12, A), f_c_k or 1.0, stiffness_05(board.material)
    )
    ratios = compression_bending_ratios(
        each / A,
        M / (W if board.glued or board.layers == 1 else W * board.layers),
        0.0,
        f_c_0_d=float(f_c),
        f_m_y_d=float(f_m),
        f_m_z_d=float(f_m),
        lambda_rel_y=rel,
        lambda_rel_z=0.0,
        beta_c=BETA_C_SOLID,
        k_m=1.0,
    )
    yield Check(
        place=place,
        question=question,
        method="column on hinges with the shelf above resting on one side of it, factored "
        "long-term load",
        source=f"{source}; loads EN 1990 eq. (6.10)",
        measure="ratio",
        value=float(ratios.max()),
        limit=1.0,
        governs=f"{force.upright.name}, {figure(N, 'force', as_mass=True)} on "
        f"{size(t)} x {size(depth)}, relative slenderness "
        f"{float(rel):.2f}{_uneven(force)}",
        remedy="Use a thicker or doubled upright, or a lower level.",
    )


def unheld_height(unit: Unit, number: int) -> float:
    """Return the clear height of an upright between shelves that hold it [mm].

    A loose shelf on pins keeps no upright from bending aside.
    """
    first = last = number
    while first > 0 and horizontal(unit, first).loose:
        first -= 1
    while last < len(unit.level) - 1 and horizontal(unit, last + 1).loose:
        last += 1
    return sum(level.height for level in unit.level[first : last + 1])


def _shelf_above(forces: Sequence[UprightForce], force: UprightForce) -> float:
    """Factored load that the shelf on top of an upright hands to it [N]."""
    over = next(
        (
            one
            for one in forces
            if one.level == force.level + 1 and abs(one.upright.centre - force.upright.centre) < 1.0
        ),
        None,
    )
    dead = force.dead - (over.dead if over else 0.0)
    imposed = force.imposed - (over.imposed if over else 0.0)
    return (GAMMA_G * max(dead, 0.0) + GAMMA_Q * max(imposed, 0.0)) * force.skew


def _foot(whole: Whole, placed: Placed, force: UprightForce) -> Iterator[Check]:
    """The edge of an upright on the panel below it."""
    unit = placed.unit
    if force.upright.name.endswith("side") and force.level == 0:
        return  # sides run to the floor; what they press there is asked of the floor
    yield pressing(
        whole,
        unit,
        horizontal(unit, force.level),
        place=Place(unit=unit.name, part=f"level {force.level + 1}"),
        question="uprights press into the panel below",
        method="factored long-term load over the edge",
        force=factored(force),
        depth=unit.depth,
        width=board_of(whole, unit, force.upright.name).total,
        words=f"{force.upright.name}{_uneven(force)}",
        remedy="Use a thicker upright or a harder panel.",
    )
