"""Mechanisms in words, sway, the least change, and shelves judged by the elevation frame."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shelfload.check.assess import assess
from shelfload.check.racking import LEAN, PUSH, SWAY
from shelfload.check.result import Verdict
from shelfload.describe.reader import read_raw
from shelfload.solve.shear_panel import shear_panel_stiffness

G = 9.80665
PLAIN = {
    "kind": "plywood",
    "density": "600 kg/m3",
    "E": "10000 MPa",
    "E_across": "10000 MPa",
    "G": "200 MPa",
    "bending_strength": "30 MPa",
    "shear_strength": "2.5 MPa",
    "source": "made up for the test",
}
GLUED = {"material": "plain", "thickness": "6 mm", "fixed": "glued"}
NAILED = {"material": "hardboard", "thickness": "3.2 mm", "fixed": "nailed", "spacing": "100 mm"}


def unit(name="box", count=1, bays=("780 mm",), contents="empty", **more):
    level = {"height": "330 mm", "bays": list(bays), "contents": contents}
    return {
        "name": name,
        "depth": "300 mm",
        "panel": {"material": "plain", "thickness": "20 mm"},
        "base": "plinth",
        "shelf": {"bearing": "20 mm", "runs": "through"},
        "level": [dict(level) for _ in range(count)],
        **more,
    }


def findings(*units, **site):
    raw = {"materials": {"plain": PLAIN}, "unit": list(units)}
    if site:
        raw["site"] = site
    description = read_raw(raw)
    return assess(description.project, description.catalogue)


def square(found, name="box"):
    return [
        check
        for check in found.checks
        if check.question == "stays square" and check.place.unit == name
    ]


def of(found, part, question, name="box"):
    return next(
        check
        for check in found.checks
        if (check.place.unit, check.place.part, check.question) == (name, part, question)
    )


def test_open_level_of_boxes_is_named_with_the_back_that_stops_it():
    raw = unit(count=3, comes_apart="levels", back=NAILED)
    raw["level"][2]["back"] = "none"
    (check,) = square(findings(raw))
    assert check.verdict is Verdict.FAILS
    assert check.place.part == "level 3"
    assert check.governs == "level 3 sways sideways: no back and pinned joints"
    assert "in one bay of level 3" in check.remedy
    assert "level 1" not in check.remedy


def test_every_open_level_of_boxes_needs_a_back_of_its_own():
    (check,) = square(findings(unit(count=4, comes_apart="boxes")))
    assert check.governs.count("sways sideways: no back and pinned joints") == 4
    assert "in one bay of each of levels 1 to 4" in check.remedy


def test_sides_in_one_piece_lean_together():
    (check,) = square(findings(unit(count=3)))
    assert check.governs == "levels 1 to 3 sway sideways together: no back and pinned joints"


def test_bridge_and_its_towers_are_named_unit_by_unit():
    tower = {"count": 1, "bays": ("380 mm",)}
    found = findings(
        unit("left tower", left="0 mm", back=NAILED, **tower),
        unit("right tower", left="1200 mm", **tower),
        unit("bridge", on=["left tower", "right tower"], left="0 mm", bays=("1580 mm",)),
    )
    asked = [check for name in found.whole.placed for check in square(found, name)]
    assert {check.place.unit for check in asked} == {"left tower", "right tower", "bridge"}
    folding = [check for check in asked if check.verdict is Verdict.FAILS]
    others = [check for check in asked if check not in folding]
    assert {check.verdict for check in others} == {Verdict.NOT_CHECKED}
    assert folding
    words = " ".join(check.governs for check in folding)
    # the bridge holds the open tower's head where the backed one holds the bridge's foot
    assert "sway" in words
    assert {check.place.unit for check in folding} <= {"bridge", "right tower"}


@pytest.mark.parametrize(
    "held",
    [
        {"hangs": {}},
        {"restraint": {}},
        {"back": NAILED},
    ],
)
def test_what_the_wall_or_a_back_holds_is_no_mechanism(held):
    found = findings(unit(count=3, **held), wall="timber stud", stud_spacing="400 mm")
    assert all(not elevation.motions for elevation in found.whole.elevations)
    assert all("sways" not in check.governs for check in square(found))


def test_sway_of_a_backed_box_by_hand():
    """One bay on a stiff glued back: shear flow H / b, lean H / (G t b), both joints pinned.

    H = 150 N, less in proportion below 1 m, and 1/200 of the weights that the frame puts on
    its upper nodes. The uprights stretch and shorten by H h / b.
    """
    raw = unit(back=GLUED, top_contents={"load": "40 kg"})
    found = findings(raw)
    (check,) = square(found)
    b, h = 800.0, 350.0
    whole_top = 600e-9 * 760 * 300 * 20 * G
    H = PUSH * 0.37 + LEAN * (40 * G + whole_top)  # its top is at 370 mm
    S = float(shear_panel_stiffness(300.0, 6.0, b, h, float("inf"), 1.0))
    stretch = (H * h / (2 * b)) * h / (10000.0 * 300 * 20)
    by_shear = H / (S * b) * h + 2 * stretch / b * h
    assert check.value == pytest.approx(by_shear, rel=0.02)
    assert check.limit == pytest.approx(SWAY * h)
    assert check.verdict is Verdict.PASSES


def test_low_glued_box_without_a_back_is_not_condemned_out_of_hand():
    found = findings(unit(count=1, corners="glued", depth="400 mm"))
    (check,) = square(found)
    assert check.measure == "length"
    assert check.value > 0
    assert check.verdict is Verdict.PASSES
    assert "estimate" in check.governs
    # legs of one portal share the push: M = H h / 4 at each of the four corners, all of them
    # alike. H = 1.5 x (150 N x 0.37 + 1/200 of top and sides), h = 350 (middle to middle)
    torn = next(check for check in found.checks if check.question == "glued corners hold")
    weight = 600e-9 * 760 * 400 * 20 * G
    H = 1.5 * (PUSH * 0.37 + LEAN * weight)
    moment = H * 350.0 / 4
    by_push = 6 * moment / (400.0 * 20.0**2)
    # and the top's own weight bends the corners a little: 1.35 times its end moments
    assert by_push < torn.value < 1.5 * by_push
    # f_t,90,k 0.4 (EN 338, from memory) x (0.01 m3 / 400 x 20 x 20 mm3)^0.2, k_mod 0.9, 1.2
    assert torn.limit == pytest.approx(0.4 * (1e7 / (400 * 400)) ** 0.2 * 0.9 / 1.2)


def test_more_backs_and_stiffer_corners_never_sway_more():
    swayed = [
        square(findings(unit(count=2, corners=corners, back=back)))[0].value
        for corners, back in (
            ("pinned", NAILED),
            ("500 N m/rad", NAILED),
            ("5000 N m/rad", NAILED),
            ("5000 N m/rad", GLUED),
        )
    ]
    assert swayed == sorted(swayed, reverse=True)


def bridge(**more):
    return unit(
        base="sides", bays=("380 mm", "380 mm", "380 mm"), contents={"load": "20 kg/m"}, **more
    )


def test_bridge_with_a_glued_back_is_judged_as_a_deep_beam():
    found = findings(bridge(back=GLUED))
    check = of(found, "bottom panel", "sag after years")
    assert check.method.startswith("elevation frame, backs as webs")
    assert check.verdict is Verdict.PASSES
    assert "as a beam of its own" in check.governs
    told = next(text for text in found.models if "bottom panel" in text)
    assert "with pinned corners" in told
    assert "with rigid ones" in told


def test_one_divider_on_an_open_span_is_enough_for_the_frame():
    one = unit(base="sides", bays=("580 mm", "580 mm"), contents={"load": "20 kg/m"}, back=GLUED)
    check = of(findings(one), "bottom panel", "sag after years")
    assert check.method.startswith("elevation frame, backs as webs")


def test_bridge_of_loose_boards_is_judged_alone():
    """Without a tie the panel can't hang on its dividers: its own contents are its own."""
    check = of(findings(bridge()), "bottom panel", "sag after years")
    alone = unit(base="sides", bays=("1180 mm",), contents={"load": f"{20 * 1.14} kg"})
    by_itself = of(findings(alone), "bottom panel", "sag after years")
    assert "not tied" in check.method
    # the dividers' own weight is off as well, and the gaps where they stand are not loaded
    assert check.value == pytest.approx(by_itself.value, rel=0.02)


