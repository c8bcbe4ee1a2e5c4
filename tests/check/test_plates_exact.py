"""What is asked of shelves that bend as plates, on made-up fields worked by hand."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace as Made

import numpy as np
import pytest
from made_up import PLACE, board_plate, case, check, criterion, plate_demand

from shelfload import tables
from shelfload.check import (
    criteria,
    plate_demands,
    plate_safe_load,
    plates,
)
from shelfload.check.criteria import Unanswered
from shelfload.check.result import Answer, SafeLoad, Verdict
from shelfload.wording import figure


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
    assert plate_safe_load.plate_safe_loads(beam, [never])[0].even_per_length >= 1e9


def test_bending_both_ways_and_twist_of_a_board_by_hand():
    beam, plate = board_plate()
    (found,) = plate_demands._across(beam, plate, "long-term")
    row = beam.shape.pieces[0].material
    new, old, d = plate.first_day, plate.crept, 0.7 / 1.2  # plywood: k_mod 0.7, gamma_M 1.2
    along, across, twist = found.curves
    W = 300 * 17.6**2 / 6
    assert along == pytest.approx(np.concatenate([new.M_x, old.M_x]) * 300 / W / (row.f_m_0 * d))
    assert across == pytest.approx(np.concatenate([new.M_y, old.M_y]) * 0.02 / (row.f_m_90 * d))
    assert twist == pytest.approx(np.concatenate([new.M_xy, old.M_xy]) * 0.03 / (row.f_v * d))
    assert found.question == "bending both ways and twist"
    assert found.per_load == 1.5
    assert (found.limit.tolist(), found.measure, found.governs) == ([1.0] * 4, "ratio", row.called)
    assert list(found.always) == [1.35, 0, 0, 0]
    assert list(found.sometimes) == [0, 1.5, 0, 0]
    assert found.source == "own choice, after Norris's criterion; loads EN 1990 eq. (6.10)"
    assert "plate; factored loads, long-term load" in found.method
    (lasting,) = plate_demands._across(beam, plate, "permanent")
    assert lasting.per_load == 0.0
    assert lasting.curves[0] == pytest.approx(along * 0.7 / 0.6)


def test_unknown_strength_across_is_asked_of_plates_without_a_back():
    beam, plate = board_plate("european-oak")
    (found,) = plate_demands._across(beam, plate, "long-term")
    assert found.question == "bending both ways and twist"
    assert found.reason.endswith("across the grain or in twist, no strength is published")
    assert found.source == "own choice, after Norris's criterion"
    plate.model = "three edges"
    assert plate_demands._across(beam, plate, "long-term") == []


def test_curves_of_a_plate_over_those_of_its_beam_by_hand():
    beam, plate = board_plate(sag_after_years=np.array([[7.0] * 4, [9.0] * 4]))
    asked = criteria.criteria(beam, next(iter(tables.limits().values())))
    sag = next(one for one in asked if one.curve == "sag")
    bending, shear = (
        next(one for one in asked if (one.curve, one.duration) == (curve, "long-term"))
        for curve in ("moment", "shear")
    )
    new, old, row = plate.first_day, plate.crept, beam.shape.pieces[0].material
    got = plate_demands._sag(beam, plate, sag)
    w = plate.sag_after_years if sag.question == "sag after years" else new.w
    assert got.curves[0] == pytest.approx(w / sag.allowed[0])
    assert got.limit == pytest.approx([sag.allowed[0]] * 2)
    assert (list(got.always), list(got.sometimes)) == ([1, 0, 0, 0], [0, 1, 0, 0])
    first = plate_demands._sag(beam, plate, replace(sag, question="sag on the first day"))
    assert first.curves[0] == pytest.approx(new.w / sag.allowed[0])
    assert first.method == "plate"
    assert (first.per_load, first.measure, first.governs) == (1.0, "length", "")
    assert first.source == sag.source
    W, d = 300 * 17.6**2 / 6, 0.7 / 1.2
    got = plate_demands._along(plate, bending)
    M = np.concatenate([new.M_x, old.M_x]) * 300
    assert got.curves[0] == pytest.approx(M / W / (row.f_m_0 * d))
    assert got.limit == pytest.approx([row.f_m_0 * d] * 4)
    assert got.method == "plate; factored loads, long-term load"
    # 1.5 Q / t, along by the strength along, across by the one across
    got = plate_demands._shear(beam, plate, shear)
    Q = np.concatenate([new.Q, old.Q]) * 1.5 / 17.6
    assert got.curves[0] == pytest.approx(
        np.concatenate([Q[:, 0] / (row.f_r_0 * d), Q[:, 1] / (row.f_r_90 * d)])
    )
    assert got.limit == pytest.approx([row.f_r_0 * d] * 8)


def test_line_load_on_a_back_by_hand():
    beam, plate = board_plate(hold=Made(shear_allowed=2.5, words="back"))
    got = plate_demands._back(beam, plate, "long-term")
    both = np.stack([plate.first_day.back, plate.crept.back])
    assert got.curves[0] == pytest.approx(both / 906 / 2.5)  # 900 mm and half of 6 mm at each end
    assert got.limit == pytest.approx([2.5, 2.5])
    assert (got.question, got.measure, got.per_load) == ("back as a shear panel", "line load", 1.5)
    assert plate_demands._back(beam, plate, "permanent").per_load == 0.0
    assert (list(got.always), list(got.sometimes)) == ([1.35, 0, 0, 0], [0, 1.5, 0, 0])


def test_plain_bending_where_the_strength_across_is_unknown():
    beam, _ = board_plate("european-oak")
    asked = next(
        one for one in criteria.criteria(beam, next(iter(tables.limits().values())))
        if (one.curve, one.duration) == ("moment", "long-term")
    )  # fmt: skip
    got = plate_demands._plain_bending(beam, asked)
    assert plate_demands._unknown_across(beam)
    # 1 N/mm on 900 of 906 mm, and 1 N at mid-span, both on two supports
    most = np.abs(got.curves[0]).max(axis=0)[2:] * asked.allowed[0]
    assert most == pytest.approx([450 * 453 - 450 * 225, 906 / 4], rel=1e-9)
    assert got.limit == pytest.approx([float(asked.allowed[0] * asked.scale[0])] * 97)
    assert got.method == "plain beam, as no strength across the grain is published; " + asked.method
    assert (got.source, got.governs, got.question) == (asked.source, asked.governs, "bending")
    assert (got.per_load, got.measure) == (1.5, "stress")


def test_back_without_which_a_shelf_would_break_by_hand(monkeypatch):
    monkeypatch.setattr(plates, "back_force", lambda beam, plate: beam.force + plate.force)
    beam = Made(place=PLACE, force=3.0)
    plate = Made(hold=Made(spacing=80.0), words="three edges", force=4.0)
    breaks = [check(9.0), check(11.0, question="shear", measure="stress")]
    (got,) = plates._fixings(beam, plate, breaks)
    assert (got.question, got.measure, got.method) == (
        "fixings of the back",
        "force",
        "three edges",
    )
    assert got.source == "EN 1995-1-1:2004, 8.3"
    assert got.reason.endswith(f"they must carry {figure(7.0, 'force')} each")
    plate.hold.spacing = None
    assert plates._fixings(beam, plate, breaks)[0].reason.endswith(
        f"they must carry {figure(7.0, 'line load')} for each length"
    )
    assert plates._fixings(beam, plate, breaks[:1]) == []
    plate.hold = None
    assert plates._fixings(beam, plate, breaks) == []


@pytest.mark.parametrize(
    ("mine", "theirs", "more"),
    [(8.0, 8.9, None), (8.0, 12.0, ""), (12.0, 8.0, "; the front edge under its load"),
     (9.5, 8.0, "; the front edge under its load"), (12.0, 12.0, "")],
)  # fmt: skip
def test_what_a_beam_would_have_said(mine, theirs, more):
    bays = [Made(load=Made(points=(), line=())), Made(load=Made(points=(1,), line=()))]
    plate = Made(words="plate", reason="its back holds it", model="three edges")
    beam = Made(place=PLACE, bays=bays)
    other = check(1.0, question="bending", measure="stress")
    told = plates.model_sentences(beam, plate, [other, check(mine)], [other, check(theirs)])
    assert told[0] == (PLACE, "plate, because its back holds it")
    if more is None:
        assert len(told) == 1
        return
    ((_, text),) = told[1:]
    start = (
        f"sag {figure(mine, 'length')}, {check(mine).verdict.value}; as a plain beam "
        f"{figure(theirs, 'length')}, {check(theirs).verdict.value} "
        f"(allowed {figure(10.0, 'length')})"
    )
    assert text.startswith(start + more)
    if not more:
        assert text == start
    else:
        bays[1].load.points = ()
        again = plates.model_sentences(beam, plate, [check(mine)], [check(theirs)])
        assert "short deep shelf" in again[1][1]
    unknown = check(None, None, reason="why")
    both = ([unknown, check(mine)], [unknown, check(theirs)])
    assert len(plates.model_sentences(beam, plate, *both)) == 2
    assert len(plates.model_sentences(beam, plate, [unknown], [check(theirs)])) == 1
    assert len(plates.model_sentences(beam, plate, [check(mine)], [])) == 1


def test_graver_duration_of_a_plate_and_what_is_kept_of_its_beam():
    plate = Made(model="two ends", words="plate", hold=None)
    beam = Made(place=PLACE)
    low, high = plate_demand([[0.1, 0.0]]), plate_demand([[0.3, 0.0]], source="graver")
    gap = Unanswered(question="bending", reason="why", source="6.1.6")
    held = check(None, None, question="held down on its supports", reason="lifts")
    plain = [check(), held]
    for demands in ([low, high], [high, low]):
        graver, kept = plates.plate_checks(beam, plate, demands, plain)
        assert (graver.source, graver.place, kept) == ("graver", PLACE, held)
    for demands in ([high, gap], [gap, high]):
        unknown, _ = plates.plate_checks(beam, plate, demands, plain)
        assert (unknown.reason, unknown.value, unknown.measure) == ("why", None, "stress")


def test_corner_of_a_sector_that_lifts():
    beam = Made(
        place=PLACE, held_down=False, cases=[case("self")],
        weights=lambda kinds: np.array([kinds.get("self", 0.0)]),
    )  # fmt: skip
    response = Made(corners=np.array([[5.0], [-2.0]]))
    plate = Made(model="sector", words="sector", first_day=response, crept=response)
    (got,) = plates._lifting_off(beam, plate)
    assert got.reason.startswith(
        f"the shelf lifts off a corner of an end: a fixing that holds {figure(1.8, 'force')}"
    )
    beam.held_down = True
    assert plates._lifting_off(beam, plate) == []
    plate.model = "pins"  # nothing holds a shelf down on pins
    assert len(plates._lifting_off(beam, plate)) == 1
    plate.model = "three edges"
    assert plates._lifting_off(beam, plate) == []


def test_pressure_at_the_ends_of_a_sector_by_hand():
    def response(a, b, quarters):
        return Made(supports=np.array([[a], [b]]), quarters=np.array(quarters)[:, :, None])

    plate = Made(model="sector", words="sector", first_day=response(8.0, 12.0, [[1, 3], [2, 5]]),
                 crept=response(9.0, 11.0, [[4, 6], [7, 8]]))  # fmt: skip
    asked = criterion("reaction", allowed=np.array([4.0, 2.0]), scale=np.array([0.5, 1.0]))
    beam = Made(result=Made(reactions=np.ones((1, 2))))
    got = plate_demands._bearing(beam, plate, asked)
    # whole ends, then their quarters four times, over 4 and 2, new and after years
    assert got.curves[0].ravel() == pytest.approx([2, 6, 1, 4, 3, 10, 2.25, 5.5, 4, 14, 6, 16])
    assert got.method == "factored loads"
    assert got.limit == pytest.approx([2.0] * 12)


def test_every_question_of_a_plate_for_every_duration():
    beam, plate = board_plate(sag_after_years=np.zeros((2, 4)))
    asked = criteria.criteria(beam, next(iter(tables.limits().values())))
    of_beam = [one.question for one in asked]
    assert plate_demands._durations(beam) == ["permanent", "long-term"]
    both_ways = "bending both ways and twist"
    found = [one.question for one in plate_demands.plate_demands(beam, plate, asked)]
    assert found == [*of_beam, both_ways, both_ways]
    plate.hold = Made(shear_allowed=2.5, words="back")
    found = [one.question for one in plate_demands.plate_demands(beam, plate, asked)]
    assert found == [*of_beam, *2 * (both_ways, "back as a shear panel")]
    gap = Unanswered(question="shear", reason="why", source="")
    assert plate_demands.plate_demands(beam, plate, [gap])[0] is gap
    people = Made(cases=[Made(kind=kind, duration=duration) for kind, duration in (
        ("spot", "short-term"), ("even", "permanent"), ("spot", "medium-term"),
        ("point", "permanent"), ("contents", "long-term"))])  # fmt: skip
    assert plate_demands._durations(people) == ["long-term", "medium-term", "short-term"]


def plate_answered(monkeypatch, own, plain, *, model="three edges", edge=False):
    def load(size):
        return SafeLoad(place=PLACE, even=size, even_per_length=size, point=size)

    beam = Made(place=PLACE)
    plate = Made(model=model, hold=Made(), hold_words="nailed back", said=("said",))
    demands = [
        plate_demand([[0.1, 0.0]]),
        plate_demand([[0.1, 0.0]], question="back as a shear panel"),
    ]
    for name, does in {
        "plate_demands": lambda *_: demands,
        "plate_checks": lambda *given: list(own) if given[2:] == (demands, plain) else None,
        "plate_safe_loads": lambda _, asked: [load(10.0 * len(asked))],
        "safe_loads": lambda _, asked: [load(5.0 * len(asked))],
        "on_an_edge": lambda _: edge,
        "model_sentences": lambda *_: [(PLACE, "plate")],
    }.items():  # fmt: skip
        monkeypatch.setattr(plates, name, does)
    asked = [criterion("sag"), criterion(), criterion("shear")]
    before = Answer(checks=plain, safe_loads=(load(13.0),), assumptions=("plain",))
    return plates.plate_answer(beam, plate, asked, before)


def test_back_in_doubt_is_left_out_where_the_plain_beam_passes(monkeypatch):
    buckles = check(12.0, question="back as a shear panel", measure="line load")
    plain = (check(9.0),)
    got = plate_answered(monkeypatch, [check(8.0), buckles], plain)
    assert got.checks == plain
    assert got.safe_loads[0].even == 10.0  # by all but the back, 13 by the plain beam
    assert got.models == ((PLACE, "a plain beam, which passes; not counted is its nailed back"),)
    sound = plate_answered(monkeypatch, [check(8.0)], plain)
    assert sound.checks == (check(8.0),)
    # by both demands 20, by its ends alone 2 x 5: nothing but sag is asked of the bare beam
    assert sound.safe_loads[0].even == 10.0
    assert sound.assumptions == ("plain", "said")
    assert sound.models == ((PLACE, "plate"),)
    for own, beam, more in (
        ([check(11.0), buckles], plain, {}),  # more than the back is in doubt
        ([buckles], (check(11.0),), {}),  # the plain beam fails too
        ([buckles], plain, {"edge": True}),
        ([buckles], plain, {"model": "pins"}),
    ):
        assert plate_answered(monkeypatch, own, beam, **more).checks == tuple(own)
