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
    # one side: bottom and top boards span 1966 mm (6 mm bearing), 300 deep; side 360 high
    dead = PER_AREA * 300 * (2 * 1966 / 2 + 360)
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
