"""Formulas and choices of the frame, of criteria, plates and safe loads on figures worked by hand.

Where a frame or plate would hide a factor, the parts that ask take made-up curves: two of
everything, no two alike, so that whatever is swapped, dropped or added shows.
"""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace as Made

import numpy as np
import pytest
from printed import printed

from shelfload import tables
from shelfload.check import (
    clamped,
    criteria,
    frame,
    frame_demand,
    frame_shelves,
    plate_demands,
    plate_safe_load,
    plates,
    racking,
    safe_load,
    shelves,
)
from shelfload.check.criteria import Criterion, Unanswered
from shelfload.check.frame_demand import Curve, Demand
from shelfload.check.result import Answer, Check, SafeLoad, Verdict
from shelfload.idealise.place import Place
from shelfload.solve.frame_model import DOWN, TURN
from shelfload.wording import figure, size

PLACE = Place(unit="box", part="shelf 1")
HARDBOARD = Made(E_0=4800.0, E_90=4000.0)


def check(value=8.0, limit=10.0, **more):
    told = {"question": "sag after years", "method": "beam", "source": "EC5", "measure": "length"}
    return Check(place=PLACE, value=value, limit=limit, **{**told, **more})


def factors_of(cases):
    return lambda **kinds: np.array([kinds.get(case.kind, 0.0) for case in cases])


def case(kind, unit="box", number=1, duration="long-term", bay=None):
    return Made(kind=kind, unit=unit, number=number, duration=duration, bay=bay)


def criterion(curve="moment", **more):
    given = {
        "question": "bending", "always": np.array([1.35, 0.0]), "sometimes": np.array([0.0, 1.5]),
        "per_load": 1.5, "allowed": np.array([4.0]), "scale": np.array([0.5]),
        "measure": "stress", "method": "factored loads", "source": "6.1.6", "governs": "board",
    }  # fmt: skip
    return Criterion(curve=curve, **{**given, **more})


# --- the frame's demands ---------------------------------------------------------------------


@pytest.mark.parametrize(
    ("row", "worst"),
    # always 1; 1.5 and 2 times the rest where that is worse: 1 + 2 x 3, or 1 - 1.5 x 2
    [([1.0, -2.0, 3.0], 7.0), ([-1.0, -2.0, 0.5], 4.0), ([-9.0, 2.0, 1.0], 9.0)],
)
def test_worst_pattern_of_a_curve(row, worst):
    always, sometimes = np.array([1.0, 0.0, 0.0]), np.array([0.0, 1.5, 2.0])
    main = np.array([row])
    assert Curve(main=main).worst(always, sometimes) == pytest.approx([worst])
    # the stress along the shelf by its own worst pattern: |0.5 - 1.5 x 0.4| = 0.1, or 0.5
    pulled = Curve(main=main, axial=np.array([[0.5, -0.4, 0.0]]))
    assert pulled.worst(always, sometimes) == pytest.approx([worst + 0.5])


def demand(axial=False, **more):
    given = {
        "question": "bending",
        "curve": Curve(main=np.array([[0.1, 0.2, 0.4]]), axial=np.array([[0.01, 0.02, 0.03]])),
        "unit": Curve(main=np.array([[0.05, 0.07]]), axial=np.array([[0.002, 0.003]])),
        "limit": np.array([17.5]),
        "always": np.array([1.35, 0.0, 0.0]),
        "sometimes": np.array([0.0, 1.5, 1.5]),
        "per_load": 1.5,
        **more,
    }
    if not axial:
        given["curve"] = Curve(main=given["curve"].main)
        given["unit"] = Curve(main=given["unit"].main)
    return Demand(**given)


def test_unit_loads_stand_in_for_the_own_contents():
    own, load = np.array([False, True, False]), np.array([2.0, 0.0])
    # 1.35 x 0.1 + 1.5 x 0.4 + 1.5 x 2 x 0.05
    assert demand().ratio(own, load) == pytest.approx(0.885)
    # and 1.35 x 0.01 + 1.5 x 0.03 + 1.5 x 2 x 0.002
    assert demand(axial=True).ratio(own, load) == pytest.approx(0.885 + 0.0645)
    # nothing taken off: 1.5 x 0.2 more
    assert demand().ratio(np.zeros(3, dtype=bool), load) == pytest.approx(1.185)


def backs():
    holds = [("nailed", 50.0), ("glued", None), ("screwed", 100.0)]
    return [Made(hold=Made(fixed=fixed, spacing=spacing)) for fixed, spacing in holds]


