"""One screw into a stud: against published figures, and the trap of every link."""

from __future__ import annotations

from dataclasses import replace

import pytest
from described import asked, findings, unit
from hypothesis import given, settings
from hypothesis import strategies as st
from printed import printed

from shelfload import tables
from shelfload.check import gauge_screw, screw
from shelfload.check.fixing import wall_chain
from shelfload.check.result import Verdict
from shelfload.check.screw import Driven
from shelfload.describe.catalogue import Catalogue
from shelfload.describe.parts import Panel
from shelfload.describe.site import Layer, Site
from shelfload.describe.standing import Held, OwnFixing
from shelfload.solve.connection import single_shear
from shelfload.solve.interlayer import GAP_MODES, single_shear_over_gap, thin_plate_over_gap
from shelfload.wording import spelled

C24 = tables.material("c24", 38.0).material
PLY = tables.material("birch-plywood", 18.0).material


def driven(name="chipboard-screw-6", length=100.0, **more):
    keys = {
        "screw": tables.fasteners()[name],
        "length": length,
        "head": (PLY, 18.0),
        "gap": 0.0,
        "into": C24,
        "service_class": 1,
        "duration": "long-term",
    }
    return Driven(**{**keys, **more})


def characteristic(value, kmod=0.7):
    return value * 1.3 / kmod


def test_pull_out_of_a_published_screw():
    # Dutch hand calculation: screw 6 x 100, root 4, rho_k 350, 55 mm of thread: 3817 N
    published = replace(tables.fasteners()["chipboard-screw-6"], thread_share=0.55)
    found = screw.withdrawal(driven(screw=published))
    assert characteristic(found.value) == printed("3817")


def test_head_pull_through_by_the_nail_formula():
    # 70e-6 rho_k^2 d_h^2 (EN 1995-1-1 (8.26)): 70e-6 x 630^2 x 12^2
    found = screw.head_pull_through(driven())
    assert characteristic(found.value) == pytest.approx(70e-6 * 630**2 * 144)


def test_thin_back_under_the_head_counts_little():
    thin = tables.material("birch-plywood", 6.5).material
    found = screw.head_pull_through(driven(head=(thin, 6.4)))
    assert characteristic(found.value) == pytest.approx(400.0)


def test_pull_out_of_a_published_us_screw():
    # AWC/NDS: No. 10 (0.190 in), G 0.45: 109 lb/in of thread. Its formula gives 109.65, so the
    # table cuts off the fraction; 4.83 mm for 0.190 in adds 0.09
    wood = replace(C24, density=0.45 * 1120.0)
    found = gauge_screw.withdrawal(driven("wood-screw-no-10", 76.2, into=wood, head="steel"))
    thread = 0.67 * 76.2
    assert found.value / 0.9 / thread * 25.4 / 4.4482216 == pytest.approx(109, abs=0.75)
    assert found.values == "recommended"


INCH, POUND, KSI = 25.4, 4.4482216, 6.894757
HALF = replace(C24, density=0.5 * 1120.0)  # specific gravity 0.50, oven-dry


def gauge(shank, root, length=3.0, **more):
    """A wood screw of a shank and root, and a length, in inches, through 3/4 in of the same."""
    made = replace(
        tables.fasteners()["wood-screw-no-10"], diameter=shank * INCH, root_diameter=root * INCH
    )
    keys = {"screw": made, "into": HALF, "head": (HALF, 0.75 * INCH), **more}
    return driven(length=length * INCH, **keys)


def test_shear_of_a_published_us_fastener():
    # AWC worked example: D 0.148 in, F_yb 90 ksi, G 0.50, side 0.75 in, main 2.25 in: 105.1 lb;
    # permanent loads have 0.9 of it
    found = gauge_screw.shear(gauge(0.162, 0.148))
    assert found.value / 0.9 / POUND == pytest.approx(105.1, abs=0.1)  # 621 MPa for 90 ksi
    assert found.values == "recommended"
    assert "mode d" in found.governs  # a hinge in the main member only: mode IIIs


