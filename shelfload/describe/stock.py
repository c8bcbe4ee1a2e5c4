"""What a yard sells: sheets and boards with their size and price, as the user was quoted."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated, Any, Literal

from pydantic import (
    BeforeValidator,
    Field,
    PlainSerializer,
    ValidationInfo,
    WithJsonSchema,
    model_validator,
)

from shelfload import units
from shelfload.describe.fields import Length, MaterialName, catalogue_of
from shelfload.describe.parts import Part
from shelfload.errors import QuantityError

Per = Literal["piece", "area", "length"]

_CURRENCY = r"[^\W\d_]{1,12}|[^\w\s.,/+-]{1,3}"  # a word, or a sign such as € or $
_PRICE = re.compile(
    rf"(?P<before>{_CURRENCY})? ?(?P<number>[0-9]+(?:[.,][0-9]+)?)(?: ?(?P<after>{_CURRENCY}))?"
    r"(?: ?(?:/|per|a) ?(?P<per>sheet|board|piece|m2|m²|sq m|ft2|ft²|sq ft|m|ft))?"
)
_THOUSANDS = re.compile(r"[0-9]+,[0-9]{3}")  # 1,200 may be a thousand and more, or one
_PER: dict[str, tuple[Per, str]] = {
    "m2": ("area", "1 m"), "m²": ("area", "1 m"), "sq m": ("area", "1 m"),
    "ft2": ("area", "1 ft"), "ft²": ("area", "1 ft"), "sq ft": ("area", "1 ft"),
    "m": ("length", "1 m"), "ft": ("length", "1 ft"),
}  # fmt: skip
_WHAT = "a price with its currency: of one sheet or board, or per m2, ft2, m or ft"
_BOARDS = ("solid", "glulam")
"""Kinds that have no usual sheet size."""
_EXAMPLES = ("84.50 EUR", "38 EUR/m2", "3.20 USD/ft2", "2.40 EUR/m")


@dataclass(frozen=True, slots=True, kw_only=True)
class Price:
    """An amount of some currency for a piece, for each mm2, or for each mm.

    Attributes
    ----------
    amount : float
        For one of ``per`` [currency, currency/mm2 or currency/mm].
    currency : str
        As written.
    per : "piece", "area" or "length"
        What it is paid for.
    text : str
        As written.
    """

    amount: float
    currency: str
    per: Per
    text: str


def read_price(value: Any) -> Price:
    """Read a price such as "84.50 EUR", "$ 72", "38 EUR/m2" or "2.40 EUR/m".

    Raises
    ------
    QuantityError
        If it is none, is nothing, or has no currency.
    """
    allowed = f"a price with its currency, such as {', '.join(_EXAMPLES)}"
    if not isinstance(value, str):
        raise QuantityError(str(value), allowed)
    text = " ".join(value.split())
    match = _PRICE.fullmatch(text)
    if match is None or _THOUSANDS.fullmatch(match["number"]):
        raise QuantityError(repr(value)[:60], allowed)
    currency = match["before"] or match["after"]
    if currency is None or (match["before"] and match["after"]):
        raise QuantityError(repr(value)[:60], allowed)
    amount = units.read_number(match["number"])
    if amount <= 0.0:
        raise QuantityError(repr(value)[:60], "a price above zero")
    per, unit = _PER.get(match["per"] or "", ("piece", ""))
    if unit:
        length = units.read(unit, "length")
        amount /= length**2 if per == "area" else length
    return Price(amount=amount, currency=currency, per=per, text=text)


PriceValue = Annotated[
    Price,
    BeforeValidator(read_price),
    PlainSerializer(lambda price: price.text),
    WithJsonSchema({"type": "string", "description": _WHAT, "examples": list(_EXAMPLES)}),
]


class Stock(Part):
    """A sheet or board that the yard sells."""

    material: MaterialName = Field(description="a row, family or alias of the materials table")
    thickness: Length = Field(description="thickness as sold")
    length: Length | None = Field(
        None, description="of one sheet, along its face grain; 2440 mm if left out"
    )
    width: Length | None = Field(
        None, description="of one sheet or board; 1220 mm if left out, for a sheet"
    )
    price: PriceValue = Field(
        description="what one costs, or an area or a length of it, with the currency"
    )

    @model_validator(mode="after")
    def _can_be_reckoned_with(self, info: ValidationInfo) -> Stock:
        row = catalogue_of(info).material(self.material, self.thickness).material
        if self.price.per == "piece" and row.kind in _BOARDS and not (self.length and self.width):
            raise QuantityError(
                "a price of one board without its size", "its length and width, or a price per m"
            )
        if self.price.per == "length" and self.width is None:
            raise QuantityError(
                "a price by length without a width", 'the width of the board, width = "95 mm"'
            )
        return self


def one_currency(stock: Sequence[Stock]) -> str:
    """Return the currency that all prices are in; empty where there is no price.

    Raises
    ------
    QuantityError
        If there are several.
    """
    named = list(dict.fromkeys(one.price.currency for one in stock))
    if len(named) > 1:
        raise QuantityError(f"prices in {' and '.join(named)}", "one currency for all prices")
    return named[0] if named else ""
