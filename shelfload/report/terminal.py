"""The report in a terminal: rich tables and colour where the terminal has it."""

from __future__ import annotations

from typing import TextIO

from rich.box import SIMPLE_HEAD
from rich.console import Console, Group, RenderableType
from rich.padding import Padding
from rich.table import Table as RichTable
from rich.text import Text

from shelfload.check.result import Verdict
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
        console.print(_section(block) if isinstance(block, Section) else _table(block))


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


def _table(table: Table) -> RenderableType:
    shown = RichTable(
        title=Text(table.title, style="bold"),
        title_justify="left",
        box=SIMPLE_HEAD,
        pad_edge=False,
        padding=(0, 1, 0, 0),
    )
    for name in table.header:
        shown.add_column(name, overflow="fold")
    for row in table.rows:
        cells = [Text(cell) for cell in row]
        if table.verdict_column is not None:
            cell = row[table.verdict_column]
            cells[table.verdict_column] = Text(cell, style=_STYLES.get(cell, ""))
        shown.add_row(*cells)
    return shown