@pytest.mark.parametrize(
    ("shank", "ksi"),
    # NDS 2018, Appendix I, by shank diameter in inches (from memory), at the ends of each row
    [(0.099, 100), (0.142, 100), (0.143, 90), (0.177, 90), (0.178, 80), (0.236, 80), (0.273, 70)],
)
def test_bending_strength_of_the_wire_by_gauge(shank, ksi):
    # mode IV, with deep members: Z = D^2 / R_d sqrt(2 F_e F_yb / (3 (1 + 1))); F_e 4637 psi
    root = 0.7 * shank
    found = gauge_screw.shear(gauge(shank, root, 10.0, head=(HALF, 4.0 * INCH)))
    R_d = 2.2 if root <= 0.17 else 10 * root + 0.5
    Z = root**2 / R_d * (2 * 4637 * ksi * 1000 / 6) ** 0.5
    assert found.value / 0.9 / POUND == pytest.approx(Z, rel=1e-3)
    assert "mode f" in found.governs


def test_gauge_screw_under_steel_loses_by_a_gap():
    # mode b of a thin plate, hinge in the timber: F = sqrt(2 M_y f_h d) with nothing between;
    # with a gap g: F g + F^2 / (2 f_h d) = M_y
    near, far = (
        gauge_screw.shear(gauge(0.190, 0.152, head="steel", gap=gap)) for gap in (0.0, 12.5)
    )
    F_e, d = 4637 * KSI / 1000, 0.152 * INCH
    M_y = 552.0 * d**3 / 6
    assert near.value == pytest.approx(0.9 / 2.2 * (2 * M_y * F_e * d) ** 0.5, rel=1e-3)
    F = far.value * 2.2 / 0.9
    assert F * 12.5 + F**2 / (2 * F_e * d) == pytest.approx(M_y, rel=1e-3)
    assert "gap" in far.source
    assert "gap" not in near.source


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"head": None}, "not described"),
        ({"length": 1.5}, "of screw in the stud"),
        ({"root": 0.26}, "outside of the rule's range"),
        ({"shank": 0.30}, "no yield strength"),
    ],
)
def test_gauge_screw_has_no_made_up_shear(change, words):
    made = gauge(**{"shank": 0.190, "root": 0.152, **change})
    assert words in gauge_screw.shear(made).value


def test_gauge_screw_too_short_for_a_pull():
    # 6 diameters of thread: 6 x 4.83 = 28.98 mm; two thirds of 1.5 in are 25.5 mm
    assert "of thread in the stud" in gauge_screw.withdrawal(gauge(0.190, 0.152, 1.5)).value


@pytest.mark.parametrize(
    ("kind", "f_h_over"),
    [
        # EN 1995-1-1, (8.15), (8.20), (8.21), (8.22), not predrilled
        ("solid", lambda d: 0.082 * 340.0 * d**-0.3),
        ("plywood", lambda d: 0.11 * 340.0 * d**-0.3),
        ("hardboard", lambda d: 30.0 * d**-0.3 * 18.0**0.6),
        ("particleboard", lambda d: 65.0 * d**-0.7 * 18.0**0.1),
        ("osb", lambda d: 65.0 * d**-0.7 * 18.0**0.1),
    ],
)
def test_shear_through_each_kind_of_panel(kind, f_h_over):
    # 0.85 of the mean density where none is characteristic: 0.85 x 400 = 340; the panel keeps
    # the kmod of plywood, 0.7 under long-term load, as the stud has: 2.3.2.1(2)
    one = driven(head=(replace(PLY, kind=kind, density=400.0, density_k=None), 18.0))
    d = 1.1 * one.screw.root_diameter  # 8.7.1(3)
    M_y = 0.3 * one.screw.f_u * d**2.6
    modes = single_shear(f_h_over(d), 0.082 * C24.density_k * d**-0.3, 18.0, one.inside, d, M_y)
    assert characteristic(screw.shear(one).value) == pytest.approx(modes.min(), rel=1e-6)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"head": (replace(PLY, kind="mdf"), 18.0)}, "no bearing strength for screws"),
        ({"head": None}, "not described"),
        ({"length": 50.0}, "of screw in the stud"),
        ({"screw": replace(tables.fasteners()["chipboard-screw-6"], f_u=None)}, "no strength"),
        # EN 1995-1-1 Table 3.1 has no particleboard P4 in class 2
        (
            {
                "head": (tables.material("particleboard-p4", 18.0).material, 18.0),
                "service_class": 2,
            },
            "allows no",
        ),
    ],
)
def test_shear_is_not_made_up(change, words):
    assert words in screw.shear(driven(**change)).value


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"head": None}, "not described"),
        (
            {"screw": replace(tables.fasteners()["chipboard-screw-6"], head_diameter=None)},
            "no head size",
        ),
    ],
)
def test_head_pull_through_is_not_made_up(change, words):
    assert words in screw.head_pull_through(driven(**change)).value


