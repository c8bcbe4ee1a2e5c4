"""Shelves on brackets, cleats and rods: free bodies by hand."""

from __future__ import annotations

import re
from math import pi

import pytest
from described import PER_AREA, G, findings, the
from printed import printed

from shelfload.check.result import Verdict
from shelfload.solve.overhang import best_overhang

BRICK = {"wall": "solid brick"}
BOARD = {"what": "board", "thickness": "12.5 mm"}
KINDS = {
    "brackets": {"kind": "brackets", "number": 2, "height": "150 mm", "maker": "anchor"},
    "cleat": {"kind": "cleat", "height": "60 mm", "maker": "anchor", "carcass": "anchor"},
    "rods": {"kind": "rods", "number": 4, "diameter": "12 mm", "in_wall": "100 mm"},
}


def shelf(supports, load="20 kg", **more):
    return {
        "name": "board",
        "depth": "200 mm",
        "shelf": {"material": "board", "thickness": "20 mm"},
        "contents": {"load": load},
        "supports": supports,
        "fixed_down": True,
        **({"spans": ["800 mm"]} if "length" not in more else {}),
        **more,
    }


def held(supports, site=BRICK, **more):
    return findings(site=site, shelf=[shelf(supports, **more)])


def test_upper_fixing_of_a_bracket_by_hand():
    found = held({**KINDS["brackets"], "carcass": "anchor"})
    # one of two: half of 806 x 200 x 20 mm and of 20 kg, loads as they are, and a hand of 150 N
    F = PER_AREA * 200 * 806 / 2 + 10 * G
    T = (F * 100 + 150 * 200) / 150
    V = (F + 150) / 2  # one fixing above, one below
    check = the(found, "wall", "holds: fixing in the wall")
    assert check.value == pytest.approx(T / 300 + V / 600, rel=1e-6)
    bracket = the(found, "wall", "holds: the bracket itself")
    assert bracket.value == pytest.approx((F + 150) / 600, rel=1e-6)


def test_brackets_are_placed_where_the_shelf_sags_least():
    found = held({**KINDS["brackets"], "number": 3, "carcass": "anchor"}, length="1500 mm")
    beam = found.whole.lone[0]
    assert len(beam.supports) == 3
    # three supports: 0.1455 of the length in for the least sag (own solver, tested elsewhere)
    assert beam.supports[0].at == pytest.approx(best_overhang(3) * 1500, rel=1e-6)
    assert beam.result.beam.length == pytest.approx(1500, rel=1e-9)


def test_bracket_screwed_to_a_stud_bears_on_its_steel():
    screwed = {
        "kind": "brackets", "number": 2, "height": "150 mm", "carcass": "anchor",
        "screw": "coach-screw-8", "length": "80 mm",
    }  # fmt: skip
    site = {"wall": "timber stud", "stud_spacing": "600 mm", "wall_layers": []}
    found = held(screwed, site=site)
    asked = {check.question: check for check in found.checks if check.place.part == "wall"}
    assert "holds: head pull-through" not in asked  # the head is on steel
    both = asked["holds: pull and shear together"]
    assert "not described" not in both.reason
    # EN 1995-1-1 (8.9), thin plate, without its 1.15: 0.4 f_h t d, or sqrt(2 M_y f_h d), C16
    d = 1.1 * 5.7
    f_h, M_y, t = 0.082 * 310 * d**-0.3, 0.3 * 400 * d**2.6, 80.0
    least = min((2**0.5 - 1) * f_h * t * d, (2 * M_y * f_h * d) ** 0.5)
    # the last of "each of 2: pull, shear; may pull or shear"
    pull, shear, drawn, holds = map(float, re.findall("force[^0-9]([0-9.]+)", both.governs))
    # (8.28): the root of the squares
    assert both.value == pytest.approx(((pull / drawn) ** 2 + (shear / holds) ** 2) ** 0.5)
    assert holds == pytest.approx(least * 0.9 / 1.3, rel=1e-3)


def test_cleat_prises_about_its_lower_edge():
    found = held({**KINDS["cleat"], "count": 4})
    W = PER_AREA * 200 * 806 + 20 * G
    # lever half of 60 mm; four fixings, the worst 1.25 times an even share
    T = (W * 100 + 150 * 200) / 30 / 4 * 1.25
    V = (W + 150) / 4 * 1.25
    check = the(found, "wall", "holds: fixing in the wall")
    assert check.value == pytest.approx(T / 300 + V / 600, rel=1e-6)
    assert check.verdict is Verdict.FAILS
    ends = the(held({**KINDS["cleat"], "count": 4, "ends": True}), "wall", "holds: fixing")
    assert ends.value == pytest.approx(V / 600, rel=1e-6)


