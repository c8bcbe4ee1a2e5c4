"""Figures of the bundled examples against free-body sums from the numbers in their files.

Sheets: birch plywood, 15 mm = 14.8 mm actual of 690 kg/m3, 18 = 17.6 of 685, 6.5 = 6.4 of 670,
9 = 9.2 of 710 (Handbook of Finnish Plywood, as tabled). Weights in N, lengths in mm.
"""

from __future__ import annotations

import pytest
from described import G, asked, the
from outcomes import example_outcome
from printed import printed

from shelfload.check.tipping_body import body_of, moments, scenarios

CUPBOARD, STORE, BRIDGE = (
    example_outcome(name).findings for name in ("wall-cupboard", "tall-store", "bench-bridge")
)


def weight(length, width, thickness, density):
    return length * width * thickness * density * 1e-9 * G


def test_ink_cupboard_on_its_hangers():
    # 850 + 2 x 15 = 880 wide, 220 + 200 + 3 x 14.8 = 464.4 high, 260 deep
    #   three panels 850 x 260:        3 x 22.132 =  66.396
    #   two sides 464.4 x 260:         2 x 12.092 =  24.184
    #   back 880 x 464.4 of 6.4:                     17.185      together 107.765
    #   contents (14 + 8) kg                        215.746
    # from the wall: rail 18 mm, so panels and sides at 18 + 130 = 148, back at 18 + 3.2 = 21.2,
    # contents at 18 + 6.5 + 253.5 / 2 = 151.25, hand of 300 N at 278
    #   M = 90.581 x 148 + 17.185 x 21.2 + 215.746 x 151.25 + 300 x 278
    #     = 13405.9 + 364.3 + 32631.6 + 83400.0 = 129801.9 N mm
    # pull at 440 above the lower edge: 129801.9 / 440 = 295.00, on two hangers 147.50 each
    # shear (107.765 + 215.746 + 300) / 2 = 311.76 each
    # hanger 40 kg = 392.27 N in pull, 75 kg = 735.50 N in shear, loads as they are:
    #   147.50 / 392.27 + 311.76 / 735.50 = 0.3760 + 0.4239 = 0.7999
    check = the(CUPBOARD, "wall", "holds: the unit's side", unit="ink cupboard")
    assert check.value == printed("0.7999")


def test_ink_cupboard_is_for_one_person():
    # the cupboard empty: 107.765 / 9.80665 = 10.989 kg
    # its hands 200 + 130 = 330 out: 250 / 330 = 0.7576; from 750 to 1450, the worse end up there:
    # 1 - 0.0003 x 700 = 0.79; travel 1450 from the floor: 0.82 + 45 / 1450 = 0.8510; grip 0.95
    #   23 x 0.7576 x 0.79 x 0.8510 x 0.95 = 11.13 kg: one person is enough
    check = the(CUPBOARD, "lifting", "people to lift whole unit", unit="ink cupboard")
    RWL = 23 * 250 / 330 * 0.79 * (0.82 + 45 / 1450) * 0.95
    assert printed("11.13") == RWL
    assert printed("10.989") == 107.765 / G
    assert check.value == 1


def test_sleeve_store_pulled_at_the_height_of_a_chest():
    # 736 wide, 400 + 380 + 380 + 360 + 300 + 6 x 17.6 = 1925.6 high, 350 deep
    #   six panels 700 x 350:          6 x 28.966 = 173.797
    #   two sides 1925.6 x 350:        2 x 79.682 = 159.363
    #   back 736 x 1925.6 of 6.4:                    59.596      together 392.756
    # feet 40 behind the front, so about x = 310: panels and sides at 175 hold with 135, the back
    # at 3.2 with 306.8; contents (at 178.25) would hold and are left out
    #   333.159 x 135 + 59.596 x 306.8 = 44976.5 + 18284.2 = 63260.7 N mm
    # pull 44.5 at 1422: 63279.0 N mm: just over, so it is tied back
    placed = STORE.whole.placed["sleeve store"]
    body = body_of(STORE.whole, placed)
    (pulled,) = [
        one for one in scenarios(STORE.whole, placed, body) if one.question.endswith("pulled")
    ]
    holding, tipping = moments(body, pulled)
    assert holding == printed("63260.7")
    assert tipping == printed("63279.0")
    assert any("without its restraints, tips over when pulled" in a for a in STORE.assumptions)