def test_fasteners_over_what_is_counted_on(monkeypatch):
    cases = [case("dead"), case("contents"), case("spot"), case("lean"), case("push")]
    part = Made(plan=Made(backs=backs()), elevation=Made(factors=factors_of(cases)))
    flow = np.array([[-0.5, 1.0, 0, 0, 0], [9.0, 9.0, 9, 9, 9], [0.2, -3.0, 0, 0, 0]])
    unit = Made(shear_flow=np.array([[0.6], [5.0], [-0.9]]))
    monkeypatch.setattr(frame_demand, "_unit_loads", lambda *_, **__: unit)
    relied = frame_demand.fastener_demand(
        None, part, None, Made(shear_flow=flow), frame_shelves.RELIED_ON
    )
    # 50 mm on 60 N, glue not asked, 100 mm on 150 N
    assert relied.question == "fasteners of the back"
    assert relied.curve.main[:, :2] == pytest.approx(
        np.array([[0.5 * 50 / 60, 50 / 60], [0, 0], [0.2 * 100 / 150, 3 * 100 / 150]])
    )
    assert relied.unit.main == pytest.approx(np.array([[0.5], [0.0], [0.6]]))
    assert relied.limit == pytest.approx([1.0, 1.0, 1.0])
    assert list(relied.always) == [1, 0, 0, 0, 0]
    assert list(relied.sometimes) == [0, 1, 1, 0, 0]
    assert relied.per_load == 1.0
    part.plan.backs = part.plan.backs[1:2]
    assert frame_demand.fastener_demand(None, part, None, None, frame_shelves.RELIED_ON) is None


@pytest.mark.parametrize(
    ("ratio", "absolute", "allowed"),
    # from end to end, then left and right of the upright that sinks
    [(200.0, None, (5.0, 5.0, 1.5, 3.5)), (200.0, 3.0, (3.0, 3.0, 1.5, 3.0)),
     (None, 2.0, (2.0, 2.0, 2.0, 2.0))],
)  # fmt: skip
def test_sag_from_the_lines_between_what_carries(monkeypatch, ratio, absolute, allowed):
    n = frame_demand.STATIONS
    settled = np.array([1.0, 4.0, 3.0])
    # straight from node to node: all that is left is what the middle node sinks
    down = np.concatenate([np.linspace(1.0, 4.0, n), np.linspace(4.0, 3.0, n)])[:, None]
    monkeypatch.setattr(frame_demand, "along", lambda *_: down)
    moved = np.zeros((3, 3, 1))
    moved[:, DOWN, 0] = settled
    part = Made(
        nodes=(0, 1, 2),
        line=Made(carried=(0, 1, 2)),
        plan=Made(nodes=[(0.0, 0.0), (300.0, 0.0), (1000.0, 0.0)], sinking={1}),
    )
    limits = {"mine": Made(ratio=ratio, absolute=absolute)}
    whole = Made(catalogue=Made(limit=limits.__getitem__))
    most, sag = frame_demand._sag(whole, part, Made(limit="mine"), Made(displacements=moved))
    assert most[[0, n, 2 * n, 3 * n]] == pytest.approx(np.array(allowed))
    # 4 - (1 + 0.3 x (3 - 1)) below the line from end to end, 0 below the lines of each bay
    assert sag[n - 1, 0] == pytest.approx(2.4)
    assert sag[n, 0] == pytest.approx(2.4)
    assert sag[2 * n :] == pytest.approx(np.zeros((2 * n, 1)))
    part.plan.sinking = set()
    firm, sag = frame_demand._sag(whole, part, Made(limit="mine"), Made(displacements=moved))
    assert len(firm) == len(sag) == 2 * n
    assert sag == pytest.approx(np.zeros((2 * n, 1)))


def test_people_on_other_shelves_count_and_on_the_own_by_their_duration():
    cases = [
        case("dead"), case("contents"), case("contents", number=2),
        case("spot", duration="short-term"), case("spot", duration="medium-term"),
        case("spot", number=2, duration="short-term"),
        case("spot", unit="other", duration="short-term"),
    ]  # fmt: skip
    part = Made(elevation=Made(cases=cases), line=Made(unit="box", number=1))
    beam = Made(cases=[Made(duration="medium-term"), Made(duration="short-term")])
    asked = Made(sometimes=np.array([1.5, 0.0]))
    assert list(frame_demand._present(part, beam, asked)) == [0, 1, 1, 0, 1, 1, 1]


