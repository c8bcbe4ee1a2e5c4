"""The description as a whole: the site, the user's own rows, and the units."""

from __future__ import annotations

from collections.abc import Iterable
from math import degrees
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, model_validator

from shelfload.describe.fields import (
    Corners,
    Density,
    Length,
    LoadValue,
    Name,
    Offset,
    Room,
    Source,
    Stress,
    Text,
)
from shelfload.describe.joins import Joins
from shelfload.describe.parts import Arc, Back, Fill, Panel, Part, Ring, Shelf, Upright
from shelfload.describe.site import Site
from shelfload.describe.standing import (
    Between,
    Brackets,
    Hung,
    Opening,
    OwnFixing,
    Rest,
    Restraint,
    Supports,
    UnitNames,
)
from shelfload.describe.stock import Stock, one_currency
from shelfload.errors import QuantityError

LARGEST_TURN = 3.05
"""Largest angle of a unit that is curved in plan [rad]: as for one curved shelf."""


MOST_BAYS = 500
"""Bays of all units together that one description may hold: beyond, an answer takes too long."""


LEAST_INSIDE = 10.0
"""Least clear width of a bay at the inner radius [mm], as of any bay."""


def _fills(value: Any) -> Any:
    """Let one entry stand for every bay, and a bare name for a table."""
    if isinstance(value, str | dict):
        return [_fill(value)]
    if isinstance(value, list):
        return [_fill(entry) for entry in value]
    return value


def _fill(value: Any) -> Any:
    if value == "empty":
        return None
    return {"what": value} if isinstance(value, str) else value


def _one_each(contents: tuple[Fill | None, ...], count: int) -> tuple[Fill | None, ...]:
    if len(contents) == count:
        return contents
    return (contents[0] if contents else None,) * count


def _points_fit(bays: Iterable[tuple[float, Fill | None]]) -> None:
    for width, fill in bays:
        for point in fill.points if fill else ():
            if point.at > width:
                raise QuantityError(
                    f"a point load at {point.at:g} mm in a bay {width:g} mm wide",
                    "a place inside the bay",
                )


def _room_inside(unit: Unit, inner: float) -> None:
    """Uprights along the radius come closer inside: there must be room between them."""
    share = inner / (inner + unit.depth / 2.0)
    side, divider = upright_thickness(unit, unit.sides), upright_thickness(unit, unit.dividers)
    for level in unit.level:
        last = len(level.bays) - 1
        for number, bay in enumerate(level.bays):
            thick = [side if number == 0 else divider, side if number == last else divider]
            narrowest = (bay + sum(thick) / 2.0) * share - sum(thick) / 2.0
            if narrowest < LEAST_INSIDE or inner < max(thick):
                raise QuantityError(
                    f"a bay {max(narrowest, 0.0):.0f} mm wide at the inner radius",
                    f"{LEAST_INSIDE:.0f} mm or more: a larger inner_radius, or a wider bay",
                )


class Level(Part):
    """One storey of a unit: the clear space above one shelf and below the next."""

    height: Room = Field(description="clear height")
    bays: Annotated[tuple[Room, ...], Field(min_length=1, max_length=200)] = Field(
        description="clear widths from left to right"
    )
    contents: Annotated[tuple[Fill | None, ...], BeforeValidator(_fills)] = Field(
        (), description='one entry for all bays, or one for each; "empty" for none'
    )
    shelf: Shelf | None = Field(None, description="the panel this level stands on")
    back: Back | Literal["none"] | None = Field(
        None, description="the back of its bays, if not the unit's; 'none' leaves them open"
    )

    @model_validator(mode="after")
    def _contents_match_bays(self) -> Level:
        if len(self.contents) not in (0, 1, len(self.bays)):
            raise QuantityError(
                f"{len(self.contents)} contents for {len(self.bays)} bays",
                "one entry for all bays or one for each",
            )
        _points_fit(zip(self.bays, self.fills, strict=True))
        return self

    @property
    def fills(self) -> tuple[Fill | None, ...]:
        """Contents bay by bay."""
        return _one_each(self.contents, len(self.bays))


class Unit(Part):
    """A piece of furniture: a stack of levels from the floor up."""

    name: Name = Field(description="what it is called in reports; each name once")
    depth: Room = Field(description="front to back, outside")
    plan: Ring | None = Field(
        None,
        description="curved in plan: bays are then clear widths along the middle of its depth, "
        "and its uprights stand along the radius",
    )
    panel: Panel = Field(description="the sheet that everything is cut from unless said")
    sides: Upright = Field(
        Upright(), description="what the two sides are made of, if not of the unit's panel"
    )
    dividers: Upright = Field(
        Upright(), description="what the dividers are made of, if not of the unit's panel"
    )
    shelf: Shelf = Field(Shelf(), description="every horizontal unless its level says otherwise")
    top: Shelf | None = Field(None, description="the uppermost panel")
    back: Back | None = Field(None, description="the back of every bay unless its level says")
    base: Literal["sides", "plinth", "flat"] = Field(
        "sides",
        description="the lowest panel spans between the sides (the safe default), rests on a "
        "plinth that also carries the dividers, or lies flat on what is below",
    )
    underside: Length | None = Field(
        None, description="height of the unit's underside above the floor, if it is not 0"
    )
    top_contents: Annotated[tuple[Fill | None, ...], BeforeValidator(_fills)] = Field(
        (), max_length=1, description="what stands on the top panel"
    )
    hangs: Hung | None = Field(None, description="on the wall, and what holds it")
    on: UnitNames = Field((), description="the unit or units it stands on; two make a bridge")
    between: Between | None = Field(None, description="hung between two neighbours")
    rests_on: Rest | None = Field(
        None, description="what else carries it, and how much that may carry"
    )
    left: Offset | None = Field(None, description="its left end along the wall, from any mark")
    restraint: Restraint | None = Field(None, description="what ties its top to the wall")
    drawers: Opening | None = Field(None, description="drawers that can be open together")
    doors: Opening | None = Field(None, description="doors that can be open together")
    feet_back: Offset | None = Field(
        None, description="how far the front feet or plinth stand behind the front"
    )
    comes_apart: Literal["no", "levels", "boxes"] = Field(
        "no", description="what is lifted: the whole unit, level by level, or box by box"
    )
    joins: Joins = Field(Joins(), description="how its pieces hold together")
    corners: Corners = Field(
        "pinned",
        description="whether shelves and uprights hold each other square: pinned (the safe "
        "default), glued, or moment per turn of one corner over the depth",
    )
    level: Annotated[tuple[Level, ...], Field(min_length=1, max_length=200)] = Field(
        description="its storeys from the floor up, each a [[unit.level]]"
    )

    @model_validator(mode="after")
    def _stands_one_way(self) -> Unit:
        ways = [
            name
            for name, said in (
                ("hangs", self.hangs),
                ("on", self.on),
                ("between", self.between),
                ("rests_on", self.rests_on),
            )
            if said
        ]
        if len(ways) > 1:
            raise QuantityError(" and ".join(ways), "one of hangs, on, between, rests_on")
        if self.restraint is not None and (self.hangs or self.between):
            raise QuantityError("a restraint of a unit that hangs", "another row of its fixings")
        if self.feet_back is not None and self.feet_back >= self.depth:
            raise QuantityError(
                f"feet_back of {self.feet_back:g} mm", f"less than the depth, {self.depth:g} mm"
            )
        return self

    @model_validator(mode="after")
    def _curve_is_one_that_can_be_asked(self) -> Unit:
        if self.plan is None:
            return self
        if self.hangs or self.on or self.between or self.rests_on or self.underside:
            raise QuantityError("a curved unit that is off the floor", "one that stands on it")
        shelves = [self.shelf, self.top, *(level.shelf for level in self.level)]
        if any(shelf is not None and (shelf.pins or shelf.strips) for shelf in shelves):
            raise QuantityError("a curved unit with pins or strips", "shelves held at their ends")
        turn = outer_width(self, self.level[0]) / (self.plan.inner_radius + self.depth / 2.0)
        if turn > LARGEST_TURN:
            raise QuantityError(
                f"{degrees(turn):.0f} degrees of a curve",
                f"up to {degrees(LARGEST_TURN):.0f}: a larger radius, or narrower bays",
            )
        _room_inside(self, self.plan.inner_radius)
        return self

    @model_validator(mode="after")
    def _levels_fit(self) -> Unit:
        widths = [outer_width(self, level) for level in self.level]
        for number, width in enumerate(widths[1:], start=2):
            if abs(width - widths[0]) > 1.0:
                raise QuantityError(
                    f"level {number} is {width:.0f} mm wide outside, level 1 {widths[0]:.0f} mm",
                    "levels of one unit end flush: make the bays and uprights add up",
                )
        return self


