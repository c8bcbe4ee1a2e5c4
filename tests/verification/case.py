"""One row of the verification manual: a figure from outside beside what the program finds."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal

PUBLISHED = "published"
CLOSED_FORM = "closed form"
LIBRARY = "reference library"
FROM_MEMORY = "from memory"
KINDS = (PUBLISHED, CLOSED_FORM, LIBRARY, FROM_MEMORY)

ROUNDING = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A case of the manual.

    Parameters
    ----------
    name : str
        What is asked; no two rows have the same
    reference : str, float or callable
        As printed, text, so that half of its last digit is the tolerance; or worked out here;
        a callable where that takes time
    ours : callable
        Returns the program's figure; called only when the row is wanted
    source : str
        Standard and clause, book and table, library and version, or how it was worked out
    kind : str
        Where the reference comes from, one of KINDS
    unit : str
        Unit of both figures
    within : float
        Share of the reference that they may differ by; rounding if not said
    because : str
        Why a printed figure may differ by more than half of its last digit
    """

    name: str
    reference: str | float | Callable[[], float]
    ours: Callable[[], float]
    source: str
    kind: str
    unit: str = "-"
    within: float | None = None
    because: str = ""

    @property
    def half_digit(self) -> float:
        """Half of the last printed digit, 0 for a figure that was worked out."""
        if not isinstance(self.reference, str):
            return 0.0
        return 0.5 * 10.0 ** int(Decimal(self.reference).as_tuple().exponent)

    def solved(self) -> Outcome:
        """Work the row out."""
        try:
            value = self.reference() if callable(self.reference) else self.reference
            return Outcome(self, float(value), float(self.ours()))
        except Exception as error:
            error.add_note(f"in the case: {self.name}")
            raise


@dataclass(frozen=True, slots=True)
class Outcome:
    """A row worked out: both figures."""

    case: Case
    reference: float
    ours: float

    @property
    def tolerance(self) -> float:
        """Largest difference that passes."""
        case = self.case
        share = case.within or (0.0 if case.half_digit else ROUNDING)
        return max(case.half_digit, share * abs(self.reference))

    @property
    def difference(self) -> float:
        """Ours less the reference."""
        return self.ours - self.reference

    @property
    def share(self) -> float:
        """Difference over the reference, size."""
        return abs(self.difference / self.reference) if self.reference else math.inf

    @property
    def of_tolerance(self) -> float:
        """Difference over what passes, size."""
        return abs(self.difference) / self.tolerance

    @property
    def agrees(self) -> bool:
        """Whether the difference is within the tolerance; never with a figure that is none."""
        # A printed figure is exact: the hair is for its binary neighbour.
        return abs(self.difference) <= self.tolerance * (1.0 + 1e-9)