# --- shelves judged by the frame -------------------------------------------------------------


def part_made(carries=True, sinks=False, cases=(), of=()):
    return Made(
        carries=carries,
        sinks=sinks,
        line=Made(unit="box", number=1),
        plan=Made(backs=list(of)),
        elevation=Made(cases=list(cases), factors=factors_of(cases)),
    )


def framed(ratio, **more):
    """A demand of the sag, 20 mm allowed, that comes to a ratio."""
    return demand(
        question="sag after years", curve=Curve(main=np.array([[0.01], [ratio]])),
        limit=np.array([40.0, 20.0]), always=np.array([1.0]), sometimes=np.array([0.0]), **more,
    )  # fmt: skip


def test_figure_of_the_frame_with_the_beams_beside_it():
    backed = part_made(of=[Made(bay=Made(unit="box"))])
    beam = check(18.0, 10.0)
    got = frame_shelves._judged(backed, beam, [framed(0.2), framed(0.3)], {}, "")
    assert (got.value, got.limit) == pytest.approx((6.0, 20.0))
    assert got.method == "elevation frame, backs as webs, worst pattern of full and empty bays"
    assert got.governs == (
        "what stands on its open span helps to carry it; as a beam of its own: "
        f"{figure(18.0, 'length')} where {figure(10.0, 'length')} is allowed"
    )
    other = part_made(carries=False, sinks=True, of=[Made(bay=Made(unit="other"))])
    got = frame_shelves._judged(other, beam, [framed(1.9)], {}, "")
    assert (got.value, got.limit) == pytest.approx((38.0, 20.0))
    assert got.method == "elevation frame, worst pattern of full and empty bays"
    assert got.governs.startswith("it runs over an upright that sinks with the shelf below; ")


@pytest.mark.parametrize(
    ("best", "kept"), [(0.75, False), (0.7601, True), (0.8, True), (0.8001, False)]
)
def test_help_of_the_frame_below_a_twentieth_is_left_out(best, kept):
    beam = check(8.0, 10.0)  # 0.8: 0.76 is 0.95 of it
    got = frame_shelves._judged(part_made(), beam, [framed(best)], {}, "")
    assert (got == beam) is kept
    sinking = frame_shelves._judged(part_made(sinks=True), beam, [framed(best)], {}, "")
    assert sinking.value == pytest.approx(20 * best)


def test_bound_that_is_graver_than_the_frame_stands():
    beam, bound = check(9.0, 10.0, governs="span 1"), check(5.0, 10.0, governs="alone")
    bounds = {"sag after years": bound}
    got = frame_shelves._judged(part_made(), beam, [framed(0.5)], bounds, "")
    assert (got.value, got.limit) == (5.0, 10.0)  # as grave: the bound stands
    assert got.method == "beam; alone, as what stands on it is not tied to it"
    assert got.governs == (
        f"alone; loaded by what stands on it: {figure(9.0, 'length')} where "
        f"{figure(10.0, 'length')} is allowed"
    )
    assert frame_shelves._judged(part_made(), beam, [framed(0.51)], bounds, "").limit == 20.0
    loose = frame_shelves._judged(part_made(), beam, [framed(0.5)], bounds, "too much")
    assert loose == replace(beam, governs="span 1; too much")
    sunk = part_made(carries=False, sinks=True)
    assert frame_shelves._judged(sunk, beam, [framed(0.5)], bounds, "") == beam
    unknown = check(None, None, reason="not known")
    assert frame_shelves._judged(part_made(), unknown, [framed(0.5)], bounds, "") == unknown
    assert frame_shelves._judged(part_made(), beam, [], bounds, "") == beam


@pytest.mark.parametrize(("spot", "over"), [(0.2, False), (0.2001, True)])
def test_nail_at_exactly_what_it_is_counted_on(spot, over):
    cases = [case("dead"), case("contents"), case("spot"), case("lean")]
    # (0.3 + 0.7 + 0.2) N/mm x 50 mm = 60 N; screws (0.5 + 0.5 + 0.5) x 100 = 150 N; glue not asked
    flow = np.array([[-0.3, 0.7, -spot, 9.0], [99.0] * 4, [0.5, -0.5, 0.5, 9.0]])
    said = frame_shelves._force_on_fastener(part_made(cases=cases, of=backs()),
                                            Made(shear_flow=flow))  # fmt: skip
    assert bool(said) is over
    if over:
        assert figure(60.0, "force") in said


