"""Backs, strips, hollow boxes, pins, curves and places of loads: read, written, refused."""

from __future__ import annotations

import pytest

from shelfload.describe.reader import read_raw, read_text
from shelfload.describe.writer import as_mapping
from shelfload.errors import DescriptionError

ALL = """
[materials.my-ply]
kind = "plywood"
thickness = "9 mm"
density = "600 kg/m3"
E = "13000 MPa"
E_across = "600 MPa"
G = "200 MPa"
plies = ["1.5 mm", "2 mm", "2 mm", "2 mm", "1.5 mm"]
source = "maker's lay-up"

[[unit]]
name = "box"
depth = "400 mm"
panel = { material = "my-ply", thickness = "9 mm" }
back = { material = "hardboard", thickness = "3.2 mm", fixed = "nailed", spacing = "80 mm", \
diameter = "1.6 mm", holds = "edges", wall_spacing = "600 mm" }
[[unit.level]]
height = "300 mm"
bays = ["600 mm"]
contents = { load = "10 kg", where = "left half", points = [{ load = "5 kg", at = "300 mm", \
from_front = "20 mm" }] }
shelf = { pins = { from_front = "30 mm", from_rear = "40 mm" } }

[[shelf]]
name = "counter"
depth = "350 mm"
plan = { inner_radius = "4 ft", angle = "57.3 deg", front = "inner" }
contents = { load = "12 kg/m", where = "front edge" }
[shelf.shelf]
material = "my-ply"
thickness = "9 mm"
panels = 2
joined = "glued"
hollow = { height = "40 mm", web = "18 mm", webs = 3 }
[[shelf.shelf.strips]]
material = "steel"
width = "20 mm"
height = "20 mm"
tube_wall = "1.5 mm"
at = "100 mm"
fixed = "screwed"
screws = { screw = "4 x 30 mm", spacing = "150 mm" }
"""


def test_every_key_comes_back_the_same():
    project = read_text(ALL).project
    assert read_raw(as_mapping(project)).project == project
    assert project.shelf[0].plan.angle == pytest.approx(1.0, rel=1e-3)  # 180 / pi = 57.3 deg


def counter(**more):
    shelf = {"material": "birch-plywood", "thickness": "18 mm"}
    return {"shelf": [{"name": "counter", "depth": "350 mm", "shelf": shelf, **more}]}


ARC = {"inner_radius": "1 m", "angle": "60 deg"}


@pytest.mark.parametrize(
    ("raw", "words"),
    [
        (counter(plan=ARC, spans=["900 mm"]), "plan alone"),
        (counter(plan=ARC, overhang_left="100 mm"), "plan alone"),
        (counter(plan={**ARC, "angle": "60"}), "unit"),
        (counter(plan={**ARC, "front": "left"}), "inner"),
        (counter(spans=["900 mm"], contents={"load": "5 kg", "where": "middle"}), "front edge"),
    ],
)
def test_mistakes_say_what_is_allowed(raw, words):
    with pytest.raises(DescriptionError, match=words):
        read_raw(raw)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"E_across": None}, "E_across of the veneer"),
        ({"plies": ["3 mm", "3 mm", "2 mm"]}, "sum of its plies"),
        ({"thickness": None}, "sum of its plies"),
    ],
)
def test_plies_must_add_up(change, words):
    own = {"kind": "plywood", "density": "600 kg/m3", "E": "13000 MPa", "E_across": "600 MPa",
           "thickness": "9 mm", "plies": ["3 mm"] * 3, "source": "made up"} | change  # fmt: skip
    own = {key: value for key, value in own.items() if value is not None}
    with pytest.raises(DescriptionError, match=words):
        read_raw({"materials": {"sheet": own}, **counter(spans=["900 mm"])})
