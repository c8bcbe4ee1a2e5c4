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
from shelfload.check.result import Verdict
from shelfload.check.screw import Driven
from shelfload.solve.connection import single_shear

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
