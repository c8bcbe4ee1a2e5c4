"""Commands that start from a test: an offcut bent, a shelf loaded, a shelf that has sagged."""

from __future__ import annotations

import argparse
import sys

from shelfload.cli.parts import (
    DOCUMENT_FORMATS,
    NOT_OK,
    OK,
    Commands,
    add_units,
    described_place,
    print_document,
    read_description,
    status,
    years,
)

_KINDS = ("solid", "glulam", "plywood", "mdf", "hardboard", "particleboard", "osb", "bamboo",
          "blockboard", "steel", "aluminium", "glass", "acrylic")  # fmt: skip


def add_measure(commands: Commands) -> None:
    """Add the command that finds the stiffness of an offcut."""
    command = commands.add_parser(
        "measure",
        help="stiffness of an offcut from a weight and the sag it adds",
        epilog='Example: shelfload measure --span "800 mm" --width "100 mm" --thickness "17.8 mm" '
        '--like birch-plywood --reading "5 kg = 4.4 mm" --reading "5 kg = 4.5 mm"',
    )
    add = command.add_argument
    add("--span", required=True, metavar="LENGTH", help="between the two supports")
    add("--width", required=True, metavar="LENGTH", help="of the strip")
    add("--thickness", required=True, metavar="LENGTH", help="measured, not as sold")
    add(
        "--reading",
        required=True,
        action="append",
        metavar="WEIGHT=SAG",
        help='"10 kg = 2.1 mm": a weight and the sag at mid-span that it adds; repeat the test',
    )
    add("--at", choices=("centre", "thirds"), default="centre", help="where the weight stands")
    what = command.add_mutually_exclusive_group(required=True)
    what.add_argument("--like", metavar="NAME", help="row of the materials table that it may be")
    what.add_argument("--kind", choices=_KINDS, help="where even that is unknown")
    add("--length", metavar="LENGTH", help="of the whole offcut, with --mass for its density")
    add("--mass", metavar="MASS", help="of the whole offcut")
    add("--sag-error", default="0.25 mm", metavar="LENGTH", help="most a sag may be misread")
    add("--thickness-error", default="0.1 mm", metavar="LENGTH", help="likewise the thickness")
    add("--span-error", default="1 mm", metavar="LENGTH", help="likewise the span")
    add("--name", default="offcut", help="of the entry to paste")
    add(
        "--format",
        choices=(*DOCUMENT_FORMATS, "toml"),
        default="terminal",
        help="how to report; toml is the entry alone",
    )
    add_units(command)
    command.set_defaults(run=_measure)


def add_proof(commands: Commands) -> None:
    """Add the command that compares a loaded shelf with what is computed."""
    command = commands.add_parser(
        "proof",
        help="does a built shelf sag as computed, under a known load?",
        epilog='Example: shelfload proof store.toml --unit "left cupboard" --shelf "shelf 1" '
        '--reading "20 kg = 0.8 mm"',
    )
    _add_place(command)
    add = command.add_argument
    add("--bay", default="", metavar="NAME", help='where the load stands, such as "bay 1"')
    add(
        "--reading",
        required=True,
        action="append",
        metavar="LOAD=SAG",
        help='"20 kg = 0.8 mm": a load and the sag it adds at the front in mid-bay; repeat it',
    )
    add("--spread", choices=("even", "point"), default="even", help="over the bay or on its middle")
    add("--sag-error", default="0.25 mm", metavar="LENGTH", help="most a sag may be misread")
    command.set_defaults(run=_proof)


def add_repair(commands: Commands) -> None:
    """Add the command for a shelf that has sagged."""
    command = commands.add_parser(
        "repair",
        help="a shelf that has sagged: what is set, what turning over or a strip does now",
        epilog='Example: shelfload repair store.toml --unit "right cupboard" --shelf "shelf 1" '
        '--years 5 --sag "18 mm" --emptied "8 mm"',
    )
    _add_place(command)
    add = command.add_argument
    add("--years", required=True, type=years, metavar="NUMBER", help="how long it was loaded")
    add("--sag", required=True, metavar="LENGTH", help="as it is now, loaded")
    add("--emptied", metavar="LENGTH", help="sag that stays when it is emptied")
    command.set_defaults(run=_repair)


def _add_place(command: argparse.ArgumentParser) -> None:
    add = command.add_argument
    add("file", help="description in TOML, or - for standard input")
    add("--unit", metavar="NAME", help="unit or shelf; the only one if left out")
    add("--shelf", default="", metavar="NAME", help='shelf of a unit, such as "shelf 1"')
    add("--format", choices=DOCUMENT_FORMATS, default="terminal", help="how to report")
    add_units(command)


def _proof(arguments: argparse.Namespace) -> int:
    from shelfload.advise.proof import proven, readings_asked
    from shelfload.report.proof import proof_document

    readings, sag_error = readings_asked(vars(arguments))
    description = read_description(arguments.file)
    place = described_place(description, arguments.unit, arguments.shelf, arguments.bay)
    found = proven(description, place, readings, spread=arguments.spread, sag_error=sag_error)
    print_document(proof_document(found, arguments.units), arguments.format)
    return OK if found.expected else NOT_OK


def _repair(arguments: argparse.Namespace) -> int:
    from shelfload.advise.repair import repaired, sagged_asked
    from shelfload.report.repair import repair_document

    seen = sagged_asked(vars(arguments))
    description = read_description(arguments.file)
    place = described_place(description, arguments.unit, arguments.shelf)
    found = repaired(description, place, seen)
    print_document(repair_document(found, arguments.units), arguments.format)
    return status(found.remedies[0].verdict)


def _measure(arguments: argparse.Namespace) -> int:
    from shelfload.advise.bench import bench_asked
    from shelfload.advise.measure import entry, measured
    from shelfload.report.measure import measure_document

    found = measured(bench_asked(vars(arguments)))
    pasted = entry(found)
    form = arguments.format
    if form != "toml":
        print_document(measure_document(found, arguments.units), form)
        if pasted is not None:
            opening = "```toml\n" if form == "markdown" else ""
            print(f"\nTo paste into a description:\n\n{opening}", end="")
    if pasted is None:
        print("shelfload: the test says too little for an entry to use", file=sys.stderr)
        return NOT_OK
    sys.stdout.write(pasted + ("```\n" if form == "markdown" else ""))
    return OK
