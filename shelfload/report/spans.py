"""Tables of spans and safe loads: laid out for people, or as CSV for a spreadsheet."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from math import floor, inf, isnan

from shelfload import units
from shelfload.advise.asked import Column
from shelfload.advise.span_tables import LONGEST, Table
from shelfload.advise.table_cells import QUESTIONS, Asked
from shelfload.check.criteria import limit_in_words
from shelfload.report.document import Document, Section
from shelfload.report.document import Table as Shown
from shelfload.units import Dimension, UnitSystem
from shelfload.wording import figure, size, spelled

_BY = ("", " b", " s", " c", " k")
"""Marks for what decides, in the order of ``QUESTIONS``: sag, as mostly, has none."""


def span_document(
    asked: Asked, columns: Sequence[Column], table: Table, system: UnitSystem
) -> Document:
    """Lay out a table of largest clear spans."""
    return _document("Largest clear span", "length", asked, columns, table, system)


def load_document(
    asked: Asked, columns: Sequence[Column], table: Table, system: UnitSystem
) -> Document:
    """Lay out a table of safe loads per length of shelf, evenly spread."""
    return _document("Safe load per length", "line load", asked, columns, table, system)


def _document(
    title: str,
    measure: Dimension,
    asked: Asked,
    columns: Sequence[Column],
    table: Table,
    system: UnitSystem,
) -> Document:
    header = ("sheet", *(spelled(column.words, system) for column in columns))
    blocks: list[Shown | Section] = [
        Shown(
            title=f"{title}, {support}",
            header=header,
            rows=tuple(
                (
                    _sheet(asked, row, system),
                    *(
                        _cell(value, by, measure, system)
                        for value, by in zip(values, governs, strict=True)
                    ),
                )
                for row, (values, governs) in enumerate(
                    zip(
                        table.values[support].tolist(), table.governs[support].tolist(), strict=True
                    )
                )
            ),
        )
        for support in asked.supports
    ]
    gaps = dict.fromkeys(
        f"{_sheet(asked, row, system)}: {spelled(why, system)}"
        for row, why in enumerate(table.missing)
        if why
    )
    if gaps:
        blocks.append(Section(title="Not in the table", items=tuple(gaps)))
    alike: dict[str, list[str]] = {}
    for row, texts in enumerate(table.said):
        for text in texts:
            alike.setdefault(spelled(text, system), []).append(_sheet(asked, row, system))
    if alike:
        items = tuple(f"{', '.join(sheets)}: {text}" for text, sheets in alike.items())
        blocks.append(Section(title="Assumed", items=items))
    blocks.append(Section(title="How to read it", items=_notes(asked, system)))
    cells = sum(values.size for values in table.values.values())
    return Document(
        title=title,
        verdict=None,
        summary=f"{cells} cells, each as a check of that shelf finds it",
        blocks=tuple(blocks),
    )


def _notes(asked: Asked, system: UnitSystem) -> tuple[str, ...]:
    notes = (
        f"Shelves {size(asked.depth)} deep, grain {asked.grain} the span, service "
        f"class {asked.site.service_class}; sag limit {limit_in_words(asked.sag_limit)}.",
        "Sag decides where a figure has no mark; b bending, s shear, c bearing on the supports"
        + (", k the back." if asked.back is not None else "."),
        "Spans are clear widths; rounded down. Over dividers, the spans are equal and any of "
        "them may be empty; the shelf is held down on its supports.",
        _back_note(asked),
        "A table knows nothing of the rest: uprights, joins, wall and floor need a check of the "
        "whole unit.",
    )
    return tuple(spelled(note, system) for note in notes)


def _back_note(asked: Asked) -> str:
    back = asked.back
    if back is None:
        return (
            "Ends are free to turn. A back fixed along the shelf (--back), a lipping or a second "
            "panel lets it span further: check the shelf itself."
        )
    material = asked.catalogue.material(back.material, back.thickness).material
    fixed: str = back.fixed
    if back.spacing is not None:
        fixed += f" every {size(back.spacing, down=True)}"
    return (
        f"Ends are free to turn. Fixed back: {size(back.thickness)} {material.called} "
        f"{fixed}, all round and along the shelf, closing a clear height of "
        f"{size(asked.clear_height)} above it and below; the shelf is then a plate "
        "on two ends and its sprung rear edge, in one bay between uprights of its own sheet. Its "
        "depth is that of the panel, before the back. Where the back is not counted on, the cell "
        "is empty."
    )


def _sheet(asked: Asked, row: int, system: UnitSystem) -> str:
    sheet = asked.sheets[row]
    return f"{sheet.material} {spelled(size(sheet.thickness), system)}"


def _cell(value: float, by: int, measure: Dimension, system: UnitSystem) -> str:
    if isnan(value):
        return "-"
    if value == 0.0:
        return "none"
    if value == inf:
        most = figure(LONGEST, "length") if measure == "length" else "any"
        return f"over {spelled(most, system)}"
    if measure == "length":
        return spelled(size(value, down=True), system) + (_BY[by] if by >= 0 else "")
    shown = figure(value, measure, as_mass=measure == "line load", down=True)
    return spelled(shown, system) + (_BY[by] if by >= 0 else "")


def csv_text(
    asked: Asked, columns: Sequence[Column], table: Table, system: UnitSystem, measure: Dimension
) -> str:
    """Return a table as CSV, one line for each cell; spans and loads rounded down."""
    load = measure == "line load"
    _, unit = units.shown_value(1.0, measure, system, load)
    _, length = units.shown_value(1.0, "length", system, False)
    named = "load" if not load else "span"
    value = f"safe_load [{unit}]" if load else f"span [{unit}]"
    sheet = f"thickness [{length}]"
    lines = io.StringIO()
    writer = csv.writer(lines, lineterminator="\n")
    writer.writerow(("material", sheet, "support", named, value, "decided_by", "note"))
    for support in asked.supports:
        rows = zip(asked.sheets, table.values[support], table.governs[support], strict=True)
        for number, (sheet_, values, governs) in enumerate(rows):
            for column, cell, by in zip(columns, values, governs, strict=True):
                beyond = "over what is looked at" if cell == inf else ""
                finite = not isnan(cell) and cell != inf
                writer.writerow(
                    (
                        sheet_.material,
                        f"{units.express(sheet_.thickness, length, 'length'):.6g}",
                        support,
                        spelled(column.words, system),
                        _floored(units.express(float(cell), unit, measure)) if finite else "",
                        QUESTIONS[by] if by >= 0 else "",
                        spelled(table.missing[number], system) or beyond,
                    )
                )
    return lines.getvalue()


def _floored(value: float) -> str:
    """Round down to a tenth, which is finer than any saw or scale in use."""
    return f"{floor(value * 10.0) / 10.0:.1f}"