def test_members_share_their_load_duration_factors():
    # EN 1995-1-1, 2.3.2.1(2): kmod = sqrt(kmod1 kmod2); Table 3.1, long-term, class 1: plywood 0.7,
    # particleboard P5 0.45
    p5 = next(m for m in tables.materials().values() if m.duration_class == "particleboard P5")
    assert screw.connection_kmod([PLY, p5], 1, "long-term") == printed("0.561")


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"screw": tables.fasteners()["chipboard-screw-5"]}, "6 to 12 mm only"),
        ({"length": 45.0}, "needed"),
    ],
)
def test_no_made_up_figure_outside_the_formulas(change, words):
    assert words in screw.withdrawal(driven(**change)).value


@settings(max_examples=40, deadline=None)
@given(
    gap=st.floats(0.5, 60), more=st.floats(0.5, 40), head=st.sampled_from([(PLY, 18.0), "steel"])
)
def test_a_thicker_gap_never_helps(gap, more, head):
    near = screw.shear(driven(length=200.0, gap=gap, head=head))
    far = screw.shear(driven(length=200.0, gap=gap + more, head=head))
    assert far.value <= near.value * (1 + 1e-9)


def chain(**hangs):
    found = findings(
        unit(bays=(1360,), loads=[10], hangs={"carcass": "anchor", **hangs}),
        site={"wall": "timber stud", "stud_spacing": "600 mm"},
    )
    return found, {check.question: check for check in asked(found, "wall", "holds: ")}


def test_every_link_of_a_screwed_rail_is_a_check():
    rail = {"material": "board", "thickness": "20 mm"}
    found, links = chain(screw="coach-screw-8", length="120 mm", through=rail)
    assert set(links) == {
        "holds: the unit's side of the fixing",
        "holds: head pull-through",
        "holds: pull-out",
        "holds: pull and shear together",
    }
    assert any("one layer of board" in text for text in found.assumptions)


def test_nails_and_nothing_are_not_checked():
    _, nails = chain(screw="nail-3-4", length="90 mm")
    assert nails["holds: pull-out"].verdict is Verdict.NOT_CHECKED
    _, nothing = chain()
    assert nothing["holds: fixing in the stud"].verdict is Verdict.NOT_CHECKED


DECLARED = OwnFixing.model_construct(
    title="Hanger", tension=410.0, shear=730.0, values="design", source="made up for tests"
)
OTHER = OwnFixing.model_construct(
    title="", tension=None, shear=520.0, values="recommended", source="also made up"
)
CATALOGUE = Catalogue(own_fixings={"hanger": DECLARED, "plug": OTHER})
RAIL = Panel.model_construct(material="birch-plywood", thickness=18.0)


def links(held=None, head=RAIL, site=None, duration="long-term", **more):
    made = Held.model_construct(
        **{"screw": None, "length": None, "maker": None, "carcass": None, **(held or {})}
    )
    here = Site.model_construct(
        **{"wall": "timber stud", "wall_layers": None, "service_class": 1, "stud_material": "c24"}
        | (site or {})
    )
    found = wall_chain(made, head, here, CATALOGUE, duration, **more)
    return found, {link.name: link for link in found.links}


