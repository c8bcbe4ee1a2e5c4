"""Colours and hatches of the drawings and the page: each verdict has a hatch and a word too."""

from __future__ import annotations

from collections.abc import Mapping

from shelfload.check.result import Verdict
from shelfload.report.svg import tag

LIGHT: Mapping[str, str] = {
    "paper": "#fbfaf6",
    "sheet": "#ffffff",
    "ink": "#20242b",
    "soft": "#565c66",
    "rule": "#c9c5b8",
    "board": "#e9dcc0",
    "goods": "#dfe5ea",
    "line": "#8a8f98",
    "link": "#1d4f7a",
    "passes": "#1f6a45",
    "close": "#7d5200",
    "not checked": "#64409a",
    "fails": "#a3232b",
}
DARK: Mapping[str, str] = {
    "paper": "#171a1f",
    "sheet": "#1e2228",
    "ink": "#e8e6e0",
    "soft": "#b4b8bf",
    "rule": "#4a505a",
    "board": "#6d5c3d",
    "goods": "#333b45",
    "line": "#868d98",
    "link": "#9cc7ee",
    "passes": "#7fd0a4",
    "close": "#e8b45a",
    "not checked": "#c3a6f0",
    "fails": "#ff9a94",
}
CLASSES = {
    Verdict.PASSES: "passes",
    Verdict.CLOSE: "close",
    Verdict.NOT_CHECKED: "unchecked",
    Verdict.FAILS: "fails",
}
"""Name of a verdict in class names and hatches."""

_FONT = "system-ui, 'Segoe UI', 'Noto Sans', 'DejaVu Sans', sans-serif"


def drawing_rules() -> str:
    """Return the style of all drawings, for light and dark, for screen and paper."""
    dark = _rules(DARK)
    return f"{_rules(LIGHT)}\n@media screen and (prefers-color-scheme: dark) {{\n{dark}\n}}"


def _rules(ink: Mapping[str, str]) -> str:
    rules = {
        "": f"font: 12px {_FONT}; color-scheme: light dark",
        "text": f"fill: {ink['ink']}",
        ".d-soft": f"fill: {ink['soft']}",
        ".d-sheet": f"fill: {ink['sheet']}",
        ".d-board": f"fill: {ink['board']}; stroke: {ink['ink']}; stroke-width: 0.8",
        ".d-seam": f"stroke: {ink['ink']}; stroke-width: 0.8; fill: none",
        ".d-goods": f"fill: {ink['goods']}; stroke: {ink['line']}; stroke-width: 0.6",
        ".d-thin": f"stroke: {ink['line']}; stroke-width: 0.7; fill: none",
        ".d-dim": f"stroke: {ink['soft']}; stroke-width: 0.8; fill: none",
        ".d-sag": f"stroke: {ink['link']}; stroke-width: 1.6; fill: none",
        ".d-mark": f"stroke: {ink['ink']}; stroke-width: 1.3; fill: {ink['sheet']}",
        ".d-strong": "font-weight: 700",
        ".d-name": f"font-weight: 700; paint-order: stroke; stroke: {ink['sheet']}; "
        "stroke-width: 5; stroke-linejoin: round",
        ".d-back": f"stroke: {ink['rule']}; stroke-width: 1; fill: none",
        ".d-frame": f"fill: {ink['sheet']}; stroke: {ink['ink']}; stroke-width: 0.8",
    }
    for name, colour in (
        ("passes", ink["passes"]),
        ("close", ink["close"]),
        ("unchecked", ink["not checked"]),
        ("fails", ink["fails"]),
    ):
        rules[f"text.d-{name}"] = f"fill: {colour}; font-weight: 700"
        rules[f".d-hatch-{name}"] = f"stroke: {colour}; stroke-width: 2; fill: {colour}"
        rules[f".d-tint-{name}"] = f"fill: {colour}; fill-opacity: 0.28; stroke: none"
        rules[f".d-edge-{name}"] = f"fill: none; stroke: {colour}; stroke-width: 1.4"
    return "\n".join(
        f".drawing {name} {{ {rule} }}".replace("  ", " ") for name, rule in rules.items()
    )


def hatches(key: str) -> str:
    """Return the hatches of one drawing; ``key`` keeps their names apart on a page."""

    def hatch(name: str, body: str, size: float = 6) -> str:
        return tag(
            "pattern", body, id=f"{key}-{name}", width=size, height=size,
            patternUnits="userSpaceOnUse",
        )  # fmt: skip

    rising = "M-1,7 L7,-1"
    return tag(
        "defs",
        hatch("back", tag("path", d="M-1,9 L9,-1", class_="d-back"), 8)
        + hatch("close", tag("path", d=rising, class_="d-hatch-close"))
        + hatch("unchecked", tag("circle", cx=3, cy=3, r=0.9, class_="d-hatch-unchecked"))
        + hatch("fails", tag("path", d=f"{rising} M-1,-1 L7,7", class_="d-hatch-fails")),
    )
