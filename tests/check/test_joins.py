"""The joins of whole descriptions: what is proposed, what is checked, what is left open."""

from __future__ import annotations

from math import pi

import pytest
from joining import sizes_as_sold_left_out

from shelfload.check.assess import assess
from shelfload.check.joins import holding_together
from shelfload.check.pressing import pressing
from shelfload.check.result import Verdict
from shelfload.describe.parts import Shelf
from shelfload.describe.reader import read_raw
from shelfload.idealise.place import Place
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


def shown(line, *names):
    return tuple(getattr(line, name) for name in names)


def test_line_of_described_screws_has_every_figure_to_drill_from():
    boxes = unit(
        bays=("500 mm", "700 mm"), dividers={"panels": 2, "joined": "screwed"},
        joins={"sides": {"screw": "3 x 30 mm", "count": 6}},
    )  # fmt: skip
    (check,), lines = asked(boxes)
    line = of(lines, "side to side")
    assert (line.place.unit, line.place.part) == ("store", "level 1, level 2")
    assert shown(line, "by", "name", "length", "count", "joins", "along", "proposed") == (
        "screws", "chipboard-screw-3", 30.0, 6, 4, "up the side", False,
    )  # fmt: skip
    # 7 d of plywood = 21 mm (8.3.1.3(2)), on the marks 25; five gaps of (400 - 50) / 5
    assert line.positions == (25.0, 95.0, 165.0, 235.0, 305.0, 375.0)
    assert (line.spacing, line.edge) == (70.0, pytest.approx(21.0))
    # fasteners table: root 2 mm, 90 % of it in dense wood; head 6 mm wide, 1.9 deep and 1 below
    assert shown(line, "pilot", "clearance", "countersink", "countersink_depth") == (
        1.8, 3.5, 6.0, pytest.approx(2.9),
    )  # fmt: skip
    assert shown(line, "note", "cheaper", "demountable") == ("", "", "once or twice: threads wear")
    # a knock of 250 N on two rows; Wood Handbook, Table 8-4, for G 685/1120 = 0.612: 36.40,
    # shank 2.2, reach 30 + 1 - 17.6 of 7 d = 21 mm, a fifth, 0.9 for lasting loads
    holds = 6 * 36.40 * 2.2**2 * 13.4 / 21 * 0.2 * 0.9
    assert check.question == "fasteners of boxes side by side: sideways"
    assert check.value == pytest.approx(125.0)
    assert check.limit == pytest.approx(holds, rel=1e-9)
    assert line.used == pytest.approx(125.0 / holds, rel=1e-9)
    assert check.measure == "force"
    assert check.verdict is Verdict.FAILS
    assert "Table 8-4" in check.source
    assert check.governs == "6 x Chipboard-type screw 3 x 30 mm (Wood Handbook)"


@pytest.mark.parametrize(
    ("said", "spacing", "count"),
    # 150 mm where no spacing is said (common practice)
    [("100 mm", 100.0, 6), (None, 150.0, 4)],
)
def test_screws_of_a_double_carry_the_shear_flow_by_annex_b(said, spacing, count):
    screws = {"screw": "3.5 x 40 mm", **({"spacing": said} if said else {})}
    shelf = {"panels": 2, "joined": "screwed", "bearing": "8 mm", "screws": screws}
    checks, lines = asked(unit(thickness="24 mm", shelf=shelf))
    # two sheets of 23.2 x 350 mm, 9717 MPa, 680 kg/m3 (birch plywood of 24 mm); span 508 mm
    b, t, E, L = 350.0, 23.2, 9717.0, 508.0
    # Table 7.1: rho^1.5 d / 23 with 1.1 x 2.2 mm; two thirds for strength (2.2.2(2))
    K = 2 / 3 * 680**1.5 * 1.1 * 2.2 / 23
    # (B.5), (B.6), (B.1), (B.10)
    gamma = 1 / (1 + pi**2 * E * b * t * spacing / (K * L**2))
    a_2 = gamma * t / (gamma + 1)
    EI = E * (2 * b * t**3 / 12 + b * t * (gamma * (t - a_2) ** 2 + a_2**2))
    flow = gamma * E * b * t * (t - a_2) * spacing / EI
    # loads as they are: own weight over the span, contents over the opening, one end
    V = 2 * 680e-9 * b * t * G * L / 2 + 20e-3 * G * 500 / 2
    (check,) = checks
    assert check.question == "screws of the double: sideways"
    assert check.value == pytest.approx(flow * V * count, rel=1e-6)
    assert check.governs.startswith(f"{count} x Chipboard-type screw 3.5 x 40 mm")
    line = of(lines, "doubled shelf")
    assert shown(line, "count", "joins", "along", "proposed") == (count, 3, "along the span", False)
    assert line.place.part == "bottom panel to top panel"
    assert line.used == pytest.approx(check.ratio)