def test_shelf_over_a_sinking_divider_is_not_taken_as_firm():
    found = findings(bridge())
    top = of(found, "top panel", "sag after years")
    assert "sinks" in top.governs
    firm = findings({**bridge(), "base": "plinth"})
    assert top.value > 5 * of(firm, "top panel", "sag after years").value


def test_safe_load_by_the_frame_put_back_on_just_passes():
    found = findings(bridge(back=GLUED))
    load = next(one for one in found.safe_loads if one.place.part == "bottom panel")
    heavy = bridge(back=GLUED)
    heavy["level"][0]["contents"] = {"load": f"{load.even_per_length * 1000:.6f} N/m"}
    again = [
        check.ratio
        for check in findings(heavy).checks
        if check.place.part == "bottom panel" and check.value is not None
    ]
    assert max(again) == pytest.approx(1.0, abs=1e-3)


def test_safe_load_on_one_spot_by_the_frame_put_back_on_just_passes():
    found = findings(bridge(back=GLUED))
    loads = [one for one in found.safe_loads if one.place.part == "bottom panel"]
    assert loads[0].point == pytest.approx(loads[2].point, rel=1e-9)
    for number in (0, 1):
        heavy = bridge(back=GLUED)
        spot = {"points": [{"load": f"{loads[number].point:.6f} N", "at": "190 mm"}]}
        others = ["empty", "empty"]
        heavy["level"][0]["contents"] = [*others[:number], spot, *others[number:]]
        again = [
            check.ratio
            for check in findings(heavy).checks
            if check.place.part == "bottom panel" and check.value is not None
        ]
        assert max(again) == pytest.approx(1.0, abs=1e-3)


