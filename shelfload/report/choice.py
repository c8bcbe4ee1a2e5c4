"""Options for shelves side by side, laid out as sections and tables."""

from __future__ import annotations

from collections.abc import Sequence

from shelfload.advise.find import Headroom
from shelfload.advise.options import Option, Options
from shelfload.check.result import Verdict
from shelfload.report.document import MARKS, Document, Section, Table
from shelfload.units import UnitSystem
from shelfload.wording import Measure, figure, spelled

_HEADER = ("option", "sag", "allowed", "used", "may carry", "adds", "takes", "verdict")


def choice(
    title: str, compared: Sequence[Options], verdict: Verdict, system: UnitSystem
) -> Document:
    """Lay out the options of several shelves; the closing sentences come first.

    ``verdict`` is that of the whole description, as ``check`` gives it.
    """
    closing = tuple(
        spelled(f"{one.place}: {one.closing} {_headroom(one.headroom)}", system).strip()
        for one in compared
    )
    blocks: list[Table | Section] = [Section(title="In short", items=closing, numbered=True)]
    for one in compared:
        blocks.append(
            Table(
                title=str(one.place),
                header=_HEADER,
                rows=tuple(_row(option, system) for option in (one.now, *one.choices)),
                verdict_column=len(_HEADER) - 1,
            )
        )
        notes = [f"{one.hidden} more were tried: they fail, or are beaten in every respect."]
        notes += [
            f"{option.words} would make fail: {option.spoils}."
            for option in (one.now, *one.choices)
            if option.spoils
        ]
        shown = tuple(spelled(note, system) for note in notes if one.hidden or "would" in note)
        if shown:
            blocks.append(Section(title=f"{one.place}: not shown", items=shown))
    if not compared:
        said = "No shelf fails or is close, so there are no options to show."
        if verdict not in (Verdict.PASSES, Verdict.CLOSE):
            said += " Something else is not right: see what shelfload check says."
        blocks = [Section(title="In short", items=(said,))]
    many = f"{len(compared)} shelves" if len(compared) != 1 else "1 shelf"
    return Document(
        title=title, verdict=verdict, summary=f"options for {many}", blocks=tuple(blocks)
    )


def _headroom(room: Headroom) -> str:
    if room.load is None or room.span is None:
        return ""
    load, span = figure(room.load, "ratio"), figure(room.span, "ratio")
    if min(room.load, room.span) >= 1.0:
        return f"As described it has room for {load} times its load, or {span} times its span."
    return f"As described it would pass with {load} times its load, or {span} times its span."


def _row(option: Option, system: UnitSystem) -> tuple[str, ...]:
    def shown(value: float | None, measure: Measure, **how: bool) -> str:
        return "-" if value is None else spelled(figure(value, measure, **how), system)

    return (
        spelled(option.words, system),
        shown(option.sag, "length"),
        shown(option.limit, "length"),
        "-" if option.used is None else f"{option.used:.0%}",
        shown(option.safe_load, "force", as_mass=True, down=True),
        _signed(option.mass, "mass", system),
        _signed(option.thickness, "length", system),
        MARKS[option.verdict],
    )


def _signed(value: float, measure: Measure, system: UnitSystem) -> str:
    if abs(value) < 1e-9:
        return "-"
    size = spelled(figure(abs(value), measure), system)
    return size if size.startswith("under") else ("-" if value < 0 else "+") + size