def test_shear_flow_of_a_double_is_factored_for_the_code():
    # two boards of C24: EN 1995-1-1 has a value there, against 1.35 own weight + 1.5 contents
    shelf = {
        "panels": 2, "joined": "screwed", "bearing": "8 mm", "material": "c24",
        "thickness": "45 mm", "screws": {"screw": "6 x 80 mm", "spacing": "100 mm"},
    }  # fmt: skip
    checks, _ = asked(unit(shelf=shelf))
    b, t, L, rho = 350.0, 45.0, 508.0, 420.0
    own, contents = 2 * rho * 1e-9 * b * t * G * L / 2, 20e-3 * G * 500 / 2
    K = 2 / 3 * rho**1.5 * 1.1 * 4 / 23
    gamma = 1 / (1 + pi**2 * 11000 * b * t * 100 / (K * L**2))
    a_2 = gamma * t / (gamma + 1)
    I_ef = 2 * b * t**3 / 12 + b * t * (gamma * (t - a_2) ** 2 + a_2**2)
    flow = gamma * b * t * (t - a_2) * 100 / I_ef
    sideways = next(check for check in checks if check.question.endswith("sideways"))
    assert sideways.value == pytest.approx(flow * 6 * (1.35 * own + 1.5 * contents), rel=1e-6)


def test_number_follows_from_the_spacing_that_is_said():
    # 350 mm deep, every 100 mm: four; every 350: two at least
    for spacing, count in (("100 mm", 4), ("116 mm", 4), ("117 mm", 3), ("350 mm", 2)):
        board = unit("c24", "45 mm", joins={"shelves": {"screw": "4 x 90 mm", "spacing": spacing}})
        _, lines = asked(board)
        line = of(lines, "shelf end")
        if count == 2:  # end grain needs three
            assert "three screws" in line.note
        else:
            assert line.count == count
            assert line.edge == pytest.approx(20.0)  # 5 d in timber, Table 8.2


def test_refused_screw_is_named_with_the_one_that_would_do():
    boxes = unit(
        bays=("500 mm", "500 mm"), dividers={"panels": 2, "joined": "screwed"},
        joins={"sides": {"screw": "4 x 60 mm", "count": 3}},
    )  # fmt: skip
    (check,), lines = asked(boxes)
    line = of(lines, "side to side")
    assert line.by == "screws, Chipboard-type screw 4 x 60 mm"
    assert shown(line, "proposed", "count", "joins", "demountable") == (False, 0, 4, "yes")
    _, chosen = asked({**boxes, "joins": {}})
    best = of(chosen, "side to side")
    assert check.reason.endswith(f"; {best.count} x {best.fastener} would do")
    assert line.note == f"not checked: {check.reason}"
    assert (check.value, check.limit, check.method) == (None, None, "none")
    assert check.question == "fasteners of boxes side by side: holds"
    # 12 mm: no screw at all, and a bolt is named
    (thin,), _ = asked({**boxes, "panel": {"material": "birch-plywood", "thickness": "12 mm"}})
    _, bolted = asked(
        {**boxes, "joins": {}, "panel": {"material": "birch-plywood", "thickness": "12 mm"}}
    )
    bolt = of(bolted, "side to side")
    assert "bolt" in bolt.name
    assert shown(bolt, "by", "proposed") == ("bolts", True)
    assert bolt.note.startswith("no screw: ")
    assert thin.reason.endswith(f"; {bolt.count} x {bolt.fastener} would do")


