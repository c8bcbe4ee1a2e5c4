"""Prices of sheets and boards: read as people write them, and written back."""

from __future__ import annotations

import pytest

from shelfload.describe.reader import read_raw
from shelfload.describe.stock import read_price
from shelfload.describe.writer import as_mapping
from shelfload.errors import DescriptionError, QuantityError

SHELF = {
    "name": "shelf",
    "depth": "300 mm",
    "spans": ["900 mm"],
    "shelf": {"material": "birch-plywood", "thickness": "18 mm"},
    "contents": {"load": "20 kg/m"},
}
PLY = {"material": "birch-plywood", "thickness": "18 mm", "price": "84.50 EUR"}


@pytest.mark.parametrize(
    ("text", "amount", "currency", "per"),
    [
        ("84.50 EUR", 84.5, "EUR", "piece"),
        ("84,5 EUR", 84.5, "EUR", "piece"),
        ("€ 84.50", 84.5, "€", "piece"),
        ("$72 a sheet", 72.0, "$", "piece"),
        ("12 crowns per board", 12.0, "crowns", "piece"),
        # 1 m2 is a million mm2; 1 ft is 304.8 mm (international foot)
        ("38 EUR/m2", 38e-6, "EUR", "area"),
        ("3.20 USD/ft2", 3.2 / 304.8**2, "USD", "area"),
        ("2.40 EUR / m", 2.4e-3, "EUR", "length"),
        ("$1.5/ft", 1.5 / 304.8, "$", "length"),
    ],
)
def test_prices_as_people_write_them(text, amount, currency, per):
    price = read_price(text)
    assert price.amount == pytest.approx(amount)
    assert (price.currency, price.per) == (currency, per)


@pytest.mark.parametrize(
    "text",
    ["84.50", "EUR", "0 EUR", "-3 EUR", "1,200 EUR", "1,200.50 EUR", "€ 3 EUR", "3 EUR/kg", 84.5,
     "9**9 EUR", "", "3 EUR EUR", "1e3 EUR", "nan EUR"],
)  # fmt: skip
def test_what_is_no_price_is_refused(text):
    with pytest.raises(QuantityError):
        read_price(text)


def test_stock_comes_back_the_same():
    raw = {"stock": [PLY, {**PLY, "thickness": "24 mm", "length": "2500 mm", "price": "40 EUR/m2"}],
           "shelf": [SHELF]}  # fmt: skip
    project = read_raw(raw).project
    assert read_raw(as_mapping(project)).project == project


@pytest.mark.parametrize(
    ("stock", "told"),
    [
        ([PLY, {**PLY, "price": "80 USD"}], "one currency"),
        ([{**PLY, "price": "3 EUR/m"}], "width of the board"),
        ([{**PLY, "material": "birch-pywood"}], "birch-plywood"),
        ([{**PLY, "thickness": "55 mm"}], "55"),
        ([{**PLY, "price": 84.5}], "with its currency"),
    ],
)
def test_mistakes_in_a_price_list_are_told(stock, told):
    with pytest.raises(DescriptionError) as caught:
        read_raw({"stock": stock, "shelf": [SHELF]})
    assert told in str([str(mistake) for mistake in caught.value.mistakes])
