"""A shelf that has sagged: what is set, what remedies do, and that no one is told nonsense."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from shelfload.advise.repair import PRESSED_OUT, repaired
from shelfload.advise.sagged import Sagged
from shelfload.check.assess import assess
from shelfload.check.result import Verdict
from shelfload.describe.reader import read_raw
from shelfload.errors import DescriptionError
from shelfload.idealise.place import Place

PLACE = Place(unit="shelf")
K_DEF = 0.8  # plywood, service class 1: EN 1995-1-1:2004, Table 3.2


def described(load="30 kg/m", thickness="18 mm", **keys):
    return read_raw(
        {
            "shelf": [
                {
                    "name": "shelf", "depth": "300 mm", "spans": ["900 mm"], "fixed_down": True,
                    "contents": {"load": load},
                    "shelf": {"material": "birch-plywood", "thickness": thickness, **keys},
                }
            ]
        }
    )  # fmt: skip


def final_sag(description):
    found = assess(description.project, description.catalogue)
    return next(check.value for check in found.checks if check.question == "sag after years")


def after(found, start):
    return next(remedy for remedy in found.remedies if remedy.words.startswith(start))


def test_shelf_that_did_as_described_ends_where_the_check_says():
    description = described()
    final = final_sag(description)
    found = repaired(description, PLACE, Sagged(years=10.0, loaded=final))
    assert found.expected == pytest.approx(final)
    # EN 1995-1-1, 2.2.3: w_fin = w_inst (1 + k_def), of which k_def is creep
    assert found.set == pytest.approx(final * K_DEF / (1 + K_DEF))
    assert after(found, "leave it").after_years == pytest.approx(final)
    assert after(found, "turn it over").at_once == pytest.approx(final * (1 - K_DEF) / (1 + K_DEF))
    assert found.turned == pytest.approx((10.0, 10.0), rel=1e-6)


def test_measured_set_is_taken_as_measured():
    found = repaired(described(), PLACE, Sagged(years=2.0, loaded=6.0, emptied=2.5))
    assert found.set == pytest.approx(2.5)
    assert found.elastic == pytest.approx(3.5)
    assert after(found, "turn it over").at_once == pytest.approx(3.5 - 2.5)
    assert any("measured" in text and "not measured" not in text for text in found.findings)


def test_sooner_turned_sooner_back():
    times = [
        repaired(described(), PLACE, Sagged(years=years, loaded=4.0)).turned[1]
        for years in (0.1, 1.0, 5.0)
    ]
    assert times == sorted(times)
    assert times[0] < 0.5


def test_strip_leaves_its_springing_back_and_the_checked_sag_of_the_changed_shelf():
    description = described(load="40 kg/m")
    final = final_sag(description)
    found = repaired(description, PLACE, Sagged(years=10.0, loaded=final))
    strip = after(found, "a glued front lipping")
    assert strip.verdict is Verdict.PASSES
    height = next(
        size for size in range(30, 105, 5) if f"{float(size)!r}" in strip.words.split(" x ")[1]
    )
    changed = described(
        load="40 kg/m",
        lipping_front={"material": "c16", "thickness": "20 mm", "height": f"{height} mm"},
    )
    new = final_sag(changed)
    EI = [
        assess(one.project, one.catalogue).whole.beams[0].shape.EI_used
        for one in (description, changed)
    ]
    assert strip.after_years == pytest.approx(new + found.set * EI[0] / EI[1], rel=1e-6)


def test_divider_presses_the_set_out_but_for_the_difference_of_two_shapes():
    found = repaired(described(load="40 kg/m"), PLACE, Sagged(years=10.0, loaded=8.0))
    divider = after(found, "a support in each span")
    assert divider.after_years < found.limit
    # sag of a simply supported beam, 1 at mid-span: even load (16/5)(x - 2x^3 + x^4), central
    # load 3x - 4x^3 (standard beam tables)
    x = np.linspace(0.0, 0.5, 1001)
    apart = 3.2 * (x - 2 * x**3 + x**4) - (3 * x - 4 * x**3)
    assert apart.max() == pytest.approx(PRESSED_OUT, abs=5e-4)


def test_no_remedy_that_stiffens_ends_worse_than_leaving_it():
    for seen in (Sagged(years=1.0, loaded=12.0), Sagged(years=8.0, loaded=20.0, emptied=15.0)):
        found = repaired(described(load="40 kg/m"), PLACE, seen)
        leaving = found.remedies[0].after_years
        assert all(remedy.after_years <= leaving + 1e-9 for remedy in found.remedies)


def test_far_more_sag_than_described_asks_for_the_reason_first():
    found = repaired(described(), PLACE, Sagged(years=1.0, loaded=30.0))
    assert any("Look for the reason" in text for text in found.findings)
    calm = repaired(described(), PLACE, Sagged(years=10.0, loaded=final_sag(described())))
    assert not any("Look for the reason" in text for text in calm.findings)


def test_overloaded_shelf_is_unloaded_first():
    found = repaired(described(load="600 kg/m"), PLACE, Sagged(years=1.0, loaded=60.0))
    assert found.findings[0].startswith("Take the load off now")


def test_turning_is_ruled_out_for_a_shelf_with_a_strip():
    strip = {"material": "c16", "thickness": "20 mm", "height": "40 mm"}
    found = repaired(described(lipping_front=strip), PLACE, Sagged(years=1.0, loaded=3.0))
    assert "not with this shelf" in after(found, "turn it over").note
    loose = repaired(described(loose=True), PLACE, Sagged(years=1.0, loaded=3.0))
    assert "taken out" not in after(loose, "turn it over").note


def test_shelf_within_its_limit_may_be_left():
    found = repaired(described(load="5 kg/m"), PLACE, Sagged(years=5.0, loaded=1.0))
    assert found.remedies[0].verdict is Verdict.PASSES


def test_impossible_sights_are_refused():
    with pytest.raises(DescriptionError, match="--emptied"):
        repaired(described(), PLACE, Sagged(years=1.0, loaded=3.0, emptied=3.0))
    with pytest.raises(DescriptionError, match="--shelf"):
        repaired(described(), replace(PLACE, part="shelf 9"), Sagged(years=1.0, loaded=3.0))
