"""The joins of whole descriptions: what is proposed, what is checked, what is left open."""

from __future__ import annotations

import pytest
from joining import sizes_as_sold_left_out

from shelfload.check.assess import assess
from shelfload.check.joins import holding_together
from shelfload.check.result import Verdict
from shelfload.describe.reader import read_raw
from shelfload.idealise.whole import idealise
from shelfload.wording import spelled

G = 9.80665


def unit(material="birch-plywood", thickness="18 mm", levels=2, bays=("500 mm",), **more):
    return {
        "name": "store",
        "depth": "350 mm",
        "panel": {"material": material, "thickness": thickness},
        "level": [
            {"height": "400 mm", "bays": list(bays), "contents": {"load": "20 kg/m"}}
            for _ in range(levels)
        ],
        **more,
    }


def asked(*units, **site):
    description = read_raw({"site": site, "unit": list(units)})
    answers = list(holding_together(idealise(description.project, description.catalogue)))
    checks = [check for answer in answers for check in answer.checks]
    lines = [line for answer in answers for line in answer.joins]
    return checks, lines


def of(lines, word):
    return next(line for line in lines if word in line.join)


def test_nothing_said_gives_a_list_and_no_check():
    checks, lines = asked(unit())
    assert checks == []
    assert lines
    assert of(lines, "shelf end").by == "housing or cleat"


def test_glued_joins_are_marked_as_not_demountable_and_need_no_check():
    back = {"material": "birch-plywood", "thickness": "9 mm", "fixed": "glued"}
    glued = unit(joins={"shelves": "glue"}, back=back, shelf={"panels": 2, "joined": "glued"})
    checks, lines = asked(glued)
    assert checks == []
    assert all(line.demountable.startswith("no: glued") for line in lines)


def test_screws_into_the_edge_of_plywood_that_must_carry_are_not_checked():
    checks, lines = asked(unit(joins={"shelves": "4 x 50 mm"}))
    assert checks
    assert all(check.verdict is Verdict.NOT_CHECKED for check in checks)
    assert "edge" in checks[0].reason
    assert "cleat" in checks[0].remedy
    assert "not checked" in of(lines, "shelf end").note


def test_screws_into_the_edge_that_only_hold_a_housed_shelf_are_no_check():
    checks, lines = asked(unit(shelf={"bearing": "8 mm"}, joins={"shelves": "screws"}))
    assert checks == []
    line = of(lines, "shelf end")
    assert line.fastener
    assert "bearing carries" in line.note
    assert line.pilot
    assert line.clearance
    assert line.positions


def test_end_grain_of_solid_boards_carries_by_the_third_that_the_code_allows():
    solid = unit("c24", "45 mm", joins={"shelves": {"screw": "4 x 90 mm", "count": 4}})
    checks, _ = asked(solid)
    assert checks
    assert all(check.value is not None for check in checks)
    # contents 20 kg/m on 500 mm, own weight 45 x 350 mm of 420 kg/m3 on the span between the
    # middles of 6 mm bearings; one end, permanent 1.35 and imposed 1.5 (EN 1990)
    own = 420e-9 * 45 * 350 * G * 506 / 2
    imposed = 20e-3 * G * 500 / 2
    assert max(c.value for c in checks) == pytest.approx(1.35 * own + 1.5 * imposed, rel=1e-6)


def test_weak_described_screws_fail_with_their_figures():
    solid = unit(
        "c24", "45 mm", joins={"shelves": {"screw": "4 x 90 mm", "count": 3}},
    )  # fmt: skip
    solid["level"][1]["contents"] = {"load": "900 kg/m"}
    checks, _ = asked(solid)
    worst = max(checks, key=lambda check: check.ratio)
    assert worst.verdict is Verdict.FAILS
    assert worst.value > worst.limit


def test_boxes_side_by_side_get_screws_or_bolts_that_hold_a_knock():
    boxes = unit(bays=("500 mm", "500 mm"), dividers={"panels": 2, "joined": "screwed"})
    checks, lines = asked(boxes)
    assert checks == []
    line = of(lines, "side to side")
    assert line.count >= 2
    assert line.used <= 0.9
    assert line.joins == 4  # two rows in each of two levels


def test_thin_boxes_get_bolts_and_the_reason_why_no_screw():
    boxes = unit(
        thickness="12 mm", bays=("500 mm", "500 mm"),
        dividers={"panels": 2, "joined": "screwed"},
    )  # fmt: skip
    _, lines = asked(boxes)
    line = of(lines, "side to side")
    assert "bolt" in line.name
    assert line.demountable == "yes"
    assert "4 diameters" in line.note


def test_redriven_screws_hold_less():
    new, worn = (
        of(asked(unit(
            bays=("500 mm", "500 mm"), dividers={"panels": 2, "joined": "screwed"},
            joins={"sides": {"screw": "3 x 30 mm", "count": 6, "redriven": redriven}},
        ))[1], "side to side")
        for redriven in (False, True)
    )  # fmt: skip
    assert worn.used == pytest.approx(new.used / 0.75, rel=1e-9)
    assert "worn" in worn.demountable


