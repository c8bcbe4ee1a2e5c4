"""Questions answered in a terminal and through a pipe, up to a description that is checked."""

from __future__ import annotations

import os
import pty
import select
import signal
import subprocess
import sys
import time
import tomllib
from pathlib import Path

import jsonschema
import pytest

import shelfload
from shelfload.describe.reader import read_file
from shelfload.describe.schema import description_schema

ENVIRONMENT = {
    **os.environ,
    "COLUMNS": "80",
    "PYTHONIOENCODING": "utf-8",
    "TERM": "dumb",
    # the programs run in folders of their own
    "PYTHONPATH": str(Path(shelfload.__file__).parents[1]),
}
WAIT = 60.0  # s, generous: a slow machine is no failure


def left_in(folder):
    return [path.name for path in folder.iterdir()]


class Terminal:
    """A program at the far end of a pseudo-terminal, answered question by question."""

    def __init__(self, *arguments, folder):
        self.master, slave = pty.openpty()
        self.process = subprocess.Popen(
            [sys.executable, "-m", "shelfload", *arguments],
            stdin=slave,
            stdout=slave,
            stderr=slave,
            cwd=folder,
            env=ENVIRONMENT,
            start_new_session=True,
            close_fds=True,
        )
        os.close(slave)
        self.seen = ""
        self.at = 0

    def read(self, until):
        """Read on until a text is there; what was matched is not matched again."""
        deadline = time.monotonic() + WAIT
        while until not in self.seen[self.at :]:
            ready, _, _ = select.select([self.master], [], [], deadline - time.monotonic())
            assert ready, f"no {until!r} after {self.seen[-300:]!r}"
            try:
                more = os.read(self.master, 65536)
            except OSError:  # the other end has closed
                more = b""
            assert more, f"ended without {until!r} after {self.seen[-600:]!r}"
            self.seen += more.decode("utf-8", "replace").replace("\r\n", "\n")
        self.at = self.seen.index(until, self.at) + len(until)

    def answer(self, question, text=""):
        self.read(question)
        self.read("]: ")
        os.write(self.master, f"{text}\n".encode())

    def end(self):
        deadline = time.monotonic() + WAIT
        while time.monotonic() < deadline:
            ready, _, _ = select.select([self.master], [], [], 0.1)
            if ready:
                try:
                    more = os.read(self.master, 65536)
                except OSError:
                    break
                if not more:
                    break
                self.seen += more.decode("utf-8", "replace").replace("\r\n", "\n")
        status = self.process.wait(timeout=WAIT)
        os.close(self.master)
        return status


def piped(*arguments, answers, folder):
    return subprocess.run(
        [sys.executable, "-m", "shelfload", "new", *arguments],
        input="".join(f"{answer}\n" for answer in answers),
        capture_output=True,
        text=True,
        encoding="utf-8",
        cwd=folder,
        env=ENVIRONMENT,
        timeout=WAIT,
        check=False,
    )


def checked(path, *more):
    return subprocess.run(
        [sys.executable, "-m", "shelfload", "check", str(path), *more],
        capture_output=True,
        text=True,
        encoding="utf-8",
        env=ENVIRONMENT,
        timeout=WAIT,
        check=False,
    )


def test_from_first_question_to_a_checked_file_in_a_terminal(tmp_path):
    terminal = Terminal("new", "store.toml", folder=tmp_path)
    terminal.answer("Units", "mm")
    terminal.answer("What is it?", "?")
    terminal.read("A unit has sides")
    terminal.answer("What is it?", "unit")
    terminal.answer("call it", "cutting room")
    terminal.answer("floor or hang", "floor")
    terminal.answer("fixed back", "no")
    terminal.answer("Where?", "attic")
    terminal.read("can't be used here")
    terminal.answer("Where?", "hum")
    terminal.answer("under it", "n")
    terminal.answer("Can children", "y")
    terminal.answer("Depth", "-300")
    terminal.read("can't be used here")
    terminal.answer("Depth", "1' 2 3/4\"")
    terminal.answer("made of?", "brich-plywood")
    terminal.read("did you mean birch-plywood?")
    terminal.answer("made of?", "birch-plywood")
    terminal.answer("how thick", "3/4 in")
    terminal.answer("How many bays", "2")
    terminal.answer("Clear widths", "500; 23 5/8 in")
    terminal.answer("How many levels", "2")
    terminal.answer("Clear heights", "380")
    terminal.answer("between, through", "")
    terminal.answer("let into", "6")
    terminal.answer("Back?", "screwed")
    terminal.answer("Back: made of?", "")
    terminal.answer("Back: how thick", "")
    terminal.answer("Back: screws how far apart", "")
    terminal.answer("What does it stand on", "plinth")
    terminal.answer("Level 1", "30")
    terminal.read("can't be used here")
    terminal.answer("Level 1", "books; 12 lever-arch-file-each")
    terminal.answer("Level 2", "20 kg; empty")
    status = terminal.end()
    assert status in (0, 1), terminal.seen
    assert "Wrote store.toml" in terminal.seen
    assert "cutting room" in terminal.seen.partition("Wrote store.toml")[2]
    assert left_in(tmp_path) == ["store.toml"]
    (unit,) = read_file(tmp_path / "store.toml").project.unit
    assert unit.name == "cutting room"
    # 1 ft 2 3/4 in, in mm
    assert unit.depth == pytest.approx(14.75 * 25.4)
    assert [round(width, 3) for width in unit.level[0].bays] == [500.0, round(23.625 * 25.4, 3)]
    assert unit.level[0].fills[1].count == 12
    assert unit.level[1].fills[1] is None
    assert checked(tmp_path / "store.toml").returncode == status


