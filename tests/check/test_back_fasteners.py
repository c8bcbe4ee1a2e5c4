"""Strength of the nails and screws of a back under sideways force."""

from __future__ import annotations

from math import sqrt

import pytest
from described import asked, findings, the, unit

from shelfload import tables
from shelfload.check.back_fasteners import NAIL_WIRE, nail_resistance
from shelfload.check.frame_shelves import RELIED_ON
from shelfload.check.result import Verdict
from shelfload.idealise.joint import Joint, Member
from shelfload.solve.wall_diaphragm import hardest_fastener
from shelfload.wording import figure

QUESTION = "fasteners of the back hold"
NAILS = {"fixed": "nailed", "spacing": "100 mm"}


def store(panel="board", thickness="20 mm", **back):
    made = unit(heights=(600,), bays=(960,))
    made["panel"] = {"material": panel, "thickness": thickness}
    made["back"] = {"material": "hardboard", "thickness": "3.2 mm", **NAILS, **back}
    return made


def answer(**more):
    found = findings(store(**more))
    checks = asked(found, "level 1", QUESTION)
    return checks[0] if checks else None


def test_force_by_hand():
    """150 N at 640 mm of 1000 mm, and 1/200 of the weight, over the width, every 100 mm, x 1.5.

    Half of each level's weight is above the middle of the frame's members, so that the lean is
    between that of the top alone and that of everything.
    """
    found = findings(store(diameter="1.8 mm", length="30 mm"))
    check = the(found, "level 1", QUESTION)
    (placed,) = found.whole.placed.values()
    width, height = 980.0, 620.0
    more = 1.5 * 100.0 * max(hardest_fastener(width, height, 100.0), 1.0) / width
    push = 150.0 * 640.0 / 1000.0
    assert push * more < check.value < (push + placed.weights.total / 200.0) * more * 1.001


def test_nails_nobody_described_are_not_checked():
    check = answer()
    assert check.verdict is Verdict.NOT_CHECKED
    assert "diameter and length" in check.reason
    assert figure(check.value, "force") in check.reason


def test_screws_nobody_described_are_not_checked():
    check = answer(fixed="screwed")
    assert check.verdict is Verdict.NOT_CHECKED
    assert "screws, with their length" in check.reason


def test_described_nails_in_panel_edges_are_counted_on_up_to_what_is_common():
    check = answer(diameter="1.8 mm", length="30 mm")
    assert check.limit == RELIED_ON["nailed"]
    assert "common practice" in check.source
    assert check.verdict is Verdict.PASSES


def test_more_than_common_in_panel_edges_is_not_checked():
    check = answer(diameter="1.8 mm", length="30 mm", spacing="900 mm")
    assert check.value > RELIED_ON["nailed"]
    assert check.verdict is Verdict.NOT_CHECKED
    assert "no rule" in check.reason


def test_wider_than_the_rule_asks_is_no_pass():
    check = answer(diameter="1.8 mm", length="30 mm", spacing="160 mm")
    assert check.verdict is Verdict.NOT_CHECKED
    assert "or less" in check.reason


def test_glue_is_not_asked():
    assert answer(fixed="glued") is None


