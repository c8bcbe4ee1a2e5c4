"""Standing, hung, stacked and lifted units: every figure, limit and word of a check by hand."""

from __future__ import annotations

from math import atan2, cos, sin, sqrt

import pytest
from described import PER_AREA, G, asked, findings, the, unit
from printed import printed

from shelfload.check.result import Check, Verdict, worst_of_each_question
from shelfload.idealise.place import Place
from shelfload.wording import spelled

HARD = {"floor": {"covering": "hard"}}
KIT = {"maker": "anchor", "carcass": "anchor"}
STRICT = {"tension": "300 N", "values": "design", "source": "made up for tests"}
TALL = (360, 360, 360)


def words(text):
    return spelled(text, "metric")


def kg(boards, depth):
    """Mass of so many mm of board 20 mm thick [kg]."""
    return boards * depth * 20 * 500e-9


# Tipping: moments about the feet, by hand


def test_feet_behind_the_front_shorten_what_holds_and_put_the_child_further_out():
    # five boards of 960 and two of 1540, 300 deep, 110 mm behind feet that stand at 260
    site = {**HARD, "children": True}
    found = findings(unit(heights=(360,) * 4, feet_back="40 mm"), site=site)
    holding = PER_AREA * 300 * (5 * 960 + 2 * 1540) * 110
    alone = the(found, "standing", "tips over by itself")
    assert (alone.value, alone.limit) == (pytest.approx(0.0), pytest.approx(holding / 1.5))
    # 25.50 N m over 1.54 m
    assert words(alone.governs) == "a pull of 17 N more at the top tips it"
    # the pull is at 1422 mm (56 in, ASTM F2057-23, from memory) where a unit is higher
    pulled = the(found, "standing", "tips over when pulled")
    assert pulled.value == pytest.approx(44.5 * 1422)
    assert pulled.limit == pytest.approx(holding)
    assert words(pulled.governs) == "45 N at 1422 mm"
    # 100 mm before the front, 140 before the feet; 266.7 N are 27 kg
    child = the(found, "standing", "tips over with a child on the shelf edge")
    assert child.value == pytest.approx(266.7 * 140)
    assert child.limit == pytest.approx(holding)
    assert words(child.governs) == "27 kg, 140 mm in front of the feet"
    tie = the(found, "restraint", "tied to the wall")
    assert "2 fixings at 1490 mm above its underside, each for 222 N" in words(tie.reason)
    assert (tie.measure, tie.value, tie.limit) == ("force", None, None)
    assert "686 mm" in tie.source


def test_doors_on_a_plinth_on_a_sloping_floor():
    # feet 50 behind 300 (judgement); slope 6 in 300; boards at 10, 390 and 770, sides at 390;
    # doors of 6 kg reach 400 out, 250 before the feet, at half of 780
    made = unit(heights=(360, 360), base="plinth", doors={"mass": "6 kg", "out": "400 mm"})
    found = findings(made, site={"floor": {"covering": "hard", "slope": "6 mm"}})
    lean = atan2(6, 300)
    pieces = [(960, 10), (960, 390), (960, 770), (2 * 780, 390)]
    holding = PER_AREA * 300 * sum(b * (100 * cos(lean) - z * sin(lean)) for b, z in pieces)
    tipping = 6 * G * (250 * cos(lean) + 390 * sin(lean))
    alone = the(found, "standing", "tips over by itself, doors open")
    assert alone.value == pytest.approx(tipping, rel=1e-9)
    assert alone.limit == pytest.approx(holding / 1.5, rel=1e-9)
    pulled = the(found, "standing", "tips over when pulled")
    assert pulled.value == pytest.approx(tipping + 44.5 * 780, rel=1e-9)
    assert words(pulled.governs) == "45 N at 780 mm"
    assert any("plinth stands 50 mm behind the front" in words(one) for one in found.assumptions)