def safe(webs=None, caps=(), number=1):
    cases = [case("dead"), case("contents"), case("contents", number=2),
             case("contents", unit="other")]  # fmt: skip
    asked = demand(
        curve=Curve(main=np.array([[0.1, 0.4, 0.05, 0.02]])),
        unit=Curve(main=np.array([[0.10, 0.20, 0.01, 0.04]])),
        always=np.array([1.0, 0, 0, 0]), sometimes=np.array([0, 1.0, 1.0, 1.0]),
    )  # fmt: skip
    beam = Made(bays=[Made(start=0.0, end=300.0), Made(start=320.0, end=1000.0)])
    plain = SafeLoad(place=PLACE, even=1.0, even_per_length=0.5, point=5.0, governed_by="plain",
                     point_governed_by="plain point")  # fmt: skip
    return frame_shelves._safe(part_made(cases=cases), beam, number, plain, [asked], caps, webs)


def test_safe_load_by_the_frame_by_hand():
    # 1 - 0.1 - 0.05 - 0.02 = 0.83 is left, the shelf's own contents taken off; 1.5 on the load
    got = safe()
    assert got.even_per_length == pytest.approx(0.83 / (1.5 * 0.3))
    assert got.even == pytest.approx(0.83 / (1.5 * 0.3) * 680)
    assert got.point == pytest.approx(0.83 / (1.5 * 0.04))
    assert (got.governed_by, got.point_governed_by) == ("bending", "bending")
    assert safe(number=0).point == pytest.approx(0.83 / (1.5 * 0.01))
    assert safe(number=0).even == pytest.approx(0.83 / (1.5 * 0.3) * 300)


def test_safe_load_by_the_frame_no_more_than_its_caps():
    cap = SafeLoad(place=PLACE, even=1.0, even_per_length=1.2, point=13.0, governed_by="bearing",
                   point_governed_by="pins")  # fmt: skip
    got = safe(caps=[cap])
    assert (got.even_per_length, got.even, got.point) == pytest.approx((1.2, 1.2 * 680, 13.0))
    assert (got.governed_by, got.point_governed_by) == ("bearing", "pins")
    nails = demand(
        question="nails", curve=Curve(main=np.zeros((1, 4))), always=np.zeros(4),
        sometimes=np.zeros(4), unit=Curve(main=np.array([[0.8, 0.8, 0.01, 0.4]])), per_load=1.0,
    )  # fmt: skip
    got = safe(webs=nails)
    assert (got.even_per_length, got.governed_by) == (pytest.approx(1 / 1.6), "nails")
    # 1 / 0.4 = 2.5 N on the nails, less than the 5 N of the plain beam, which then stands
    assert (got.point, got.point_governed_by) == (5.0, "plain point")


def test_milder_and_graver_go_by_verdict_and_then_by_ratio():
    one, other = Answer(checks=(check(8.0), check(1.0))), Answer(checks=(check(5.0), check(8.5)))
    fails = Answer(checks=(check(11.0),))
    unknown = Answer(checks=(check(None, None, reason="why"), check(9.99)))
    assert frame_shelves.milder(one, other) is one
    assert frame_shelves.graver(one, other) is other
    assert frame_shelves.milder(fails, unknown) is unknown
    assert frame_shelves.graver(unknown, one) is unknown
    assert frame_shelves.milder(unknown, one) is one


# --- standing square -------------------------------------------------------------------------


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


def corners(monkeypatch, kind, words=lambda *_: "15"):
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
    forces[1, :, TURN] = [[100.0, -200.0, 300.0, 400.0, 10.0, -30.0], [9e9] * 6]
    forces[2, :, TURN] = [[-500.0, 0.0, 0.0, 0.0, 5.0, 4.0], [0.0] * 6]
    joints = np.array([[1.0, 1.0], [1.0, np.inf], [1.0, 1.0], [1.0, 1.0]])
    elevation.result = Made(frame=Made(joints=joints), end_forces=forces)
    material = Made(kind=kind, called="board", duration_class="solid", gamma_M_class="solid")
    whole = Made(
        catalogue=Made(material=lambda *_: Made(material=material, thickness=20.0)),
        project=Made(site=Made(service_class=1)),
    )
    asked = []
    monkeypatch.setattr(racking, "design", lambda *given: asked.append(given) or 0.5)
    (got,) = racking._corners(whole, elevation, "a")
    return got, asked[0]


