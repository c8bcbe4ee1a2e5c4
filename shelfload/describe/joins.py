"""How parts hold together: which screw, how many, glued or not, taken apart or not."""

from __future__ import annotations

import re
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field, model_validator

from shelfload import tables, units
from shelfload.describe.fields import Length
from shelfload.errors import QuantityError, UnknownName

By = Literal[
    "screws", "glue", "glue and screws", "bolts", "inserts", "connectors", "cleat", "housing"
]
WAYS: tuple[By, ...] = (
    "screws",
    "glue",
    "glue and screws",
    "bolts",
    "inserts",
    "connectors",
    "cleat",
    "housing",
)
KINDS: dict[By, tuple[str, ...]] = {
    "screws": ("chipboard screw", "full-thread screw", "wood screw", "coach screw"),
    "glue and screws": ("chipboard screw", "full-thread screw", "wood screw", "coach screw"),
    "bolts": ("connector bolt", "bolt"),
    "inserts": ("machine screw and insert",),
    "connectors": ("panel connector",),
}
"""Kinds of the fasteners table that each way of joining uses."""
SAME_DIAMETER = 0.05  # mm; gauges are a third of a millimetre apart
_SIZE = re.compile(r"^(?P<what>.*\S)\s*[x×]\s*(?P<length>\S.*)$")
_EXAMPLES = ["choose", "4 x 35 mm", "No. 8 x 1 1/4 in", "chipboard-screw-4 x 35 mm"]


def _known(name: str) -> str:
    return tables.fasteners()[name].name


class Screw(BaseModel):
    """A row of the fasteners table; the length is left to the program where it is not said."""

    model_config = ConfigDict(extra="forbid", frozen=True, defer_build=True)

    name: Annotated[str, AfterValidator(_known)] = Field(description="a row of the fasteners table")
    length: Length | None = Field(None, description="of the screw, head to point")

    @property
    def row(self) -> tables.Fastener:
        """The row of the fasteners table."""
        return tables.fasteners()[self.name]


def read_screw(text: str) -> tuple[tables.Fastener, float | None]:
    """Read a screw as people write it: a name of the table or a size, with or without length.

    Parameters
    ----------
    text : str
        Such as ``"4 x 35 mm"``, ``"No. 8 x 1 1/4 in"`` or ``"chipboard-screw-4"``.

    Returns
    -------
    tuple of Fastener and float or None
        Its row, and its length where one is written [mm].

    Raises
    ------
    QuantityError, UnknownName
        If it is neither.
    """
    row, length = _read(text.strip())
    if "nail" in row.kind:
        raise QuantityError(text, "a screw or a bolt: nails hold no lasting pull, nor come out")
    return row, length


def _read(text: str) -> tuple[tables.Fastener, float | None]:
    known = tables.fasteners()
    if text in known:
        return known[text], None
    size = _SIZE.match(text)
    if size is None:
        return _fastener(text, ""), None
    length = units.read(size["length"], "length")
    if length <= 0.0:
        raise QuantityError(size["length"], "a length above zero")
    unit = size["length"].lstrip("0123456789.,/ ")
    return _fastener(size["what"], unit), length


def _fastener(what: str, unit: str) -> tables.Fastener:
    """Return the row of a name or a diameter; a bare diameter has the unit of the length."""
    known = tables.fasteners()
    if what in known:
        return known[what]
    if not re.search(r"\d", what):
        raise UnknownName("screw", what, known)
    bare = re.fullmatch(r"[0-9.,/ ]+", what)
    is_gauge = re.match(r"(no|nr|number|gauge|[#№])|.*(gauge|ga)\.?$", what, re.IGNORECASE)
    try:
        diameter = units.read_screw_diameter(f"{what} {unit}" if bare and unit else what)
    except QuantityError:
        if re.match(r"[a-z]+-", what):
            raise UnknownName("screw", what, known) from None
        raise
    if is_gauge:
        kinds: tuple[str, ...] = ("wood screw",)
    elif what.lower().startswith("m"):
        kinds = KINDS["bolts"]
    else:
        kinds = tuple(kind for kind in KINDS["screws"] if kind != "wood screw")
    rows = [
        row
        for row in known.values()
        if row.kind in kinds and abs(row.diameter - diameter) <= SAME_DIAMETER
    ]
    if not rows:
        sold = sorted({row.diameter for row in known.values() if row.kind in kinds})
        raise QuantityError(what, f"a diameter of the table: {', '.join(f'{d:g}' for d in sold)}")
    return min(rows, key=lambda row: row.order or 99)


