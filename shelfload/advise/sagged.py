"""A sagged shelf as computed and as it turned out."""

from __future__ import annotations

from dataclasses import dataclass

from shelfload.check.assess import Findings
from shelfload.idealise.place import Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Sagged:
    """What was seen: sags of the loaded and of the emptied shelf [mm], after some years."""

    years: float
    loaded: float
    emptied: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SaggedShelf:
    """The shelf as computed and as it turned out.

    ``first`` is the first-day sag computed [mm], ``creep`` kdef; ``softer`` and ``creepier``
    scale them to what was seen.
    """

    first: float
    creep: float
    limit: float
    softer: float = 1.0
    creepier: float = 1.0

    @property
    def elastic(self) -> float:
        """First-day sag as it turned out [mm]."""
        return self.softer * self.first

    @property
    def k_def(self) -> float:
        """Creep in the end as it turned out [-]."""
        return self.creepier * self.creep

    @property
    def final(self) -> float:
        """Sag that it will come to [mm]."""
        return self.elastic * (1.0 + self.k_def)


def as_seen(computed: SaggedShelf, seen: Sagged, by_now: float) -> SaggedShelf:
    """Scale the computed shelf to what was seen of it."""
    if seen.emptied is None or by_now == 0.0:
        softer, creepier = seen.loaded / (computed.first * (1.0 + by_now)), 1.0
    else:
        elastic = seen.loaded - seen.emptied
        softer, creepier = elastic / computed.first, seen.emptied / (elastic * by_now)
    return SaggedShelf(
        first=computed.first,
        creep=computed.creep,
        limit=computed.limit,
        softer=softer,
        creepier=creepier,
    )


def computed_shelf(findings: Findings, place: Place) -> SaggedShelf | None:
    """First-day sag, creep and limit of the worst bay of a shelf."""
    found = []
    for beam in findings.whole.beams:
        if not is_at(beam.place, place) or beam.creep is None:
            continue
        for check in findings.checks:
            if check.place != beam.place or check.value is None or check.limit is None:
                continue
            if check.question == "sag after years":
                first = check.value / (1.0 + beam.creep)
            elif check.question == "sag on the first day":
                first = check.value
            else:
                continue
            found.append(SaggedShelf(first=first, creep=beam.creep, limit=check.limit))
    return max(found, key=lambda shelf: shelf.first / shelf.limit, default=None)


def is_at(one: Place, asked: Place) -> bool:
    """Whether a place is the shelf asked for, or a bay of it."""
    same = (one.unit, one.part) == (asked.unit, asked.part)
    return same and asked.bay in ("", one.bay)
