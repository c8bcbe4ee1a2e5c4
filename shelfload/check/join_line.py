"""One line of the join list: what a person needs to mark out, drill and drive a join."""

from __future__ import annotations

from dataclasses import dataclass

from shelfload.idealise.place import Place


@dataclass(frozen=True, slots=True, kw_only=True)
class JoinLine:
    """A join as it is to be made; lengths in mm, forces in N.

    Attributes
    ----------
    place : Place
        Which join.
    join : str
        What is joined to what, in words.
    by : str
        Screws, bolts, glue, housing, ...
    demountable : str
        ``yes``, ``no`` (glued), or what holds for it.
    proposed : bool
        True where the program chose; False where it was described.
    fastener, name : str
        In words, and as a row of the fasteners table; empty where there is none.
    length : float or None
        Of the fastener.
    count : int
        In each such join.
    joins : int
        How many joins are alike.
    spacing : float or None
        Widest between neighbours.
    positions : tuple of float
        Marks from one end of the join; they are the same from the other end.
    along : str
        Which way the marks run.
    edge : float or None
        Least distance of the row from an edge beside it.
    pilot, clearance : float or None
        Holes for the thread, and through the first panel.
    countersink, countersink_depth : float or None
        Across, and below the face.
    used : float or None
        Share of what it holds [-].
    basis, governs, note : str
        By which rules, what gives first, and what else to know.
    cheaper : str
        Why the next cheaper fastener fails.
    """

    place: Place
    join: str
    by: str
    demountable: str
    proposed: bool = True
    fastener: str = ""
    name: str = ""
    length: float | None = None
    count: int = 0
    joins: int = 1
    spacing: float | None = None
    positions: tuple[float, ...] = ()
    along: str = ""
    edge: float | None = None
    pilot: float | None = None
    clearance: float | None = None
    countersink: float | None = None
    countersink_depth: float | None = None
    used: float | None = None
    basis: str = ""
    governs: str = ""
    note: str = ""
    cheaper: str = ""
