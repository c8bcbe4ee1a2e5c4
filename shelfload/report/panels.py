"""The cut list laid out for people."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from shelfload import units
from shelfload.check.supplier import Difference
from shelfload.idealise.cut_size import CutPanel, CutSum
from shelfload.idealise.panels import CutList, CutRow, Sheets
from shelfload.report.document import Document, Section, Table
from shelfload.units import UnitSystem
from shelfload.wording import spelled

_MANY = {
    "clear height": "clear heights",
    "bay": "bays",
    "half bearing": "half bearings",
    "half divider": "half dividers",
    "half panel": "half panels",
}
RULES = (
    "Finished sizes, sheets as thick as they are ordered; length comes first: along the unit for "
    "what lies, upwards for what stands. Every sum is written out so that it can be checked; it is "
    "added up before its parts are rounded for show.",
    "A shelf between uprights is its clear width and, at each end, as much housing as it has "
    "bearing; a bearing as wide as the side is thick lays it over the side, and two shelves meet "
    "over the middle of a divider; shelves on pins or cleats are cut to the clear width.",
    "Not in the list: what is not described, such as plinths, cleats, doors, drawers, blocks.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ordered:
    """What a cut list is printed with: sheets, their size and waste, and a comparison."""

    title: str
    cut: CutList
    sheets: Sequence[Sheets]
    sheet: tuple[float, float]
    waste: float
    supplier: str = ""
    differences: Sequence[Difference] | None = None
    tolerance: float = 0.0


def cut_length(value: float, system: UnitSystem) -> str:
    """Write a length as finely as a saw can be set: 0.1 mm or 1/32 in."""
    if system == "metric":
        return units.show(value, "length", system, digits=1).replace(".0 ", " ")
    return units.show_size(value, system)


def size(panel: CutPanel, system: UnitSystem) -> str:
    """Write length x width x thickness, the unit once."""
    sizes = (panel.length.total, panel.width.total, panel.thickness)
    *first, last = (cut_length(value, system) for value in sizes)
    return " x ".join([*(text.rpartition(" ")[0] for text in first), last])


def sum_text(one: CutSum, system: UnitSystem) -> str:
    """Write a size as the sum it is: total = parts + thicknesses."""
    parts = []
    order = list(dict.fromkeys(term.words for term in one.terms))
    for words in order:
        values = [term.value for term in one.terms if term.words == words]
        many = len(values) > 1
        named = _MANY.get(words, f"{words}s") if many else words
        written = [
            (f"{count} x " if (count := len(list(same))) > 1 else "")
            + cut_length(abs(value), system)
            for value, same in groupby(sorted(values, key=lambda v: (values.count(v), v)))
        ]
        sign = "less " if values[0] < 0 else ""
        parts.append(f"{sign}{' + '.join(written)} ({named})")
    text = f"{cut_length(one.total, system)} = {' + '.join(parts)}"
    return text.replace(" + less ", " less ")


def panels_document(ordered: Ordered, system: UnitSystem) -> Document:
    """Lay out a cut list."""
    cut = ordered.cut
    blocks: list[Table | Section] = [*_comparison(ordered, system)]
    for name in dict.fromkeys(row.panel.unit for row in cut.rows):
        rows = [row for row in cut.rows if row.panel.unit == name]
        blocks.append(
            Table(
                title=f"{name}: cut sizes",
                header=("row", "pcs", "part", "length x width x thickness", "of", "grain along",
                        "on show", "each"),
                rows=tuple(_shown(row, system) for row in rows),
            )
        )  # fmt: skip
        blocks.append(
            Table(
                title=f"{name}: the sums",
                header=("row", "length", "width"),
                rows=tuple(
                    (
                        str(row.number),
                        sum_text(row.panel.length, system),
                        sum_text(row.panel.width, system),
                    )
                    for row in rows
                ),
            )
        )
    blocks += _sheet_blocks(ordered, system)
    blocks.append(Section(title="How the sizes come about", items=RULES))
    assumed = tuple(spelled(text, system) for text in cut.said)
    blocks.append(Section(title="Assumed", items=assumed))
    bought = "" if ordered.differences is None else f"; {_counted(ordered.differences)}"
    mass = units.show(cut.mass, "mass", system)
    return Document(
        title=ordered.title,
        verdict=None,
        summary=f"{cut.count} panels, strips and rails, {mass} in all{bought}",
        blocks=tuple(block for block in blocks if not isinstance(block, Section) or block.items),
    )


def _counted(differences: Sequence[Difference]) -> str:
    if not differences:
        return "the supplier's list matches"
    many = "s" if len(differences) > 1 else ""
    return f"{len(differences)} difference{many} from the supplier's list"


def _shown(row: CutRow, system: UnitSystem) -> tuple[str, ...]:
    panel = row.panel
    return (
        str(row.number),
        str(row.count),
        parts_text(row),
        size(panel, system) + curve(panel, system),
        panel.material,
        panel.grain.removeprefix("along the "),
        ", ".join(panel.edges) or "none",
        units.show(panel.mass, "mass", system),
    )


def curve(panel: CutPanel, system: UnitSystem) -> str:
    """Write the curve that a panel is cut on, if any."""
    bend = panel.bend
    if bend is None:
        return ""
    inner, outer = (cut_length(r, system) for r in (bend.inner_radius, bend.outer_radius))
    angle = units.show(bend.angle, "angle", system)
    return f" blank, cut to radii {inner} and {outer} over {angle}"


def parts_text(row: CutRow) -> str:
    """Name the parts of a row, bays of one shelf and the levels of an upright together."""
    grouped: dict[str, list[str]] = {}
    for part in row.parts:
        name, _, rest = part.partition(", ")
        grouped.setdefault(name, []).append(rest)
    words = []
    for name, rests in grouped.items():
        detail = " and ".join(dict.fromkeys(rest for rest in rests if rest))
        words.append(f"{name} ({detail})" if detail else name)
    text = ", ".join(words)
    levels = row.panel.levels
    if row.panel.kind in ("side", "divider", "back") and levels:
        first, last = min(levels), max(levels)
        text += f", level {first}" if first == last else f", levels {first} to {last}"
    return text


def _sheet_blocks(ordered: Ordered, system: UnitSystem) -> Iterator[Table | Section]:
    if not ordered.sheets:
        return
    length, width = (cut_length(value, system) for value in ordered.sheet)
    yield Table(
        title="Sheets, by area",
        header=("of", "thickness", "area", "mass", "sheets", "larger than a sheet"),
        rows=tuple(
            (
                one.material,
                cut_length(one.thickness, system),
                _area(one.area, system),
                units.show(one.mass, "mass", system),
                str(one.count),
                "row " + ", ".join(map(str, one.too_large)) if one.too_large else "-",
            )
            for one in ordered.sheets
        ),
    )
    notes = [
        f"Sheets of {length} x {width}, grain along the length; {ordered.waste:.0%} of what is "
        "bought is taken as offcuts and sawdust. Area alone is counted: how the panels lie on the "
        "sheets is the supplier's plan, and may take one more.",
    ]
    if any(one.too_large for one in ordered.sheets):
        notes.append(
            "A row larger than a sheet must be made of a larger sheet or of two parts: a joint "
            "there is not checked."
        )
    yield Section(title="About the sheets", items=tuple(notes))


def _area(value: float, system: UnitSystem) -> str:
    unit = "m2" if system == "metric" else "ft2"
    return f"{units.express(value, unit, 'area'):.2f} {unit}"


def _comparison(ordered: Ordered, system: UnitSystem) -> Iterator[Table | Section]:
    if ordered.differences is None:
        return
    title = f"Against {ordered.supplier}"
    within = cut_length(ordered.tolerance, system)
    if not ordered.differences:
        matched = f"Every panel is listed, its sizes within {within}."
        yield Section(title=title, items=(matched,))
        return
    yield Section(
        title=f"{title}: sizes may be {within} off",
        items=tuple(_stated(one, system) for one in ordered.differences),
        numbered=True,
    )


def _stated(one: Difference, system: UnitSystem) -> str:
    means = one.means[:1].upper() + one.means[1:]
    which = _which(one, system)
    return spelled(f"{one.kind.capitalize()}: {which}: {one.words}. {means}.", system)


def _which(one: Difference, system: UnitSystem) -> str:
    line = "" if one.supplied is None else f"line {one.supplied.line}"
    if one.row is not None:
        panel = one.row.panel
        pieces = f"{one.count} of row {one.row.number}" + (f", {line}" if line else "")
        return f"{pieces} ({panel.unit}, {parts_text(one.row)}, {size(panel, system)})"
    given = one.supplied
    if given is None:
        return ""
    sizes = " x ".join(
        cut_length(value, system)
        for value in (given.length, given.width, given.thickness)
        if value is not None
    )
    return ", ".join(text for text in (line, given.name, sizes) if text)
