"""Where a model ends, the answer says so: nothing is left out, and nothing is milder for it."""

from __future__ import annotations

import pytest
from described import asked, findings, project, the, unit

from shelfload.check.assess import assess
from shelfload.check.result import Verdict
from shelfload.describe.reader import read_raw
from shelfload.errors import DescriptionError

BOARD = {"material": "board", "thickness": "20 mm"}
SHEET = {"sheet": {"material": "osb-3", "thickness": "18 mm"}, "battens": "400 mm"}


def _without_strength_across(name="upper", **more):
    """A top panel that nobody can work out: no stiffness is published across its grain."""
    made = unit(name=name, heights=(300,), loads=(20,), **more)
    made["top"] = {"material": "bamboo-laminated", "thickness": "20 mm", "grain": "across"}
    return made


def test_a_floor_sheet_under_an_unknown_load_is_not_checked():
    site = {"floor": {"kind": "concrete", **SHEET}}
    question = "floor sheet under the heaviest upright"
    known = the(findings(unit(heights=(300,), loads=(20,)), site=site), "floor", question)
    assert known.value is not None
    found = the(findings(_without_strength_across(), site=site), "floor", question)
    assert found.verdict is Verdict.NOT_CHECKED
    assert "upper, top panel" in found.reason


def test_uprights_under_an_unknown_load_are_not_checked():
    found = findings(_without_strength_across())
    (check,) = [one for one in found.checks if one.question == "uprights buckle"]
    assert check.verdict is Verdict.NOT_CHECKED
    assert "upper, top panel" in check.reason


def test_feet_of_unknown_load_on_another_unit_are_not_checked():
    lower = unit(heights=(300,), loads=(10,))
    found = findings(lower, _without_strength_across(on=["box"]))
    pressed = asked(found, "standing", "presses on what is below", unit="upper")
    assert [check.verdict for check in pressed] == [Verdict.NOT_CHECKED]


@pytest.mark.parametrize(
    "contents",
    [
        {"load": "60 kg/m", "where": "front edge"},
        {"load": "5 kg", "points": [{"load": "20 kg", "at": "300 mm", "from_front": "0 mm"}]},
    ],
)
def test_an_overhang_does_not_hide_a_load_on_an_edge(contents):
    """Held at its ends the same shelf sags more than twice as much as with the load spread."""

    def on(**more):
        shelf = {
            "name": "shelf",
            "depth": "500 mm",
            "shelf": {**BOARD, "bearing": "20 mm"},
            "spans": ["600 mm"],
            "contents": contents,
            **more,
        }
        return findings(shelf=[shelf])

    at_the_ends = the(on(), "", "sag", unit="shelf")
    beyond = on(overhang_left="100 mm")
    assert at_the_ends.ratio > 1.5 * the(beyond, "", "sag", unit="shelf").ratio
    assert the(beyond, "", "load on an edge").verdict is Verdict.NOT_CHECKED


def test_a_load_beside_a_support_shears_no_less_once_another_has_a_place_across():
    """As a plate the first is run up to its support, where it would bring no shear."""

    def sheared(*more):
        box = unit(heights=(300,), bays=(560,), depth=340)
        beside = {"load": "60 kg", "at": "0 mm", "duration": "medium-term"}
        box["level"][0]["contents"] = {"load": "5 kg", "points": [beside, *more]}
        return the(findings(box), "bottom panel", "rolling shear").ratio

    middle = {"load": "1 kg", "at": "280 mm", "from_front": "170 mm", "duration": "medium-term"}
    assert sheared(middle) >= sheared()


def test_a_unit_built_together_with_one_that_folds_is_not_checked():
    lower = unit(heights=(300,), loads=(10,), back={**BOARD, "fixed": "glued"})
    upper = unit(name="upper", heights=(300,), loads=(10,), on=["box"])
    found = [c for c in findings(lower, upper).checks if c.question == "stays square"]
    assert {c.place.unit: c.verdict for c in found} == {
        "box": Verdict.NOT_CHECKED,
        "upper": Verdict.FAILS,
    }


