"""The report as one page that needs nothing else: no network, no script."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from functools import cache

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from shelfload.advise.option import Options
from shelfload.advise.outcome import Outcome
from shelfload.check.result import Verdict
from shelfload.idealise.panels import cut_list, sheets
from shelfload.idealise.whole import Whole
from shelfload.report.choice import choice
from shelfload.report.document import MARKS, Document, Section, Table, document
from shelfload.report.drawing import drawings, inline, together
from shelfload.report.ink import CLASSES, DARK, LIGHT, drawing_rules
from shelfload.report.lifted import lifting_table
from shelfload.report.panels import Ordered, panels_document
from shelfload.report.svg import Drawing, visible
from shelfload.units import UnitSystem

_LEADS = {
    Verdict.PASSES: "Everything described passes.",
    Verdict.CLOSE: "It passes, but somewhere with little to spare.",
    Verdict.NOT_CHECKED: "It can't be said to pass: something is not checked.",
    Verdict.FAILS: "Something fails. Do not build or load it like this.",
}
"""The verdict in a sentence."""
_SHEET: dict[UnitSystem, tuple[float, float]] = {
    "metric": (2440.0, 1220.0),
    "inch": (2438.4, 1219.2),
}
_LONG_WORD = 24
_WASTE = 0.15
"""Sheets and waste that the cut sizes are counted in [mm], [-]; the panels command takes others."""


@dataclass(slots=True, kw_only=True)
class Chapter:
    """A unit, or a theme of the whole report: its drawings and its blocks.

    ``shared`` is what the titles of its blocks start with, not to be repeated under its heading.
    """

    title: str
    anchor: str
    shared: str = ""
    views: list[Drawing] = field(default_factory=list)
    layouts: list[Drawing] = field(default_factory=list)
    blocks: list[Table | Section] = field(default_factory=list)

    def heading(self, block: Table | Section) -> str:
        """Return what stands over one of its blocks, empty if the chapter says it already."""
        if block.title == self.title:
            return "Shelves" if self.shared else ""
        short = block.title.removeprefix(self.shared) if self.shared else block.title
        return short[:1].upper() + short[1:]


def page(
    outcome: Outcome,
    system: UnitSystem,
    *,
    full: bool = False,
    options: Sequence[Options] = (),
    made: date | None = None,
) -> str:
    """Return the report as one HTML page.

    Parameters
    ----------
    outcome : Outcome
        What to report.
    system : {"metric", "inch"}
        Units of the report.
    full : bool
        List every check, not only those that do not simply pass.
    options : sequence of Options
        Changes compared, for the shelves they were asked for.
    made : date, optional
        Shown in the head; left out if None.
    """
    laid_out = document(outcome, system, full=full)
    verdict = outcome.verdict
    return (
        environment()
        .get_template("page.html")
        .render(
            title=laid_out.title,
            verdict=MARKS[verdict],
            verdict_class=CLASSES[verdict],
            lead=_LEADS[verdict],
            summary=laid_out.summary,
            units="millimetres, kilograms" if system == "metric" else "inches, pounds",
            made="" if made is None else made.isoformat(),
            chapters=_chapters(outcome, laid_out, system, options),
        )
    )


@cache
def environment() -> Environment:
    """Return the templates; every value they print is escaped and free of hidden characters."""
    made = Environment(
        loader=PackageLoader("shelfload.report"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        finalize=_finalized,
    )
    made.globals["light"], made.globals["dark"] = LIGHT, DARK
    made.globals["drawing_rules"] = Markup(drawing_rules())  # noqa: S704  our own style sheet
    made.globals["marks"] = {MARKS[verdict]: name for verdict, name in CLASSES.items()}
    made.filters["inline"] = lambda drawing: Markup(inline(drawing))  # noqa: S704  escaped there
    made.tests["table"] = lambda block: isinstance(block, Table)
    made.tests["unbroken"] = lambda text: any(len(word) > _LONG_WORD for word in text.split())
    return made


def _cut_sizes(whole: Whole, system: UnitSystem) -> Document:
    cut = cut_list(whole.project, whole.catalogue)
    sheet = _SHEET[system]
    bought = sheets(cut, sheet, _WASTE, whole.catalogue)
    ordered = Ordered(title="Cut sizes", cut=cut, sheets=bought, sheet=sheet, waste=_WASTE)
    return panels_document(ordered, system)


def _finalized(value: object) -> object:
    return visible(value) if isinstance(value, str) and not isinstance(value, Markup) else value


def _chapters(
    outcome: Outcome, laid_out: Document, system: UnitSystem, options: Sequence[Options]
) -> list[Chapter]:
    findings = outcome.findings
    drawn = drawings(findings, system)
    units = [
        Chapter(
            title=one.name,
            anchor=f"unit-{count}",
            shared=f"{one.name}: ",
            views=list(one.views),
            layouts=list(one.layouts),
        )
        for count, one in enumerate(drawn, start=1)
    ]
    before: list[Chapter] = []
    after: list[Chapter] = []
    for block in laid_out.blocks:
        # the longest name first: one unit's name may begin like another's
        owner = next(
            (
                chapter
                for chapter in sorted(units, key=lambda one: -len(one.title))
                if block.title.startswith(chapter.shared)
                # a unit may be called "Cautions": the table of its shelves bears its name alone
                or (block.title == chapter.title and isinstance(block, Table))
            ),
            None,
        )
        if owner is not None:
            owner.blocks.append(block)
            continue
        chapter = Chapter(title=block.title, anchor="", blocks=[block])
        (after if any(unit.blocks for unit in units) else before).append(chapter)
    stands = together(findings, system)
    if stands:
        before.append(Chapter(title="How the units stand", anchor="", views=stands))
    if options:
        compared = choice("Options", options, findings.verdict, system)
        after.insert(0, Chapter(title="Options", anchor="", blocks=list(compared.blocks)))
    cut = _cut_sizes(findings.whole, system)
    after.insert(0, Chapter(title="Cut sizes", anchor="", blocks=list(cut.blocks)))
    lifted = lifting_table(findings.whole, system)
    if lifted is not None:
        after.insert(0, Chapter(title=lifted.title, anchor="", blocks=[lifted]))
    chapters = [*before, *units, *after]
    for number, chapter in enumerate(chapters, start=1):
        chapter.anchor = f"part-{number}"
    return [chapter for chapter in chapters if chapter.blocks or chapter.views]
