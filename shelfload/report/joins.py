"""The join list as rows of text and as JSON: what a person marks out and drills from."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from shelfload import units
from shelfload.check.join_line import JoinLine
from shelfload.units import UnitSystem
from shelfload.wording import size, spelled

HEADER = ("", "join", "fasteners in each", "marks from either end", "holes", "undone?", "from")
_DIGITS = 6


def join_rows(lines: Sequence[JoinLine], system: UnitSystem) -> tuple[tuple[str, ...], ...]:
    """Return the join list as rows of text under ``HEADER``."""
    return tuple(
        tuple(
            spelled(cell, system)
            for cell in (
                str(number),
                _what(line),
                _fasteners(line),
                _marks(line),
                _holes(line),
                line.demountable,
                _why(line),
            )
        )
        for number, line in enumerate(lines, start=1)
    )


def join_notes(lines: Sequence[JoinLine], system: UnitSystem) -> tuple[str, ...]:
    """Return what else to know of the lines, each note once, with the numbers of its lines."""
    notes: dict[str, list[str]] = {}
    for number, line in enumerate(lines, start=1):
        if line.note:
            notes.setdefault(line.note, []).append(str(number))
    return tuple(spelled(f"{', '.join(of)}: {note}", system) for note, of in notes.items())


def _what(line: JoinLine) -> str:
    place = ", ".join(piece for piece in (line.place.part, line.place.bay) if piece)
    words = ": ".join(piece for piece in (place, line.join) if piece) or line.by
    return f"{words} ({line.joins} alike)" if line.joins > 1 else words


def _fasteners(line: JoinLine) -> str:
    if not line.fastener:
        return line.by
    if not line.count and line.spacing is not None:
        return f"{line.fastener}, every {size(line.spacing, down=True)}"
    words = f"{line.count} x {line.fastener}"
    if line.spacing is not None:
        words += f", about {size(line.spacing, down=True)} apart"
    return words


def _marks(line: JoinLine) -> str:
    if not line.positions:
        return "-"
    half = ", ".join(_mm(mark) for mark in line.positions[: (line.count + 1) // 2])
    if line.count % 2 and line.count > 1:
        half += " (middle)"
    words = f"{half} {line.along}".rstrip()
    return f"{words}; at least {size(line.edge, up=True)} from an edge" if line.edge else words


def _holes(line: JoinLine) -> str:
    parts = []
    if line.pilot is not None:
        parts.append(f"pilot {_mm(line.pilot)}")
    if line.clearance is not None:
        through = "first panel" if line.pilot is not None else "both"
        parts.append(f"{through} {_mm(line.clearance)}")
    if line.countersink is not None and line.countersink_depth is not None:
        parts.append(f"sink {_mm(line.countersink)} wide, {_mm(line.countersink_depth)} deep")
    return ", ".join(parts) or "-"


def _why(line: JoinLine) -> str:
    used = "" if line.used is None else f"{line.used:.0%} used: "
    words = f"{used}{line.governs}" if line.governs else ""
    if line.note:
        words += "; see note" if words else "see note"
    return words or "-"


def _mm(value: float) -> str:
    return size(value)


def join_data(line: JoinLine, system: UnitSystem) -> dict[str, Any]:
    """Return one line of the join list as plain data; lengths in ``length_unit``."""
    _, unit = units.shown_value(line.length or 10.0, "length", system, False)

    def length(value: float | None) -> float | None:
        if value is None:
            return None
        return float(f"{units.express(value, unit, 'length'):.{_DIGITS}g}")

    return {
        "place": {"unit": line.place.unit, "part": line.place.part, "bay": line.place.bay},
        "join": spelled(line.join, system),
        "by": spelled(line.by, system),
        "demountable": spelled(line.demountable, system),
        "proposed": line.proposed,
        "joins": line.joins,
        "fastener": spelled(line.fastener, system),
        "name": line.name,
        "length_unit": unit,
        "length": length(line.length),
        "count": line.count,
        "spacing": length(line.spacing),
        "positions": [length(mark) for mark in line.positions],
        "along": spelled(line.along, system),
        "edge": length(line.edge),
        "pilot": length(line.pilot),
        "clearance": length(line.clearance),
        "countersink": length(line.countersink),
        "countersink_depth": length(line.countersink_depth),
        "used": None if line.used is None else float(f"{line.used:.{_DIGITS}g}"),
        "basis": spelled(line.basis, system),
        "governs": spelled(line.governs, system),
        "note": spelled(line.note, system),
        "cheaper": spelled(line.cheaper, system),
    }