def test_nails_of_a_back_are_not_asked_for_more_than_they_carry():
    """A web on few thin nails is no web: the beam of its own stands, and the report says why."""
    far = {**NAILED, "spacing": "400 mm"}
    check = of(findings(bridge(back=far)), "bottom panel", "sag after years")
    assert not check.method.startswith("elevation frame")


def test_uprights_carry_what_the_beams_say_or_more():
    found = findings(bridge(back=GLUED), unit("other", count=3, back=NAILED))
    for name, stack in zip(found.whole.placed, found.whole.stacks, strict=True):
        for mine, beams in zip(found.whole.upright_forces(name), stack.forces, strict=True):
            assert mine.place == beams.place
            assert mine.dead + mine.imposed >= beams.dead + beams.imposed


@settings(max_examples=20, deadline=None)
@given(
    st.integers(1, 4),
    st.lists(st.integers(200, 600), min_size=1, max_size=3),
    st.sampled_from(["pinned", "glued", "300 N m/rad"]),
    st.sampled_from(["sides", "plinth", "flat"]),
    st.sampled_from(["no", "levels"]),
    st.data(),
)
def test_any_unit_gets_an_answer_on_standing_square(count, bays, corners, base, apart, data):
    raw = unit(
        count=count,
        bays=[f"{bay} mm" for bay in bays],
        contents={"load": "10 kg"},
        corners=corners,
        base=base,
        comes_apart=apart,
    )
    for level in raw["level"]:
        level["back"] = data.draw(st.sampled_from(["none", NAILED, GLUED]))
    found = findings(raw)
    (check,) = square(found)
    assert check.verdict in (Verdict.PASSES, Verdict.CLOSE, Verdict.FAILS)
    every = all(level["back"] != "none" for level in raw["level"])
    if every:
        assert "sways" not in check.governs
