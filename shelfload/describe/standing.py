"""How a unit is held: hung, tied back, standing on others; what opens; what it lies on."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BeforeValidator, Field, ValidationInfo, model_validator

from shelfload import tables
from shelfload.describe.fields import (
    Force,
    Length,
    Mass,
    Name,
    Offset,
    Source,
    Text,
    catalogue_of,
    name_schema,
)
from shelfload.describe.joins import read_screw
from shelfload.describe.parts import Panel, Part
from shelfload.errors import QuantityError, UnknownName


def _known_screw(name: str) -> str:
    return tables.fasteners()[name].name


def _known_fixing(name: str, info: ValidationInfo) -> str:
    known = catalogue_of(info).own_fixings
    if name not in known:
        raise UnknownName("fixing of your own, [fixings.NAME],", name, known)
    return name


def _listed(value: Any) -> Any:
    return [value] if isinstance(value, str) else value


ScrewName = Annotated[str, AfterValidator(_known_screw), name_schema("fasteners")]
FixingName = Annotated[str, AfterValidator(_known_fixing)]
Heights = Annotated[tuple[Length, ...], BeforeValidator(_listed), Field(max_length=20)]
UnitNames = Annotated[tuple[str, ...], BeforeValidator(_listed), Field(max_length=20)]


class OwnFixing(Part):
    """What the maker of a fixing declares for one of it, in this wall or panel."""

    title: Text = Field("", description="what it is called in reports")
    tension: Force | None = Field(None, description="straight out")
    shear: Force | None = Field(None, description="along the wall")
    values: Literal["design", "recommended"] = Field(
        "recommended",
        description="design: compared with factored loads; recommended (working) loads: "
        "compared with the loads as they are",
    )
    source: Source = Field(description="who says so: the maker's data for this wall or panel")

    @model_validator(mode="after")
    def _says_something(self) -> OwnFixing:
        if self.tension is None and self.shear is None:
            raise QuantityError("neither tension nor shear", "the maker's load in at least one")
        return self


class Held(Part):
    """Fixings of one kind: a screw by the formulas, or a maker's declared loads."""

    screw: ScrewName | None = Field(
        None,
        description="a row of the fasteners table, or a size with its length: "
        '"No. 10 x 3 in", "6 x 100 mm"',
    )
    length: Length | None = Field(None, description="of the screw, where screw does not say it")
    maker: FixingName | None = Field(None, description="declared loads, [fixings.NAME]")
    count: Annotated[int, Field(ge=1, le=200)] | None = Field(
        None, description="fixings in each row; one in each stud if left out"
    )
    carcass: FixingName | None = Field(
        None, description="declared loads of hanger, bracket or strap on the unit's own panels"
    )

    @model_validator(mode="before")
    @classmethod
    def _sized(cls, value: Any) -> Any:
        """Take a screw apart that is written as it is sold, "No. 10 x 3 in"."""
        typed = value.get("screw") if isinstance(value, dict) else None
        if not isinstance(typed, str) or typed in tables.fasteners():
            return value
        try:
            row, length = read_screw(typed)
        except (QuantityError, UnknownName):
            return value  # the field tells its own fault
        if length is None:
            return {**value, "screw": row.name}
        if value.get("length") is not None:
            raise QuantityError("a length in screw and in length", "one of the two")
        return {**value, "screw": row.name, "length": f"{length!r} mm"}

    @model_validator(mode="after")
    def _one_kind(self) -> Held:
        if self.screw is not None and self.maker is not None:
            raise QuantityError("both screw and maker", "one of the two")
        if (self.screw is None) != (self.length is None):
            raise QuantityError("screw and length not both said", "both, or neither")
        return self


class Hung(Held):
    """A unit on the wall."""

    heights: Heights = Field(
        (),
        description="of each row of fixings above the unit's underside; one near the top if none",
    )
    through: Panel | None = Field(
        None, description="the rail that the heads bear on; the thin back alone if left out"
    )
    rail_height: Length | None = Field(None, description="of that rail, upright")
    behind: bool = Field(False, description="the rail is behind the unit and holds it off the wall")
    first_stud: Offset | None = Field(
        None, description="from the unit's left end to the first stud behind it"
    )
    hangers: Annotated[int, Field(ge=1, le=50)] = Field(
        2, description="places where the carcass hands its load to the rail"
    )


class Restraint(Held):
    """What ties a standing unit back to the wall."""

    height: Length | None = Field(
        None, description="above the unit's underside; just under the top if left out"
    )
    first_stud: Offset | None = Field(
        None, description="from the unit's left end to the first stud behind it"
    )


class Between(Part):
    """A unit hung between two neighbours, by fasteners through their sides."""

    left: str = Field(description="name of the unit on its left")
    right: str = Field(description="name of the unit on its right")
    screw: ScrewName | None = Field(None, description="a row of the fasteners table")
    maker: FixingName | None = Field(
        None, description="one of the user's own fixings, with the maker's loads"
    )
    count: Annotated[int, Field(ge=1, le=200)] = Field(4, description="fasteners in each side")

    @model_validator(mode="after")
    def _two_neighbours(self) -> Between:
        if self.left == self.right:
            raise QuantityError(f"{self.left!r} on both sides", "two neighbours")
        if self.screw is not None and self.maker is not None:
            raise QuantityError("both screw and maker", "one of the two")
        return self


class Rest(Part):
    """Something that is not described and carries the unit: a bench, a sill, a chest."""

    what: Name = Field(description="what carries it: a bench, a sill, a chest")
    allowed: Force = Field(description="what it may carry in all")
    source: Source = Field(description="who says so")


class Opening(Part):
    """Drawers or doors that come out over the front edge together."""

    mass: Mass = Field(description="with what is in them, all that open at once")
    out: Length = Field(description="how far they reach beyond the front")
    height: Length | None = Field(None, description="of the middle of them above the underside")


class Brackets(Held):
    """Arms that carry a shelf on the wall."""

    kind: Literal["brackets"] = Field(description="arms on the wall")
    number: Annotated[int, Field(ge=2, le=100)] | None = Field(
        None, description="how many; needed with 'length' instead of 'spans'"
    )
    height: Length = Field(description="upper fixing above the foot that bears on the wall")


class Cleat(Held):
    """A strip along the back, and the ends if they are held too."""

    kind: Literal["cleat"] = Field(description="a strip along the back")
    height: Length = Field(description="of the strip")
    ends: bool = Field(False, description="strips at both ends too: the shelf can't drop forward")


class Rods(Part):
    """Concealed rods let into the wall."""

    kind: Literal["rods"] = Field(description="concealed rods let into the wall")
    number: Annotated[int, Field(ge=2, le=100)] = Field(description="how many")
    diameter: Length = Field(description="of each rod")
    in_wall: Length = Field(description="length in sound wall, board and plaster not counted")
    play: Offset = Field(0.5, description="hole less rod", validate_default=False)


Supports = Annotated[Brackets | Cleat | Rods, Field(discriminator="kind")]
