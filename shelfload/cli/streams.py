"""Standard input, output and error, whatever they are tied to: closed, full, or not UTF-8."""

from __future__ import annotations

import os
import sys
from io import TextIOWrapper


def prepare_streams() -> None:
    """Make the three standard streams fit for any text.

    What comes from or goes to a file or a pipe is UTF-8 whatever the locale says: descriptions
    must be, JSON must be, and a page declares that it is. A terminal keeps its own encoding,
    and sees an escape where that lacks a character. A closed stream reads as empty, and
    swallows what is written: the exit status still tells the verdict.
    """
    sys.stdin = sys.stdin or open(os.devnull, encoding="utf-8")  # noqa: SIM115, PTH123 - lasts
    sys.stdout = sys.stdout or open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115, PTH123
    sys.stderr = sys.stderr or open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115, PTH123
    if isinstance(sys.stdin, TextIOWrapper) and not sys.stdin.isatty():
        sys.stdin.reconfigure(encoding="utf-8-sig", errors="strict")
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            own = stream.encoding if stream.isatty() else "utf-8"
            stream.reconfigure(encoding=own, errors="backslashreplace")


def abandon_output() -> None:
    """Let nothing more be tried on an output that failed, not even while shutting down."""
    out = sys.__stdout__
    if out is None or sys.stdout is not out:
        return
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, out.fileno())
    os.close(nowhere)
