"""The cut list as CSV for a supplier, or as JSON."""

from __future__ import annotations

import csv
import io
import json

from shelfload import units
from shelfload.idealise.cut_size import CutSum
from shelfload.report.panels import RULES, Ordered, curve, parts_text, sum_text
from shelfload.units import UnitSystem
from shelfload.wording import spelled

SCHEMA_VERSION = 1


def csv_text(ordered: Ordered, system: UnitSystem) -> str:
    """Return the cut list as CSV, a line for each row, bare numbers under units in the heading."""
    length, mass = ("mm", "kg") if system == "metric" else ("in", "lb")
    digits = 1 if system == "metric" else 3
    lines = io.StringIO()
    writer = csv.writer(lines, lineterminator="\n")
    header = ("row", "unit", "parts", "kind", "count", f"length [{length}]", f"width [{length}]",
              f"thickness [{length}]", "material", "grain", "edges on show", f"mass each [{mass}]",
              "curve", "sum of the length", "sum of the width")  # fmt: skip
    writer.writerow(header)
    for row in ordered.cut.rows:
        panel = row.panel
        sizes = (panel.length.total, panel.width.total, panel.thickness)
        writer.writerow(
            (
                row.number,
                _harmless(panel.unit),
                _harmless(parts_text(row)),
                panel.kind,
                row.count,
                *(f"{units.express(value, length, 'length'):.{digits}f}" for value in sizes),
                _harmless(panel.material),
                panel.grain,
                ", ".join(panel.edges),
                f"{units.express(panel.mass, mass, 'mass'):.1f}",
                curve(panel, system).removeprefix(" blank, "),
                sum_text(panel.length, system),
                sum_text(panel.width, system),
            )
        )
    return lines.getvalue()


def _harmless(text: str) -> str:
    """Keep a spreadsheet from taking a name for a formula."""
    return f"'{text}" if text.startswith(("=", "+", "-", "@", "\t")) else text


def json_text(ordered: Ordered, system: UnitSystem) -> str:
    """Return the cut list, its sheets and the comparison as JSON."""
    length, mass = ("mm", "kg") if system == "metric" else ("in", "lb")

    def long(value: float) -> float:
        return round(units.express(value, length, "length"), 4)

    def added(one: CutSum) -> list[dict[str, object]]:
        return [{"value": long(term.value), "of": term.words} for term in one.terms]

    data: dict[str, object] = {
        "schema_version": SCHEMA_VERSION,
        "title": ordered.title,
        "units": system,
        "length_unit": length,
        "mass_unit": mass,
        "panels": [
            {
                "row": row.number,
                "unit": row.panel.unit,
                "parts": list(row.parts),
                "levels": list(row.panel.levels),
                "kind": row.panel.kind,
                "count": row.count,
                "length": long(row.panel.length.total),
                "width": long(row.panel.width.total),
                "thickness": long(row.panel.thickness),
                "length_sum": added(row.panel.length),
                "width_sum": added(row.panel.width),
                "material": row.panel.material,
                "grain": row.panel.grain,
                "edges_on_show": list(row.panel.edges),
                "mass_each": round(units.express(row.panel.mass, mass, "mass"), 3),
                "curve": None
                if row.panel.bend is None
                else {
                    "inner_radius": long(row.panel.bend.inner_radius),
                    "outer_radius": long(row.panel.bend.outer_radius),
                    "angle_deg": round(units.express(row.panel.bend.angle, "deg", "angle"), 3),
                },
            }
            for row in ordered.cut.rows
        ],
        "sheets": [
            {
                "material": one.material,
                "thickness": long(one.thickness),
                "count": one.count,
                "waste": ordered.waste,
                "sheet": [long(value) for value in ordered.sheet],
                "rows_larger_than_a_sheet": list(one.too_large),
            }
            for one in ordered.sheets
        ],
        "differences": None
        if ordered.differences is None
        else [
            {
                "kind": one.kind,
                "row": one.row.number if one.row is not None else None,
                "line": one.supplied.line if one.supplied is not None else None,
                "count": one.count,
                "what": spelled(one.words, system),
                "means": spelled(one.means, system),
            }
            for one in ordered.differences
        ],
        "rules": list(RULES),
        "assumptions": [spelled(text, system) for text in ordered.cut.said],
    }
    return json.dumps(data, indent=2, ensure_ascii=False) + "\n"
