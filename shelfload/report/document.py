"""An outcome laid out as headings, lists and tables, whatever it will be printed as."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from shelfload.advise.outcome import Outcome
from shelfload.check.result import Check, SafeLoad, Verdict
from shelfload.idealise.place import Place
from shelfload.report.joins import HEADER, join_notes, join_rows
from shelfload.report.odds import HEADER as ODDS
from shelfload.report.odds import odds_notes, odds_rows
from shelfload.report.uprights import HEADER as UPRIGHTS
from shelfload.report.uprights import upright_rows
from shelfload.units import UnitSystem
from shelfload.wording import figure, spelled

MARKS = {
    Verdict.PASSES: "passes",
    Verdict.CLOSE: "close",
    Verdict.NOT_CHECKED: "not checked",
    Verdict.FAILS: "FAILS",
}
"""How a verdict is written: the word itself differs, so that colour is never needed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table: rows of text, and which column holds the verdict (None for none)."""

    title: str
    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    verdict_column: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A heading with a list of sentences, numbered or not."""

    title: str
    items: tuple[str, ...]
    numbered: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """A report in the order in which it is read; a table of figures has no verdict."""

    title: str
    verdict: Verdict | None
    summary: str
    blocks: tuple[Table | Section, ...] = field(default=())


def document(outcome: Outcome, system: UnitSystem, *, full: bool = False) -> Document:
    """Lay an outcome out: what to do, a table for each unit, assumptions, cautions.

    ``full`` lists every check; without it, only those that do not simply pass.
    """
    findings = outcome.findings
    blocks: list[Table | Section] = [
        Section(
            title="What to do",
            items=tuple(
                spelled(
                    f"{advice.place}: {advice.text}" if str(advice.place) else advice.text, system
                )
                for advice in outcome.advice
            ),
            numbered=True,
        )
    ]
    for name in dict.fromkeys(check.place.unit for check in findings.checks):
        checks = [check for check in findings.checks if check.place.unit == name]
        loads = [load for load in findings.safe_loads if load.place.unit == name]
        shelves = {shelf.place.part for shelf in findings.whole.shelves if shelf.place.unit == name}
        on_shelves = [check for check in checks if check.place.part in shelves]
        others = [check for check in checks if check.place.part not in shelves]
        if on_shelves:
            blocks.append(_shelf_table(name, on_shelves, loads, system))
        if others:
            blocks.append(_question_table(f"{name}: will it stay up", others, system))
        listed = [check for check in checks if full or check.verdict is not Verdict.PASSES]
        if listed:
            what = "every check" if full else "what does not simply pass"
            blocks.append(detail_table(f"{name}: {what}", listed, system))
        if full and name in findings.whole.placed:
            carried = upright_rows(findings.whole, name, system)
            title = f"{name}: what each upright carries"
            blocks.append(Table(title=title, header=UPRIGHTS, rows=carried))
        joins = [line for line in findings.joins if line.place.unit == name]
        if joins:
            rows = join_rows(joins, system)
            blocks.append(Table(title=f"{name}: joins and drilling", header=HEADER, rows=rows))
            notes = join_notes(joins, system)
            blocks.append(Section(title=f"{name}: notes on its joins", items=notes))
    if outcome.odds is not None:
        blocks.append(Table(title="Odds", header=ODDS, rows=odds_rows(outcome.odds, system)))
        notes = odds_notes(outcome.odds, system)
        blocks.append(Section(title="How the odds were found", items=notes))
    sources = {check.source for check in findings.checks if check.source}
    contents = {
        source
        for shelf in findings.whole.beams
        for bay in shelf.bays
        for source in bay.load.sources
    }
    materials = {
        f"{piece.material.called}: {piece.material.source} ({piece.material.status})"
        for shelf in findings.whole.beams
        for piece in shelf.shape.pieces
    }
    blocks += [
        Section(title="How it was worked out", items=_spelled(findings.models, system)),
        Section(title="Assumed", items=_spelled(findings.assumptions, system)),
        Section(title="Sources", items=_spelled(sorted(sources | contents | materials), system)),
        Section(title="Cautions", items=_spelled(outcome.cautions, system)),
    ]
    return Document(
        title=outcome.title,
        verdict=outcome.verdict,
        summary=summary(findings.checks),
        blocks=tuple(block for block in blocks if not isinstance(block, Section) or block.items),
    )


