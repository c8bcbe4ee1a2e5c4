"""The marks of one join along a strip at scale, each with its distance from the end."""

from __future__ import annotations

from shelfload.check.join_line import JoinLine
from shelfload.report.joins import HEADER, join_rows
from shelfload.report.svg import (
    Drawing,
    label,
    number,
    path,
    rect,
    shortened,
    tag,
    visible,
    width_of,
)
from shelfload.units import UnitSystem
from shelfload.wording import size, spelled

_WIDTH, _LEFT, _RIGHT, _TOP = 470.0, 18.0, 22.0, 44.0
_TALLEST = 60.0
_PLAIN = 24.0
_LEAST_GAP = 13.0


def screw_layout(line: JoinLine, number_: int, key: str, system: UnitSystem) -> Drawing | None:
    """Draw the marks of a join from one end; None where there are no marks to draw."""
    if not line.positions:
        return None
    length = line.positions[0] + line.positions[-1]
    per_mm = (_WIDTH - _LEFT - _RIGHT) / length
    tall = _PLAIN if line.edge is None else min(max(2 * line.edge * per_mm, 12.0), _TALLEST)
    middle, foot = _TOP + tall / 2, _TOP + tall
    parts = [rect(_LEFT, _TOP, length * per_mm, tall, "d-board")]
    parts.append(
        path(
            f"M{number(_LEFT - 6)},{number(middle)} H{number(_LEFT + length * per_mm + 6)}",
            "d-dim",
            stroke_dasharray="9 2 2 2",
        )
    )
    deepest, last = 0.0, -_LEAST_GAP
    for mark in (*line.positions, length):
        x = _LEFT + mark * per_mm
        text = _mm(mark, system)
        is_end = mark == length
        if not is_end:
            parts.append(tag("circle", cx=x, cy=middle, r=4.0, class_="d-mark"))
            parts.append(path(f"M{number(x - 2.6)},{number(middle)} h5.2", "d-seam"))
        at = max(x, last + _LEAST_GAP)
        last = at
        parts.append(
            path(
                f"M{number(x)},{number(foot + (0 if is_end else 2))} "
                f"L{number(x)},{number(foot + 8)} L{number(at)},{number(foot + 14)}",
                "d-dim",
            )
        )
        long = width_of(text)
        deepest = max(deepest, long)
        parts.append(
            label(
                at + 4, foot + 17, text, at="end", turned=True,
                class_="d-strong" if is_end else "",
            )
        )  # fmt: skip
    row = dict(zip(HEADER, join_rows([line], system)[0], strict=True))
    drive = row["fasteners in each"].split(", about")[0]
    parts.append(label(_LEFT, 14, f"{number_}. {shortened(drive, 54)}", class_="d-strong"))
    parts.append(label(_LEFT, 30, shortened(row["holes"], 62), class_="d-soft"))
    note = f"from one end {line.along}".rstrip()
    if line.edge is not None:
        note += f"; the row at least {_mm(line.edge, system)} from an edge"
    parts.append(label(_LEFT, foot + 40 + deepest, note, class_="d-soft"))
    where = visible(row["join"])
    return Drawing(
        key=key,
        title=f"Marks of join {number_}",
        description=f"{where}. {drive}; marks {row['marks from either end']}; {row['holes']}.",
        width=_WIDTH,
        height=foot + 50 + deepest,
        body="".join(parts),
    )


def _mm(value: float, system: UnitSystem) -> str:
    return spelled(size(value), system)
