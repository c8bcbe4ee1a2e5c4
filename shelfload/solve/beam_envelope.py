"""The worst loading pattern: every bay full or empty, found by adding up influences."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shelfload.solve.beam_result import BeamResult, Extremes
from shelfload.solve.polynomial import unit_roots, value

Array = NDArray[np.float64]
Pattern = NDArray[np.bool_]

# An influence below this share of the largest one is rounding, not a reason to load a bay.
_NOTHING = 1e-12


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Envelope:
    """Extremes over all loading patterns, per segment, each with its pattern.

    Attributes
    ----------
    extremes : Extremes
        As of a single case, without the axis of cases: arrays of shape (segments,); units
        as there [-]
    patterns : dict of str to ndarray of bool, shape (segments, cases)
        Loaded cases behind "w_max", "w_min", "M_max", "M_min", "V_max", "V_min" [-]
    reaction_max, reaction_min : ndarray, shape (n,)
        Reactions, up positive; a negative one lifts off unless held down [N]
    reaction_max_pattern, reaction_min_pattern : ndarray of bool, shape (n, cases)
        Loaded cases behind them [-]
    """

    extremes: Extremes
    patterns: dict[str, Pattern]
    reaction_max: Array
    reaction_min: Array
    reaction_max_pattern: Pattern
    reaction_min_pattern: Pattern


def envelope(result: BeamResult, always: ArrayLike, sometimes: ArrayLike) -> Envelope:
    """Worst of all patterns in which some cases act always and others come and go.

    At every place, the worst pattern for a quantity is that of the cases whose own share
    has its sign. The pattern changes only where a share passes through zero, so that
    between two such places one pattern rules. All patterns that rule anywhere are formed,
    and the true extremes of each are taken: the result is that of trying all 2^cases.

    Parameters
    ----------
    result : BeamResult
        A single solved beam (no leading axes), a case per bay or kind of load [-]
    always : array_like, shape (cases,)
        Weight of each case that acts whatever the pattern [-]
    sometimes : array_like, shape (cases,)
        Further weight of each case that acts or not; 0 for none [-]

    Returns
    -------
    envelope : Envelope
        Extremes and reactions with their patterns; see there for units [-]

    Raises
    ------
    ValueError
        If the weights don't match the cases, or the result holds many beams.

    Notes
    -----
    Source: own derivation; superposition of influences.
    """
    return envelopes(result, np.asarray([always]), np.asarray([sometimes]))[0]


def envelopes(result: BeamResult, always: ArrayLike, sometimes: ArrayLike) -> list[Envelope]:
    """Several envelopes of one beam at once, as :func:`envelope` gives them one by one.

    Parameters
    ----------
    result : BeamResult
        A single solved beam (no leading axes), a case per bay or kind of load [-]
    always : array_like, shape (sets, cases)
        Weight of each case that acts whatever the pattern [-]
    sometimes : array_like, shape (sets, cases)
        Further weight of each case that acts or not; 0 for none [-]

    Returns
    -------
    envelopes : list of Envelope
        One for each set of weights; see there for units [-]

    Raises
    ------
    ValueError
        If the weights don't match the cases, or the result holds many beams.

    Notes
    -----
    A pattern that rules for some set is tried for all: it can't be worse than the worst.

    Source: own derivation; superposition of influences.
    """
    if result.reactions.ndim != 2:
        raise ValueError("result: one beam at a time, without leading axes")
    fixed, moving = (np.atleast_2d(np.asarray(w, dtype=np.float64)) for w in (always, sometimes))
    for name, weight in (("always", fixed), ("sometimes", moving)):
        if weight.shape != (len(fixed), result.cases) or not np.isfinite(weight).all():
            raise ValueError(f"{name}: {result.cases} finite weights needed, not {weight}")

    patterns = np.unique(
        np.concatenate([_ruling_patterns(result, row) for row in _distinct(moving)]), axis=0
    )
    weights = fixed[:, None, :] + patterns * moving[:, None, :]
    found = result.combine(weights.reshape(-1, result.cases)).extremes()
    return [
        _worst(result, found, n * len(patterns), patterns, fixed[n], moving[n])
        for n in range(len(fixed))
    ]


def reaction_range(
    result: BeamResult, always: ArrayLike, sometimes: ArrayLike
) -> tuple[Array, Array]:
    """Largest and smallest reaction of each support over all patterns of loads.

    Parameters
    ----------
    result : BeamResult
        A single solved beam, a case per bay or kind of load [-]
    always : array_like, shape (cases,)
        Weight of each case that acts whatever the pattern [-]
    sometimes : array_like, shape (cases,)
        Further weight of each case that acts or not; 0 for none [-]

    Returns
    -------
    largest, smallest : ndarray, shape (n,)
        Reactions, up positive [N]

    Notes
    -----
    Source: own derivation; superposition of influences.
    """
    base = np.asarray(always, dtype=np.float64) @ result.reactions
    share = np.asarray(sometimes, dtype=np.float64)[:, None] * result.reactions
    return (
        base + np.maximum(share, 0.0).sum(axis=0),
        base + np.minimum(share, 0.0).sum(axis=0),
    )


def _distinct(moving: Array) -> Array:
    """One row for each set of cases that come and go: only the signs of weights matter."""
    rows: Array = np.unique(np.sign(moving), axis=0)
    return rows


def _worst(
    result: BeamResult, found: Extremes, start: int, patterns: Pattern, fixed: Array, moving: Array
) -> Envelope:
    """Pick the worst of the patterns of one set, which stand from row ``start`` on."""
    segment = np.arange(result.marks.size - 1)
    worst: dict[str, Array] = {}
    behind: dict[str, Pattern] = {}
    for name in ("w_max", "w_min", "M_max", "M_min", "V_max", "V_min"):
        values: Array = getattr(found, name)[start : start + len(patterns)]
        row = values.argmax(axis=0) if name.endswith("max") else values.argmin(axis=0)
        worst[name] = values[row, segment]
        worst[f"{name}_at"] = getattr(found, f"{name}_at")[start + row, segment]
        behind[name] = patterns[row] & (moving != 0.0)
    largest, smallest = reaction_range(result, fixed, moving)
    share = moving[:, None] * result.reactions
    return Envelope(
        extremes=Extremes(**worst),
        patterns=behind,
        reaction_max=largest,
        reaction_min=smallest,
        reaction_max_pattern=_real(share).T & (share.T > 0.0),
        reaction_min_pattern=_real(share).T & (share.T < 0.0),
    )


def _ruling_patterns(result: BeamResult, moving: Array) -> Pattern:
    """Every pattern that is the worst one for some quantity somewhere, (m, cases)."""
    comes_and_goes = np.flatnonzero(moving)
    if comes_and_goes.size <= 1:  # with it and without it: nothing to find
        patterns = np.zeros((1 + comes_and_goes.size, result.cases), dtype=np.bool_)
        patterns[1:, comes_and_goes] = True
        return patterns
    among = _patterns_among(result, result.curves[:, comes_and_goes], moving[comes_and_goes])
    patterns = np.zeros((len(among), result.cases), dtype=np.bool_)
    patterns[:, comes_and_goes] = among
    return patterns


def _patterns_among(result: BeamResult, curves: Array, moving: Array) -> Pattern:
    h = np.diff(result.edges)
    cases, pieces = moving.size, h.size
    which, t = unit_roots(curves.reshape(-1, curves.shape[-1]))
    piece = which % pieces
    zero = result.edges[piece] + h[piece] * t
    kind = which // (cases * pieces)
    found = [np.zeros((1, cases), dtype=np.bool_)]
    for i, curve in enumerate(curves):
        places = np.unique(np.concatenate([result.edges, zero[kind == i]]))
        middle = (places[1:] + places[:-1]) / 2.0
        at = np.clip(np.searchsorted(result.edges, middle, side="right") - 1, 0, pieces - 1)
        share = moving[:, None] * value(curve[:, at], (middle - result.edges[at]) / h[at])
        real = _real(share)
        found += [(real & (share > 0.0)).T, (real & (share < 0.0)).T]
    return np.unique(np.concatenate(found), axis=0)


def _real(share: Array) -> Pattern:
    real: Pattern = np.abs(share) > _NOTHING * np.abs(share).max(initial=0.0)
    return real