def test_hardest_worked_corner_by_hand(monkeypatch):
    got, (strength, _, service, duration) = corners(monkeypatch, "solid")
    # first corner: 1.35 x 100 + 1.5 x (200 + 300 + 400 / 200) + 1.5 x (150 x 10, or 75 x 30)
    # = 135 + 753 + 3375; the other: 1.35 x 500 + 1.5 x 750 is less. Not that of the rigid end.
    assert got.value == pytest.approx(6 * 4263.0 / (300 * 20**2))
    assert got.governs == f"{figure(4263.0, 'moment')} in the hardest worked corner"
    assert got.limit == 0.5
    assert (got.question, got.measure, got.reason) == ("glued corners hold", "stress", "")
    # 0.4 (EN 338) x (1e7 / (300 x 20^2))^0.2, EN 1995-1-1:2004, 6.4.3
    assert strength == pytest.approx(0.4 * (1e7 / 120000) ** 0.2)
    assert (service, duration) == (1, "short-term")


@pytest.mark.parametrize(("kind", "bond"), [("mdf", 0.55), ("bamboo", 0.4), ("glass", None)])
def test_boards_tear_at_their_bond_whatever_their_volume(monkeypatch, kind, bond):
    _, (strength, *_) = corners(monkeypatch, kind)
    assert strength == bond


# --- criteria --------------------------------------------------------------------------------


def test_sag_allowed_on_spans_and_overhangs():
    limit = replace(
        next(iter(tables.limits().values())),
        ratio=200.0,
        cantilever_ratio=100.0,
        absolute=None,
        applies_to="final",
    )
    lengths, over = np.array([800.0, 400.0, 150.0]), np.array([False, True, True])
    assert criteria.sag_allowed(limit, lengths, over) == pytest.approx([4.0, 4.0, 1.5])
    both = replace(limit, absolute=3.0)
    assert criteria.sag_allowed(both, lengths, over) == pytest.approx([3.0, 3.0, 1.5])
    alike = replace(limit, cantilever_ratio=None)
    assert criteria.sag_allowed(alike, lengths, over) == pytest.approx([4.0, 2.0, 0.75])
    only = replace(limit, ratio=None, absolute=2.5)
    assert criteria.sag_allowed(only, lengths, over) == pytest.approx([2.5] * 3)
    words = criteria.limit_in_words(both)
    assert words == (
        f"{limit.words}: span / 200 and {figure(3.0, 'length')} after years "
        f"({limit.source}; {limit.status})"
    )
    first = criteria.limit_in_words(replace(only, applies_to="instantaneous"))
    assert f": {figure(2.5, 'length')} on the first day (" in first


CASES = [
    case("self", duration="permanent"), case("landing dead", duration="permanent"),
    case("contents"), case("spot", duration="medium-term"), case("spot", duration="short-term"),
    case("landing"), case("even"), case("point"),
]  # fmt: skip


def test_factors_of_every_kind_and_duration():
    beam = Made(cases=CASES)
    always, sometimes = criteria.sag_factors(beam, 0.5)
    # psi_2 1, 1, 1, 0.3, 0 (EN 1990 Table A1.1, contents as always there)
    assert always == pytest.approx([1.5, 1.5, 0, 0, 0, 0, 0, 0])
    assert sometimes == pytest.approx([0, 0, 1.5, 1.15, 1.0, 1.5, 0, 0])
    # EN 1990 eq. (6.10): 1.35 and 1.5, on what lasts as long
    for duration, lasting in (
        ("permanent", [0, 0, 0, 0]), ("long-term", [1.5, 0, 0, 1.5]),
        ("medium-term", [1.5, 1.5, 0, 1.5]), ("short-term", [1.5, 1.5, 1.5, 1.5]),
    ):  # fmt: skip
        always, sometimes = criteria.strength_factors(beam, duration)
        assert always == pytest.approx([1.35, 1.35, 0, 0, 0, 0, 0, 0])
        assert sometimes == pytest.approx([0, 0, *lasting, 0, 0])


