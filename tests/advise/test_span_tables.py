"""Tables of spans and loads: each cell is what a single check of that shelf says."""

from __future__ import annotations

import numpy as np
import pytest

import shelfload
from shelfload.advise.asked import loads_asked, spans_asked
from shelfload.advise.span_tables import LONGEST, load_table, span_table
from shelfload.advise.table_cells import QUESTIONS, SUPPORTS, Asked, Sheet
from shelfload.check.result import Verdict
from shelfload.describe.catalogue import Catalogue
from shelfload.describe.parts import Fill
from shelfload.describe.site import Site
from shelfload.errors import DescriptionError, QuantityError
from shelfload.wording import size, spelled

SHEETS = tuple(
    Sheet(material=material, thickness=thickness)
    for material in ("birch-plywood", "particleboard-p2", "european-oak")
    for thickness in (12.0, 18.0)
)
# all four questions decide somewhere: sag, bending, shear, bearing
LOADS = (0.02, 0.3, 3.0, 30.0)
OPTIONS = {
    "material": None, "thickness": None, "depth": "300 mm", "dividers": (0, 1, 2),
    "bearing": None, "limit": None, "grain": "along", "clear_height": "300 mm",
    "service_class": "indoor", "contents": None, "load": None, "spans": None,
    "back": None,
}  # fmt: skip


def checked(asked, sheet, spans, load):
    """The cell as someone would describe it in a file."""
    shelf = {"material": sheet.material, "thickness": f"{sheet.thickness} mm", "grain": asked.grain}
    if asked.bearing:
        shelf["bearing"] = f"{asked.bearing} mm"
    if asked.limit:
        shelf["limit"] = asked.limit
    outcome = shelfload.check_mapping(
        {
            "site": {"service_class": asked.site.service_class},
            "shelf": [
                {
                    "name": "shelf",
                    "depth": f"{asked.depth} mm",
                    "fixed_down": True,
                    "spans": [f"{span:.9f} mm" for span in spans],
                    "shelf": shelf,
                    "contents": {"load": f"{load:.12f} N/mm"},
                }
            ],
        }
    )
    return outcome.findings


def asking(**changed):
    return Asked(**{"sheets": SHEETS, "depth": 300.0, **changed})


VARIANTS = {
    "as usual": asking(),
    "limits that are lengths, humid, wide bearing": asking(
        limit="3 mm", bearing=25.0, site=Site(service_class="humid"), depth=610.0,
        sheets=(SHEETS[1], SHEETS[5]),
    ),
    "across the grain, on the first day": asking(
        grain="across", limit="first day, strict", sheets=(SHEETS[0], SHEETS[1])
    ),
}  # fmt: skip


@pytest.mark.parametrize("asked", VARIANTS.values(), ids=VARIANTS)
def test_largest_span_is_that_at_which_a_check_reaches_its_limit(asked):
    table = span_table(asked, LOADS)
    decided = set()
    for support, count in SUPPORTS.items():
        for row, sheet in enumerate(asked.sheets):
            for column, load in enumerate(LOADS):
                span = table.values[support][row, column]
                if not 0.0 < span < LONGEST:
                    continue
                by = QUESTIONS[table.governs[support][row, column]]
                found = checked(asked, sheet, [span] * count, load)
                worst = max(found.checks, key=lambda check: check.ratio)
                assert worst.ratio == pytest.approx(1.0, rel=1e-6)
                assert worst.question.removeprefix("rolling ").startswith(by)
                decided.add(by)
    assert "sag" in decided


def test_all_four_questions_can_decide():
    asked = asking(bearing=2.0)
    table = span_table(asked, (0.02, 0.3, 3.0, 10.0, 30.0))
    found = {int(by) for governs in table.governs.values() for by in governs.ravel()}
    assert {QUESTIONS.index("sag"), QUESTIONS.index("shear"), QUESTIONS.index("bearing")} <= found
    # bending decides where the limit of sag is wide: glass, brittle and stiff
    glass = asking(sheets=(Sheet(material="float-glass", thickness=8.0),), limit="final")
    table = span_table(glass, (0.3,))
    assert QUESTIONS[table.governs["free ends"][0, 0]] == "bending"


@pytest.mark.parametrize("asked", VARIANTS.values(), ids=VARIANTS)
def test_safe_load_is_the_safe_load_of_a_check(asked):
    spans = (300.0, 700.0, 1500.0)
    table = load_table(asked, spans)
    for support, count in SUPPORTS.items():
        for row, sheet in enumerate(asked.sheets):
            for column, span in enumerate(spans):
                found = checked(asked, sheet, [span] * count, 0.1)
                expected = found.safe_loads[0].even_per_length
                # the safe load of a check is itself found to 1e-7 of the demand
                assert table.values[support][row, column] == pytest.approx(expected, rel=2e-5)


