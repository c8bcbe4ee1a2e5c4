"""Heavier, in a worse place, held less: ways of making a described unit worse.

Each function draws what it changes, changes a raw description in place and returns True, or
returns False where there is nothing of the kind.
"""

from __future__ import annotations

from random_parts import Draws, Raw
from raw_parts import every_fill, every_held, millimetres, mm, one_of, units


def more_load(d: Draws, raw: Raw) -> bool:
    at = one_of(d, every_fill(raw))
    if at is None:
        return False
    holder, key = at
    fill = holder[key]
    if fill == "empty":
        holder[key] = {"load": "8 kg"}
    elif "load" not in fill:
        fill["load"] = "8 kg/m"
    else:
        number, unit = fill["load"].split(" ")
        fill["load"] = f"{1.4 * float(number)!r} {unit}"
    return True


def another_point(d: Draws, raw: Raw) -> bool:
    at = one_of(d, every_fill(raw))
    if at is None:
        return False
    holder, key = at
    if holder[key] == "empty":
        holder[key] = {}
    said = holder[key].get("points", [])
    new = {"load": "10 kg", "at": d.one("100 mm", "0 mm", "200 mm")}
    if d.chance(2):
        new["from_front"] = d.one("0 mm", "100 mm")
    holder[key]["points"] = [*said, new]
    return True


def denser(d: Draws, raw: Raw) -> bool:
    found = [h[k] for h, k in every_fill(raw) if h[k] != "empty" and h[k].get("what")]
    fill = one_of(d, found)
    if fill is None or fill.get("packed") == "high":
        return False
    fill["packed"] = "high"
    return True


def lasting(d: Draws, raw: Raw) -> bool:
    points = [p for h, k in every_fill(raw) if h[k] != "empty" for p in h[k].get("points", [])]
    point = one_of(d, [p for p in points if p.get("duration", "long-term") != "long-term"])
    if point is None:
        return False
    point["duration"] = "medium-term" if point["duration"] == "short-term" else "long-term"
    return True


def to_the_front(d: Draws, raw: Raw) -> bool:
    found = [h[k] for h, k in every_fill(raw) if h[k] != "empty"]
    fill = one_of(d, [f for f in found if "where" not in f and ("load" in f or "what" in f)])
    if fill is None:
        return False
    fill["where"] = "front edge"
    return True


def fewer_fixings(d: Draws, raw: Raw) -> bool:
    found = [
        (held, key)
        for held in every_held(raw)
        for key in ("count", "number")
        if held.get(key, 0) > (2 if key == "number" else 1)
        and not (key == "number" and held["kind"] == "brackets")
    ]
    if not found:
        return False
    held, key = d.one(*found)
    # those of a rail move with their number, so that one more may meet a hanger: all but one go
    held[key] = 1 if "hangers" in held else held[key] - 1
    return True


def fewer_hangers(d: Draws, raw: Raw) -> bool:
    hung = one_of(d, [one for one in every_held(raw) if one.get("hangers", 1) > 1])
    if hung is None:
        return False
    hung["hangers"] -= 1
    return True


def shorter_fixings(d: Draws, raw: Raw) -> bool:
    held = one_of(d, [one for one in every_held(raw) if "length" in one])
    if held is None:
        return False
    held["length"] = mm(millimetres(held["length"]) - 10.0)
    return True


def weaker_maker(d: Draws, raw: Raw) -> bool:
    fixing = raw["fixings"][d.one("anchor", "plug")]
    key = d.one(*[key for key in ("tension", "shear") if key in fixing])
    fixing[key] = f"{0.7 * float(fixing[key].removesuffix(' N'))!r} N"
    return True


def more_humid(d: Draws, raw: Raw) -> bool:
    if raw["site"].get("service_class", 1) == 3:
        return False
    raw["site"]["service_class"] = raw["site"].get("service_class", 1) + 1
    return True


