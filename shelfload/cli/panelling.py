"""The command for cut sizes: every panel, the sheets it takes, and the supplier's list."""

from __future__ import annotations

import argparse
import re
import sys
from pathlib import Path

from shelfload.cli.parts import (
    DOCUMENT_FORMATS,
    NOT_OK,
    OK,
    Commands,
    add_units,
    print_document,
    read_description,
)
from shelfload.errors import DescriptionError, Mistake, QuantityError


def add_panels(commands: Commands) -> None:
    """Add the command that lists cut sizes."""
    command = commands.add_parser(
        "panels",
        help="cut sizes with the sum behind each, sheets, and the supplier's list compared",
        epilog='Example: shelfload panels store.toml --compare order.csv --tolerance "1 mm"',
    )
    add = command.add_argument
    add("file", help="description in TOML, or - for standard input")
    add("--waste", default="15%", metavar="SHARE", help="of the sheets bought: 15%% if left out")
    add(
        "--sheet",
        metavar="LENGTH x WIDTH",
        help='grain along the length: "2440 mm x 1220 mm", or 8 ft x 4 ft, if left out',
    )
    add("--compare", metavar="CSV", help="a supplier's list with columns length, width, count, ...")
    add("--tolerance", default="1 mm", metavar="LENGTH", help="sizes closer than this are the same")
    add("--format", choices=(*DOCUMENT_FORMATS, "csv", "json"), default="terminal")
    add_units(command)
    command.set_defaults(run=_panels)


def _panels(arguments: argparse.Namespace) -> int:
    from shelfload.check.supplier import compared
    from shelfload.describe.supplier_list import read_supplier_file
    from shelfload.idealise.panels import cut_list, sheets
    from shelfload.report.panels import Ordered, panels_document
    from shelfload.report.panels_data import csv_text, json_text

    waste, sheet, tolerance = _asked(arguments)
    description = read_description(arguments.file)
    cut = cut_list(description.project, description.catalogue)
    differences = None
    if arguments.compare is not None:
        supplied = read_supplier_file(Path(arguments.compare))
        differences = compared(cut, supplied, tolerance, description.catalogue)
    ordered = Ordered(
        title=description.project.title or "Cut sizes",
        cut=cut,
        sheets=sheets(cut, sheet, waste, description.catalogue),
        sheet=sheet,
        waste=waste,
        supplier=arguments.compare or "",
        differences=differences,
        tolerance=tolerance,
    )
    if arguments.format in ("csv", "json"):
        write = csv_text if arguments.format == "csv" else json_text
        sys.stdout.write(write(ordered, arguments.units))
    else:
        print_document(panels_document(ordered, arguments.units), arguments.format)
    if arguments.format == "csv" and differences:
        print(f"shelfload: {len(differences)} differences from the supplier's list; "
              "other formats list them", file=sys.stderr)  # fmt: skip
    return NOT_OK if differences else OK


def _asked(arguments: argparse.Namespace) -> tuple[float, tuple[float, float], float]:
    """Waste as a share, sheet size [mm], tolerance [mm]; every mistake at once."""
    from shelfload import units

    mistakes = []
    waste, sheet, tolerance = 0.0, (2440.0, 1220.0), 1.0
    if arguments.units == "inch":
        sheet = (units.read("96 in", "length"), units.read("48 in", "length"))
    share = re.fullmatch(r"([0-9]{1,2}(?:\.[0-9]+)?) ?%", arguments.waste.strip())
    if share is not None and float(share[1]) <= 90.0:
        waste = float(share[1]) / 100.0
    else:
        mistakes.append(_mistake("--waste", arguments.waste, "a share from 0% to 90%, as in 15%"))
    if arguments.sheet is not None:
        try:
            length, width = (
                units.read(one, "length") for one in re.split(r"\s+[x×]\s+", arguments.sheet)
            )
            if not min(length, width) > 0.0:
                raise QuantityError(arguments.sheet, "sizes above zero")
            sheet = (length, width)
        except ValueError:
            allowed = 'two lengths, as in "2500 mm x 1250 mm"'
            mistakes.append(_mistake("--sheet", arguments.sheet, allowed))
    try:
        tolerance = units.read(arguments.tolerance, "length")
    except QuantityError as fault:
        mistakes.append(_mistake("--tolerance", fault.found, fault.allowed))
    if mistakes:
        raise DescriptionError(mistakes, "the command line")
    return waste, sheet, tolerance


def _mistake(key: str, found: str, allowed: str) -> Mistake:
    return Mistake(key=key, found=repr(found), allowed=f"allowed: {allowed}")
