"""Shelves of whole descriptions against hand-worked beams."""

from __future__ import annotations

from math import isclose

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shelfload.check.assess import assess
from shelfload.check.result import Verdict
from shelfload.describe.reader import read_raw

G = 9.80665  # m/s2, standard gravity (BIPM SI Brochure)

# A material of round figures, so that sums can be followed: E/G = 50.
PLAIN = {
    "kind": "plywood",
    "density": "600 kg/m3",
    "E": "10000 MPa",
    "G": "200 MPa",
    "bending_strength": "30 MPa",
    "shear_strength": "2.5 MPa",
    "source": "made up for the test",
}


def lone(spans=("900 mm",), thickness="18 mm", depth="300 mm", contents=None, site=None, **shelf):
    body = {
        "name": "shelf",
        "depth": depth,
        "spans": list(spans),
        "fixed_down": True,
        "shelf": {"material": "plain", "thickness": thickness, "bearing": "20 mm", **shelf},
    }
    if contents is not None:
        body["contents"] = contents
    return {"materials": {"plain": PLAIN}, "site": site or {}, "shelf": [body]}


def findings(raw):
    description = read_raw(raw)
    return assess(description.project, description.catalogue)


def asked(found, question):
    return next(check for check in found.checks if check.question == question)


def test_single_span_sag_bending_shear_and_bearing_by_hand():
    found = findings(lone(contents={"load": "30 kg/m"}))
    # effective span: clear 900 plus half of each 20 mm bearing; load on the clear 900 only
    L, a = 920.0, 900.0
    EI, GA = 10000 * 300 * 18**3 / 12, 200 * 300 * 18 * 5 / 6
    g = 600e-9 * 300 * 18 * G  # self-weight [N/mm]
    q = 30e-3 * G
    bending = 5 * g * L**4 / (384 * EI)
    shear = g * L**2 / (8 * GA)
    # a load over the middle a of a span L (standard beam table, from memory):
    # w = q a (8 L^3 - 4 a^2 L + a^3) / (384 EI), shear part q a (2 L - a) / (8 GA)
    bending_q = q * a * (8 * L**3 - 4 * a**2 * L + a**3) / (384 * EI)
    shear_q = q * a * (2 * L - a) / (8 * GA)
    k_def = 0.8  # plywood, service class 1: EN 1995-1-1:2004 Table 3.2
    sag = asked(found, "sag after years")
    assert sag.value == pytest.approx((bending + shear + bending_q + shear_q) * (1 + k_def))
    # default limit: span / 200 (common practice, no source)
    assert sag.limit == pytest.approx(L / 200)

    # EN 1990 (6.10): 1.35 G + 1.5 Q; k_mod 0.7 plywood long-term (Table 3.1), gamma_M 1.2 (2.3)
    M = 1.35 * g * L**2 / 8 + 1.5 * q * a * (2 * L - a) / 8
    bend = asked(found, "bending")
    assert bend.value == pytest.approx(M * 6 / (300 * 18**2))
    assert bend.limit == pytest.approx(30 * 0.7 / 1.2)

    V = 1.35 * g * L / 2 + 1.5 * q * a / 2
    rolling = asked(found, "rolling shear")
    assert rolling.value == pytest.approx(1.5 * V / (300 * 18))
    assert rolling.limit == pytest.approx(2.5 * 0.7 / 1.2)

    bearing = asked(found, "bearing")
    assert bearing.value == pytest.approx(V / (300 * 20))
    # borrowed f_c,90,k of C16, 2.2 MPa: EN 338:2016 Table 1
    assert bearing.limit == pytest.approx(2.2 * 0.7 / 1.2)


def test_safe_even_load_put_back_on_just_passes():
    found = findings(lone())
    load = found.safe_loads[0]
    again = findings(lone(contents={"load": f"{load.even:.9f} N"}))
    ratios = [check.ratio for check in again.checks]
    assert max(ratios) == pytest.approx(1.0, abs=1e-6)
    assert load.even == pytest.approx(load.even_per_length * 900.0)


def test_safe_point_load_put_back_on_just_passes():
    found = findings(lone(spans=("700 mm", "500 mm")))
    for number, load in enumerate(found.safe_loads):
        middle = ("350 mm", "250 mm")[number]
        contents = ["empty", "empty"]
        contents[number] = {"points": [{"load": f"{load.point:.9f} N", "at": middle}]}
        again = findings(lone(spans=("700 mm", "500 mm"), contents=contents))
        assert max(check.ratio for check in again.checks) == pytest.approx(1.0, abs=1e-6)


