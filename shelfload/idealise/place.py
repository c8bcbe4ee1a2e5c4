"""Where something is, in the user's words."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A unit, a part of it, and a bay counted from the left."""

    unit: str
    part: str = ""
    bay: str = ""

    def __str__(self) -> str:
        return ", ".join(piece for piece in (self.unit, self.part, self.bay) if piece)

    def same_part(self, other: Place) -> bool:
        """Whether both are in the same part of the same unit, whatever the bay."""
        return (self.unit, self.part) == (other.unit, other.part)
