"""Commands that check: a description file, or one shelf without a file."""

from __future__ import annotations

import argparse
import sys
from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

from shelfload.cli.holding import add_holding
from shelfload.cli.parts import (
    DOCUMENT_FORMATS,
    FOUND,
    Commands,
    add_units,
    print_document,
    read_description,
    samples,
    status,
)
from shelfload.cli.writing import add_out, write_out

if TYPE_CHECKING:
    from shelfload.advise.odds import Odds
    from shelfload.advise.option import Options
    from shelfload.advise.outcome import Outcome
    from shelfload.describe.reader import Description


def add_check(commands: Commands) -> None:
    """Add the command that checks a description."""
    command = commands.add_parser(
        "check",
        help="check everything a description holds",
        epilog="Example: shelfload check store.toml --format html --out report.html",
    )
    command.add_argument("file", help="description in TOML, or - for standard input")
    _add_report_options(command)
    command.set_defaults(run=_check)


def _add_report_options(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--format",
        choices=(*DOCUMENT_FORMATS, "json", "html"),
        default="terminal",
        help="how to report",
    )
    add_out(command, "report.html")
    command.add_argument(
        "--compare",
        action="store_true",
        help="with --format html: what each change would buy, for shelves that fail (slow)",
    )
    add_units(command)
    command.add_argument(
        "--full", action="store_true", help="list every check, not only those that do not pass"
    )
    command.add_argument(
        "--odds", action="store_true", help="chance of sagging past the limit and of overload"
    )
    command.add_argument(
        "--samples", type=samples, default=200_000, metavar="NUMBER", help="how often, for the odds"
    )
    command.add_argument(
        "--seed", type=int, default=1, metavar="NUMBER", help="same seed, same odds"
    )


def add_shelf(commands: Commands) -> None:
    """Add the command that checks one shelf without a file."""
    command = commands.add_parser(
        "shelf",
        help="check one shelf, desk top or bench top without a file",
        epilog='Example: shelfload shelf --span "900 mm" --depth "300 mm" --thickness "18 mm" '
        '--material birch-plywood --load "30 kg/m"',
    )
    add = command.add_argument
    spans = command.add_mutually_exclusive_group()
    spans.add_argument("--span", metavar="LENGTH", help="clear width between two supports")
    spans.add_argument(
        "--spans", metavar="LENGTHS", help='clear widths over dividers: "600 mm, 600 mm"'
    )
    add("--depth", required=True, metavar="LENGTH", help="front to back")
    add("--thickness", metavar="LENGTH", help="as sold")
    add("--material", required=True, metavar="NAME", help="see: shelfload materials")
    add("--load", metavar="LOAD", help="30 kg/m, 40 kg, 2 kPa, 40 psf, 600 kg/m3")
    add("--contents", metavar="NAME", help="see: shelfload contents")
    add(
        "--people",
        choices=["sitting", "standing", "sleeping", "leaning"],
        help="who is on it, of a seat, a platform, a bed, a desk or bench top",
    )
    add(
        "--point",
        action="append",
        default=[],
        metavar="LOAD@PLACE",
        help='"20 kg @ 300 mm" from the left end of the first span; may be repeated',
    )
    add(
        "--person",
        action="append",
        default=[],
        metavar="LOAD@PLACE",
        help="someone leaning or sitting there for a while; may be repeated",
    )
    add("--doubled", choices=("glued", "screwed", "lying"), help="two panels on each other")
    add("--lipping", metavar="THICKNESS x HEIGHT", help='strip on the front edge: "20 mm x 45 mm"')
    add("--lipping-material", default="european-oak", metavar="NAME")
    add("--grain", choices=("along", "across"), default="along", help="face grain and span")
    add("--ends", choices=("free", "clamped"), default="free", help="clamped is shown, no pass")
    add("--bearing", metavar="LENGTH", help="length of support under each end")
    add("--overhang", metavar="LENGTH", help="beyond the outer supports, both ends")
    add("--service-class", choices=("indoor", "humid", "outdoor"), default="indoor")
    add("--limit", metavar="NAME", help="sag limit, a row of the limits table")
    add("--name", default="shelf")
    add(
        "--find",
        choices=FOUND,
        help="look for it instead of giving it, and check the shelf that has it",
    )
    add_holding(command)
    _add_report_options(command)
    command.set_defaults(run=_shelf)


def _check(arguments: argparse.Namespace) -> int:
    return _report(read_description(arguments.file), arguments)


def _shelf(arguments: argparse.Namespace) -> int:
    from shelfload.describe.one_shelf import one_shelf

    description = one_shelf(vars(arguments))
    if arguments.find is None:
        return _report(description, arguments)
    from shelfload.advise.find import find
    from shelfload.wording import spelled

    found = find(description, arguments.find)
    if arguments.format in DOCUMENT_FORMATS:
        print(spelled(f"Found: {found.words}.", arguments.units), end="\n\n")
    return _report(found.description, arguments)


def _report(description: Description, arguments: argparse.Namespace) -> int:
    from shelfload.advise.outcome import outcome

    found = outcome(description)
    if arguments.odds:
        found = replace(found, odds=_odds(found, arguments))
    if arguments.format == "json":
        from shelfload.report.data import render

        write_out(render(found, arguments.units), arguments.out)
    elif arguments.format == "html":
        write_out(_page(description, found, arguments), arguments.out)
    else:
        from shelfload.report.document import document

        laid_out = document(found, arguments.units, full=arguments.full)
        print_document(laid_out, arguments.format, arguments.out)
    return status(found.verdict)


def _page(description: Description, found: Outcome, arguments: argparse.Namespace) -> str:
    from shelfload.report.page import page

    options: list[Options] = []
    if arguments.compare:
        from shelfload.advise.options import compared

        options = compared(description)
    return page(found, arguments.units, full=arguments.full, options=options, made=date.today())


def _odds(found: Outcome, arguments: argparse.Namespace) -> Odds:
    from shelfload.advise.odds import odds
    from shelfload.report.progress import shown

    with shown("odds", sys.stderr) as step:
        return odds(found.findings, samples=arguments.samples, seed=arguments.seed, step=step)
