"""A shelf without a carcass, from the front: supports, contents, verdict, sag."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from shelfload.check.assess import Findings
from shelfload.describe.model import LoneShelf
from shelfload.describe.standing import Brackets, Cleat, Rods
from shelfload.idealise.shelf_beam import ShelfBeam
from shelfload.report.chip import chip
from shelfload.report.elevation import LEAST, LEFT, RIGHT, sheet_scale
from shelfload.report.ink import CLASSES
from shelfload.report.key import key_of
from shelfload.report.states import UNKNOWN, drawn_as, exaggeration, sag_shapes, states
from shelfload.report.svg import (
    Drawing,
    Scale,
    across,
    alike,
    label,
    number,
    path,
    rect,
    shortened,
    tag,
    width_of,
    words,
)
from shelfload.units import UnitSystem
from shelfload.wording import figure, size, spelled

_ABOVE, _GOODS, _BELOW = 76.0, 34.0, 74.0
_THINNEST = 5.0
_FEW = 4  # spans whose dimensions are written one by one
_TURNED = 30.0  # px for dimensions that read upwards
_SAG_SHOWN = 22.0


def lone_elevation(
    findings: Findings, lone: LoneShelf, beam: ShelfBeam, key: str, system: UnitSystem
) -> Drawing:
    """Draw a shelf on supports of its own; the span is to scale, its thickness at least 5 px."""
    length = beam.result.beam.length
    flat, _ = sheet_scale(length, length / 1.7)
    scale = Scale(per_mm=flat.per_mm, left=LEFT, foot=_ABOVE)
    thick = max(beam.shape.thickness * scale.per_mm, _THINNEST)
    parts = [rect(scale.x(0.0), _ABOVE, length * scale.per_mm, thick, "d-board")]
    state = states(findings, lone.name).get(beam.place.part, UNKNOWN)
    kind = CLASSES[state.verdict]
    if kind != "passes":
        box = (scale.x(0.0), _ABOVE, length * scale.per_mm, thick)
        parts.append(rect(*box, f"d-tint-{kind}"))
        parts.append(rect(*box, f"d-edge-{kind}", style=f"fill: url(#{key}-{kind})"))
    parts += _contents(scale, beam, system)
    parts += _supports(scale, lone, beam, thick, system)
    shapes = sag_shapes(findings, lone.name)
    deepest = max((float(np.abs(shape.sag).max()) for shape in shapes), default=0.0)
    times = exaggeration(deepest, scale.per_mm, _SAG_SHOWN)
    for shape in shapes:
        points = " ".join(
            f"{number(scale.x(x))},{number(_ABOVE + thick + w * scale.per_mm * times)}"
            for x, w in zip(shape.along, shape.sag, strict=True)
        )
        parts.append(path(f"M{points}", "d-sag"))
    foot = _ABOVE + thick + _BELOW
    marks = [0.0, *(support.at for support in beam.supports), length]
    gaps = [(before, after) for before, after in pairwise(marks) if after - before > 1.0]
    runs = alike(gaps) if len(gaps) > _FEW else [(a, b, b - a, 1) for a, b in gaps]
    narrow = 0.0
    for start, end, one, count in runs:
        text = _mm(one, system) if count == 1 else f"{count} x {_mm(one, system)}"
        parts.append(across(scale.x(start), scale.x(end), foot, text))
        if width_of(text) > 1.9 * (end - start) * scale.per_mm:
            narrow = _TURNED
    if len(marks) > 4:
        parts.append(across(scale.x(0.0), scale.x(length), foot + 28 + narrow, _mm(length, system)))
    y = _ABOVE + thick / 2
    parts.append(chip(scale.x(length) + 22, y, y, "shelf", state, key))
    entries = [(kind, f"shelf: {state.text.split()[-1] if kind == 'passes' else state.text}")]
    if shapes:
        entries.append(("sag", f"{shapes[0].when}, all bays full, {drawn_as(times)}"))
    sheet = max(LEFT + length * scale.per_mm + RIGHT, LEAST)
    legend, tall = key_of(entries, key, 8.0, foot + 44 + narrow, sheet - 16)
    return Drawing(
        key=key,
        title=f"{shortened(lone.name)} from the front",
        description=f"{_mm(length, system)} long, on {len(beam.supports)} supports; {state.text}.",
        width=sheet,
        height=foot + 48 + narrow + tall,
        body="".join(parts) + legend,
    )


def _contents(scale: Scale, beam: ShelfBeam, system: UnitSystem) -> list[str]:
    parts = []
    for bay in beam.bays:
        if bay.load.even:
            first, last = bay.load.reach or (0.0, bay.end - bay.start)
            x1, x2 = scale.x(bay.start + first) + 2, scale.x(bay.start + last) - 2
            mass = bay.load.even * (bay.end - bay.start)
            text = spelled(figure(mass, "force", as_mass=True), system)
            block = rect(x1, _ABOVE - _GOODS, max(x2 - x1, 1.0), _GOODS, "d-goods")
            parts.append(tag("g", words("title", f"{text}: {bay.load.words}") + block))
            if width_of(text) < x2 - x1:
                aside = 0.25 if bay.load.points and 2 * width_of(text) < x2 - x1 else 0.5
                x = x1 + aside * (x2 - x1)
                parts.append(label(x, _ABOVE - _GOODS / 2 + 4, text, at="middle"))
        for force, at, _ in bay.load.points:
            x = scale.x(bay.start + at)
            text = spelled(figure(force, "force", as_mass=True), system)
            parts.append(
                path(f"M{number(x)},{_ABOVE - 52} V{_ABOVE - 1} m-3.5,-6 l3.5,6 l3.5,-6", "d-seam")
            )
            parts.append(label(x, _ABOVE - 56, text, at="middle"))
    return parts


def _supports(
    scale: Scale, lone: LoneShelf, beam: ShelfBeam, thick: float, system: UnitSystem
) -> list[str]:
    under = _ABOVE + thick
    held = lone.supports
    parts = []
    if isinstance(held, Cleat):
        length, tall = beam.result.beam.length * scale.per_mm, held.height * scale.per_mm
        parts.append(rect(scale.x(0.0), under, length, max(tall, 4.0), "d-thin"))
        parts.append(label(scale.x(0.0), under + 44, "cleat along the back", class_="d-soft"))
        return parts
    if isinstance(held, Rods):
        gap = beam.result.beam.length / held.number
        parts += [
            tag("circle", cx=scale.x(gap * (n + 0.5)), cy=under - thick / 2, r=3.0, class_="d-mark")
            for n in range(held.number)
        ]
        words_ = f"{held.number} rods in the wall, {_mm(held.in_wall, system)} deep"
        parts.append(label(scale.x(0.0), under + 44, words_, class_="d-soft"))
        return parts
    for support in beam.supports:
        x = scale.x(support.at)
        if isinstance(held, Brackets):
            tall = min(held.height * scale.per_mm, 40.0)
            parts.append(rect(x - 2.5, under, 5.0, tall, "d-mark"))
            parts.append(tag("circle", cx=x, cy=under + tall * 0.2, r=1.6, class_="d-mark"))
            parts.append(tag("circle", cx=x, cy=under + tall * 0.8, r=1.6, class_="d-mark"))
        else:
            half = max(support.bearing * scale.per_mm / 2, 5.0)
            parts.append(
                path(
                    f"M{number(x)},{number(under)} l{number(half)},12 h{number(-2 * half)} z",
                    "d-mark",
                )
            )
    return parts


def _mm(value: float, system: UnitSystem) -> str:
    return spelled(size(value), system)
