"""What the commands share: the parser, report options, and the way a report is written."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn, TypeAlias

from shelfload.errors import DescriptionError, Mistake

if TYPE_CHECKING:
    from shelfload.check.result import Verdict
    from shelfload.describe.reader import Description
    from shelfload.report.document import Document

OK, NOT_OK = 0, 1
DOCUMENT_FORMATS = ("terminal", "plain", "markdown")


class Parser(argparse.ArgumentParser):
    """A parser whose mistakes look like all others and leave with status 2."""

    def error(self, message: str) -> NoReturn:
        """Raise what argparse would print, for the one place that prints mistakes."""
        raise DescriptionError(
            [Mistake(key="command line", found=message, allowed=f"see {self.prog} --help")]
        )


Commands: TypeAlias = "argparse._SubParsersAction[Parser]"


def add_units(command: argparse.ArgumentParser) -> None:
    """Let a command be asked for its units."""
    command.add_argument(
        "--units", choices=("metric", "inch"), default="metric", help="units of the report"
    )


def read_description(name: str) -> Description:
    """Read a description file, or standard input for a dash."""
    from shelfload.describe.reader import read_file, read_text

    if name == "-":
        return read_text(sys.stdin.read(), "standard input")
    return read_file(Path(name))


def print_document(page: Document, form: str) -> None:
    """Print a laid-out report in one of ``DOCUMENT_FORMATS``."""
    if form == "terminal":
        from shelfload.report.terminal import write

        write(page, sys.stdout)
        return
    from shelfload.report import text

    sys.stdout.write(text.plain(page) if form == "plain" else text.markdown(page))


def status(verdict: Verdict) -> int:
    """Return the exit status that a verdict asks for."""
    from shelfload.check.result import Verdict

    return OK if verdict in (Verdict.PASSES, Verdict.CLOSE) else NOT_OK