def test_short_load_counts_for_strength_with_its_own_k_mod_and_does_not_creep():
    point = {"load": "80 kg", "at": "450 mm", "duration": "short-term"}
    found = findings(lone(contents={"points": [point]}))
    L = 920.0
    EI, GA = 10000 * 300 * 18**3 / 12, 200 * 300 * 18 * 5 / 6
    g, P = 600e-9 * 300 * 18 * G, 80 * G
    steady = 5 * g * L**4 / (384 * EI) + g * L**2 / (8 * GA)
    once = P * L**3 / (48 * EI) + P * L / (4 * GA)
    assert asked(found, "sag after years").value == pytest.approx(1.8 * steady + once)
    bend = asked(found, "bending")
    # k_mod 0.9 plywood short-term: EN 1995-1-1:2004 Table 3.1
    assert bend.limit == pytest.approx(30 * 0.9 / 1.2)
    M = 1.35 * g * L**2 / 8 + 1.5 * P * L / 4
    assert bend.value == pytest.approx(M * 6 / (300 * 18**2))


def test_glued_double_is_a_section_of_twice_the_thickness_and_lying_is_twice_the_stiffness():
    single = asked(findings(lone(contents={"load": "20 kg/m"})), "sag after years")
    thick = lone(contents={"load": "20 kg/m"}, thickness="36 mm")
    glued = lone(contents={"load": "20 kg/m"}, panels=2, joined="glued")
    assert asked(findings(glued), "sag after years").value == pytest.approx(
        asked(findings(thick), "sag after years").value
    )
    lying = asked(
        findings(lone(contents={"load": "20 kg/m"}, panels=2, joined="lying")), "sag after years"
    )
    # the load is halved between two panels; each also carries its own weight
    half = asked(findings(lone(contents={"load": "10 kg/m"})), "sag after years")
    assert lying.value == pytest.approx(half.value)
    assert lying.value < single.value


def test_board_that_the_code_allows_no_creep_for_is_not_checked():
    raw = lone(contents={"load": "5 kg/m"}, site={"service_class": "outdoor"})
    raw["materials"]["plain"] = {**PLAIN, "kind": "particleboard"}
    found = findings(raw)
    sag = asked(found, "sag after years")
    assert sag.verdict is Verdict.NOT_CHECKED
    assert "service class 3" in sag.reason
    assert found.verdict is Verdict.NOT_CHECKED


def test_material_without_shear_modulus_is_not_checked():
    raw = lone()
    raw["materials"]["plain"] = {key: value for key, value in PLAIN.items() if key != "G"}
    found = findings(raw)
    assert found.verdict is Verdict.NOT_CHECKED
    assert "no known stiffness" in found.checks[0].reason


def test_shelf_that_lifts_off_is_not_passed_until_it_is_fixed_down():
    # Free body: spans 220 and 220 between bearings of 20; load on the right span only lifts
    # the left end of a light shelf: R = -q L / 16 of the right span's load (standard
    # beam table, from memory), far above 0.9 of its self-weight share
    raw = lone(spans=("200 mm", "200 mm"), contents=["empty", {"load": "60 kg/m"}])
    assert findings(raw).verdict is Verdict.PASSES
    raw["shelf"][0]["fixed_down"] = False
    held = asked(findings(raw), "held down on its supports")
    assert held.verdict is Verdict.NOT_CHECKED
    assert "support 1" in held.reason


def test_every_shelf_described_is_in_the_checks():
    unit = {
        "name": "box",
        "depth": "300 mm",
        "panel": {"material": "birch-plywood", "thickness": "18 mm"},
        "base": "flat",
        "level": [{"height": "300 mm", "bays": ["500 mm", "400 mm"]}] * 3,
    }
    found = findings({"unit": [unit]})
    parts = {check.place.part for check in found.checks}
    assert {"bottom panel", "shelf 1", "shelf 2", "top panel"} <= parts