def test_rods_bend_and_press_by_hand():
    found = held(KINDS["rods"])
    # short-term, factored, 1.25 uneven over four
    W = (1.35 * PER_AREA * 200 * 806 + 1.5 * 20 * G) / 4 * 1.25
    P = 1.5 * 150 / 4 * 1.25
    F, M_face = W + P, W * 100 + P * 200
    c = M_face / F
    # largest moment behind the face, at x = l / (3 + 6 c / l), from the linear pressure
    x = 100 / (3 + 6 * c / 100)
    A = F * (4 + 6 * c / 100) / 100
    B = -F * (6 + 12 * c / 100) / 100**2
    M = F * (c + x) - A * x**2 / 2 - B * x**3 / 6
    check = the(found, "wall", "rods in bending")
    assert check.value == pytest.approx(32 * M / (pi * 12**3), rel=1e-6)
    press = the(found, "wall", "rods press on the wall")
    assert press.verdict is Verdict.NOT_CHECKED
    assert check.limit == printed("235")


def test_rods_in_a_stud_press_across_its_grain():
    found = held(KINDS["rods"], site={"wall": "timber stud", "wall_layers": []})
    press = the(found, "wall", "rods press on the wall")
    # EN 1995-1-1 (8.31)-(8.33): 0.082 (1 - 0.12) 310 / (1.35 + 0.015 x 12) x 0.7 / 1.3
    assert press.limit == pytest.approx(0.082 * 0.88 * 310 / 1.53 * 0.7 / 1.3, rel=1e-6)


def test_rods_droop_by_hand():
    # 12.5 mm of board keep the shelf off the stud: 212.5 mm of rod outside. A quarter of the
    # shelf and of 20 kg, 1.25 uneven, evenly over it; the rod held a third of 100 mm inside;
    # steel 210000 MPa; a hole 1 mm wider lets it tilt by 1 / 100
    site = {"wall": "timber stud", "wall_layers": [{"what": "board", "thickness": "12.5 mm"}]}
    found = held({**KINDS["rods"], "play": "1 mm"}, site=site)
    F = (PER_AREA * 200 * 806 + 20 * G) / 4 * 1.25
    D, x, EI = 212.5, 100 / 3, 210000 * pi * 12**4 / 64
    at_face = F * x**3 / 3 + F * D / 2 * x**2 / 2
    slope = F * x**2 / 2 + F * D / 2 * x
    bent = (F * D**3 / 8 + at_face + slope * D) / EI
    check = the(found, "wall", "front droops")
    assert check.value == pytest.approx(bent + 1 / 100 * D, rel=1e-6)
    assert check.limit == pytest.approx(200 / 50)


@pytest.mark.parametrize("kind", KINDS)
def test_unknown_wall_never_passes(kind):
    supports = {key: value for key, value in KINDS[kind].items() if key != "maker"}
    found = held(supports, site={"wall": "unknown"})
    assert found.verdict in (Verdict.NOT_CHECKED, Verdict.FAILS)
    unknown = [check for check in found.checks if check.place.part == "wall" and check.reason]
    assert any("pull-tested" in check.remedy for check in unknown)


def test_plasterboard_alone_is_refused():
    found = held({**KINDS["brackets"], "carcass": "anchor"}, site={"wall": "plasterboard"})
    assert the(found, "wall", "holds: the board").verdict is Verdict.FAILS


def test_shear_alone_is_no_answer_where_the_pull_is_not_known():
    screwed = {
        "kind": "brackets", "number": 2, "height": "150 mm", "carcass": "anchor",
        "screw": "coach-screw-8", "length": "70 mm",
    }  # fmt: skip
    found = held(screwed, site={"wall": "timber stud", "wall_layers": [BOARD]})
    asked = {check.question: check for check in found.checks if check.place.part == "wall"}
    # EN 1995-1-1, 8.7.2(3): 6 d of thread, 48 mm; of 70 mm, 42 have one
    assert asked["holds: pull-out"].verdict is Verdict.NOT_CHECKED
    both = asked["holds: pull and shear together"]
    assert both.verdict is Verdict.NOT_CHECKED
    assert "pull-out" in both.reason