def test_screws_that_only_clamp_are_the_longest_usual_that_stay_inside():
    # into an edge 30 mm and 2 before: 17.6 + 30 - 1 = 46.6 mm at most: the most usual, 4 mm, of
    # 45; ten d = 40 mm from the ends; every 200 mm at most over 350: 3 (common practice)
    _, lines = asked(unit(shelf={"bearing": "8 mm"}, joins={"shelves": "screws"}))
    line = of(lines, "shelf end")
    assert shown(line, "name", "length", "count", "positions", "joins") == (
        "chipboard-screw-4", 45.0, 3, (40.0, 175.0, 310.0), 6,
    )  # fmt: skip
    assert shown(line, "used", "basis", "governs", "edge") == (None, "none", "clamps only", None)
    assert line.note.startswith("holds it in place; the bearing carries; no design value: ")
    assert shown(line, "pilot", "clearance", "along") == (2.2, 4.5, "along the depth")
    # a back: 9 + 30 - 1 = 38 mm: 35, every 100 as described, and no marks
    back = {
        "material": "birch-plywood", "thickness": "9 mm", "fixed": "screwed", "spacing": "100 mm",
    }  # fmt: skip
    _, lines = asked(unit(back=back))
    line = of(lines, "back to")
    assert shown(line, "name", "length", "count", "positions") == (
        "chipboard-screw-4", 35.0, 0, (),
    )  # fmt: skip
    assert line.note.startswith("no design value: ")
    assert 0 < line.spacing <= 100.0
    # 12 mm shelves: a quarter of 12 mm is 3: the 3 mm screw, 3 x 40 of 12 + 30 - 1
    _, lines = asked(
        unit(thickness="12 mm", shelf={"bearing": "8 mm"}, joins={"shelves": "screws"})
    )
    assert shown(of(lines, "shelf end"), "name", "length") == ("chipboard-screw-3", 40.0)


def test_joins_without_a_fastener_say_what_holds_them():
    _, lines = asked(unit())
    line = of(lines, "shelf end")
    assert shown(line, "by", "demountable", "proposed", "joins", "count") == (
        "housing or cleat", "yes, if not glued", True, 6, 0,
    )  # fmt: skip
    assert "nothing to drill" in line.note
    glued = of(asked(unit(joins={"shelves": "glue"}))[1], "shelf end")
    assert shown(glued, "by", "demountable", "proposed") == ("glue", "no: glued", False)


def press(service_class=1, **more):
    described = unit(thickness="18 mm", shelf={"material": "c24", "thickness": "30 mm"})
    made = read_raw({"site": {"service_class": service_class}, "unit": [described]})
    whole = idealise(made.project, made.catalogue)
    (one,) = whole.project.unit
    keys = {
        "place": Place(unit="store", part="top"),
        "question": "pressed",
        "method": "by hand",
        "force": 7000.0,
        "depth": 350.0,
        "width": 18.0,
        "words": "an upright",
        "remedy": "Widen it.",
    }
    return pressing(whole, one, more.pop("shelf", one.shelf), **{**keys, **more})


@pytest.mark.parametrize(("service_class", "kmod"), [(1, 0.7), (2, 0.7), (3, 0.55)])
def test_edge_pressed_on_a_board_by_hand(service_class, kmod):
    # 7000 N on 350 x 18 mm; f_c,90,k 2.5 of C24 (EN 338:2016), kmod long-term (Table 3.1), 1.3
    check = press(service_class)
    assert check.value == pytest.approx(7000 / (350 * 18), rel=1e-12)
    assert check.limit == pytest.approx(2.5 * kmod / 1.3, rel=1e-12)
    assert (check.measure, check.method, check.question) == ("stress", "by hand", "pressed")
    assert check.place == Place(unit="store", part="top")
    assert check.source.startswith("EN 1995-1-1:2004")
    assert "6.1.5 with k_c,90 = 1; loads EN 1990" in check.source
    assert check.governs == "an upright; Softwood, strength class C24 (characteristic)"
    assert check.remedy == "Widen it."


def test_edge_pressed_on_the_panel_of_the_unit_where_the_shelf_says_nothing():
    # plywood has no f_c,90 tabled: that of C16, 2.2 MPa (EN 338:2016); gamma_M 1.2 (Table 2.3)
    check = press(shelf=Shelf())
    assert check.limit == pytest.approx(2.2 * 0.7 / 1.2, rel=1e-12)
    assert check.governs == "an upright; Birch plywood (borrowed from strength class C16)"