def test_ctrl_c_half_way_leaves_nothing_behind(tmp_path):
    terminal = Terminal("new", "store.toml", folder=tmp_path)
    terminal.answer("Units", "mm")
    terminal.answer("What is it?", "shelf")
    terminal.read("call it")
    os.killpg(terminal.process.pid, signal.SIGINT)
    assert terminal.end() != 0
    assert "Traceback" not in terminal.seen
    assert left_in(tmp_path) == []


QUESTIONS = ("call it", "Where?", "under it", "Can children", "Depth", "made of?", "how thick",
             "How many spans", "Clear width", "How wide", "What stands")  # fmt: skip


@pytest.mark.parametrize(("answer", "kept"), [("no", True), ("", True), ("yes", False)])
def test_file_that_is_there_is_written_over_only_after_a_yes(tmp_path, answer, kept):
    path = tmp_path / "store.toml"
    path.write_text("precious")
    terminal = Terminal("new", "store.toml", folder=tmp_path)
    terminal.answer("Write over it?", answer)
    if not kept:
        terminal.answer("Units", "")
        terminal.answer("What is it?", "shelf")
        for question in QUESTIONS:
            terminal.answer(question, "")
    terminal.end()
    assert (path.read_text() == "precious") is kept
    assert left_in(tmp_path) == ["store.toml"]


SHELF = ["inches", "shelf", "press shelf", "indoor", "no", "no", "11 1/4", "birch-plywood", "3/4",
         "1", "35 1/2", "1 1/2", "25 lb/ft"]  # fmt: skip
WALL = ["mm", "unit", "ink", "wall", "indoor", "yes", "no", "timber stud", "400", "260",
        "birch-plywood", "15", "1", "850", "1", "300", "15", "none", "1450", "14 kg"]  # fmt: skip
TIED = ["mm", "unit", "tall", "floor", "yes", "indoor", "no", "yes", "solid brick", "350", "mdf",
        "18", "1", "700", "3", "380", "0", "glued", "hardboard", "3.2", "sides",
        "empty", "6 kg", "4 kg"]  # fmt: skip


@pytest.mark.parametrize("answers", [SHELF, WALL, TIED])
def test_answers_through_a_pipe_give_a_file_that_check_takes(tmp_path, answers):
    found = piped("store.toml", answers=answers, folder=tmp_path)
    assert found.returncode in (0, 1), found.stderr
    path = tmp_path / "store.toml"
    system = ("--units", "inch") if answers[0] == "inches" else ()
    again = checked(path, *system)
    assert again.returncode == found.returncode
    assert again.stdout == found.stdout
    raw = tomllib.loads(path.read_text())
    assert list(jsonschema.Draft202012Validator(description_schema()).iter_errors(raw)) == []


def test_inch_user_sees_no_millimetre_from_start_to_end(tmp_path):
    found = piped("store.toml", answers=SHELF, folder=tmp_path)
    text = f"{found.stderr} {found.stdout.partition('Sources')[0]}"
    asked = text.replace("Units: mm or inches? [mm]", "")
    for unit in (" mm", " kg"):
        # what can be typed is listed in both
        assert f"{unit} " not in asked.replace("40 kg, 30 kg/m or 25 lb/ft", ""), asked
    assert "inches" in (tmp_path / "store.toml").read_text() or " in" in text


def test_dash_prints_the_description_and_nothing_else(tmp_path):
    found = piped("-", answers=SHELF, folder=tmp_path)
    assert found.returncode == 0
    assert found.stdout.startswith("#:schema")
    assert left_in(tmp_path) == []


@pytest.mark.parametrize(
    "answers",
    [
        SHELF[:-1],  # one too few
        [*SHELF[:6], "deep", *SHELF[7:]],
        [*SHELF[:-1], "30"],  # a load without a unit
        [*SHELF[:-1], "3 books"],
        [*SHELF[:2], "a\x07b", *SHELF[3:]],
    ],
)
def test_answers_that_can_not_be_used_write_nothing(tmp_path, answers):
    found = piped("store.toml", answers=answers, folder=tmp_path)
    assert found.returncode == 2
    assert "Traceback" not in found.stderr
    assert left_in(tmp_path) == []


def test_place_that_can_not_be_written_is_told_before_the_first_question(tmp_path):
    found = piped("no/such/folder/store.toml", answers=SHELF, folder=tmp_path)
    assert found.returncode == 2
    assert "Units" not in found.stderr


def test_hostile_name_stays_a_name(tmp_path):
    name = 'a"]\\n[[unit]] # <b>&'
    found = piped("store.toml", answers=[*SHELF[:2], name, *SHELF[3:]], folder=tmp_path)
    assert found.returncode in (0, 1), found.stderr
    (shelf,) = read_file(tmp_path / "store.toml").project.shelf
    assert shelf.name == name
