"""A shelf in plate coordinates: its edges, its loads, and the points it is looked at."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

import numpy as np

from shelfload.idealise.backs import Spring
from shelfload.idealise.plate_panels import aged, edge_beams
from shelfload.idealise.plate_response import Response, unit_response
from shelfload.idealise.shelf_beam import Case, LoadedBay, ShelfBeam
from shelfload.solve import plate

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


class Plan:
    """A shelf in plate coordinates, and the points at which it is looked at."""

    def __init__(self, beam: ShelfBeam, model: Model) -> None:
        self.model = model
        self.length = float(beam.supports[-1].at - beam.supports[0].at)
        self.depth = beam.shape.depth
        self.arc = beam.plan
        if self.arc is not None:
            inner = self.arc.inner_radius
            self.angle = self.arc.angle
            self.middle = self.length / self.angle
            self.geometry = plate.sector(inner, inner + self.depth, self.angle)
        # a pin holds a square, whose middle stands at the end of the span
        self.shift = PIN / 2.0 if model == "pins" else 0.0
        if self.arc is None:
            self.geometry = plate.rectangle(self.length + 2.0 * self.shift, self.depth)
        self.inner = [support.at for support in beam.supports[1:-1]]
        spots = [self._snapped(bay.start + at) for bay in beam.bays for _, at, _ in bay.load.points]
        middles = [(bay.start + bay.end) / 2.0 for bay in beam.bays]
        x = np.unique(
            np.concatenate(
                [
                    np.linspace(start, end, ALONG + 1)
                    for start, end in beam.result.spans.clip(0.0, self.length)
                ]
                + [np.array([*spots, *middles])]
            ).round(6)
        )
        y = np.linspace(0.0, self.depth, ACROSS + 1)
        self.x, self.y = (grid.ravel() for grid in np.meshgrid(x, y, indexing="ij"))
        starts = beam.result.spans[:, 0]
        self.segment = np.clip(np.searchsorted(starts, self.x, "right") - 1, 0, len(starts) - 1)

    def _snapped(self, x: float) -> float:
        """A place along the shelf, moved to the nearest support if it is almost there."""
        for support in (0.0, self.length, *self.inner):
            if abs(x - support) < SNAP * self.length:
                return support
        return x

    def _reach(self, first: float, last: float) -> tuple[float, float]:
        """Both ends of a load, moved to supports unless nothing would be left between them."""
        moved = (self._snapped(first), self._snapped(last))
        if moved[0] < moved[1]:
            return moved
        return max(first, 0.0), min(last, self.length)

    def _u(self, x: float) -> float:
        """Plate coordinate of a place along the shelf [mm or rad]."""
        return x + self.shift if self.arc is None else x / self.middle - self.angle / 2.0

    def _v(self, y: float) -> float:
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
                (landing.dead if case.kind == "landing dead" else landing.imposed, self._wall(at))
                for landing in beam.landings
                if 0.0 < (at := landing.at) < self.length
            ]
        if case.bay is None:
            return []
        bay = beam.bays[case.bay]
        if case.kind == "even":
            return [(1.0, self._patch(bay.start, bay.end))]
        if case.kind == "point":
            return [(1.0, self._spot((bay.start + bay.end) / 2.0, 0.0))]
        found: list[tuple[float, plate.Load]] = []
        if case.kind == "contents" and bay.load.even:
            first, last, density = bay.load.patch(bay.start, bay.end)
            found.append((density, self._spread(bay, first, last)))
        # not said: at the front edge, where it bends a shelf most
        depths = [y or 0.0 for y in bay.load.from_front]
        places = zip(bay.load.points, depths, strict=True)
        found += [
            (force, self._spot(bay.start + at, y))
            for number, ((force, at, duration), y) in enumerate(places)
            if (duration == "long-term" if case.kind == "contents" else number == case.point)
        ]
        return found

    def _spread(self, bay: LoadedBay, first: float, last: float) -> plate.Load:
        if bay.load.line is None:
            return self._patch(first, last)
        first, last = self._reach(first, last)
        reach = (self._u(first), self._u(last))
        across = self._v(0.0 if bay.load.line == "front" else self.depth)
        # per length of the middle line, as all loads along a curved shelf are described
        stretch = 1.0 if self.arc is None else self.middle / across
        return plate.LineLoad(value=stretch, along=reach, across=across)

    def _patch(self, first: float, last: float) -> plate.Load:
        reach = self._reach(first, last)
        if reach == (0.0, self.length):
            return plate.AreaLoad(value=1.0 / self.depth)
        return plate.AreaLoad(value=1.0 / self.depth, along=(self._u(reach[0]), self._u(reach[1])))

    def _spot(self, x: float, y: float) -> plate.Load:
        return plate.PointLoad(
            value=1.0,
            along=self._u(min(max(x, 0.0), self.length)),
            across=self._v(min(y, self.depth)),
            footprint=min(SPOT, self.depth / 2.0),
        )

    def _wall(self, x: float) -> plate.Load:
        return plate.LineLoad(value=1.0 / self.depth, along=self._u(x))

    def _edges(
        self, beam: ShelfBeam, stiff: plate.Stiffness, creep: float, spring: Spring
    ) -> plate.Edges:
        if self.model == "pins":
            return plate.Edges()
        end = plate.Edge("clamped" if beam.clamped else "soft")
        front, rear = (
            (EI / (1.0 + creep), GA / (1.0 + creep)) for EI, GA in edge_beams(beam, stiff)
        )
        held: Literal["elastic", "free"] = "elastic" if spring.k_w else "free"
        back = plate.Edge(
            held, k_w=min(spring.k_w, RIGID * stiff.D11), k_turn=spring.k_turn, EI=rear[0],
            GA=rear[1],
        )  # fmt: skip
        open_front = plate.Edge(EI=front[0], GA=front[1])
        outer_front = self.arc is not None and self.arc.front == "outer"
        near, far = (back, open_front) if outer_front else (open_front, back)
        return plate.Edges(left=end, right=end, near=near, far=far)

    def _pins(self, beam: ShelfBeam) -> tuple[plate.PointSupport, ...]:
        pins = beam.shelf.pins
        if pins is None:
            return ()
        rows = (pins.from_front, self.depth - pins.from_rear)
        return tuple(
            plate.PointSupport(along=self._u(x), across=y, footprint=PIN)
            for x in (0.0, self.length)
            for y in rows
        )

    def response(
        self,
        beam: ShelfBeam,
        stiff: plate.Stiffness,
        creep: float,
        spring: Spring,
        loads: Sequence[Sequence[tuple[float, plate.Load]]],
    ) -> Response:
        """Solve for each unit load once and add up the cases."""
        units = tuple(dict.fromkeys(load for case in loads for _, load in case))
        factors = np.zeros((len(units), len(loads)))
        for number, case in enumerate(loads):
            for factor, load in case:
                factors[units.index(load), number] += factor
        v = np.array([self._v(float(y)) for y in self.y])
        u = np.array([self._u(float(x)) for x in self.x])
        unit = unit_response(
            self.geometry,
            aged(stiff, creep),
            self._edges(beam, stiff, creep, spring),
            units,
            self._pins(beam),
            tuple(plate.LineSupport(along=self._u(x)) for x in self.inner),
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
        if self.model != "pins" and not beam.clamped:
            found.append("ends of shelves that bend as plates are taken as free to twist")
        if any(y is None for bay in beam.bays for y in bay.load.from_front):
            found.append("point loads without a place from the front stand at the front edge")
        return found


RIGID = 1e-4
"""Spring of a line over the bending stiffness it holds [1/mm3], above which more is no stiffer."""
