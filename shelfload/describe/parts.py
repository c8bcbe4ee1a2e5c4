"""Parts of a unit as the user describes them: panels, shelves, backs, contents, joins."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationInfo, model_validator

from shelfload.describe.fields import (
    Angle,
    ContentsName,
    Length,
    LimitName,
    LoadValue,
    MaterialName,
    Offset,
    catalogue_of,
)
from shelfload.describe.joins import Join
from shelfload.errors import QuantityError

Bond = Literal["glued", "screwed", "lying"]
LoadDuration = Literal["long-term", "medium-term", "short-term"]


class Part(BaseModel):
    """Base of every described part: unknown keys are mistakes, values never change."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class Panel(Part):
    """A sheet: material and thickness as ordered."""

    material: MaterialName = Field(description="a row, family or alias of the materials table")
    thickness: Length = Field(description="thickness as sold")

    @model_validator(mode="after")
    def _is_sold(self, info: ValidationInfo) -> Panel:
        catalogue_of(info).material(self.material, self.thickness)
        return self


class Lipping(Part):
    """A strip glued to an edge of a shelf, its top flush with the shelf unless said."""

    material: MaterialName = Field(description="what the strip is made of")
    thickness: Length = Field(description="front to back; taken off the depth of the panel")
    height: Length = Field(description="how tall it stands; more than the shelf hangs below it")

    @model_validator(mode="after")
    def _is_sold(self, info: ValidationInfo) -> Lipping:
        catalogue_of(info).material(self.material, self.thickness)
        return self


class Pins(Part):
    """Four pins that a shelf lies on, two in each side."""

    from_front: Length = Field(description="front pins behind the front edge")
    from_rear: Length = Field(description="rear pins before the rear edge")


class Arc(Part):
    """A plan cut on a curve: a ring of one inner radius, over an angle."""

    inner_radius: Length
    angle: Angle
    front: Literal["inner", "outer"] = Field(
        "outer", description="which of the two curved edges is the front"
    )


class Shelf(Part):
    """What a horizontal is made of and how it is held; unsaid keys come from the unit."""

    material: MaterialName | None = None
    thickness: Length | None = None
    panels: Annotated[int, Field(ge=1, le=2, description="1 single, 2 doubled")] = 1
    second: Panel | None = Field(None, description="the lower panel of a double, if different")
    joined: Bond | None = Field(None, description="how the two panels of a double hold together")
    grain: Literal["along", "across"] = Field(
        "along", description="face grain along the span, or across it"
    )
    runs: Literal["between", "through"] = Field(
        "between", description="cut between the uprights, or one panel through over the dividers"
    )
    ends: Literal["free", "clamped"] = Field(
        "free", description="ends free to turn (the safe default), or clamped"
    )
    bearing: Length | None = Field(None, description="length of support under each end")
    lipping_front: Lipping | None = None
    lipping_rear: Lipping | None = None
    limit: LimitName | None = Field(None, description="sag limit, a row of the limits table")
    loose: bool = Field(False, description="lies on pins or cleats and can be taken out")
    play: Offset | None = Field(
        None, description="clear width less length of the shelf, both ends together"
    )
    pins: Pins | None = Field(None, description="lies on four pins, not on whole edges")
    screws: Join | None = Field(
        None, description="between the two panels of a double; with glue they are its back-up"
    )

    @model_validator(mode="after")
    def _double_says_how(self) -> Shelf:
        if self.panels == 1 and (self.second is not None or self.joined is not None):
            raise QuantityError("panels = 1 with 'second' or 'joined'", "these need panels = 2")
        if self.panels == 2 and self.joined is None:
            raise QuantityError(
                "panels = 2 without 'joined'", 'joined = "glued", "screwed" or "lying"'
            )
        return self


class Upright(Part):
    """A side or a divider."""

    material: MaterialName | None = None
    thickness: Length | None = None
    panels: Annotated[int, Field(ge=1, le=2)] = 1
    joined: Bond | None = None


class Back(Part):
    """The back of a bay and what holds it."""

    material: MaterialName
    thickness: Length
    fixed: Literal["glued", "screwed", "nailed"]
    spacing: Length | None = Field(None, description="distance between screws or nails")
    diameter: Length | None = Field(None, description="of the screws or nails")
    holds: Literal["shelves", "edges"] = Field(
        "shelves",
        description="fixed along every shelf as well as round its edge, or round its edge only",
    )
    wall_spacing: Length | None = Field(
        None, description="distance between its fixings to the wall along each shelf, if any"
    )
    screws: Join | None = Field(None, description="which screws; their forces are then checked")

    @model_validator(mode="after")
    def _spacing_is_said(self, info: ValidationInfo) -> Back:
        catalogue_of(info).material(self.material, self.thickness)
        if self.fixed != "glued" and self.spacing is None:
            raise QuantityError(f'fixed = "{self.fixed}" without spacing', 'spacing = "150 mm"')
        return self


class PointLoad(Part):
    """A load on one spot of a bay."""

    load: LoadValue
    at: Offset = Field(description="from the left end of the bay's clear width")
    duration: LoadDuration = "long-term"
    from_front: Offset | None = Field(
        None, description="from the front edge; where the shelf is a plate, unsaid means there"
    )

    @model_validator(mode="after")
    def _is_total(self) -> PointLoad:
        if self.load.kind != "total":
            raise QuantityError(f"a load per {self.load.kind}", 'a total such as "20 kg"')
        return self


class Fill(Part):
    """What stands in a bay: an entry of the contents table, a load, spots, or all of them."""

    what: ContentsName | None = None
    packed: Literal["low", "typical", "high"] = Field(
        "typical", description="which figure of the contents table is used"
    )
    fill: Annotated[float, Field(gt=0.0, le=1.5, description="1 = full, 0.5 = half full")] = 1.0
    count: Annotated[int, Field(ge=1, le=100_000)] | None = Field(
        None, description="how many, for entries counted one by one"
    )
    load: LoadValue | None = None
    where: Literal["all over", "front edge", "rear edge", "left half", "right half"] = Field(
        "all over", description="where the contents and the load stand in the bay"
    )
    points: tuple[PointLoad, ...] = ()

    @model_validator(mode="after")
    def _says_something(self, info: ValidationInfo) -> Fill:
        if self.what is None and self.load is None and not self.points:
            raise QuantityError("an empty table", 'one of "what", "load" or "points"')
        if self.what is not None:
            catalogue = catalogue_of(info)
            counted = catalogue.contents(self.what).kind == "each"
            if counted != (self.count is not None):
                raise QuantityError(
                    f"{self.what} {'without' if counted else 'with'} count",
                    "count = a number for what is counted one by one"
                    if counted
                    else "no count: this entry is not counted one by one",
                )
        return self
