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
People = Literal["sitting", "standing", "sleeping", "leaning"]


class Part(BaseModel):
    """Base of every described part: unknown keys are mistakes, values never change."""

    model_config = ConfigDict(extra="forbid", frozen=True, defer_build=True)


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


class Strip(Part):
    """A strip, rib, face frame, flat bar or tube along a shelf."""

    material: MaterialName = Field(description="a row, family or alias of the materials table")
    width: Length = Field(description="front to back")
    height: Length = Field(description="how tall it stands")
    where: Literal["under", "over", "front", "rear", "groove"] = Field(
        "under",
        description="below or above the panel, before its front or behind its rear edge "
        "(taken off the depth), or let into its underside",
    )
    at: Offset | None = Field(
        None, description="its middle from the front edge; unsaid means mid-depth"
    )
    tube_wall: Length | None = Field(None, description="wall of a hollow tube")
    fixed: Literal["glued", "screwed"] = Field(description="how it is held to the panel")
    screws: Join | None = Field(None, description="which screws and how far apart")

    @model_validator(mode="after")
    def _is_sold(self, info: ValidationInfo) -> Strip:
        catalogue_of(info).material(self.material, self.thinnest)
        if self.fixed == "screwed" and (self.screws is None or not self.screws.spacing):
            raise QuantityError(
                'fixed = "screwed" without spacing', 'screws = { spacing = "200 mm" }'
            )
        if self.where == "groove" and self.fixed == "screwed":
            raise QuantityError('a strip in a groove, fixed = "screwed"', 'fixed = "glued"')
        if self.tube_wall is not None and 2 * self.tube_wall >= min(self.width, self.height):
            raise QuantityError("a tube without a hollow", "a wall thinner than half the tube")
        return self

    @property
    def thinnest(self) -> float:
        """What it is sold by: its smaller side, or the wall of a tube [mm]."""
        return self.tube_wall or min(self.width, self.height)


class Hollow(Part):
    """A hollow box: the two panels of a glued double are skins, with webs between them."""

    height: Length = Field(description="of the webs: the gap between the skins")
    web: Length = Field(description="thickness of one web, front to back")
    webs: Annotated[int, Field(ge=2, le=50)] = Field(
        2, description="how many, spread evenly from the front to the rear edge"
    )
    material: MaterialName | None = Field(None, description="of the webs, if not the skins'")


class Pins(Part):
    """Four pins that a shelf lies on, two in each side."""

    from_front: Length = Field(description="front pins behind the front edge")
    from_rear: Length = Field(description="rear pins before the rear edge")


class Ring(Part):
    """A plan on a curve: a part of a ring of one inner radius, as long as it is wide."""

    inner_radius: Length = Field(description="of the inner edge")
    front: Literal["inner", "outer"] = Field(
        "outer", description="which of the two curved edges is the front"
    )


class Arc(Ring):
    """A shelf cut on a curve: a ring of one inner radius, over an angle."""

    angle: Angle = Field(description="from one end to the other")


class Shelf(Part):
    """What a horizontal is made of and how it is held; unsaid keys come from the unit."""

    material: MaterialName | None = Field(
        None, description="a row, family or alias of the materials table"
    )
    thickness: Length | None = Field(None, description="thickness as sold")
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
        "free",
        description="ends free to turn, or said to be clamped: what that would change is shown, "
        "and nothing passes by it",
    )
    bearing: Length | None = Field(None, description="length of support under each end")
    lipping_front: Lipping | None = Field(None, description="strip glued to the front edge")
    lipping_rear: Lipping | None = Field(None, description="strip glued to the rear edge")
    limit: LimitName | None = Field(None, description="sag limit, a row of the limits table")
    loose: bool = Field(False, description="lies on pins or cleats and can be taken out")
    play: Offset | None = Field(
        None, description="clear width less length of the shelf, both ends together"
    )
    strips: tuple[Strip, ...] = Field(
        (), max_length=20, description="strips, ribs, bars or tubes along the shelf"
    )
    hollow: Hollow | None = Field(None, description="skins and webs instead of solid panels")
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
        if self.hollow is not None and (self.panels, self.joined) != (2, "glued"):
            raise QuantityError("hollow without two glued skins", 'panels = 2, joined = "glued"')
        return self


class Upright(Part):
    """A side or a divider."""

    material: MaterialName | None = Field(
        None, description="a row, family or alias of the materials table"
    )
    thickness: Length | None = Field(None, description="thickness as sold, of one panel")
    panels: Annotated[int, Field(ge=1, le=2)] = Field(1, description="1 single, 2 doubled")
    joined: Bond | None = Field(None, description="how the two panels of a double hold together")


class Back(Part):
    """The back of a bay and what holds it."""

    material: MaterialName = Field(description="a row, family or alias of the materials table")
    thickness: Length = Field(description="thickness as sold")
    fixed: Literal["glued", "screwed", "nailed"] = Field(
        description="to the rear edges of sides, dividers and shelves"
    )
    spacing: Length | None = Field(None, description="distance between screws or nails")
    diameter: Length | None = Field(None, description="of the screws or nails")
    length: Length | None = Field(None, description="of the screws or nails, head to point")
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

    load: LoadValue = Field(description="how much, in all")
    at: Offset = Field(description="from the left end of the bay's clear width")
    duration: LoadDuration = Field("long-term", description="how long it stays")
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

    what: ContentsName | None = Field(
        None, description="a row of the contents table or of the user's own contents"
    )
    packed: Literal["low", "typical", "high"] = Field(
        "typical", description="which figure of the contents table is used"
    )
    fill: Annotated[float, Field(gt=0.0, le=1.5, description="1 = full, 0.5 = half full")] = 1.0
    count: Annotated[int, Field(ge=1, le=100_000)] | None = Field(
        None, description="how many, for entries counted one by one"
    )
    load: LoadValue | None = Field(
        None, description="how much it is, instead of or beside a row of the table"
    )
    where: Literal["all over", "front edge", "rear edge", "left half", "right half"] = Field(
        "all over", description="where the contents and the load stand in the bay"
    )
    points: tuple[PointLoad, ...] = Field((), description="loads on single spots of the bay")
    people: People | None = Field(
        None,
        description="who is on it, of a seat, a platform, a bed, a bench or desk top: their "
        "stated loads come on top of the rest",
    )

    @model_validator(mode="after")
    def _says_something(self, info: ValidationInfo) -> Fill:
        if self.is_empty:
            raise QuantityError("an empty table", 'one of "what", "load", "points" or "people"')
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

    @property
    def is_empty(self) -> bool:
        """Whether it puts nothing on the shelf."""
        said = (self.what, self.load, self.people)
        return not self.points and all(one is None for one in said)
