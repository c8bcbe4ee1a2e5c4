"""Shelves judged by the frame: its demands, bounds and safe loads on curves worked by hand."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace as Made

import numpy as np
import pytest
from described import findings, unit
from made_up import PLACE, case, check, criterion, demand, factors_of

from shelfload.check import (
    frame_demand,
    frame_shelves,
)
from shelfload.check.criteria import Unanswered
from shelfload.check.frame_demand import Curve
from shelfload.check.result import Answer, SafeLoad
from shelfload.solve.frame_model import DOWN
from shelfload.wording import figure


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
    given = []
    monkeypatch.setattr(
        frame_demand, "_unit_loads", lambda *of, aged: given.append((*of, aged)) or unit
    )
    relied = frame_demand.fastener_demand(
        "whole", part, "beam", Made(shear_flow=flow), frame_shelves.RELIED_ON
    )
    assert given == [("whole", part, "beam", False)]
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
    unknown = SafeLoad(place=PLACE, reason="why")
    assert (safe(caps=[unknown]).even, safe(caps=[unknown]).point) == (0.0, 0.0)
    nails = demand(
        question="nails",
        curve=Curve(main=np.array([[0.0, 0.3, 0.1, 0.0]])),
        unit=Curve(main=np.array([[0.8, 0.8, 0.01, 0.4]])),
        always=np.zeros(4),
        sometimes=np.ones(4),
        per_load=1.0,
    )
    got = safe(webs=nails)
    # 0.9 is left by what stands on the other shelf
    assert (got.even_per_length, got.governed_by) == (pytest.approx(0.9 / 1.6), "nails")
    # 0.9 / 0.4 = 2.25 N on the nails, less than the 5 N of the plain beam, which then stands
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


def test_shelves_between_dividers_are_pieces_of_their_line():
    made = unit(heights=(300, 500), bays=(300, 500, 200), shelf={"runs": "between"}, base="plinth")
    whole = findings(made).whole
    parts = [frame_demand.part_of(whole, beam) for beam in whole.beams]
    # middles of 20 mm uprights
    x = [10.0, 330.0, 850.0, 1070.0]
    ends = [[part.plan.nodes[node][0] for node in part.nodes] for part in parts]
    assert ends == [x[n : n + 2] for n in (0, 1, 2)] * 3
    assert [len(part.members) for part in parts] == [1] * 9
    for part in parts:
        assert [part.plan.members[n] for n in part.members] == [part.nodes]
        assert not part.carries
        assert not part.sinks
    through = findings(unit(bays=(300, 500, 200), shelf={"runs": "through"}, base="plinth")).whole
    bottom, top = (frame_demand.part_of(through, beam) for beam in through.beams)
    for part in (bottom, top):
        assert [part.plan.nodes[node][0] for node in part.nodes] == x
        assert len(part.members) == 3


def answered(monkeypatch, part, overworked="", tied=True):
    """A shelf by the frame, its parts replaced by ones that note what they were asked."""
    seen = {"checks": [], "safe": [], "webs": []}
    lift = SafeLoad(place=PLACE, even=1.0, even_per_length=1.0, point=1.0)
    beam = Made(place=PLACE, cases=[case("self"), case("landing dead"), case("contents")])
    asked = [criterion(always=np.ones(3), sometimes=np.ones(3)),
             criterion("reaction", always=np.ones(3), sometimes=np.ones(3)),
             Unanswered(question="shear", reason="why", source="")]  # fmt: skip
    part.elevation.under_weight = lambda aged=False: "old" if aged else "new"
    for name, does in {
        "part_of": lambda _whole, of: part if of is beam else None,
        "_force_on_fastener": lambda of, result: overworked if (of, result) == (part, "new") else 1,
        "frame_demands": lambda *given: [given],
        "_tied": lambda *_: tied,
        "shelf_checks": lambda _beam, bound: seen["checks"].append(bound) or [check(4.0)],
        "safe_loads": lambda _beam, bound: seen["safe"].append(bound) or [lift],
        "fastener_demand": lambda *given: seen["webs"].append(given) or "webs",
        "_judged": lambda *given: replace(given[1], value=7.0, method=str(len(given[3])))
        if given[4] == overworked and given[2][0][1] is part else None,
        "_safe": lambda *given: replace(given[3], even=float(len(given[5])), point=2.0,
                                        governed_by=str(given[6])),
        "_joints_shown": lambda of: "joints" if of is part else "",
    }.items():  # fmt: skip
        monkeypatch.setattr(frame_shelves, name, does)
    plain = Answer(checks=(check(9.0),), safe_loads=(lift,), models=((PLACE, "plain"),))
    got = frame_shelves.frame_answer("whole", beam, asked, plain)
    return got, seen, asked, plain


def test_answer_of_the_frame_from_its_parts(monkeypatch):
    part = part_made()
    got, seen, asked, _ = answered(monkeypatch, part)
    assert got.checks == (check(7.0, method="0"),)
    assert seen["checks"] == []  # tied, and its fasteners hold: no bound
    assert seen["safe"] == [asked[1:]]
    assert seen["webs"][0][:2] == ("whole", part)
    assert seen["webs"][0][3:] == ("new", frame_shelves.RELIED_ON)
    (safe_load_found,) = got.safe_loads
    assert (safe_load_found.even, safe_load_found.governed_by) == (1.0, "webs")
    assert got.models == (
        (PLACE, "plain"),
        (PLACE, "elevation frame, because what stands on its open span helps to carry it: "
         f"sag after years {figure(7.0, 'length')}, as a beam of its own "
         f"{figure(9.0, 'length')} where {figure(10.0, 'length')} is allowed; joints"),
    )  # fmt: skip


def test_bounds_of_the_frame_by_what_is_tied_and_overworked(monkeypatch):
    got, seen, asked, _ = answered(monkeypatch, part_made(), tied=False)
    (bound,) = seen["checks"]
    # what has landed on it is let go of
    assert list(bound[0].always) == list(bound[0].sometimes) == [1, 0, 1]
    assert bound[2] is asked[2]
    assert seen["safe"] == [asked[1:], bound]
    assert got.checks[0].method == "1"
    got, seen, asked, _ = answered(monkeypatch, part_made(), overworked="too much")
    assert seen["checks"] == [asked]
    assert seen["webs"] == []
    assert got.safe_loads[0].governed_by == "None"
    got, seen, asked, _ = answered(monkeypatch, part_made(carries=False, sinks=True))
    assert seen["checks"] == [asked]
    assert seen["webs"] == []
    assert not got.models[1][1].endswith("joints")
    got, _, _, plain = answered(monkeypatch, part_made(carries=False))
    assert got is plain


@pytest.mark.parametrize(
    ("loose", "corners", "holds", "number", "tied"),
    [
        (True, "glued", "shelves", 1, False),
        (False, "glued", None, 1, True),
        (False, "pinned", "shelves", 1, True),
        (False, "pinned", "edges", 1, False),
        (False, "pinned", None, 1, False),
        (False, "pinned", "shelves", 2, False),  # the top panel: no level above it
    ],
)
def test_what_ties_a_shelf_to_what_stands_on_it(monkeypatch, loose, corners, holds, number, tied):
    box = Made(level=["first", "second"], corners=corners)
    back = {"first": None, "second": None if holds is None else Made(holds=holds)}
    monkeypatch.setattr(frame_shelves, "horizontal", lambda *of: Made(loose=loose and of[1] == 1))
    monkeypatch.setattr(frame_shelves, "back_of", lambda _, level: back[level])
    whole = Made(placed={"box": Made(unit=box)})
    part = Made(line=Made(unit="box", number=number))
    assert frame_shelves._tied(whole, part) is tied
