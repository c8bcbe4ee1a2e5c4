"""Commands that draw: a unit and its joins, and labels for its shelves."""

from __future__ import annotations

import argparse
from datetime import date

from shelfload.cli.parts import OK, Commands, add_units, read_description
from shelfload.cli.writing import add_out, write_out


def add_draw(commands: Commands) -> None:
    """Add the command that draws."""
    command = commands.add_parser(
        "draw",
        help="elevation, plan and the marks of every join, to scale",
        epilog='Example: shelfload draw store.toml --unit "left cupboard" --out unit.svg',
    )
    command.add_argument("file", help="description in TOML, or - for standard input")
    command.add_argument("--unit", metavar="NAME", help="only this unit or shelf")
    add_units(command)
    add_out(command, "unit.svg")
    command.set_defaults(run=_draw)


def add_labels(commands: Commands) -> None:
    """Add the command that makes shelf labels."""
    command = commands.add_parser(
        "labels",
        help="a sheet of labels in HTML: what each shelf may carry, in kg and lb",
        epilog="Example: shelfload labels store.toml --out labels.html",
    )
    command.add_argument("file", help="description in TOML, or - for standard input")
    add_out(command, "labels.html")
    command.set_defaults(run=_labels)


def _draw(arguments: argparse.Namespace) -> int:
    from shelfload.check.assess import assess
    from shelfload.report.drawing import drawings, standalone, together

    description = read_description(arguments.file)
    findings = assess(description.project, description.catalogue)
    drawn = drawings(findings, arguments.units, arguments.unit)
    whole = [] if arguments.unit else together(findings, arguments.units)
    title = description.project.title or "Shelves"
    write_out(standalone(title, drawn, whole), arguments.out)
    return OK


def _labels(arguments: argparse.Namespace) -> int:
    from shelfload.check.assess import assess
    from shelfload.report.labels import labels_page

    description = read_description(arguments.file)
    findings = assess(description.project, description.catalogue)
    title = description.project.title or "Shelves"
    write_out(labels_page(title, findings, date.today()), arguments.out)
    return OK