class LoneShelf(Part):
    """A shelf, desk top or bench top without a carcass, on supports of its own."""

    name: Name = Field(description="what it is called in reports")
    depth: Room = Field(description="front to back")
    shelf: Shelf = Field(description="what it is made of; material and thickness are needed")
    spans: Annotated[tuple[Room, ...], Field(max_length=100)] = Field(
        (), description="clear widths between supports from left to right"
    )
    length: Room | None = Field(
        None, description="overall, where brackets are to be placed for the least sag"
    )
    supports: Supports | None = Field(None, description="brackets, a cleat or concealed rods")
    support_width: Length = Field(
        20.0, description="width of each inner support along the shelf", validate_default=False
    )
    fixed_down: bool = Field(False, description="screwed or glued down to its supports")
    overhang_left: Length | None = Field(
        None, description="how far it reaches beyond the middle of its left support"
    )
    overhang_right: Length | None = Field(
        None, description="how far it reaches beyond the middle of its right support"
    )
    plan: Arc | None = Field(
        None, description="cut on a curve; its span is then the length of its middle line"
    )
    contents: Annotated[tuple[Fill | None, ...], BeforeValidator(_fills)] = Field(
        (), description='one entry for all spans, or one for each; "empty" for none'
    )
    clear_height: Room = Field(
        300.0, description="height that contents by volume fill", validate_default=False
    )

    @model_validator(mode="after")
    def _can_be_held(self) -> LoneShelf:
        elsewhere = self.plan or self.supports or self.overhang_left or self.overhang_right
        if self.shelf.pins is not None and elsewhere:
            raise QuantityError(
                "pins under a shelf that is curved, reaches over or has other supports",
                "pins in what stands at its two ends",
            )
        counted = self.supports.number if isinstance(self.supports, Brackets) else None
        if self.length is not None and counted is not None:
            widest = max(self.support_width, self.shelf.bearing or 0.0)
            if self.length < 2.0 * counted * widest:
                raise QuantityError(
                    f"{counted} brackets {widest:g} mm wide under {self.length:g} mm",
                    "a shelf at least twice as long as its brackets together are wide",
                )
        return self

    @model_validator(mode="after")
    def _is_whole(self) -> LoneShelf:
        if self.shelf.material is None or self.shelf.thickness is None:
            raise QuantityError("a shelf without material or thickness", "both are needed here")
        counted = self.supports.number if isinstance(self.supports, Brackets) else None
        if self.plan is not None:
            others = self.spans or self.length or self.overhang_left or self.overhang_right
            if others or counted is not None or len(self.contents) > 1:
                raise QuantityError(
                    "a curved shelf with spans, length, overhang or brackets",
                    "plan alone: it is held at its two ends",
                )
            return self
        if bool(self.spans) == (self.length is not None and counted is not None):
            raise QuantityError(
                "a shelf without spans" if not self.spans else "spans and a length with brackets",
                "spans, or length and a number of brackets to be placed",
            )
        if not self.spans and len(self.contents) > 1:
            raise QuantityError(f"{len(self.contents)} contents", "one entry for the whole length")
        if not self.spans and self.length is not None:
            _points_fit((self.length, fill) for fill in self.contents)
        if self.spans and len(self.contents) not in (0, 1, len(self.spans)):
            raise QuantityError(
                f"{len(self.contents)} contents for {len(self.spans)} spans",
                "one entry for all spans or one for each",
            )
        _points_fit(zip(self.spans, self.fills, strict=True) if self.spans else ())
        return self

    @property
    def fills(self) -> tuple[Fill | None, ...]:
        """Contents span by span."""
        return _one_each(self.contents, max(len(self.spans), 1))


