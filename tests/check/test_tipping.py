"""Tipping of whole units: moments about the front feet by hand, test loads, properties."""

from __future__ import annotations

from math import asin, cos, sin

import pytest
from described import PER_AREA, G, asked, findings, the, unit
from hypothesis import given, settings
from hypothesis import strategies as st
from printed import printed

from shelfload.check.result import Verdict

HARD = {"floor": {"covering": "hard"}}
TALL = (360, 360, 360)  # with four boards of 20 mm: 1160 mm
BRICK = {"wall": "solid brick", **HARD}


def box_weight(width=1000, height=1160, depth=300, boards=4):
    return PER_AREA * depth * (boards * (width - 40) + 2 * height)


def test_tall_unit_alone_by_hand_on_a_hard_floor():
    # own weight (4 x 960 + 2 x 1160) x 300 x 20 mm of 500 kg/m3 = 18.48 kg = 181.23 N at 150
    # holding 181.23 x 0.150 = 27.184 N m; pull 44.5 N at the top, 1.160 m: 51.62 N m
    found = findings(unit(heights=TALL), site=HARD)
    check = the(found, "standing", "tips over when pulled")
    assert box_weight() == printed("181.23")
    assert check.value / 1000 == printed("51.62")
    assert check.limit / 1000 == printed("27.184")
    assert check.verdict is Verdict.FAILS
    assert "from memory" in check.source
    alone = the(found, "standing", "tips over by itself")
    assert alone.value == pytest.approx(0.0)
    assert alone.limit == pytest.approx(box_weight() * 150 / 1.5)


def test_carpet_block_leans_the_whole_forward():
    # 0.43 in = 10.9 mm under the back of 300 mm: asin(10.9 / 300)
    tilt = asin(10.9 / 300)
    check = the(findings(unit(heights=TALL)), "standing", "tips over by itself")
    moment = PER_AREA * 300 * sum(
        960 * (150 * cos(tilt) - z * sin(tilt)) for z in (10, 390, 770, 1150)
    ) + PER_AREA * 300 * 2 * 1160 * (150 * cos(tilt) - 580 * sin(tilt))
    # every single weight still holds here, so holding is their sum
    assert check.limit == pytest.approx(moment / 1.5, rel=1e-9)


def test_child_on_the_shelf_edge_by_hand():
    # 266.7 N (60 lb) 100 mm in front of the feet: 26.67 N m against 27.184
    found = findings(unit(heights=TALL), site={**HARD, "children": True})
    check = the(found, "standing", "tips over with a child on the shelf edge")
    assert check.value / 1000 == printed("26.67")
    assert check.verdict is Verdict.CLOSE
    assert "ASTM F2057-23" in check.source


def test_child_on_an_open_drawer_stands_further_out():
    chest = unit(heights=TALL, drawers={"mass": "6 kg", "out": "250 mm"})
    found = findings(chest, site={**HARD, "children": True})
    child = the(found, "standing", "tips over with a child on the open drawer")
    # 266.7 N at 250 mm, and the drawer's 58.84 N at 125 mm
    assert child.value == pytest.approx(266.7 * 250 + 6 * G * 125, rel=1e-9)
    alone = the(found, "standing", "tips over by itself, drawers open")
    assert alone.value == pytest.approx(6 * G * 125)


def test_restraint_force_by_hand():
    # 1.5 x 51.62 - 27.184 = 50.246 N m over 1.110 m = 45.27 N: less than the 222 N of a
    # restraint (50 lbf, ASTM F3096, from memory), so that counts on each of two
    hold = {"tension": "300 N", "source": "test"}
    found = findings(
        unit(heights=TALL, restraint={"maker": "kit", "carcass": "kit"}),
        site=BRICK,
        fixings={"kit": hold},
    )
    check = the(found, "restraint", "holds: fixing in the wall")
    assert check.value == printed("222")
    assert check.limit == pytest.approx(300.0)
    assert check.verdict is Verdict.PASSES
    assert not asked(found, "standing")


def test_heavy_drawers_ask_more_of_the_restraint():
    # 100 kg at 200 mm beyond the front: 196.133 N m; pull 51.62; 1.5 x 247.753 - 27.184 =
    # 344.45 N m over 1.110 m = 310.3 N, 155.2 on each: still 222. With 400 mm: 392.266 + 51.62
    # = 443.886; 1.5 x - 27.184 = 638.645 / 1.110 = 575.36, 287.7 on each
    chest = unit(
        heights=TALL,
        drawers={"mass": "100 kg", "out": "800 mm"},
        restraint={"maker": "kit", "carcass": "kit"},
    )
    found = findings(
        chest,
        site=BRICK,
        fixings={"kit": {"tension": "300 N", "values": "design", "source": "test"}},
    )
    assert the(found, "restraint", "holds: fixing").value == printed("287.7")


