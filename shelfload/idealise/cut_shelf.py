"""Cut sizes of what one shelf is made of: panels, webs, lippings and strips."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import Unit
from shelfload.describe.parts import Shelf
from shelfload.idealise.cut_size import (
    CutPanel,
    CutSum,
    Grain,
    Kind,
    Stuff,
    Term,
    stuff,
    summed,
)
from shelfload.wording import figure


def layers(unit: Unit | None, shelf: Shelf, catalogue: Catalogue) -> list[Stuff]:
    """Return the panels of a horizontal from the lower one up, as ordered."""
    panel = unit.panel if unit is not None else None
    upper = stuff(
        catalogue,
        shelf.material or (panel.material if panel else ""),
        shelf.thickness or (panel.thickness if panel else 0.0),
    )
    if shelf.panels == 1:
        return [upper]
    second = shelf.second
    lower = upper if second is None else stuff(catalogue, second.material, second.thickness)
    return [lower, upper]


def of_shelf(
    frame: CutPanel,
    shelf: Shelf,
    sheets: list[Stuff],
    short: CutSum,
    catalogue: Catalogue,
    said: list[str],
) -> Iterator[CutPanel]:
    """Return panels, webs, lippings and strips of a shelf.

    Parameters
    ----------
    frame : CutPanel
        Where the shelf is, its length, its depth over everything, and how its ends fit.
    shelf : Shelf
        As described.
    sheets : list of Stuff
        Its panels from the lower one up.
    short : CutSum
        Length of what stands before or under the panel: between the uprights [mm]
    catalogue : Catalogue
        Resolves names.
    said : list of str
        Takes what was assumed.
    """
    edges = [
        (lip.thickness, lip.height, lip.material, f"{at} lipping")
        for at, lip in (("front", shelf.lipping_front), ("rear", shelf.lipping_rear))
        if lip is not None
    ]
    beside = [strip for strip in shelf.strips if strip.where in ("front", "rear")]
    taken = [(thick, name) for thick, _, _, name in edges]
    taken += [(strip.width, f"{strip.where} strip") for strip in beside]
    width = frame.width + [Term(-size, name) for size, name in taken]
    hidden = any(name.startswith("front") for _, name in taken)
    shown = tuple(edge for edge in frame.edges if not (hidden and edge == "front"))
    wanted: Grain = "along the length" if shelf.grain == "along" else "along the width"
    for number, sheet in enumerate(sheets):
        layer = "" if len(sheets) == 1 else (", lower panel", ", upper panel")[number]
        area = frame.length.total * width.total
        yield replace(
            frame, part=frame.part + layer, material=sheet.name, called=sheet.row.called,
            width=width, thickness=sheet.ordered, grain=sheet.grain(wanted), edges=shown,
            mass=sheet.mass(area), sheet=sheet.in_sheets,
        )  # fmt: skip
    if shelf.hollow is not None:
        name = shelf.hollow.material or sheets[-1].name
        web = stuff(catalogue, name, shelf.hollow.web)
        size = summed(Term(shelf.hollow.height, "hollow"))
        for _ in range(shelf.hollow.webs):
            yield _bar(frame, web, frame.length, size, "web", "web")
    for thick, height, material, name in edges:
        strip = stuff(catalogue, material, thick)
        yield _bar(frame, strip, short, summed(Term(height, "height")), "lipping", name)
    for one in shelf.strips:
        broad, thick = max(one.width, one.height), min(one.width, one.height)
        name = f"{one.where} strip" if one.where != "groove" else "let-in strip"
        if one.tube_wall is not None:
            name += f", tube with a wall of {figure(one.tube_wall, 'length')}"
        run = frame.length if one.where == "groove" else short
        # a tube is sold by its wall, a bar by its smaller side
        row = replace(stuff(catalogue, one.material, one.thinnest), ordered=thick, measured=thick)
        cut = _bar(frame, row, run, summed(Term(broad, "broad side")), "strip", name)
        if one.tube_wall is not None:
            solid = broad * thick
            hollow = (broad - 2 * one.tube_wall) * (thick - 2 * one.tube_wall)
            cut = replace(cut, mass=cut.mass * (1.0 - hollow / solid))
        yield cut
    if (edges or shelf.strips) and short is not frame.length:
        said.append("lippings and strips of shelves are cut to the clear width, not housed")


def _bar(
    frame: CutPanel, made_of: Stuff, length: CutSum, width: CutSum, kind: Kind, name: str
) -> CutPanel:
    return replace(
        frame,
        part=f"{frame.part}, {name}",
        kind=kind,
        material=made_of.name,
        called=made_of.row.called,
        length=length,
        width=width,
        thickness=made_of.ordered,
        grain=made_of.grain("along the length"),
        edges=("front",) if name.startswith("front") else (),
        mass=made_of.mass(length.total * width.total),
        fit="between",
        bearing=0.0,
        sheet=made_of.in_sheets,
    )
