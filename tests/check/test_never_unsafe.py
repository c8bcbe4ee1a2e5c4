"""More load, less material, a worse place: never a better answer. Relations, not figures."""

from __future__ import annotations

from copy import deepcopy

import pytest
from described import asked, findings, project, the, unit
from hypothesis import given, settings
from hypothesis import strategies as st

from shelfload.check.assess import assess
from shelfload.check.result import Verdict
from shelfload.describe.reader import read_raw

BOARD = {"material": "board", "thickness": "20 mm"}
HANGS = {
    "maker": "anchor",
    "heights": ["300 mm", "50 mm"],
    "through": BOARD,
    "carcass": "anchor",
    "count": 4,
}
BRICK = {"wall": "solid brick"}
CARRYING = ("sag", "bending", "shear", "rolling shear", "bearing", "fixings of the back")
DOUBTFUL = (Verdict.FAILS, Verdict.NOT_CHECKED)


def worst_of(found):
    """The largest ratio of each question of each place, "not checked" as infinite."""
    ratios = {}
    for check in found.checks:
        key = str(check.place), check.question
        ratio = float("inf") if check.verdict is Verdict.NOT_CHECKED else check.ratio
        ratios[key] = max(ratios.get(key, 0.0), ratio)
    return ratios


def assert_no_better(before, after):
    new = worst_of(after)
    for key, ratio in worst_of(before).items():
        assert new.get(key, float("inf")) >= ratio * (1 - 1e-6), key


@settings(max_examples=6, deadline=None)
@given(load=st.integers(5, 60), depth=st.integers(250, 400), bays=st.sampled_from([1, 2]))
def test_more_on_a_shelf_is_never_better(load, depth, bays):
    widths = [(960 - 20 * (bays - 1)) / bays] * bays

    def loaded(lower):
        box = unit(heights=(300, 300), bays=widths, depth=depth, loads=(lower, load))
        return findings(box, site={"floor": {"covering": "hard"}})

    light, heavy = loaded(load), loaded(2 * load)
    carried = [
        (str(check.place), check.question)
        for check in light.checks
        if check.question.startswith(CARRYING)
    ]
    before, after = worst_of(light), worst_of(heavy)
    assert carried
    assert all(after[key] >= before[key] * (1 - 1e-6) for key in carried)


@pytest.mark.parametrize("base", ["flat", "plinth"])
def test_nothing_is_under_a_unit_that_hangs(base):
    hung = {"hangs": HANGS, "underside": "1500 mm", "loads": (100,), "bays": (470, 470)}
    bare = findings(unit(**hung), site=BRICK)
    based = findings(unit(**hung, base=base), site=BRICK)
    assert the(bare, "bottom panel", "sag").verdict is Verdict.FAILS
    assert_no_better(bare, based)


def test_goods_on_the_front_edge_pull_harder_and_tip_sooner():
    def with_goods(where, **more):
        box = unit(heights=(300, 300, 300), depth=250, **more)
        for level in box["level"]:
            level["contents"] = {"load": "8 kg", "where": where}
        return box

    hung = [
        findings(with_goods(where, hangs=HANGS, underside="1500 mm"), site=BRICK)
        for where in ("all over", "front edge")
    ]
    even, front = (the(found, "wall", "holds: fixing").ratio for found in hung)
    assert front > even
    standing = [findings(with_goods(where)) for where in ("all over", "front edge")]
    even, front = (the(found, "standing", "tips over when pulled").ratio for found in standing)
    assert front > even


@pytest.mark.parametrize(
    "fill",
    [
        {"load": "20 kg", "where": "front edge"},
        {"points": [{"load": "20 kg", "at": "400 mm", "from_front": "0 mm"}]},
    ],
)
def test_goods_on_the_front_edge_pull_harder_at_brackets(fill):
    def on(contents):
        shelf = {
            "name": "shelf",
            "depth": "300 mm",
            "shelf": {**BOARD, "bearing": "30 mm"},
            "spans": ["800 mm"],
            "contents": contents,
            "supports": {
                "kind": "brackets",
                "height": "200 mm",
                "maker": "anchor",
                "carcass": "anchor",
            },
        }
        return the(findings(shelf=[shelf], site=BRICK), "wall", "holds: fixing").ratio

    assert on(fill) > on({"load": "20 kg"}) * 1.1


def test_units_side_by_side_share_one_allowance_of_the_floor():
    site = {"floor": {"kind": "timber"}}
    question = "whole weight as one load on the floor"
    alone = findings(unit(loads=(180,)), site=site)
    assert the(alone, "floor", question).verdict in (Verdict.PASSES, Verdict.CLOSE)
    row = [unit(name=f"box {n}", loads=(180,), left=f"{n} m") for n in range(3)]
    together = findings(*row, site=site)
    assert not asked(together, "floor", question)
    assert {check.verdict for check in asked(together, "floor")} == {Verdict.NOT_CHECKED}


def test_below_a_shelf_that_cannot_be_worked_out_nothing_is_answered():
    lower = unit(heights=(300, 300), loads=(10, 10))
    upper = unit(name="upper", heights=(300,), loads=(10,), on=["box"])
    upper["top"] = {"grain": "across", "material": "unknown-across", "thickness": "20 mm"}
    raw = project(lower, upper)
    known = raw["materials"]["board"]
    raw["materials"]["unknown-across"] = {k: v for k, v in known.items() if k != "E_across"}
    description = read_raw(raw)
    found = assess(description.project, description.catalogue)
    for name, parts in (("upper", 2), ("box", 3)):
        shelves = [
            check
            for check in found.checks
            if check.place.unit == name and check.place.part.endswith(("panel", "shelf 1"))
        ]
        assert len(shelves) == parts
        assert all(check.verdict is Verdict.NOT_CHECKED for check in shelves)