def test_edge_pressed_where_the_code_allows_no_load_is_not_checked():
    # Table 3.1 has no particleboard P4 outdoors
    check = press(3, shelf=Shelf.model_construct(material="particleboard-p4", thickness=18.0))
    assert check.verdict is Verdict.NOT_CHECKED
    assert (check.value, check.limit, check.method) == (None, None, "bearing")
    assert check.measure == "stress"
    assert check.question == "pressed"
    assert "allows no long-term load in service class 3" in check.reason
    assert check.reason.startswith("Particleboard P4")


SIDE_BY_SIDE = {"bays": ("500 mm", "500 mm"), "dividers": {"panels": 2, "joined": "screwed"}}


@pytest.mark.parametrize(
    ("said", "count"),
    # 400 mm up each of two levels: ceil(400 / 90) = 5
    [({"count": 6}, 6), ({"spacing": "90 mm"}, 5)],
)
def test_number_that_is_said_is_kept_where_the_screw_is_chosen(said, count):
    checks, lines = asked(unit(**SIDE_BY_SIDE, joins={"sides": said}))
    line = of(lines, "side to side")
    assert line.count == len(line.positions) == count
    assert line.proposed
    assert checks[0].governs.startswith(f"{count} x ")
    assert checks[0].ratio == pytest.approx(line.used)


def test_screw_without_a_length_is_the_longest_that_stays_inside():
    # 17.6 + 17.6 - 1 - 2 = 32.2 mm: 30; through the boards' faces
    _, lines = asked(unit(**SIDE_BY_SIDE, joins={"sides": {"screw": "3 mm", "count": 6}}))
    assert shown(of(lines, "side to side"), "name", "length") == ("chipboard-screw-3", 30.0)


def test_proposal_names_the_next_cheaper():
    shelf = {"panels": 2, "joined": "screwed", "bearing": "8 mm"}
    _, lines = asked(unit(thickness="24 mm", shelf=shelf))
    line = of(lines, "doubled shelf")
    assert line.proposed
    assert line.cheaper.endswith("would be needed")
    # not where the screw is described
    _, lines = asked(unit(thickness="24 mm", shelf={**shelf, "screws": "3.5 x 40 mm"}))
    assert of(lines, "doubled shelf").cheaper == ""


def test_row_too_short_for_two_clamping_screws_finds_nothing():
    # ten d from the ends and five between, of the 4 mm screw: 40 + 20 + 40 mm
    for depth, count in (("100 mm", 2), ("99 mm", 0)):
        board = unit(shelf={"bearing": "8 mm"}, joins={"shelves": "screws"})
        _, lines = asked({**board, "depth": depth})
        line = of(lines, "shelf end into")
        assert line.count == count
        assert (line.place.unit, line.place.part) == ("store", "bottom panel to top panel")
        assert line.joins == 6
        if count:
            assert line.positions == (40.0, 60.0)
        else:
            assert shown(line, "by", "demountable", "fastener") == ("nothing found", "-", "")
            assert "edge of Birch plywood" in line.note


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (
            {"joins": {"shelves": "cleat"}, "thickness": "30 mm"},
            "cleats not described: softwood, class C16, 20 mm thick",
        ),
        (
            {**SIDE_BY_SIDE, "joins": {"sides": {"screw": "3 x 30 mm", "count": 6}}},
            "joins that come apart: at least 250 N sideways and 100 N apart for handling and "
            "knocks (common practice, no source)",
        ),
    ],
)
def test_what_is_assumed_of_joins_is_said(more, words):
    description = read_raw({"site": {}, "unit": [unit(**more)]})
    answers = holding_together(idealise(description.project, description.catalogue))
    said = [spelled(text, "metric") for one in answers if one.checks for text in one.assumptions]
    assert words in said


def test_loose_shelf_lies_on_its_pins():
    _, lines = asked(unit(levels=3, shelf={"loose": True}))
    loose = next(line for line in lines if line.join.startswith("loose"))
    assert shown(loose, "by", "demountable") == ("pins or cleats", "yes")
