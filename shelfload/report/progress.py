"""How far something long has come, on a terminal only."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from time import monotonic
from typing import TextIO

A_MOMENT = 0.5
"""What takes less [s] shows nothing."""


@contextmanager
def shown(what: str, stream: TextIO) -> Iterator[Callable[[int, int], None]]:
    """Give a function to be told how much is done, and of how much.

    A bar appears once a moment has passed, only where ``stream`` is a terminal, and goes when
    the work is done.
    """
    if not stream.isatty():
        yield _silent
        return
    from rich.console import Console
    from rich.progress import Progress

    start = monotonic()
    with Progress(console=Console(file=stream), transient=True, disable=False) as bar:
        task = bar.add_task(what, total=None, visible=False)

        def step(done: int, of: int) -> None:
            late = monotonic() - start > A_MOMENT
            bar.update(task, completed=done, total=of, visible=late)

        yield step


def _silent(_done: int, _of: int) -> None:
    """Show nothing of it."""