def test_every_link_of_a_coach_screw_through_rail_and_board_by_hand():
    # M8 x 120 through 17.6 mm of birch plywood and the assumed 15 mm of board into C24: 87.4 mm
    # in, 72 of them thread; short-term, class 1: kmod 0.9, gamma_M 1.3
    held = {"screw": "coach-screw-8", "length": 120.0}
    found, by_name = links(held, duration="short-term")
    assert list(by_name) == [
        "the unit's side of the fixing",
        "head pull-through",
        "pull-out",
        "pull and shear together",
    ]
    assert spelled(" ".join(found.said), "metric") == "one layer of board, 15 mm, over the studs"
    pull = by_name["pull-out"]
    # (8.38), (8.39); 8 / 8 = 1
    R = 0.52 * 8**-0.5 * 72**-0.1 * 350**0.8 * 8 * 72
    assert pull.tension == pytest.approx(R * 0.9 / 1.3, rel=1e-9)
    assert pull.shear is None
    assert (pull.values, pull.source) == ("design", "EN 1995-1-1:2004+A1, (8.38) to (8.40)")
    words = "72 mm of thread in Softwood, strength class C24"
    assert spelled(pull.governs, "metric") == words
    head = by_name["head pull-through"]
    assert head.tension == pytest.approx(70e-6 * 630**2 * 13**2 * 0.9 / 1.3, rel=1e-9)
    assert head.shear is None
    assert "DIN" not in head.source
    assert spelled(head.governs, "metric") == "17.6 mm Birch plywood under the head"
    both = by_name["pull and shear together"]
    d = 1.1 * 5.7
    f_1, f_2 = 0.11 * 630 * d**-0.3, 0.082 * 350 * d**-0.3
    modes = single_shear_over_gap(f_1, 17.6, f_2, 87.4, d, 0.3 * 400 * d**2.6, 15.0)
    assert both.shear == pytest.approx(float(modes.min()) * 0.9 / 1.3, rel=1e-9)
    assert both.tension == pytest.approx(min(pull.tension, head.tension), rel=1e-12)
    assert (both.power, both.values) == (2, "design")  # (8.28)
    letter = GAP_MODES[int(modes.argmin())]
    governs = spelled(both.governs, "metric")
    assert governs == f"mode {letter}, d_ef 6.3, over a gap of 15 mm"
    assert "with a gap" in both.source
    assert both.source.endswith("(8.28)")
    assert "less board between" in both.remedy
    assert pull.remedy
    assert head.remedy
    assert [link.power for link in found.links] == [1, 1, 1, 2]


def test_strap_that_is_only_pulled_asks_for_the_thread_alone():
    held = {"screw": "coach-screw-8", "length": 120.0}
    _, only = links(held, "steel", pull_only=True, without_carcass=True)
    assert list(only) == ["pull-out"]
    # steel under the head: 120 - 15 mm in the stud, and no head to pull through
    _, whole = links(held, "steel", without_carcass=True)
    assert list(whole) == ["pull-out", "pull and shear together"]
    assert whole["pull and shear together"].tension == whole["pull-out"].tension
    d = 1.1 * 5.7
    modes = thin_plate_over_gap(0.082 * 350 * d**-0.3, 105.0, d, 0.3 * 400 * d**2.6, 15.0)
    shear = whole["pull and shear together"]
    assert shear.shear == pytest.approx(float(modes.min()) * 0.7 / 1.3, rel=1e-9)
    assert shear.governs == f"mode {'ab'[int(modes.argmin())]}, d_ef 6.3"
    assert "thin plate" in shear.source


def test_nothing_between_rail_and_stud_is_single_shear_of_the_code():
    held = {"screw": "chipboard-screw-6", "length": 100.0}
    _, by_name = links(held, site={"wall_layers": ()})
    d = 1.1 * 4.0
    modes = single_shear(
        0.11 * 630 * d**-0.3, 0.082 * 350 * d**-0.3, 17.6, 82.4, d, 0.3 * 600 * d**2.6
    )
    both = by_name["pull and shear together"]
    assert both.shear == pytest.approx(float(modes.min()) * 0.7 / 1.3, rel=1e-9)
    assert both.governs == f"mode {'abcdef'[int(modes.argmin())]}, d_ef 4.4"
    assert both.source == "EN 1995-1-1:2004+A1, 8.2.2 and 8.7.1; EN 1995-1-1:2004, (8.28)"


def test_pull_of_the_code_is_taken_down_to_the_loads_of_a_gauge_screw():
    # its shear is a working load: the head's design value is divided by 1.5 (EN 1990, A1.2(B));
    # 6.4 mm of plywood under the head: 400 N; 400 x 0.7 / 1.3 / 1.5 = 143.6 N
    thin = Panel.model_construct(material="birch-plywood", thickness=6.5)
    held = {"screw": "wood-screw-no-10", "length": 76.2}
    _, by_name = links(held, thin)
    assert by_name["head pull-through"].values == "design"
    assert by_name["head pull-through"].tension == printed("215.4")
    assert "DIN 1052" in by_name["head pull-through"].source
    assert by_name["pull-out"].values == "recommended"
    assert by_name["pull-out"].tension > 150.0
    both = by_name["pull and shear together"]
    assert both.values == "recommended"
    assert both.tension == printed("143.6")


