"""Floors under whole units: pressures, joists and sheets by hand."""

from __future__ import annotations

import pytest
from described import PER_AREA, G, asked, findings, the, unit
from printed import printed

from shelfload.check.result import Verdict

JOISTS = {"width": "50 mm", "height": "200 mm", "span": "3 m", "spacing": "400 mm"}


def floor(load, site_floor, **more):
    return findings(unit(loads=[load], **more), site={"floor": site_floor})


def test_light_unit_is_compared_with_the_domestic_load():
    # 8.16 + 50 kg on 1.0 x 0.3 m: 570.4 N / 0.3 m2 = 1.901 kN/m2, allowed 2.0 (EN 1991-1-1,
    # Table 6.2, category A)
    check = the(floor(50, {}), "floor")
    assert check.value * 1000 == printed("1.901")
    assert check.limit * 1000 == pytest.approx(2.0)
    assert check.verdict is Verdict.CLOSE


def test_bookcase_below_the_single_load_of_a_domestic_floor_passes_by_it():
    # 108.16 kg is 3.5 kN/m2 on its footprint, and less than the 2 kN that the same floor is
    # designed to carry on one spot
    check = the(floor(100, {}), "floor")
    assert check.question.startswith("whole weight")
    assert check.value == pytest.approx(108.16 * G, rel=1e-6)
    assert check.verdict is Verdict.PASSES


def test_heavy_unit_is_a_question_for_the_owner_not_a_failure():
    # the published example of a bookcase of 198 kg on 0.30 m2, 6.5 kN/m2 (arithmetic)
    check = the(floor(250, {}), "floor")
    assert check.verdict is Verdict.NOT_CHECKED
    assert "owner" in check.remedy
    slab = the(floor(190, {"kind": "concrete"}), "floor")
    assert slab.limit * 1000 == pytest.approx(7.5)
    assert slab.verdict is Verdict.PASSES
    loft = the(floor(50, {"kind": "ceiling"}), "floor")
    assert loft.verdict is Verdict.NOT_CHECKED


def test_joists_across_in_bending_by_hand():
    found = floor(200, {"joists": {**JOISTS, "run": "across"}})
    check = the(found, "floor", "joists in bending")
    # floor(1000 / 400) = 2 joists; each 1.5 x 200 kg + 1.35 x 8.16 kg over 2, on the first 300 mm
    W = (1.35 * 8.16 + 1.5 * 200) * G / 2
    even = (1.35 * 0.5e-3 + 1.5 * 2.0e-3) * 400
    w = W / 300
    left = W * (3000 - 150) / 3000 + even * 1500
    # shear is zero behind the part, where left - W - even x = 0
    x = (left - W) / even
    M = left * x - even * x**2 / 2 - W * (x - 150)
    assert w > even
    assert check.value == pytest.approx(M * 6 / (50 * 200**2), rel=1e-9)
    # C16: 16 MPa x 0.7 / 1.3
    assert check.limit == pytest.approx(16 * 0.7 / 1.3)


def test_joists_along_are_the_heavier_case():
    along = the(floor(200, {"joists": {**JOISTS, "run": "along"}}), "floor", "joists in bending")
    across = the(floor(200, {"joists": {**JOISTS, "run": "across"}}), "floor", "joists in bending")
    assert along.value > 1.2 * across.value
    # one joist under 300 mm of depth, all of it on 1000 mm at mid-span
    assert along.governs.startswith("1 joist along")


def test_sheet_between_joists_across_by_hand():
    sheet = {"material": "particleboard-p5", "thickness": "22 mm"}
    found = floor(60, {"sheet": sheet, "joists": {**JOISTS, "run": "across"}})
    check = the(found, "floor", "floor sheet")
    # one side: half of two boards of 966, a side of 360, half of 60 kg; P L / 4 over 300 mm
    P = 1.35 * PER_AREA * 300 * (966 + 360) + 1.5 * 30 * G
    assert check.value == pytest.approx(P * 400 / 4 * 6 / (300 * 22**2), rel=1e-6)


def test_sheet_over_battens_along_by_hand():
    # the heaviest upright P stands along the sheet's span of 300: half of a load on one spot at
    # mid-span, P L / 4 / 2, on 20 mm of upright and 1.2 x 150 x (1 - 1/2) beside it (judgement)
    sheet = {"material": "particleboard-p5", "thickness": "22 mm"}
    check = the(floor(60, {"sheet": sheet, "battens": "300 mm"}), "floor", "floor sheet")
    P = 1.35 * PER_AREA * 300 * (966 + 360) + 1.5 * 30 * G
    assert check.value == pytest.approx(P * 300 / 4 / 2 * 6 / (110 * 22**2), rel=1e-6)


def test_sheet_with_joists_along_is_provisional_at_best():
    sheet = {"material": "particleboard-p5", "thickness": "22 mm"}
    check = the(floor(1, {"sheet": sheet, "battens": "300 mm"}), "floor", "floor sheet")
    assert check.ratio < 1.0
    assert check.verdict is Verdict.NOT_CHECKED
    assert check.reason.startswith("provisional")


def test_hung_unit_asks_nothing_of_the_floor():
    found = findings(
        unit(hangs={"maker": "anchor", "carcass": "anchor"}), site={"wall": "solid brick"}
    )
    assert asked(found, "floor") == []
