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
