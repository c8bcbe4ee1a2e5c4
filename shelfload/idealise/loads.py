"""What stands in a bay, turned into forces on the shelf below it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from shelfload import tables
from shelfload.describe.catalogue import Catalogue
from shelfload.describe.parts import Fill

Duration = Literal["permanent", "long-term", "medium-term", "short-term"]

LINES: dict[str, Literal["front", "rear"]] = {"front edge": "front", "rear edge": "rear"}

QUASI_PERMANENT = {"permanent": 1.0, "long-term": 1.0, "medium-term": 0.3, "short-term": 0.0}
"""Share of each load that stands for years, psi_2.

Stored contents are taken as always there: 1.0 instead of the 0.8 of EN 1990 Table A1.1
category E (from memory). 0.3 is category A, domestic areas.
"""


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
        Place of each point from the front edge [mm].
    words : str
        What it is.
    sources : tuple of str
        Where figures of the contents table come from.
    """

    even: float = 0.0
    points: tuple[tuple[float, float, Duration], ...] = ()
    words: str = "empty"
    sources: tuple[str, ...] = ()
    reach: tuple[float, float] | None = None
    line: Literal["front", "rear"] | None = None
    from_front: tuple[float, ...] = ()

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
        even, reach = self.even, self.reach
        if reach is not None:
            density = even * width / (reach[1] - reach[0])
            first, last = max(reach[0], left), min(reach[1], right)
            even = density * max(last - first, 0.0) / (right - left)
            reach = (first - left, last - left) if last > first else None
        return replace(self, even=even, reach=reach, points=points, from_front=depths)


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
    if fill.what is not None:
        row = catalogue.contents(fill.what)
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
    if fill.where != "all over" and even:
        words.append(f"on the {fill.where}")
    return BayLoad(
        even=even,
        points=points,
        words=" and ".join(words),
        sources=tuple(sources),
        reach={"left half": (0.0, width / 2), "right half": (width / 2, width)}.get(fill.where),
        line=LINES.get(fill.where),
        from_front=tuple(point.from_front or 0.0 for point in fill.points),
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
