"""The report as Markdown or as plain text, for a file, a message or a screen reader."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from typing import Literal

from tabulate import tabulate

from shelfload.report.columns import column_widths, record, wrapped
from shelfload.report.document import MARKS, Document, Section, Table

_WIDTH = 78
_INDENT = "    "


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
            lines += numbered(block.items) if block.numbered else _wrapped(block.items, "- ")
        else:
            lines.append(_tabulated(block, "simple"))
    return "\n".join(lines) + "\n"


def numbered(items: Sequence[str]) -> list[str]:
    """Return the lines of a numbered list, wrapped."""
    return [
        line
        for number, item in enumerate(items, start=1)
        for line in _wrapped([item], f"{number}. ")
    ]


def _wrapped(items: Sequence[str], mark: str) -> list[str]:
    indent = " " * len(mark)
    return [
        line
        for item in items
        for line in textwrap.wrap(item, _WIDTH, initial_indent=mark, subsequent_indent=indent)
    ]


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
    """Return a plain table that fits 80 columns, or its rows one below the other.

    The first ``kept`` columns, names to be typed again, are never broken.
    """
    widths = column_widths(header, rows, _WIDTH - 2 * (len(header) - 1), kept=kept)
    if widths is None:
        return "\n".join(line for row in rows for line in _record(header, row))
    cells = [
        [wrapped(cell, width) for cell, width in zip(row, widths, strict=True)]
        for row in [header, *rows]
    ]
    lines = tabulate(cells, tablefmt="plain", disable_numparse=True).splitlines()
    # tabulate makes every column two wider than its header; here each is as wide as it must be
    rule = "  ".join(
        "-" * max(len(line) for cell in column for line in cell.split("\n"))
        for column in zip(*cells, strict=True)
    )
    height = max(cell.count("\n") for cell in cells[0]) + 1
    return "\n".join([*lines[:height], rule, *lines[height:]])


def _record(header: Sequence[str], row: Sequence[str]) -> list[str]:
    first, *others = record(header, row)
    return [
        *textwrap.wrap(first, _WIDTH),
        *textwrap.wrap(" ".join(others), _WIDTH, initial_indent=_INDENT, subsequent_indent=_INDENT),
    ]


def _escaped(text: str) -> str:
    for character in "\\|*_`<>[]#":
        text = text.replace(character, "\\" + character)
    return text.replace("\n", " ")