@pytest.mark.parametrize(
    ("height", "depth", "tall"),
    # 686 mm: scope of the Australian information standard; three times its depth: judgement
    [(645, 300, False), (646, 300, True), (560, 200, False), (561, 200, True)],
)
def test_unit_is_tall_from_686_mm_and_above_three_depths(height, depth, tall):
    found = findings(unit(heights=(height,), depth=depth), site=HARD)
    assert bool(asked(found, "restraint")) is tall
    assert bool(asked(found, "standing", "tips over when pulled")) is tall


# Restraints


@pytest.mark.parametrize(("spacing", "met"), [(None, 0.0), ("400 mm", None)])
def test_restraints_share_a_stud_in_twos_at_most(spacing, met):
    # 640 wide less 25 at each end: no stud of 610 for certain, one of 400, perhaps two; three
    # fixings count as two. 100 kg of drawers 400 before the feet, pull 44.5 N at 1160
    made = unit(
        heights=TALL,
        bays=(600,),
        drawers={"mass": "100 kg", "out": "800 mm"},
        restraint={"maker": "strict", "carcass": "strict", "count": 3},
    )
    site = {**HARD, "wall": "timber stud", **({"stud_spacing": spacing} if spacing else {})}
    found = findings(made, site=site, fixings={"strict": STRICT})
    holding = PER_AREA * 300 * (4 * 600 + 2 * 1160) * 150
    tipping = 100 * G * 400 + 44.5 * 1160
    check = the(found, "restraint", "holds: fixing in the wall")
    assert check.value == pytest.approx((1.5 * tipping - holding) / 1110 / 2, rel=1e-9)
    assert check.limit == pytest.approx(300.0)
    studs = the(found, "restraint", "studs behind it")
    assert (studs.value, studs.limit, studs.at_least) == (met, 1.5, True)
    assert studs.verdict is (Verdict.FAILS if met == 0.0 else Verdict.NOT_CHECKED)
    assert ("it meets 1 or 2 studs" in studs.reason) is (met is None)
    assert not asked(found, "restraint", "number of restraints")


def test_two_restraints_left_of_three_take_the_load_as_it_is():
    # 200 kg of drawers: (784.532 + 51.62 - 27.184) N m / 1.110 m = 728.80 N on two
    made = unit(
        "upper",
        heights=TALL,
        on="lower",
        drawers={"mass": "200 kg", "out": "800 mm"},
        restraint={**KIT, "count": 3},
    )
    found = findings(unit("lower"), made, site={**HARD, "wall": "solid brick"})
    check = the(found, "restraint", "pull if one restraint gives out", unit="upper")
    assert check.value == printed("364.40")
    assert (check.limit, check.as_mass, check.governs) == (300.0, True, "2 of 3 left")
    assert (check.source, check.reason, check.verdict) == ("statics", "", Verdict.FAILS)


def test_no_known_link_of_a_restraint_leaves_no_limit():
    made = unit("upper", heights=(760,), on="lower", restraint={"count": 2})
    found = findings(unit("lower"), made, site=HARD)
    check = the(found, "restraint", "pull if one restraint gives out", unit="upper")
    assert check.verdict is Verdict.NOT_CHECKED
    assert (check.value, check.limit) == (pytest.approx(222.0), None)
    assert check.reason == "a link of the chain is not checked"
    assert check.governs == "1 of 2 left"


def test_single_restraint_is_counted_as_one():
    tie = {**KIT, "count": 1}
    found = findings(unit(heights=TALL, restraint=tie), site={**HARD, "wall": "solid brick"})
    check = the(found, "restraint", "number of restraints")
    assert (check.value, check.limit, check.at_least) == (1.0, 2.0, True)
    assert check.source == "two studs near the top: common practice, no source"
    upper = unit("upper", on="lower", restraint=tie)
    found = findings(unit("lower"), upper, site={**HARD, "wall": "solid brick"})
    lost = the(found, "restraint", "pull if one restraint", unit="upper")
    assert (lost.value, lost.limit, lost.measure) == (1.0, 2.0, "count")
    assert lost.governs == "one restraint alone"


# On the wall


