"""Commands that print tables: largest spans, and safe loads by span."""

from __future__ import annotations

import argparse
import sys
from typing import TYPE_CHECKING

from shelfload.cli.parts import (
    DOCUMENT_FORMATS,
    OK,
    Commands,
    add_units,
    print_document,
    read_description,
)

if TYPE_CHECKING:
    from shelfload.describe.catalogue import Catalogue


def add_span_table(commands: Commands) -> None:
    """Add the command that prints largest spans."""
    command = commands.add_parser(
        "span-table",
        help="largest span by material, thickness, contents and support",
        epilog='Example: shelfload span-table --depth "300 mm" --contents books',
    )
    command.add_argument(
        "--contents", action="append", metavar="NAME", help="a column each; may be repeated"
    )
    command.add_argument(
        "--load",
        action="append",
        metavar="LOAD",
        help="a column each: 30 kg/m, 2 kPa, 40 psf, 600 kg/m3; may be repeated",
    )
    _add_sheets(command)
    command.set_defaults(run=_span_table)


def add_load_table(commands: Commands) -> None:
    """Add the command that prints safe loads."""
    command = commands.add_parser(
        "load-table",
        help="safe load by material, thickness, span and support",
        epilog='Example: shelfload load-table --depth "300 mm" --spans "600 mm, 900 mm"',
    )
    command.add_argument("--spans", metavar="LENGTHS", help='clear spans: "600 mm, 900 mm"')
    _add_sheets(command)
    command.set_defaults(run=_load_table)


def _add_sheets(command: argparse.ArgumentParser) -> None:
    add = command.add_argument
    add("--depth", default="300 mm", metavar="LENGTH", help="front to back, 300 mm if left out")
    add("--material", action="append", metavar="NAME", help="rows of the table; may be repeated")
    add(
        "--file", metavar="FILE", help="a description whose own materials and contents may be named"
    )
    add("--thickness", metavar="LENGTHS", help='as sold: "12 mm, 18 mm"')
    add(
        "--dividers",
        nargs="+",
        type=int,
        choices=(0, 1, 2),
        default=(0, 1, 2),
        help="how many dividers one shelf runs over; all three if left out",
    )
    add(
        "--back",
        nargs="?",
        const="",
        metavar="BACK",
        help='shelves with a fixed back as well: "hardboard 3.2 mm, nailed every 100 mm"; '
        "6.5 mm plywood on screws if left bare (slower)",
    )
    add("--grain", choices=("along", "across"), default="along", help="face grain and span")
    add("--bearing", metavar="LENGTH", help="length of support under each end")
    add("--clear-height", default="300 mm", metavar="LENGTH", help="for contents by volume")
    add("--service-class", choices=("indoor", "humid", "outdoor"), default="indoor")
    add("--limit", metavar="NAME", help="sag limit, a row of the limits table")
    add("--format", choices=(*DOCUMENT_FORMATS, "csv"), default="terminal", help="how to print")
    add_units(command)


def _catalogue(arguments: argparse.Namespace) -> Catalogue:
    from shelfload.describe.catalogue import Catalogue

    if arguments.file is None:
        return Catalogue()
    return read_description(arguments.file).catalogue


def _span_table(arguments: argparse.Namespace) -> int:
    from shelfload.advise.asked import spans_asked
    from shelfload.advise.span_tables import span_table
    from shelfload.report.spans import csv_text, span_document

    asked, columns = spans_asked(vars(arguments), _catalogue(arguments))
    table = span_table(asked, [column.value for column in columns])
    if arguments.format == "csv":
        sys.stdout.write(csv_text(asked, columns, table, arguments.units, "length"))
    else:
        page = span_document(asked, columns, table, arguments.units)
        print_document(page, arguments.format)
    return OK


def _load_table(arguments: argparse.Namespace) -> int:
    from shelfload.advise.asked import loads_asked
    from shelfload.advise.span_tables import load_table
    from shelfload.report.spans import csv_text, load_document

    asked, columns = loads_asked(vars(arguments), _catalogue(arguments))
    table = load_table(asked, [column.value for column in columns])
    if arguments.format == "csv":
        sys.stdout.write(csv_text(asked, columns, table, arguments.units, "line load"))
    else:
        page = load_document(asked, columns, table, arguments.units)
        print_document(page, arguments.format)
    return OK
