"""Will a shelf without a carcass stay on its wall? Brackets, a cleat, concealed rods."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np

from shelfload import tables
from shelfload.check.criteria import design
from shelfload.check.demand import LASTING, Pull, Shared, factors, link_checks
from shelfload.check.fixing import FIND_OUT, layers_of, wall_chain
from shelfload.check.hanging import hand
from shelfload.check.restraint import ASSUMED_SPACING, MOST_PER_STUD, STUD_EDGE
from shelfload.check.result import Answer, Check
from shelfload.check.screw import STEEL, dense
from shelfload.describe.model import LoneShelf
from shelfload.describe.parts import Panel
from shelfload.describe.site import Site
from shelfload.describe.standing import Brackets, Cleat, Rods
from shelfload.idealise.people import BEHIND_EDGE
from shelfload.idealise.place import Place
from shelfload.idealise.shelf_beam import ShelfBeam, Unbent
from shelfload.idealise.whole import Whole
from shelfload.solve.beam import reaction_range
from shelfload.solve.bracket import (
    rod_moment,
    rod_play_sag,
    rod_tip_sag,
    rod_wall_pressure,
    round_bar_stress,
    upper_fixing_pull,
)
from shelfload.solve.embedment import embedment_at_angle, embedment_predrilled, k_90
from shelfload.solve.studs import least_studs_met
from shelfload.wording import figure

UNEVEN = 1.25
"""Share of the most loaded fixing of a strip or rod over an equal share (judgement)."""
BRACKET_FIXINGS = 2
"""Fixings of a bracket where their number is not said: one above, one below."""
ROD_STEEL, ROD_E = 235.0, 210_000.0
"""Yield strength and stiffness of mild steel rods [MPa], EN 1993-1-1, grade S235."""
DROOP = 1.0 / 50.0
"""Droop of the front over the depth that is let pass (common practice, no source)."""


def staying_on_supports(whole: Whole) -> Iterable[Answer]:
    """Do brackets, cleats and rods hold each shelf that is described with them?"""
    for lone, beam in zip(whole.project.shelf, whole.lone, strict=True):
        if lone.supports is None:
            said = f"{lone.name}: what carries its supports is not described and not looked at"
            yield Answer(assumptions=(said,))
            continue
        if not isinstance(beam, ShelfBeam):
            yield Answer(checks=(_unasked(lone, beam),))
            continue
        P = hand(whole.project.site)
        pulled = [f"{lone.name}: a pull of {figure(P, 'force', as_mass=True)} on its front edge"]
        supports = lone.supports
        place = Place(unit=lone.name, part="wall")
        studs = list(_studs_behind(beam, supports, whole.project.site, place))
        if isinstance(supports, Brackets):
            checks, more = _brackets(whole, lone, beam, supports, P)
        elif isinstance(supports, Cleat):
            checks, more = _cleat(whole, lone, beam, supports, P)
        else:
            checks, more = _rods(whole, lone, beam, supports, P)
        if studs:
            pulled.append(f"{lone.name}: each of its fixings goes into the middle of a stud")
        yield Answer(checks=(*checks, *studs), assumptions=(*pulled, *more))


def _unasked(lone: LoneShelf, beam: Unbent) -> Check:
    return Check(
        place=Place(unit=lone.name, part="wall"),
        question="supports hold it",
        method="none",
        source="",
        measure="force",
        reason=beam.reason or "the shelf could not be worked out, so nor could what it rests on",
    )


def weights_of(beam: ShelfBeam) -> tuple[float, float]:
    """Return own weight and contents of a shelf [N]."""
    always = beam.weights({"self": 1.0})
    sometimes = beam.weights({"contents": 1.0, "spot": 1.0})
    return tuple(  # type: ignore[return-value]
        float((weights @ beam.result.reactions).sum()) for weights in (always, sometimes)
    )


def _studs_met(beam: ShelfBeam, site: Site) -> int:
    spacing = site.stud_spacing or ASSUMED_SPACING
    return int(least_studs_met(beam.result.beam.length, spacing, STUD_EDGE))


def _studs_behind(
    beam: ShelfBeam, supports: Brackets | Cleat | Rods, site: Site, place: Place
) -> Iterator[Check]:
    """Whether there is a stud for each bracket or rod, and two for a cleat."""
    if site.wall != "timber stud" or (isinstance(supports, Cleat) and supports.ends):
        return
    wanted = 2
    if isinstance(supports, Brackets):
        wanted = len(beam.supports)
    elif isinstance(supports, Rods):
        wanted = supports.number
    met = _studs_met(beam, site)
    doubtful = met < wanted <= met + 1
    yield Check(
        place=place,
        question="studs behind it",
        method=f"studs at {figure(site.stud_spacing or ASSUMED_SPACING, 'length')} behind "
        f"{figure(beam.result.beam.length, 'length')}",
        source="own count",
        measure="count",
        value=None if doubtful else float(met),
        limit=float(wanted) - 0.5,
        at_least=True,
        reason=f"it meets {met} or {met + 1} studs and needs {wanted}, which depends on where "
        "they are: find them"
        if doubtful
        else "",
        remedy="Move the supports to the studs, or fix a batten over the studs and the shelf to "
        "that.",
    )


def goods_out(lone: LoneShelf, beam: ShelfBeam) -> float:
    """Return how far from the wall the load stands that reaches furthest out [mm].

    Goods stand at mid-depth unless said to stand further out; people are near the front edge.
    """
    depth = lone.depth
    out = [depth / 2]
    for bay in beam.bays:
        if bay.load.line == "front":
            out.append(depth)
        out += [depth - y for y in bay.load.from_front if y is not None]
    out += [depth - BEHIND_EDGE[fill.people] for fill in lone.fills if fill and fill.people]
    return max(out)


def _brackets(
    whole: Whole, lone: LoneShelf, beam: ShelfBeam, supports: Brackets, P: float
) -> tuple[list[Check], list[str]]:
    """The most loaded bracket: its upper fixing pulled, all of them sheared."""
    site = whole.project.site
    count = supports.count or BRACKET_FIXINGS
    wall, itself = {}, {}
    for lasting in LASTING:
        for values in ("design", "recommended"):
            f_G, f_Q, f_P = factors(lasting, values)
            always = beam.weights({"self": f_G})
            sometimes = beam.weights({"contents": f_Q, "spot": f_Q})
            F = float(reaction_range(beam.result, always, sometimes)[0].max())
            T = upper_fixing_pull(F, goods_out(lone, beam), supports.height)
            T = T + upper_fixing_pull(f_P * P, lone.depth, supports.height)
            V = F + f_P * P
            wall[lasting, values] = Pull(tension=float(T), shear=V / count)
            itself[lasting, values] = Pull(tension=0.0, shear=V)
    place = Place(unit=lone.name, part="wall")
    chains = {
        lasting: wall_chain(supports, STEEL, site, whole.catalogue, lasting, of_bracket=True)
        for lasting in LASTING
    }
    lever = "moments about the foot of the bracket"
    checks = link_checks(
        place,
        chains,
        Shared(demand=wall, count=count, method=lever),  # type: ignore[arg-type]
        Shared(demand=itself, count=len(beam.supports), method="most loaded bracket"),  # type: ignore[arg-type]
    )
    said = list(chains["long-term"].said)
    if supports.count is None:
        said.append(f"{lone.name}: each bracket has one fixing above and one below")
    if lone.length is not None and not lone.spans:
        over = beam.supports[0].at
        said.append(
            f"{lone.name}: brackets {figure(over, 'length')} from each end, where the sag is least"
        )
    return checks, said


def _cleat(
    whole: Whole, lone: LoneShelf, beam: ShelfBeam, supports: Cleat, P: float
) -> tuple[list[Check], list[str]]:
    """A strip along the back: it prises about its lower edge unless the ends are held too."""
    site = whole.project.site
    length = beam.result.beam.length
    count = supports.count
    said: list[str] = []
    if count is None and site.wall in ("timber stud", "metal stud"):
        count = int(least_studs_met(length, site.stud_spacing or ASSUMED_SPACING, STUD_EDGE))
    if site.wall == "timber stud":
        count = min(count or 1, MOST_PER_STUD * max(_studs_met(beam, site), 1))
    count = max(count or 2, 1)
    own, goods = weights_of(beam)
    lever = supports.height / 2
    demand = {}
    for lasting in LASTING:
        for values in ("design", "recommended"):
            f_G, f_Q, f_P = factors(lasting, values)
            F = f_G * own + f_Q * goods
            T = 0.0
            if not supports.ends:
                T = float(upper_fixing_pull(F, goods_out(lone, beam), lever))
                T += float(upper_fixing_pull(f_P * P, lone.depth, lever))
            demand[lasting, values] = Pull(
                tension=T / count * UNEVEN, shear=(F + f_P * P) / count * UNEVEN
            )
    shared = Shared(demand=demand, count=count, method="moments about the strip's lower edge")  # type: ignore[arg-type]
    place = Place(unit=lone.name, part="wall")
    head = Panel.model_construct(material="c16", thickness=20.0)
    chains = {
        lasting: wall_chain(
            supports, head, site, whole.catalogue, lasting, without_carcass=supports.ends
        )
        for lasting in LASTING
    }
    said += chains["long-term"].said
    said.append(f"{lone.name}: {count} fixings, screws at mid-height of a 20 mm softwood strip")
    return link_checks(place, chains, shared, shared), said


def _rods(
    whole: Whole, lone: LoneShelf, beam: ShelfBeam, supports: Rods, P: float
) -> tuple[list[Check], list[str]]:
    """Rods bend where they enter the wall, and press on it there."""
    site = whole.project.site
    layers, said = layers_of(site)
    gap = sum(layer.thickness for layer in layers)
    own, goods = weights_of(beam)
    place = Place(unit=lone.name, part="wall")
    f_G, f_Q, f_P = factors("short-term", "design")
    W = (f_G * own + f_Q * goods) / supports.number * UNEVEN
    hand_share = f_P * P / supports.number * UNEVEN
    F = W + hand_share
    c = gap + (W * goods_out(lone, beam) + hand_share * lone.depth) / F
    stress = float(round_bar_stress(rod_moment(F, c, supports.in_wall), supports.diameter))
    face, _ = rod_wall_pressure(F, c, supports.in_wall, supports.diameter)
    each = f"{supports.number} rods, each {figure(F, 'force', as_mass=True)}"
    checks = [
        Check(
            place=place,
            question="rods in bending",
            method="stiff rod in the wall, factored loads with a hand on the front",
            source="own derivation; EN 1993-1-1, 6.2.5, grade S235",
            measure="stress",
            value=stress,
            limit=ROD_STEEL,
            governs=each,
            remedy="Use thicker rods, or more of them.",
        ),
        _wall_pressure(whole, supports, float(face), place, each),
        _droop(lone, supports, own + goods, gap, place),
    ]
    return checks, [*said, f"{lone.name}: rods of mild steel"]


def _wall_pressure(whole: Whole, supports: Rods, pressure: float, place: Place, each: str) -> Check:
    site = whole.project.site
    question = "rods press on the wall"
    if site.wall == "timber stud":
        stud = whole.catalogue.material(site.stud_material, 38.0).material
        f_h = embedment_at_angle(
            embedment_predrilled(dense(stud), supports.diameter),
            k_90(supports.diameter, "softwood"),
            np.pi / 2,
        )
        allowed = design(float(f_h), stud, site.service_class, "long-term")
        if not isinstance(allowed, str):
            return Check(
                place=place,
                question=question,
                method="pressure linear along the rod, at the face of the stud",
                source="own derivation; EN 1995-1-1:2004, (8.31) to (8.33)",
                measure="stress",
                value=pressure,
                limit=allowed,
                governs=each,
                remedy="Let the rods deeper into the stud, or use more of them.",
            )
    wall = tables.substrates().get(site.wall or "unknown")
    name = wall.title.lower() if wall is not None else str(site.wall)
    return Check(
        place=place,
        question=question,
        method="pressure linear along the rod",
        source="own derivation",
        measure="stress",
        reason=f"{name}: no strength under rods can be relied on; the pressure at its face is "
        f"{figure(pressure, 'stress')}",
        remedy=FIND_OUT,
    )


def _droop(lone: LoneShelf, supports: Rods, W: float, gap: float, place: Place) -> Check:
    EI = ROD_E * np.pi * supports.diameter**4 / 64
    share = W / supports.number * UNEVEN
    sag = float(rod_tip_sag(share, lone.depth + gap, EI, supports.in_wall / 3))
    sag += float(rod_play_sag(supports.play, supports.in_wall, lone.depth + gap))
    return Check(
        place=place,
        question="front droops",
        method="rods bending, and play in their holes",
        source="own derivation; limit depth / 50: common practice, no source",
        measure="length",
        value=sag,
        limit=DROOP * lone.depth,
        governs=f"play {figure(supports.play, 'length')}",
        remedy="Drill closer holes, deeper into the wall, or use thicker rods.",
    )
