"""The commands: parse, call, print, return. No formula and no layout lives here."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn, TypeAlias

from shelfload.errors import DescriptionError, Mistake, ShelfloadError

if TYPE_CHECKING:
    from shelfload.describe.reader import Description

OK, NOT_OK, UNUSABLE, OUR_FAULT = 0, 1, 2, 3
_FORMATS = ("terminal", "plain", "markdown", "json")


class _Parser(argparse.ArgumentParser):
    """A parser whose mistakes look like all others and leave with status 2."""

    def error(self, message: str) -> NoReturn:
        raise DescriptionError(
            [Mistake(key="command line", found=message, allowed=f"see {self.prog} --help")]
        )


def entry() -> NoReturn:
    """Run as a program."""
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
        arguments = _parser().parse_args(argv)
        status: int = arguments.run(arguments)
        sys.stdout.flush()
    except DescriptionError as fault:
        _complain(fault)
        return UNUSABLE
    except ShelfloadError as fault:
        print(f"shelfload: {fault}", file=sys.stderr)
        return UNUSABLE
    except BrokenPipeError:
        # the reader of a pipe left; nothing more can be told to it
        sys.stderr.close()
        return OUR_FAULT
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
    for mistake in fault.mistakes:
        print(f"  {mistake}", file=sys.stderr)


def _parser() -> argparse.ArgumentParser:
    parser = _Parser(
        prog="shelfload",
        description="Will this shelf carry its load, and will it stay up?",
        epilog="Start with: shelfload example > store.toml && shelfload check store.toml",
    )
    commands = parser.add_subparsers(required=True, metavar="COMMAND", parser_class=_Parser)
    _add_check(commands)
    _add_shelf(commands)
    _add_example(commands)
    _add_lookup(commands, "materials", "what sheets and boards are made of, with sources")
    _add_lookup(commands, "contents", "what people store and what it weighs, with sources")
    return parser


_Commands: TypeAlias = "argparse._SubParsersAction[_Parser]"


def _add_check(commands: _Commands) -> None:
    command = commands.add_parser(
        "check",
        help="check everything a description holds",
        epilog="Example: shelfload check store.toml --units inch",
    )
    command.add_argument("file", help="description in TOML, or - for standard input")
    _add_report_options(command)
    command.set_defaults(run=_check)


def _add_report_options(command: argparse.ArgumentParser) -> None:
    command.add_argument("--format", choices=_FORMATS, default="terminal", help="how to report")
    command.add_argument(
        "--units", choices=("metric", "inch"), default="metric", help="units of the report"
    )
    command.add_argument(
        "--full", action="store_true", help="list every check, not only those that do not pass"
    )


def _add_shelf(commands: _Commands) -> None:
    command = commands.add_parser(
        "shelf",
        help="check one shelf, desk top or bench top without a file",
        epilog='Example: shelfload shelf --span "900 mm" --depth "300 mm" --thickness "18 mm" '
        '--material birch-plywood --load "30 kg/m"',
    )
    add = command.add_argument
    spans = command.add_mutually_exclusive_group(required=True)
    spans.add_argument("--span", metavar="LENGTH", help="clear width between two supports")
    spans.add_argument(
        "--spans", metavar="LENGTHS", help='clear widths over dividers: "600 mm, 600 mm"'
    )
    add("--depth", required=True, metavar="LENGTH", help="front to back")
    add("--thickness", required=True, metavar="LENGTH", help="as sold")
    add("--material", required=True, metavar="NAME", help="see: shelfload materials")
    add("--load", metavar="LOAD", help="30 kg/m, 40 kg, 2 kPa, 40 psf, 600 kg/m3")
    add("--contents", metavar="NAME", help="see: shelfload contents")
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
    add("--ends", choices=("free", "clamped"), default="free", help="free to turn, or clamped")
    add("--bearing", metavar="LENGTH", help="length of support under each end")
    add("--overhang", metavar="LENGTH", help="beyond the outer supports, both ends")
    add("--service-class", choices=("indoor", "humid", "outdoor"), default="indoor")
    add("--limit", metavar="NAME", help="sag limit, a row of the limits table")
    add("--name", default="shelf")
    _add_report_options(command)
    command.set_defaults(run=_shelf)


def _add_example(commands: _Commands) -> None:
    command = commands.add_parser(
        "example",
        help="print a description to start from",
        epilog="Example: shelfload example | shelfload check -",
    )
    command.add_argument("name", nargs="?", help="which one; the first if left out")
    command.add_argument("--list", action="store_true", help="name them all")
    command.set_defaults(run=_example)


def _add_lookup(commands: _Commands, name: str, what: str) -> None:
    command = commands.add_parser(name, help=what, epilog=f"Example: shelfload {name} p")
    command.add_argument("word", nargs="?", default="", help="part of a name, title or family")
    command.add_argument(
        "--units", choices=("metric", "inch"), default="metric", help="units shown"
    )
    command.set_defaults(run=_materials if name == "materials" else _contents)


def _check(arguments: argparse.Namespace) -> int:
    from shelfload.describe.reader import read_file, read_text

    if arguments.file == "-":
        description = read_text(sys.stdin.read(), "standard input")
    else:
        description = read_file(Path(arguments.file))
    return _report(description, arguments)


def _shelf(arguments: argparse.Namespace) -> int:
    from shelfload.describe.one_shelf import one_shelf

    return _report(one_shelf(vars(arguments)), arguments)


def _report(description: Description, arguments: argparse.Namespace) -> int:
    from shelfload.advise.outcome import outcome
    from shelfload.check.result import Verdict

    found = outcome(description)
    if arguments.format == "json":
        from shelfload.report.data import render

        sys.stdout.write(render(found, arguments.units))
    else:
        from shelfload.report.document import document

        page = document(found, arguments.units, full=arguments.full)
        if arguments.format == "terminal":
            from shelfload.report.terminal import write

            write(page, sys.stdout)
        else:
            from shelfload.report import text

            write_text = text.plain if arguments.format == "plain" else text.markdown
            sys.stdout.write(write_text(page))
    return OK if found.verdict in (Verdict.PASSES, Verdict.CLOSE) else NOT_OK


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
