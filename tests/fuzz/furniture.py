"""Whole descriptions built at random, for hypothesis: most can be used, some can not."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from hypothesis import strategies as st

BOARDS = (
    ("birch-plywood", "18 mm"),
    ("birch-plywood", "3/4 in"),
    ("birch-plywood", "12 mm"),
    ("particleboard-p2", "19 mm"),
    ("mdf", "16 mm"),
    ("hardboard", "3.2 mm"),
    ("c24", "22 mm"),
    ("northern-red-oak", "3/4 in"),
    ("european-oak", "20 mm"),
    ("osb-3", "18 mm"),
    ("own-sheet", "17.6 mm"),
    ("own-veneers", "9 mm"),
    ("toughened-glass", "8 mm"),
    ("steel-s235", "2 mm"),
)
OWN: dict[str, Any] = {
    "materials": {
        "own-sheet": {
            "kind": "particleboard",
            "density": "650 kg/m3",
            "E": "2100 MPa",
            "source": "made up for tests",
        },
        "own-veneers": {
            "kind": "plywood",
            "density": "500 kg/m3",
            "thickness": "9 mm",
            "plies": ["3 mm", "3 mm", "3 mm"],
            "E": "11000 MPa",
            "E_across": "500 MPa",
            "G": "400 MPa",
            "bending_strength": "30 MPa",
            "source": "made up for tests",
        },
    },
    "contents": {"own-boxes": {"load": "18 kg/m", "source": "made up for tests"}},
    "fixings": {
        "anchor": {"tension": "60 kg", "shear": "80 kg", "source": "made up for tests"},
        "strap": {"tension": "500 N", "values": "design", "source": "made up for tests"},
    },
}
BONDS = ("glued", "screwed", "lying")
FILLS = ("books-medium-hardback", "own-boxes", "paper-piled", "lever-arch-file", "empty")
JOINS = ("screws", "glue", "bolts", "cleat", "housing", "4 x 35 mm", "No. 8 x 1 1/4 in", "inserts")


def one_of(*values: Any) -> st.SearchStrategy[Any]:
    return st.sampled_from(values)


def mm(least: float, most: float) -> st.SearchStrategy[str]:
    """Return lengths mostly of the size asked for, now and then of any size that is read."""
    usual = st.integers(int(least * 10), int(most * 10)).map(lambda tenths: f"{tenths / 10} mm")
    odd = one_of("0 mm", "0.01 mm", "10 mm", "1 m", "100 m", "1000 m", "1/64 in", "7'6\"")
    return st.integers(0, 29).flatmap(lambda pick: odd if pick == 29 else usual)


def maybe(
    table: st.SearchStrategy[dict[str, Any]], extra: dict[str, st.SearchStrategy[Any]]
) -> st.SearchStrategy[dict[str, Any]]:
    """Return tables with some of the keys that need not be there."""
    return st.builds(
        lambda kept, more: {**kept, **more}, table, st.fixed_dictionaries({}, optional=extra)
    )


def table(needed: dict[str, Any], extra: dict[str, Any]) -> st.SearchStrategy[dict[str, Any]]:
    return maybe(st.fixed_dictionaries(needed), extra)


panels = one_of(*BOARDS).map(lambda board: dict(zip(("material", "thickness"), board, strict=True)))
joins = one_of(*JOINS) | table(
    {"by": one_of("screws", "glue and screws", "bolts")},
    {"spacing": mm(20, 400), "redriven": st.booleans()},
)
spaced = st.fixed_dictionaries({"spacing": mm(20, 400)})
loads = one_of("5 kg", "30 kg", "200 kg", "1000 t", "25 lb/ft", "20 kg/m", "2 kPa", "40 psf", "1 g")
load_tables = table(
    {"load": loads},
    {
        "where": one_of("all over", "front edge", "rear edge", "left half", "right half"),
        "people": one_of("sitting", "standing", "sleeping", "leaning"),
    },
)
points = st.lists(
    table(
        {"load": one_of("5 kg", "60 lb", "1 N"), "at": mm(0, 60)},
        {"from_front": mm(0, 200), "duration": one_of("short-term", "medium-term")},
    ),
    min_size=1,
    max_size=3,
).map(lambda spots: {"points": spots})
fills = one_of(*FILLS) | load_tables | points
strips = table(
    {
        "material": one_of("c24", "european-oak"),
        "width": mm(10, 60),
        "height": mm(10, 60),
        "fixed": one_of("glued", "screwed"),
        "screws": spaced,
    },
    {"where": one_of("under", "over", "front", "rear", "groove"), "at": mm(0, 200)},
) | table(
    {
        "material": one_of("steel-s235", "aluminium-6060-t6"),
        "width": mm(15, 60),
        "height": mm(15, 60),
        "fixed": st.just("screwed"),
        "screws": spaced,
        "tube_wall": one_of("1.5 mm", "2 mm"),
    },
    {"where": one_of("under", "over", "front", "rear"), "at": mm(0, 200)},
)
doubles = st.one_of(
    table({"panels": st.just(2), "joined": one_of(*BONDS)}, {"second": panels, "screws": spaced}),
    table(
        {
            "panels": st.just(2),
            "joined": st.just("glued"),
            "hollow": table({"height": mm(10, 60), "web": mm(6, 20)}, {"webs": st.integers(2, 6)}),
        },
        {},
    ),
    st.just({}),
    st.just({}),
)
lippings = st.fixed_dictionaries(
    {"material": one_of("european-oak", "c24"), "thickness": mm(5, 40), "height": mm(15, 80)}
)
shelves = maybe(
    doubles,
    {
        "grain": one_of("along", "across"),
        "runs": one_of("between", "through"),
        "ends": one_of("free", "clamped"),
        "bearing": mm(3, 30),
        "lipping_front": lippings,
        "lipping_rear": lippings,
        "limit": one_of("tolerable", "fine"),
        "loose": st.booleans(),
        "play": mm(0, 6),
        "strips": st.lists(strips, max_size=2),
        "pins": st.fixed_dictionaries({"from_front": mm(10, 100), "from_rear": mm(10, 100)}),
    },
)
own_shelves = st.builds(lambda panel, shelf: {**panel, **shelf}, panels, shelves)
uprights = st.one_of(
    st.just({}),
    panels,
    st.builds(lambda panel, bond: {**panel, "panels": 2, "joined": bond}, panels, one_of(*BONDS)),
)
backs = table(
    {
        "material": one_of("birch-plywood", "own-sheet", "mdf"),
        "thickness": one_of("6.5 mm", "9 mm", "12 mm"),
        "fixed": one_of("glued", "screwed", "nailed"),
        "spacing": mm(40, 300),
    },
    {
        "diameter": one_of("3 mm", "4 mm", "1.4 mm"),
        "holds": one_of("shelves", "edges"),
        "wall_spacing": mm(100, 800),
        "screws": joins,
    },
)
held = st.one_of(
    st.just({"maker": "anchor"}),
    st.just({"screw": "coach-screw-6", "length": "80 mm"}),
    st.just({}),
)
restraints = maybe(
    held,
    {
        "count": st.integers(1, 6),
        "carcass": one_of("anchor", "strap"),
        "height": mm(100, 2000),
        "first_stud": mm(0, 600),
    },
)
hangs = maybe(
    held,
    {
        "heights": st.lists(mm(50, 600), min_size=1, max_size=3),
        "through": panels,
        "rail_height": mm(40, 120),
        "behind": st.booleans(),
        "first_stud": mm(0, 600),
        "hangers": st.integers(1, 5),
        "carcass": one_of("anchor", "strap"),
    },
)
openings = table({"mass": one_of("4 kg", "30 lb"), "out": mm(50, 700)}, {"height": mm(0, 900)})
floors = table(
    {"sheet": panels, "battens": mm(200, 700)},
    {
        "kind": one_of("timber", "concrete", "ceiling", "unknown"),
        "sheet_spans": st.integers(1, 3),
        "joists": table(
            {
                "width": mm(30, 80),
                "height": mm(80, 260),
                "span": mm(1500, 5000),
                "spacing": mm(200, 700),
            },
            {"run": one_of("along", "across"), "from_wall": mm(0, 1000)},
        ),
        "covering": one_of("hard", "carpet"),
        "slope": mm(0, 30),
        "allowed": one_of("2 kPa", "40 psf", "1 Pa"),
    },
)
sites = table(
    {},
    {
        "service_class": one_of(1, 2, 3, "indoor", "humid", "outdoor"),
        "people_below": st.booleans(),
        "children": st.booleans(),
        "limit": one_of("tolerable", "fine"),
        "wall": one_of(
            "timber stud", "solid brick", "plasterboard", "unknown", "no fixing allowed"
        ),
        "wall_layers": st.lists(
            st.fixed_dictionaries({"what": one_of("board", "foam"), "thickness": mm(5, 80)}),
            max_size=3,
        ),
        "floor": floors,
        "lifters": st.integers(1, 5),
        "platform": mm(100, 900),
    },
)


@st.composite
def levels(draw: Any, width: int, upright: float) -> dict[str, Any]:
    """Return a level whose bays and uprights add up to a width."""
    count = draw(st.integers(1, 4))
    cuts = sorted(draw(st.lists(st.integers(1, 99), min_size=count - 1, max_size=count - 1)))
    clear = width - (count + 1) * upright
    edges = [0, *cuts, 100]
    bays = [f"{max(clear * (b - a) / 100, 10.0):.2f} mm" for a, b in pairwise(edges)]
    level = {"height": draw(mm(150, 700)), "bays": bays}
    if draw(st.booleans()):
        level["contents"] = draw(fills | st.lists(fills, min_size=count, max_size=count))
    if draw(st.integers(0, 2)) == 0:
        level["shelf"] = draw(shelves)
    if draw(st.integers(0, 3)) == 0:
        level["back"] = draw(backs | st.just("none"))
    return level


@st.composite
def units(draw: Any, name: str, before: tuple[str, ...]) -> dict[str, Any]:
    """Return a unit that stands, hangs or is carried by those before it."""
    panel = draw(panels)
    sides, dividers = draw(uprights), draw(st.just({}) | uprights)
    width = draw(st.integers(300, 2400))
    upright = 18.0 if dividers or sides else _thickness(panel)
    plain = {} if dividers or sides else {"sides": sides, "dividers": dividers}
    count = draw(st.integers(1, 3))
    unit = {
        "name": name,
        "depth": draw(mm(200, 600)),
        "panel": panel,
        "level": [draw(levels(width, upright)) for _ in range(count)],
        **plain,
    }
    if not plain:
        # one level only: the widths of several would not add up by chance
        unit |= {"sides": sides, "dividers": dividers, "level": unit["level"][:1]}
    more = {
        "shelf": shelves,
        "top": shelves,
        "back": backs,
        "base": one_of("sides", "plinth", "flat"),
        "top_contents": fills,
        "left": mm(0, 3000),
        "drawers": openings,
        "doors": openings,
        "feet_back": mm(0, 60),
        "comes_apart": one_of("no", "levels", "boxes"),
        "corners": one_of("pinned", "glued", "800 N m/rad"),
        "joins": table({}, {"shelves": joins, "sides": joins, "stack": joins}),
    }
    unit |= draw(st.fixed_dictionaries({}, optional=more))
    ways = ["floor", "floor", "restraint", "hangs", "rests_on"]
    ways += ["on", "on"] if before else []
    ways += ["between"] if len(before) > 1 else []
    match draw(one_of(*ways)):
        case "restraint":
            unit["restraint"] = draw(restraints)
        case "hangs":
            unit |= {"hangs": draw(hangs), "underside": draw(mm(300, 2000))}
        case "rests_on":
            unit["rests_on"] = {"what": "bench", "allowed": "150 kg", "source": "made up"}
        case "on":
            unit["on"] = list(draw(st.permutations(before)))[: draw(st.integers(1, 2))]
        case "between":
            unit["between"] = {"left": before[0], "right": before[1], "screw": "coach-screw-6"}
    return unit


def _thickness(panel: dict[str, str]) -> float:
    typed = panel["thickness"]
    return 19.05 if typed == "3/4 in" else float(typed.split()[0])


supports = st.one_of(
    maybe(held, {"count": st.integers(1, 4)}).flatmap(
        lambda by: st.fixed_dictionaries(
            {
                "kind": st.just("brackets"),
                "height": mm(40, 300),
                **{k: st.just(v) for k, v in by.items()},
            }
        )
    ),
    maybe(held, {"ends": st.booleans()}).flatmap(
        lambda by: st.fixed_dictionaries(
            {
                "kind": st.just("cleat"),
                "height": mm(20, 90),
                **{k: st.just(v) for k, v in by.items()},
            }
        )
    ),
    table(
        {
            "kind": st.just("rods"),
            "number": st.integers(2, 5),
            "diameter": mm(8, 16),
            "in_wall": mm(50, 150),
        },
        {"play": mm(0, 2)},
    ),
)
straight = st.lists(mm(200, 1500), min_size=1, max_size=4).map(lambda spans: {"spans": spans})
placed = st.builds(
    lambda length, count: {
        "length": length,
        "supports": {"kind": "brackets", "number": count, "height": "150 mm"},
    },
    mm(500, 3000),
    st.integers(2, 5),
)
curved = st.fixed_dictionaries(
    {
        "plan": table(
            {
                "inner_radius": mm(100, 3000),
                "angle": one_of("1 deg", "30 deg", "1.57 rad", "180 deg"),
            },
            {"front": one_of("inner", "outer")},
        )
    }
)


@st.composite
def lone_shelves(draw: Any, name: str) -> dict[str, Any]:
    """Return a shelf without a carcass: over spans, on brackets to be placed, or curved."""
    shelf = {"name": name, "depth": draw(mm(120, 700)), "shelf": draw(own_shelves)}
    shelf |= draw(straight | straight | placed | curved)
    more: dict[str, Any] = {"contents": fills, "clear_height": mm(100, 500)}
    if "spans" in shelf:
        more |= {
            "supports": supports,
            "support_width": mm(5, 60),
            "fixed_down": st.booleans(),
            "overhang_left": mm(10, 500),
            "overhang_right": mm(10, 500),
        }
    return shelf | draw(st.fixed_dictionaries({}, optional=more))


@st.composite
def descriptions(draw: Any, most: int = 3) -> dict[str, Any]:
    """Return a whole description of up to so many units as dicts and lists."""
    names = ("left tower", "right tower", "bridge")[: draw(st.integers(0, most))]
    raw = {
        **OWN,
        "site": draw(sites),
        "unit": [draw(units(name, names[:number])) for number, name in enumerate(names)],
        "shelf": [
            draw(lone_shelves(name))
            for name in ("ledge", "desk")[: draw(st.integers(0 if names else 1, 2))]
        ],
    }
    return {key: value for key, value in raw.items() if value}
