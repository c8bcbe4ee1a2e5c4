"""The report in a terminal: rich tables and colour where the terminal has it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TextIO

from rich.box import SIMPLE_HEAD
from rich.console import Console, Group, RenderableType
from rich.padding import Padding
from rich.table import Table as RichTable
from rich.text import Text

from shelfload.check.result import Verdict
from shelfload.report.columns import column_widths, record, wrapped
from shelfload.report.document import MARKS, Document, Section, Table

_STYLES = {
    MARKS[Verdict.PASSES]: "green",
    MARKS[Verdict.CLOSE]: "yellow",
    MARKS[Verdict.NOT_CHECKED]: "magenta",
    MARKS[Verdict.FAILS]: "bold red",
}


def write(document: Document, stream: TextIO) -> None:
    """Print a report; colour and width follow the terminal, COLUMNS and NO_COLOR."""
    console = Console(file=stream, highlight=False)
    if not console.is_terminal:
        # a file or a pipe gets no padding to the right edge
        with console.capture() as captured:
            _print(document, console)
        stream.writelines(f"{line.rstrip()}\n" for line in captured.get().splitlines())
        return
    _print(document, console)


def _print(document: Document, console: Console) -> None:
    console.print(_header(document))
    for block in document.blocks:
        console.print()
        if isinstance(block, Section):
            console.print(_section(block))
        else:
            console.print(_table(block, console.width))


def _header(document: Document) -> RenderableType:
    title = Text(document.title, style="bold")
    if document.verdict is None:
        return Group(title, Text(document.summary))
    mark = MARKS[document.verdict]
    verdict = Text.assemble((mark, _STYLES[mark]), f"  ({document.summary})")
    return Group(title, verdict)


def _section(section: Section) -> RenderableType:
    grid = RichTable.grid(padding=(0, 1))
    grid.add_column(justify="right", no_wrap=True)
    grid.add_column(overflow="fold")
    for number, item in enumerate(section.items, start=1):
        grid.add_row(f"{number}." if section.numbered else "-", Text(item))
    return Group(Text(section.title, style="bold underline"), Padding(grid, (0, 0, 0, 1)))


def _table(table: Table, width: int) -> RenderableType:
    title = Text(table.title, style="bold")
    columns = len(table.header)
    # rich puts a space before the first column and two between columns
    widths = column_widths(table.header, table.rows, width - 2 * columns)
    if widths is None:
        return Group(title, Padding(Group(*(_record(table, row) for row in table.rows)), (1, 1)))
    shown = RichTable(
        title=title,
        title_justify="left",
        box=SIMPLE_HEAD,
        pad_edge=False,
        padding=(0, 1, 0, 0),
    )
    for name, room in zip(table.header, widths, strict=True):
        shown.add_column(Text(wrapped(name, room)), overflow="fold")
    for row in table.rows:
        cells = [Text(wrapped(cell, room)) for cell, room in zip(row, widths, strict=True)]
        if table.verdict_column is not None:
            cells[table.verdict_column].stylize(_STYLES.get(row[table.verdict_column], ""))
        shown.add_row(*cells)
    return shown


def _record(table: Table, row: Sequence[str]) -> RenderableType:
    """Lay out a row that is too wide for columns as a few lines of its own."""
    first, *others = record(table.header, row)
    told = Text(" ".join(others), overflow="fold")
    if table.verdict_column is not None:
        verdict = row[table.verdict_column]
        told.highlight_words([verdict], _STYLES.get(verdict, ""))
    return Group(Text(first, overflow="fold"), Padding(told, (0, 0, 0, 2)))