def test_sleeve_store_tilted_up_by_its_top():
    # the loose panel (28.966) out; it turns about its lower rear edge, each weight at its height
    #   panels at 8.8, 426.4, 824.0, 1599.2, 1916.8: 28.966 x 4775.2 = 138319
    #   sides and back at mid-height: (159.363 + 59.596) x 962.8     = 210814
    # over 1925.6: 349133 / 1925.6 = 181.31 N = 18.49 kg at its top end
    # one person from 300, over 1750 at most: 23 x (1 - 0.0003 x 450) x (0.82 + 45 / 1750) x 0.95
    #   = 23 x 0.865 x 0.8457 x 0.95 = 15.98 kg: two are needed
    check = the(STORE, "lifting", "people to tilt it up")
    assert weight(700, 350, 17.6, 685) == printed("28.966")
    assert (28.9661 * 4775.2 + 218.9579 * 962.8) / 1925.6 / G == printed("18.49")
    assert 23 * 0.865 * (0.82 + 45 / 1750) * 0.95 == printed("15.98")
    assert check.value == 2
    assert check.limit == 2


def test_bridge_presses_on_its_towers():
    # 560.5 + 574 + 560.5 + 2 x 18 + 2 x 18 = 1767 wide, 3 x 17.6 + 320 = 372.8 high
    #   bottom 1731 x 320 of 35.2: 130.979; top of 17.6: 65.489
    #   two sides 372.8 x 320: 28.208; two dividers 320 x 320: 24.213
    #   back 1767 x 372.8 of 9.2 and 710 kg/m3: 42.197          together 291.087
    #   contents 3 x 6 kg: 176.520
    # half on each side, factored (EN 1990 eq. 6.10):
    #   (1.35 x 291.087 + 1.5 x 176.520) / 2 = 328.87; on 18 x 320: 0.05710 N/mm2
    for side in ("left side", "right side"):
        press = the(BRIDGE, "standing", "presses on", unit="bridge", bay=side)
        assert press.value == printed("0.05710")
    # birch plywood across the grain as C16, 2.2 (EN 338:2016); kmod 0.7, gamma_M 1.2
    assert press.limit == printed("1.283")


def test_bridge_slides_and_lifts_off_its_towers():
    # friction 0.2 x 291.087 = 58.22 against a pull of 44.5
    slides = the(BRIDGE, "standing", "slides when pulled", unit="bridge")
    assert slides.limit == printed("58.22")
    # about the front edge, 320: all but the back at 160 and the back at 4.6:
    #   248.890 x 160 + 42.197 x 315.4 = 39822.4 + 13308.9 = 53131 N mm
    # pull at its top: 44.5 x 372.8 = 16590 N mm
    lifts = the(BRIDGE, "standing", "lifts off", unit="bridge")
    assert lifts.limit == printed("53131")
    assert lifts.value == printed("16590")


@pytest.mark.parametrize("tower", ["left tower", "right tower"])
def test_towers_put_half_of_the_bridge_on_the_floor(tower):
    # tower 340 + 2 x 18 = 376 wide, 420 + 420 + 360 + 4 x 17.6 = 1270.4 high, 320 deep
    #   four panels 340 x 320: 4 x 12.863 = 51.453; two sides: 2 x 48.063 = 96.127
    #   back 376 x 1270.4 of 6.4: 20.087; contents 30 kg: 294.200; together 461.866
    # with half of (291.087 + 176.520): 695.670 N on 376 x 320 = 0.005782 N/mm2
    check = the(BRIDGE, "floor", "load on its own footprint", unit=tower)
    assert check.value == printed("0.005782")
    # a storage floor is built for 7.5 kN/m2 (EN 1991-1-1:2002, Table 6.4, E1)
    assert check.limit == printed("0.0075")


def test_restraints_of_the_bridge_with_one_lost():
    # statics asks for none: 16590 < 53131; what counts is the 222 N of each (ASTM F3096, from
    # memory), on two of three as on all three; the plug holds 45 kg = 441.30 N
    check = the(BRIDGE, "restraint", "pull if one restraint gives out", unit="bridge")
    assert check.value == printed("222")
    assert check.limit == printed("441.30")
    assert not asked(BRIDGE, "restraint", "pull if one", unit="left tower")