def weaker_wall(d: Draws, raw: Raw) -> bool:
    site = raw["site"]
    change = d.one("wall", "layer", "spacing")
    if change == "layer" and site.get("wall") in ("timber stud", "metal stud"):
        thick = millimetres(site["wall_layers"][0]["thickness"]) if "wall_layers" in site else 15.0
        site["wall_layers"] = [{"what": "board", "thickness": mm(thick + 10.0)}]
        return True
    if change == "spacing" and "stud_spacing" in site:
        site["stud_spacing"] = mm(2 * millimetres(site["stud_spacing"]))
        return True
    if site.get("wall") not in ("solid brick", "timber stud", "concrete"):
        return False
    site["wall"] = d.one("unknown", "plasterboard", "no fixing allowed")
    site.pop("stud_spacing", None)
    return True


def fewer_helpers(d: Draws, raw: Raw) -> bool:
    team = raw["site"].get("lifters", 4)
    raw["site"]["lifters"] = max(team - 1, 1)
    return team > 1


def no_restraint(d: Draws, raw: Raw) -> bool:
    unit = one_of(d, [one for one in units(raw) if "restraint" in one])
    if unit is None:
        return False
    del unit["restraint"]
    return True


def wilder_place(d: Draws, raw: Raw) -> bool:
    """Children, people below, carpet, a sloping floor."""
    site = raw["site"]
    what = d.one("children", "people_below", "carpet", "slope")
    if what in ("children", "people_below"):
        changed = not site.get(what)
        site[what] = True
        return changed
    if what == "carpet":
        changed = site["floor"].get("covering") == "hard"
        site["floor"]["covering"] = "carpet"
        return changed
    site["floor"]["slope"] = mm(millimetres(site["floor"].get("slope", "0 mm")) + 5.0)
    return True


def worse_floor(d: Draws, raw: Raw) -> bool:
    floor = raw["site"]["floor"]
    joists = floor.get("joists", {})
    what = d.one("kind", "allowed", "battens", "span", "height", "spacing")
    if what == "kind" and floor["kind"] in ("timber", "unknown"):
        floor["kind"] = "ceiling"
    elif what == "allowed" and "allowed" in floor:
        floor["allowed"] = "1.5 kPa"
    elif what == "battens" and "battens" in floor:
        floor["battens"] = mm(1.3 * millimetres(floor["battens"]))
    elif what in ("span", "spacing") and joists:
        joists[what] = mm(1.2 * millimetres(joists[what]))
    elif what == "height" and joists:
        joists[what] = mm(0.9 * millimetres(joists[what]))
    else:
        return False
    return True


def opens_further(d: Draws, raw: Raw) -> bool:
    unit = one_of(d, units(raw))
    if unit is None:
        return False
    opening = unit.setdefault(d.one("drawers", "doors"), {"mass": "5 kg", "out": "200 mm"})
    opening["mass"] = f"{float(opening['mass'].removesuffix(' kg')) + 5.0} kg"
    opening["out"] = mm(millimetres(opening["out"]) + 50.0)
    return True


def feet_further_back(d: Draws, raw: Raw) -> bool:
    unit = one_of(d, [one for one in units(raw) if "feet_back" in one])
    if unit is None:
        return False
    unit["feet_back"] = mm(millimetres(unit["feet_back"]) + 30.0)
    return True


def weaker_rest(d: Draws, raw: Raw) -> bool:
    unit = one_of(d, [one for one in units(raw) if "rests_on" in one])
    if unit is None:
        return False
    allowed = float(unit["rests_on"]["allowed"].removesuffix(" kg"))
    unit["rests_on"]["allowed"] = f"{0.7 * allowed!r} kg"
    return True


def smaller_supports(d: Draws, raw: Raw) -> bool:
    found = [
        (shelf["supports"], key)
        for shelf in raw.get("shelf", [])
        for key in ("height", "diameter", "in_wall")
        if key in shelf.get("supports", {})
    ]
    if not found:
        return False
    held, key = d.one(*found)
    held[key] = mm(0.8 * millimetres(held[key]))
    return True


def nothing(d: Draws, raw: Raw) -> bool:
    return True
