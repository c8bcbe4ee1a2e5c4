"""A supplier's list against the cut list: what is missing, what is extra, what differs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from shelfload.describe.catalogue import Catalogue
from shelfload.describe.supplier_list import Supplied
from shelfload.errors import UnknownName
from shelfload.idealise.cut_size import CutPanel
from shelfload.idealise.panels import CutList, CutRow
from shelfload.wording import figure

SAME_SHEET = 0.5
"""Thicknesses closer than this [mm] are one sheet: 18 mm plywood measures 17.6 (judgement)."""
NEAR, NEAR_SHARE = 60.0, 0.1
"""A line this close to a panel that is missing [mm, -] is that panel cut wrong (judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """One thing wrong with a supplier's list.

    Attributes
    ----------
    kind : str
        Missing, extra, or differs.
    row : CutRow or None
        Row of the cut list; None for an extra panel.
    supplied : Supplied or None
        Line of the supplier's list; None for a missing panel.
    count : int
        How many panels.
    words, means : str
        What differs, and what that does.
    """

    kind: Literal["missing", "extra", "differs"]
    row: CutRow | None
    supplied: Supplied | None
    count: int
    words: str
    means: str


@dataclass(slots=True)
class _Left:
    """How many of a row or line are not matched yet."""

    count: int


def compared(
    cut: CutList, supplied: Sequence[Supplied], tolerance: float, catalogue: Catalogue
) -> list[Difference]:
    """Match a supplier's list to the cut list and return what does not match.

    Parameters
    ----------
    cut : CutList
        What the description needs.
    supplied : sequence of Supplied
        What the supplier lists.
    tolerance : float
        Sizes that differ by no more are the same [mm]
    catalogue : Catalogue
        Tells whether a material the supplier names is one that is known here.

    Notes
    -----
    Panels are matched by size, not by name: first those within the tolerance, nearest first;
    then what is left to the nearest of about that size. Where the supplier's list has a column
    ``row`` with numbers of the cut list, these come first.
    """
    wanted = [_Left(row.count) for row in cut.rows]
    given = [_Left(one.count) for one in supplied]
    found: list[Difference] = []
    pairs = [
        (_far(row, one), r, s) for r, row in enumerate(cut.rows) for s, one in enumerate(supplied)
    ]
    for close in (True, False):
        for _, r, s in sorted(pairs):
            row, one = cut.rows[r], supplied[s]
            count = min(wanted[r].count, given[s].count)
            differing = _differing(row.panel, one, tolerance, catalogue)
            if not count or (differing if close else not _about_same(row, one)):
                continue
            wanted[r].count -= count
            given[s].count -= count
            if differing:
                found.append(_differs(row, one, count, differing))
    for row, left in zip(cut.rows, wanted, strict=True):
        if left.count:
            found.append(
                Difference(
                    kind="missing", row=row, supplied=None, count=left.count,
                    words="not in the list",
                    means="it has to be ordered before anything is glued",
                )
            )  # fmt: skip
    for one, left in zip(supplied, given, strict=True):
        if left.count:
            found.append(
                Difference(
                    kind="extra", row=None, supplied=one, count=left.count,
                    words=f"{left.count} more than the description needs",
                    means="paid for without need, or the description lacks a part",
                )
            )  # fmt: skip
    return found


def _sizes(panel: CutPanel, one: Supplied) -> tuple[float, float]:
    """Length and width as supplied, turned to suit a panel without grain."""
    if panel.grain in ("either way", "none") and panel.bend is None:
        turned = (one.width, one.length)
        if _miss(panel, *turned) < _miss(panel, one.length, one.width):
            return turned
    return one.length, one.width


def _miss(panel: CutPanel, length: float, width: float) -> float:
    return abs(length - panel.length.total) + abs(width - panel.width.total)


def _far(row: CutRow, one: Supplied) -> tuple[bool, float]:
    thick = 0.0 if one.thickness is None else abs(one.thickness - row.panel.thickness)
    miss = _miss(row.panel, *_sizes(row.panel, one)) + 100.0 * (thick >= SAME_SHEET)
    return one.row != row.number, miss


def _about_same(row: CutRow, one: Supplied) -> bool:
    if one.row == row.number:
        return True
    panel = row.panel
    turned = _miss(panel, one.width, one.length) < _miss(panel, one.length, one.width)
    length, width = (one.width, one.length) if turned else (one.length, one.width)
    return all(
        abs(size - wanted) <= max(NEAR, NEAR_SHARE * wanted)
        for size, wanted in ((length, panel.length.total), (width, panel.width.total))
    )


def _differing(
    panel: CutPanel, one: Supplied, tolerance: float, catalogue: Catalogue
) -> list[tuple[str, float]]:
    """What of a panel differs, and by how much it is larger [mm]."""
    length, width = _sizes(panel, one)
    off = [("length", length - panel.length.total), ("width", width - panel.width.total)]
    found = [(what, by) for what, by in off if abs(by) > tolerance + 1e-6]
    if found and _miss(panel, one.width, one.length) <= 2 * tolerance:
        found = [("turned", 0.0)]
    if one.thickness is not None and abs(one.thickness - panel.thickness) >= SAME_SHEET:
        found.append(("thickness", one.thickness - panel.thickness))
    if one.material and one.material != panel.material and _known(one.material, catalogue):
        found.append((f"material {one.material}", 0.0))
    return found


def _known(material: str, catalogue: Catalogue) -> bool:
    try:
        catalogue.require_material(material)
    except UnknownName:
        return False  # a trade name of the supplier's own can't be compared
    return True


def _differs(
    row: CutRow, one: Supplied, count: int, differing: Sequence[tuple[str, float]]
) -> Difference:
    words, means = [], []
    for what, by in differing:
        if what == "turned":
            words.append("length and width exchanged")
            means.append("the grain would run the other way: order it again")
        elif what.startswith("material"):
            words.append(f"{what} instead of {row.panel.material}")
            means.append("put it into the description and check again")
        else:
            less = "less" if by < 0 else "more"
            words.append(f"{what} {figure(abs(by), 'length')} {less}")
            means += _meaning(row.panel, what, by)
    return Difference(
        kind="differs", row=row, supplied=one, count=count, words="; ".join(words),
        means="; ".join(means),
    )  # fmt: skip


def _meaning(panel: CutPanel, what: str, by: float) -> Iterator[str]:
    short, size = by < 0, figure(abs(by), "length")
    if what == "thickness":
        yield (
            f"{'thinner: it sags more and carries less' if short else 'thicker and heavier'}; "
            f"sums with this thickness change by {size} each: put it into the description and "
            "check again"
        )
    elif not short:
        yield f"too long to go in: trim {size} off, it loses nothing by that"
    elif what == "width" and panel.kind in ("shelf", "side", "divider"):
        yield (
            f"{size} less deep: its front stands back, or a gap is left before the back, which "
            "then has no edge to be fixed to; if it stays, put the depth into the description"
        )
    elif panel.kind == "shelf":
        yield from _shelf_short(panel, -by)
    elif panel.kind == "side":
        yield (
            f"it ends {size} lower than the other side: the unit stands askew, or what lies on it "
            f"is not carried there; a packing strip {size} thick under its whole foot, or both "
            "sides cut alike and the description checked again"
        )
    elif panel.kind == "divider":
        yield (
            f"a gap of {size} under the panel that it should carry, which sags until it gets "
            f"there: a packing strip {size} thick, as wide as the divider and as long as it is deep"
        )
    elif panel.kind == "back":
        yield f"{size} of the rear edges stays bare: too little is left there for screws or glue"
    else:
        yield f"it ends {size} short"


def _shelf_short(panel: CutPanel, short: float) -> Iterator[str]:
    gap, half = figure(short, "length"), figure(short / 2, "length")
    if panel.fit == "butted" or panel.bearing == 0.0:
        yield (
            f"a gap of {gap} at the support, which screws can't bridge: glue a packing strip "
            f"{gap} thick to one end, as long as the shelf is deep"
        )
        return
    was = figure(panel.bearing, "length")
    centred, pushed = panel.bearing - short / 2, panel.bearing - short
    if centred <= 0.0:
        yield (
            f"it no longer reaches both supports ({was} under each end): order it again, or "
            f"glue packing strips {half} thick to both ends and support it on cleats"
        )
        return
    end = "in its housing" if panel.fit == "housed" else "under each end"
    yield f"bearing left {figure(centred, 'length')} of {was} {end} if it lies in the middle"
    yield (
        f"pushed to one side it comes off the other support; fix a packing strip {half} thick "
        "at each end so that it can't move"
        if pushed <= 0.0
        else f"{figure(pushed, 'length')} at one end if it is pushed to the other; a packing strip "
        f"{half} thick at each end holds it in the middle"
    )
    yield f"to be sure, check again with bearing {figure(centred, 'length')}"