def test_link_without_a_figure_leaves_none_for_both_together():
    # what lies under the head is not known: no head figure, no shear, but a thread that holds
    _, by_name = links({"screw": "coach-screw-8", "length": 120.0}, None)
    assert by_name["head pull-through"].tension is None
    assert "not described" in by_name["head pull-through"].reason
    assert by_name["pull-out"].tension > 0.0
    assert "not described" in by_name["shear"].reason
    assert "pull and shear together" not in by_name
    # a 5 mm screw: no pull-out by the code, so that its shear alone may not pass
    _, by_name = links({"screw": "chipboard-screw-5", "length": 100.0})
    assert "6 to 12 mm" in by_name["pull-out"].reason
    both = by_name["pull and shear together"]
    assert (both.tension, both.shear) == (None, None)
    assert both.reason == "what it bears in pull-out is not known"
    _, nails = links({"screw": "nail-3-4", "length": 90.0}, without_carcass=True)
    assert list(nails) == ["pull-out"]
    assert nails["pull-out"].reason == "nails hold no lasting pull"
    assert nails["pull-out"].remedy == "Use screws."


def test_least_lengths_of_thread_and_screw_at_their_limits():
    # 6 d = 36 mm of thread (8.7.2(3)): 0.6 x 60 exactly; 36 mm of screw: 54 - 18 exactly
    bare = {"wall_layers": ()}
    held = {"screw": "chipboard-screw-6"}
    assert links({**held, "length": 60.0}, "steel", bare)[1]["pull-out"].tension > 0.0
    short = links({**held, "length": 59.9}, "steel", bare)[1]["pull-out"]
    words = "35.9 mm of thread in the stud, 36 mm needed"
    assert spelled(short.reason, "metric") == words
    assert short.source.endswith("8.7.2(3)")
    assert screw.shear(driven(length=54.0)).value > 0.0
    short = screw.shear(driven(length=53.9)).value
    assert spelled(short, "metric") == "35.9 mm of screw in the stud, 36 mm needed"
    # thread that lies in rail or board does not count: 70 - 17.6 - 15 of 0.6 x 70 = 42 mm
    assert spelled(links({**held, "length": 70.0})[1]["pull-out"].governs, "metric").startswith(
        "37.4 mm of thread"
    )
    none = links({**held, "length": 20.0})[1]["pull-out"]
    assert spelled(none.reason, "metric").startswith("0 mm of thread")


@pytest.mark.parametrize(("thickness", "limited"), [(12.0, False), (11.99, True)])
def test_head_on_a_thin_panel_counts_little_below_twelve_millimetres(thickness, limited):
    found = screw.head_pull_through(driven(head=(PLY, thickness)))
    R = 400.0 if limited else 70e-6 * 630**2 * 144
    assert characteristic(found.value) == pytest.approx(R)
    assert ("DIN" in found.source) is limited


