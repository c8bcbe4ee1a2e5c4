"""A cross-section in words, and what each addition to the panel does for it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from shelfload.describe.parts import Shelf
from shelfload.idealise.pieces import Piece
from shelfload.wording import size

LITTLE = 0.15
"""Gain of stiffness up to which an addition is said to do little (own choice)."""


def in_words(pieces: Sequence[Piece], shelf: Shelf) -> str:
    """Return a section in words."""
    panels = [piece for piece in pieces if piece.name.endswith("panel")]
    words = " on ".join(f"{_mm(piece.height)} {piece.material.called}" for piece in panels)
    if shelf.hollow is not None:
        words += f" with {shelf.hollow.webs} webs {_mm(shelf.hollow.height)} high between them"
    if shelf.joined:
        words += f", {shelf.joined}"
    if shelf.grain == "across":
        words += ", grain across"
    for fix in dict.fromkeys(piece.fix for piece in pieces if piece.fix or _is_edge(piece)):
        for one in [piece for piece in pieces if piece.fix == fix][:1]:
            if not one.name.endswith("panel"):
                words += f", {one.name} {_size([p for p in pieces if p.fix == fix])} "
                words += one.material.called
    return words


def _is_edge(piece: Piece) -> bool:
    return piece.name.startswith(("front ", "rear "))


def _size(pieces: Sequence[Piece]) -> str:
    width = max(p.y + p.width / 2 for p in pieces) - min(p.y - p.width / 2 for p in pieces)
    height = max(p.z + p.height / 2 for p in pieces) - min(p.z - p.height / 2 for p in pieces)
    return f"{_mm(width)} x {_mm(height)}"


def effects(
    pieces: Sequence[Piece],
    stiffness_of: Callable[[Sequence[Piece]], float],
    along: float | None,
) -> tuple[str, ...]:
    """Say by how much each addition stiffens the section; "little" where it hardly does.

    ``along`` is the stiffness with the face grain along the span, where it runs across.
    """
    whole = stiffness_of(pieces)
    found = []
    lower = next((p for p in pieces if p.name == "lower panel" and p.sliding is not None), None)
    if lower is not None and lower.sliding is not None and lower.sliding.stiffness:
        found.append(_double(pieces, lower, whole, stiffness_of))
    for fix in dict.fromkeys(p.fix for p in pieces if p.fix and not p.name.endswith("panel")):
        if any(p.fix == fix and "let-in" in p.name for p in pieces):
            found.append(_let_in(pieces, fix, whole, stiffness_of))
            continue
        without = stiffness_of([piece for piece in pieces if piece.fix != fix])
        one = next(piece for piece in pieces if piece.fix == fix)
        text = f"the {one.name} adds {whole / without - 1:.0%} to its stiffness"
        if whole / without - 1 < LITTLE:
            text += ", which is little"
        if one.sliding is not None:
            if one.sliding.words:
                text += f" ({one.sliding.words})"
            # glued to a lower panel that slides itself, it would be no part of the upper one
            if not (one.name == "under strip" and lower is not None):
                glued = stiffness_of(
                    [replace(p, sliding=None) if p.fix == fix else p for p in pieces]
                )
                text += f"; glued it would add {glued / without - 1:.0%}"
        found.append(text)
    if along is not None and along > 1.05 * whole:
        found.append(
            f"its face grain runs across the span: along it, it would be {along / whole:.1f} "
            "times as stiff; see how the sheet is cut up"
        )
    return tuple(found)


def _double(
    pieces: Sequence[Piece],
    lower: Piece,
    whole: float,
    stiffness_of: Callable[[Sequence[Piece]], float],
) -> str:
    def with_lower(changed: Piece) -> float:
        return stiffness_of([changed if piece is lower else piece for piece in pieces])

    if lower.sliding is None:
        raise AssertionError("asked of a double that slides")
    loose = with_lower(replace(lower, sliding=replace(lower.sliding, stiffness=0.0)))
    glued = with_lower(replace(lower, sliding=None))
    text = (
        f"{lower.sliding.words} make the double {whole / loose - 1:.0%} stiffer than two loose "
        f"panels, glue would make it {glued / loose - 1:.0%} stiffer"
    )
    if whole - loose < 0.25 * (glued - loose):
        text += ": screws alone make little of a double"
    return text


def _let_in(
    pieces: Sequence[Piece],
    fix: str,
    whole: float,
    stiffness_of: Callable[[Sequence[Piece]], float],
) -> str:
    """Compare with the panel before the groove was cut."""
    inlay = [piece for piece in pieces if piece.fix == fix]
    panel = next(
        p
        for p in pieces
        if p.name == "panel over a groove" and abs(p.y - _middle(inlay)) < 0.5 * p.width
    )
    filled = replace(
        panel, name="filling", height=_depth(inlay), z=min(p.z - p.height / 2 for p in inlay)
        + _depth(inlay) / 2,
    )  # fmt: skip
    before = stiffness_of([*(piece for piece in pieces if piece.fix != fix), filled])
    gain = whole / before - 1
    text = f"the {inlay[0].material.called} let into it adds {gain:.0%} to its stiffness"
    return f"{text}, which is little" if gain < LITTLE else text


def _middle(pieces: Sequence[Piece]) -> float:
    return sum(piece.y for piece in pieces) / len(pieces)


def _depth(pieces: Sequence[Piece]) -> float:
    return max(p.z + p.height / 2 for p in pieces) - min(p.z - p.height / 2 for p in pieces)


def _mm(value: float) -> str:
    return size(value)
