"""Contents, limits, lumber, fasteners and walls: identities, sums and published figures."""

from __future__ import annotations

from itertools import pairwise

import pytest
from printed import printed

from shelfload import tables
from shelfload.errors import UnknownName

CONTENTS = list(tables.contents().values())
FASTENERS = list(tables.fasteners().values())

G = 9.80665  # m/s2, standard gravity by definition
# Internal load of one kg per m, m2, m3 or piece
KG = {"line": G / 1e3, "area": G / 1e6, "volume": G / 1e9, "each": G}


# ---------------------------------------------------------------- contents


@pytest.mark.parametrize("row", CONTENTS, ids=lambda row: row.name)
def test_contents_stay_for_long(row: tables.Contents) -> None:
    assert row.duration == "long-term"
    assert row.row_depth is None or row.kind == "line"


# IASA-TC 05, 4.6.2 [kg/m]
@pytest.mark.parametrize(
    ("name", "load"),
    [("vinyl-12in", "54"), ("vinyl-7in", "21"), ("shellac-12in", "92"), ("cd-jewel-case", "7")],
)
def test_carriers_of_iasa_tc_05(name: str, load: str) -> None:
    assert tables.contents()[name].typical / KG["line"] == printed(load)


# EN 1991-1-1:2002, Annex A, Table A.12 [kN/m3]
@pytest.mark.parametrize(
    ("name", "load"),
    [
        ("books-documents-volume", "6.0"),
        ("books-documents-dense", "8.5"),
        ("filing-racks-cabinets", "6.0"),
        ("paper-piled", "11"),
        ("paper-rolls", "15"),
    ],
)
def test_stored_goods_of_en_1991(name: str, load: str) -> None:
    assert tables.contents()[name].typical * 1e6 == printed(load)


# Architectural Woodwork Standards 2009 [lb/ft2]; lb and ft by definition
@pytest.mark.parametrize(("name", "load"), [("aws-shelf-library", "50"), ("aws-shelf-other", "40")])
def test_shelf_loads_of_the_woodwork_standard(name: str, load: str) -> None:
    kg_per_m2 = tables.contents()[name].typical / KG["area"]
    assert kg_per_m2 * 0.3048**2 / 0.45359237 == printed(load)


def test_row_of_books_follows_from_their_density() -> None:
    # EN 1991-1-1:2002, Table A.12: 612 to 867 kg/m3, times the block of one book
    for name, height, depth in (
        ("books-small-paperback", 0.18, 0.11),
        ("books-medium-hardback", 0.23, 0.16),
        ("books-large-illustrated", 0.30, 0.24),
    ):
        row = tables.contents()[name]
        assert row.low is not None
        assert row.high is not None
        assert row.low / KG["line"] <= 612 * height * depth
        assert row.high / KG["line"] == pytest.approx(867 * height * depth, abs=0.5)
        assert row.row_depth == pytest.approx(1000 * depth)


def test_flat_sheets_follow_from_piled_paper() -> None:
    piled = tables.contents()["paper-piled"].typical
    assert tables.contents()["flat-sheets-100mm"].typical == pytest.approx(piled * 100, rel=0.002)
    assert tables.contents()["flat-sheets-50mm"].typical == pytest.approx(piled * 50, rel=0.002)


# ---------------------------------------------------------------- limits and lumber


def test_overhang_may_sag_as_twice_its_length_would() -> None:
    for limit in tables.limits().values():
        if limit.ratio is not None:
            assert limit.cantilever_ratio == limit.ratio / 2


def test_one_limit_is_the_default() -> None:
    (default,) = (limit for limit in tables.limits().values() if limit.default)
    assert (default.ratio, default.applies_to) == (200, "final")
    assert default.status == "common practice"


def test_words_run_from_strict_to_lenient() -> None:
    named = [tables.limits()[name] for name in ("not visible", "fine", "tolerable", "workshop")]
    for stricter, milder in pairwise(named):
        assert (stricter.ratio or 0) > (milder.ratio or 0)