def test_divider_of_the_level_above_lands_on_the_shelf_below():
    def unit(above):
        return {
            "name": "stack",
            "depth": "300 mm",
            "panel": {"material": "plain", "thickness": "20 mm"},
            "base": "flat",
            "shelf": {"bearing": "20 mm"},
            "level": [
                {"height": "300 mm", "bays": ["1000 mm"]},
                {"height": "300 mm", "bays": above, "contents": {"load": "10 kg/m"}},
                {"height": "300 mm", "bays": ["1000 mm"], "contents": {"load": "20 kg/m"}},
            ],
        }

    def sag(above):
        raw = {"materials": {"plain": PLAIN}, "unit": [unit(above)]}
        checks = findings(raw).checks
        return next(c for c in checks if c.place.part == "shelf 1" and c.question.startswith("sag"))

    # Free body of the divider in mid-span: it carries half of what stands on the shelf above
    # (two simple spans cut between uprights), that shelf's self-weight and its own.
    L, E, inertia = 1020.0, 10000, 300 * 20**3 / 12
    GA = 200 * 300 * 20 * 5 / 6
    g = 600e-9 * 300 * 20 * G
    # upper shelf: two runs of clear 490 on spans of 510 between bearings of 20; what stands
    # on it covers the last 500 of each run next to the divider: R = 500 x 260 / 510 each
    imposed = 2 * 20e-3 * G * 500.0 * 260.0 / 510.0
    dead = 2 * (g * 510.0 / 2) + 600e-9 * 300 * 300 * 20 * G
    steady = 5 * g * L**4 / (384 * E * inertia) + g * L**2 / (8 * GA)
    point = (dead + imposed) * (L**3 / (48 * E * inertia) + L / (4 * GA))
    # contents of the two bays: 10 kg/m on 490 each side of the 20 mm divider, load from
    # x = 10 to 500 and 520 to 1010; a gap in the middle of c = 20 in a load of a = 1000
    q = 10e-3 * G

    def middle(a):
        bend = q * a * (8 * L**3 - 4 * a**2 * L + a**3) / (384 * E * inertia)
        return bend + q * a * (2 * L - a) / (8 * GA)

    contents = middle(1000.0) - middle(20.0)
    expected = 1.8 * (steady + point + contents)
    assert sag(["490 mm", "490 mm"]).value == pytest.approx(expected, rel=1e-6)
    assert sag(["1000 mm"]).value < expected


loads = st.floats(1.0, 60.0)
spans = st.floats(300.0, 1500.0)


@settings(max_examples=25, deadline=None)
@given(loads, loads, spans)
def test_more_load_never_helps(light, more, span):
    def worst_ratio(load):
        raw = lone(spans=(f"{span:.3f} mm",), contents={"load": f"{load:.6f} kg/m"})
        return max(check.ratio for check in findings(raw).checks)

    assert worst_ratio(light) <= worst_ratio(light + more) * (1 + 1e-9)


@settings(max_examples=25, deadline=None)
@given(st.floats(8.0, 40.0), st.floats(0.5, 20.0), spans, loads)
def test_thicker_panel_never_sags_more(thin, more, span, load):
    def sag(thickness):
        raw = lone(
            spans=(f"{span:.3f} mm",),
            thickness=f"{thickness:.4f} mm",
            contents={"load": f"{load:.6f} kg/m"},
        )
        return asked(findings(raw), "sag after years").value

    assert sag(thin + more) <= sag(thin) * (1 + 1e-9)


@settings(max_examples=20, deadline=None)
@given(st.floats(12.0, 60.0), st.floats(5.0, 40.0), st.floats(0.3, 1.5))
def test_millimetres_and_inches_give_the_same_answer(span, load, thickness):
    inch = lone(
        spans=(f"{span:.5f} in",),
        depth="12 in",
        thickness=f"{thickness:.5f} in",
        contents={"load": f"{load:.5f} lb/ft"},
    )
    metric = lone(
        spans=(f"{round(span, 5) * 25.4:.10f} mm",),
        depth="304.8 mm",
        thickness=f"{round(thickness, 5) * 25.4:.10f} mm",
        contents={"load": f"{round(load, 5) * 0.45359237 / 0.3048:.12f} kg/m"},
    )
    pairs = zip(findings(inch).checks, findings(metric).checks, strict=True)
    for one, other in pairs:
        assert isclose(one.value, other.value, rel_tol=1e-7)


@settings(max_examples=20, deadline=None)
@given(st.lists(st.floats(200.0, 1200.0), min_size=1, max_size=4), st.data())
def test_mirrored_shelf_gives_the_same_answer(widths, data):
    each = [data.draw(st.floats(0.0, 40.0)) for _ in widths]

    def build(widths, each):
        contents = [{"load": f"{w:.6f} kg/m"} if w > 0.001 else "empty" for w in each]
        return findings(lone(spans=[f"{w:.4f} mm" for w in widths], contents=contents))

    here, there = build(widths, each), build(widths[::-1], each[::-1])
    for one, other in zip(here.checks, there.checks, strict=True):
        assert one.value == pytest.approx(other.value, rel=1e-7)
