"""The key under a drawing: what its hatches, marks and lines mean."""

from __future__ import annotations

from collections.abc import Sequence

from shelfload.report.svg import label, path, rect, tag, width_of

_SWATCH, _GAP, _LINE = 18.0, 12.0, 18.0


def swatch(kind: str, key: str) -> str:
    """Return the body of a swatch of 18 x 10 px at the origin."""
    if kind == "back":
        return rect(0, 0, _SWATCH, 10, "d-back", style=f"fill: url(#{key}-back)")
    if kind == "goods":
        return rect(0, 0, _SWATCH, 10, "d-goods")
    if kind == "sag":
        return path("M0,2 Q9,12 18,2", "d-sag")
    if kind == "screw":
        return tag("circle", cx=9, cy=5, r=2.4, class_="d-mark")
    if kind == "wall":
        return tag("circle", cx=9, cy=5, r=4, class_="d-mark") + path("M5,5 h8 M9,1 v8", "d-seam")
    if kind == "row":
        return path("M0,5 H18", "d-dim", stroke_dasharray="7 3")
    if kind in ("glued", "screwed", "lying"):
        dashes = {"screwed": "5 2", "lying": "1.5 2"}.get(kind)
        return rect(0, 0, _SWATCH, 10, "d-board") + path(
            "M0,5 H18", "d-seam", stroke_dasharray=dashes
        )
    if kind == "passes":
        return rect(0, 0, _SWATCH, 10, "d-board")
    return rect(0, 0, _SWATCH, 10, f"d-tint-{kind}") + rect(
        0, 0, _SWATCH, 10, f"d-edge-{kind}", style=f"fill: url(#{key}-{kind})"
    )


def key_of(
    entries: Sequence[tuple[str, str]], key: str, left: float, top: float, width: float
) -> tuple[str, float]:
    """Lay the entries out in lines; returns them and the height they take [px]."""
    parts: list[str] = []
    x, y = left, top
    for kind, text in entries:
        needed = _SWATCH + 5 + width_of(text) + _GAP
        if x > left and x + needed > left + width:
            x, y = left, y + _LINE
        moved = tag("g", swatch(kind, key), transform=f"translate({x:.1f} {y:.1f})")
        parts.append(moved + label(x + _SWATCH + 5, y + 9, text, class_="d-soft"))
        x += needed
    return "".join(parts), y + _LINE - top
