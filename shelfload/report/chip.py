"""The name, verdict and bar of utilisation written beside a shelf."""

from __future__ import annotations

from shelfload.report.ink import CLASSES
from shelfload.report.states import State
from shelfload.report.svg import label, number, path, rect

_BAR = 92.0


def chip(x: float, y: float, shelf_y: float, name: str, state: State, key: str) -> str:
    """Return name, verdict and a bar of utilisation, with a leader to the shelf."""
    kind = CLASSES[state.verdict]
    parts = [path(f"M{number(x - 20)},{number(shelf_y)} L{number(x - 4)},{number(y)}", "d-thin")]
    parts.append(label(x, y - 3, name))
    if state.used is not None:
        long = _BAR * min(state.used, 1.0)
        parts.append(rect(x, y + 1, long, 5, f"d-tint-{kind}"))
        parts.append(rect(x, y + 1, long, 5, "", fill=f"url(#{key}-{kind})"))
        parts.append(rect(x, y + 1, _BAR, 5, "d-thin"))
    parts.append(label(x, y + 18, state.text, class_=f"d-{kind}"))
    return "".join(parts)
