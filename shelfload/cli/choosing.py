"""Commands that compare: what would help a shelf, and what each change buys and costs."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from shelfload.cli.parts import (
    DOCUMENT_FORMATS,
    FOUND,
    Commands,
    add_units,
    print_document,
    read_description,
    status,
)

if TYPE_CHECKING:
    from shelfload.describe.reader import Description


def add_options(commands: Commands) -> None:
    """Add the command that compares changes."""
    command = commands.add_parser(
        "options",
        help="what would help: divider, doubled panel, lipping and more, side by side",
        epilog='Example: shelfload options store.toml --shelf "shelf 1"',
    )
    command.add_argument("file", help="description in TOML, or - for standard input")
    command.add_argument(
        "--unit",
        metavar="NAME",
        help="only this unit or shelf; all that fail or are close if left out",
    )
    command.add_argument("--shelf", metavar="NAME", help='only this shelf of it, such as "shelf 1"')
    command.add_argument(
        "--find",
        choices=FOUND,
        help="look for it instead, for the one shelf named, and check the shelf that has it",
    )
    command.add_argument("--format", choices=DOCUMENT_FORMATS, default="terminal")
    add_units(command)
    command.set_defaults(run=_options)


def _options(arguments: argparse.Namespace) -> int:
    from shelfload.advise.options import compared
    from shelfload.check.assess import assess
    from shelfload.check.result import worst
    from shelfload.report.choice import choice

    description = read_description(arguments.file)
    if arguments.find is not None:
        return _find(description, arguments)
    found = compared(description, unit=arguments.unit, shelf=arguments.shelf)
    title = description.project.title or "Options"
    if found:
        verdict = worst(one.now.verdict for one in found)
    else:
        verdict = assess(description.project, description.catalogue).verdict
    print_document(choice(title, found, verdict, arguments.units), arguments.format)
    return status(verdict)


def _find(description: Description, arguments: argparse.Namespace) -> int:
    from shelfload.advise.find import find
    from shelfload.advise.options import the_shelf
    from shelfload.advise.outcome import outcome
    from shelfload.report.document import document
    from shelfload.wording import spelled

    place = the_shelf(description, arguments.unit, arguments.shelf)
    found = find(description, arguments.find, place)
    print(spelled(f"Found: {found.words}.", arguments.units), end="\n\n")
    checked = outcome(found.description)
    print_document(document(checked, arguments.units), arguments.format)
    return status(checked.verdict)
