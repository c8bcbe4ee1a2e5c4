"""The command that prints a completion script for a shell."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator

from shelfload.cli.parts import OK, Commands

SHELLS = ("bash", "zsh", "tcsh")
_FILES = ("file", "compare", "out")
"""Arguments that name a file."""


def add_completion(commands: Commands) -> None:
    """Add the command that prints a completion script."""
    command = commands.add_parser(
        "completion",
        help="print a script that lets the Tab key complete commands, options and files",
        epilog="Example: shelfload completion bash > "
        "~/.local/share/bash-completion/completions/shelfload",
    )
    command.add_argument("shell", choices=SHELLS)
    command.set_defaults(run=_completion)


def _completion(arguments: argparse.Namespace) -> int:
    import shtab

    from shelfload.cli import parser

    whole = parser()
    for action in _actions(whole):
        if action.dest in _FILES:
            action.complete = shtab.FILE  # type: ignore[attr-defined]
    sys.stdout.write(shtab.complete(whole, shell=arguments.shell))
    return OK


def _actions(parser: argparse.ArgumentParser) -> Iterator[argparse.Action]:
    for action in parser._actions:
        yield action
        if isinstance(action, argparse._SubParsersAction):
            for inner in action.choices.values():
                yield from _actions(inner)
