"""The report of one join: what to do, options to drill, checks, and a doubled shelf's table."""

from __future__ import annotations

import json
from typing import Any

from shelfload.check.one_join import JoinFindings
from shelfload.report.data import SCHEMA_VERSION, check_data
from shelfload.report.document import (
    Document,
    Section,
    Table,
    detail_table,
    summary,
)
from shelfload.report.joins import HEADER, join_data, join_notes, join_rows
from shelfload.units import UnitSystem
from shelfload.wording import size, spelled

OWN_CAUTIONS = (
    "Makers of screws declare their own values; they come before these figures.",
    "Drive one screw into an offcut of the same stack first: see that it holds, does not split "
    "the panel and does not show on the far side.",
)


def one_join_document(found: JoinFindings, system: UnitSystem) -> Document:
    """Lay out the answer to one join."""
    blocks: list[Section | Table] = [
        Section(title="The join", items=(spelled(found.title, system),)),
        Section(
            title="What to do",
            items=tuple(spelled(text, system) for text in found.advice),
            numbered=True,
        ),
    ]
    if found.options:
        rows = join_rows(found.options, system)
        blocks.append(
            Table(
                title="Joins and drilling, the cheapest first",
                header=HEADER[2:],
                rows=tuple(row[2:] for row in rows),
            )
        )
        blocks.append(Section(title="Notes", items=join_notes(found.options, system)))
    blocks.append(detail_table("Checks", list(found.checks), system))
    if found.double is not None:
        blocks.append(_double_table(found, system))
    sources = sorted({check.source for check in found.checks})
    blocks += [
        Section(title="Assumed", items=tuple(spelled(text, system) for text in found.assumptions)),
        Section(title="Sources", items=tuple(spelled(text, system) for text in sources)),
        Section(title="Cautions", items=OWN_CAUTIONS),
    ]
    return Document(
        title="One join",
        verdict=found.verdict,
        summary=summary(found.checks),
        blocks=tuple(block for block in blocks if isinstance(block, Table) or block.items),
    )


def _double_table(found: JoinFindings, system: UnitSystem) -> Table:
    double = found.double
    if double is None:
        raise AssertionError("asked of a join that is no doubled shelf")
    rows = [
        (
            spelled(size(spacing, down=True), system),
            f"{EI / double.EI_lying:.2f}",
            f"{(EI - double.EI_lying) / (double.EI_glued - double.EI_lying):.0%}",
        )
        for spacing, EI in zip(double.spacing, double.EI, strict=True)
    ]
    rows = [("glued", f"{double.EI_glued / double.EI_lying:.2f}", "100%"), *rows]
    return Table(
        title="As a doubled shelf, first day",
        header=("screws every", "stiffness, loose panels = 1", "of what glue adds"),
        rows=(*rows, ("loose", "1.00", "0%")),
    )


def one_join_json(found: JoinFindings, system: UnitSystem) -> str:
    """Return the answer to one join as JSON text."""
    content: dict[str, Any] = {
        "schema_version": SCHEMA_VERSION,
        "title": spelled(found.title, system),
        "units": system,
        "verdict": found.verdict.value,
        "checks": [check_data(check, system) for check in found.checks],
        "joins": [join_data(line, system) for line in found.options],
        "advice": [spelled(text, system) for text in found.advice],
        "assumptions": [spelled(text, system) for text in found.assumptions],
        "cautions": list(OWN_CAUTIONS),
    }
    if found.double is not None:
        double = found.double
        content["double"] = {
            "spacing_unit": "mm",
            "spacing": [float(s) for s in double.spacing],
            "stiffness_over_loose": [float(f"{EI / double.EI_lying:.6g}") for EI in double.EI],
            "glued_over_loose": float(f"{double.EI_glued / double.EI_lying:.6g}"),
        }
    return json.dumps(content, indent=2, ensure_ascii=False, allow_nan=False) + "\n"