def test_design_strength_by_hand():
    plywood = tables.material("birch-plywood", 18.0).material
    # plywood 0.6, 0.7, 0.8, 0.9 in class 2 (EN 1995-1-1:2004, Table 3.1), gamma_M 1.2 (Table 2.3)
    for duration, kmod in (("permanent", 0.6), ("long-term", 0.7), ("medium-term", 0.8),
                           ("short-term", 0.9)):  # fmt: skip
        assert criteria.design(24.0, plywood, 2, duration) == pytest.approx(24 * kmod / 1.2)
    assert criteria.design(24.0, plywood, 3, "long-term") == pytest.approx(24 * 0.55 / 1.2)
    assert criteria.design(None, plywood, 1, "long-term") == "no strength is published"
    hardboard = tables.material("hardboard", 3.2).material
    assert "allows no long-term load in service class 3" in criteria.design(
        24.0, hardboard, 3, "long-term"
    )


# --- safe loads ------------------------------------------------------------------------------


@pytest.mark.parametrize("estimate", [0.01, 1.0, 8.0, 900.0])
def test_largest_load_from_any_first_guess(estimate):
    def two(load):  # the first rules up to 4, the other from there: 1 at the square root of 32
        return max((0.2 + 0.075 * load, "sag"), (load**2 / 32, "bending"))

    load, whose = safe_load.largest_load(two, estimate)
    assert load == pytest.approx(32**0.5, rel=1e-6)
    assert whose == "bending"


def test_largest_load_at_its_ends():
    def steady(ratio):
        return lambda load: (ratio + load, "sag") if ratio is not None else (0.0, "nothing")

    assert safe_load.largest_load(steady(1.0), 1.0) == (0.0, "sag")
    assert safe_load.largest_load(steady(1.5), 1.0) == (0.0, "sag")
    assert safe_load.largest_load(steady(0.25), 0.75) == (0.75, "sag")
    endless, whose = safe_load.largest_load(steady(None), 1.0)
    assert endless >= 1e9
    assert whose == "nothing"


def test_safe_loads_bay_by_bay():
    bays = [Made(name="bay 1", start=0.0, end=300.0), Made(name="bay 2", start=320.0, end=1000.0)]
    cases = [case("even", bay=0), case("even", bay=1), case("point", bay=0), case("point", bay=1),
             case("contents", bay=0)]  # fmt: skip
    beam = Made(place=PLACE, bays=bays, cases=cases)
    weights = np.array([2.0, 3.0, 50.0, 70.0, 999.0])
    one, two = safe_load.bay_by_bay(beam, [], lambda u: (float(u @ weights), f"{u @ weights:g}"))
    assert (one.even_per_length, one.even, one.point) == (5.0, 1500.0, 50.0)
    assert (two.even_per_length, two.even, two.point) == (5.0, 3400.0, 70.0)
    assert (two.governed_by, two.point_governed_by) == ("5", "70")
    assert [load.place.bay for load in (one, two)] == ["bay 1", "bay 2"]
    gaps = [Unanswered(question=q, reason=f"{q} why", source="") for q in ("shear", "bending")]
    for load in safe_load.bay_by_bay(beam, gaps, lambda _: (1.0, "")):
        assert (load.reason, load.even, load.point) == ("shear: shear why", None, None)


def test_lower_safe_load_of_two_bay_by_bay():
    def load(even, point, by):
        return SafeLoad(place=PLACE, even=even, even_per_length=even / 500, point=point,
                        governed_by=by, point_governed_by=f"{by} point")  # fmt: skip

    (got,) = plates.least_of([load(200.0, 70.0, "a")], [load(300.0, 60.0, "b")])
    assert got == replace(load(200.0, 60.0, "a"), point_governed_by="b point")
    (got,) = plates.least_of([load(300.0, 60.0, "a")], [load(200.0, 70.0, "b")])
    assert got == replace(load(200.0, 60.0, "b"), point_governed_by="a point")
    unknown = SafeLoad(place=PLACE, reason="why")
    other = SafeLoad(place=PLACE, reason="other")
    assert plates.least_of([unknown], [load(1.0, 1.0, "b")]) == (unknown,)
    assert plates.least_of([load(1.0, 1.0, "a")], [unknown]) == (unknown,)
    assert plates.least_of([unknown], [other]) == (unknown,)


# --- plates ----------------------------------------------------------------------------------


def plate_demand(*curves, **more):
    given = {
        "question": "bending", "method": "plate", "source": "6.1.6", "governs": "board",
        "always": np.array([1.0, 0.0]), "sometimes": np.array([0.0, 1.5]), "per_load": 1.5,
        "limit": np.array([20.0, 10.0]), "measure": "stress",
    }  # fmt: skip
    return plate_demands.Demand(curves=tuple(map(np.array, curves)), **{**given, **more})


