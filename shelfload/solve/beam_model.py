"""What a beam problem is: the beam on its supports, and the load cases on it."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Self

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shelfload.errors import Mechanism

Array = NDArray[np.float64]

# A place computed as a sum of bays may miss the end of the beam by rounding.
ROUNDING = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Beam:
    """A straight beam of constant stiffness on any supports.

    EI, GA and the stiffness of the supports may carry leading axes (many beams of one
    length and one set of support places at once). Many lengths: take the length as the
    unit of length, length = 1, EI / L^2 for EI, k L for a spring, w L for a load per
    length; sag then comes in lengths and moment per length.

    Attributes
    ----------
    length : float
        Total length, overhangs included [mm]
    support_at : ndarray, shape (n,)
        Places of the supports from the left end, rising [mm]
    EI : ndarray, shape (...)
        Bending stiffness [N mm2]
    GA : ndarray, shape (...)
        Shear stiffness, shape factor included; inf for no shear deflection [N]
    support_stiffness : ndarray, shape (..., n)
        Vertical stiffness of each support; inf, as by default, for one that does not give;
        0 for one that only turns [N/mm]
    turn_stiffness : ndarray, shape (..., n)
        Stiffness against rotation at each support; 0, as by default, for free to turn; inf
        for clamped [N mm/rad]
    """

    length: float
    support_at: Array
    EI: Array
    GA: Array = field(default_factory=lambda: np.array(np.inf))
    support_stiffness: Array = field(default_factory=lambda: np.array([np.inf]))
    turn_stiffness: Array = field(default_factory=lambda: np.array([0.0]))

    def __post_init__(self) -> None:
        length = float(self.length)
        if not 0.0 < length < np.inf:
            raise ValueError(f"length: must be above zero and finite, not {length}")
        at = np.atleast_1d(np.asarray(self.support_at, dtype=np.float64))
        if at.ndim != 1 or not np.isfinite(at).all() or (np.diff(at) <= 0.0).any():
            raise ValueError(f"support_at: must be one row of finite, rising places, not {at}")
        at = within(at, length, "support_at")
        EI = np.asarray(self.EI, dtype=np.float64)
        if not (np.isfinite(EI) & (EI > 0.0)).all():
            raise ValueError("EI: must be above zero and finite")
        GA = np.asarray(self.GA, dtype=np.float64)
        if not (GA > 0.0).all():
            raise ValueError("GA: must be above zero (inf for no shear deflection)")
        k = _per_support(self.support_stiffness, at.size, "support_stiffness")
        c = _per_support(self.turn_stiffness, at.size, "turn_stiffness")
        for name, value in (
            ("length", length),
            ("support_at", at),
            ("EI", EI),
            ("GA", GA),
            ("support_stiffness", k),
            ("turn_stiffness", c),
        ):
            object.__setattr__(self, name, value)

    def require_held(self) -> None:
        """Raise Mechanism unless the supports hold the beam against every free movement."""
        if self.support_at.size > 1 and self.support_stiffness.min() > 0.0:
            return
        holds = np.count_nonzero(self.support_stiffness, axis=-1)
        turns = np.count_nonzero(self.turn_stiffness, axis=-1)
        if (holds == 0).any():
            message = "the beam is not held up by any support"
        elif ((holds == 1) & (turns == 0)).any():
            message = "the beam rests on one support that lets it turn: it falls over"
        else:
            return
        raise Mechanism(range(self.support_at.size), message)


@dataclass(frozen=True, slots=True, eq=False)
class Loads:
    """Load cases on a beam: loads along it and loads at points, down positive.

    Attributes
    ----------
    cases : int
        Number of load cases [-]
    patches : ndarray, shape (k, 5)
        Rows of case [-], start [mm], end [mm], and load per length, linear between start
        [N/mm] and end [N/mm]
    points : ndarray, shape (m, 3)
        Rows of case [-], place [mm], force [N]
    """

    cases: int
    patches: Array = field(default_factory=lambda: np.empty((0, 5)))
    points: Array = field(default_factory=lambda: np.empty((0, 3)))

    def __post_init__(self) -> None:
        if self.cases < 1:
            raise ValueError(f"cases: must be at least 1, not {self.cases}")
        for name, width in (("patches", 5), ("points", 3)):
            table = np.asarray(getattr(self, name), dtype=np.float64).reshape(-1, width)
            if not np.isfinite(table).all():
                raise ValueError(f"{name}: every figure must be finite")
            case = table[:, 0]
            if ((case < 0) | (case >= self.cases) | (case != np.floor(case))).any():
                raise ValueError(f"{name}: case must be a whole number from 0 to {self.cases - 1}")
            object.__setattr__(self, name, table)
        if (self.patches[:, 1] >= self.patches[:, 2]).any():
            raise ValueError("patches: start must lie before end")

    @classmethod
    def of(cls, *, cases: int, patches: ArrayLike = (), points: ArrayLike = ()) -> Self:
        """Make loads from rows as the attributes list them, in any form numpy reads."""
        return cls(
            cases,
            np.asarray(patches, dtype=np.float64).reshape(-1, 5),
            np.asarray(points, dtype=np.float64).reshape(-1, 3),
        )

    @classmethod
    def uniform(
        cls, case: ArrayLike, start: ArrayLike, end: ArrayLike, w: ArrayLike, *, cases: int = 0
    ) -> Self:
        """Make loads of constant size w [N/mm] from start to end [mm]; arguments broadcast."""
        return cls.linear(case, start, end, w, w, cases=cases)

    @classmethod
    def linear(
        cls,
        case: ArrayLike,
        start: ArrayLike,
        end: ArrayLike,
        w_start: ArrayLike,
        w_end: ArrayLike,
        *,
        cases: int = 0,
    ) -> Self:
        """Make loads that vary linearly from w_start to w_end [N/mm]; arguments broadcast."""
        rows = _rows(case, start, end, w_start, w_end)
        return cls(cases or int(rows[:, 0].max(initial=0)) + 1, patches=rows)

    @classmethod
    def point(cls, case: ArrayLike, at: ArrayLike, force: ArrayLike, *, cases: int = 0) -> Self:
        """Make forces [N] at places [mm]; arguments broadcast."""
        rows = _rows(case, at, force)
        return cls(cases or int(rows[:, 0].max(initial=0)) + 1, points=rows)

    def __add__(self, other: Loads) -> Loads:
        """Both sets of loads; equal case numbers become one case."""
        return Loads(
            max(self.cases, other.cases),
            np.concatenate([self.patches, other.patches]),
            np.concatenate([self.points, other.points]),
        )


def within(x: Array, length: float, name: str) -> Array:
    """Places on the beam, put back on its end where they miss it by rounding only.

    Parameters
    ----------
    x : ndarray
        Places from the left end [mm]
    length : float
        Length of the beam [mm]
    name : str
        Name of the argument for the message [-]

    Returns
    -------
    x : ndarray
        Places from 0 to length [mm]

    Raises
    ------
    ValueError
        If a place lies off the beam.

    Notes
    -----
    Source: own rule.
    """
    slack = ROUNDING * length
    if x.size == 0:
        return x
    if x.min() < -slack or x.max() > length + slack:
        outside = (x < -slack) | (x > length + slack)
        raise ValueError(f"{name}: {x[outside][0]:g} lies off the beam, which is 0 to {length:g}")
    return np.minimum(np.maximum(x, 0.0), length)


def _per_support(stiffness: ArrayLike, n: int, name: str) -> Array:
    values = np.asarray(stiffness, dtype=np.float64)
    if not (values >= 0.0).all():
        raise ValueError(f"{name}: must not be negative or nan")
    try:
        return np.broadcast_to(values, np.broadcast_shapes(values.shape, (n,)))
    except ValueError:
        raise ValueError(f"{name}: one value per support ({n}), not {values.shape}") from None


def _rows(*columns: ArrayLike) -> Array:
    arrays = np.broadcast_arrays(*(np.asarray(column, dtype=np.float64) for column in columns))
    return np.stack([array.ravel() for array in arrays], axis=-1)
