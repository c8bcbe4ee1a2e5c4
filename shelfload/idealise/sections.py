"""The cross-section of a shelf: what bends as one, what slides on screws, what only lies there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from shelfload.describe.catalogue import Catalogue
from shelfload.describe.parts import Panel, Shelf
from shelfload.idealise.pieces import (
    STANDARD_GRAVITY,
    NoFigure,
    Piece,
    Pieces,
    piece_of,
    pieces_of,
    weight_of,
)
from shelfload.idealise.section_words import effects, in_words
from shelfload.solve import composite, section, slip
from shelfload.solve.sliding import sliding

__all__ = [
    "STANDARD_GRAVITY",
    "NoFigure",
    "Piece",
    "ShelfSection",
    "SlipSpan",
    "aged_stiffness",
    "shelf_section",
    "stiffness_with",
    "weight_of",
]

Array = NDArray[np.float64]

CONTINUOUS_SHARE = 0.65
"""Length for the slip of parts that run on over a support, as a share of the shortest span.

The 0.8 of EN 1995-1-1:2004, B.1.3(2) overrates a screwed double over two equal spans by up to
an eighth against the exact solution; 0.65 by less than 1 %, and only where the screws are
almost as good as glue (own comparison, two to four spans).
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipSpan:
    """The span over which fasteners slip [mm]; ``continuous`` where it runs over a support."""

    span: float
    continuous: bool = False

    @property
    def length(self) -> float:
        """Length to put into the efficiency of the fasteners [mm]."""
        return self.span * (CONTINUOUS_SHARE if self.continuous else composite.SLIP_SPAN["simple"])


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfSection:
    """A shelf's cross-section, ready to bend.

    Attributes
    ----------
    pieces : tuple of Piece
        Panels first, then webs, lippings and strips.
    section : solve.section.Section
        Stiffness on the first day, and stress coefficients.
    EI_used : float
        Bending stiffness used: free to move sideways [N mm2].
    depth : float
        Front to back, lippings included [mm].
    thickness : float
        Of the panels together, a hollow between them included [mm].
    bonded : bool
        Whether the pieces bend as one.
    weight : float
        Self-weight per length [N/mm].
    words : str
        The section in words.
    said : tuple of str
        What was assumed on the way.
    effects : tuple of str
        What each addition to the panel does for its stiffness.
    panels_EI : float or None
        Bending stiffness without what stands on the edges; None where that is the panels'
        own [N mm2].
    slip_span : SlipSpan or None
        Where parts slide on screws.
    """

    pieces: tuple[Piece, ...]
    section: section.Section
    EI_used: float
    depth: float
    thickness: float
    bonded: bool
    weight: float
    words: str
    said: tuple[str, ...]
    effects: tuple[str, ...] = ()
    panels_EI: float | None = None
    slip_span: SlipSpan | None = None


def shelf_section(
    shelf: Shelf,
    depth: float,
    panel: Panel | None,
    catalogue: Catalogue,
    slip_span: SlipSpan | None = None,
) -> ShelfSection:
    """Build the cross-section of a shelf.

    Parameters
    ----------
    shelf : Shelf
        As described.
    depth : float
        Front to back, lippings included [mm].
    panel : Panel or None
        Stands for material and thickness where the shelf says none.
    catalogue : Catalogue
        Resolves names.
    slip_span : SlipSpan or None
        Span of parts that slide on screws; None counts them as lying there.

    Raises
    ------
    NoFigure
        If a part has no known stiffness.
    """
    made = pieces_of(shelf, depth, panel, catalogue)
    pieces, said = made.pieces, made.said
    slides = any(piece.sliding is not None for piece in pieces)
    shape = _bent(pieces, slip_span, ultimate=True)
    EI = _stiffness(pieces, slip_span)
    if EI < 0.999 * float(_bent(pieces, slip_span).EI):
        said.append("a lipping on one edge: the shelf is taken as free to move sideways")
    if slides and slip_span is not None and slip_span.continuous:
        said.append(
            "parts that slide on screws over several spans: efficiency of the screws from "
            f"{CONTINUOUS_SHARE:g} of the shortest span"
        )
    inner = [piece for piece in pieces if not piece.name.startswith(("front ", "rear "))]
    plain = all(piece.name.endswith("panel") for piece in inner)
    return ShelfSection(
        pieces=tuple(pieces),
        section=shape,
        EI_used=EI,
        depth=depth,
        thickness=made.thickness,
        bonded=not slides,
        weight=sum(piece.weight for piece in pieces),
        words=in_words(pieces, shelf),
        said=tuple(dict.fromkeys(said)),
        effects=_effects(shelf, made, slip_span),
        panels_EI=None if plain and not slides else _stiffness(inner, slip_span),
        slip_span=slip_span,
    )


