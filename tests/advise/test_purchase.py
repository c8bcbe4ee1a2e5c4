"""What a change takes: pieces, area, sheets and money, each by hand."""

from __future__ import annotations

import pytest

from shelfload.advise.options import options_for
from shelfload.advise.purchase import extra, purchase
from shelfload.advise.spot import spot
from shelfload.describe.reader import read_raw
from shelfload.idealise.panels import cut_list, sheets
from shelfload.idealise.place import Place

PLACE = Place(unit="table")


def described(price="84.50 EUR", thickness="18 mm", **more):
    return read_raw(
        {
            "stock": [
                {"material": "birch-plywood", "thickness": thickness, "price": price, **more},
                {"material": "c16", "thickness": "20 mm", "width": "95 mm", "price": "2.40 EUR/m"},
            ],
            "shelf": [
                {
                    "name": "table",
                    "depth": "1000 mm",
                    "spans": ["2000 mm"],
                    "fixed_down": True,
                    "shelf": {"material": "birch-plywood", "thickness": "18 mm",
                              "bearing": "20 mm"},
                    "contents": {"load": "30 kg/m"},
                }
            ],
        }
    )  # fmt: skip


def doubled(description):
    at = spot(description.project, PLACE)
    project = at.with_shelf(panels=2, joined="glued")
    return extra(
        purchase(description.project, description.catalogue),
        purchase(project, description.catalogue),
    )


# the board is 1000 x 2040 mm: 2.04 m2; with 15 % of waste 2.40 m2 of a sheet of 2440 x 1220 mm,
# which is 2.977 m2: one sheet; twice that, 4.80 m2, takes two
def test_a_second_panel_takes_a_second_sheet():
    found = doubled(described())
    assert found.pieces == 1
    assert found.area == pytest.approx(1000 * 2040)
    assert (found.more, found.fewer) == (1, 0)
    assert found.cost == pytest.approx(84.5)


def test_a_larger_sheet_takes_both():
    found = doubled(described(length="3000 mm", width="1650 mm"))  # 4.95 m2
    assert (found.more, found.cost) == (0, 0.0)


def test_a_price_by_area_pays_for_the_waste():
    assert doubled(described("40 EUR/m2")).cost == pytest.approx(40 * 2.04 / 0.85)


def test_what_has_no_price_is_named_and_nothing_is_made_up():
    found = doubled(described(thickness="24 mm"))
    assert found.cost is None
    ((called, thickness),) = found.unpriced
    assert ("plywood" in called, thickness) == (True, 18.0)


def test_a_strip_is_paid_by_its_length():
    description = described()
    at = spot(description.project, PLACE)
    strip = {"material": "c16", "thickness": 20.0, "height": 47.5}
    lipping = type(at.shelf).model_fields["lipping_front"].annotation
    project = at.with_shelf(lipping_front=lipping.__args__[0].model_construct(**strip))
    found = extra(
        purchase(description.project, description.catalogue),
        purchase(project, description.catalogue),
    )
    # half of a board 95 mm wide, 2040 mm long, and 15 % of waste; the top is 20 mm less deep,
    # which saves no whole sheet
    assert found.cost == pytest.approx(2.40 * 2.040 / 2 / 0.85)
    assert found.pieces == 1


def test_sheets_are_counted_as_in_the_cut_list():
    description = described()
    bought = purchase(description.project, description.catalogue)
    cut = cut_list(description.project, description.catalogue)
    (listed,) = sheets(cut, (2440.0, 1220.0), 0.15, description.catalogue)
    (own,) = bought.kinds.values()
    assert (own.sheets, own.area) == (listed.count, listed.area)
    assert bought.mass == pytest.approx(cut.mass)


def test_options_have_a_price_only_where_one_is_given():
    found = options_for(described(), PLACE)
    assert found.currency == "EUR"
    glued = next(option for option in found.choices if option.kind == "double")
    assert glued.extra.cost == pytest.approx(84.5)
    bare = described()
    project = bare.project.model_copy(update={"stock": ()})
    without = options_for(type(bare)(project, bare.catalogue), PLACE)
    assert without.currency == ""
    assert [option.words for option in without.choices]