def _screw(value: Any) -> Any:
    if value is None or value == "choose":
        return None
    if isinstance(value, dict | Screw):
        return value
    if not isinstance(value, str):
        raise QuantityError(str(value), 'a screw such as "4 x 35 mm", or "choose"')
    row, length = read_screw(value)
    return {"name": row.name, "length": None if length is None else f"{length!r} mm"}


def way_of(row: tables.Fastener) -> By:
    """Return the way of joining that a fastener stands for."""
    return next((way for way, kinds in KINDS.items() if row.kind in kinds), "screws")


def _with_way(value: dict[str, Any]) -> dict[str, Any]:
    """Add the way of joining that a fastener stands for; its own field tells its faults."""
    try:
        return {**value, "by": way_of(read_screw(value["screw"])[0])}
    except (QuantityError, UnknownName):
        return value


class Join(BaseModel):
    """One join: by what, and if by screws, which and how many.

    A bare text stands for it: ``"glue"``, ``"screws"``, or a screw such as ``"4 x 35 mm"``.
    """

    model_config = ConfigDict(extra="forbid", frozen=True, defer_build=True)

    by: By = Field("screws", description="what holds it")
    screw: Annotated[Screw | None, BeforeValidator(_screw)] = Field(
        None,
        description='a row of the fasteners table or a size, with its length; "choose" or left '
        "out: the program chooses",
        json_schema_extra={"examples": list(_EXAMPLES)},
    )
    count: Annotated[int, Field(ge=1, le=1000)] | None = Field(
        None, description="screws in the join"
    )
    spacing: Length | None = Field(None, description="between screws, centre to centre")
    redriven: bool = Field(
        False, description="taken apart and put together again: worn threads are counted"
    )

    @model_validator(mode="before")
    @classmethod
    def _from_text(cls, value: Any) -> Any:
        if isinstance(value, str):
            value = {"by": value} if value in WAYS else {"screw": value}
        if isinstance(value, dict) and "by" not in value and isinstance(value.get("screw"), str):
            return _with_way(value)
        return value

    @model_validator(mode="after")
    def _adds_up(self) -> Join:
        if self.count is not None and self.spacing is not None:
            raise QuantityError("both count and spacing", "one of the two")
        screwless = self.by not in KINDS
        if screwless and (self.screw or self.count or self.spacing or self.redriven):
            raise QuantityError(f'by = "{self.by}" with screws', 'by = "glue and screws"')
        if self.screw is not None and self.by in ("bolts", "inserts", "connectors"):
            kinds = KINDS[self.by]
            if self.screw.row.kind not in kinds:
                raise QuantityError(
                    f'by = "{self.by}" with {self.screw.name}', f"a {' or '.join(kinds)}"
                )
        return self

    @property
    def demountable(self) -> bool:
        """Whether it can be undone at all."""
        return "glue" not in self.by


class Joins(BaseModel):
    """How the pieces of a unit hold together; what is not said is proposed in the join list."""

    model_config = ConfigDict(extra="forbid", frozen=True, defer_build=True)

    shelves: Join | None = Field(None, description="shelf ends into the sides and dividers")
    sides: Join | None = Field(
        None, description="boxes side by side: doubled sides or dividers, and neighbouring units"
    )
    stack: Join | None = Field(
        None, description="box on box where the unit comes apart, and the unit on what it stands on"
    )
