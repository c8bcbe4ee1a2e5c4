"""How figures scatter: lognormal factors, counted chances and their sampling error."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]

QUANTILE_05 = 1.6448536269514722
QUANTILE_025 = 1.959963984540054
"""Of the standard normal distribution, any statistical table."""


def lognormal_spread(cov: ArrayLike) -> Array:
    r"""Standard deviation of the logarithm of a lognormal quantity.

    .. math:: \sigma = \sqrt{\ln(1 + V^2)}

    Parameters
    ----------
    cov : array_like
        Coefficient of variation V [-]

    Returns
    -------
    sigma : ndarray
        Of the logarithm; the mean is then the median times exp(sigma^2 / 2) [-]

    Raises
    ------
    ValueError
        If a coefficient is negative.

    Notes
    -----
    Source: any textbook of statistics.

    Examples
    --------
    >>> float(lognormal_spread(0.2))
    0.19804
    """
    V = np.asarray(cov, dtype=np.float64)
    if not (V >= 0.0).all():
        raise ValueError("cov: must not be negative")
    return np.asarray(np.sqrt(np.log1p(V**2)))


def share_with_error(hits: ArrayLike, samples: ArrayLike) -> tuple[Array, Array, Array]:
    r"""Share of hits among samples, and the interval that holds the true chance 19 times in 20.

    .. math::
        \frac{p + z^2/2n \pm z \sqrt{p(1-p)/n + z^2/4n^2}}{1 + z^2/n}

    Parameters
    ----------
    hits : array_like
        How many [-]
    samples : array_like
        Out of how many, n [-]

    Returns
    -------
    share : ndarray
        p [-]
    lower : ndarray
        Lower end of the interval [-]
    upper : ndarray
        Upper end; above zero even without a hit [-]

    Raises
    ------
    ValueError
        If there are no samples, or more hits than samples.

    Notes
    -----
    Source: E. B. Wilson, Journal of the American Statistical Association 22 (1927), 209-212.
    """
    k, n = (np.asarray(count, dtype=np.float64) for count in (hits, samples))
    if not ((n > 0.0) & (k >= 0.0) & (k <= n)).all():
        raise ValueError("hits: from 0 to samples, and at least one sample")
    p, z2 = k / n, QUANTILE_025**2
    half = QUANTILE_025 * np.sqrt(p * (1.0 - p) / n + z2 / (4.0 * n**2))
    middle, whole = p + z2 / (2.0 * n), 1.0 + z2 / n
    lower, upper = (middle - half) / whole, (middle + half) / whole
    return p, np.asarray(np.where(k == 0.0, 0.0, lower)), np.asarray(upper)


class Tally:
    """Counts, mean, spread and first-order shares of a quantity, gathered block by block.

    Shares are squared correlations of the logarithm with each standard normal input: the
    first-order Sobol indices of a quantity whose logarithm is linear in its inputs.
    """

    def __init__(self, inputs: int) -> None:
        self._count = 0
        self._hits = 0
        self._sums = np.zeros(2)
        self._logs = np.zeros(2)
        self._z = np.zeros((inputs, 2))
        self._z_log = np.zeros(inputs)

    def add(self, value: Array, z: Array, limit: float) -> None:
        """Add a block of values (n,) with their inputs z (inputs, n)."""
        log = np.log(value)
        self._count += value.size
        self._hits += int(np.count_nonzero(value > limit))
        self._sums += value.sum(), value @ value
        self._logs += log.sum(), log @ log
        self._z[:, 0] += z.sum(axis=1)
        self._z[:, 1] += np.einsum("ij,ij->i", z, z)
        self._z_log += z @ log

    @property
    def count(self) -> int:
        """How many values were added."""
        return self._count

    @property
    def hits(self) -> int:
        """How many were above the limit."""
        return self._hits

    @property
    def mean(self) -> float:
        """Mean of the values."""
        return float(self._sums[0] / self._count)

    @property
    def spread(self) -> float:
        """Standard deviation of the values."""
        mean = self.mean
        return float(np.sqrt(max(self._sums[1] / self._count - mean**2, 0.0)))

    @property
    def shares(self) -> Array:
        """Part of the variance of the logarithm that each input brings [-]."""
        n = self._count
        log = self._logs[1] / n - (self._logs[0] / n) ** 2
        z = self._z[:, 1] / n - (self._z[:, 0] / n) ** 2
        both = self._z_log / n - self._z[:, 0] / n * self._logs[0] / n
        with np.errstate(divide="ignore", invalid="ignore"):
            return np.where(log * z > 0.0, both**2 / (log * z), 0.0)
