"""Options for shelves side by side, laid out as sections and tables."""

from __future__ import annotations

from collections.abc import Sequence
from math import floor

from shelfload import units
from shelfload.advise.find import MOST_LOAD, MOST_SPAN, Headroom
from shelfload.advise.option import Option, Options
from shelfload.advise.purchase import WASTE
from shelfload.check.result import Verdict
from shelfload.report.document import MARKS, Document, Section, Table
from shelfload.units import UnitSystem
from shelfload.wording import Measure, figure, spelled

_DOES = ("", "option", "sag", "allowed", "used", "may carry", "verdict")
_HOLDS = ("", "option", "used", "verdict")
_TAKES = ("", "mass", "pieces", "panel area", "sheets", "height lost")


def choice(
    title: str, compared: Sequence[Options], verdict: Verdict, system: UnitSystem
) -> Document:
    """Lay out the options of several shelves and units; the closing sentences come first.

    ``verdict`` is that of the whole description, as ``check`` gives it.
    """
    closing = tuple(
        spelled(f"{_named(one)}: {one.closing} {_headroom(one.headroom)}", system).strip()
        for one in compared
    )
    blocks: list[Table | Section] = [Section(title="In short", items=closing, numbered=True)]
    for one in compared:
        blocks += _of_one(one, system)
    if compared:
        blocks.append(Section(title="How the options are counted", items=_rules(compared)))
    else:
        said = "No shelf fails or is close, so there are no options to show."
        if verdict not in (Verdict.PASSES, Verdict.CLOSE):
            said += " Something else is not right: see what shelfload check says."
        blocks = [Section(title="In short", items=(said,))]
    many = f"{len(compared)} shelves" if len(compared) != 1 else "1 shelf"
    if any(one.question for one in compared):
        many = f"{len(compared)} places" if len(compared) != 1 else "1 place"
    return Document(
        title=title, verdict=verdict, summary=f"options for {many}", blocks=tuple(blocks)
    )


def _named(one: Options) -> str:
    return f"{one.place}: {one.question}" if one.question else str(one.place)


def _of_one(one: Options, system: UnitSystem) -> list[Table | Section]:
    """What each option does, then what it takes; a number ties the two together."""
    options = (one.now, *one.choices)
    header = _HOLDS if one.question else _DOES
    blocks: list[Table | Section] = [
        Table(
            title=_named(one),
            header=header,
            rows=tuple(_does(number, option, one, system) for number, option in enumerate(options)),
            verdict_column=len(header) - 1,
        )
    ]
    if one.choices:
        priced = (f"price, {one.currency}",) if one.currency else ()
        blocks.append(
            Table(
                title=f"{_named(one)}: what each takes more",
                header=(*_TAKES, *priced),
                rows=tuple(
                    _takes(number, option, one, system)
                    for number, option in enumerate(one.choices, start=1)
                ),
            )
        )
    notes = []
    if one.hidden:
        notes.append(f"{one.hidden} more were tried: they fail, or are beaten in every respect.")
    notes += [
        f"{option.words} would spoil: {option.spoils}." for option in options if option.spoils
    ]
    if one.currency:
        unpriced = dict.fromkeys(
            f"{figure(size, 'length')} {called}"
            for option in one.choices
            for called, size in option.extra.unpriced
        )
        notes += [f"Without a price in the description: {', '.join(unpriced)}."] if unpriced else []
    if notes:
        shown = tuple(spelled(note, system) for note in notes)
        blocks.append(Section(title=f"{_named(one)}: not shown", items=shown))
    return blocks


def _rules(compared: Sequence[Options]) -> tuple[str, ...]:
    rules = [
        "Each option is a whole description of its own, put through every check; its verdict "
        "is that of this place and of whatever it makes worse elsewhere.",
        "Clear heights stay as described, so that a unit grows by what a thicker shelf takes; "
        "where it must not grow, that height is lost.",
        f"Sheets are counted by area with {WASTE:.0%} of waste over the whole description, as "
        "the panels command does: none more means that what is bought anyway is enough.",
    ]
    if any(one.currency for one in compared):
        rules.append(
            "Prices are those of the description: by the sheet for whole sheets, by area or "
            "length with the same waste; glue, fasteners and work are not counted."
        )
    return tuple(rules)


def _headroom(room: Headroom | None) -> str:
    if room is None or room.load is None or room.span is None:
        return ""
    load, span = _times(room.load, MOST_LOAD), _times(room.span, MOST_SPAN)
    if min(room.load, room.span) >= 1.0:
        return f"As described it has room for {load} times its load, or {span} times its span."
    return f"As described it would pass with {load} times its load, or {span} times its span."


def _times(factor: float, most: float) -> str:
    # rounded down: with the figure printed it still passes
    words = figure(floor(factor * 100.0) / 100.0, "ratio")
    return f"more than {words}" if factor >= most else words


def _does(number: int, option: Option, one: Options, system: UnitSystem) -> tuple[str, ...]:
    def shown(value: float | None, measure: Measure, **how: bool) -> str:
        return "-" if value is None else spelled(figure(value, measure, **how), system)

    name = (str(number) if number else "", spelled(option.words, system))
    used = "-" if option.used is None else _percent(option.used)
    if one.question:
        return (*name, used, MARKS[option.verdict])
    return (
        *name,
        shown(option.sag, "length"),
        shown(option.limit, "length"),
        used,
        shown(option.safe_load, "force", as_mass=True, down=True),
        MARKS[option.verdict],
    )


def _percent(used: float) -> str:
    return f"{used:.0%}" if used < 10.0 else "over 999 %"


def _takes(number: int, option: Option, one: Options, system: UnitSystem) -> tuple[str, ...]:
    extra = option.extra
    if option.kind == "load":
        return (str(number), *("-",) * (len(_TAKES) - 1), *(("-",) if one.currency else ()))
    row = (
        str(number),
        _signed(extra.mass, "mass", system),
        f"{extra.pieces:+d}" if extra.pieces else "-",
        _area(extra.area, system),
        " ".join(
            text for text in (_more(extra.more, "+"), _more(extra.fewer, "-")) if text
        ) or "-",
        _signed(option.thickness, "length", system),
    )  # fmt: skip
    if not one.currency:
        return row
    return (*row, "?" if extra.cost is None else f"{extra.cost:+.2f}")


def _area(value: float, system: UnitSystem) -> str:
    """Write an area as sheets are sold: to a hundredth of a m2, or a tenth of a ft2."""
    unit, digits = ("m2", 2) if system == "metric" else ("ft2", 1)
    shown = round(units.express(value, unit, "area"), digits)
    return f"{shown:+.{digits}f} {unit}" if shown else "-"


def _more(count: int, sign: str) -> str:
    return f"{sign}{count}" if count else ""


def _signed(value: float, measure: Measure, system: UnitSystem) -> str:
    if abs(value) < 1e-9:
        return "-"
    size = spelled(figure(abs(value), measure), system)
    return size if size.startswith("under") else ("-" if value < 0 else "+") + size
