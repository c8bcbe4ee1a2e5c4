"""Hung units: forces on fixings from free bodies by hand, and what may never pass."""

from __future__ import annotations

import numpy as np
import pytest
from described import PER_AREA, G, asked, findings, project, the, unit
from hypothesis import given, settings
from hypothesis import strategies as st
from printed import printed

from shelfload import tables
from shelfload.check.assess import assess
from shelfload.check.hanging import hand
from shelfload.check.rail_row import row_of
from shelfload.check.result import Verdict
from shelfload.describe.reader import read_raw
from shelfload.describe.site import Site
from shelfload.describe.standing import Hung

BRICK = {"wall": "solid brick"}
HANGS = {"maker": "anchor", "carcass": "anchor", "count": 2, "heights": ["350 mm"]}


def hung(site=BRICK, load=24, hangs=HANGS, **more):
    return findings(unit(loads=[load], underside="1400 mm", hangs=hangs, **more), site=site)


def test_pull_and_shear_of_two_fixings_from_the_free_body():
    # G: two boards 960 x 300 and two 400 x 300, 20 mm of 500 kg/m3 = 8.16 kg -> 80.02 N at 150
    # Q: 24 kg -> 235.36 N at 150; P: a hand, 150 N at 300; fixings at 350, edge at 0
    # loads as they are: T = (80.02 x 150 + 235.36 x 150 + 150 x 300) / 350 / 2 = 131.87 N
    #                    V = (80.02 + 235.36 + 150) / 2 = 232.69 N
    # maker: 300 N pull, 600 N shear -> 131.87 / 300 + 232.69 / 600 = 0.4396 + 0.3878
    check = the(hung(), "wall", "holds: fixing in the wall")
    assert check.value == printed("0.8274")
    assert check.limit == 1.0
    assert check.verdict is Verdict.PASSES
    assert the(hung(), "wall", "holds: the unit's side").value == printed("0.8274")


def test_design_values_are_held_against_factored_loads():
    # T = (1.35 x 80.02 x 150 + 1.5 x 235.36 x 150 + 1.5 x 150 x 300) / 350 / 2 = 195.22 N
    # V = (1.35 x 80.02 + 1.5 x 235.36 + 1.5 x 150) / 2 = 343.03 N
    # 195.22 / 300 + 343.03 / 600 = 0.6507 + 0.5717
    design = {"tension": "300 N", "shear": "600 N", "values": "design", "source": "test"}
    found = findings(
        unit(loads=[24], hangs={**HANGS, "maker": "strict"}), site=BRICK, fixings={"strict": design}
    )
    check = the(found, "wall", "holds: fixing in the wall")
    assert check.value == printed("1.2225")
    assert check.verdict is Verdict.FAILS


def test_people_below_mean_a_stronger_pull_and_a_check_with_one_fixing_lost():
    found = hung(site={**BRICK, "people_below": True})
    # P = 300 N: T = (315.38 x 150 + 300 x 300) / 700 = 196.15; V = 615.38 / 2 = 307.69
    assert the(found, "wall", "holds: fixing").value == printed("1.1667")
    # one of two lost, without the hand: 315.38 x 150 / 350 on the other
    lost = the(found, "wall", "pull if one fixing gives out")
    assert lost.value == pytest.approx(315.3819 * 150 / 350, rel=1e-5)


def test_rail_behind_the_unit_moves_its_weight_out():
    near = the(hung(), "wall", "holds: fixing in the wall").value
    rail = {"material": "board", "thickness": "20 mm"}
    off = hung(hangs={**HANGS, "behind": True, "through": rail})
    # 20 mm further: (315.38 x 170 + 150 x 320) / 350 / 2 / 300 + 0.3878
    # = 0.4839 + 0.3878
    assert the(off, "wall", "holds: fixing in the wall").value == printed("0.8717")
    assert near < 0.8717


