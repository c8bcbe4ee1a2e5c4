"""The commands: parse, call, print, return. No formula and no layout lives here."""

from __future__ import annotations

import argparse
import os
import shutil
import sys
import textwrap
from collections.abc import Sequence
from typing import NoReturn

from shelfload.cli import (
    checking,
    choosing,
    completing,
    drawing,
    joining,
    lookup,
    panelling,
    starting,
    tabulating,
    testing,
)
from shelfload.cli.parts import NOT_OK, Parser
from shelfload.cli.streams import abandon_output, prepare_streams
from shelfload.errors import DescriptionError, ShelfloadError

UNUSABLE, OUR_FAULT = 2, 3
MOST_TOLD = 100
"""Mistakes that are printed; who has more has given another kind of file."""
_COMMANDS = (
    starting.add_new,
    checking.add_check,
    checking.add_shelf,
    choosing.add_options,
    joining.add_screws,
    tabulating.add_span_table,
    tabulating.add_load_table,
    testing.add_measure,
    testing.add_proof,
    testing.add_repair,
    panelling.add_panels,
    drawing.add_draw,
    drawing.add_labels,
    lookup.add_example,
    lookup.add_materials,
    lookup.add_contents,
    lookup.add_fasteners,
    starting.add_schema,
    completing.add_completion,
)
"""Every command, in the order of the help. A new one is added here."""


def entry() -> NoReturn:
    """Run as a program."""
    # the matrices here are small: a second thread only waits for the first
    for name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
        os.environ.setdefault(name, "1")
    prepare_streams()
    sys.exit(main(sys.argv[1:]))


def main(argv: Sequence[str]) -> int:
    """Run one command and return its exit status.

    Returns
    -------
    int
        0 nothing fails, 1 something fails or can't be said to pass, 2 the description or
        the command can't be used, 3 a fault of this program.
    """
    try:
        arguments = parser().parse_args(argv)
        status: int = arguments.run(arguments)
        sys.stdout.flush()
    except DescriptionError as fault:
        _complain(fault)
        return UNUSABLE
    except ShelfloadError as fault:
        print(f"shelfload: {fault}", file=sys.stderr)
        return UNUSABLE
    except BrokenPipeError:
        abandon_output()  # the reader of a pipe left; nothing more can be told to it
        return NOT_OK
    except OSError as fault:
        abandon_output()
        place = fault.filename or "standard output"
        print(f"shelfload: {place}: {fault.strerror or fault}", file=sys.stderr)
        return UNUSABLE
    except KeyboardInterrupt:
        print("shelfload: stopped", file=sys.stderr)
        return OUR_FAULT
    except Exception as fault:  # the last line of defence: no traceback reaches a user
        place = f"{type(fault).__name__}: {fault}"
        print(f"shelfload: a fault of this program, not of yours ({place})", file=sys.stderr)
        return OUR_FAULT
    return status


def _complain(fault: DescriptionError) -> None:
    where = f" in {fault.origin}" if fault.origin else ""
    count = len(fault.mistakes)
    print(f"shelfload: {count} mistake{'s' if count > 1 else ''}{where}", file=sys.stderr)
    for mistake in fault.mistakes[:MOST_TOLD]:
        print(_fitted(f"  {mistake}"), file=sys.stderr)
    if count > MOST_TOLD:
        print(f"  and {count - MOST_TOLD} more", file=sys.stderr)


def _fitted(text: str) -> str:
    """Wrap a mistake at the width of a terminal; whoever reads a pipe gets it in one line."""
    if sys.stderr is None or not sys.stderr.isatty():
        return text
    width = max(shutil.get_terminal_size().columns, 20)
    return textwrap.fill(
        text, width, subsequent_indent="    ", break_on_hyphens=False, break_long_words=False
    )


def parser() -> argparse.ArgumentParser:
    """Return the parser of all commands."""
    whole = Parser(
        prog="shelfload",
        description="Will this shelf carry its load, and will it stay up?",
        epilog="Start with: shelfload example > store.toml && shelfload check store.toml",
    )
    commands = whole.add_subparsers(required=True, metavar="COMMAND", parser_class=Parser)
    for add in _COMMANDS:
        add(commands)
    return whole
