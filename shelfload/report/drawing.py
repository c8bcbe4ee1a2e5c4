"""All drawings of a description, set into a page or alone in a file."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from shelfload.check.assess import Findings
from shelfload.errors import UnknownName
from shelfload.idealise.shelf_beam import ShelfBeam
from shelfload.idealise.whole import Whole
from shelfload.report.elevation import group_elevation, unit_elevation
from shelfload.report.ink import drawing_rules, hatches
from shelfload.report.lone_drawing import lone_elevation
from shelfload.report.plan import lone_plan, unit_plan
from shelfload.report.screw_layout import screw_layout
from shelfload.report.svg import Drawing, inner, label, number, rect, shortened, tag, words
from shelfload.units import UnitSystem

_EDGE, _HEAD = 16.0, 30.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """The drawings of one unit or lone shelf: from the front, from above, and its joins."""

    name: str
    views: tuple[Drawing, ...]
    layouts: tuple[Drawing, ...]


def drawings(findings: Findings, system: UnitSystem, unit: str | None = None) -> list[Drawn]:
    """Draw everything described, or one unit.

    Raises
    ------
    UnknownName
        If nothing is called ``unit``.
    """
    whole = findings.whole
    names = [*(lone.name for lone in whole.project.shelf), *whole.placed]
    if unit is not None and unit not in names:
        raise UnknownName("unit or shelf", unit, names)
    lone = {one.name: one for one in whole.project.shelf}
    found = []
    for count, name in enumerate(names, start=1):
        if unit not in (None, name):
            continue
        key = f"u{count}"
        views: list[Drawing] = []
        if name in whole.placed:
            views += [
                unit_elevation(findings, name, f"{key}-front", system),
                unit_plan(findings, name, f"{key}-plan", system),
            ]
        for beam in whole.lone:
            if name in lone and isinstance(beam, ShelfBeam) and beam.place.unit == name:
                views += [
                    lone_elevation(findings, lone[name], beam, f"{key}-front", system),
                    lone_plan(lone[name], beam, f"{key}-plan", system),
                ]
        lines = [line for line in findings.joins if line.place.unit == name]
        layouts = [
            screw_layout(line, at, f"{key}-join{at}", system)
            for at, line in enumerate(lines, start=1)
        ]
        found.append(
            Drawn(
                name=name,
                views=tuple(views),
                layouts=tuple(one for one in layouts if one is not None),
            )
        )
    return found


def together(findings: Findings, system: UnitSystem) -> list[Drawing]:
    """Draw each group of units that stand on each other or hang between each other."""
    whole = findings.whole
    return [
        group_elevation(
            findings, [name for name in whole.placed if name in group], f"g{count}", system
        )
        for count, group in enumerate(groups(whole), start=1)
        if len(group) > 1
    ]


def groups(whole: Whole) -> list[set[str]]:
    """Return the names of units that stand on, or hang between, each other; some alone."""
    found: list[set[str]] = []
    for name, placed in whole.placed.items():
        touching = {name, *placed.below, *placed.above}
        apart = [group for group in found if not group & touching]
        joined = touching.union(*(group for group in found if group & touching))
        found = [*apart, joined]
    return found


def inline(drawing: Drawing) -> str:
    """Return a drawing as SVG to be set into a page that has :func:`drawing_rules`."""
    return inner(drawing, hatches(drawing.key))


def standalone(title: str, drawn: Sequence[Drawn], whole: Iterable[Drawing] = ()) -> str:
    """Return drawings one under the other as an SVG file that needs nothing else."""
    placed, y = [], _EDGE + _HEAD
    sheets: list[tuple[str, Drawing]] = [("", one) for one in whole]
    for one in drawn:
        sheets += [(one.name, view) for view in one.views]
        sheets += [(one.name, layout) for layout in one.layouts]
    for name, drawing in sheets:
        caption = (
            f"{name}: {drawing.title}" if name and name not in drawing.title else drawing.title
        )
        placed.append(label(_EDGE, y + 14, shortened(caption, 80), class_="d-strong"))
        body = inline(drawing).replace(
            "<svg ", f'<svg x="{number(_EDGE)}" y="{number(y + 24)}" ', 1
        )
        placed.append(body)
        y += drawing.height + 24 + _EDGE
    width = max((drawing.width for _, drawing in sheets), default=400.0) + 2 * _EDGE
    said = "; ".join(drawing.title for _, drawing in sheets)
    return (
        tag(
            "svg",
            words("title", title, id="title")
            + words("desc", said, id="desc")
            + tag("style", f"\n{drawing_rules()}\n".replace("<", "").replace("&", ""))
            + rect(0, 0, width, y, "d-sheet")
            + label(_EDGE, _EDGE + 12, shortened(title, 90), class_="d-strong")
            + "".join(placed),
            xmlns="http://www.w3.org/2000/svg",
            class_="drawing",
            viewBox=f"0 0 {number(width)} {number(y)}",
            width=number(width),
            height=number(y),
            role="img",
            aria_labelledby="title desc",
        )
        + "\n"
    )
