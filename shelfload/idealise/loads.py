"""What stands in a bay, turned into forces on the shelf below it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from shelfload import tables
from shelfload.describe.catalogue import Catalogue
from shelfload.describe.parts import Fill, People
from shelfload.idealise.people import people_load

Duration = Literal["permanent", "long-term", "medium-term", "short-term"]

LINES: dict[str, Literal["front", "rear"]] = {"front edge": "front", "rear edge": "rear"}

QUASI_PERMANENT = {"permanent": 1.0, "long-term": 1.0, "medium-term": 0.3, "short-term": 0.0}
"""Share of each load that stands for years, psi_2.

Stored contents are taken as always there: 1.0 instead of the 0.8 of EN 1990 Table A1.1
category E (from memory). 0.3 is category A, domestic areas.
"""

NORMAL_QUANTILE_95 = 1.645


@dataclass(frozen=True, slots=True, kw_only=True)
class BayLoad:
    """Loads on the floor of one bay.

    Attributes
    ----------
    even : float
        Spread over the clear width [N/mm].
    reach : tuple of float or None
        The part of the clear width on which all of it stands, from the left [mm].
    line : "front", "rear" or None
        The edge on which all of it stands; a beam knows no edges, a plate does.
    points : tuple of (float, float, Duration)
        Force [N], place from the left of the clear width [mm], and how long it lasts.
    from_front : tuple of float
        Place of each point from the front edge [mm]; None where it is not said.
    words : str
        What it is.
    sources : tuple of str
        Where figures of the contents table come from.
    cov : float or None
        Coefficient of variation of the spread load, low and high of its row taken as the 5 %
        and 95 % points of a normal spread [-]; None where no range is tabled.
    persons : int
        How many of the first ``points`` are single persons; one alone may be anywhere.
    """

    even: float = 0.0
    points: tuple[tuple[float, float, Duration], ...] = ()
    words: str = "empty"
    sources: tuple[str, ...] = ()
    reach: tuple[float, float] | None = None
    line: Literal["front", "rear"] | None = None
    from_front: tuple[float | None, ...] = ()
    cov: float | None = None
    persons: int = 0

    @property
    def roaming(self) -> float:
        """One person who may be anywhere in the bay; drawn in its middle [N]."""
        return self.points[0][0] if self.persons == 1 else 0.0

    def patch(self, start: float, end: float) -> tuple[float, float, float]:
        """Return where the spread load stands in a bay from start to end [mm], and how densely.

        Its density is [N/mm] of the part it stands on.
        """
        if self.reach is None:
            return start, end, self.even
        first, last = start + self.reach[0], start + self.reach[1]
        return first, last, self.even * (end - start) / (last - first)

    def clipped(self, left: float, right: float, width: float) -> BayLoad:
        """Return the load on a part of a bay of some clear width, from left to right [mm]."""
        inside = [left <= at <= right for _, at, _ in self.points]
        points = tuple(
            (force, at - left, duration)
            for (force, at, duration), kept in zip(self.points, inside, strict=True)
            if kept
        )
        depths = tuple(y for y, kept in zip(self.from_front, inside, strict=True) if kept)
        persons = sum(inside[: self.persons])
        even, reach = self.even, self.reach
        if reach is not None:
            density = even * width / (reach[1] - reach[0])
            first, last = max(reach[0], left), min(reach[1], right)
            even = density * max(last - first, 0.0) / (right - left)
            reach = (first - left, last - left) if last > first else None
        return replace(
            self, even=even, reach=reach, points=points, from_front=depths, persons=persons
        )


def bay_load(
    fill: Fill | None, width: float, height: float, depth: float, catalogue: Catalogue
) -> BayLoad:
    """Turn what stands in a bay into line and point loads.

    Parameters
    ----------
    fill : Fill or None
        As described; None is an empty bay.
    width, height, depth : float
        Clear width and height of the bay and depth of the shelf [mm].
    catalogue : Catalogue
        Resolves names of contents.
    """
    if fill is None:
        return BayLoad()
    even = 0.0
    words: list[str] = []
    sources: list[str] = []
    cov = None
    if fill.what is not None:
        row = catalogue.contents(fill.what)
        if row.low is not None and row.high is not None:
            cov = (row.high - row.low) / (2.0 * NORMAL_QUANTILE_95) / row.typical
        each = _row_value(row, fill.packed) * (fill.count or 1)
        even += fill.fill * _per_length(row.kind, each, width, height, depth)
        words.append(row.title if fill.count is None else f"{fill.count} x {row.title}")
        if fill.fill != 1.0:
            words[-1] += f", {fill.fill:.0%} full"
        sources.append(f"{row.title}: {row.source} ({row.status})")
    if fill.load is not None:
        even += _per_length(fill.load.kind, fill.load.value, width, height, depth)
        words.append("stated load")
    points = tuple((point.load.value, point.at, point.duration) for point in fill.points)
    if points:
        words.append(f"{len(points)} point load{'s' if len(points) > 1 else ''}")
    if fill.people is not None:
        words.append(f"people {fill.people}")
    if fill.where != "all over" and even:
        words.append(f"on the {fill.where}")
    found = BayLoad(
        even=even,
        points=points,
        words=" and ".join(words),
        sources=tuple(sources),
        reach={"left half": (0.0, width / 2), "right half": (width / 2, width)}.get(fill.where),
        line=LINES.get(fill.where),
        from_front=tuple(point.from_front for point in fill.points),
        cov=cov,
    )
    return found if fill.people is None else with_people(found, fill.people, width, depth)


def with_people(load: BayLoad, people: People, width: float, depth: float) -> BayLoad:
    """Put people on a bay of some clear width and depth [mm], beside what stands there."""
    more = people_load(people, width, depth)
    return replace(
        load,
        points=(*more.spots, *load.points),
        from_front=(*[None] * len(more.spots), *load.from_front),
        persons=more.persons,
        sources=(*load.sources, *more.sources),
    )


def _row_value(row: tables.Contents, packed: str) -> float:
    chosen = {"low": row.low, "typical": row.typical, "high": row.high}[packed]
    # a row with one figure only is used as it stands
    return chosen if chosen is not None else row.typical


def _per_length(kind: str, value: float, width: float, height: float, depth: float) -> float:
    """Spread a load of any kind over the clear width [N/mm]."""
    if kind == "line":
        return value
    if kind == "area":
        return value * depth
    if kind == "volume":
        return value * depth * height
    return value / width
