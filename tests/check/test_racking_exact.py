"""Standing square by hand: lean, corners, backs that buckle, and what moves freely in words."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace as Made

import numpy as np
import pytest
from described import PER_AREA, G, findings, the, unit
from made_up import NAILED, case, factors_of
from printed import printed

from shelfload import tables
from shelfload.check import (
    frame,
    racking,
)
from shelfload.check.result import Verdict
from shelfload.idealise.place import Place
from shelfload.solve.frame_model import TURN
from shelfload.solve.wall_diaphragm import hardest_fastener
from shelfload.wording import figure, size

HARDBOARD = Made(E_0=4800.0, E_90=4000.0)


@pytest.mark.parametrize(
    ("levels", "words"),
    [([2], "level 3"), ([0, 1, 2], "levels 1 to 3"), ([0, 2, 4], "levels 1, 3 and 5"),
     ([1, 3], "levels 2 and 4")],
)  # fmt: skip
def test_levels_in_words(levels, words):
    assert frame._levels_in_words(levels) == words


def test_bays_of_two_units_in_words():
    bays = [Made(unit=unit, level=level) for unit, level in (("a", 0), ("a", 2), ("b", 1))]
    such = f"{size(3.2)} hardboard nailed every {size(100.0, down=True)}"
    start = f"a back such as {such} in one bay of "
    assert frame._bays_in_words(bays) == start + "each of levels 1 and 3 of a and of level 2 of b"
    assert frame._bays_in_words(bays[2:]) == start + "level 2"


def test_push_in_proportion_below_a_metre():
    tops = [racking.push_on(Made(top=top)) for top in (640.0, 1000.0, 2100.0)]
    assert tops == pytest.approx([96.0, 150.0, 150.0])


def leaning(monkeypatch, factor):
    cases = [case("dead"), case("lean"), case("push", unit="b"), case("push", unit="a")]
    elevation = Made(
        units=("a", "b"),
        cases=cases,
        factors=factors_of(cases),
        plan=Made(
            members=[(0, 1), (0, 2), (1, 2)],
            stands=[Made(unit="a", level=0, member=0), Made(unit="a", level=0, member=1),
                    Made(unit="b", level=3, member=2)],
        ),
    )  # fmt: skip
    moved = np.zeros((3, 3, 4))
    moved[1, 0] = [9.0, 20.0, 0.010, -0.001]
    moved[2, 0] = [9.0, 10.0, 0.030, 0.002]
    asked = []

    def under(gravity):
        asked.append(gravity)
        return np.array([factor])

    monkeypatch.setattr(frame, "sway_buckling_factor", under)
    result = Made(displacements=moved, combine=list)
    got = frame.sway(elevation, result, {"a": 100.0, "b": 50.0}, 1 / 200)
    assert asked == [[1.0, 0.0, 0.0, 0.0]]
    return got


def test_lean_of_each_level_by_hand(monkeypatch):
    # the lean by itself: 0.1, 0.05 and -0.05 mm; push on a: -0.1, 0.2, 0.3; on b: 0.5, 1.5, 1.0
    got = leaning(monkeypatch, 4.0)  # weights that buckle it at 4 times: 4 / 3 as much
    assert got == pytest.approx({("a", 0): 1.55 * 4 / 3, ("b", 3): 0.95 * 4 / 3})
    assert leaning(monkeypatch, np.inf) == pytest.approx({("a", 0): 1.55, ("b", 3): 0.95})
    assert leaning(monkeypatch, 1.0) == {("a", 0): np.inf, ("b", 3): np.inf}


def backed(t, width, height, spacing=None, level=0):
    bay = Made(unit="box", level=level, number=level + 2, width=width, height=height)
    return Made(bay=bay, hold=Made(thickness=t, material=HARDBOARD, spacing=spacing))


@pytest.mark.parametrize(("width", "height"), [(900.0, 300.0), (300.0, 900.0)])
def test_critical_shear_of_a_sheet_by_hand(width, height):
    # k = 5.34 + 4 / 9 = 5.784444; pi^2 4000 / (12 x 0.91) = 3615.240; (3 / 300)^2 = 1e-4
    # (Timoshenko & Gere, 9.7; E the lower of the two)
    assert racking._critical(backed(3.0, width, height)) == printed("2.091215")


def test_back_nearest_to_buckling_by_hand(monkeypatch):
    cases = [case("dead"), case("lean"), case("push")]
    elevation = Made(units=("box",), cases=cases, factors=factors_of(cases),
                     placed=[Made(unit=Made(name="box"), top=500.0)])  # fmt: skip
    # as thin for their size, so both buckle at the same stress; the third is too stout to be asked
    plan = Made(backs=[backed(4.0, 800.0, 800.0), backed(2.0, 400.0, 400.0, level=1),
                       backed(9.0, 400.0, 400.0)])  # fmt: skip
    # 75 N at 500 mm: 1/200 x 80 + 75 x 0.02 = 1.9 N/mm, 1/200 x 20 + 75 x 0.012 = 1.0
    flow = np.array([[9.0, -80.0, 0.02], [9.0, 20.0, -0.012], [0.0, 9e9, 0.0]])
    seen = []
    monkeypatch.setattr(racking, "back_fasteners", lambda _w, _b, flow: seen.extend(flow) or [])
    (got,) = racking._backs(Made(), elevation, plan, Made(shear_flow=flow))
    assert seen[:2] == pytest.approx([1.9, 1.0])
    assert got.place == Place(unit="box", part="level 2", bay="bay 3")
    # 1.0 / 2 mm against 9.34 x pi^2 4000 / (12 x 0.91) x (2 / 400)^2 / 1.5
    assert got.value == pytest.approx(0.5)
    assert got.limit == pytest.approx(9.34 * 3615.24 * 2.5e-5 / 1.5, rel=1e-5)
    assert (got.measure, got.at_least, got.reason) == ("stress", False, "")
    assert got.remedy == "Use a thicker back."


def corners(monkeypatch, kind):
    cases = [case("dead"), case("contents"), case("spot"), case("lean"), case("push", unit="a"),
             case("push", unit="b")]  # fmt: skip
    unit = Made(name="a", corners="glued", depth=300.0, panel=Made(material="m", thickness=20.0))
    elevation = Made(
        units=("a", "b"), cases=cases, factors=factors_of(cases),
        placed=[Made(unit=unit, top=1000.0), Made(unit=Made(name="b"), top=500.0)],
        plan=Made(stands=[Made(unit="b", member=0), Made(unit="a", member=1)],
                  lines=[Made(unit="a", members=(2,)), Made(unit="b", members=(3,))]),
    )  # fmt: skip
    forces = np.full((4, 2, 3, 6), 1e9)
    forces[1, :, TURN] = [[100.0, 0.0, 0.0, 0.0, 10.0, -30.0], [9e9] * 6]
    forces[2, :, TURN] = [[-4000.0, -200.0, 300.0, 400.0, 5.0, 4.0], [0.0] * 6]
    joints = np.array([[1.0, 1.0], [1.0, np.inf], [1.0, 1.0], [1.0, 1.0]])
    elevation.result = Made(frame=Made(joints=joints), end_forces=forces)
    material = Made(kind=kind, called="board", duration_class="solid", gamma_M_class="solid")
    row = Made(material=material, thickness=20.0)
    whole = Made(
        catalogue=Made(material=lambda *of: {("m", 20.0): row}[of]),
        project=Made(site=Made(service_class=1)),
    )
    asked = []
    monkeypatch.setattr(racking, "design", lambda *given: asked.append(given) or 0.5)
    (got,) = racking._corners(whole, elevation, "a")
    return got, asked[0]


def test_hardest_worked_corner_by_hand(monkeypatch):
    got, (strength, _, service, duration) = corners(monkeypatch, "solid")
    # 1.35 x 4000 + 1.5 x (200 + 300 + 400 / 200) + 1.5 x (150 x 5, more than 75 x 4)
    # = 5400 + 753 + 1125; the first has 135 + 1.5 x 75 x 30. Rigid ends are not asked.
    assert got.value == pytest.approx(6 * 7278.0 / (300 * 20**2))
    assert got.governs == f"{figure(7278.0, 'moment')} in the hardest worked corner"
    assert got.limit == 0.5
    assert (got.question, got.measure, got.reason) == ("glued corners hold", "stress", "")
    # 0.4 (EN 338) x (1e7 / (300 x 20^2))^0.2, EN 1995-1-1:2004, 6.4.3
    assert strength == pytest.approx(0.4 * (1e7 / 120000) ** 0.2)
    assert (service, duration) == (1, "short-term")


@pytest.mark.parametrize(("kind", "bond"), [("mdf", 0.55), ("bamboo", 0.4), ("glass", None)])
def test_boards_tear_at_their_bond_whatever_their_volume(monkeypatch, kind, bond):
    _, (strength, *_) = corners(monkeypatch, kind)
    assert strength == bond


def test_folding_unit_in_all_its_words():
    found = findings(unit(heights=(300, 500), bays=(700,), loads=(10, 40)))
    (got,) = [one for one in found.checks if one.question == racking.QUESTION]
    # 150 N x 0.86 at its top, and 1/200 of three panels, two sides of 860 and 50 kg
    weight = PER_AREA * 300 * (3 * 700 + 2 * 860) + 50 * G
    assert got.value == pytest.approx(150 * 0.86 + weight / 200, rel=1e-9)
    assert (got.limit, got.measure, got.verdict) == (0.0, "force", Verdict.FAILS)
    assert got.place == Place(unit="box")
    assert got.method == "elevation frame: it folds without resistance"
    assert got.governs == "levels 1 to 2 sway sideways together: no back and pinned joints"
    assert got.remedy.startswith("The least that stops it: a back such as ")
    assert got.remedy.endswith(
        ' Or glue its corners (corners = "glued"), or fix each of these levels to the wall.'
    )


def test_back_that_is_proposed_leaves_the_sway_that_it_then_has():
    heights = (300, 500)
    bare = findings(unit(heights=heights, bays=(700,), comes_apart="levels"))
    (elevation,) = bare.whole.elevations
    moves = frame.loosened(elevation)
    asked = {"pushes": {"box": 150 * 0.86}, "lean": 1 / 200, "limit": 1 / 200}
    helped = frame.least_backs(elevation, moves, bare.whole.catalogue, **asked)
    assert [bay.level for bay in helped.bays] == [0, 1]
    closed = findings(unit(heights=heights, bays=(700,), comes_apart="levels", back=NAILED))
    (got,) = [one for one in closed.checks if one.question == racking.QUESTION]
    # but for the weight of the backs themselves
    assert helped.ratio == pytest.approx(got.ratio, rel=0.01)
    assert frame.least_backs(elevation, [], bare.whole.catalogue, **asked) is None


def test_unit_that_hangs_is_plumb_in_all_its_words():
    hung = unit(heights=(600,), back=NAILED, underside="1500 mm",
                hangs={"maker": "anchor", "heights": ["500 mm"]})  # fmt: skip
    (got,) = [one for one in findings(hung, site={"wall": "solid brick"}).checks
              if one.question == racking.QUESTION]  # fmt: skip
    assert (got.value, got.limit) == (0.0, pytest.approx(620 / 200))
    assert (got.measure, got.source, got.verdict) == ("length", "as described", Verdict.PASSES)
    assert got.method == "statics: what it hangs on keeps it plumb"
    assert got.governs == "what it hangs on must take a sideways push as well"
    assert got.place == Place(unit="box")


def test_frame_that_buckles_sideways_fails(monkeypatch):
    monkeypatch.setattr(frame, "sway_buckling_factor", lambda _: np.array([1.0]))
    got = next(one for one in findings(unit(heights=(600,), back=NAILED)).checks
               if one.question == racking.QUESTION)  # fmt: skip
    assert (got.value, got.limit, got.measure) == (pytest.approx(96.0), 0.0, "force")
    assert got.verdict is Verdict.FAILS
    assert got.place == Place(unit="box", part="level 1")
    assert got.method == "elevation frame: it buckles sideways under what stands in it"
    assert got.governs == "corners and backs are too soft for the weight above"
    assert got.remedy.startswith("Fix the back at a closer spacing")


def test_buckling_of_a_described_back_and_the_force_on_its_nails():
    nailed = {**NAILED, "diameter": "1.8 mm", "length": "30 mm"}
    found = findings(unit(heights=(600,), back=nailed))
    buckles, nails = (the(found, "level 1", q) for q in ("back buckles", "fasteners of the back"))
    board = tables.material("hardboard", 3.2).material
    E = min(board.E_0, board.E_90)
    k = 5.34 + 4 * (620 / 980) ** 2
    assert buckles.limit == pytest.approx(
        k * np.pi**2 * E / (12 * (1 - 0.3**2)) * (3.2 / 620) ** 2 / 1.5
    )
    assert buckles.method == "plate on hinged edges, safety 1.5"
    assert buckles.place == nails.place == Place(unit="box", part="level 1", bay="bay 1")
    assert "clear size over thickness 194," in buckles.governs
    # 1.5 x flow x 100 mm, more at the corners; b > h / 2, so the whole width counts
    more = hardest_fastener(980.0, 620.0, 100.0)
    assert nails.value == pytest.approx(1.5 * buckles.value * 3.2 * 100 * max(more, 1.0))
    assert nails.governs == f"each of its nails, every {size(100.0)}"
    assert nails.limit == 60.0
    assert nails.measure == "force"
    assert nails.remedy == "Fix the back at a closer spacing, glue it, or back more bays."
    assert nails.source.startswith("EN 1995-1-1:2004, 9.2.4.2 (method A); no rule for these")


@pytest.mark.parametrize(("spacing", "checked"), [(150, True), (151, False)])
def test_widest_spacing_of_nails_is_still_within_the_rule(spacing, checked):
    back = {**NAILED, "spacing": f"{spacing} mm", "diameter": "1.8 mm", "length": "30 mm"}
    found = findings(unit(heights=(600,), back=back))
    nails = the(found, "level 1", "fasteners of the back")
    assert nails.value < 60.0
    assert (nails.verdict is Verdict.PASSES) is checked


def test_sway_of_a_backed_unit_in_all_its_words():
    found = findings(unit(heights=(600,), back=NAILED))
    (got,) = [one for one in found.checks if one.question == racking.QUESTION]
    assert got.limit == pytest.approx(620 / 200)
    assert got.place == Place(unit="box", part="level 1")
    assert got.measure == "length"
    assert got.method.startswith("elevation frame, backs as shear panels with slipping fasteners")
    assert got.source.endswith("limit height / 200: common practice, no source")
    assert got.governs == (
        f"{figure(96.0, 'force')} sideways and the lean of the weight; corners counted as pinned"
    )
    assert got.remedy == (
        "Fix the back at a closer spacing, glue it, use a thicker one, or back more bays."
    )
    assert "box: corners counted as pinned" in found.assumptions
    assert any(text.startswith("a sideways push of ") for text in found.assumptions)
    (bare,) = [one for one in findings(unit(heights=(600,), corners="glued")).checks
               if one.question == racking.QUESTION]  # fmt: skip
    assert bare.remedy == "Give one bay of each level a fixed back."
    assert "(estimate)" in bare.governs


def moving(*members, sideways=1.0):
    return Made(members=np.array(members), sideways=sideways)


def test_free_motions_are_named_by_what_they_move(monkeypatch):
    stands = [("a", 0, 1), ("a", 1, 2), ("b", 0, 3), ("b", 2, 4)]
    plan = Made(
        stands=[Made(unit=unit, level=level, member=n) for unit, level, n in stands],
        lines=[Made(unit="a", number=0, members=(8,)), Made(unit="b", number=1, members=(9,))],
    )
    placed = [Made(unit=Made(name=name)) for name in "ab"]
    monkeypatch.setattr(frame, "shelf_name", lambda unit, number: f"{unit.name}{number}")
    elevation = Made(
        plan=plan, units=("a", "b"), placed=placed,
        motions=[moving(2), moving(1, 2, 3, 4), moving(9, sideways=0.0), moving(7)],
    )  # fmt: skip
    one, all_, drops, slides = frame.loosened(elevation)
    assert one.place == Place(unit="a", part="level 2")
    assert one.words == "level 2 sways sideways: no back and pinned joints"
    assert one.levels == (("a", 1),)
    assert all_.place == Place(unit="a")
    assert all_.words == (
        "levels 1 to 2, with levels 1 and 3 of b sway sideways together: no back and pinned joints"
    )
    assert all_.levels == (("a", 0), ("a", 1), ("b", 0), ("b", 2))
    assert drops.place == Place(unit="b", part="b1")
    assert drops.words == ("b1 drops: something stands where its pieces meet, with nothing below")
    assert slides.place == Place(unit="b")
    assert slides.words == "the unit slides sideways: nothing holds its feet"
    assert drops.levels == slides.levels == ()
    elevation.plan = None
    assert frame.loosened(elevation) == []


def test_unit_that_stands_with_one_that_folds_is_not_checked(monkeypatch):
    moves = [
        frame.Loosened(place=Place(unit="b", part="level 2"), words="level 2 sways", levels=()),
    ]
    monkeypatch.setattr(racking, "loosened", lambda _: moves)
    monkeypatch.setattr(racking, "least_backs", lambda *_, **__: None)
    elevation = Made(units=("a", "b"), placed=[
        Made(unit=Made(name="a"), top=500.0, weights=Made(total=1000.0)),
        Made(unit=Made(name="b"), top=800.0, weights=Made(total=600.0)),
    ])  # fmt: skip
    beside, folds = racking._moving(Made(catalogue=None), elevation)
    assert (beside.place, beside.verdict) == (Place(unit="a"), Verdict.NOT_CHECKED)
    assert beside.reason == "b folds, and it is built together with that"
    assert beside.source == folds.source == "rank of the frame's geometry, own method"
    assert beside.measure == "length"
    # the larger push, 150 x 0.8, and 1/200 of 1600 N
    assert folds.value == pytest.approx(128.0)
    assert folds.place == moves[0].place
    assert folds.remedy == "Stand it on something under each of its uprights."
    sways = [replace(moves[0], levels=(("b", 1),)), replace(moves[0], words="and so on")]
    moves[:] = sways
    _, folds = racking._moving(Made(catalogue=None), elevation)
    assert folds.place == Place(unit="b")
    assert folds.governs == "level 2 sways; and so on"
    assert folds.remedy == (
        'Glue its corners (corners = "glued"), or fix each of these levels to the wall.'
    )


def test_unit_that_no_frame_can_be_drawn_of_is_not_checked():
    elevation = Made(result=None, plan=None, motions=(), units=("a", "b"), reason="no E")
    asked = list(racking._asked(Made(), elevation))
    assert [one.place for one in asked] == [Place(unit="a"), Place(unit="b")]
    for one in asked:
        assert (one.verdict, one.reason) == (Verdict.NOT_CHECKED, "no E")
        assert (one.question, one.method) == ("stays square", "elevation frame")
        assert (one.value, one.limit, one.measure) == (None, None, "length")
