"""Shelves that slip off pins and cleats, by the shortening of a sagging beam."""

from __future__ import annotations

from math import sqrt

import pytest
from described import asked, findings, the, unit

from shelfload.check.result import Verdict


def loose(play="1 mm", bearing="6 mm", load=60):
    shelf = {"loose": True, "bearing": bearing, "play": play}
    return findings(unit(heights=(300, 300), loads=(0, load), shelf=shelf))


def test_sag_at_which_it_slips_by_hand():
    check = the(loose(), "shelf 1", "slips off")
    # room 6 - 1 = 5 mm; shortening 2176/875 w2 / L with L = 960 + 6 between bearing centres
    assert check.limit == pytest.approx(sqrt(5 * 966 * 875 / 2176), rel=1e-9)
    assert check.verdict is Verdict.PASSES


def test_play_as_long_as_the_bearing_lets_it_fall():
    assert the(loose(play="6 mm"), "shelf 1", "slips off").verdict is Verdict.FAILS


def test_play_that_is_not_said_is_assumed_and_listed():
    found = findings(unit(heights=(300, 300), shelf={"loose": True}))
    assert any("play between their ends" in text for text in found.assumptions)


def test_fixed_shelves_are_not_asked():
    found = findings(unit(heights=(300, 300), loads=(0, 60)))
    assert asked(found, "shelf 1", "slips off") == []
