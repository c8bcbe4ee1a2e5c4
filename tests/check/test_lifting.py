"""Lifting of whole units: masses and people by the published equation, worked by hand."""

from __future__ import annotations

import pytest
from described import asked, findings, project, the, unit
from hypothesis import given, settings
from hypothesis import strategies as st
from printed import printed

from shelfload.check.result import Verdict
from shelfload.check.sections_lifted import one_person, sections
from shelfload.describe.reader import read_raw
from shelfload.idealise.arrangement import arrange
from shelfload.wording import spelled

BACK = {"material": "board", "thickness": "6 mm", "fixed": "glued"}


def cut(**more):
    description = read_raw(project(unit(**more)))
    return sections(arrange(description.project, description.catalogue)["box"])


def test_one_person_to_a_wall_by_the_niosh_equation():
    # 300 deep: hands 200 + 150 = 350 mm out, HM 250/350; taken and put with hands at 750 and
    # 1400: VM 1 and 1 - 0.0003 x 650; D 1400: 0.82 + 45/1400; grip 0.95
    RWL = 23 * 250 / 350 * (1 - 0.0003 * 650) * (0.82 + 45 / 1400) * 0.95
    assert one_person(300, 400, 1400) == pytest.approx(RWL, rel=1e-9)


def test_nothing_may_be_lifted_above_the_cut_off():
    assert one_person(300, 400, 1800) == 0.0
    found = findings(
        unit(underside="1800 mm", hangs={"maker": "anchor", "carcass": "anchor"}),
        site={"wall": "concrete"},
    )
    check = the(found, "lifting", "people to lift whole unit")
    assert check.verdict is Verdict.NOT_CHECKED


def test_sections_share_the_mass_of_the_unit_and_leave_loose_shelves_out():
    (whole,) = cut(heights=(300, 300))
    levels = cut(heights=(300, 300), comes_apart="levels")
    assert sum(section.mass for section in levels) == pytest.approx(whole.mass)
    loose = cut(heights=(300, 300), shelf={"loose": True})
    # three boards of 960 x 300 x 20 mm, 500 kg/m3, are out
    assert whole.mass - loose[0].mass == pytest.approx(3 * 0.96 * 0.3 * 0.02 * 500)
    boxes = cut(heights=(300,), bays=(400, 600), comes_apart="boxes")
    assert boxes[0].mass < whole.mass


def test_people_said_are_enough_or_the_check_fails():
    def people(lifters, load=None):
        big = unit(
            heights=(500, 500, 500), bays=(1200,), depth=600, back=BACK, comes_apart=load or "no"
        )
        return the(findings(big, site={"lifters": lifters}), "lifting", "people to tilt")

    # (4 x 1200 + 2 x 1580) x 600 x 20 of 500 kg/m3 and the back: about 56 kg, half at the end
    assert people(1).verdict is Verdict.FAILS
    assert people(4).verdict is Verdict.PASSES


def test_open_unit_is_not_square_while_it_is_tilted_up():
    found = findings(unit(heights=(300, 300)))
    check = the(found, "lifting", "square while tilted up")
    assert check.value == 2
    assert check.verdict is Verdict.FAILS
    closed = findings(unit(heights=(300, 300), back=BACK))
    assert the(closed, "lifting", "square").verdict is Verdict.PASSES


def test_part_stacked_sections_are_pulled():
    found = findings(unit(heights=(500, 500, 500), depth=200, comes_apart="levels"))
    check = the(found, "lifting", "part-stacked")
    assert check.at_least
    assert check.verdict is Verdict.FAILS
    assert "Tie each level back" in check.remedy


def test_hung_unit_is_held_at_one_end_on_the_way():
    found = findings(
        unit(underside="1300 mm", hangs={"maker": "anchor", "carcass": "anchor"}),
        site={"wall": "solid brick"},
    )
    assert len(asked(found, "lifting", "people at the free end")) == 1


