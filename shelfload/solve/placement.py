"""Where the fasteners of a row go: how many fit, how many are needed, marks to measure."""

from __future__ import annotations

import math

import numpy as np

from shelfload.solve.connection_arrays import Floats

# Slack for lengths that are sums of decimals, far below any workshop's precision.
SLACK = 1e-9


def count_for_spacing(length: float, spacing: float, end_distance: float) -> int:
    """Fewest fasteners in a row whose gaps are no wider than a spacing.

    Parameters
    ----------
    length : float
        Length of the row's member [mm]
    spacing : float
        Widest gap wanted [mm]
    end_distance : float
        Distance of the first and the last fastener from the ends [mm]

    Returns
    -------
    int
        At least two; rounding the marks can widen a gap by the rounding step [-]

    Raises
    ------
    ValueError
        If the spacing is not positive or the ends leave no room for two fasteners.

    Notes
    -----
    Source: own derivation, geometry.
    """
    room = length - 2.0 * end_distance
    if not (spacing > 0.0 and end_distance >= 0.0 and room > 0.0 and math.isfinite(room)):
        raise ValueError(
            f"no row of two: length {length:g}, end distance {end_distance:g}, spacing {spacing:g}"
        )
    return max(2, math.ceil(room / spacing * (1.0 - SLACK)) + 1)


def count_that_fits(length: float, min_spacing: float, end_distance: float) -> int:
    """Most fasteners that a row takes.

    Parameters
    ----------
    length : float
        Length of the row's member [mm]
    min_spacing : float
        Least spacing in the row [mm]
    end_distance : float
        Least distance from either end [mm]

    Returns
    -------
    int
        0 where not even one keeps its distance from both ends [-]

    Raises
    ------
    ValueError
        If the spacing is not positive or the end distance is negative.

    Notes
    -----
    Source: own derivation, geometry.
    """
    if not min_spacing > 0.0 or not end_distance >= 0.0:
        raise ValueError(f"spacing {min_spacing:g} or end distance {end_distance:g} is no distance")
    room = length - 2.0 * end_distance
    if not room >= -SLACK:
        return 0
    return math.floor(max(room, 0.0) / min_spacing * (1.0 + SLACK) + SLACK) + 1


def positions(
    length: float,
    count: int,
    end_distance: float,
    min_spacing: float,
    round_to: float = 5.0,
) -> Floats:
    """Even, symmetric marks of a row, measured from one end.

    The marks of the first half are multiples of ``round_to`` from this end; those of the
    second half are the same numbers from the other end, so that both are easily measured.
    An odd one sits in the middle.

    Parameters
    ----------
    length : float
        Length of the row's member [mm]
    count : int
        Number of fasteners [-]
    end_distance : float
        Least distance from either end [mm]
    min_spacing : float
        Least spacing in the row [mm]
    round_to : float
        Step that the marks are rounded to [mm]

    Returns
    -------
    ndarray, shape (count,)
        Distances from one end, rising [mm]

    Raises
    ------
    ValueError
        If the count, after rounding, can't keep the spacing and the end distances.

    Notes
    -----
    Source: own derivation, geometry.
    """
    distances = (length, end_distance, min_spacing, round_to)
    if (
        count < 1
        or not all(math.isfinite(distance) for distance in distances)
        or not (round_to > 0.0 and end_distance >= 0.0 and min_spacing > 0.0)
    ):
        raise ValueError(
            f"no row: length {length:g}, count {count}, end distance {end_distance:g}, "
            f"least spacing {min_spacing:g}, rounded to {round_to:g}"
        )
    half = count // 2
    first = math.ceil(end_distance / round_to - SLACK)
    pitch = max(1, math.ceil(min_spacing / round_to - SLACK))
    # room between the last mark of the first half and the middle of the member
    inner = min_spacing if count % 2 else 0.5 * min_spacing
    last = math.floor((0.5 * length - inner) / round_to + SLACK)
    tight = first + pitch * (half - 1)
    if (half and tight > last) or length < 2.0 * end_distance - SLACK:
        raise ValueError(
            f"{count} fasteners don't fit in {length:g}: {end_distance:g} from the ends, "
            f"{min_spacing:g} apart, rounded to {round_to:g}"
        )
    index = np.arange(half)
    ends = first * round_to
    even = ends + index * (length - 2.0 * ends) / max(count - 1, 1)
    latest = last - pitch * (half - 1 - index)
    steps = np.clip(np.rint(even / round_to), first + pitch * index, latest)
    # the nearest marks of an even row can be a step too close: push them on, never past latest
    steps = np.maximum.accumulate(steps - pitch * index) + pitch * index
    left = steps * round_to
    middle = [0.5 * length] if count % 2 else []
    return np.concatenate([left, middle, length - left[::-1]])