def test_declared_loads_are_those_of_the_wall_and_of_the_carcass():
    held = {"maker": "plug", "carcass": "hanger"}
    layers = (
        Layer.model_construct(what="plasterboard", thickness=12.5),
        Layer.model_construct(what="plaster", thickness=10.0),
    )
    site = {"wall": "solid brick", "wall_layers": layers}
    found, by_name = links(held, site=site)
    side, wall = found.links
    assert (side.name, wall.name) == ("the unit's side of the fixing", "fixing in the wall")
    assert (side.tension, side.shear, side.values) == (410.0, 730.0, "design")
    assert (wall.tension, wall.shear, wall.values) == (None, 520.0, "recommended")
    assert (side.of_carcass, wall.of_carcass) == (True, False)
    assert side.sees_both
    assert wall.sees_both
    assert (side.governs, wall.governs) == (
        "Hanger (design load)",
        "declared (recommended load)",
    )
    assert (side.source, wall.source) == ("made up for tests", "also made up")
    said = [spelled(text, "metric") for text in found.said]
    assert said == ["the maker's load is taken to hold through 22.5 mm of layers"]
    assert links(held, site={"wall": "solid brick"})[0].said == ()
    stud, by_name = links({"maker": "plug"})
    assert [spelled(text, "metric") for text in stud.said] == [
        "one layer of board, 15 mm, over the studs",
        "the maker's load is taken to hold through 15 mm of layers",
    ]
    missing = by_name["the unit's side of the fixing"]
    assert missing.of_carcass
    assert (missing.source, missing.tension, missing.shear) == ("not described", None, None)
    assert "weakest link" in missing.reason
    assert "carcass" in missing.remedy
    _, of_bracket = links({"maker": "plug"}, of_bracket=True)
    bracket = of_bracket["the bracket itself"]
    assert bracket.of_carcass
    assert "its maker declares" in bracket.reason
    assert "carcass" in bracket.remedy
    assert bracket.source == "not described"
    _, declared = links({"maker": "plug", "carcass": "hanger"}, of_bracket=True)
    assert declared["the bracket itself"].shear == 730.0


@pytest.mark.parametrize(
    ("wall", "tension", "shear", "words"),
    [
        # typical loads of the walls table: common practice, no source; planning, never a pass
        ("solid brick", 300.0, 300.0, "provisional"),
        ("concrete", 800.0, 1000.0, "provisional"),
        ("lath and plaster", None, None, "reason"),
        ("metal stud", None, None, "reason"),
        ("unknown", None, None, "reason"),
        (None, None, None, "reason"),
        ("plasterboard", 0.0, 0.0, "refused"),
        ("no fixing allowed", 0.0, 0.0, "refused"),
    ],
)
def test_walls_by_themselves(wall, tension, shear, words):
    found, _ = links({"screw": "coach-screw-8", "length": 120.0}, site={"wall": wall})
    link = found.links[-1]
    assert len(found.links) == 2
    assert (link.tension, link.shear) == (tension, shear)
    assert [word for word in ("provisional", "reason", "refused") if getattr(link, word)] == [words]
    assert link.remedy
    assert link.source
    assert link.values == ("recommended" if words == "provisional" else "design")
    if words == "provisional":
        assert link.governs.startswith("typical: ")
        assert link.source == "common practice, no source (common practice)"
    # a maker's load goes first, but not on plasterboard or where no fixing is allowed
    own = links({"maker": "plug"}, site={"wall": wall})[0].links[-1]
    assert bool(own.refused) is (words == "refused")
    assert own.shear == (0.0 if words == "refused" else 520.0)


@pytest.mark.parametrize("held", [{}, {"screw": "coach-screw-8"}, {"length": 100.0}])
def test_stud_without_a_screw_asks_for_one(held):
    link = links(held)[0].links[-1]
    assert (link.name, link.source) == ("fixing in the stud", "not described")
    assert link.reason == "no screw and no maker's load are described"
    assert "coach-screw-8" in link.remedy
    assert (link.tension, link.shear) == (None, None)


def test_thin_gap_is_a_gap():
    found = screw.shear(driven(gap=0.5))
    d = 4.4
    modes = single_shear_over_gap(
        0.11 * 630 * d**-0.3, 18.0, 0.082 * 350 * d**-0.3, 81.5, d, 0.3 * 600 * d**2.6, 0.5
    )
    assert characteristic(found.value) == pytest.approx(float(modes.min()), rel=1e-9)
    assert spelled(found.governs, "metric").endswith(", over a gap of 0.5 mm")


def test_what_is_missing_is_said_with_what_to_do():
    _, unknown = links({"screw": "coach-screw-8", "length": 120.0}, None)
    assert unknown["head pull-through"].remedy.endswith("through = { material, thickness }.")
    assert "(8.26)" in unknown["head pull-through"].source
    assert "8.2.2" in unknown["shear"].source
    _, short = links({"screw": "chipboard-screw-6", "length": 60.0})
    assert short["shear"].remedy == "Use a longer or thicker screw."
    _, nails = links({"screw": "nail-3-4", "length": 90.0}, without_carcass=True)
    assert "8.3.2(1)" in nails["pull-out"].source
