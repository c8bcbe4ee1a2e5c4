"""Questions in a terminal, each answer checked at once."""

from __future__ import annotations

from collections.abc import Callable
from typing import TextIO, TypeVar

from shelfload.errors import DescriptionError, Mistake, QuantityError, UnknownName

T = TypeVar("T")


class Asker:
    """Asks, and asks again until the answer can be used.

    Where the answers come from a file or a pipe, nobody is there to answer again: the first
    one that can't be used, or is missing, ends it.
    """

    def __init__(self, source: TextIO, out: TextIO) -> None:
        self._source = source
        self._out = out

    def say(self, text: str) -> None:
        """Show a line."""
        print(text, file=self._out, flush=True)

    def ask(self, question: str, default: str, read: Callable[[str], T], more: str = "") -> T:
        """Ask one question; an empty answer is the default, ``?`` asks for more.

        Parameters
        ----------
        question : str
            In trade words.
        default : str
            Shown, and taken for an empty answer; none if empty.
        read : callable
            Turns the text into what is kept, or raises what is wrong with it.
        more : str
            What ``?`` shows.

        Raises
        ------
        DescriptionError
            If answers are not typed, and one is missing or can't be used.
        """
        typed = self._source.isatty()
        while True:
            hint = f" [{default}]" if default else ""
            print(f"{question}{hint}: ", end="", file=self._out, flush=True)
            try:
                line = self._source.readline()
            except UnicodeDecodeError:
                raise _unanswered(question, "text that is not UTF-8", "UTF-8 text") from None
            if not typed or not line:
                print(file=self._out)
            if not line:
                raise _unanswered(question, "nothing more", "an answer to every question")
            answer = line.strip() or default
            if answer == "?":
                self.say(f"  {more or 'Type an answer, or Enter for the one in brackets.'}")
                continue
            try:
                return read(answer)
            except QuantityError as fault:
                near = f"; did you mean {fault.nearest}?" if fault.nearest else ""
                wrong, allowed = fault.found, f"{fault.allowed}{near}"
            except UnknownName as fault:
                near = f"; did you mean {fault.nearest}?" if fault.nearest else ""
                wrong, allowed = fault.found, f"a name of the {fault.what} table{near}"
            if not typed:
                raise _unanswered(question, repr(wrong), allowed)
            self.say(f"  {wrong!r} can't be used here. Allowed: {allowed}")


def _unanswered(question: str, found: str, allowed: str) -> DescriptionError:
    mistake = Mistake(key=question, found=found, allowed=f"allowed: {allowed}")
    return DescriptionError([mistake], "the answers")