def test_fixing_forces_together_are_the_load():
    # two rows of two: sum of T z over all four is the moment, sum of V the weight
    two_rows = {**HANGS, "heights": ["150 mm", "350 mm"]}
    tension_only = {"tension": "1 N", "shear": "10000000 N", "source": "test"}
    shear_only = {"tension": "10000000 N", "shear": "1 N", "source": "test"}
    ratios = [
        the(
            findings(
                unit(loads=[24], hangs={**two_rows, "maker": "odd"}),
                site=BRICK,
                fixings={"odd": odd},
            ),
            "wall",
            "holds: fixing in the wall",
        ).value
        for odd in (tension_only, shear_only)
    ]
    T_top, V = ratios
    weight = PER_AREA * 300 * (2 * 960 + 2 * 400) + 24 * G
    assert 2 * (T_top * 350 + T_top * 150 / 350 * 150) == pytest.approx(
        weight * 150 + 150 * 300, rel=1e-5
    )
    assert 4 * V == pytest.approx(weight + 150, rel=1e-5)


@pytest.mark.parametrize("wall", ["unknown", None, "lath and plaster", "metal stud"])
def test_unknown_wall_never_passes_and_says_what_to_find_out(wall):
    site = {} if wall is None else {"wall": wall}
    if wall == "metal stud":
        site["stud_spacing"] = "400 mm"
    found = hung(site=site, hangs={"count": 2, "carcass": "anchor"})
    check = the(found, "wall", "holds: fixing in the wall")
    assert check.verdict is Verdict.NOT_CHECKED
    assert "pull" in check.reason
    assert "shear" in check.reason
    for word in ("magnet", "cables", "maker", "pull-tested"):
        assert word in check.remedy
    assert found.verdict is not Verdict.PASSES


def test_typical_values_are_provisional_and_never_pass():
    strong = hung(
        load=0.1, hangs={"count": 8, "carcass": "anchor", "hangers": 8, "heights": ["380 mm"]}
    )
    check = the(strong, "wall", "holds: fixing in the wall")
    assert check.ratio < 1.0
    assert check.verdict is Verdict.NOT_CHECKED
    assert check.reason.startswith("provisional")
    heavy = hung(load=200, hangs={"count": 2, "carcass": "anchor"})
    assert the(heavy, "wall", "holds: fixing in the wall").verdict is Verdict.FAILS


@pytest.mark.parametrize("wall", ["plasterboard", "no fixing allowed"])
def test_board_alone_and_forbidden_walls_are_refused_whatever_the_anchor(wall):
    found = hung(site={"wall": wall}, load=0.5)
    (check,) = [
        one
        for one in asked(found, "wall", "holds: the ")
        if one.place.part == "wall" and one.limit == 0
    ]
    assert check.verdict is Verdict.FAILS
    assert check.remedy


def test_carcass_side_left_out_is_not_checked_but_named():
    found = hung(hangs={"maker": "anchor", "count": 2})
    check = the(found, "wall", "holds: the unit's side")
    assert check.verdict is Verdict.NOT_CHECKED
    assert "weakest of the links that are known" in the(found, "wall", "holds: fixing").governs


def test_weakest_link_is_named_once():
    strong = {"tension": "900 N", "shear": "900 N", "source": "test"}
    found = findings(
        unit(loads=[24], hangs={**HANGS, "carcass": "strong"}),
        site=BRICK,
        fixings={"strong": strong},
    )
    named = [check for check in found.checks if check.governs.endswith("weakest link")]
    assert [check.question for check in named] == ["holds: fixing in the wall"]


def stud_row(width, spacing, **keys):
    site = Site.model_construct(wall="timber stud", stud_spacing=spacing)
    return row_of(width, Hung.model_construct(hangers=2, count=None, first_stud=None, **keys), site)


