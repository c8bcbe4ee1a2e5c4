"""Ends said to be clamped: shown, never believed."""

from __future__ import annotations

import re

import pytest
from described import findings, the, unit

from shelfload.advise.odds import odds
from shelfload.check.result import Verdict
from shelfload.cli import main
from shelfload.wording import figure

ENDS = ("free", "clamped")
SPAN, DEPTH, T, BEARING = 1000.0, 300.0, 20.0, 10.0
E, G = 10_000.0, 500.0
KDEF = 0.8  # plywood, service class 1, EN 1995-1-1:2004, Table 3.2


def shelf(load, ends="clamped", **more):
    return {
        "name": "shelf",
        "depth": f"{DEPTH} mm",
        "spans": [f"{SPAN} mm"],
        "shelf": {
            "material": "board",
            "thickness": f"{T} mm",
            "bearing": f"{BEARING} mm",
            "ends": ends,
            **more,
        },
        "contents": {"load": f"{load} kg/m"},
    }


def sag(load, ends="clamped", **more):
    found = findings(shelf=[shelf(load, ends, **more)])
    return the(found, "", "sag")


def by_hand(load, share):
    """Sag after years of w on a span L: share w L^4 / EI + w L^2 / (8 GA), beam tables."""
    L, EI, GA = SPAN + BEARING, E * DEPTH * T**3 / 12, G * DEPTH * T * 5 / 6
    own = 500e-9 * 9.80665 * DEPTH * T
    w = (own + load * 9.80665e-3) * (1 + KDEF)
    return share * w * L**4 / EI + w * L**2 / (8 * GA)


def test_passes_that_need_clamped_ends_are_not_checked():
    check = sag(60.0)
    assert sag(60.0, "free").verdict is Verdict.FAILS
    assert check.verdict is Verdict.NOT_CHECKED
    assert check.value is None
    assert "nothing described holds them" in check.reason


def test_reason_shows_the_sag_with_free_ends_and_with_clamped_ones():
    free = sag(60.0, "free")
    assert free.value == pytest.approx(by_hand(60.0, 5 / 384), rel=0.02)
    assert figure(free.value, "length") in sag(60.0).reason
    shown = [float(text) for text in re.findall(r"length\W([\d.]+)", sag(60.0).reason)]
    assert shown[2] == pytest.approx(by_hand(60.0, 1 / 384), rel=0.02)


def test_shelf_that_passes_with_free_ends_passes_by_its_free_figure():
    assert sag(4.0).verdict is Verdict.PASSES
    assert sag(4.0).value == pytest.approx(sag(4.0, "free").value, rel=1e-12)


def test_shelf_that_fails_even_clamped_fails():
    assert sag(400.0).verdict is Verdict.FAILS


@pytest.mark.parametrize("load", [4.0, 60.0, 120.0, 400.0])
def test_word_clamped_never_makes_an_answer_better(load):
    order = [Verdict.PASSES, Verdict.CLOSE, Verdict.NOT_CHECKED, Verdict.FAILS]
    free, held = (findings(shelf=[shelf(load, ends)]) for ends in ENDS)
    for before, after in zip(free.checks, held.checks, strict=True):
        assert before.question == after.question
        if before.verdict is Verdict.FAILS:
            assert after.verdict in (Verdict.FAILS, Verdict.NOT_CHECKED)
        else:
            assert order.index(after.verdict) >= order.index(before.verdict)
    for before, after in zip(free.safe_loads, held.safe_loads, strict=True):
        assert after.even <= before.even * (1 + 1e-9)
        assert after.point <= before.point * (1 + 1e-9)


def test_ends_that_take_more_when_clamped_count_with_it():
    """Over two spans a clamped end bears w L / 2, a free one 3 / 8 of it (beam tables)."""

    def pressed(ends):
        box = unit(
            bays=(470, 470),
            loads=(200, 0),
            shelf={"runs": "through", "bearing": "8 mm", "ends": ends},
        )
        return the(findings(box), "bottom panel", "bearing")

    assert pressed("clamped").ratio >= pressed("free").ratio


def test_plate_with_clamped_ends_is_provisional_too():
    def curved(ends):
        one = shelf(60.0, ends)
        del one["spans"]
        one["plan"] = {"inner_radius": "700 mm", "angle": "70 deg"}
        one["fixed_down"] = True
        return the(findings(shelf=[one]), "", "sag")

    assert curved("free").verdict is Verdict.FAILS
    assert curved("clamped").verdict is Verdict.NOT_CHECKED


def test_odds_are_those_of_free_ends():
    free, held = (odds(findings(shelf=[shelf(60.0, ends)]), samples=500) for ends in ENDS)
    assert held.shelves[0].mean == pytest.approx(free.shelves[0].mean, rel=1e-9)


def test_longest_span_is_that_of_free_ends(capsys):
    asked = "shelf --find span --depth 300mm --material birch-plywood --thickness 18mm"
    told = []
    for ends in ENDS:
        main([*asked.split(), "--load", "30 kg/m", "--ends", ends])
        told.append(capsys.readouterr().out.splitlines()[0])
    assert told[0] == told[1]
    assert "largest clear span" in told[0]
