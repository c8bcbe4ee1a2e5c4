"""Where things are along a beam: what depends on places alone, found once for equal beams."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Index = NDArray[np.intp]

_MEAN = 1.0 / np.arange(1.0, 5.0)  # of the powers of t over 0..1
_FIRST_MOMENT = 1.0 / np.arange(2.0, 6.0)
_GAIN = np.array([0.0, 1.0, 1.0, 1.0])  # from t = 0 to 1
_POWERS = np.arange(1.0, 6.0)
_REMEMBERED = 256


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Layout:
    """Pieces, segments and spans of a beam; the arrays are shared and can't be written to.

    Pieces lie between neighbouring edges, segments (overhangs and spans, from the left)
    between neighbouring marks. P pieces, S segments, n supports.

    Attributes
    ----------
    edges : ndarray, shape (P + 1,)
        Places where a load starts, ends or stands, supports and ends of the beam [mm]
    marks : ndarray, shape (S + 1,)
        Ends of the segments: supports and free ends [mm]
    h : ndarray, shape (P,)
        Length of each piece [mm]
    L : ndarray, shape (n - 1,)
        Length of each span [mm]
    segment : ndarray of int, shape (P,)
        Segment that each piece lies in [-]
    ends : ndarray of int, shape (n,)
        Edge at each support [-]
    spans : slice
        The pieces between the outer supports [-]
    span : ndarray of int, shape (pieces between the outer supports,)
        Span that each of them lies in [-]
    first_piece : ndarray of int, shape (n - 1,)
        The first of them in each span [-]
    along : ndarray, same shape as span
        Left edge of each of them, from the left end of its span [mm]
    cut_edge : ndarray of int, shape (P,)
        Edge where V and M of a piece are nought when the beam is cut over its supports:
        the left end of its span, the free end of its overhang [-]
    cut_load : ndarray of int, shape (P,)
        The same, counted among the loads up to each edge, nothing in front of the first [-]
    held : ndarray of int, shape (P,)
        Support from which the sag of a piece is integrated: the left one of a span, the
        only one of an overhang [-]
    held_edge : ndarray of int, shape (P,)
        Edge at that support [-]
    strains : ndarray, shape (2 (n - 1), 2 n)
        Rotations of the left ends, then of the right ends of the spans from their chords, as
        a sagging moment there bends them, by the sag of all supports, then by the rotation of
        all supports [1/mm, -]
    hinged : ndarray, shape (pieces between the outer supports, 2, 4)
        Rotation of the left and of the right end of a span on two hinges, cut at its left,
        as a sagging moment there bends it, by each power of the moment over a piece, times
        EI [mm]
    turn : ndarray, shape (P, 4)
        Rotation by each power of the moment over a piece, times EI [mm]
    rise : ndarray, shape (P, 5)
        Sag by each power of the rotation over a piece [mm]
    """

    edges: Array
    marks: Array
    h: Array
    L: Array
    segment: Index
    ends: Index
    spans: slice
    span: Index
    first_piece: Index
    along: Array
    cut_edge: Index
    cut_load: Index
    held: Index
    held_edge: Index
    strains: Array
    hinged: Array
    turn: Array
    rise: Array

    def __post_init__(self) -> None:
        for name in self.__slots__:
            value = getattr(self, name)
            if isinstance(value, np.ndarray):
                value.flags.writeable = False


@lru_cache(maxsize=_REMEMBERED)
def layout(length: float, support_at: tuple[float, ...], loaded_at: frozenset[float]) -> Layout:
    """Lay a beam out.

    Parameters
    ----------
    length : float
        Length of the beam [mm]
    support_at : tuple of float
        Places of the n supports, rising [mm]
    loaded_at : frozenset of float
        Places where a load starts, ends or stands [mm]

    Returns
    -------
    layout : Layout
        Its places; see there for units [-]

    Notes
    -----
    Source: own derivation.
    """
    # Sets of Python floats: a beam has few places, and np.unique costs more than a solution.
    places = {0.0, length, *support_at}
    at = np.array(support_at)
    marks = np.array(sorted(places))
    edges = np.array(sorted(places | loaded_at))
    h, L = np.diff(edges), np.diff(at)
    first = int(support_at[0] > 0.0)  # segment to the right of the first support
    segment = marks.searchsorted(edges[:-1], side="right") - 1
    ends = edges.searchsorted(at)
    spans = slice(int(ends[0]), int(ends[-1]))
    span = segment[spans] - first
    along = edges[spans] - at[span]
    cut = np.full(marks.size - 1, edges.size - 1)
    cut[first : first + L.size] = ends[:-1]
    cut[:first] = 0
    after = cut + 1
    after[:first] = 0  # a force on a free left end lies outside the cut
    held = np.maximum(segment - first, 0)
    return Layout(
        edges=edges,
        marks=marks,
        h=h,
        L=L,
        segment=segment,
        ends=ends,
        spans=spans,
        span=span,
        first_piece=ends[:-1] - ends[0],
        along=along,
        cut_edge=cut[segment],
        cut_load=after[segment],
        held=held,
        held_edge=ends[held],
        strains=_strains(L),
        hinged=_hinged(h[spans], along, L[span]),
        turn=-h[:, None] * _MEAN,
        rise=h[:, None] / _POWERS,
    )


def _hinged(h: Array, along: Array, L: Array) -> Array:
    h, along, L = h[:, None], along[:, None], L[:, None]
    area = h * _MEAN
    about_left = (along * area + h * h * _FIRST_MOMENT) / L
    return np.stack([area - about_left - L / 6.0 * _GAIN, about_left - L / 3.0 * _GAIN], axis=1)


def _strains(L: Array) -> Array:
    left, right = np.eye(L.size, L.size + 1), np.eye(L.size, L.size + 1, 1)
    chord = (left - right) / L[:, None]
    return np.block([[chord, left], [-chord, -right]])