def test_double_on_screws_carries_the_shear_flow_and_loose_ones_are_only_drawn_together():
    shelf = {"panels": 2, "joined": "screwed", "bearing": "8 mm"}
    checks, lines = asked(unit(thickness="24 mm", shelf=shelf))
    assert checks == []
    assert of(lines, "doubled shelf").fastener
    screwed = {**shelf, "screws": {"screw": "3.5 x 40 mm", "spacing": "100 mm"}}
    checks, _ = asked(unit(thickness="24 mm", shelf=screwed))
    assert any("screws of the double: sideways" == check.question for check in checks)
    assert all(check.value is not None for check in checks)


def test_glued_double_with_screws_as_back_up_hangs_on_the_screws_alone():
    shelf = {
        "panels": 2, "joined": "glued", "bearing": "8 mm", "material": "c24",
        "thickness": "22 mm", "screws": "4 x 38 mm",
    }  # fmt: skip
    checks, lines = asked(unit(shelf=shelf))
    apart = [check for check in checks if "thread pulled out" in check.question]
    assert apart
    assert of(lines, "doubled shelf").demountable.startswith("no: glued")


def test_unit_that_comes_apart_in_boxes_is_screwed_box_on_box_with_figures():
    shelf = {"panels": 2, "joined": "screwed", "bearing": "8 mm"}
    checks, lines = asked(
        unit(shelf=shelf, comes_apart="boxes", joins={"stack": {"redriven": True}})
    )
    line = of(lines, "bottom of the upper box")
    assert line.positions
    assert {check.verdict for check in checks} <= {Verdict.PASSES, Verdict.CLOSE}
    assert not any("doubled shelf" in one.join for one in lines if one.place.part == "shelf 1")


def test_bridge_gets_screws_down_into_each_tower_and_a_hung_unit_bolts():
    towers = [
        {**unit(), "name": "left", "left": "0 mm"},
        {**unit(), "name": "right", "left": "1600 mm"},
    ]
    bridge = {
        **unit(levels=1, bays=("1000 mm", "1000 mm")), "name": "bridge", "on": ["left", "right"],
        "left": "0 mm",
    }  # fmt: skip
    _, lines = asked(*towers, bridge)
    assert {line.join for line in lines if "down into the top of" in line.join}
    hung = {
        **unit(levels=1, bays=("1000 mm",)), "name": "hung",
        "between": {"left": "left", "right": "right"},
    }  # fmt: skip
    checks, lines = asked(*towers, hung)
    bolts = [line for line in lines if "side of the neighbour" in line.join]
    assert bolts
    assert all("bolt" in line.name for line in bolts)
    assert checks == []


def test_screwed_back_is_described_with_its_force_only_when_its_screws_are_said():
    back = {
        "material": "birch-plywood", "thickness": "9 mm", "fixed": "screwed", "spacing": "100 mm",
    }  # fmt: skip
    checks, lines = asked(unit(back=back))
    assert checks == []
    assert "no design value" in of(lines, "back to").note
    checks, _ = asked(unit(back={**back, "screws": "3.5 x 35 mm"}))
    assert [check.verdict for check in checks] == [Verdict.NOT_CHECKED]
    oak = unit("c24", "45 mm", back={**back, "screws": "3.5 x 35 mm"})
    checks, _ = asked(oak)
    assert checks
    assert all(check.verdict is Verdict.PASSES for check in checks)


def test_cleats_carry_through_the_face_of_the_side():
    checks, lines = asked(unit(joins={"shelves": "cleat"}, thickness="30 mm"))
    assert of(lines, "cleat").positions
    assert checks
    assert all(check.value is not None for check in checks)


@pytest.mark.parametrize("way", ["inserts", "connectors"])
def test_what_only_a_maker_can_say_is_not_checked(way):
    checks, _ = asked(unit(joins={"shelves": way}))
    assert all(check.verdict is Verdict.NOT_CHECKED for check in checks)
    assert all(check.reason and check.remedy for check in checks)


def test_every_open_join_has_a_sentence_in_both_unit_systems():
    for material in ("mdf", "osb-3", "particleboard-p2", "birch-plywood", "c24"):
        described = unit(
            material, "18 mm", bays=("500 mm", "500 mm"),
            dividers={"panels": 2, "joined": "screwed"},
            joins={"shelves": "screws", "sides": "screws"},
        )  # fmt: skip
        checks, lines = asked(described)
        for check in checks:
            if check.verdict is Verdict.NOT_CHECKED:
                assert len(spelled(check.reason, "inch")) > 20
                reason = sizes_as_sold_left_out(spelled(check.reason, "inch"))
                assert "mm" not in reason.split(), reason
                assert check.remedy.endswith(".")
        assert lines


def test_more_load_never_leaves_a_described_join_less_used():
    def used(load):
        described = unit("c24", "45 mm", joins={"shelves": {"screw": "4 x 90 mm", "count": 4}})
        for level in described["level"]:
            level["contents"] = {"load": load}
        return max(check.ratio for check in asked(described)[0])

    assert used("10 kg/m") < used("20 kg/m") < used("40 kg/m")


def test_findings_carry_the_join_list():
    description = read_raw({"unit": [unit(joins={"sides": "bolts"})]})
    found = assess(description.project, description.catalogue)
    assert found.joins
    assert {line.place.unit for line in found.joins} == {"store"}
