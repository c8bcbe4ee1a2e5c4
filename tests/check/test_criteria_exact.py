"""Criteria, shelves, safe loads and clamped ends on figures worked by hand."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace as Made

import numpy as np
import pytest
from described import PER_AREA, G, findings, the
from made_up import PLACE, board_plate, case, check

from shelfload import tables
from shelfload.check import (
    clamped,
    criteria,
    safe_load,
    shelves,
)
from shelfload.check.criteria import Unanswered
from shelfload.check.result import Verdict
from shelfload.wording import figure, size


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


def two_spans(**more):
    shelf = {"material": "board", "thickness": "20 mm", "bearing": "10 mm"}
    return findings(shelf=[{"name": "s", "depth": "300 mm", "spans": ["400 mm", "800 mm"],
                            "shelf": shelf, "contents": {"load": "20 kg/m"}, **more}])  # fmt: skip


def turned(w, start, end, L):
    """EI times the turn that a load from start to end, from the far support, gives at this one."""
    return w / (6 * L) * (L**2 * (end**2 - start**2) / 2 - (end**4 - start**4) / 4)


def test_shelf_on_three_supports_by_hand():
    # 400 + 5 + 10 and 800 + 5 + 10 between supports 10, 20 and 10 long; equation of three
    # moments (Timoshenko, Strength of Materials I), with M / (GA L) more turn by shear
    L, M, EI, GA = (415.0, 815.0), {}, 10000 * 300 * 20**3 / 12, 500 * 300 * 20 * 5 / 6
    own, load = PER_AREA * 300, 20e-3 * G
    soft = (sum(L) / 3 / EI + (1 / L[0] + 1 / L[1]) / GA) * EI
    for n in (0, 1):
        M["own", n] = turned(own, 0, L[n], L[n]) / soft
        M["load", n] = turned(load, 5, L[n] - 10, L[n]) / soft
    middle = 1.35 * (M["own", 0] + M["own", 1]) + 1.5 * (M["load", 0] + M["load", 1])
    found = two_spans()
    bending, shear, bearing = (the(found, "", q) for q in ("bending", "rolling", "bearing"))
    assert bending.value == pytest.approx(middle / (300 * 20**2 / 6), rel=1e-6)
    assert bending.limit == pytest.approx(30 * 0.7 / 1.2)
    assert bending.governs == f"span {size(415.0)}; all loads on; board (characteristic)"
    assert bending.method == "factored loads, long-term load"
    assert bending.source == "EN 1995-1-1:2004, 6.1.6; loads EN 1990 eq. (6.10)"
    # from the far end, then the middle: the load's centre is 5 + 400 / 2 (800 / 2) from the end
    V = [
        1.35 * own * L[n] / 2 + 1.5 * load * (L[n] - 15) * (5 + (L[n] - 15) / 2) / L[n]
        + middle / L[n]
        for n in (0, 1)
    ]  # fmt: skip
    assert shear.value == pytest.approx(1.5 * V[1] / (300 * 20), rel=1e-6)
    assert shear.governs == f"span {size(815.0)}; all loads on; board (characteristic)"
    assert bearing.value == pytest.approx(sum(V) / (300 * 20), rel=1e-6)
    assert bearing.limit == pytest.approx(2.2 * 0.7 / 1.2)  # as C16, EN 338:2016
    assert bearing.governs.startswith("support 2; board")
    # the left end lifts under 0.9 of itself with the long span full
    up = 0.9 * (own * L[0] / 2 - (M["own", 0] + M["own", 1]) / L[0]) - 1.5 * M["load", 1] / L[0]
    (lifts,) = [one for one in found.checks if one.question == "held down on its supports"]
    shown = float(lifts.reason.split("force\ue001")[1].split("\ue001")[0])
    assert shown == pytest.approx(-up, rel=1e-6)
    assert "off support 1 with" in lifts.reason
    assert (lifts.value, lifts.limit, lifts.measure) == (None, None, "force")
    held = two_spans(fixed_down=True)
    assert not [one for one in held.checks if one.question == "held down on its supports"]


def test_worst_pattern_of_two_spans_in_words():
    sag = the(two_spans(), "", "sag after")
    assert sag.governs.startswith(f"span {size(815.0)}; worst with span 2 full; first day ")
    # one kdef of 0.8 (plywood, EN 1995-1-1:2004, Table 3.2)
    now = float(sag.governs.split("length\ue001")[1].split("\ue001")[0])
    assert sag.value == pytest.approx(1.8 * now, rel=1e-6)
    assert sag.limit == pytest.approx(815 / 200)
    assert sag.method == (
        "beam that bends and shears, worst pattern of full and empty bays, creep 0.8"
    )
    empty = the(two_spans(contents="empty"), "", "bending")
    assert "; nothing on it; " in empty.governs


@pytest.mark.parametrize(("bearing", "governs"), [(6.0, "bearing"), (12.0, "sag after years")])
def test_safe_loads_of_a_short_shelf_by_hand(bearing, governs):
    shelf = {"material": "board", "thickness": "20 mm", "bearing": f"{bearing} mm"}
    lone = {"name": "s", "depth": "300 mm", "spans": ["250 mm"], "shelf": shelf}
    (safe,) = findings(shelf=[{**lone, "contents": {"load": "50 kg"}}]).safe_loads
    L, own = 250 + bearing, PER_AREA * 300
    EI, GA = 10000 * 300 * 20**3 / 12, 500 * 300 * 20 * 5 / 6
    # 2.2 MPa x 0.7 / 1.2 on 300 mm x bearing at each end, less 1.35 x half of its own weight
    pressed = 2 * (2.2 * 0.7 / 1.2 * 300 * bearing - 1.35 * own * L / 2) / 1.5
    # L / 200 with kdef 0.8 (plywood, class 1): P L^3 / 48 EI + P L / 4 GA, 5 w L^4 / 384 EI + ...
    sunk = (L / 200 / 1.8 - own * (5 * L**4 / 384 / EI + L**2 / 8 / GA)) / (
        L**3 / 48 / EI + L / 4 / GA
    )
    assert safe.point == pytest.approx(min(pressed, sunk), rel=1e-6)
    assert safe.point_governed_by == governs
    if governs == "bearing":
        assert safe.even == pytest.approx(pressed, rel=1e-6)
        assert safe.even_per_length == pytest.approx(pressed / 250, rel=1e-6)
        assert safe.governed_by == governs


def test_first_of_two_pieces_that_is_nearest_to_its_strength():
    plywood = tables.material("birch-plywood", 18.0).material
    oak = replace(plywood, title="other", name="other")
    beam = Made(service_class=1, shape=Made(pieces=[Made(material=plywood), Made(material=oak)]))
    given = ["bending", "rolling shear"], np.array([2.0, 3.0]), [30.0, 50.0], ["a", "b"], "6.1.6"
    # 2 / (30 d) is more than 3 / (50 d), d = 0.7 / 1.2
    got = criteria._weakest(beam, "long-term", *given)
    assert got == ("bending", 2.0, pytest.approx(17.5), f"{plywood.called} (a)", "6.1.6", plywood)
    unknown = criteria._weakest(beam, "long-term", *given[:2], [30.0, None], *given[3:])
    assert unknown == Unanswered(
        question="rolling shear", reason=f"{oak.called} (b): no strength is published",
        source="6.1.6",
    )  # fmt: skip


def test_questions_of_a_shelf_without_a_creep_figure():
    beam, _ = board_plate()
    asked = criteria.criteria(replace(beam, creep=None), next(iter(tables.limits().values())))
    assert asked[0] == Unanswered(
        question="sag after years", source="EN 1995-1-1:2004, Table 3.2",
        reason="no creep figure for this board in service class 1",
    )  # fmt: skip
    row = beam.shape.pieces[0].material
    assert [one.material for one in asked[1:]] == [row] * 6
    assert [one.duration for one in asked[1:]] == ["permanent", "long-term"] * 3
    assert [one.per_load for one in asked[1:]] == [0.0, 1.5] * 3


def test_load_on_the_edge_of_an_overhang_is_not_checked(monkeypatch):
    on_edge, beyond = Made(place=PLACE, plan=None), Made(place=PLACE, plan=None)
    on_edge.result = beyond.result = Made(is_overhang=np.array([False, True]))
    monkeypatch.setattr(shelves, "on_an_edge", lambda beam: beam is on_edge)
    (got,) = shelves._twisted(on_edge)
    assert got.verdict is Verdict.NOT_CHECKED
    assert (got.place, got.question, got.method) == (PLACE, "load on an edge", "none")
    assert (got.source, got.measure) == ("not known", "length")
    assert got.remedy.startswith("Set supports under its ends")
    assert shelves._twisted(beyond) == []
    on_edge.plan = "curved"
    assert shelves._twisted(on_edge) == []
    on_edge.plan, on_edge.result = None, Made(is_overhang=np.array([False, False]))
    assert shelves._twisted(on_edge) == []


def test_shelf_without_a_beam_in_all_its_words():
    flat = shelves.unbent_check(Made(place=PLACE, reason=""))
    assert (flat.value, flat.limit, flat.verdict) == (0.0, 1.0, Verdict.PASSES)
    assert flat.method == "lies flat on what is below: it does not bend"
    assert (flat.source, flat.question, flat.place) == ("as described", "sag after years", PLACE)
    missing = shelves.unbent_check(Made(place=PLACE, reason="no E"))
    assert (missing.value, missing.reason, missing.verdict) == (None, "no E", Verdict.NOT_CHECKED)
    assert (missing.measure, missing.method, missing.place) == ("length", "beam", PLACE)


def test_one_bay_has_no_pattern_to_name():
    shelf = {"material": "board", "thickness": "20 mm", "bearing": "6 mm"}
    lone = {"name": "s", "depth": "300 mm", "spans": ["900 mm"], "shelf": shelf}
    found = findings(shelf=[{**lone, "contents": {"load": "20 kg/m"}}])
    assert the(found, "", "bending").governs == f"span {size(906.0)}; board (characteristic)"
    sag = the(found, "", "sag after")
    span, first_day = sag.governs.split("; first day ")
    assert span == f"span {size(906.0)}"
    # kdef 0.8 (plywood, EN 1995-1-1:2004, Table 3.2)
    assert float(first_day.split("\ue001")[1]) == pytest.approx(sag.value / 1.8)
