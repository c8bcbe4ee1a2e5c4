"""Tables of shelves with a fixed back: each cell is what a check of that shelf says."""

from __future__ import annotations

import numpy as np
import pytest

from shelfload.advise.asked import USUAL_BACK, loads_asked, spans_asked
from shelfload.advise.span_tables import LONGEST, load_table, span_table
from shelfload.advise.table_cells import BACKED, QUESTIONS, Asked, Sheet
from shelfload.check.assess import assess, checks_of_shelf
from shelfload.describe.catalogue import Catalogue
from shelfload.describe.parts import Back
from shelfload.describe.reader import read_raw
from shelfload.errors import DescriptionError
from shelfload.idealise.place import Place

SHEETS = (
    Sheet(material="birch-plywood", thickness=18.0),
    Sheet(material="c24", thickness=20.0),
    Sheet(material="particleboard-p2", thickness=19.0),
)
BACKS = {
    "nailed": {"material": "hardboard", "thickness": "3.2 mm", "fixed": "nailed",
               "spacing": "100 mm"},
    "screwed": {"material": "birch-plywood", "thickness": "6.5 mm", "fixed": "screwed",
                "spacing": "150 mm"},
    "glued": {"material": "birch-plywood", "thickness": "6.5 mm", "fixed": "glued"},
}  # fmt: skip
OPTIONS = {
    "material": ["birch-plywood"], "thickness": "18 mm", "depth": "300 mm", "dividers": (),
    "bearing": None, "limit": None, "grain": "along", "clear_height": "300 mm",
    "service_class": "indoor", "contents": None, "load": None, "spans": None, "back": "",
}  # fmt: skip


def asking(back, **changed):
    made = Back.model_validate(BACKS[back], context=Catalogue())
    supports = ("free ends", BACKED)
    return Asked(**{"sheets": SHEETS, "depth": 300.0, "supports": supports, "back": made} | changed)


def described(asked, sheet, back, span, load):
    """The cell as someone would describe it: the middle shelf of a box with that back."""
    level = {"height": f"{asked.clear_height} mm", "bays": [f"{span:.9f} mm"]}
    return read_raw(
        {
            "unit": [
                {
                    "name": "box",
                    # the panel's depth and, behind it, the back as ordered
                    "depth": f"{asked.depth + asked.back.thickness} mm",
                    "panel": {"material": sheet.material, "thickness": f"{sheet.thickness} mm"},
                    "back": BACKS[back],
                    "level": [
                        {**level, "contents": "empty"},
                        {**level, "contents": {"load": f"{load:.12f} N/mm"}},
                    ],
                }
            ]
        }
    )


def worst(asked, sheet, back, span, load):
    """The largest ratio of the checks of that shelf."""
    found = described(asked, sheet, back, span, load)
    place = Place(unit="box", part="shelf 1")
    return max(check.ratio for check in checks_of_shelf(found.project, found.catalogue, place))


@pytest.mark.parametrize(("back", "sheet"), list(zip(BACKS, SHEETS, strict=True)))
def test_safe_load_of_a_cell_is_that_of_a_check(back, sheet):
    asked = asking(back, sheets=(sheet,))
    table = load_table(asked, (800.0,))
    one = described(asked, sheet, back, 800.0, 0.05)
    findings = assess(one.project, one.catalogue)
    assert findings.whole.beams[0].shape.depth == pytest.approx(asked.depth)
    (load,) = (one for one in findings.safe_loads if one.place.part == "shelf 1")
    assert table.values[BACKED][0, 0] == pytest.approx(load.even_per_length, rel=1e-6)


@pytest.mark.parametrize(("back", "sheet"), list(zip(BACKS, SHEETS, strict=True)))
def test_longest_span_of_a_cell_passes_and_a_little_more_does_not(back, sheet):
    asked = asking(back, sheets=(sheet,))
    loads = (0.4, 0.15, 0.25)
    table = span_table(asked, loads)
    spans = table.values[BACKED][0]
    assert spans[0] < spans[2] < spans[1] < LONGEST
    for span, load in zip(spans, loads, strict=True):
        # 3e-5 of a span of 1 m is 0.03 mm; a table is rounded down to 0.1 mm
        assert worst(asked, sheet, back, span, load) == pytest.approx(1.0, abs=1e-4)


def test_a_stiffer_back_lengthens_the_span():
    sheets = SHEETS[:1]
    spans = [span_table(asking(one, sheets=sheets), (0.2,)).values[BACKED][0, 0] for one in BACKS]
    assert spans == sorted(spans)


def test_back_that_is_not_counted_on_leaves_its_cells_empty_and_the_others_full():
    # no slip modulus is published for fasteners in MDF (EN 1995-1-1:2004, Table 7.1)
    asked = asking("nailed", sheets=(Sheet(material="mdf", thickness=18.0),))
    table = span_table(asked, (0.2,))
    assert np.isnan(table.values[BACKED]).all()
    assert "slip" in table.missing[0]
    assert table.values["free ends"][0, 0] > 0.0


def test_a_back_is_read_as_it_is_said():
    asked, _ = spans_asked(OPTIONS, Catalogue())
    assert asked.supports == (BACKED,)
    assert (asked.back.material, asked.back.thickness) == ("birch-plywood", 6.5)
    assert (asked.back.fixed, asked.back.spacing) == ("screwed", 150.0)
    asked, _ = loads_asked({**OPTIONS, "back": "hardboard 1/8 in, glued"}, Catalogue())
    assert (asked.back.fixed, asked.back.spacing) == ("glued", None)


@pytest.mark.parametrize(
    "text",
    ["hardboard", "hardboard 3.2 mm, nailed", "hardboard 3.2 mm, glued every 100 mm",
     "hardbord 3.2 mm, glued", "hardboard 3.2, glued", "hardboard 3.2 mm, nailed every 0 mm"],
)  # fmt: skip
def test_backs_that_can_not_be_are_refused(text):
    with pytest.raises(DescriptionError, match="--back"):
        spans_asked({**OPTIONS, "back": text}, Catalogue())


def test_usual_back_is_one_that_is_sold():
    assert USUAL_BACK.startswith("birch-plywood 6.5 mm")
    assert QUESTIONS[-1] == "back"
