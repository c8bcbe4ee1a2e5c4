"""What the commands share: the parser, report options, and the way a report is written."""

from __future__ import annotations

import argparse
import re
import sys
from io import StringIO
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn, TypeAlias

from shelfload.errors import DescriptionError, Mistake, UnknownName, nearest_name

if TYPE_CHECKING:
    from shelfload.check.result import Verdict
    from shelfload.describe.reader import Description
    from shelfload.idealise.place import Place
    from shelfload.report.document import Document

OK, NOT_OK = 0, 1
DOCUMENT_FORMATS = ("terminal", "plain", "markdown")
FOUND = ("span", "load", "thickness", "lipping", "overhang", "stiffness")
"""What can be looked for; the program that looks is loaded only when it is asked to."""


class Parser(argparse.ArgumentParser):
    """A parser whose mistakes look like all others and leave with status 2."""

    def parse_known_args(self, args: Any = None, namespace: Any = None) -> Any:
        """Parse the options of a command; all that it does not have are told first."""
        known = re.findall(r"--[a-z][a-z-]*", self.format_help())
        typed = [word.partition("=")[0] for word in args or () if word.startswith("--")]
        unknown = [word for word in typed if not any(name.startswith(word) for name in known)]
        if unknown and self.prog.count(" "):  # the parser of all commands sees those of any
            raise DescriptionError(
                [
                    Mistake(
                        key="command line",
                        found=f"the unknown option {word}",
                        allowed=f"see {self.prog} --help",
                        nearest=nearest_name(word, known),
                    )
                    for word in unknown
                ]
            )
        return super().parse_known_args(args, namespace)

    def error(self, message: str) -> NoReturn:
        """Raise what argparse would print, for the one place that prints mistakes."""
        choice = re.search(r"invalid choice: '(.*)' \(choose from (.*)\)", message)
        near = nearest_name(choice[1], re.findall(r"[^', ]+", choice[2])) if choice else ""
        allowed = f"see {self.prog} --help"
        raise DescriptionError(
            [Mistake(key="command line", found=message, allowed=allowed, nearest=near)]
        )


Commands: TypeAlias = "argparse._SubParsersAction[Parser]"


def add_units(command: argparse.ArgumentParser) -> None:
    """Let a command be asked for its units."""
    command.add_argument(
        "--units", choices=("metric", "inch"), default="metric", help="units of the report"
    )


def read_description(name: str) -> Description:
    """Read a description file, or standard input for a dash."""
    from shelfload.describe.reader import MAX_BYTES, read_file, read_text

    if name == "-":
        try:
            text = sys.stdin.read(MAX_BYTES + 1)
        except UnicodeDecodeError:
            found, allowed = "text that is not UTF-8", "UTF-8 text"
            mistake = Mistake(key="file", found=found, allowed=allowed)
            raise DescriptionError([mistake], "standard input") from None
        return read_text(text, "standard input")
    return read_file(Path(name))


def print_document(page: Document, form: str, out: str | None = None) -> None:
    """Print a laid-out report in one of ``DOCUMENT_FORMATS``, or write it to a file."""
    from shelfload.cli.writing import write_out

    if form == "terminal":
        from shelfload.report.terminal import write

        if out is None:
            write(page, sys.stdout)
            return
        stream = StringIO()
        write(page, stream)
        write_out(stream.getvalue(), out)
        return
    from shelfload.report import text

    write_out(text.plain(page) if form == "plain" else text.markdown(page), out)


def status(verdict: Verdict) -> int:
    """Return the exit status that a verdict asks for."""
    from shelfload.check.result import Verdict

    return OK if verdict in (Verdict.PASSES, Verdict.CLOSE) else NOT_OK


def samples(text: str) -> int:
    """Read how often something is tried: from 100 to a hundred million times."""
    number = int(text)
    if not 100 <= number <= 100_000_000:
        raise ValueError(text)
    return number


def years(text: str) -> float:
    """Read a number of years: from a day to a hundred."""
    number = float(text)
    if not 1.0 / 365.0 <= number <= 100.0:
        raise ValueError(text)
    return number


def described_place(description: Description, unit: str | None, shelf: str, bay: str = "") -> Place:
    """Return the place of a shelf; a unit need not be named where there is only one.

    Raises
    ------
    DescriptionError
        If no unit is named and there are several.
    UnknownName
        If the description has no such unit.
    """
    from shelfload.idealise.place import Place

    project = description.project
    names = [*(lone.name for lone in project.shelf), *(one.name for one in project.unit)]
    if unit is None and len(names) != 1:
        allowed = f"allowed: one of {', '.join(names)}"
        raise DescriptionError([Mistake(key="--unit", found="nothing", allowed=allowed)])
    if unit is not None and unit not in names:
        raise UnknownName("unit or shelf", unit, names)
    return Place(unit=unit or names[0], part=shelf, bay=bay)
