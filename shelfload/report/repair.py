"""A sagged shelf and what mends it, laid out as sections and a table."""

from __future__ import annotations

from shelfload.advise.repair import FULL_YEARS, POWERS, Remedy, Repair
from shelfload.check.result import Verdict
from shelfload.report.document import MARKS, Document, Section, Table
from shelfload.units import UnitSystem
from shelfload.wording import figure, spelled

_HEADER = ("remedy", "at once", "after years", "allowed", "verdict", "what it does")


def repair_document(found: Repair, system: UnitSystem) -> Document:
    """Lay a repair out: the state first, then the choice, then how it was worked out."""
    limit = figure(found.limit, "length")
    first = found.remedies[0]
    good = [remedy for remedy in found.remedies if remedy.verdict is Verdict.PASSES]
    if first.verdict is Verdict.PASSES:
        short = "It stays within its limit: leave it."
    elif good:
        short = f"What brings it within {limit} for good: {good[0].words}."
    else:
        short = f"Nothing here brings it within {limit} for good: less load, or a new shelf."
    how = (
        "First-day sag comes from the check of the description, scaled to what was seen; creep "
        f"grows with time to a power of {POWERS[0]:g} to {POWERS[1]:g} (from memory) until it is "
        f"kdef of EN 1995-1-1, Table 3.2, after {FULL_YEARS:g} years.",
        "Turning over and emptying add up the load steps (superposition). That holds for wood "
        "kept dry and even; damp, heat and cracks are not in it.",
        "A strip or second panel is glued on while the shelf is empty and propped straight; the "
        "stiffened shelf is checked as a changed description. Its joints are not checked here.",
    )
    blocks: tuple[Section | Table, ...] = (
        Section(title="In short", items=(spelled(short, system),)),
        Section(title="Its state", items=tuple(spelled(text, system) for text in found.findings)),
        Table(
            title="What would help",
            header=_HEADER,
            rows=tuple(_row(remedy, system) for remedy in found.remedies),
            verdict_column=4,
        ),
        Section(title="How it was worked out", items=how),
    )
    return Document(
        title=f"{found.place}: sagged", verdict=first.verdict, summary="as it is", blocks=blocks
    )


def _row(remedy: Remedy, system: UnitSystem) -> tuple[str, ...]:
    def length(value: float | None) -> str:
        if value is None:
            return "-"
        size = spelled(figure(abs(value), "length"), system)
        return f"{size} up" if value < 0.0 else size

    return (
        spelled(remedy.words, system),
        length(remedy.at_once),
        length(remedy.after_years),
        length(remedy.limit),
        MARKS[remedy.verdict],
        spelled(remedy.note, system),
    )
