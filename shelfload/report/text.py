"""The report as Markdown or as plain text, for a file, a message or a screen reader."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from typing import Literal

from tabulate import tabulate

from shelfload.report.document import MARKS, Document, Section, Table

_WIDTH = 78
_NARROWEST = 6
_HEADER_PADDING = 2  # tabulate makes a column that much wider than its header


def markdown(document: Document) -> str:
    """Return the report in Markdown."""
    lines = [
        f"# {_escaped(document.title)}",
        "",
        _stated(document, "**"),
    ]
    for block in document.blocks:
        lines += ["", f"## {_escaped(block.title)}", ""]
        if isinstance(block, Section):
            marks = [f"{n}." if block.numbered else "-" for n in range(1, len(block.items) + 1)]
            lines += [
                f"{mark} {_escaped(item)}" for mark, item in zip(marks, block.items, strict=True)
            ]
        else:
            lines.append(_tabulated(block, "github"))
    return "\n".join(lines) + "\n"


def plain(document: Document) -> str:
    """Return the report as plain text of at most 80 columns, without any markup."""
    lines = [document.title, _stated(document, "")]
    for block in document.blocks:
        lines += ["", block.title, "-" * len(block.title)]
        if isinstance(block, Section):
            for number, item in enumerate(block.items, start=1):
                mark = f"{number}. " if block.numbered else "- "
                lines += textwrap.wrap(
                    item, _WIDTH, initial_indent=mark, subsequent_indent=" " * len(mark)
                )
        else:
            lines.append(_tabulated(block, "simple"))
    return "\n".join(lines) + "\n"


def _stated(document: Document, strong: str) -> str:
    if document.verdict is None:
        return document.summary
    return f"{strong}{MARKS[document.verdict]}{strong} ({document.summary})"


def _tabulated(table: Table, style: Literal["github", "simple"]) -> str:
    if style == "github":
        rows = [[_escaped(cell) for cell in row] for row in table.rows]
        return tabulate(rows, headers=table.header, tablefmt="github", disable_numparse=True)
    return fitted(table.header, table.rows)


def fitted(header: Sequence[str], rows: Sequence[Sequence[str]], *, kept: int = 0) -> str:
    """Return a plain table that fits 80 columns.

    Each column gets what it needs; the widest give way until all fit. The first ``kept``
    columns, names to be typed again, are never broken.
    """
    widths = [
        max(len(header[column]) + _HEADER_PADDING, *(len(row[column]) for row in rows), 0)
        for column in range(len(header))
    ]
    while sum(widths) > _WIDTH - 2 * (len(header) - 1) and max(widths[kept:]) > _NARROWEST:
        widths[widths.index(max(widths[kept:]), kept)] -= 1
    return tabulate(
        [list(row) for row in rows],
        headers=list(header),
        tablefmt="simple",
        disable_numparse=True,
        maxcolwidths=widths,
        maxheadercolwidths=[width - _HEADER_PADDING for width in widths],
    )


def _escaped(text: str) -> str:
    for character in "\\|*_`<>[]#":
        text = text.replace(character, "\\" + character)
    return text.replace("\n", " ")
