"""A shelf that is no beam: held by its back, cut on a curve, on four pins, or loaded on an edge."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from shelfload.idealise.backs import BackHold, Spring, hold_in_words
from shelfload.idealise.loads import QUASI_PERMANENT
from shelfload.idealise.properties import in_plane_shear, stiffness_or_guess
from shelfload.idealise.shelf_beam import Case, LoadedBay, ShelfBeam
from shelfload.solve import plate, section

Array = NDArray[np.float64]
Model = Literal["three edges", "two ends", "sector", "pins"]

SPOT = 50.0
"""Side of the square that a load on one spot stands on [mm], EN 1991-1-1:2002, 6.3.1.2(5)."""
PIN = 5.0  # width of a shelf pin, mm; common practice, no source
SNAP = 0.03
"""Share of the length within which a load that ends near a support is run up to it.

The clear width ends at the upright, the span some millimetres inside it: a mesh line there
would cost much and say nothing.
"""
ALONG, ACROSS = 24, 16  # intervals of the grid on which extremes are sought


@dataclass(frozen=True, slots=True, kw_only=True)
class Response:
    """What the load cases do at the points looked at; every array ends with the cases.

    Attributes
    ----------
    w : ndarray, shape (points, cases)
        Sag [mm].
    M_x, M_y, M_xy : ndarray, shape (points, cases)
        Moments per length along and across the shelf, and twist [N].
    Q : ndarray, shape (points, 2, cases)
        Shear per length along and across, a thickness away from supports [N/mm].
    rear : ndarray, shape (places, cases)
        Line load on the back [N/mm].
    total, ends, back : ndarray, shape (cases,)
        Load, what both ends take, and what the back takes [N].
    corners : ndarray, shape (corners, cases)
        Reaction of pins, or of the outermost part of the ends [N].
    """

    w: Array
    M_x: Array
    M_y: Array
    M_xy: Array
    Q: Array
    rear: Array
    total: Array
    ends: Array
    back: Array
    corners: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfPlate:
    """A shelf idealised as a plate, solved for the load cases of its beam.

    Attributes
    ----------
    model : str
        How it is held.
    first_day, crept : Response
        Load case by load case as in the beam, new and after years. The slip modulus of the
        ultimate limit state lies between the two, so that they bracket all forces.
    standing : ndarray, shape (cases,)
        Share of each case that stands for years.
    segment : ndarray, shape (points,)
        Which span of the beam each point lies in.
    along, across : ndarray, shape (points,)
        Place of each point from the left end and from the front edge [mm].
    moment_scale : float
        Beam moment that bends the section as a moment per length does [mm].
    across_stress, twist_stress : ndarray, shape (panels,)
        Largest stress in each panel per moment per length across, and per twist [1/mm2].
    thickness : float
        Of the panels together [mm].
    hold : BackHold or None
        What holds the rear edge.
    words : str
        The model in a few words.
    reason : str
        Why it is no beam.
    said : tuple of str
        What was assumed.
    """

    model: Model
    first_day: Response
    crept: Response
    standing: Array
    segment: NDArray[np.intp]
    along: Array
    across: Array
    moment_scale: float
    across_stress: Array
    twist_stress: Array
    thickness: float
    hold: BackHold | None
    words: str
    reason: str
    said: tuple[str, ...]

    @property
    def hold_words(self) -> str:
        """The back and its fixing, empty where there is none."""
        return self.hold.words if self.hold is not None else ""

    @property
    def sag_after_years(self) -> Array:
        """Sag of each case, its standing share grown by creep, shape (points, cases) [mm]."""
        return self.first_day.w * (1.0 - self.standing) + self.crept.w * self.standing


def shelf_plate(beam: ShelfBeam) -> ShelfPlate | None:
    """Idealise a shelf as a plate and solve it; None where a beam says all there is to say."""
    model = _model(beam)
    if model is None or beam.creep is None:
        return None
    panels = panels_of(beam)
    stiff = panels.stiffness
    plan = _Plan(beam, model)
    loads = [plan.loads(case, beam) for case in beam.cases]
    rear = beam.hold
    free = Spring(k_w=0.0)

    def solved(spring: Spring, creep: float) -> Response:
        return plan.response(beam, _aged(stiff, creep), spring, loads)

    return ShelfPlate(
        model=model,
        first_day=solved(rear.first_day if rear else free, 0.0),
        crept=solved(rear.after_years if rear else free, beam.creep),
        standing=np.array([QUASI_PERMANENT[_lasts(case)] for case in beam.cases]),
        segment=plan.segment,
        along=plan.x,
        across=plan.y,
        moment_scale=beam.shape.EI_used / stiff.D11,
        across_stress=panels.across_stress,
        twist_stress=panels.twist_stress,
        thickness=beam.shape.thickness,
        hold=rear,
        words=_words(beam, model, stiff),
        reason=_reason(beam, model),
        said=(*panels.said, *(rear.said if rear else ()), *plan.said(beam)),
    )


def _lasts(case: Case) -> Literal["permanent", "long-term", "medium-term", "short-term"]:
    # unit loads stand for stored contents
    return "long-term" if case.kind in ("even", "point") else case.duration


def _model(beam: ShelfBeam) -> Model | None:
    if beam.plan is not None:
        return "sector"
    if beam.shelf.pins is not None:
        return "pins"
    if beam.hold is not None:
        return "three edges"
    on_an_edge = any(
        bay.load.line or any(y > 0.0 for y in bay.load.from_front) for bay in beam.bays
    )
    whole = not any(beam.result.is_overhang)
    return "two ends" if on_an_edge and whole else None


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
    glued = len(panels) == 1 or beam.shelf.joined == "glued"

    def strip(E: Array, G: Array) -> section.Section:
        one = np.ones_like(h)
        if glued:
            return section.bonded(E=E, G=G, b=one, h=h, y=0.0 * one, z=z)
        return section.lying(E=E, G=G, b=one, h=h)

    lengthwise, crosswise = strip(E_x, G_x), strip(E_y, G_y)
    twist = strip(np.array(G_xy), G_x)
    D11 = float(lengthwise.EI)
    if beam.shape.panels_EI is not None:
        D11 = beam.shape.panels_EI / panels[0].width
    return Panels(
        stiffness=plate.Stiffness(
            D11=D11,
            D22=float(crosswise.EI),
            D12=0.0,
            D66=float(twist.EI),
            S1=float(lengthwise.GA),
            S2=float(crosswise.GA),
        ),
        across_stress=np.asarray(crosswise.stress_free),
        twist_stress=np.asarray(twist.stress_free),
        said=tuple(dict.fromkeys(said)),
    )


def _other(direction: Literal["along", "across"]) -> Literal["along", "across"]:
    return "across" if direction == "along" else "along"


def _aged(stiff: plate.Stiffness, creep: float) -> plate.Stiffness:
    grown = 1.0 + creep
    return plate.Stiffness(
        D11=stiff.D11 / grown,
        D22=stiff.D22 / grown,
        D12=stiff.D12 / grown,
        D66=stiff.D66 / grown,
        S1=stiff.S1 / grown,
        S2=stiff.S2 / grown,
    )


class _Plan:
    """A shelf in plate coordinates, and the points at which it is looked at."""

    def __init__(self, beam: ShelfBeam, model: Model) -> None:
        self.model = model
        self.length = float(beam.supports[-1].at - beam.supports[0].at)
        self.depth = beam.shape.depth
        self.arc = beam.plan
        if self.arc is not None:
            inner = self.arc.inner_radius
            self.middle = inner + self.depth / 2.0
            self.angle = self.length / self.middle
            self.geometry = plate.sector(inner, inner + self.depth, self.angle)
        else:
            self.geometry = plate.rectangle(self.length, self.depth)
        self.inner = [support.at for support in beam.supports[1:-1]]
        spots = [self.snapped(bay.start + at) for bay in beam.bays for _, at, _ in bay.load.points]
        middles = [(bay.start + bay.end) / 2.0 for bay in beam.bays]
        x = np.unique(
            np.concatenate(
                [np.linspace(start, end, ALONG + 1) for start, end in beam.result.spans.clip(0.0, self.length)]
                + [np.array([*spots, *middles])]
            ).round(6)
        )
        y = np.linspace(0.0, self.depth, ACROSS + 1)
        self.x, self.y = (grid.ravel() for grid in np.meshgrid(x, y, indexing="ij"))
        starts = beam.result.spans[:, 0]
        self.segment = np.clip(np.searchsorted(starts, self.x, "right") - 1, 0, len(starts) - 1)

    def snapped(self, x: float) -> float:
        """A place along the shelf, moved to the nearest support if it is almost there."""
        for support in (0.0, self.length, *self.inner):
            if abs(x - support) < SNAP * self.length:
                return support
        return x

    def u(self, x: float) -> float:
        """Plate coordinate of a place along the shelf [mm or rad]."""
        return x if self.arc is None else x / self.middle - self.angle / 2.0

    def v(self, y: float) -> float:
        """Plate coordinate of a place from the front edge [mm]."""
        if self.arc is None:
            return y
        inside = self.arc.front == "inner"
        return self.arc.inner_radius + (y if inside else self.depth - y)

    def loads(self, case: Case, beam: ShelfBeam) -> list[tuple[float, plate.Load]]:
        """A load case as factors on unit loads, which equal shelves share."""
        everywhere = plate.AreaLoad(value=1.0 / self.depth)
        if case.kind == "self":
            return [(beam.shape.weight, everywhere)]
        if case.kind in ("landing dead", "landing"):
            return [
                (landing.dead if case.kind == "landing dead" else landing.imposed, self.wall(at))
                for landing in beam.landings
                if 0.0 < (at := landing.at) < self.length
            ]
        if case.bay is None:
            return []
        bay = beam.bays[case.bay]
        if case.kind == "even":
            return [(1.0, self.patch(bay.start, bay.end))]
        if case.kind == "point":
            return [(1.0, self.spot((bay.start + bay.end) / 2.0, 0.0))]
        found: list[tuple[float, plate.Load]] = []
        if case.kind == "contents" and bay.load.even:
            first, last, density = bay.load.patch(bay.start, bay.end)
            found.append((density, self.spread(bay, first, last)))
        wanted = "long-term" if case.kind == "contents" else case.duration
        depths = bay.load.from_front or (0.0,) * len(bay.load.points)
        places = zip(bay.load.points, depths, strict=True)
        found += [
            (force, self.spot(bay.start + at, y))
            for (force, at, duration), y in places
            if duration == wanted
        ]
        return found

    def spread(self, bay: LoadedBay, first: float, last: float) -> plate.Load:
        if bay.load.line is None:
            return self.patch(first, last)
        reach = (self.u(self.snapped(first)), self.u(self.snapped(last)))
        across = self.v(0.0 if bay.load.line == "front" else self.depth)
        # per length of the middle line, as all loads along a curved shelf are described
        stretch = 1.0 if self.arc is None else self.middle / across
        return plate.LineLoad(value=stretch, along=reach, across=across)

    def patch(self, first: float, last: float) -> plate.Load:
        reach = (self.snapped(first), self.snapped(last))
        if reach == (0.0, self.length):
            return plate.AreaLoad(value=1.0 / self.depth)
        return plate.AreaLoad(value=1.0 / self.depth, along=(self.u(reach[0]), self.u(reach[1])))

    def spot(self, x: float, y: float) -> plate.Load:
        return plate.PointLoad(
            value=1.0,
            along=self.u(min(max(x, 0.0), self.length)),
            across=self.v(min(y, self.depth)),
            footprint=min(SPOT, self.depth / 2.0),
        )

    def wall(self, x: float) -> plate.Load:
        return plate.LineLoad(value=1.0 / self.depth, along=self.u(x))

    def edges(self, beam: ShelfBeam, stiff: plate.Stiffness, spring: Spring) -> plate.Edges:
        if self.model == "pins":
            return plate.Edges()
        end = plate.Edge("clamped" if beam.shelf.ends == "clamped" else "soft")
        front, rear = _edge_beams(beam, stiff)
        held: Literal["elastic", "free"] = "elastic" if spring.k_w else "free"
        back = plate.Edge(
            held, k_w=min(spring.k_w, RIGID * stiff.D11), k_turn=spring.k_turn, EI=rear[0],
            GA=rear[1],
        )  # fmt: skip
        open_front = plate.Edge(EI=front[0], GA=front[1])
        outer_front = self.arc is not None and self.arc.front == "outer"
        near, far = (back, open_front) if outer_front else (open_front, back)
        return plate.Edges(left=end, right=end, near=near, far=far)

    def pins(self, beam: ShelfBeam) -> tuple[plate.PointSupport, ...]:
        pins = beam.shelf.pins
        if pins is None:
            return ()
        rows = (pins.from_front, self.depth - pins.from_rear)
        return tuple(
            plate.PointSupport(along=x, across=y, footprint=PIN)
            for x in (0.0, self.length)
            for y in rows
        )

    def response(
        self,
        beam: ShelfBeam,
        stiff: plate.Stiffness,
        spring: Spring,
        loads: Sequence[Sequence[tuple[float, plate.Load]]],
    ) -> Response:
        """Solve for each unit load once and add up the cases."""
        units = tuple(dict.fromkeys(load for case in loads for _, load in case))
        factors = np.zeros((len(units), len(loads)))
        for number, case in enumerate(loads):
            for factor, load in case:
                factors[units.index(load), number] += factor
        v = np.array([self.v(float(y)) for y in self.y])
        u = np.array([self.u(float(x)) for x in self.x])
        unit = _unit_response(
            self.geometry,
            stiff,
            self.edges(beam, stiff, spring),
            units,
            self.pins(beam),
            tuple(plate.LineSupport(along=self.u(x)) for x in self.inner),
            (u.tobytes(), v.tobytes()),
            beam.shape.thickness,
            "near" if self.arc is not None and self.arc.front == "outer" else "far",
        )
        return Response(
            **{name: getattr(unit, name) @ factors for name in Response.__dataclass_fields__}
        )

    def said(self, beam: ShelfBeam) -> list[str]:
        """What was assumed about ends and spots."""
        found = []
        if self.model != "pins" and beam.shelf.ends != "clamped":
            found.append("ends of shelves that bend as plates are taken as free to twist")
        points = any(bay.load.points for bay in beam.bays)
        if points and not any(y > 0.0 for bay in beam.bays for y in bay.load.from_front):
            found.append("point loads without a place from the front stand at the front edge")
        return found


RIGID = 1e-4
"""Spring of a line over the bending stiffness it holds [1/mm3], above which more is no stiffer."""


def _edge_beams(
    beam: ShelfBeam, stiff: plate.Stiffness
) -> tuple[tuple[float, float], tuple[float, float]]:
    """Bending and shear stiffness that lippings add to the front and the rear edge.

    What the whole section has beyond its panels goes to the lippings by their own stiffness.
    """
    strips = {
        name: next((p for p in beam.shape.pieces if p.name == f"{name} lipping"), None)
        for name in ("front", "rear")
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


@lru_cache(maxsize=256)
def _unit_response(
    geometry: plate.PlateGeometry,
    stiff: plate.Stiffness,
    edges: plate.Edges,
    units: tuple[plate.Load, ...],
    pins: tuple[plate.PointSupport, ...],
    lines: tuple[plate.LineSupport, ...],
    points: tuple[bytes, bytes],
    thickness: float,
    rear_name: str,
) -> Response:
    """Solve a plate for unit loads; equal shelves are solved once."""
    u, v = (np.frombuffer(raw) for raw in points)
    found = plate.solve_plate(
        geometry,
        stiff,
        edges,
        [[load] for load in units],
        points=pins,
        lines=lines,
        settle="deflection",
    )
    moments = found.moments(u, v)
    inset = _inset(geometry, u, v, thickness)
    rear_edge = edges.far if rear_name == "far" else edges.near
    x = np.unique(u)
    if rear_edge.kind == "elastic":
        rear = found.reaction_along(rear_name, x)
        back = found.reaction(rear_name)
    else:
        rear, back = np.zeros((len(x), len(units))), np.zeros(len(units))
    held = edges.left.kind != "free"
    ends = found.reaction("left") + found.reaction("right") if held else np.zeros(len(units))
    corners = (
        found.point_reactions
        if pins
        else np.concatenate([_end_quarters(found, geometry, name) for name in ("left", "right")])
    )
    return Response(
        w=found.deflection(u, v),
        M_x=moments[:, 0],
        M_y=moments[:, 1],
        M_xy=moments[:, 2],
        Q=found.shears(*inset),
        rear=rear,
        total=found.loads,
        ends=ends,
        back=back,
        corners=corners,
    )


def _inset(
    geometry: plate.PlateGeometry, u: Array, v: Array, thickness: float
) -> tuple[Array, Array]:
    """Points moved a thickness away from the edges.

    Loads nearer to a support than the depth of the member go straight into it, EN
    1995-1-1:2004, 6.1.7(3); right at an edge a plate's shear is no figure either.
    """
    length, depth = geometry.size
    share = (geometry.along[1] - geometry.along[0]) / length * min(thickness, length / 8.0)
    step = min(thickness, depth / 8.0)
    return (
        np.clip(u, geometry.along[0] + share, geometry.along[1] - share),
        np.clip(v, geometry.across[0] + step, geometry.across[1] - step),
    )


def _end_quarters(found: plate.PlateResult, geometry: plate.PlateGeometry, name: str) -> Array:
    """Reaction of the front and the rear quarter of an end [N]."""
    first, last = geometry.across
    quarter = (last - first) / 4.0
    parts = []
    for start in (first, last - quarter):
        at = start + quarter * (np.arange(16) + 0.5) / 16.0
        parts.append(found.reaction_along(name, at).mean(axis=0) * quarter)
    return np.array(parts)


def _words(beam: ShelfBeam, model: Model, stiff: plate.Stiffness) -> str:
    if model == "sector":
        return "plate cut on a curve, held at its two ends"
    if model == "pins":
        return "plate on four pins"
    if model == "two ends" or beam.hold is None:
        return "plate held at its two ends"
    kind = hold_in_words(beam.hold, stiff.D22, beam.shape.depth)
    return f"plate on three edges: two ends and the back ({kind})"


def _reason(beam: ShelfBeam, model: Model) -> str:
    if model == "sector":
        return "a curved shelf twists as it bends, which a beam can't show"
    if model == "pins":
        return "pins hold four spots and not whole edges"
    if model == "two ends" or beam.hold is None:
        return "the load stands on an edge, which a beam can't show"
    return f"a {beam.hold.words} holds its rear edge"