def test_stresses_both_ways_and_in_twist_add_up_by_norris():
    one, other, twist = [[0.3, 0.2]], [[0.4, 0.0]], [[0.0, -0.4]]
    # 0.3 + 1.5 x 0.2 = 0.6, 0.4, 0.6: squares 0.36 + 0.16 + 0.36; same sign, nothing more
    got = plate_demand(one, other, twist)
    assert got.ratios(got.sometimes) == pytest.approx([0.88**0.5])
    # of opposite signs: 0.6 x 0.4 more
    got = plate_demand(one, [[-0.4, 0.0]], twist)
    assert got.ratios(got.sometimes) == pytest.approx([1.12**0.5])
    got = plate_demand([[-0.3, -0.2]], other, twist)
    assert got.ratios(got.sometimes) == pytest.approx([1.12**0.5])
    # one alone is its own size, by the graver pattern: |0.1 - 1.5 x 0.4|
    got = plate_demand([[0.1, -0.4]])
    assert got.ratios(got.sometimes) == pytest.approx([0.5])


def test_check_of_a_plate_at_its_worst_point():
    plate = Made(words="plate", first_day=Made(w=np.array([[1.0, 2.0], [3.0, 4.0]])))
    got = plates._check(Made(place=PLACE), plate, plate_demand([[0.1, 0.2], [0.2, 0.4]]), [])
    # 0.2 + 1.5 x 0.4 = 0.8 of the 10 of the second point
    assert (got.value, got.limit) == pytest.approx((8.0, 10.0))
    assert (got.governs, got.method, got.source, got.measure) == (
        "board", "plate", "6.1.6", "stress",
    )  # fmt: skip
    sag = plate_demand([[0.1, 0.2], [0.2, 0.4]], question="sag after years", measure="length")
    got = plates._check(Made(place=PLACE), plate, sag, [check(5.0, question="x"), check(7.0)])
    # first day: 1 x 3 + 1.5 x 4
    assert got.governs == (
        f"plate; first day {figure(9.0, 'length')}; a plain beam would give {figure(7.0, 'length')}"
    )


@pytest.mark.parametrize(("value", "breaks"), [(10.0, False), (10.01, True), (19.0, True)])
def test_only_more_than_its_strength_breaks(value, breaks):
    for question in ("bearing", "bending", "shear", "rolling shear"):
        assert plates._breaks(check(value, question=question)) is breaks
    assert not plates._breaks(check(99.0))


def test_pins_of_a_plate_and_back_on_its_fasteners_by_hand(monkeypatch):
    beam = Made(
        place=PLACE, held_down=False, cases=[case("self"), case("contents")],
        weights=lambda kinds: np.array([kinds.get("self", 0.0), kinds.get("contents", 0.0)]),
    )  # fmt: skip
    first = Made(corners=np.array([[10.0, -2.0], [10.0, -8.0]]), rear=np.array([[2.0, 1.0]]))
    crept = Made(corners=np.array([[10.0, -7.0], [50.0, 60.0]]), rear=np.array([[3.0, -4.0]]))
    plate = Made(model="pins", words="four pins", first_day=first, crept=crept,
                 hold=Made(spacing=80.0))  # fmt: skip
    # 0.9 x 10 - 1.5 x 8 = -3
    (got,) = plates._lifting_off(beam, plate)
    assert got.verdict is Verdict.NOT_CHECKED
    assert got.reason == (
        f"the shelf lifts off a pin: a fixing that holds {figure(3.0, 'force')} is needed and "
        "none is described"
    )
    first.corners[1, 1] = -6.0  # 0.9 x 10 - 1.5 x 6 = 0; after years 9 - 10.5 = -1.5
    assert figure(1.5, "force") in plates._lifting_off(beam, plate)[0].reason
    crept.corners[0, 1] = -6.0
    assert plates._lifting_off(beam, plate) == []
    # new 1.35 x 2 + 1.5 = 4.2, after years 1.35 x 3 = 4.05; every 80 mm
    assert plates.back_force(beam, plate) == pytest.approx(4.2 * 80)
    plate.hold.spacing = None
    assert plates.back_force(beam, plate) == pytest.approx(4.2)