def test_two_lines_on_a_wall_with_one_fixing_and_with_one_line_lost():
    # 8.16 + 24 kg at 150, no hand; two fixings at 350 and two at 150: one of the upper is left
    hangs = {**KIT, "count": 2, "heights": ["150 mm", "350 mm"]}
    found = findings(
        unit(loads=[24], underside="1000 mm", hangs=hangs), site={"wall": "solid brick"}
    )
    M = 32.16 * G * 150
    one = the(found, "wall", "pull if one fixing gives out")
    assert one.value == pytest.approx(M * 350 / (2 * 150**2 + 350**2), rel=1e-9)
    assert (one.limit, one.as_mass, one.source) == (300.0, True, "own derivation")
    line = the(found, "wall", "pull if one line of fixings gives out")
    assert line.value == pytest.approx(M / 150 / 2, rel=1e-9)
    assert (line.limit, line.governs, line.source) == (300.0, "1 of 2 lines left", "statics")
    assert (one.verdict, line.verdict) == (Verdict.PASSES, Verdict.PASSES)
    below = findings(
        unit(loads=[24], underside="999 mm", hangs=hangs), site={"wall": "solid brick"}
    )
    assert not asked(below, "wall", "pull if one")


# On other units


def test_bridge_that_is_shallower_than_its_towers_at_every_limit():
    # right side 1981 to 2001, its tower ends at 2000: just the 1 mm that is let pass; towers
    # 398 and 400 high: just 2 mm
    towers = (
        unit("l", bays=(360,), left="0 mm"),
        unit("r", bays=(360,), left="1600 mm", heights=(358,)),
    )
    bridge = unit("bridge", bays=(1960,), depth=200, loads=[60], on=["l", "r"], left="1 mm")
    found = findings(*towers, bridge)
    over = the(found, "standing", "part of", unit="bridge", bay="right side")
    assert (over.value, over.limit) == (pytest.approx(1.0), 1.0)
    assert words(over.governs) == "19 mm of 20 mm on r"
    level = the(found, "standing", "towers of one height", unit="bridge")
    assert (level.value, level.limit) == (pytest.approx(2.0), 2.0)
    # EN 1990 (6.10): half of the bridge on 19 x 200 mm
    N = 1.35 * PER_AREA * 200 * (1960 + 400) + 1.5 * 30 * G
    press = the(found, "standing", "presses on", unit="bridge", bay="right side")
    assert press.value == pytest.approx(N / (19 * 200), rel=1e-6)
    # empty, pulled by 44.5 N at 400: its own weight holds it at 100
    lifts = the(found, "standing", "lifts off", unit="bridge")
    dead = PER_AREA * 200 * (2 * 1960 + 2 * 400)
    assert (lifts.value, lifts.limit) == (pytest.approx(44.5 * 400), pytest.approx(dead * 100))
    assert words(lifts.governs) == "45 N at its top"
    slides = the(found, "standing", "slides when pulled, empty", unit="bridge")
    assert (slides.value, slides.limit) == (44.5, pytest.approx(0.2 * dead))
    assert (slides.method, slides.measure) == ("push against friction", "force")


def test_hand_on_a_front_that_reaches_out_is_named():
    upper = unit("upper", bays=(360,), depth=500, on="lower")
    found = findings(unit("lower", depth=300), upper, site={"people_below": True})
    lifts = the(found, "standing", "lifts off", unit="upper")
    # 300 N, 200 before the edge; its own weight is 50 behind it
    assert lifts.value == pytest.approx(300 * 200)
    assert lifts.limit == pytest.approx(PER_AREA * 500 * (2 * 360 + 2 * 400) * 50)
    assert words(lifts.governs) == "a hand of 300 N on its front edge"


def test_what_a_bench_is_allowed_and_what_nothing_carries():
    bench = {"what": "bench", "allowed": "50 kg", "source": "its maker"}
    found = findings(unit(underside="700 mm", loads=[30], rests_on=bench))
    check = the(found, "standing", "weight on the bench")
    assert (check.limit, check.source) == (pytest.approx(50 * G), "its maker")
    assert (check.as_mass, check.measure) == (True, "force")
    nothing = the(findings(unit(underside="700 mm", loads=[30])), "standing", "what carries it")
    # 8.16 + 30 kg; one side: half of both boards and of the load, and itself
    assert "it weighs 38 kg full, up to 19 kg on one upright" in words(nothing.reason)


