"""Writing a result to a file: whole, or not at all."""

from __future__ import annotations

import os
import sys
import tempfile
from argparse import ArgumentParser
from contextlib import suppress
from pathlib import Path

from shelfload.errors import DescriptionError, Mistake


def add_out(command: ArgumentParser, example: str) -> None:
    """Let a command be told where to write."""
    command.add_argument(
        "--out",
        metavar="FILE",
        help=f"write there, such as {example}, instead of printing; replaces what is there",
    )


def write_out(text: str, out: str | None) -> None:
    """Write to a file, or print where ``out`` is None or a dash.

    The text goes to a file beside the wanted one, which is then put in its place: whoever
    opens it sees the old content or the new, never a part.

    Raises
    ------
    DescriptionError
        If the file can't be written.
    """
    if out is None or out == "-":
        sys.stdout.write(text)
        return
    try:
        _replace(Path(out), text)
    except (OSError, ValueError) as fault:
        why = getattr(fault, "strerror", None) or str(fault)
        raise DescriptionError(
            [
                Mistake(
                    key="--out", found=f"{out} ({why})", allowed="name a file that can be written"
                )
            ]
        ) from None


def _replace(path: Path, text: str) -> None:
    target = path.resolve()
    if target.exists() and not target.is_file() and not target.is_dir():
        target.write_text(text, encoding="utf-8")  # a device or pipe takes text as it comes
        return
    handle, name = tempfile.mkstemp(prefix=".shelfload-", dir=target.parent)
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as stream:
            stream.write(text)
        Path(name).chmod(target.stat().st_mode & 0o777 if target.exists() else _usual_rights())
        Path(name).replace(target)
    except BaseException:
        with suppress(OSError):
            Path(name).unlink()
        raise


def _usual_rights() -> int:
    """Return the rights that a new file gets here; a temporary one gets fewer."""
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask
