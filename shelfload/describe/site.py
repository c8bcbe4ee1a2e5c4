"""Where the units stand: climate, people, wall, floor, and who lifts."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BeforeValidator, Field, model_validator

from shelfload import tables
from shelfload.describe.fields import (
    Length,
    LimitName,
    LoadValue,
    MaterialName,
    Name,
    Offset,
    name_schema,
)
from shelfload.describe.parts import Panel, Part
from shelfload.errors import QuantityError, UnknownName

CLIMATES = {"indoor": 1, "humid": 2, "outdoor": 3}
NO_FIXING = "no fixing allowed"


def _service_class(value: Any) -> Any:
    return CLIMATES.get(value, value) if isinstance(value, str) else value


def _known_wall(name: str) -> str:
    walls = tables.substrates()
    if name == NO_FIXING or name in walls:
        return name
    raise UnknownName("wall", name, [*walls, NO_FIXING])


WallName = Annotated[str, AfterValidator(_known_wall), name_schema("walls")]


class Layer(Part):
    """Something between a unit and the stud or masonry that holds it."""

    what: Name = Field("board", description="what it is: plasterboard, batten, plaster, foam")
    thickness: Length = Field(description="how thick it is")


class Joists(Part):
    """Floor joists under a unit, as far as they are known."""

    width: Length = Field(description="of each joist, across")
    height: Length = Field(description="of each joist, upright")
    span: Length = Field(description="between its supports")
    spacing: Length = Field(description="centre to centre")
    run: Literal["along", "across"] = Field(
        "along", description="along the unit's width (the heavier case), or across it"
    )
    material: MaterialName = Field("c16", description="strength class or wood of the joists")
    from_wall: Offset = Field(
        0.0,
        description="joists across the unit: from their support to the back of the unit",
        validate_default=False,
    )


class Floor(Part):
    """What the units stand on; what is not said is not checked."""

    kind: Literal["timber", "concrete", "ceiling", "unknown"] = Field(
        "unknown", description="ceiling: joists that were not meant as a floor; concrete: a slab"
    )
    sheet: Panel | None = Field(None, description="floor sheet over battens or joists")
    battens: Length | None = Field(
        None, description="spacing of the battens or joists under the sheet, centre to centre"
    )
    sheet_spans: Annotated[int, Field(ge=1, le=3)] = Field(
        1, description="spans that each sheet runs over; 1 is the safe default"
    )
    joists: Joists | None = Field(
        None, description="joists under the sheet, as far as they are known"
    )
    covering: Literal["hard", "carpet"] | None = Field(
        None, description="what lies on the floor; carpet lets a unit lean"
    )
    slope: Offset | None = Field(None, description="fall towards the room over the unit's depth")
    allowed: LoadValue | None = Field(
        None, description='what the floor was designed for, such as "2 kPa" or "40 psf"'
    )

    @model_validator(mode="after")
    def _fits(self) -> Floor:
        if self.allowed is not None and self.allowed.kind != "area":
            raise QuantityError(f"a {self.allowed.kind} load", 'a load per area such as "2 kPa"')
        if self.sheet is not None and self.battens is None and self.joists is None:
            raise QuantityError(
                "a sheet without the spacing under it", "battens = a length, or joists"
            )
        return self


class Site(Part):
    """Where the units stand."""

    service_class: Annotated[
        Literal[1, 2, 3],
        BeforeValidator(_service_class),
        Field(description='1 "indoor" (heated), 2 "humid" (garage, cellar), 3 "outdoor"'),
    ] = 1
    people_below: bool = Field(False, description="people sit, work or sleep under a unit")
    children: bool = Field(False, description="children can reach a unit")
    limit: LimitName | None = Field(None, description="sag limit, a row of the limits table")
    wall: WallName | None = Field(
        None, description='a row of the walls table, "unknown", or "no fixing allowed"'
    )
    stud_spacing: Length | None = Field(None, description="centre to centre")
    stud_material: MaterialName = Field("c16", description="what the studs are made of")
    wall_layers: Annotated[tuple[Layer, ...], Field(max_length=20)] | None = Field(
        None, description="board, battens, plaster, foam between the unit and stud or masonry"
    )
    floor: Floor = Field(Floor(), description="what the units stand on")
    lifters: Annotated[int, Field(ge=1, le=20)] | None = Field(
        None, description="how many people lift together"
    )
    platform: Length | None = Field(
        None, description="height of a firm platform that they stand on for high lifts"
    )

    @model_validator(mode="after")
    def _studs_are_said(self) -> Site:
        if self.stud_spacing is not None and self.wall not in (None, "timber stud", "metal stud"):
            raise QuantityError(
                f'stud_spacing with wall = "{self.wall}"', 'wall = "timber stud" or "metal stud"'
            )
        return self
