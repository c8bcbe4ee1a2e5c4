"""Where a material has no strength, or the code allows no such load on it: never a pass."""

from __future__ import annotations

import pytest
from described import asked, project, unit

from shelfload.check.assess import assess
from shelfload.check.result import Verdict
from shelfload.describe.reader import read_raw

BARE = {
    "kind": "plywood", "density": "500 kg/m3", "E": "8000 MPa", "E_across": "8000 MPa",
    "G": "500 MPa", "source": "made up for tests",
}  # fmt: skip
PANEL = {"material": "bare", "thickness": "20 mm"}
# EN 1995-1-1 Table 3.1 has P4 in service class 1 only
P4 = {"material": "particleboard-p4", "thickness": "19 mm"}
JOISTS = {"width": "19 mm", "height": "200 mm", "span": "3 m", "spacing": "400 mm"}
TOWERS = [
    unit(name, bays=(360,), left=left, panel=P4) for name, left in (("l", "0 mm"), ("r", "1600 mm"))
]


def answers(*units, part, question, **more):
    raw = project(*units, **more)
    raw["materials"]["bare"] = BARE
    description = read_raw(raw)
    found = asked(assess(description.project, description.catalogue), part, question)
    assert found
    return found


def on_joists(material, run, **more):
    joists = {**JOISTS, "run": run, "material": material}
    return {"site": {"floor": {"joists": joists}, **more}}


@pytest.mark.parametrize("run", ["along", "across"])
def test_joists_of_unknown_strength(run):
    box = unit(loads=[20])
    for bare in answers(box, part="floor", question="joists in bending", **on_joists("bare", run)):
        assert bare.verdict is Verdict.NOT_CHECKED
        assert bare.reason == "bare: no strength is published"
    humid = on_joists("particleboard-p4", run, service_class=2)
    for question in ("joists in bending", "joists in shear"):
        for check in answers(box, part="floor", question=question, **humid):
            assert check.verdict is Verdict.NOT_CHECKED
            assert "no long-term load in service class 2" in check.reason


def test_floor_sheet_of_unknown_strength():
    site = {"floor": {"sheet": PANEL, "battens": "300 mm"}}
    (check,) = answers(unit(loads=[20]), part="floor", question="floor sheet", site=site)
    assert check.verdict is Verdict.NOT_CHECKED
    assert check.reason == "bare: no strength is published"


@pytest.mark.parametrize("question", ["bending", "rolling shear", "bearing"])
@pytest.mark.parametrize("part", ["bottom panel", "shelf 1", "top panel"])
def test_shelves_in_a_climate_the_board_is_not_made_for(part, question):
    box = unit(loads=[20, 20], heights=(300, 300), bays=(470, 470), panel=P4)
    for check in answers(box, part=part, question=question, site={"service_class": 2}):
        assert check.verdict is Verdict.NOT_CHECKED
        assert "no permanent load in service class 2" in check.reason


@pytest.mark.parametrize("question", ["uprights buckle", "uprights press"])
def test_uprights_in_a_climate_the_board_is_not_made_for(question):
    box = unit(loads=[20, 20], heights=(300, 300), bays=(470, 470), panel=P4)
    # of each question the worst level speaks
    for check in answers(box, part="level 2", question=question, site={"service_class": 2}):
        assert check.verdict is Verdict.NOT_CHECKED
        assert "no long-term load in service class 2" in check.reason


@pytest.mark.parametrize("side", ["left side", "right side"])
def test_panel_under_a_bridge_in_a_climate_it_is_not_made_for(side):
    bridge = unit("bridge", bays=(1960,), loads=[60], on=["l", "r"])
    found = answers(
        *TOWERS, bridge, part="standing", question="presses on", site={"service_class": 2}
    )
    (check,) = [one for one in found if one.place.bay == side]
    assert check.verdict is Verdict.NOT_CHECKED
    assert "no long-term load in service class 2" in check.reason


def test_rail_of_unknown_strength():
    hangs = {"carcass": "anchor", "screw": "coach-screw-8", "length": "120 mm", "through": PANEL}
    (check,) = answers(
        unit(bays=(1360,), loads=[10], hangs=hangs),
        part="wall", question="rail between the fixings",
        site={"wall": "timber stud", "stud_spacing": "600 mm"},
    )  # fmt: skip
    assert check.verdict is Verdict.NOT_CHECKED
    assert check.reason == "bare: no strength is published"
