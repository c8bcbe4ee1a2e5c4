"""The largest or smallest figure that passes, found with few checks."""

from __future__ import annotations

from collections.abc import Callable
from math import exp, inf, log

_HALVINGS = 60
_DOUBTED = 3
"""Every so many steps a bracket is halved, whatever the line between its ends says."""
_FAR = 20.0  # logarithm of the longest step


def largest(
    passes: Callable[[float], bool], low: float, high: float, within: float = 1e-5
) -> float | None:
    """Return the largest x that passes, for what fails beyond some x; None if none does."""
    return largest_below(lambda x: 0.5 if passes(x) else inf, low, high, within=within)


def smallest(passes: Callable[[float], bool], low: float, high: float) -> float | None:
    """Return the smallest x that passes, for what passes beyond some x; None if none does."""
    found = largest(lambda x: passes(1.0 / x), 1.0 / high, 1.0 / low)
    return None if found is None else 1.0 / found


def largest_below(
    demand: Callable[[float], float],
    low: float,
    high: float,
    *,
    start: float | None = None,
    power: float = 1.0,
    within: float = 1e-5,
) -> float | None:
    """Return the largest x whose demand is at most 1; None if there is none.

    Parameters
    ----------
    demand : callable
        Grows with x; infinite where it is too much or not known by how much [-]
    low, high : float
        Between these x is looked for, both above zero [-]
    start : float or None
        Where to begin; the ends if None [-]
    power : float
        About how demand grows with x, as a power of it [-]
    within : float
        How near, as a share of x [-]

    Returns
    -------
    x : float or None
        It passes; x (1 + within) does not, unless x is ``high`` [-]

    Notes
    -----
    Source: own method, false position between logarithms, every third step a halving.
    """
    at = _Bracket(demand, low, high)
    x = high if start is None else min(max(start, low), high)
    while at.over is None or at.under is None:
        ratio = at.ask(x)
        if at.over is None:
            if x >= high:
                return high
            x = min(high, x * _step(ratio, power, within))
        elif at.under is None:
            if x <= low:
                return None
            x = max(low, x / _step(1.0 / ratio, power, within))
        power /= 2.0  # further each time
    for count in range(2 * _HALVINGS):
        if at.width <= log(1.0 + within) * 1.000001:
            break
        at.ask(at.next(within, halved=count % _DOUBTED == _DOUBTED - 1))
    return exp(at.under)


def _step(ratio: float, power: float, within: float) -> float:
    """Factor on x after which a demand is about 1, and a little over it."""
    if ratio == 0.0:
        return inf
    return exp(min(-log(ratio) / power, _FAR) + within)


class _Bracket:
    """Logarithms between which a demand passes 1, and the logarithm of the demand there."""

    def __init__(self, demand: Callable[[float], float], low: float, high: float) -> None:
        self.demand, self.low, self.high = demand, low, high
        self.under: float | None = None
        self.over: float | None = None
        self.less = self.more = 0.0

    @property
    def width(self) -> float:
        """Distance of the two ends."""
        if self.under is None or self.over is None:
            return inf
        return self.over - self.under

    def ask(self, x: float) -> float:
        """Ask at x and move the end that it replaces."""
        ratio = self.demand(x)
        if ratio <= 1.0:
            self.under, self.less = log(x), log(max(ratio, 1e-9))
        else:
            self.over, self.more = log(x), log(ratio) if ratio < inf else inf
        return ratio

    def next(self, within: float, *, halved: bool) -> float:
        """Return where to ask next: by the line between the ends, or in their middle."""
        if self.under is None or self.over is None:
            raise AssertionError("asked for before both ends are known")
        if halved or self.more == inf or self.more <= self.less:
            return exp((self.under + self.over) / 2.0)
        share = -self.less / (self.more - self.less)
        x = self.under + share * self.width
        # beside an end, step a full tolerance, so that the other end comes as near
        step = log(1.0 + within)
        if x - self.under < step:
            x = min(self.under + step, (self.under + self.over) / 2.0)
        elif self.over - x < step:
            x = max(self.over - step, (self.under + self.over) / 2.0)
        return exp(x)