# EN 1995-1-1:2004, Table 7.2, and Architectural Woodwork Standards 2009
@pytest.mark.parametrize(
    ("name", "ratio", "applies_to"),
    [
        ("first day, strict", 500, "instantaneous"),
        ("first day", 300, "instantaneous"),
        ("net final, strict", 350, "final"),
        ("net final", 250, "final"),
        ("final, strict", 300, "final"),
        ("final", 150, "final"),
        ("workshop", 144, "final"),
    ],
)
def test_published_limits(name: str, ratio: float, applies_to: str) -> None:
    limit = tables.limits()[name]
    assert (limit.ratio, limit.applies_to, limit.status) == (ratio, applies_to, "published")


def test_absolute_limit_has_no_ratio() -> None:
    limit = tables.limits()["3 mm"]
    assert (limit.absolute, limit.ratio) == (3.0, None)


# American Softwood Lumber Standard PS 20, dressed dry, from memory [in]
@pytest.mark.parametrize(
    ("name", "thickness", "width"),
    [("1x12", 0.75, 11.25), ("2x4", 1.5, 3.5), ("1x6", 0.75, 5.5), ("2x10", 1.5, 9.25)],
)
def test_lumber_is_smaller_than_it_is_called(name: str, thickness: float, width: float) -> None:
    size = tables.lumber()[name]
    assert size.thickness == pytest.approx(25.4 * thickness)
    assert size.width == pytest.approx(25.4 * width)


def test_lumber_sizes_follow_their_names() -> None:
    assert len(tables.lumber()) == 24
    for name, size in tables.lumber().items():
        thickness, _, width = name.partition("x")
        called = {"1": 1.0, "5/4": 1.25, "2": 2.0, "4": 4.0}[thickness], float(width)
        assert 3 <= 25.4 * called[0] - size.thickness <= 13
        assert 12 <= 25.4 * called[1] - size.width <= 20


# ---------------------------------------------------------------- fasteners and walls


@pytest.mark.parametrize("row", FASTENERS, ids=lambda row: row.name)
def test_fastener_is_in_proportion(row: tables.Fastener) -> None:
    assert row.root_diameter is not None
    assert row.shank_diameter is not None
    assert row.head_diameter is not None
    assert 0.6 * row.diameter <= row.root_diameter <= row.diameter
    assert row.root_diameter <= row.shank_diameter <= row.diameter
    assert 1.4 * row.diameter <= row.head_diameter <= 3 * row.diameter
    assert list(row.lengths) == sorted(set(row.lengths))
    assert all(2.4 * row.diameter < length < 50 * row.diameter for length in row.lengths)
    if row.pilot_softwood is not None:
        assert row.pilot_hardwood is not None
        assert row.pilot_softwood <= row.pilot_hardwood
    if "screw" in row.kind and row.kind != "machine screw and insert":
        assert (row.pilot_softwood or 0) < (row.pilot_hardwood or 0) < row.root_diameter
    if row.clearance is not None:
        assert row.clearance >= row.shank_diameter
    assert (row.head_shape == "countersunk") == (row.head_depth is not None)
    if row.head_depth is not None:
        assert row.head_depth <= row.diameter


# Wood Handbook (USDA FPL-GTR-282), chapter 8: shank diameter of screw gauges [mm]
@pytest.mark.parametrize(
    ("gauge", "diameter"),
    [
        ("4", "2.84"),
        ("5", "3.18"),
        ("6", "3.51"),
        ("7", "3.84"),
        ("8", "4.17"),
        ("9", "4.50"),
        ("10", "4.83"),
        ("12", "5.49"),
        ("14", "6.15"),
    ],
)
def test_screw_gauges_of_the_wood_handbook(gauge: str, diameter: str) -> None:
    screw = tables.fasteners()[f"wood-screw-no-{gauge}"]
    assert screw.diameter == printed(diameter)
    # The rule of the gauge: 0.060 in and 0.013 in for each number
    assert screw.diameter == pytest.approx(25.4 * (0.060 + 0.013 * int(gauge)), abs=0.02)