def test_stress_of_the_plain_beam_where_a_plate_is_milder():
    def stressed(value, question):
        return check(value, question=question, measure="stress")

    mine = [stressed(5.0, "bending"), stressed(8.0, "shear"), check(3.0)]
    beam = [stressed(6.0, "bending"), stressed(7.0, "shear"), check(9.0)]
    assert plates._no_milder(mine, beam) == [beam[0], mine[1], mine[2]]


def test_plate_that_asks_no_more_than_its_beam():
    fails = check(12.0)
    assert plates.only_helps([check(9.0), fails], [check(12.0)])
    assert not plates.only_helps([fails], [check(11.9)])
    assert not plates.only_helps([fails], [])
    assert plates.only_helps([replace(fails, question=plates.FIXINGS_OF_THE_BACK)], [])


def test_pressure_of_pins_by_hand():
    plate = Made(model="pins", words="four pins", first_day=Made(corners=np.array([[40.0, 80.0]])),
                 crept=Made(corners=np.array([[60.0, 20.0]])))  # fmt: skip
    asked = criterion("reaction", question="bearing")
    got = plate_demands._bearing(Made(), plate, asked)
    # a pin of 5 mm (the common size) on 16 mm, 4 x 0.5 = 2 MPa
    area = plate_demands.PIN * 16.0
    assert got.curves[0] == pytest.approx(np.array([[40, 80], [60, 20]]) / (area * 2.0))
    assert got.limit == pytest.approx([2.0, 2.0])
    assert got.question == "bearing on pins"
    assert got.method == "four pins; factored loads"
    assert (got.source, got.per_load, got.measure) == ("6.1.6", 1.5, "stress")


def test_safe_load_of_a_plate_keeps_people_and_uprights():
    cases = [case("self"), case("contents"), case("spot"), case("landing"), case("even", bay=0),
             case("point", bay=0)]  # fmt: skip
    beam = Made(place=PLACE, cases=cases, bays=[Made(name="bay 1", start=10.0, end=510.0)])
    asked = plate_demand(
        [[0.1, 0.9, 0.02, 0.04, 0.3, 0.05]], always=np.array([1.0, 0, 0, 0, 0, 0]),
        sometimes=np.array([0, 1.5, 1.5, 1.5, 0, 0]),
    )  # fmt: skip
    never = replace(asked, per_load=0.0, curves=(99.0 * asked.curves[0],))
    (got,) = plate_safe_load.plate_safe_loads(beam, [asked, never])
    # 1 - 0.1 - 1.5 x 0.06 = 0.81
    assert got.even_per_length == pytest.approx(0.81 / 0.45)
    assert got.even == pytest.approx(0.81 / 0.45 * 500)
    assert got.point == pytest.approx(0.81 / 0.075)


# --- shelves, and ends said to be clamped ----------------------------------------------------


def test_graver_of_two_durations():
    assert shelves._graver(check(9.0), check(8.0))
    assert not shelves._graver(check(8.0), check(8.0))
    unknown = check(None, None, reason="why")
    assert shelves._graver(unknown, check(99.0))
    assert not shelves._graver(check(99.0), unknown)


def test_peaks_of_every_curve():
    extremes = Made(
        w_max=np.array([3.0, 1.0]), w_min=np.array([-1.0, -2.0]),
        M_abs_max=np.array([5.0]), V_abs_max=np.array([6.0]),
    )  # fmt: skip
    env = Made(extremes=extremes, reaction_max=np.array([7.0, -8.0]))
    peaks = {
        curve: list(shelves.curve_peaks(env, Made(curve=curve)))
        for curve in ("sag", "moment", "shear", "reaction")
    }
    assert peaks == {"sag": [3, 2], "moment": [5], "shear": [6], "reaction": [7, 0]}


def test_only_clamped_ends_are_no_pass_and_no_fail():
    free, held = check(12.0), check(10.0, method="clamped beam")
    got = clamped._both(free, held)
    assert (got.verdict, got.value, got.limit) == (Verdict.NOT_CHECKED, None, None)
    for shown in (12.0, 10.0):
        assert figure(shown, "length") in got.reason
    assert clamped._both(free, check(10.01)) == free
    assert clamped._both(check(10.0), check(9.0)) == check(10.0)
    # more with clamped ends: that figure, whether it passes or not
    worse = clamped._both(check(5.0), check(6.0))
    assert worse == check(6.0, method="beam, ends clamped")
    assert clamped._both(check(6.0), check(6.0)) == check(6.0)
    assert clamped._both(free, None) == free
    assert clamped._both(free, check(None, None, reason="why")) == free