# On the floor


@pytest.mark.parametrize(("load", "verdict"), [(80, Verdict.PASSES), (100, Verdict.NOT_CHECKED)])
def test_single_load_of_a_floor_is_for_all_units_together(load, verdict):
    # 2 x 88.16 kg are 1729 N, 2 x 108.16 are 2121: EN 1991-1-1, Table 6.2 category A has 2 kN
    found = findings(unit("a", loads=[load]), unit("b", loads=[load], left="1100 mm"))
    check = the(found, "floor", unit="a")
    assert check.verdict is verdict
    if verdict is Verdict.PASSES:
        assert (check.value, check.limit) == (pytest.approx(2 * 88.16 * G), pytest.approx(2000.0))
        assert check.method.endswith(", all units together")
        assert words(check.governs) == "88 kg on 1000 mm x 300 mm"
        one = the(findings(unit(loads=[load])), "floor")
        assert not one.method.endswith("together")
        assert (one.as_mass, one.measure) == (True, "force")
        assert one.value == pytest.approx(88.16 * G)


def test_joists_in_shear_by_hand():
    joists = {"width": "50 mm", "height": "200 mm", "span": "3 m", "spacing": "400 mm"}
    site = {"floor": {"joists": {**joists, "run": "across"}}}
    check = the(findings(unit(loads=[200]), site=site), "floor", "joists in shear")
    # two joists: their load on the first 300 mm of 3 m, 0.5 and 2 kN/m2 on 400 mm
    W = (1.35 * 8.16 + 1.5 * 200) * G / 2
    V = W * 2850 / 3000 + (1.35 * 0.5e-3 + 1.5 * 2.0e-3) * 400 * 1500
    assert check.value == pytest.approx(1.5 * V / (50 * 200), rel=1e-9)
    # C16: 3.2 MPa (EN 338:2016) x 0.7 / 1.3
    assert check.limit == pytest.approx(3.2 * 0.7 / 1.3)
    assert "6.1.7" in check.source
    assert words(check.governs).startswith("2 joists across the unit, 50 mm x 200 mm")


def test_joists_under_the_middle_sag_by_hand():
    # one joist of C16, 8 GPa (EN 338:2016), under 1000 mm in the middle of 3 m: contents of
    # 200 kg stay; kdef 0.6 (solid timber, service class 1), domestic load 2 kN/m2 with 0.3 of it
    joists = {"width": "50 mm", "height": "200 mm", "span": "3 m", "spacing": "400 mm"}
    site = {"floor": {"joists": {**joists, "run": "along"}}}
    check = the(findings(unit(loads=[200]), site=site), "floor", "joists sag")
    even = (0.5e-3 * 1.6 + 2.0e-3 * (1 + 0.3 * 0.6)) * 400
    W = (8.16 + 200) * G * 1.6
    EI = 8000 * 50 * 200**3 / 12
    L, c = 3000, 1000
    # load W on c in the middle: W (8 L^3 - 4 L c^2 + c^3) / 384 EI (any beam table)
    sag = 5 * even * L**4 / (384 * EI) + W * (8 * L**3 - 4 * L * c**2 + c**3) / (384 * EI)
    assert check.value == pytest.approx(sag, rel=1e-4)
    assert check.limit == pytest.approx(3000 / 250)
    assert (check.measure, check.method) == ("length", "simple joist, creep 0.6")
    assert "Table 7.2" in check.source


# Lifting