@settings(max_examples=25, deadline=None)
@given(bottom=st.integers(0, 1700), depth=st.integers(100, 800))
def test_higher_or_deeper_never_lets_one_lift_more(bottom, depth):
    now = one_person(depth, 400, bottom)
    assert one_person(depth + 50, 400, bottom) <= now + 1e-9
    if bottom >= 750:
        assert one_person(depth, 400, bottom + 50) <= now + 1e-9


def test_platform_brings_a_high_lift_within_reach():
    hung = unit(underside="1800 mm", hangs={"maker": "anchor", "carcass": "anchor"})
    low = findings(hung, site={"wall": "concrete", "platform": "500 mm"})
    check = the(low, "lifting", "people to lift whole unit")
    assert check.verdict in (Verdict.PASSES, Verdict.CLOSE)
    assert any("from a platform" in text for text in low.assumptions)


def test_largest_box_for_one_person_by_hand():
    # one level on the floor, 300 deep: taken at 190, half of level and board under it, no travel
    # 23 x 250 / 350 x (1 - 0.0003 x 560) x 1 x 0.95 = 12.985 kg
    # sides 2 x 400 x 300 x 20 of 500 kg/m3 = 2.4 kg; two boards of 960 x 300 = 5.76 kg on 1000
    # width: (12.985 - 2.4) / 0.00576 = 1837.7 mm
    found = findings(unit(comes_apart="boxes"))
    (text,) = [text for text in found.assumptions if "largest box" in text]
    assert "weighs 13 kg and is 1838 mm wide" in spelled(text, "metric")
    assert one_person(300, 380, 0.0) == printed("12.985")


def test_largest_box_is_that_of_the_highest_level_by_hand():
    # level 5 stands at 4 x 380 = 1520: from 750 at the least, hands end at 1520
    # 23 x 250 / 350 x (1 - 0.0003 x 770) x (0.82 + 45 / 1520) x 0.95 = 10.197 kg
    # (10.197 - 2.4) / 0.00576 = 1353.6 mm; from a platform of 400: 1120, so 11.9 kg and more
    found = findings(unit(heights=(360,) * 5, comes_apart="boxes"))
    (text,) = [text for text in found.assumptions if "largest box" in text]
    assert "weighs 10 kg and is 1354 mm wide (level 5)" in spelled(text, "metric")
    assert one_person(300, 380, 1520.0) == printed("10.197")
    stepped = findings(unit(heights=(360,) * 5, comes_apart="boxes"), site={"platform": "400 mm"})
    (text,) = [text for text in stepped.assumptions if "largest box" in text]
    # 23 x 250 / 350 x (1 - 0.0003 x 370) x (0.82 + 45 / 1120) x 0.95 = 11.934 kg
    assert "weighs 12 kg and is 1655 mm wide (level 5)" in spelled(text, "metric")


def test_box_too_high_for_anyone_is_told():
    hung = unit(underside="1800 mm", hangs={"maker": "anchor", "carcass": "anchor"})
    found = findings(hung, site={"wall": "concrete"})
    assert any("one person can lift no box" in text for text in found.assumptions)


def test_every_box_and_the_loose_shelves_are_weighed():
    # 400 + 600 in bays of one level: 2 x 1020 x 300 and three uprights, two of 400 and one of 360
    # high, x 20 mm of 500 kg/m3 = 9.6 kg, shared 4 : 6
    made = unit(bays=(400, 600), comes_apart="boxes")
    found = findings(made)
    (text,) = [text for text in found.assumptions if "boxes of level 1" in text]
    assert (2 * 1020 + 2 * 400 + 360) * 300 * 20 * 500e-9 == pytest.approx(9.6)
    assert spelled(text, "metric").endswith("by their widths: 3.8 kg, 5.8 kg")
    loose = findings(unit(shelf={"loose": True}))
    (text,) = [text for text in loose.assumptions if "taken out first" in text]
    # two boards of 960 x 300 x 20: 5.76 kg
    assert spelled(text, "metric") == "box: 5.8 kg of loose shelves taken out first"
