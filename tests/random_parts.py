"""Random parts of a description: panels, shelves, backs, contents, fixings.

The first choice of every draw is the plainest.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from described import BOARD

Raw = dict[str, Any]


PANELS = (
    ("board", (20,)),
    ("birch-plywood", (18, 12, 15, 21, 24, 9)),
    ("particleboard-p2", (19, 16, 22)),
    ("mdf", (18, 12, 22)),
    ("osb-3", (18, 12, 22)),
    ("spruce-plywood", (18, 12, 24)),
    ("c24", (20, 27)),
    ("european-beech", (20, 27)),
    ("northern-red-oak", (19,)),
    ("particleboard-p5", (19, 22)),
    ("blockboard", (19,)),
    ("bamboo-laminated", (20,)),
    ("glulam-like", (30,)),
    ("no-strength", (18,)),
)


BACKS = (
    ("birch-plywood", (6.5, 4, 9)),
    ("hardboard", (3.2,)),
    ("mdf", (8,)),
    ("osb-3", (9,)),
    ("board", (20,)),
)


STRIPS = ("c24", "european-beech", "board")


OWN = {
    "board": BOARD,
    "glulam-like": {**BOARD, "kind": "glulam", "E_across": "400 MPa", "density": "430 kg/m3"},
    "no-strength": {
        "kind": "plywood",
        "density": "600 kg/m3",
        "E": "7000 MPa",
        "source": "made up for tests",
    },
}


CONTENTS = ("books-medium-hardback", "paper-piled", "tinned-food-shelf", "vinyl-12in", "books")


COUNTED = ("lever-arch-file-each", "archive-box-us")


SCREWS = ("coach-screw-8", "coach-screw-6", "wood-screw-no-12", "chipboard-screw-5")


def mm(value: float) -> str:
    return f"{value:g} mm"


class Draws:
    """Short words for what is drawn again and again.

    Parameters
    ----------
    whole : callable
        Draws a whole number between two bounds, both possible.
    """

    def __init__(self, whole: Callable[[int, int], int]) -> None:
        self.whole = whole

    def one(self, *options: Any) -> Any:
        """Return one of some options, the first the plainest."""
        return options[self.whole(0, len(options) - 1)]

    def chance(self, among: int = 4) -> bool:
        """Return True once in so many times."""
        return self.whole(1, among) == among

    def few(self, most: int) -> int:
        """Return how many, from 1, small numbers more often than large ones."""
        return min(self.whole(1, most), self.whole(1, most))

    def length(self, low: int, high: int, step: int = 10) -> float:
        return float(self.whole(low // step, high // step) * step)

    def some(self, entries: Raw, among: int = 4) -> Raw:
        """Keep each entry once in so many times; entries are functions without arguments."""
        return {key: make() for key, make in entries.items() if self.chance(among)}


def panel(d: Draws, rows: Any = PANELS) -> Raw:
    name, sizes = d.one(*rows)
    return {"material": name, "thickness": mm(d.one(*sizes))}


def strip(d: Draws) -> Raw:
    made = {
        "material": d.one(*STRIPS),
        "width": "20 mm",
        "height": mm(d.one(40, 60)),
        "where": d.one("under", "front", "rear", "over", "groove"),
    }
    if made["where"] == "groove":
        return {**made, "material": "steel-s235", "width": "8 mm", "height": "10 mm",
                "fixed": "glued"}  # fmt: skip
    if d.chance(2):
        return {**made, "fixed": "glued"}
    screws = {"screw": "chipboard-screw-4 x 40 mm", "spacing": mm(d.length(100, 300, 50))}
    return {**made, "fixed": "screwed", "screws": screws}


def double(d: Draws) -> Raw:
    made: Raw = {"panels": 2, "joined": d.one("glued", "screwed", "lying")}
    if d.chance():
        made["second"] = panel(d)
    if made["joined"] == "screwed" and d.chance(2):
        made["screws"] = {"screw": "chipboard-screw-4 x 30 mm", "spacing": mm(d.length(100, 300))}
    elif made["joined"] == "glued" and d.chance():
        made["hollow"] = {"height": "30 mm", "web": "18 mm", "webs": d.whole(2, 4)}
        made.pop("second", None)
    return made


def shelf(d: Draws) -> Raw:
    made: Raw = d.some(
        {
            "grain": lambda: "across",
            "runs": lambda: "through",
            "ends": lambda: "clamped",
            "bearing": lambda: mm(d.one(6, 9, 15, 20)),
            "limit": lambda: d.one("fine", "tolerable", "workshop", "first day"),
        }
    )
    if d.chance():
        made |= panel(d)
    if d.chance():
        made |= double(d)
    for edge in ("lipping_front", "lipping_rear"):
        if d.chance(5):
            lip = {"material": d.one(*STRIPS), "thickness": "20 mm"}
            made[edge] = {**lip, "height": mm(d.one(20, 45))}
    if d.chance(6):
        made["strips"] = [strip(d)]
    if d.chance(5):
        made |= {"loose": True, "play": mm(d.one(1, 2, 3))}
    if d.chance(8):
        made["pins"] = {"from_front": "40 mm", "from_rear": "40 mm"}
    return made


def back(d: Draws) -> Raw:
    made = {**panel(d, BACKS), "fixed": d.one("glued", "screwed", "nailed")}
    if made["fixed"] != "glued":
        made["spacing"] = mm(d.length(50, 250, 50))
        if d.chance():
            made["diameter"] = mm(d.one(2, 3))
    if made["fixed"] == "screwed" and d.chance():
        made["screws"] = {"screw": "chipboard-screw-3 x 16 mm"}
    return made | d.some({"holds": lambda: "edges", "wall_spacing": lambda: mm(d.one(300, 600))}, 6)


def load(d: Draws) -> str:
    return d.one(
        f"{d.whole(1, 60)} kg",
        f"{d.whole(2, 60)} kg/m",
        f"{d.whole(20, 250)} kg/m2",
        f"{d.whole(100, 600)} kg/m3",
    )


def fill(d: Draws, width: float, people: int = 8) -> Any:
    """Return what stands in a bay of some clear width [mm]."""
    if d.chance(8):
        return "empty"
    made: Raw = {}
    if d.chance(3):
        made["what"] = d.one(*CONTENTS)
        made |= d.some({"packed": lambda: d.one("high", "low"), "fill": lambda: 0.5})
    elif d.chance(8):
        made |= {"what": d.one(*COUNTED), "count": d.whole(1, 6)}
    if not made or d.chance(6):
        made["load"] = load(d)
    if d.chance(3):
        made["where"] = d.one("front edge", "rear edge", "left half", "right half")
    if d.chance(5):
        made["points"] = [point(d, width) for _ in range(d.whole(1, 2))]
    if d.chance(people):
        made["people"] = d.one("leaning", "sitting", "standing", "sleeping")
    return made


def point(d: Draws, width: float) -> Raw:
    made = {"load": f"{d.whole(1, 40)} kg", "at": mm(round(width * d.whole(0, 10) / 10, 1))}
    return made | d.some(
        {
            "duration": lambda: d.one("medium-term", "short-term"),
            "from_front": lambda: mm(d.one(0, 50, 150)),
        },
        3,
    )


def held(d: Draws, *, carcass: bool = True) -> Raw:
    made: Raw = {"carcass": "anchor"} if carcass and not d.chance(6) else {}
    if d.chance(2):
        made |= {"screw": d.one(*SCREWS), "length": mm(d.one(80, 60, 100))}
    elif not d.chance(8):
        made["maker"] = d.one("anchor", "plug")
    return made | d.some({"count": lambda: d.whole(1, 6)}, 2)


def upright(d: Draws) -> Raw:
    made = panel(d) if d.chance(3) else {}
    if d.chance(4):
        made |= {"panels": 2, "joined": d.one("glued", "screwed", "lying")}
    return made


def join(d: Draws) -> Any:
    return d.one(
        "screws",
        "glue",
        {"screw": "chipboard-screw-4 x 50 mm", "count": d.whole(2, 5)},
        {"screw": "full-thread-screw-5 x 70 mm", "spacing": "120 mm"},
        {"by": "bolts", "count": 2},
        "housing",
        "cleat",
        {"screw": "chipboard-screw-5 x 60 mm", "count": 3, "redriven": True},
    )


def thickness_of(unit: Raw, kind: str) -> float:
    """Return the thickness of a side or divider of a raw unit as ordered [mm]."""
    described = unit.get(kind, {})
    text = described.get("thickness", unit["panel"]["thickness"])
    return float(text.removesuffix(" mm")) * described.get("panels", 1)


def opening(d: Draws) -> Raw:
    return {"mass": f"{d.whole(2, 20)} kg", "out": mm(d.one(300, 400))} | d.some(
        {"height": lambda: "200 mm"}
    )