class OwnMaterial(Part):
    """A material of the user's own: a measured offcut or a maker's figures."""

    title: Text = Field("", description="what it is called in reports")
    kind: Literal[
        "solid",
        "glulam",
        "plywood",
        "mdf",
        "hardboard",
        "particleboard",
        "osb",
        "bamboo",
        "blockboard",
        "steel",
        "aluminium",
        "glass",
        "acrylic",
    ] = Field(description="decides creep, load duration and partial factor")
    thickness: Length | None = Field(None, description="thickness as measured")
    density: Density = Field(description="how heavy it is")
    E: Stress = Field(description="stiffness along the span")
    E_across: Stress | None = Field(None, description="stiffness across the grain")
    plies: Annotated[tuple[Length, ...], Field(max_length=99)] = Field(
        (),
        description="thickness of each ply from face to face, grain turning with each; E and "
        "E_across are then those of the veneer along and across its own grain",
    )
    G: Stress | None = Field(None, description="shear modulus through the thickness")
    bending_strength: Stress | None = Field(None, description="characteristic bending strength")
    shear_strength: Stress | None = Field(None, description="characteristic shear strength")
    source: Source = Field(description="who says so: measured, a maker's sheet")

    @model_validator(mode="after")
    def _plies_add_up(self) -> OwnMaterial:
        if not self.plies:
            return self
        if self.E_across is None:
            raise QuantityError("plies without E_across", "E_across of the veneer")
        total = sum(self.plies)
        if self.thickness is None or abs(self.thickness - total) > 0.01 * total:
            raise QuantityError(
                f"plies of {total:g} mm together", "a thickness that is the sum of its plies"
            )
        return self


class OwnContents(Part):
    """Contents of the user's own, weighed or counted."""

    title: Text = Field("", description="what it is called in reports")
    load: LoadValue = Field(description="what it weighs: each, per length, per area or per volume")
    source: Source = Field(description="who says so: weighed, counted, a maker")


class Project(Part):
    """One description file."""

    title: Text = Field("", description="what the whole is called in reports")
    site: Site = Field(Site(), description="where the units stand: climate, people, wall, floor")
    materials: dict[Name, OwnMaterial] = Field({}, description="the user's own materials")
    materials_from: str | None = Field(None, description="a CSV of own materials beside the file")
    contents: dict[Name, OwnContents] = Field({}, description="the user's own contents")
    contents_from: str | None = Field(None, description="a CSV of own contents beside the file")
    fixings: dict[Name, OwnFixing] = Field({}, description="loads declared by makers of fixings")
    stock: tuple[Stock, ...] = Field(
        (),
        max_length=500,
        description="sheets and boards with their prices, each a [[stock]]: options then cost",
    )
    unit: Annotated[tuple[Unit, ...], Field(max_length=200)] = Field(
        (), description="pieces of furniture, each a [[unit]]"
    )
    shelf: Annotated[tuple[LoneShelf, ...], Field(max_length=1000)] = Field(
        (), description="shelves, desk tops and bench tops without a carcass, each a [[shelf]]"
    )

    @model_validator(mode="after")
    def _prices_compare(self) -> Project:
        one_currency(self.stock)
        return self

    @model_validator(mode="after")
    def _curves_stand_alone(self) -> Project:
        curved = {unit.name for unit in self.unit if unit.plan is not None}
        for unit in self.unit:
            under = {*unit.on, *((unit.between.left, unit.between.right) if unit.between else ())}
            if under & curved:
                raise QuantityError(
                    f"{unit.name!r} on or beside {', '.join(sorted(under & curved))!r}",
                    "nothing on or hung from a unit that is curved in plan",
                )
        return self

    @model_validator(mode="after")
    def _can_be_worked_out(self) -> Project:
        bays = sum(len(level.bays) for unit in self.unit for level in unit.level)
        if bays > MOST_BAYS:
            raise QuantityError(
                f"{bays} bays in all units together", f"at most {MOST_BAYS} in one description"
            )
        return self

    @model_validator(mode="after")
    def _holds_something(self) -> Project:
        if not self.unit and not self.shelf:
            raise QuantityError("no unit and no shelf", "at least one [[unit]] or [[shelf]]")
        return self


def upright_thickness(unit: Unit, upright: Upright) -> float:
    """Return the total thickness of a side or divider as ordered [mm]."""
    return (upright.thickness or unit.panel.thickness) * upright.panels


def outer_width(unit: Unit, level: Level) -> float:
    """Return the width of a level over its outer sides [mm]."""
    side = upright_thickness(unit, unit.sides)
    divider = upright_thickness(unit, unit.dividers)
    return sum(level.bays) + 2 * side + divider * (len(level.bays) - 1)
