"""People on a shelf, seat, bed or bench: stated loads and where they act."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from shelfload import tables
from shelfload.describe.parts import People

SEAT = 500.0
"""Room that one who sits takes along a seat [mm] (common practice, no source)."""
STRIPS = 4
"""Forces that stand for an even load over a bay; an even number of equal ones in the middles of
equal strips bends a simple span as the even load does, in its middle."""
BEHIND_EDGE = {"sitting": 60.0, "standing": 60.0, "sleeping": 60.0, "leaning": 0.0}
"""How far behind the front edge a person's weight acts when it would tip something [mm]: 60 where
one sits (EN 1022, forward tipping, from memory), the same for feet; on the edge for who leans."""
CENTRE_ABOVE = {"sitting": 250.0, "standing": 1000.0, "sleeping": 250.0, "leaning": 250.0}
"""Centre of a person's weight above what carries it [mm] (common practice, no source)."""

Spot = tuple[float, float, Literal["medium-term", "short-term"]]
"""Force [N], place from the left of the clear width [mm], and how long it lasts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PeopleLoad:
    """People on one bay.

    Attributes
    ----------
    spots : tuple of Spot
        What they put on the bay, single persons first.
    persons : int
        How many of the spots are single persons; one alone may be anywhere in the bay.
    sources : tuple of str
        Who says so.
    """

    spots: tuple[Spot, ...]
    persons: int
    sources: tuple[str, ...]


def people_load(people: People, width: float, depth: float) -> PeopleLoad:
    """Return what people put on a bay of some clear width and depth [mm].

    One who sits, stands or leans acts for minutes (short-term); a crowd or a sleeper for
    nights and weeks (medium-term, as imposed loads of floors in EN 1995-1-1:2004, Table 2.2).
    """
    known = tables.figures()
    area = known["floor-domestic-eu"]
    one = known[single_of(people)]
    if people == "sitting" and width >= 2 * SEAT:
        seats = int(width // SEAT)
        row: tuple[Spot, ...] = tuple(
            (one.low, width * (n + 0.5) / seats, "short-term") for n in range(seats)
        )
        return PeopleLoad(spots=row, persons=seats, sources=(_said(one),))
    spots: list[Spot] = [(one.low, width / 2, "short-term")]
    used = [one]
    if people in ("standing", "sleeping"):
        # the code sets its single and its even load one at a time: for those who stand only what
        # the even one has more is added; one who sits down on a bed is added to its sleepers
        even = area.low * width * depth - (one.low if people == "standing" else 0.0)
        if even > 0.0:
            used.append(area)
            spots += [
                (even / STRIPS, width * (n + 0.5) / STRIPS, "medium-term") for n in range(STRIPS)
            ]
    return PeopleLoad(
        spots=tuple(spots), persons=1, sources=tuple(_said(figure) for figure in used)
    )


def single_of(people: People) -> str:
    """Return the name of the figure that stands for one person."""
    return {
        "sitting": "seat-point",
        "sleeping": "seat-point",
        "standing": "floor-domestic-point-eu",
        "leaning": "worktop-point",
    }[people]


def single_force(people: People) -> float:
    """Return what one person puts on one place [N]."""
    return tables.figures()[single_of(people)].low


def _said(figure: tables.Figure) -> str:
    return f"{figure.title}: {figure.source} ({figure.status})"