def test_a_curved_shelf_of_unknown_strength_across_is_not_checked():
    shelf = {
        "name": "shelf",
        "depth": "250 mm",
        "plan": {"inner_radius": "400 mm", "angle": "1 rad"},
        "shelf": {**BOARD, "bearing": "20 mm"},
        "contents": {"load": "5 kg"},
        "fixed_down": True,
    }
    found = findings(shelf=[shelf])
    assert the(found, "", "bending both ways", unit="shelf").verdict is Verdict.NOT_CHECKED


def test_loose_shelves_do_not_brace_the_sides():
    def buckling(**shelf):
        box = unit(heights=(400, 400, 400), loads=(30, 30, 30), shelf=shelf)
        return max(
            check.ratio for check in findings(box).checks if check.question == "uprights buckle"
        )

    assert buckling(loose=True) > buckling() * 1.2


def test_a_shelf_on_pins_is_asked_whether_it_slips_off():
    box = unit(loads=(5,))
    box["shelf"] = {"pins": {"from_front": "40 mm", "from_rear": "40 mm"}}
    assert asked(findings(box), "top panel", "slips off")


def test_what_hangs_between_brings_its_own_end_to_each_neighbour():
    def between(goods):
        towers = [unit(name=name, heights=(700,)) for name in ("left", "right")]
        towers[0]["left"], towers[1]["left"] = "0 mm", "2000 mm"
        hung = unit(name="hung", heights=(300,), bays=(470, 470))
        hung["between"] = {"left": "left", "right": "right", "screw": "bolt-m8"}
        hung["level"][0]["contents"] = goods
        found = findings(*towers, hung)
        return the(found, "neighbours", "holds", unit="hung", bay="left side").value

    load = {"load": "40 kg"}
    assert between([load, "empty"]) > between([{"load": "20 kg"}, {"load": "20 kg"}]) * 1.1


def _front_loaded(**more):
    return unit(
        heights=(250, 250),
        bays=(900, 900),
        depth=400,
        shelf={"runs": "through", **more},
    )


def test_a_load_on_an_edge_does_not_hide_a_support_that_sinks():
    verdicts = []
    for where in ("all over", "front edge"):
        box = _front_loaded()
        for level in box["level"]:
            level["contents"] = {"load": "10 kg/m", "where": where}
        verdicts.append(the(findings(box), "shelf 1", "sag"))
    even, front = verdicts
    assert even.verdict is Verdict.FAILS
    assert front.verdict is Verdict.FAILS


@pytest.mark.parametrize("fixed", ["nailed", "screwed"])
@pytest.mark.parametrize("where", ["all over", "front edge"])
def test_the_safe_load_put_back_passes(fixed, where):
    """Also where backs as webs help: their fasteners are counted on up to a force alone."""
    box = unit(heights=(400,), bays=(350, 350), depth=400)
    ply = {"material": "birch-plywood"}
    box["panel"] = {**ply, "thickness": "18 mm"}
    box["back"] = {**ply, "thickness": "6.5 mm", "fixed": fixed, "spacing": "150 mm"}
    box["level"][0]["contents"] = {"load": "10 kg/m", "where": where}
    safe = [
        load.even_per_length
        for load in findings(box).safe_loads
        if load.place.part == "bottom panel"
    ]
    assert min(safe) > 0.0
    again = deepcopy(box)
    again["level"][0]["contents"] = {"load": f"{0.999 * min(safe) * 1000} N/m"}
    found = [
        check
        for check in asked(findings(again), "bottom panel")
        if check.question.startswith(CARRYING)
    ]
    assert found
    assert not [check for check in found if check.verdict in DOUBTFUL]


STUDS = {"wall": "timber stud", "stud_spacing": "400 mm"}
SCREWED = {"screw": "coach-screw-8", "length": "100 mm", "carcass": "anchor"}


def _on_the_wall(**supports):
    shelf = {
        "name": "shelf",
        "depth": "250 mm",
        "shelf": {**BOARD, "bearing": "25 mm"},
        "spans": ["700 mm"],
        "contents": {"load": "10 kg"},
        "supports": supports,
    }
    return findings(shelf=[shelf], site=STUDS)


def test_more_fixings_than_studs_can_share_do_not_help():
    few, many = (
        the(
            _on_the_wall(kind="cleat", height="60 mm", count=count, **SCREWED),
            "wall",
            "holds: pull-out",
        ).ratio
        for count in (2, 50)
    )
    assert many == few


@pytest.mark.parametrize(
    "supports",
    [
        {"kind": "cleat", "height": "60 mm", **SCREWED},
        {"kind": "rods", "number": 4, "diameter": "12 mm", "in_wall": "80 mm"},
        {"kind": "brackets", "height": "200 mm", **SCREWED},
    ],
)
def test_supports_without_a_stud_behind_each_never_pass(supports):
    assert the(_on_the_wall(**supports), "wall", "studs behind it").verdict in DOUBTFUL


def test_loose_shelves_hold_no_corner_square():
    def square(**shelf):
        box = unit(heights=(400, 400), loads=(20, 20), corners="glued", shelf=shelf)
        box["top"] = {"loose": shelf.get("loose", False)}
        found = findings(box).checks
        return max(check.ratio for check in found if check.question == "stays square")

    assert square(loose=True) > square() * 2.0
