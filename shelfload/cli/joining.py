"""The command for one join: which screw, how long, how many, where."""

from __future__ import annotations

import argparse
import sys

from shelfload.cli.parts import DOCUMENT_FORMATS, Commands, add_units, print_document, status


def add_screws(commands: Commands) -> None:
    """Add the command that chooses or judges the screws of one join."""
    command = commands.add_parser(
        "screws",
        help="choose or judge the screws of one join without a file",
        epilog='Example: shelfload screws --from "birch-plywood 18 mm" --into "birch-plywood 24 mm"'
        ' --length "300 mm" --force "20 kg"',
    )
    add = command.add_argument
    add(
        "--from",
        dest="first",
        required=True,
        metavar="MATERIAL THICKNESS",
        help='the piece under the head: "birch-plywood 18 mm"',
    )
    add(
        "--into",
        dest="second",
        required=True,
        metavar="MATERIAL THICKNESS",
        help='the piece with the point or the nut: "pine 1 1/2 in"',
    )
    add("--length", required=True, metavar="LENGTH", help="of the join, where screws can sit")
    add("--force", metavar="FORCE", help="along the face between the two: 300 N, 30 kg, 60 lb")
    add("--pull", metavar="FORCE", help="that pulls the two apart")
    add(
        "--lasting",
        choices=("permanent", "long-term", "medium-term", "short-term"),
        default="long-term",
        help="how long the forces last",
    )
    add("--into-edge", action="store_true", help="into the edge of the second piece")
    add("--into-end-grain", action="store_true", help="into the end of a solid board")
    add("--redriven", action="store_true", help="taken apart and put together again")
    add("--screw", metavar="SIZE", help='one that is meant: "4 x 35 mm", "No. 8 x 1 1/4 in"')
    add("--count", type=int, metavar="NUMBER", help="how many, with --screw")
    add("--by", metavar="WAY", help="screws, bolts, inserts or connectors")
    add("--recess", metavar="LENGTH", help="how deep a sunk head lies below the face")
    add("--span", metavar="LENGTH", help="the two are one doubled shelf of this span")
    add("--depth", metavar="LENGTH", help="front to back, of that doubled shelf")
    add("--service-class", choices=("indoor", "humid", "outdoor"), default="indoor")
    add("--format", choices=(*DOCUMENT_FORMATS, "json"), default="terminal", help="how to report")
    add_units(command)
    command.set_defaults(run=_screws)


def _screws(arguments: argparse.Namespace) -> int:
    from shelfload.check.one_join import MARK_STEP, one_join_findings
    from shelfload.describe.one_join import one_join
    from shelfload.report.one_join import one_join_document, one_join_json

    found = one_join_findings(one_join(vars(arguments)), MARK_STEP[arguments.units])
    if arguments.format == "json":
        sys.stdout.write(one_join_json(found, arguments.units))
    else:
        print_document(one_join_document(found, arguments.units), arguments.format)
    return status(found.verdict)