@pytest.mark.parametrize(
    ("site", "words"),
    [
        ({}, "wall is not known"),
        ({"wall": "unknown"}, "wall is not known"),
        ({"wall": "no fixing allowed"}, "no fixing to this wall"),
        ({"wall": "solid brick"}, "nothing that ties it back"),
    ],
)
def test_tall_unit_without_restraint_is_never_a_pass(site, words):
    # deep and heavy: no scenario tips it, and still the tie is asked for
    found = findings(unit(heights=TALL, depth=900), site={**HARD, **site})
    assert all(check.verdict is Verdict.PASSES for check in asked(found, "standing"))
    tie = the(found, "restraint", "tied to the wall")
    assert tie.verdict is Verdict.NOT_CHECKED
    assert words in tie.reason
    assert found.verdict in (Verdict.NOT_CHECKED, Verdict.FAILS)


def test_plasterboard_holds_no_tall_unit_back():
    found = findings(
        unit(heights=TALL, restraint={"maker": "anchor", "carcass": "anchor"}),
        site={"wall": "plasterboard"},
    )
    check = the(found, "restraint", "holds: the board")
    assert check.verdict is Verdict.FAILS
    assert "batten" in check.remedy


def test_low_unit_is_a_clean_pass():
    back = {"material": "board", "thickness": "6 mm", "fixed": "glued"}
    found = findings(unit(heights=(300,), bays=(600,), loads=[10]), site=HARD)
    assert not asked(found, "restraint")
    assert all(check.verdict is Verdict.PASSES for check in asked(found, "standing"))
    assert back


def test_what_stands_on_a_unit_counts_with_it():
    lower = unit("lower", heights=(600,))
    upper = unit("upper", heights=(500,), on="lower")
    found = findings(lower, upper, site=HARD)
    check = the(found, "standing", "tips over when pulled", unit="lower")
    # tops at 640 and 1180: the pull is at 1180, both hold at 150
    assert check.value == pytest.approx(44.5 * 1180)
    both = box_weight(height=640, boards=2) + box_weight(height=540, boards=2)
    assert check.limit == pytest.approx(both * 150, rel=1e-9)


def margin(depth=300, heights=TALL, loads=(), site=None, **more):
    found = findings(unit(heights=heights, depth=depth, loads=loads, **more), site=site or {})
    checks = asked(found, "standing", "tips over when pulled")
    return min(check.limit / check.value for check in checks)


@settings(max_examples=20, deadline=None)
@given(depth=st.integers(150, 700), more=st.integers(1, 300))
def test_deeper_base_never_tips_sooner(depth, more):
    assert margin(depth + more) >= margin(depth) * (1 - 1e-9)


@settings(max_examples=20, deadline=None)
@given(load=st.integers(1, 60), depth=st.integers(120, 400))
def test_contents_moved_up_never_raise_the_margin(load, depth):
    low = margin(depth, loads=(load, 0, 0))
    high = margin(depth, loads=(0, 0, load))
    assert high <= low * (1 + 1e-9)


@settings(max_examples=15, deadline=None)
@given(load=st.integers(0, 80))
def test_contents_never_raise_the_margin(load):
    assert margin(loads=(load, load, load)) <= margin() * (1 + 1e-9)


@settings(max_examples=15, deadline=None)
@given(count=st.integers(2, 6), mass=st.integers(1, 200))
def test_more_restraints_never_ask_more_of_one(count, mass):
    def pull(number):
        chest = unit(
            heights=TALL,
            drawers={"mass": f"{mass} kg", "out": "600 mm"},
            restraint={"maker": "kit", "carcass": "kit", "count": number},
        )
        kit = {"tension": "300 N", "source": "test"}
        return the(
            findings(chest, site=BRICK, fixings={"kit": kit}), "restraint", "holds: fixing"
        ).value

    assert pull(count + 1) <= pull(count) * (1 + 1e-9)


def test_strap_is_only_pulled():
    restraint = {"screw": "coach-screw-6", "length": "80 mm", "carcass": "anchor"}
    found = findings(
        unit(heights=TALL, restraint=restraint),
        site={"wall": "timber stud", "stud_spacing": "600 mm"},
    )
    holds = {check.question for check in asked(found, "restraint", "holds: ")}
    assert holds == {"holds: the unit's side of the fixing", "holds: pull-out"}


@pytest.mark.parametrize(
    ("first", "bays", "verdict"),
    [
        ("100 mm", (960,), Verdict.PASSES),  # studs at 100 and 700 behind 1000 mm
        ("500 mm", (960,), Verdict.FAILS),  # only the one at 500
        (None, (960,), Verdict.NOT_CHECKED),  # one or two, who knows
        (None, (1360,), Verdict.PASSES),  # 1400 mm meet two of 600 wherever they are
    ],
)
def test_restraints_need_a_stud_each(first, bays, verdict):
    restraint = {"screw": "coach-screw-6", "length": "80 mm", "carcass": "anchor"}
    if first is not None:
        restraint["first_stud"] = first
    found = findings(
        unit(heights=TALL, bays=bays, restraint=restraint),
        site={"wall": "timber stud", "stud_spacing": "600 mm"},
    )
    assert the(found, "restraint", "studs behind it").verdict is verdict