def test_the_two_tables_are_each_other_backwards():
    asked = asking(sheets=SHEETS[:2])
    spans = span_table(asked, (0.4,))
    for support in SUPPORTS:
        for row in range(2):
            span = spans.values[support][row, 0]
            loads = load_table(asked, (span,))
            assert loads.values[support][row, 0] == pytest.approx(0.4, rel=1e-6)


def test_more_load_shortens_and_a_thicker_sheet_lengthens_the_span():
    sheets = tuple(Sheet(material="mdf", thickness=t) for t in (13.0, 15.0, 17.0, 19.0))
    table = span_table(asking(sheets=sheets), (0.05, 0.1, 0.4, 1.6))
    for values in table.values.values():
        assert (np.diff(values, axis=1) < 0.0).all()
        assert (np.diff(values, axis=0) > 0.0).all()


def test_what_is_not_sold_or_not_known_has_no_figure_and_a_reason():
    sheets = (Sheet(material="birch-plywood", thickness=55.0), SHEETS[0])
    table = span_table(asking(sheets=sheets), (0.3,))
    assert np.isnan(table.values["free ends"][0, 0])
    assert "tabled" in table.missing[0]
    assert table.missing[1] == ""
    assert table.values["free ends"][1, 0] > 0.0
    # no stiffness across the grain is published for clear wood such as this glulam
    across = span_table(asking(sheets=(Sheet(material="bamboo-laminated", thickness=19.0),),
                               grain="across"), (0.3,))  # fmt: skip
    assert np.isnan(across.values["free ends"]).all()
    assert across.missing[0]


def test_a_shelf_that_fails_empty_carries_nothing():
    table = load_table(asking(sheets=(Sheet(material="mdf", thickness=12.0),)), (3000.0,))
    assert table.values["free ends"][0, 0] == 0.0
    outcome = checked(asking(), Sheet(material="mdf", thickness=12.0), [3000.0], 1e-6)
    assert outcome.verdict is Verdict.FAILS


def test_contents_counted_one_by_one_have_no_column():
    with pytest.raises(QuantityError):
        asking().load_of(Fill.model_construct(what="paint-tin-5l", count=3))


def test_options_are_read_with_every_mistake_at_once():
    wrong = {**OPTIONS, "material": ["mfd"], "depth": "0 mm", "thickness": "18", "limit": "nice",
             "bearing": "x", "contents": ["bookz", "paint-tin-5l"], "load": ["30 kg"]}  # fmt: skip
    with pytest.raises(DescriptionError) as caught:
        spans_asked(wrong, Catalogue())
    keys = [mistake.key for mistake in caught.value.mistakes]
    assert set(keys) == {
        "--material", "--depth", "--thickness", "--limit", "--bearing", "--contents", "--load",
    }  # fmt: skip
    assert keys.count("--contents") == 2
    with pytest.raises(DescriptionError, match="--spans"):
        loads_asked({**OPTIONS, "spans": "7 m, 20 mm"}, Catalogue())


def test_columns_are_loads_by_length_area_and_volume():
    options = {**OPTIONS, "load": ["30 kg/m", "2 kPa", "600 kg/m3"], "clear_height": "250 mm"}
    asked, columns = spans_asked(options, Catalogue())
    gravity = 9.80665e-3  # standard gravity (SI brochure): 1 kg/m in N/mm
    assert [column.value for column in columns] == pytest.approx(
        [30 * gravity, 2e-3 * 300, 600e-9 * 250 * 300 * 9.80665]
    )
    assert asked.depth == 300.0


def test_a_table_in_inches_starts_from_the_sheets_and_spans_of_inch_yards():
    options = dict.fromkeys(
        ("contents", "load", "spans", "material", "thickness", "bearing", "limit", "back")
    )
    rest = {"dividers": [0], "depth": "12 in", "clear_height": "12 in", "grain": "along"}
    asked, columns = loads_asked(
        {**options, **rest, "service_class": "indoor", "units": "inch"}, Catalogue()
    )
    sizes = {spelled(size(sheet.thickness), "inch") for sheet in asked.sheets}
    assert sizes == {"1/2 in", "5/8 in", "3/4 in"}
    assert [spelled(column.words, "inch") for column in columns] == [
        "16 in", "24 in", "32 in", "36 in", "48 in",
    ]  # fmt: skip