@pytest.mark.parametrize(("bay", "people"), [(1500, 2), (2200, 3), (2300, 4), (3500, None)])
def test_teams_for_a_unit_to_a_wall_by_hand(bay, people):
    # one person: 23 x 250 / 350 x (1 - 0.0003 x 650) x (0.82 + 45 / 1400) x 0.95 = 10.708 kg
    # (NIOSH 94-110); teams of 2, 3 and 4: 4/3, 1.5 and 2 of it (HSE, from memory; judgement)
    RWL = 23 * 250 / 350 * (1 - 0.0003 * 650) * (0.82 + 45 / 1400) * 0.95
    mass = kg(2 * bay + 2 * 400, 300)
    found = findings(
        unit(bays=(bay,), underside="1400 mm", hangs=KIT),
        site={"wall": "solid brick", "lifters": 3},
    )
    check = the(found, "lifting", "people to lift whole unit")
    if people is None:
        assert (check.value, check.limit) == (pytest.approx(mass), pytest.approx(2 * RWL))
        assert check.measure == "mass"
        assert words(check.governs).endswith("; 4 people")
        assert check.question == "people to lift whole unit: weight"
    else:
        assert (check.value, check.limit, check.measure) == (people, 3.0, "count")
        assert words(check.governs).endswith("to 1400 mm; one person 11 kg")
    assert check.verdict is (Verdict.FAILS if people in (4, None) else check.verdict)
    end = the(found, "lifting", "people at the free end")
    assert (end.value, end.limit) == (2.0 if mass / 2 > RWL else 1.0, 3.0)


def test_free_end_above_the_reach_of_anyone_has_no_allowance():
    found = findings(unit(underside="1800 mm", hangs=KIT), site={"wall": "solid brick"})
    end = the(found, "lifting", "people at the free end")
    assert end.value == pytest.approx(8.16 / 2)
    assert end.limit == pytest.approx(0.0, abs=1e-6)
    assert end.verdict is Verdict.FAILS


def test_unit_too_heavy_to_tilt_up_by_hand():
    # five boards in four bays of 1200, four uprights and more: half of it at the end; hands at
    # 300: 1 - 0.0003 x 450; lifted by 1750 at most: 0.82 + 45 / 1750; grip 0.95; four people
    found = findings(unit(heights=(500,) * 4, bays=(1200,) * 4, depth=600), site=HARD)
    check = the(found, "lifting", "people to tilt it up")
    single = 23 * (1 - 0.0003 * 450) * (0.82 + 45 / 1750) * 0.95
    assert check.limit == pytest.approx(4 * single, rel=1e-9)
    # 2 boards of 4860, 3 x 4 of 1200, sides of 2100, 3 x 4 dividers of 500
    whole = kg(2 * 4860 + 12 * 1200 + 2 * 2100 + 12 * 500, 600)
    assert check.value == pytest.approx(whole / 2, rel=0.01)
    assert (check.measure, check.verdict) == ("mass", Verdict.FAILS)


def test_first_stage_of_a_stack_is_the_easiest_to_tip():
    # one board of 960 and two of 320, 200 deep: 3.2 kg at 100 against a pull at 320; with the
    # second level on it 9.2 kg less its top board, against 840
    found = findings(unit(heights=(300, 500), depth=200, comes_apart="levels"), site=HARD)
    check = the(found, "lifting", "part-stacked and empty")
    assert check.value == pytest.approx(3.2 * G * 100 / 320)
    assert (check.limit, check.at_least, check.measure) == (44.5, True, "force")
    assert words(check.governs).startswith("after level 1;")


# Supports of lone shelves


def carried(supports, site=None, **more):
    made = {
        "name": "board",
        "depth": "300 mm",
        "shelf": {"material": "board", "thickness": "20 mm"},
        "spans": ["800 mm"],
        "contents": {"load": "20 kg"},
        "supports": supports,
        "fixed_down": True,
        **more,
    }
    return findings(site={"wall": "solid brick"} if site is None else site, shelf=[made])


CLEAT = {"kind": "cleat", "height": "60 mm", "maker": "anchor", "count": 4}
RODS = {"kind": "rods", "number": 3, "diameter": "12 mm", "in_wall": "100 mm"}


def test_strip_whose_ends_are_held_has_no_link_to_a_carcass():
    prised = carried({**CLEAT, "carcass": "anchor"})
    held = carried({**CLEAT, "ends": True})
    assert len(asked(held, "wall", "holds:")) == 1
    assert len(asked(prised, "wall", "holds:")) == 2
    # a quarter of all and a quarter more of it, with a hand of 150 N: shear alone
    wall = the(held, "wall", "holds: fixing in the wall")
    length = 800 + 2 * 3  # 6 mm of bearing at each end
    all_of_it = PER_AREA * 300 * length + 20 * G + 150
    assert wall.value == pytest.approx(all_of_it / 4 * 1.25 / 600, rel=1e-6)
    assert (wall.limit, wall.measure) == (1.0, "ratio")