def _spelled(texts: Sequence[str], system: UnitSystem) -> tuple[str, ...]:
    return tuple(spelled(text, system) for text in texts)


def summary(checks: Sequence[Check]) -> str:
    """Count the answers in words, the gravest first."""
    counts = dict.fromkeys(reversed(Verdict), 0)
    for check in checks:
        counts[check.verdict] += 1
    parts = [f"{count} {MARKS[verdict]}" for verdict, count in counts.items() if count]
    return f"{len(checks)} check{'s' if len(checks) != 1 else ''}: {', '.join(parts)}"


def _shelf_table(
    name: str, checks: Sequence[Check], loads: Sequence[SafeLoad], system: UnitSystem
) -> Table:
    rows = []
    for place in reversed(dict.fromkeys(check.place for check in checks)):
        here = [check for check in checks if check.place == place]
        gravest = max(here, key=lambda check: (list(Verdict).index(check.verdict), _used(check)))
        sag = next((check for check in here if check.question.startswith("sag")), None)
        rows.append(
            (
                place.part or "shelf" if not place.bay else f"{place.part}, {place.bay}",
                "" if sag is None else _value(sag.value, sag, system),
                "" if sag is None else _value(sag.limit, sag, system),
                _may_carry(place, loads, system),
                _percent(gravest),
                _short(gravest.question),
                MARKS[gravest.verdict],
            )
        )
    return Table(
        title=name,
        header=("shelf", "sag", "allowed", "may carry", "used", "by", "verdict"),
        rows=tuple(rows),
        verdict_column=6,
    )


def _short(question: str) -> str:
    """Leave out when a sag is meant: the sag column and the assumptions say so."""
    return question.removesuffix(" after years").removesuffix(" on the first day")


def _used(check: Check) -> float:
    return -1.0 if check.value is None else check.ratio


def _percent(check: Check) -> str:
    if check.value is None:
        return "-"
    return f"{check.ratio:.0%}" if check.ratio < 10 else "over 999 %"


def _value(value: float | None, check: Check, system: UnitSystem) -> str:
    if value is None:
        return "-"
    return spelled(figure(value, check.measure, as_mass=check.as_mass), system)


def _allowed(check: Check, system: UnitSystem) -> str:
    """Write the limit; a margin or a number of things is one not to fall below."""
    limit = _value(check.limit, check, system)
    return f"{limit} or more" if check.at_least and check.limit is not None else limit


def _may_carry(place: Place, loads: Sequence[SafeLoad], system: UnitSystem) -> str:
    here = [
        load
        for load in loads
        if load.place.part == place.part and place.bay in ("", load.place.bay)
    ]
    shown = [
        "not checked"
        if load.even is None
        else spelled(figure(load.even, "force", as_mass=True, down=True), system)
        for load in here
    ]
    if len(set(shown)) == 1:
        return shown[0] if len(shown) == 1 else f"{shown[0]} a bay"
    return ", ".join(shown)


def _question_table(title: str, checks: Sequence[Check], system: UnitSystem) -> Table:
    rows = [
        (
            _where(check.place) if check.place.part else "whole",
            check.question,
            _value(check.value, check, system),
            _allowed(check, system),
            MARKS[check.verdict],
        )
        for check in checks
    ]
    return Table(
        title=title,
        header=("where", "question", "is", "allowed", "verdict"),
        rows=tuple(rows),
        verdict_column=4,
    )


def detail_table(title: str, checks: Sequence[Check], system: UnitSystem) -> Table:
    """List checks with their figures and what these came from."""
    rows = [
        (
            _where(check.place),
            check.question,
            _value(check.value, check, system),
            _allowed(check, system),
            MARKS[check.verdict],
            spelled(check.reason or check.governs, system),
        )
        for check in checks
    ]
    return Table(
        title=title,
        header=("where", "question", "is", "allowed", "verdict", "from"),
        rows=tuple(rows),
        verdict_column=4,
    )


def _where(place: Place) -> str:
    return ", ".join(piece for piece in (place.part, place.bay) if piece) or "shelf"
