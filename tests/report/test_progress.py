"""A bar on a terminal when it takes long, and nothing anywhere else."""

from __future__ import annotations

import io

import pytest

from shelfload.report import progress


class Terminal(io.StringIO):
    def isatty(self):
        return True


@pytest.fixture
def stepped(monkeypatch):
    def run(stream, seconds):
        now = [0.0]
        monkeypatch.setattr(progress, "monotonic", lambda: now[0])
        with progress.shown("odds", stream) as step:
            for done in range(1, 5):
                now[0] += seconds / 4
                step(done, 4)
        return stream.getvalue()

    return run


def test_nothing_is_shown_where_there_is_no_terminal(stepped):
    assert stepped(io.StringIO(), 60.0) == ""


def test_bar_appears_on_a_terminal_only_after_a_moment(stepped):
    assert "odds" in stepped(Terminal(), 60.0)
    assert "odds" not in stepped(Terminal(), 0.1)