def _effects(shelf: Shelf, made: Pieces, slip_span: SlipSpan | None) -> tuple[str, ...]:
    def stiffness_of(pieces: Sequence[Piece]) -> float:
        return _stiffness(pieces, slip_span)

    across = [piece for piece in made.pieces if piece.direction == "across"]
    along = None
    if across and shelf.grain == "across":
        try:
            turned = [
                piece
                if piece.direction == "along"
                else replace(
                    piece_of(
                        piece.name,
                        piece.material,
                        (piece.width, piece.height),
                        (piece.y, piece.z),
                        "along",
                    ),
                    sliding=piece.sliding,
                    fix=piece.fix,
                )
                for piece in made.pieces
            ]
            along = _stiffness(turned, slip_span)
        except NoFigure:
            along = None
    return effects(made.pieces, stiffness_of, along)


def aged_stiffness(shape: ShelfSection, kdefs: Sequence[float]) -> float:
    """Return the bending stiffness after years, each piece's E over 1 + kdef [N mm2].

    Fasteners creep by the kdef of their joint as well.

    Source: EN 1995-1-1:2004, 2.2.3 and equations (2.7), (2.9), (2.13).
    """
    return _stiffness(shape.pieces, shape.slip_span, kdefs)


def stiffness_with(shape: ShelfSection, pieces: Sequence[Piece]) -> tuple[float, float]:
    """Return EI [N mm2] and GA [N] of a section whose pieces have other figures than described."""
    bent = _bent(pieces, shape.slip_span)
    return float(bent.EI_free), float(bent.GA)


def _stiffness(
    pieces: Sequence[Piece], slip_span: SlipSpan | None, kdefs: Sequence[float] | None = None
) -> float:
    return float(_bent(pieces, slip_span, kdefs).EI_free)


def _bent(
    pieces: Sequence[Piece],
    slip_span: SlipSpan | None,
    kdefs: Sequence[float] | None = None,
    *,
    ultimate: bool = False,
) -> section.Section:
    """Bend the pieces together: glued ones as one, the others as their fasteners let them."""
    creep = np.asarray(kdefs if kdefs is not None else [0.0] * len(pieces))
    columns = {
        "E": np.array([piece.stiffness.E for piece in pieces]) / (1.0 + creep),
        "G": np.array([piece.stiffness.G for piece in pieces]) / (1.0 + creep),
        "b": np.array([piece.width for piece in pieces]),
        "h": np.array([piece.height for piece in pieces]),
    }
    places = {
        "y": np.array([piece.y for piece in pieces]),
        "z": np.array([piece.z for piece in pieces]),
    }
    if all(piece.sliding is None for piece in pieces):
        return section.bonded(**columns, **places)
    gamma = np.array(
        [
            _efficiency(piece, pieces, slip_span, E, kdefs, number, ultimate=ultimate)
            for number, (piece, E) in enumerate(zip(pieces, columns["E"], strict=True))
        ]
    )
    group = gamma == 1.0
    alone = section.bonded(**{key: value[group] for key, value in {**columns, **places}.items()})
    if not gamma[~group].any():
        return _loosely(columns, places, group, alone)
    found = sliding(**columns, **places, gamma=gamma, GA=alone.GA)
    peak = found.shear_peak.copy()
    peak[group] = np.maximum(peak[group], alone.shear_peak)
    return replace(found, shear_peak=peak)


def _loosely(
    columns: dict[str, Array], places: dict[str, Array], group: NDArray[np.bool_],
    alone: section.Section,
) -> section.Section:  # fmt: skip
    """Parts that only lie there take their share; the glued group stays one section."""
    if group.sum() == 1:
        return section.lying(**columns)
    loose = sliding(**columns, **places, gamma=np.where(group, 1.0, 0.0), GA=alone.GA)
    peak = loose.shear_peak.copy()
    peak[group] = np.maximum(peak[group], alone.shear_peak)
    return replace(loose, shear_peak=peak)


def _efficiency(
    piece: Piece,
    pieces: Sequence[Piece],
    slip_span: SlipSpan | None,
    E: float,
    kdefs: Sequence[float] | None,
    number: int,
    *,
    ultimate: bool,
) -> float:
    """Efficiency of a piece's fasteners: 1 for glue, 0 for a piece that only lies there.

    Source: EN 1995-1-1:2004, B.2, equation (B.5); a strip of several rectangles slides as one.
    """
    slide = piece.sliding
    if slide is None:
        return 1.0
    if slip_span is None or slide.stiffness == 0.0:
        return 0.0
    K = np.array(slide.stiffness)
    if kdefs is not None:
        K = slip.slip_modulus_final(K, slip.joint_creep(kdefs[0], kdefs[number]))
    if ultimate:
        K = slip.slip_modulus_ultimate(K)
    together = [one for one in pieces if one.fix == piece.fix]
    area = sum(one.width * one.height for one in together)
    return float(composite.gamma_slip(E, area, 1.0, K, slip_span.length))