def test_pilot_holes_of_the_wood_handbook() -> None:
    # Chapter 8: lead holes of about 70 % of the root in softwood, 90 % in hardwood
    for row in FASTENERS:
        if row.kind in {"wood screw", "chipboard screw"}:
            assert row.root_diameter is not None
            assert row.pilot_softwood == pytest.approx(0.7 * row.root_diameter, abs=0.051)
            assert row.pilot_hardwood == pytest.approx(0.9 * row.root_diameter, abs=0.051)


def test_only_bolts_and_inserts_can_be_redone_without_loss() -> None:
    for row in FASTENERS:
        assert row.demountable == (
            row.kind in {"machine screw and insert", "connector bolt", "bolt"}
        )


def test_walls_that_hold_nothing_say_so() -> None:
    for name in ("metal stud", "lath and plaster", "unknown"):
        wall = tables.substrates()[name]
        assert wall.tension is None
        assert wall.shear is None
        assert not wall.allowed_overhead
    assert not tables.substrates()["plasterboard"].allowed_overhead


def test_planning_loads_of_walls_are_marked_as_such() -> None:
    for wall in tables.substrates().values():
        if wall.tension is not None:
            assert wall.status == "common practice"
            assert "planning only" in wall.note
            assert not wall.by_formula
    loads = {name: wall.tension for name, wall in tables.substrates().items()}
    assert loads["solid brick"] == pytest.approx(300)
    assert loads["concrete"] == pytest.approx(800)
    assert loads["hollow brick"] == pytest.approx(100)


def test_stud_spacings() -> None:
    spacings = {name: stud.spacing for name, stud in tables.studs().items()}
    # 16 and 24 in, from memory; 400 and 600 mm by the board on them
    assert spacings["us-16"] == pytest.approx(16 * 25.4)
    assert spacings["us-24"] == pytest.approx(24 * 25.4)
    assert (spacings["eu-400"], spacings["eu-600"]) == (400, 600)
    assert (spacings["au-450"], spacings["au-600"]) == (450, 600)


# kg to N by standard gravity; lb, lbf, in and ft by definition
@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("floor-domestic-eu", 2.0e-3),  # EN 1991-1-1:2002, Table 6.2: 2.0 kN/m2
        ("floor-storage-eu", 7.5e-3),  # EN 1991-1-1:2002, Table 6.4: 7.5 kN/m2
        ("floor-storage-point-eu", 7000.0),  # the same: 7.0 kN
        ("floor-library-stack-us", 150 * 0.45359237 * G / 304.8**2),  # IBC 1607.1: 150 psf
        ("floor-domestic-us", 40 * 0.45359237 * G / 304.8**2),  # ASCE 7, from memory: 40 psf
        ("child-climbing", 60 * 0.45359237 * G),  # ASTM F2057-23: 60 lb
        ("pull-on-a-tall-unit", 10 * 0.45359237 * G),  # ASTM F2057-23, from memory: 10 lbf
        ("tip-restraint", 50 * 0.45359237 * G),  # ASTM F3096, from memory: 50 lbf
        ("lift-one-person", 23 * G),  # NIOSH load constant: 23 kg
        ("clothing-unit-height", 27 * 25.4),  # ASTM F2057-23: 27 in
        ("pull-height", 56 * 25.4),  # from memory: 56 in
        ("carpet-block", 0.43 * 25.4),  # from memory: 0.43 in
    ],
)
def test_figures_of_standards(name: str, value: float) -> None:
    assert tables.figures()[name].low == pytest.approx(value, rel=3e-3)


def test_rule_of_the_trade_is_common_practice() -> None:
    for row in tables.figures().values():
        assert (row.group == "trade rule") <= (row.status == "common practice")


def test_unknown_names_are_told_with_the_nearest() -> None:
    with pytest.raises(UnknownName, match="did you mean vinyl-12in"):
        tables.contents()["vinil-12in"]
    with pytest.raises(UnknownName, match="did you mean timber stud"):
        tables.substrates()["timber studs"]
    assert "Timber Stud" in tables.substrates()
    assert tables.limits().get("nothing like this") is None
