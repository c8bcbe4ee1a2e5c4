"""Uprights and the fasteners of backs: strengths, free heights and least distances by hand."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace as Made

import numpy as np
import pytest
from described import PER_AREA, G, findings, the, unit
from made_up import NAILED, check

from shelfload import tables
from shelfload.check import (
    back_fasteners,
    uprights,
)
from shelfload.check.result import Verdict
from shelfload.idealise.joint import Member
from shelfload.idealise.place import Place
from shelfload.wording import figure, size


@pytest.mark.parametrize(
    ("loose", "heights"),
    # 100, 200, 400 and 800 mm high; the bottom and the top panel hold, loose or not
    [
        ((), [100, 200, 400, 800]),
        ((1, 2), [700, 700, 700, 800]),
        ((0, 3, 4), [100, 200, 1200, 1200]),
    ],
)
def test_height_between_shelves_that_hold(monkeypatch, loose, heights):
    monkeypatch.setattr(uprights, "horizontal", lambda _unit, n: Made(loose=n in loose))
    made = Made(level=[Made(height=height) for height in (100.0, 200.0, 400.0, 800.0)])
    assert [uprights.unheld_height(made, n) for n in range(4)] == heights


def test_what_the_shelf_above_hands_over_by_hand():
    def force(level, centre, dead, imposed, skew=1.0):
        return Made(level=level, upright=Made(centre=centre), dead=dead, imposed=imposed, skew=skew)

    foot = force(0, 10.0, 100.0, 60.0, 1.2)
    over = [force(1, 700.0, 5.0, 5.0), force(2, 10.0, 7.0, 7.0), force(1, 10.9, 40.0, 20.0)]
    # 1.2 x (1.35 x 60 + 1.5 x 40); all of it where nothing stands above; never less than nothing
    assert uprights._shelf_above([foot, *over], foot) == pytest.approx(1.2 * 141)
    assert uprights._shelf_above([foot, *over[:2]], foot) == pytest.approx(1.2 * 225)
    assert uprights._shelf_above([force(1, 11.0, 40.0, 20.0)], foot) == pytest.approx(1.2 * 225)
    fuller = force(1, 10.0, 40.0, 70.0)
    assert uprights._shelf_above([fuller], foot) == pytest.approx(1.2 * 1.35 * 60)
    heavy = force(1, 10.0, 140.0, 20.0)
    assert uprights._shelf_above([heavy], foot) == pytest.approx(1.2 * 1.5 * 40)
    assert uprights.factored(foot) == pytest.approx(1.2 * 225)
    assert uprights._uneven(foot) == (
        f"; {figure(1.2, 'ratio')} times its load, as at its hardest pressed quarter"
    )
    assert uprights._uneven(over[0]) == ""


def test_stiffness_of_an_upright_for_stability_by_hand():
    wood = replace(tables.material("c24", 20.0).material, E_0=11000.0, E_90=370.0)
    assert uprights.stiffness_05(replace(wood, E_005=7400.0)) == pytest.approx(7400)
    bare = replace(wood, E_005=None, cov_E=0.1, E_basis="true")
    assert uprights.stiffness_05(bare) == pytest.approx(11000 * (1 - 0.1645))
    assert uprights.stiffness_05(replace(bare, cov_E=None)) == pytest.approx(11000 * (1 - 0.329))
    assert uprights.stiffness_05(replace(bare, E_basis="product minimum")) == 11000.0
    panel = replace(bare, kind="plywood", E_90=5000.0)
    assert uprights.stiffness_05(panel) == pytest.approx(5000 * (1 - 0.1645))
    assert uprights.stiffness_05(replace(panel, E_005=8800.0)) == pytest.approx(4000)
    assert uprights.stiffness_05(replace(panel, E_90=None)) == pytest.approx(11000 * (1 - 0.1645))


def test_lying_double_side_by_hand():
    sides = {"material": "board", "thickness": "12 mm", "panels": 2, "joined": "lying"}
    found = findings(unit(heights=(700, 300), loads=(0, 100), sides=sides))
    got = the(found, "level 1", "uprights buckle")
    # all weights as of 20 mm board: shelves 966 / 2 each, sides 24 mm thick; 50 kg
    own = PER_AREA * 300
    N = 1.35 * own * (966 + 1.2 * 1000) + 1.5 * 50 * G
    # the shelf above hands over its half and the 50 kg, 3 of the 12 mm from the edge
    M = (1.35 * own * (966 / 2 + 1.2 * 700) + 1.5 * 50 * G) * (12 - 3)
    f_c, f_m = 15 * 0.7 / 1.2, 30 * 0.7 / 1.2
    rel = 700 * 12**0.5 / 12 / np.pi * (15 / 6710) ** 0.5
    k = 0.5 * (1 + 0.2 * (rel - 0.3) + rel**2)
    k_c = 1 / (k + (k**2 - rel**2) ** 0.5)
    # each of the two for itself
    ratio = N / 2 / (12 * 300) / (k_c * f_c) + M / 2 / (300 * 12**2 / 6) / f_m
    assert ratio * 0.999 <= got.value <= 1.004 * ratio
    assert (got.limit, got.measure) == (1.0, "ratio")
    assert f" on {size(12.0)} x {size(300.0)}, relative slenderness {rel:.2f}" in got.governs
    assert got.source == "EN 1995-1-1:2004, 6.3.2; loads EN 1990 eq. (6.10)"
    assert "doubled uprights that are not glued buckle each for itself" in found.assumptions


def misplaced(material, thickness, fixed, d, length, spacing=100.0):
    joint = Made(
        first=Made(thickness=3.2),
        second=Member(material=tables.material(material, 20.0).material, thickness=thickness,
                      entered="edge"),
    )  # fmt: skip
    back = Made(fixed=fixed, spacing=spacing)
    return back_fasteners._misplaced(joint, back, d, length)


@pytest.mark.parametrize(
    ("good", "bad", "words"),
    [  # EN 1995-1-1:2004, 8.3.1.2: 8 d of a nail, 6 d of a screw behind 3.2 mm
        (("c24", 20.0, "nailed", 2.0, 19.2), ("c24", 20.0, "nailed", 2.0, 19.1), 16.0),
        (("c24", 20.0, "screwed", 3.0, 21.2), ("c24", 20.0, "screwed", 3.0, 21.1), 18.0),
        # Table 8.2: 5 d to the edge, 3 d predrilled; 2 d in the edge of a panel
        (("c24", 20.0, "nailed", 2.0, 30.0), ("c24", 19.9, "nailed", 2.0, 30.0), 10.0),
        (("c24", 18.0, "screwed", 3.0, 30.0), ("c24", 17.9, "screwed", 3.0, 30.0), 9.0),
        (("birch-plywood", 8.0, "nailed", 2.0, 30.0), ("birch-plywood", 7.9, "nailed", 2.0, 30.0),
         4.0),
        # 0.85 x 10 d, predrilled 0.85 x 5 d along the grain; panels ask for none
        (("c24", 20.0, "nailed", 2.0, 30.0, 17.0), ("c24", 20.0, "nailed", 2.0, 30.0, 16.9), 17.0),
        (("c24", 20.0, "screwed", 2.0, 30.0, 8.5), ("c24", 20.0, "screwed", 2.0, 30.0, 8.4), 8.5),
    ],
)  # fmt: skip
def test_fasteners_exactly_at_the_least_distances(good, bad, words):
    assert misplaced(*good) is None
    assert size(words) in misplaced(*bad)
    assert misplaced("birch-plywood", 20.0, "nailed", 2.0, 30.0, 1.0) is None


def test_foot_of_a_divider_in_all_its_words():
    found = findings(unit(heights=(300, 300), bays=(460, 460), loads=(0, 40), base="plinth"))
    got = the(found, "level 1", "uprights press")
    assert got.place == Place(unit="box", part="level 1")
    assert (got.question, got.measure) == ("uprights press into the panel below", "stress")
    assert got.limit == pytest.approx(2.2 * 0.7 / 1.2)  # as C16, EN 338:2016
    assert got.method == "factored long-term load over the edge"
    assert got.governs == "divider 1; board (borrowed from strength class C16)"
    assert got.remedy == "Use a thicker upright or a harder panel."
    assert not any("doubled uprights" in text for text in found.assumptions)
    assert any("0.5 of their bending strength" in text for text in found.assumptions)


def test_strengths_of_an_upright_by_hand():
    wood = tables.material("c24", 20.0).material
    panel = replace(wood, kind="plywood", f_m_0=24.0, f_m_90=15.0, f_c_0=None)
    assert uprights.weak_bending(panel) == 15.0
    assert uprights.weak_bending(replace(panel, f_m_90=None)) == 24.0
    assert uprights.weak_bending(replace(panel, kind="solid")) == 24.0
    assert uprights.compression_strength(panel) == 7.5  # half of 15
    assert uprights.compression_strength(replace(panel, f_m_0=None, f_m_90=None)) is None
    assert uprights.compression_strength(replace(panel, f_c_0=18.0)) == 18.0


def test_upright_of_unknown_strength_is_not_checked():
    found = findings(unit(heights=(700, 300), loads=(0, 60)))
    (placed,), (stack,) = found.whole.placed.values(), found.whole.stacks
    board = replace(
        uprights.board_of(found.whole, placed.unit, "left side").material, f_m_0=None, f_m_90=None
    )
    forces = found.whole.upright_forces("box")
    whole = Made(
        catalogue=Made(material=lambda *_: Made(material=board, thickness=20.0)),
        project=found.whole.project,
    )
    foot = next(force for force in forces if force.level == 0)
    (got,) = uprights._buckling(whole, placed, forces, foot)
    assert got.verdict is Verdict.NOT_CHECKED
    assert got.reason == f"{board.called}: no strength is published"
    assert got.place == Place(unit="box", part="level 1")
    assert (got.question, got.source) == ("uprights buckle", "EN 1995-1-1:2004, 6.3.2")
    assert not stack.unknown


def test_what_uprights_are_made_of():
    raw = unit(
        heights=(300,), bays=(300, 400), dividers={"material": "c24", "thickness": "24 mm"},
        sides={"panels": 2, "joined": "glued"}, back={**NAILED},
    )  # fmt: skip
    whole = findings(raw).whole
    box = whole.placed["box"].unit
    side, divider = (uprights.board_of(whole, box, n) for n in ("right side", "divider 1"))
    assert (side.material.name, side.thickness, side.total) == ("board", 20.0, 40.0)
    assert (side.layers, side.glued) == (2, True)
    assert (divider.material.name, divider.thickness, divider.total) == ("c24", 24.0, 24.0)
    assert (divider.layers, divider.glued) == (1, False)
    edges = list(back_fasteners._edges(whole, box, 0))
    assert [edge.material.name for edge in edges] == ["board", "c24", "board", "board"]
    assert {edge.entered for edge in edges} == {"edge"}
    told = uprights._not_known(whole.placed["box"], "no beam")
    assert told.reason == "what they carry is not known (no beam)"
    assert (told.place, told.question) == (Place(unit="box"), "uprights buckle")


def test_what_is_not_checked_of_backs_comes_first():
    unknown, worse = (check(value, None, reason="why") for value in (2.0, 3.0))
    order = [check(1.0), check(8.0), unknown, worse]
    worst_first = list(reversed(order))
    assert sorted(worst_first, key=back_fasteners._gravity) == order