@pytest.mark.parametrize(
    ("width", "spacing", "met"),
    [
        (1000.0, 400.0, 2),
        (1000.0, 450.0, 2),
        (1300.0, 600.0, 2),
        (900.0, 406.4, 2),
        (1660.0, 400.0, 4),
    ],
)
def test_studs_met_at_the_worst_place(width, spacing, met):
    # usable length is the width less 25 mm at each end; floor(usable / spacing)
    row = stud_row(width, spacing)
    assert row.places == met == int((width - 50) // spacing)


def test_one_stud_is_not_enough():
    found = findings(
        unit(bays=(560,), loads=[5], hangs={"carcass": "anchor"}),
        site={"wall": "timber stud", "stud_spacing": "600 mm"},
    )
    check = the(found, "wall", "studs met")
    assert check.verdict is Verdict.FAILS
    assert check.value < 2


@settings(max_examples=30, deadline=None)
@given(count=st.integers(2, 12), width=st.floats(400, 3000))
def test_more_fixings_never_load_one_more(count, width):
    site = Site.model_construct(wall="concrete")
    rows = [
        row_of(width, Hung.model_construct(hangers=2, count=n, first_stud=None), site)
        for n in (count, count + 1)
    ]
    assert rows[1].share <= rows[0].share * (1 + 1e-9)


@settings(max_examples=20, deadline=None)
@given(low=st.integers(60, 300), load=st.integers(1, 60))
def test_another_row_of_fixings_never_lowers_the_margin(low, load):
    one = the(hung(load=load), "wall", "holds: fixing").value
    two = hung(load=load, hangs={**HANGS, "heights": [f"{low} mm", "350 mm"]})
    assert the(two, "wall", "holds: fixing").value <= one * (1 + 1e-9)


def test_child_counts_where_children_are():
    assert hand(Site.model_construct(people_below=False, children=False)) == 150.0
    # 27.2 kg, ASTM F2057-23 test mass of 60 lb, read in stored pages; as tabled 266.7 N
    assert hand(Site.model_construct(people_below=False, children=True)) == printed("266.7")


def test_unit_between_neighbours_shears_its_fasteners():
    towers = [unit("l", bays=(300,), heights=(900,)), unit("r", bays=(300,), heights=(900,))]
    middle = unit(
        "mid", loads=[24], underside="300 mm",
        between={"left": "l", "right": "r", "maker": "anchor", "count": 4},
    )  # fmt: skip
    found = findings(*towers, middle)
    # (80.02 + 235.36) / 2 + 150 of hand = 307.69 on one side; / 4 x 1.25 uneven
    check = the(found, "neighbours", "holds", bay="left side")
    assert check.value == printed("96.15")
    # with one of four lost and no hand: (80.02 + 235.36) / 2 / 3 x 1.25
    lost = the(found, "neighbours", "if one fastener gives out", bay="left side")
    assert lost.value == printed("65.70")
    assert lost.limit == pytest.approx(600.0)
    alone = findings(*towers, {**middle, "between": {**middle["between"], "count": 1}})
    one = the(alone, "neighbours", "if one fastener gives out", bay="left side")
    assert one.verdict is Verdict.FAILS
    bolted = findings(
        *towers, {**middle, "between": {"left": "l", "right": "r", "screw": "connector-bolt-m6"}}
    )
    assert the(bolted, "neighbours", "holds", bay="left side").verdict is Verdict.PASSES
    screwed = findings(
        *towers, {**middle, "between": {"left": "l", "right": "r", "screw": "chipboard-screw-4"}}
    )
    assert the(screwed, "neighbours", "holds", bay="left side").verdict is Verdict.NOT_CHECKED


def sides_bolted(bolt, side, **material):
    """Two towers and a middle unit whose sides are made of something, bolted to each other."""
    boards = {"panel": {"material": side, "thickness": "18 mm"}}
    towers = [unit(n, bays=(300,), heights=(900,), **boards) for n in ("l", "r")]
    middle = unit(
        "mid", loads=[24], underside="300 mm",
        between={"left": "l", "right": "r", "screw": bolt}, **boards,
    )  # fmt: skip
    raw = project(*towers, middle)
    if material:
        raw["materials"][side] = {"source": "made up for tests", **material}
    description = read_raw(raw)
    found = assess(description.project, description.catalogue)
    return the(found, "neighbours", "holds", bay="left side")


@pytest.mark.parametrize(
    ("kind", "f_h_over", "kmod"),
    [
        # EN 1995-1-1, (8.36), (8.37) and (8.32); kmod of Table 3.1, class 1, short-term: a hand
        ("plywood", lambda d: 0.11 * (1 - 0.01 * d) * 425.0, 0.9),
        ("particleboard", lambda d: 50.0 * d**-0.6 * 18.0**0.2, 0.85),
        ("solid", lambda d: 0.082 * (1 - 0.01 * d) * 425.0, 0.9),
    ],
)
def test_bolt_through_two_sides_by_hand(kind, f_h_over, kmod):
    # EN 1995-1-1 (8.6) with two alike members (beta 1) and no rope effect:
    #   a, b: f t d    c: (sqrt(2) - 1) f t d    d, e: 1.05 f t d / 3 (sqrt(4 + 12 M/(f d t2)) - 1)
    #   f: 1.15 sqrt(2 M f d); M = 0.3 f_u d^2.6; a bolt of no said class is 4.6: 400 MPa
    bolt = tables.fasteners()["bolt-m6"]
    made = {
        "kind": kind, "density": "500 kg/m3", "E": "3000 MPa", "E_across": "3000 MPa",
        "G": "300 MPa", "bending_strength": "15 MPa", "shear_strength": "2 MPa",
    }  # fmt: skip
    check = sides_bolted("bolt-m6", "made", **made)
    d, t = bolt.root_diameter or bolt.diameter, 18.0
    f, M = f_h_over(d), 0.3 * (bolt.f_u or 400.0) * d**2.6
    c = (2**0.5 - 1) * f * t * d
    e = 1.05 * f * t * d / 3 * ((4 + 12 * M / (f * d * t**2)) ** 0.5 - 1)
    least = min(c, e, 1.15 * (2 * M * f * d) ** 0.5)
    assert check.limit == pytest.approx(least * kmod / 1.3, rel=1e-6)


def test_bolts_through_sides_of_mdf_have_no_value():
    check = sides_bolted("bolt-m6", "mdf")
    assert check.verdict is Verdict.NOT_CHECKED
    assert "no bearing strength under bolts" in check.reason
    assert "must hold" in check.reason


def test_nothing_that_holds_between_neighbours_is_not_checked():
    towers = [unit("l", bays=(300,), heights=(900,)), unit("r", bays=(300,), heights=(900,))]
    middle = unit("mid", loads=[24], underside="300 mm", between={"left": "l", "right": "r"})
    check = the(findings(*towers, middle), "neighbours", "holds", bay="right side")
    assert check.verdict is Verdict.NOT_CHECKED
    assert "no fastener is described" in check.reason
    pulled = {"tension": "300 N", "source": "made up for tests"}
    maker = {**middle, "between": {"left": "l", "right": "r", "maker": "hook"}}
    hooked = the(
        findings(*towers, maker, fixings={"hook": pulled}), "neighbours", "holds", bay="left side"
    )
    assert hooked.verdict is Verdict.NOT_CHECKED
    assert hooked.reason == "no shear is declared"


def test_rail_over_two_studs_by_hand():
    # studs at 400 and 1000 behind a rail of 1400; the unit pulls at both of its ends: each half
    # overhangs by 400. The rail is inside, so that the middle of the unit is 150 out
    rail = {"material": "board", "thickness": "20 mm"}
    hangs = {
        "carcass": "anchor", "screw": "coach-screw-8", "length": "120 mm", "through": rail,
        "heights": ["350 mm"], "first_stud": "400 mm", "rail_height": "90 mm",
    }  # fmt: skip
    found = findings(
        unit(bays=(1360,), loads=[10], hangs=hangs),
        site={"wall": "timber stud", "stud_spacing": "600 mm"},
    )
    dead = PER_AREA * 300 * (2 * 1360 + 2 * 400)
    pull = (1.35 * dead + 1.5 * 10 * G) * 150 / 350
    check = the(found, "wall", "rail between the fixings")
    assert check.value == pytest.approx(pull / 2 * 400 * 6 / (90 * 20**2), rel=1e-6)
    assert check.limit == pytest.approx(30 * 0.7 / 1.2)  # plywood, long-term, class 1


def test_one_fixing_alone_is_not_enough_over_people():
    found = hung(site={**BRICK, "people_below": True}, hangs={**HANGS, "count": 1})
    lost = the(found, "wall", "pull if one fixing gives out")
    assert lost.verdict is Verdict.FAILS
    assert lost.governs == "one fixing alone"


def test_what_hangs_is_kept_plumb_by_what_it_hangs_on():
    towers = [unit(name, bays=(300,), heights=(900,)) for name in ("l", "r")]
    between = {"left": "l", "right": "r", "maker": "anchor", "count": 4}
    middle = unit("box", loads=[24], underside="300 mm", between=between)
    for found in (hung(), findings(*towers, middle)):
        check = the(found, "", "stays square", unit="box")
        assert check.value == 0.0
        # height / 200 between the middles of its panels (common practice, no source)
        assert check.limit == pytest.approx(380 / 200)


def test_row_above_the_unit_is_a_mistake():
    from shelfload.errors import QuantityError

    description = read_raw(project(unit(hangs={**HANGS, "heights": ["900 mm"]}), site=BRICK))
    with pytest.raises(QuantityError, match="900 mm"):
        assess(description.project, description.catalogue)


def test_share_of_studs_sums_to_the_load():
    row = stud_row(1000.0, 400.0)
    assert 0.5 <= row.share <= 1.0
    assert np.isfinite(row.moment)


def test_what_stands_on_a_hung_unit_hangs_with_it():
    lower = unit("lower", loads=[24], underside="1000 mm", hangs=HANGS)
    upper = unit("upper", heights=(160,), loads=[10], on="lower")
    found = findings(lower, upper, site=BRICK)
    # upper: (2 x 960 + 2 x 200) x 300 x 20 mm of 500 kg/m3 = 6.96 kg, and 10 kg: 166.32 N
    more = (6.96 + 10) * G
    T = ((80.0223 + 235.3596 + more) * 150 + 150 * 300) / 350 / 2
    V = (80.0223 + 235.3596 + more + 150) / 2
    check = the(found, "wall", "holds: fixing in the wall", unit="lower")
    assert check.value == pytest.approx(T / 300 + V / 600, rel=1e-5)


def test_open_doors_pull_in_front_of_the_unit():
    doors = {"mass": "5 kg", "out": "400 mm"}
    check = the(hung(doors=doors), "wall", "holds: fixing in the wall")
    more = 5 * G
    T = ((80.0223 + 235.3596) * 150 + more * 500 + 150 * 300) / 350 / 2
    V = (80.0223 + 235.3596 + more + 150) / 2
    assert check.value == pytest.approx(T / 300 + V / 600, rel=1e-5)


def test_load_at_one_end_goes_to_the_fixings_there():
    even = unit(bays=(470, 470), hangs=HANGS)
    even["level"][0]["contents"] = {"load": "12 kg"}
    left = unit(bays=(470, 470), hangs=HANGS)
    left["level"][0]["contents"] = [{"load": "24 kg"}, "empty"]
    a, b = (
        the(findings(one, site=BRICK), "wall", "holds: fixing in the wall").value
        for one in (even, left)
    )
    # the same weight; its middle lies at y = (W_own 500 + 235.36 x 255) / W of 1000 mm
    own = PER_AREA * 300 * (2 * 960 + 2 * 400 + 360)
    y = (own * 500 + 24 * G * (20 + 235)) / (own + 24 * G)
    assert b == pytest.approx(a * 2 * (1 - y / 1000), rel=1e-6)


def test_what_holds_if_a_line_of_fixings_is_lost():
    # overhead; the line at 350 gone, M = 315.38 x 150 = 47307 on the line at 150, two fixings:
    # 47307 / 150 / 2 = 157.7 each (the hand left out, loads as they are)
    two = hung(hangs={**HANGS, "heights": ["150 mm", "350 mm"]})
    lost = the(two, "wall", "pull if one line")
    assert lost.value == printed("157.7")
    assert lost.verdict is Verdict.PASSES
    assert not any("one line of fixings alone" in text for text in two.assumptions)
    one = hung()
    assert not asked(one, "wall", "pull if one line")
    assert any("one line of fixings alone" in text for text in one.assumptions)