@pytest.mark.parametrize(("at", "span"), [(0, "left overhang"), (700, "span 2"), (1200, "right")])
def test_a_spot_on_a_shelf_whose_brackets_are_placed_is_where_it_is(at, span):
    """Measured along the whole shelf, and there once: on an overhang it bends the other way."""
    shelf = {
        "name": "shelf",
        "depth": "300 mm",
        "length": "1200 mm",
        "shelf": {**BOARD, "bearing": "20 mm"},
        "contents": {"points": [{"load": "20 kg", "at": f"{at} mm"}]},
        "supports": {"kind": "brackets", "number": 3, "height": "200 mm"},
    }
    (beam,) = findings(shelf=[shelf]).whole.beams
    loaded = [bay for bay in beam.bays if bay.load.points]
    assert len(loaded) == 1
    assert loaded[0].name.startswith(span)
    ((force, inside, _),) = loaded[0].load.points
    assert loaded[0].start + inside == pytest.approx(at)
    assert force == pytest.approx(20 * 9.80665)


def test_a_spot_beyond_a_shelf_whose_brackets_are_placed_is_a_mistake():
    shelf = {
        "name": "shelf",
        "depth": "300 mm",
        "length": "1200 mm",
        "shelf": {**BOARD, "bearing": "20 mm"},
        "contents": {"points": [{"load": "20 kg", "at": "1300 mm"}]},
        "supports": {"kind": "brackets", "number": 3, "height": "200 mm"},
    }
    with pytest.raises(DescriptionError, match="1300 mm"):
        findings(shelf=[shelf])


def test_a_panel_weaker_along_than_its_lipping_is_no_milder_across():
    """Shear across a curved shelf by the panel's own strength, whichever piece governs along."""

    def sheared(strength):
        raw = project(
            shelf=[
                {
                    "name": "shelf",
                    "depth": "700 mm",
                    "shelf": {
                        **BOARD,
                        "bearing": "40 mm",
                        "lipping_front": {
                            "material": "european-beech",
                            "thickness": "20 mm",
                            "height": "45 mm",
                        },
                    },
                    "plan": {"inner_radius": "800 mm", "angle": "90 deg"},
                    "contents": {"load": "3 kg/m"},
                    "fixed_down": True,
                }
            ]
        )
        raw["materials"]["board"] = {**raw["materials"]["board"], "shear_strength": strength}
        description = read_raw(raw)
        found = assess(description.project, description.catalogue).checks
        return max(check.ratio for check in found if "shear" in check.question)

    assert sheared("2.4 MPa") >= sheared("3 MPa") * (1 - 1e-9)


def test_open_doors_over_a_deeper_unit_do_not_hold_it_down():
    def pulled(**opens):
        lower = unit(heights=(300, 300), depth=500)
        upper = unit(name="upper", heights=(300,), depth=200, on=["box"], **opens)
        return the(findings(lower, upper), "standing", "tips over when pulled", unit="box").ratio

    assert pulled(doors={"mass": "10 kg", "out": "250 mm"}) >= pulled()


def test_supports_under_a_shelf_that_nobody_can_work_out_are_not_checked():
    shelf = {
        "name": "ledge",
        "depth": "200 mm",
        "spans": ["600 mm"],
        # no stiffness is published across its grain
        "shelf": {"material": "bamboo-laminated", "thickness": "20 mm", "grain": "across"},
        "contents": {"load": "10 kg/m"},
        "supports": {
            "kind": "cleat",
            "height": "60 mm",
            "screw": "chipboard-screw-5",
            "length": "500 mm",
        },
    }
    found = the(findings(shelf=[shelf], site={"wall": "solid brick"}), "wall", "supports")
    assert found.verdict is Verdict.NOT_CHECKED
    assert "across" in found.reason
