"""Every command once, on something small: for tests of where and how the program runs."""

from __future__ import annotations

from pathlib import Path

STORE = """\
title = "Papierlager Größe 2 – Ångström"
materials_from = "boards.csv"
contents_from = "goods.csv"
[[unit]]
name = "étagère"
depth = "300 mm"
panel = { material = "birke", thickness = "18 mm" }
[[unit.level]]
height = "300 mm"
bays = ["600 mm"]
contents = "büttenpapier"
[[unit.level]]
height = "300 mm"
bays = ["600 mm"]
contents = "büttenpapier"
"""
BOARDS = """\
name,kind,E_0 [MPa],G_0 [MPa],density [kg/m3],thickness [mm],source
birke,plywood,9000,200,680,17.6,gemessen in der Werkstatt
"""
GOODS = "name,typical [kg/m],source\nbüttenpapier,12,gewogen am Gerät\n"
ORDER = (
    "length [mm],width [mm],thickness [mm],count,name\n636,300,18,2,Seiten\n500,300,12,2,Türen\n"
)
ANSWERS = "mm\nshelf\nGröße 2\nindoor\nno\nno\n300\nbirch-plywood\n18\n1\n900\n38\n25 kg/m\n"
"""What ``new`` is told."""

SHELF = (
    "--span", "600 mm", "--depth", "300 mm", "--thickness", "18 mm",
    "--material", "birch-plywood", "--load", "10 kg/m",
)  # fmt: skip
COMMANDS: dict[str, tuple[str, ...]] = {
    "new": ("new", "-"),
    "check": ("check", "store.toml"),
    "shelf": ("shelf", *SHELF),
    "options": ("options", "store.toml", "--shelf", "shelf 1"),
    "screws": (
        "screws", "--from", "birch-plywood 18 mm", "--into", "birch-plywood 24 mm",
        "--length", "300 mm", "--force", "20 kg",
    ),
    "span-table": ("span-table", "--depth", "300 mm", "--material", "mdf", "--contents", "books"),
    "load-table": ("load-table", "--depth", "300 mm", "--material", "mdf", "--spans", "600 mm"),
    "measure": (
        "measure", "--span", "800 mm", "--width", "100 mm", "--thickness", "17.8 mm",
        "--like", "birch-plywood", "--reading", "5 kg = 4.4 mm",
    ),
    "proof": ("proof", "store.toml", "--shelf", "shelf 1", "--reading", "20 kg = 0.8 mm"),
    "repair": ("repair", "store.toml", "--shelf", "shelf 1", "--years", "5", "--sag", "9 mm"),
    "panels": ("panels", "store.toml", "--compare", "order.csv"),
    "draw": ("draw", "store.toml"),
    "labels": ("labels", "store.toml"),
    "example": ("example", "--list"),
    "materials": ("materials", "birch"),
    "contents": ("contents", "books"),
    "fasteners": ("fasteners", "chipboard"),
    "schema": ("schema",),
    "completion": ("completion", "bash"),
}  # fmt: skip


def lay_out(folder: Path, *, bom: bool = False, newline: str = "\n") -> Path:
    """Write every file that a user may hand in, as some editor would."""
    for name, text in (
        ("store.toml", STORE),
        ("boards.csv", BOARDS),
        ("goods.csv", GOODS),
        ("order.csv", ORDER),
    ):
        encoding = "utf-8-sig" if bom else "utf-8"
        (folder / name).write_text(text, encoding=encoding, newline=newline)
    return folder
