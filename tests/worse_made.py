"""Made of less: ways of making a described unit worse.

Each function draws what it changes, changes a raw description in place and returns True, or
returns False where there is nothing of the kind.
"""

from __future__ import annotations

from described import BOARD
from random_parts import Draws, Raw, thickness_of
from raw_parts import (
    every_back,
    every_fill,
    every_join,
    every_shelf,
    has_back,
    millimetres,
    mm,
    one_of,
    units,
)

LIGHT = {**BOARD, "density": "1 kg/m3"}
"""Weighs nothing: what is taken away then takes away no weight."""


def light_backs(d: Draws, raw: Raw) -> bool:
    raw["materials"] = {**raw["materials"], "light": LIGHT}
    found = list(every_back(raw))
    for back in found:
        back |= {"material": "light", "thickness": "6 mm"}
    return bool(found)


def no_back(d: Draws, raw: Raw) -> bool:
    """Take all backs of a unit away; its shelves stay as deep as they were."""
    unit = one_of(d, [u for u in units(raw) if any(map(has_back, (u, *u["level"])))])
    if unit is None:
        return False
    for holder in (unit, *unit["level"]):
        holder.pop("back", None)
    unit["depth"] = mm(millimetres(unit["depth"]) - 6.0)
    return True


def back_off(d: Draws, raw: Raw) -> bool:
    """Take all backs of a unit away, their weight with them."""
    unit = one_of(d, [u for u in units(raw) if any(map(has_back, (u, *u["level"])))])
    if unit is None:
        return False
    for holder in (unit, *unit["level"]):
        holder.pop("back", None)
    return True


def back_comes_loose(d: Draws, raw: Raw) -> bool:
    back = one_of(d, every_back(raw))
    if back is None:
        return False
    worse = {"glued": "screwed", "screwed": "nailed"}
    if back["fixed"] in worse and d.chance(2):
        back["fixed"] = worse[back["fixed"]]
        back.setdefault("spacing", "100 mm")
        if back["fixed"] == "nailed":
            back.pop("screws", None)
            back.pop("diameter", None)
        return True
    if "spacing" not in back:
        return False
    back["spacing"] = mm(1.6 * millimetres(back["spacing"]))
    return True


def back_held_less(d: Draws, raw: Raw) -> bool:
    back = one_of(d, every_back(raw))
    if back is None:
        return False
    if back.pop("wall_spacing", None) is None:
        if back.get("holds") == "edges":
            return False
        back["holds"] = "edges"
    return True


def wider_screws(d: Draws, raw: Raw) -> bool:
    """Set the screws of doubles and strips further apart."""
    held = [one["screws"] for one in every_shelf(raw) if "screws" in one]
    held += [
        one["screws"] for s in every_shelf(raw) for one in s.get("strips", []) if "screws" in one
    ]
    join = one_of(d, [one for one in held if "spacing" in one])
    if join is None:
        return False
    join["spacing"] = mm(1.7 * millimetres(join["spacing"]))
    return True


def fewer_in_a_join(d: Draws, raw: Raw) -> bool:
    join = one_of(d, [one for one in every_join(raw) if one.get("count", 0) > 1])
    if join is None:
        return False
    join["count"] -= 1
    return True


def redriven(d: Draws, raw: Raw) -> bool:
    join = one_of(d, [one for one in every_join(raw) if "screw" in one])
    if join is None or join.get("redriven"):
        return False
    join["redriven"] = True
    return True


def light_dividers(d: Draws, raw: Raw) -> bool:
    """Dividers that weigh nothing, and even loads that do not depend on who divides them."""
    raw["materials"] = {**raw["materials"], "light": LIGHT}
    for unit in units(raw):
        if not {"on", "hangs", "between", "underside", "rests_on"} & set(unit):
            unit["base"] = "plinth"
        unit["dividers"] = {**unit.get("dividers", {}), "material": "light"}
        unit["dividers"].setdefault("thickness", unit["panel"]["thickness"])
        for level in unit["level"]:
            level["contents"] = {"load": f"{d.whole(2, 40)} kg/m"}
    return bool(units(raw))


def no_divider(d: Draws, raw: Raw) -> bool:
    """Take a divider away that runs through all levels."""
    found = [
        (unit, column)
        for unit in units(raw)
        for column in range(min(len(level["bays"]) for level in unit["level"]) - 1)
        if len({tuple(level["bays"]) for level in unit["level"]}) == 1
        and unit.get("base") == "plinth"
    ]
    if not found:
        return False
    unit, column = d.one(*found)
    t = thickness_of(unit, "dividers")
    for level in unit["level"]:
        bays = [millimetres(bay) for bay in level["bays"]]
        bays[column : column + 2] = [bays[column] + t + bays[column + 1]]
        level["bays"] = [mm(bay) for bay in bays]
    return True


