"""Commands that show what there is: examples, materials, contents, fasteners."""

from __future__ import annotations

import argparse
import sys

from shelfload.cli.parts import NOT_OK, OK, Commands, add_units


def add_example(commands: Commands) -> None:
    """Add the command that prints a description to start from."""
    command = commands.add_parser(
        "example",
        help="print a description to start from",
        epilog="Example: shelfload example | shelfload check -",
    )
    command.add_argument("name", nargs="?", help="which one; the first if left out")
    command.add_argument("--list", action="store_true", help="name them all")
    command.set_defaults(run=_example)


def add_materials(commands: Commands) -> None:
    """Add the command that shows materials."""
    command = _add_lookup(commands, "materials", "what sheets and boards are made of, with sources")
    command.set_defaults(run=_materials)


def add_contents(commands: Commands) -> None:
    """Add the command that shows contents."""
    command = _add_lookup(
        commands, "contents", "what people store and what it weighs, with sources"
    )
    command.set_defaults(run=_contents)


def add_fasteners(commands: Commands) -> None:
    """Add the command that shows screws, bolts and nails."""
    command = _add_lookup(commands, "fasteners", "screws, bolts and nails in the sizes sold")
    command.set_defaults(run=_fasteners)


def _add_lookup(commands: Commands, name: str, what: str) -> argparse.ArgumentParser:
    command = commands.add_parser(name, help=what, epilog=f"Example: shelfload {name} o")
    command.add_argument("word", nargs="?", default="", help="part of a name, title or family")
    add_units(command)
    return command


def _example(arguments: argparse.Namespace) -> int:
    from shelfload.describe.examples import example_names, example_text

    if arguments.list:
        for name, title in example_names().items():
            print(f"{name}  {title}")
    else:
        sys.stdout.write(example_text(arguments.name))
    return OK


def _materials(arguments: argparse.Namespace) -> int:
    from shelfload.report.lookup import materials

    return OK if materials(arguments.word, arguments.units, sys.stdout) else NOT_OK


def _contents(arguments: argparse.Namespace) -> int:
    from shelfload.report.lookup import contents

    return OK if contents(arguments.word, arguments.units, sys.stdout) else NOT_OK


def _fasteners(arguments: argparse.Namespace) -> int:
    from shelfload.report.lookup import fasteners

    return OK if fasteners(arguments.word, sys.stdout) else NOT_OK
