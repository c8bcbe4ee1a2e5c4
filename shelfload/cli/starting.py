"""Commands to start with: a description from questions, and the schema for an editor."""

from __future__ import annotations

import argparse
import json
import os
import sys
import tempfile
from pathlib import Path

from shelfload.cli.asking import Asker
from shelfload.cli.parts import NOT_OK, OK, Commands, print_document, status
from shelfload.errors import DescriptionError, Mistake


def add_new(commands: Commands) -> None:
    """Add the command that asks questions and writes a description."""
    command = commands.add_parser(
        "new",
        help="answer questions, get a description and its check",
        epilog="Example: shelfload new store.toml",
    )
    command.add_argument(
        "file",
        nargs="?",
        default="shelves.toml",
        help="file to write, shelves.toml if left out; - prints it and checks nothing",
    )
    command.set_defaults(run=_new)


def add_schema(commands: Commands) -> None:
    """Add the command that prints the schema of a description."""
    command = commands.add_parser(
        "schema",
        help="JSON Schema of a description, so that an editor completes and checks it",
        epilog="Example: shelfload schema > shelfload.schema.json",
    )
    command.set_defaults(run=_schema)


def _schema(_: argparse.Namespace) -> int:
    from shelfload.describe.schema import description_schema

    sys.stdout.write(json.dumps(description_schema(), indent=2, ensure_ascii=False) + "\n")
    return OK


def _new(arguments: argparse.Namespace) -> int:
    from shelfload.cli.questions import describe
    from shelfload.describe.answers import yes_no
    from shelfload.describe.reader import read_text

    asker = Asker(sys.stdin, sys.stderr)
    path = None if arguments.file == "-" else Path(arguments.file)
    if path is not None:
        _can_be_written(path)
        if path.exists():
            asker.say(f"{path} is there already.")
            if asker.ask("Write over it? (yes, no)", "no", yes_no) == "false":
                asker.say("Nothing was written.")
                return NOT_OK
    started = describe(asker)
    description = read_text(started.text, str(path or "the answers"))
    if path is None:
        sys.stdout.write(started.text)
        return OK
    _write(path, started.text)
    asker.say(f"Wrote {path}. Change it in any editor; check it again with:")
    asker.say(f"  shelfload check {path}{' --units inch' if started.system == 'inch' else ''}")
    asker.say("")
    from shelfload.advise.outcome import outcome
    from shelfload.report.document import document

    found = outcome(description)
    print_document(document(found, started.system), "terminal")
    return status(found.verdict)


def _can_be_written(path: Path) -> None:
    """Say before the first question what would fail after the last."""
    folder = path.parent
    if path.is_dir() or not folder.is_dir() or not os.access(folder, os.W_OK):
        found = f"{path}: {'a folder' if path.is_dir() else 'not a place to write to'}"
        allowed = "allowed: a file in a folder that can be written to"
        raise DescriptionError([Mistake(key="file", found=found, allowed=allowed)])


def _write(path: Path, text: str) -> None:
    """Write all of it or nothing."""
    handle, name = tempfile.mkstemp(prefix=".", suffix=".part", dir=path.parent)
    part = Path(name)
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as stream:
            stream.write(text)
        part.chmod(0o666 & ~_umask())
        part.replace(path)
    except BaseException:
        part.unlink(missing_ok=True)
        raise


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