@pytest.mark.parametrize(
    ("supports", "spacing", "limit", "value"),
    [
        # 806 mm long, 756 of them 25 or more from its ends
        ({**CLEAT, "carcass": "anchor"}, "300 mm", 1.5, 2.0),
        ({**CLEAT, "carcass": "anchor"}, "400 mm", 1.5, None),
        ({**CLEAT, "carcass": "anchor"}, "800 mm", 1.5, 0.0),
        (RODS, "300 mm", 2.5, None),
    ],
)
def test_studs_behind_a_shelf_are_counted(supports, spacing, limit, value):
    found = carried(supports, {"wall": "timber stud", "stud_spacing": spacing})
    check = the(found, "wall", "studs behind it")
    assert (check.limit, check.at_least, check.measure) == (limit, True, "count")
    assert check.value == value
    assert ("which depends on where they are" in check.reason) is (value is None)


def test_nothing_said_of_a_shelf_or_a_level_is_told_apart():
    silent = unit(heights=(300, 400))
    silent["level"][1].pop("contents")
    found = findings(silent)
    assert "box, level 2: empty, as nothing is said" in map(words, found.assumptions)
    assert not [one for one in found.checks if one.question == "loads described"]
    silent["level"][0].pop("contents")
    (check,) = [one for one in findings(silent).checks if one.question == "loads described"]
    assert (check.place.unit, check.measure, check.source) == ("box", "force", "as described")
    assert check.verdict is Verdict.NOT_CHECKED


# Slipping


def lone(**more):
    shelf = {"material": "board", "thickness": "20 mm", "loose": True}
    shelf |= {"bearing": "6 mm", "play": "1 mm"}
    return {"name": "board", "depth": "300 mm", "shelf": shelf, **more}


def test_ends_slip_before_the_middle_and_overhangs_do_not_count():
    # end bearings of 6 mm, the middle one of 20: room 5 mm; between middles 900 + 3 + 10
    found = findings(shelf=[lone(spans=["600 mm", "900 mm"], contents=[{"load": "60 kg"}] * 2)])
    (check,) = [one for one in found.checks if one.question.startswith("slips off")]
    assert check.limit == pytest.approx(sqrt(5 * 913 * 875 / 2176), rel=1e-9)
    assert words(check.governs) == "bearing 6 mm, play 1 mm"
    assert check.source == "own derivation: shortening of a sagging beam"
    out = lone(spans=["900 mm"], overhang_left="150 mm", contents=["empty"])
    (check,) = [one for one in findings(shelf=[out]).checks if one.question.startswith("slips off")]
    assert check.limit > sqrt(5 * 890 * 875 / 2176)


# What a check says


def simple(question, value, reason=""):
    return Check(
        place=Place(unit="box"), question=question, method="m", source="s", measure="force",
        value=value, limit=None if value is None else 10.0, reason=reason,
    )  # fmt: skip


def test_gravest_of_each_question_is_kept_in_the_order_of_asking():
    first, second = simple("b", 5.0), simple("b", 5.0)
    checks = [first, simple("a", 11.0), second, simple("a", 12.0), simple("a", None, "no figure")]
    kept = worst_of_each_question(checks)
    assert [(one.question, one.value) for one in kept] == [("b", 5.0), ("a", 12.0)]
    assert kept[0] is first
    unknown = worst_of_each_question([simple("c", None, "no"), simple("c", 9.5), simple("c", 9.0)])
    assert unknown[0].reason == "no"


def test_close_from_nine_tenths_to_the_limit_itself():
    assert simple("a", 9.0).verdict is Verdict.CLOSE
    assert simple("a", 8.999).verdict is Verdict.PASSES
    assert simple("a", 10.0).verdict is Verdict.CLOSE
    assert simple("a", 10.001).verdict is Verdict.FAILS
