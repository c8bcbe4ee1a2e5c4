"""The verification manual: every case of this folder in one table.

Run ``python tests/verification/manual.py`` for the table in the width of the terminal;
``--format markdown`` or ``csv`` for the others, ``--out`` for a file. The status is 1 when a
difference exceeds its tolerance.
"""

from __future__ import annotations

import argparse
import csv
import io
import os
import shutil
import sys
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

if __name__ == "__main__":
    # Run as a file: tests/ holds these modules, its parent the program; one thread as in it.
    sys.path[:0] = [str(folder) for folder in Path(__file__).resolve().parents[1:3]]
    os.environ.setdefault("OMP_NUM_THREADS", "1")
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from tabulate import tabulate
from verification import (
    beams,
    bearing,
    buckling,
    composites,
    creep,
    curved,
    floor,
    frames,
    plates,
    screws,
    sections,
    shelves,
    spans,
    stability,
    walls,
)
from verification.case import KINDS, Case, Outcome

FIELDS = {
    "beams": beams.cases,
    "continuous beams": spans.cases,
    "sections": sections.cases,
    "composites": composites.cases,
    "plates": plates.cases,
    "curved in plan": curved.cases,
    "frames": frames.cases,
    "buckling": buckling.cases,
    "screws": screws.cases,
    "walls": walls.cases,
    "tipping and lifting": stability.cases,
    "bearing": bearing.cases,
    "floors": floor.cases,
    "creep": creep.cases,
    "shelves": shelves.cases,
}
HEADER = ("case", "kind", "reference", "ours", "difference", "tolerance", "unit", "source")
SUMMARY = ("field", "rows", *KINDS, "largest difference", "of its tolerance", "failing")
FORMATS = ("terminal", "markdown", "csv")
NARROWEST = 120


def field_cases(fields: Iterable[str] | None = None) -> Iterator[tuple[str, Case]]:
    """Every case with its field; all fields unless said."""
    for field in fields or FIELDS:
        for case in FIELDS[field]():
            yield field, case


def figure(value: float) -> str:
    """Six digits: more than any printed figure here has, few enough to compare by eye."""
    return f"{value:.6g}"


def row(outcome: Outcome) -> tuple[str, ...]:
    """A line of the table."""
    case = outcome.case
    printed = case.reference if isinstance(case.reference, str) else figure(outcome.reference)
    name = case.name if outcome.agrees else f"DIFFERS: {case.name}"
    source = f"{case.source}; tolerance: {case.because}" if case.because else case.source
    return (
        name,
        case.kind,
        printed,
        figure(outcome.ours),
        f"{outcome.difference:.1e}",
        f"{outcome.tolerance:.1e}",
        case.unit,
        source,
    )


def summary(outcomes: Sequence[tuple[str, Outcome]]) -> list[tuple[str, ...]]:
    """A line for each field and one for all."""
    fields = dict.fromkeys(field for field, _ in outcomes)
    lines = []
    for name in [*fields, "all"]:
        found = [outcome for field, outcome in outcomes if name in (field, "all")]
        furthest = max(found, key=lambda outcome: outcome.share)
        closest = max(found, key=lambda outcome: outcome.of_tolerance)
        lines.append(
            (
                name,
                str(len(found)),
                *(str(sum(o.case.kind == kind for o in found)) for kind in KINDS),
                f"{furthest.share:.2%} ({furthest.case.name})",
                f"{closest.of_tolerance:.0%}",
                str(sum(not outcome.agrees for outcome in found)),
            )
        )
    return lines


def as_csv(outcomes: Sequence[tuple[str, Outcome]]) -> str:
    """All rows, comma-separated, the field first; no summary, so that it reads as a table."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(("field", *HEADER))
    writer.writerows((field, *row(outcome)) for field, outcome in outcomes)
    return text.getvalue()


def as_markdown(outcomes: Sequence[tuple[str, Outcome]]) -> str:
    """A section for each field, then the summary."""
    parts = ["# Verification manual"]
    for name in dict.fromkeys(field for field, _ in outcomes):
        rows = [row(outcome) for field, outcome in outcomes if field == name]
        parts.append(f"## {name.capitalize()}")
        parts.append(tabulate(rows, HEADER, tablefmt="github", disable_numparse=True))
    parts.append("## Summary")
    parts.append(tabulate(summary(outcomes), SUMMARY, tablefmt="github", disable_numparse=True))
    return "\n\n".join(parts) + "\n"


def as_terminal(outcomes: Sequence[tuple[str, Outcome]], width: int) -> str:
    """The same, with names and sources wrapped to the width."""
    # Figures and kind take what they take; names and sources share the rest.
    room = max(width, NARROWEST) - 86
    widths = [room // 2, 9, 11, 11, 10, 9, 6, room - room // 2]
    parts = []
    for name in dict.fromkeys(field for field, _ in outcomes):
        rows = [row(outcome) for field, outcome in outcomes if field == name]
        parts.append(name.upper())
        parts.append(
            tabulate(
                rows, HEADER, tablefmt="simple", maxcolwidths=widths, maxheadercolwidths=widths,
                disable_numparse=True,
            )
        )  # fmt: skip
    parts.append("SUMMARY")
    columns = [13, 5, 9, 6, 9, 6, max(width, NARROWEST) - 98, 9, 7]
    parts.append(
        tabulate(
            summary(outcomes), SUMMARY, tablefmt="simple", maxcolwidths=columns,
            maxheadercolwidths=columns, disable_numparse=True,
        )
    )  # fmt: skip
    return "\n\n".join(parts) + "\n"


def main(arguments: Sequence[str] | None = None) -> int:
    """Work the rows out and print them; 1 when one differs."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--format", choices=FORMATS, default="terminal")
    parser.add_argument("--out", type=Path, help="write to this file")
    parser.add_argument("--field", action="append", choices=tuple(FIELDS), help="only this field")
    asked = parser.parse_args(arguments)
    outcomes = [(field, case.solved()) for field, case in field_cases(asked.field)]
    if asked.format == "csv":
        text = as_csv(outcomes)
    elif asked.format == "markdown":
        text = as_markdown(outcomes)
    else:
        text = as_terminal(outcomes, shutil.get_terminal_size().columns)
    if asked.out:
        asked.out.write_text(text, encoding="utf-8")
    else:
        sys.stdout.write(text)
    differing = [outcome.case.name for _, outcome in outcomes if not outcome.agrees]
    for name in differing:
        sys.stderr.write(f"differs by more than its tolerance: {name}\n")
    return 1 if differing else 0


if __name__ == "__main__":
    sys.exit(main())