def longer_span(d: Draws, raw: Raw) -> bool:
    if any(h[k] != "empty" and "people" in h[k] for h, k in every_fill(raw)):
        return False  # they move with the width of their bay, past what carries it
    holders = [list(unit["level"]) for unit in units(raw)]
    holders += [[shelf] for shelf in raw.get("shelf", []) if "spans" in shelf]
    levels = one_of(d, holders)
    if levels is None:
        return False
    more = d.one(60.0, 150.0)
    for level in levels:
        key = "bays" if "bays" in level else "spans"
        level[key] = [*level[key][:-1], mm(millimetres(level[key][-1]) + more)]
    return True


def own_boards(d: Draws, raw: Raw) -> bool:
    raw["materials"] = {**raw["materials"], "thin": {**BOARD, "density": "625 kg/m3"}}
    for one in (*units(raw), *raw.get("shelf", [])):
        one.setdefault("shelf", {})
        one["shelf"] |= {"material": "board", "thickness": "20 mm"}
    return True


def thinner(d: Draws, raw: Raw) -> bool:
    """Thinner shelves of the same weight; what is lost in height is added to the levels."""
    one = one_of(d, [*units(raw), *raw.get("shelf", [])])
    one["shelf"] |= {"material": "thin", "thickness": "16 mm"}
    for number, level in enumerate(one.get("level", [])):
        level["height"] = mm(millimetres(level["height"]) + (4.0 if number else 8.0))
    return True


def deeper_overhang(d: Draws, raw: Raw) -> bool:
    found = [
        (shelf, key)
        for shelf in raw.get("shelf", [])
        for key in ("overhang_left", "overhang_right")
        if key in shelf
    ]
    if not found:
        return False
    shelf, key = d.one(*found)
    shelf[key] = mm(millimetres(shelf[key]) + 80.0)
    return True


def looser_double(d: Draws, raw: Raw) -> bool:
    worse = {"glued": "screwed", "screwed": "lying"}
    doubles = [s for s in every_shelf(raw) if s.get("joined") in worse and "hollow" not in s]
    double = one_of(d, doubles)
    if double is None:
        return False
    double["joined"] = worse[double["joined"]]
    if double["joined"] == "screwed":
        double["screws"] = {"screw": "chipboard-screw-4 x 30 mm", "spacing": "150 mm"}
    else:
        double.pop("screws", None)
    return True


def grain_turned(d: Draws, raw: Raw) -> bool:
    shelf = one_of(d, [s for s in every_shelf(raw) if "grain" not in s])
    if shelf is None:
        return False
    shelf["grain"] = "across"
    return True


def shelf_loose(d: Draws, raw: Raw) -> bool:
    shelf = one_of(d, [s for s in every_shelf(raw) if not s.get("loose")])
    if shelf is None:
        return False
    shelf["loose"] = True
    return True


def shorter_bearing(d: Draws, raw: Raw) -> bool:
    # over several supports an inner one gets less as the spans grow shorter
    continuous = [one["shelf"] for one in raw.get("shelf", []) if len(one.get("spans", ())) != 1]
    alone = [s for s in every_shelf(raw) if s.get("runs") != "through" and s not in continuous]
    shelf = one_of(d, [s for s in alone if "bearing" in s])
    if shelf is None:
        return False
    shelf["bearing"] = mm(0.7 * millimetres(shelf["bearing"]))
    return True


def more_play(d: Draws, raw: Raw) -> bool:
    shelf = one_of(d, [s for s in every_shelf(raw) if "play" in s])
    if shelf is None:
        return False
    shelf["play"] = mm(millimetres(shelf["play"]) + 2.0)
    return True


def ends_turn(d: Draws, raw: Raw) -> bool:
    shelf = one_of(d, [s for s in every_shelf(raw) if s.get("ends") == "clamped"])
    if shelf is None:
        return False
    del shelf["ends"]
    return True


def not_fixed_down(d: Draws, raw: Raw) -> bool:
    shelf = one_of(d, [s for s in raw.get("shelf", []) if s.get("fixed_down")])
    if shelf is None:
        return False
    del shelf["fixed_down"]
    return True


def softer_corners(d: Draws, raw: Raw) -> bool:
    unit = one_of(d, [one for one in units(raw) if one.get("corners") == "glued"])
    if unit is None:
        return False
    unit["corners"] = "pinned"
    return True


def stricter_limit(d: Draws, raw: Raw) -> bool:
    shelf = one_of(d, [s for s in every_shelf(raw) if s.get("limit") in ("workshop", "tolerable")])
    if shelf is None:
        return False
    shelf["limit"] = "fine"
    return True
