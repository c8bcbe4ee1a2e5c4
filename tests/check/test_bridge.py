"""Units on units: landing, pressure and sliding by hand."""

from __future__ import annotations

import pytest
from described import PER_AREA, G, asked, findings, the, unit
from printed import printed

from shelfload.check.result import Verdict

TOWERS = (unit("l", bays=(360,), left="0 mm"), unit("r", bays=(360,), left="1600 mm"))


def test_bridge_lands_on_both_towers_and_presses_by_hand():
    found = findings(*TOWERS, unit("bridge", bays=(1960,), loads=[60], on=["l", "r"]))
    for side in ("left side", "right side"):
        over = the(found, "standing", "part of the upright over nothing", unit="bridge", bay=side)
        assert over.value == pytest.approx(0.0, abs=1e-6)
        assert over.verdict is Verdict.PASSES
    press = the(found, "standing", "presses on", unit="bridge", bay="left side")
    # half of it: bottom and top boards 1960 mm long, 300 deep, two sides 400 high
    dead = PER_AREA * 300 * (1960 + 400)
    N = 1.35 * dead + 1.5 * 30 * G  # EN 1990 (6.10)
    assert press.value == pytest.approx(N / (20 * 300), rel=1e-6)
    # C16 across the grain 2.2 MPa (EN 338:2016), plywood kmod 0.7, gamma_M 1.2
    assert press.limit == pytest.approx(2.2 * 0.7 / 1.2)


def test_half_of_a_bridge_is_on_the_floor_under_each_tower():
    found = findings(
        *TOWERS,
        unit("bridge", bays=(1960,), loads=[60], on=["l", "r"]),
        site={"floor": {"kind": "concrete"}},
    )
    load = the(found, "floor", "load on its own", unit="l")
    tower = PER_AREA * 300 * (2 * 360 + 2 * 400)
    bridge = PER_AREA * 300 * (2 * 1960 + 2 * 400) + 60 * G
    assert load.value == pytest.approx((tower + bridge / 2) / (400 * 300), rel=1e-9)


def test_side_over_the_gap_has_nothing_under_it():
    found = findings(*TOWERS, unit("bridge", bays=(960,), on=["l", "r"], left="600 mm"))
    over = the(found, "standing", "part of", unit="bridge", bay="left side")
    assert over.verdict is Verdict.FAILS
    assert over.governs == "nothing is under it"


def test_side_that_half_misses_its_tower_fails_with_what_is_missing():
    found = findings(*TOWERS, unit("bridge", bays=(1960,), on=["l", "r"], left="10 mm"))
    right = the(found, "standing", "part of", unit="bridge", bay="right side")
    # its right side covers 1990 to 2010, the tower ends at 2000
    assert right.value == pytest.approx(10.0)
    assert right.verdict is Verdict.FAILS


def test_light_unit_slides_when_pulled():
    found = findings(unit("lower"), unit("upper", bays=(360,), heights=(160,), on="lower"))
    slide = the(found, "standing", "slides", unit="upper")
    # (2 x 360 + 2 x 200) x 300 x 20 mm, 500 kg/m3 = 3.36 kg = 32.95 N; 0.2 of it holds
    assert slide.limit == printed("6.59")
    assert slide.value == printed("44.5")
    assert slide.verdict is Verdict.FAILS


def test_towers_of_two_heights_are_told():
    lower = unit("r", bays=(360,), left="1600 mm", heights=(340,))
    found = findings(TOWERS[0], lower, unit("bridge", bays=(1960,), on=["l", "r"]))
    assert the(found, "standing", "towers", unit="bridge").value == pytest.approx(20.0)


def test_unit_above_the_floor_on_nothing_described_is_not_checked():
    found = findings(unit(underside="700 mm"))
    check = the(found, "standing", "what carries it")
    assert check.verdict is Verdict.NOT_CHECKED
    assert "rests_on" in check.remedy
    bench = {"what": "bench", "allowed": "50 kg", "source": "its maker"}
    rests = findings(unit(underside="700 mm", loads=[30], rests_on=bench))
    assert the(rests, "standing", "weight on the bench").value == pytest.approx(
        30 * G + PER_AREA * 300 * (2 * 960 + 2 * 400)
    )


def test_added_load_reaches_the_uprights_of_the_tower():
    alone = findings(TOWERS[0])
    under = findings(*TOWERS, unit("bridge", bays=(1960,), loads=[200], on=["l", "r"]))
    before = the(alone, "level 1", "uprights buckle", unit="l").value
    assert the(under, "level 1", "uprights buckle", unit="l").value > 3 * before
    assert asked(under, "floor", unit="bridge") == []


def test_screwed_down_unit_is_asked_with_one_line_lost():
    upper = unit("upper", bays=(360,), heights=(160,), on="lower")
    loose = findings(unit("lower"), upper)
    # 3.36 kg = 32.95 N at 150: 4942.6 N mm against 44.5 N at its top, 200
    lifts = the(loose, "standing", "lifts off", unit="upper")
    assert lifts.limit == pytest.approx(PER_AREA * 300 * (2 * 360 + 2 * 200) * 150)
    assert lifts.value == printed("8900.0")
    assert lifts.verdict is Verdict.FAILS
    # of two lines one is left: 125 N sideways, and 50 N apart at mid-depth, 150 from the edge
    screwed = findings(unit("lower"), {**upper, "joins": {"stack": "screws"}})
    slides = the(screwed, "standing", "slides", unit="upper")
    assert slides.question == "slides when pulled, empty, one line of screws lost"
    assert slides.limit == printed("131.59")
    lifts = the(screwed, "standing", "lifts off", unit="upper")
    assert lifts.limit == pytest.approx((32.95 + 50) * 150, rel=1e-3)
    assert lifts.verdict is Verdict.PASSES


def test_deeper_upper_unit_is_leant_on():
    upper = unit("upper", bays=(360,), depth=400, on="lower")
    found = findings(unit("lower", depth=200), upper)
    # a hand of 150 N 200 in front of what is below: 30000 N mm; own weight right over the edge
    lifts = the(found, "standing", "lifts off", unit="upper")
    assert lifts.value == pytest.approx(150 * 200)
    assert lifts.limit == pytest.approx(0.0, abs=1e-6)
    assert lifts.verdict is Verdict.FAILS


def test_restraint_of_an_upper_unit_with_one_lost():
    tie = {"maker": "anchor", "carcass": "anchor", "count": 3}
    found = findings(
        unit("lower", heights=(760,)),
        unit("upper", on="lower", heights=(760,), restraint=tie),
        site={"wall": "solid brick", "floor": {"covering": "hard"}},
    )
    check = the(found, "restraint", "pull if one restraint", unit="upper")
    assert check.value == printed("222")
    assert check.governs == "2 of 3 left"
    alone = findings(
        unit("lower"),
        unit("upper", on="lower", restraint={**tie, "count": 1}),
        site={"wall": "solid brick"},
    )
    assert the(alone, "restraint", "pull if one restraint").verdict is Verdict.FAILS