def test_nails_in_solid_wood_by_the_code():
    """Hardboard 3.2 mm on C24: modes a to f of 8.6 by hand, k_mod of both, gamma_M 1.3."""
    check = answer(panel="c24", diameter="1.8 mm", length="30 mm")
    back = tables.material("hardboard", 3.2)
    wood = tables.material("c24", 20.0).material
    d, t_1 = 1.8, back.thickness
    t_2 = 30.0 - t_1
    M_y = 0.3 * NAIL_WIRE * d**2.6  # (8.14)
    f_1 = 30.0 * d**-0.3 * t_1**0.6  # (8.21)
    f_2 = 0.082 * wood.density_k * d**-0.3  # (8.15)
    B, q = f_2 / f_1, t_2 / t_1
    a, b = f_1 * t_1 * d, f_2 * t_2 * d
    c = a / (1 + B) * (sqrt(B + 2 * B**2 * (1 + q + q**2) + B**3 * q**2) - B * (1 + q))
    one = (
        1.05
        * a
        / (2 + B)
        * (sqrt(2 * B * (1 + B) + 4 * B * (2 + B) * M_y / (f_1 * d * t_1**2)) - B)
    )
    two = (
        1.05
        * f_1
        * t_2
        * d
        / (1 + 2 * B)
        * (sqrt(2 * B**2 * (1 + B) + 4 * B * (1 + 2 * B) * M_y / (f_1 * d * t_2**2)) - B)
    )
    both = 1.15 * sqrt(2 * B / (1 + B)) * sqrt(2 * M_y * f_1 * d)
    R = min(a, b, c, one, two, both)
    kmod = sqrt(
        tables.kmod(back.material.duration_class, 1, "short-term").value
        * tables.kmod(wood.duration_class, 1, "short-term").value
    )
    assert check.limit == pytest.approx(R * kmod / 1.3, rel=1e-9)
    assert check.verdict is Verdict.PASSES
    assert "8.3" in check.source


def test_short_nails_have_no_design_value():
    # 8 d of 1.8 mm is 14.4 mm behind 3.2 mm of back
    check = answer(panel="c24", diameter="1.8 mm", length="17 mm")
    assert check.verdict is Verdict.NOT_CHECKED
    assert "is asked for" in check.reason


def test_screws_in_solid_wood_are_judged_as_everywhere():
    check = answer(panel="c24", fixed="screwed", screws="chipboard-screw-3 x 30 mm")
    assert check.limit is not None
    assert check.verdict is Verdict.PASSES


def test_softest_edge_decides():
    def joint(name):
        return Joint(
            first=Member(material=tables.material("hardboard", 3.2).material, thickness=3.2),
            second=Member(
                material=tables.material(name, 20.0).material, thickness=20.0, entered="edge"
            ),
            length=600.0,
        )

    assert nail_resistance(joint("c16"), 1.8, 30.0) < nail_resistance(joint("c24"), 1.8, 30.0)
    made = store(panel="c24", diameter="1.8 mm", length="30 mm")
    made["sides"] = {"material": "c16"}
    softer = asked(findings(made), "level 1", QUESTION)[0]
    assert softer.limit < answer(panel="c24", diameter="1.8 mm", length="30 mm").limit


def test_closer_nails_are_never_worse():
    wide, close = (
        answer(diameter="1.8 mm", length="30 mm", spacing=spacing)
        for spacing in ("140 mm", "70 mm")
    )
    assert close.value < wide.value


def test_unit_that_hangs_plumb_asks_nothing_of_them():
    hung = store()
    hung |= {"underside": "1500 mm", "hangs": {"maker": "anchor", "heights": ["500 mm"]}}
    found = findings(hung, site={"wall": "solid brick"})
    assert not asked(found, "level 1", QUESTION)


@pytest.mark.parametrize(
    ("fastener", "why"),
    [
        ({"diameter": "1.8 mm", "length": "10 mm"}, "is asked for"),
        # 5 d from either face of 20 mm: nails to 2 mm
        ({"panel": "c24", "diameter": "2.5 mm", "length": "40 mm"}, "from the faces"),
        ({"panel": "c24", "diameter": "1.8 mm", "length": "30 mm", "spacing": "10 mm"}, "closer"),
        ({"panel": "european-oak", "diameter": "1.8 mm", "length": "30 mm"}, "hole drilled first"),
    ],
)
def test_misplaced_fasteners_hold_nothing_by_design(fastener, why):
    check = answer(**fastener)
    assert check.verdict is Verdict.NOT_CHECKED
    assert why in check.reason


def test_nails_in_the_end_grain_of_a_shelf_have_no_value():
    made = store(panel="c24", diameter="1.8 mm", length="30 mm")
    made["shelf"] = {"grain": "across"}
    check = asked(findings(made), "level 1", QUESTION)[0]
    assert check.verdict is Verdict.NOT_CHECKED
