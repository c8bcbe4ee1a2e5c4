"""Random whole descriptions that use as much of the language as possible."""

from __future__ import annotations

from random_parts import (
    OWN,
    Draws,
    Raw,
    back,
    fill,
    held,
    join,
    mm,
    opening,
    panel,
    shelf,
    thickness_of,
    upright,
)

WALLS = (
    "solid brick",
    "timber stud",
    None,
    "concrete",
    "unknown",
    "metal stud",
    "plasterboard",
    "hollow brick",
    "no fixing allowed",
)


def outer(unit: Raw) -> float:
    """Return the width of a raw unit outside [mm]."""
    bays = [float(bay.removesuffix(" mm")) for bay in unit["level"][0]["bays"]]
    dividers = thickness_of(unit, "dividers") * (len(bays) - 1)
    return sum(bays) + dividers + 2 * thickness_of(unit, "sides")


def unit(d: Draws, name: str, *, width: float = 0.0, levels: int = 6) -> Raw:
    """Return a unit, of some width outside [mm] or of any."""
    made: Raw = {"name": name, "depth": mm(d.length(200, 600, 20)), "panel": panel(d)}
    made |= {key: one for key in ("sides", "dividers") if d.chance(3) and (one := upright(d))}
    t = thickness_of(made, "dividers")
    columns = d.few(4)
    if width:
        inner = width - 2 * thickness_of(made, "sides")
        columns = min(columns, max(int(inner // 200), 1))
        grid = [(inner - t * (columns - 1)) / columns] * columns
    else:
        grid = [d.length(250, 1000) for _ in range(columns)]
    if d.chance(2):
        made["shelf"] = shelf(d)
    if d.chance(3):
        made["back"] = back(d)
    made |= d.some(
        {
            "top": lambda: shelf(d),
            "base": lambda: d.one("plinth", "flat"),
            "top_contents": lambda: fill(d, sum(grid)),
            "comes_apart": lambda: d.one("levels", "boxes"),
            "corners": lambda: d.one("glued", "800 N m/rad"),
            "drawers": lambda: opening(d),
            "doors": lambda: opening(d),
            "feet_back": lambda: mm(d.one(0, 40, 80)),
            "joins": lambda: d.some({k: lambda: join(d) for k in ("shelves", "sides", "stack")}, 2),
        }
    )
    made["level"] = [level(d, grid, t, alone=made) for _ in range(d.few(levels))]
    return made


def level(d: Draws, grid: list[float], divider: float, alone: Raw) -> Raw:
    """Return a level whose bays are those of a grid, here and there two in one."""
    bays: list[float] = []
    merged = False
    for bay in grid:
        if bays and not merged and d.chance(6):
            bays[-1] += divider + bay
            merged = True
        else:
            bays.append(bay)
            merged = False
    made: Raw = {"height": mm(d.length(150, 600)), "bays": [f"{bay!r} mm" for bay in bays]}
    made["contents"] = fill(d, min(bays)) if d.chance(2) else [fill(d, bay) for bay in bays]
    if d.chance(16):
        del made["contents"]
    if d.chance(6):
        made["shelf"] = shelf(d)
    if d.chance(8):
        made["back"] = "none" if d.chance(2) else back(d)
    return made


def lone(d: Draws, name: str) -> Raw:
    """Return a shelf without a carcass."""
    made: Raw = {
        "name": name,
        "depth": mm(d.length(150, 700, 50)),
        "shelf": {**shelf(d), **panel(d), "bearing": mm(d.one(20, 40))},
    }
    kind = d.one("spans", "spans", "brackets placed", "curved")
    made["shelf"].pop("pins", None)
    if kind == "curved":
        made["plan"] = {
            "inner_radius": mm(d.length(300, 900, 100)),
            "angle": f"{d.one(60, 90)} deg",
        }
        made["plan"] |= d.some({"front": lambda: "inner"})
        for key in ("strips", "hollow", "runs"):
            made["shelf"].pop(key, None)
        made["contents"] = fill(d, 300)
    elif kind == "brackets placed":
        made["length"] = mm(d.length(600, 1800, 100))
        made["contents"] = fill(d, 600)
        made["supports"] = {
            "kind": "brackets",
            "number": d.whole(2, 4),
            "height": "200 mm",
            **held(d),
        }
    else:
        spans = [d.length(300, 1200) for _ in range(d.whole(1, 3))]
        made["spans"] = [mm(span) for span in spans]
        made["contents"] = [fill(d, span) for span in spans]
        made |= d.some({"supports": lambda: supports(d)}, 2)
        made |= d.some(
            {f"overhang_{end}": lambda: mm(d.length(50, 300)) for end in ("left", "right")}
        )
    if d.chance(2):
        made["fixed_down"] = True
    if d.chance(6):
        made["clear_height"] = "500 mm"
    if d.chance(16):
        del made["contents"]
    return made


def supports(d: Draws) -> Raw:
    kind = d.one("brackets", "cleat", "rods")
    if kind == "rods":
        sizes = {"diameter": mm(d.one(12, 16)), "in_wall": mm(d.one(80, 120))}
        return {"kind": kind, "number": d.whole(2, 5), **sizes, **d.some({"play": lambda: "0 mm"})}
    made = {"kind": kind, "height": mm(d.one(150, 60, 250)), **held(d)}
    return made | (d.some({"ends": lambda: True}) if kind == "cleat" else {})


def floor(d: Draws) -> Raw:
    made: Raw = {"kind": d.one("timber", "concrete", "ceiling", "unknown")}
    made |= d.some(
        {
            "covering": lambda: "carpet",
            "slope": lambda: mm(d.one(3, 10)),
            "allowed": lambda: "2 kPa",
            "joists": lambda: joists(d),
        }
    )
    if d.chance(2):
        made.setdefault("covering", "hard")
    if d.chance():
        made["sheet"] = panel(d, (("particleboard-p5", (22, 19)), ("osb-3", (18,))))
        made |= {"battens": mm(d.one(400, 600)), "sheet_spans": d.whole(1, 3)}
    return made


def joists(d: Draws) -> Raw:
    made = {
        "width": "47 mm",
        "height": mm(d.one(195, 145, 220)),
        "span": mm(d.length(2000, 4500, 100)),
        "spacing": mm(d.one(400, 600)),
    }
    return made | d.some(
        {"run": lambda: "across", "material": lambda: "c24", "from_wall": lambda: "500 mm"}
    )


def site(d: Draws) -> Raw:
    made: Raw = {"wall": d.one(*WALLS), "service_class": d.one(1, 1, 2, 3), "floor": floor(d)}
    if made["wall"] is None:
        del made["wall"]
    elif made["wall"] in ("timber stud", "metal stud"):
        made |= d.some({"stud_spacing": lambda: mm(d.one(400, 600))}, 2)
    return made | d.some(
        {
            "people_below": lambda: True,
            "children": lambda: True,
            "stud_material": lambda: "c24",
            "wall_layers": lambda: [{"what": "board", "thickness": "12.5 mm"}],
            "lifters": lambda: d.whole(1, 4),
            "platform": lambda: "500 mm",
            "limit": lambda: d.one("fine", "workshop"),
        }
    )


def restraint(d: Draws) -> Raw:
    return held(d) | d.some({"height": lambda: "150 mm", "first_stud": lambda: "60 mm"})


def hung(d: Draws) -> Raw:
    made = held(d) | d.some(
        {
            "heights": lambda: d.one(
                ["100 mm"], ["140 mm", "50 mm"], ["150 mm", "120 mm", "20 mm"]
            ),
            "first_stud": lambda: "50 mm",
            "hangers": lambda: d.whole(1, 4),
        },
        2,
    )
    if d.chance(2):
        made |= {"through": {"material": "birch-plywood", "thickness": "18 mm"}}
        made |= d.some({"behind": lambda: True, "rail_height": lambda: "90 mm"})
    return made


def _tied(d: Draws, made: Raw) -> Raw:
    return {**made, "restraint": restraint(d)} if d.chance(3) else made


def _row(d: Draws) -> list[Raw]:
    """Units side by side."""
    found: list[Raw] = []
    at = 0.0
    for number in range(d.few(3)):
        made = _tied(d, unit(d, f"box {number + 1}"))
        if number:
            found[-1]["left"], made["left"] = mm(at - outer(found[-1])), mm(at)
        at += outer(made)
        found.append(made)
    return found


def _stack(d: Draws) -> list[Raw]:
    lower = _tied(d, unit(d, "lower", levels=3))
    upper = unit(d, "upper", width=outer(lower) if not d.chance() else 0.0, levels=3)
    return [lower, _tied(d, {**upper, "on": ["lower"]})]


def _bridge(d: Draws) -> list[Raw]:
    left, gap = unit(d, "left", levels=2), d.length(300, 900)
    right = {**left, "name": "right"} if not d.chance(6) else unit(d, "right", levels=2)
    over = unit(d, "bridge", width=outer(left) + gap + outer(right), levels=2)
    return [left, right, _tied(d, {**over, "on": ["left", "right"]})]


def _between(d: Draws) -> list[Raw]:
    left = unit(d, "left", levels=3)
    right = {**left, "name": "right", "left": "2000 mm"}
    mid = {"left": "left", "right": "right"} | d.some({"count": lambda: d.whole(1, 6)}, 2)
    mid |= d.one({"screw": "bolt-m8"}, {"maker": "anchor"}, {"screw": "chipboard-screw-5"}, {})
    middle = {**unit(d, "middle", levels=2), "between": mid}
    return [left, right, middle | d.some({"underside": lambda: "200 mm"}, 2)]


def _on_the_wall(d: Draws) -> list[Raw]:
    made = {**unit(d, "hung", levels=3), "hangs": hung(d), "underside": mm(d.length(0, 1800, 300))}
    if made["underside"] == "0 mm":
        del made["underside"]
    lower = [unit(d, "box", levels=2)] if d.chance(3) else []
    return [*lower, made]


def _on_something(d: Draws) -> list[Raw]:
    made = _tied(d, unit(d, "box", levels=3))
    if d.chance(2):
        return [{**made, "underside": "750 mm"}]
    rest = {"what": "bench", "allowed": f"{d.whole(20, 300)} kg", "source": "made up for tests"}
    return [{**made, "rests_on": rest}]


def description(d: Draws) -> Raw:
    """Draw a whole raw description: units, lone shelves or both, and the place they stand in."""
    layout = d.one(_row, _row, _stack, _bridge, _between, _on_the_wall, _on_something, None)
    units = layout(d) if layout is not None else []
    alone = [
        lone(d, f"shelf {n + 1}") for n in range(0 if units and not d.chance() else d.whole(1, 2))
    ]
    strong = {"tension": f"{d.length(100, 2000, 100):g} N", "source": "made up for tests"}
    raw = {
        "site": site(d),
        "materials": OWN,
        "fixings": {
            "anchor": {**strong, "shear": f"{d.length(100, 2000, 100):g} N"},
            "plug": {**strong, "values": "design"}
            | d.some({"shear": lambda: f"{d.length(100, 2000, 100):g} N"}, 2),
        },
    }
    if units:
        raw["unit"] = units
    if alone:
        raw["shelf"] = alone
    return raw
