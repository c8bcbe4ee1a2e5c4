"""Every material, fastener and contents row against what matter is like."""

from __future__ import annotations

import re

import pytest

from shelfload import tables

ROWS = list(tables.materials().values())
BY_ROW = pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
CLEAR = [row for row in ROWS if row.kind == "solid" and row.strength_basis == "clear-wood mean"]
CONIFERS = re.compile(r"\b(fir|larch|hemlock|pine|spruce|redwood|redcedar|baldcypress)\b")

# Stiffness over density [MPa per kg/m3]. The cell wall of wood sets an end: about 35 GPa at
# 1500 kg/m3, that is 23, and 28 for the stiffest clear spruce at 12 %. Boards lose by resin,
# voids and turned fibres. Steel 26.8, aluminium 25.9 and glass 28: textbook figures. The
# bands are the range of standards and handbooks as tabled, widened by about a fifth: common
# practice, no source.
STIFFNESS_PER_DENSITY = {
    "solid": (14, 30),
    "glulam": (20, 30),
    "plywood": (5, 26),
    "mdf": (2.2, 6),
    "hardboard": (2.5, 7),
    "particleboard": (1.6, 6),
    "osb": (6, 13),
    "bamboo": (9, 20),
    "blockboard": (8, 16),
    "steel": (26, 27.5),
    "aluminium": (25, 27),
    "glass": (27, 30),
    "acrylic": (2.2, 2.9),
}


@BY_ROW
def test_stiffness_goes_with_density(row: tables.Material) -> None:
    low, high = STIFFNESS_PER_DENSITY[row.kind]
    assert low <= row.E_0 / row.density <= high


# Clear wood at 12 % by its specific gravity G (oven-dry mass, volume at 12 %), MPa:
# Wood Handbook (USDA FPL-GTR-190), chapter 5, functions relating mechanical properties to
# specific gravity, from memory. Species scatter about them: a fifth in bending, a third in
# shear, common practice, no source.
BY_GRAVITY = {
    "E_0": (0.3, lambda G: 20500 * G**0.84, lambda G: 16500 * G**0.70),
    "f_m_0": (0.25, lambda G: 170.7 * G**1.01, lambda G: 171.3 * G**1.13),
    "f_c_0": (0.25, lambda G: 93.7 * G**0.97, lambda G: 76.0 * G**0.89),
    "f_v": (0.35, lambda G: 16.6 * G**0.85, lambda G: 21.9 * G**1.13),
}


@pytest.mark.parametrize("field", BY_GRAVITY)
@pytest.mark.parametrize("row", CLEAR, ids=lambda row: row.name)
def test_clear_wood_follows_its_specific_gravity(row: tables.Material, field: str) -> None:
    spread, conifer, broadleaf = BY_GRAVITY[field]
    value = getattr(row, field)
    if value is None:
        return
    law = conifer if CONIFERS.search(row.name.replace("-", " ")) else broadleaf
    assert value == pytest.approx(law(row.density / 1120), rel=spread)


def test_the_law_of_a_conifer_is_asked_of_conifers() -> None:
    conifers = {row.name for row in CLEAR if CONIFERS.search(row.name.replace("-", " "))}
    assert {"scots-pine", "western-redcedar", "norway-spruce"} <= conifers
    assert conifers.isdisjoint({"spanish-cedar", "european-oak", "rubberwood"})
    assert (len(conifers), len(CLEAR)) == (28, 52)


# E_0/E_90 and E_0/G_0. Solid wood: EN 384 takes E_0/E_90 of 30 for softwood and 15 for
# hardwood, E_0/G of 16; elastic ratios of the Wood Handbook, Table 5-1, give 11 to 37 and
# 7 to 27. Plywood: three plies of 1 have E_0/E_90 of (27 - 1)/1 = 26 at most, and bend by
# rolling shear, G 50 to 210 MPa. Metal, glass, acrylic: E = 2 (1 + nu) G, nu 0.2 to 0.45.
ORTHOTROPY = {
    "solid": ((11, 38), (6, 27)),
    "glulam": ((30, 40), (15, 20)),
    "plywood": ((1.0, 26), (40, 180)),
    "mdf": ((1.0, 1.0), (12, 30)),
    "hardboard": ((1.0, 1.0), (12, 30)),
    "particleboard": ((1.0, 1.0), (12, 40)),
    "osb": ((1.5, 3), (80, 130)),
    "bamboo": ((5, 40), (10, 25)),
    "blockboard": ((1.0, 5), (50, 150)),
    "steel": ((1.0, 1.0), (2.4, 2.9)),
    "aluminium": ((1.0, 1.0), (2.4, 2.9)),
    "glass": ((1.0, 1.0), (2.4, 2.9)),
    "acrylic": ((1.0, 1.0), (2.4, 2.9)),
}


@BY_ROW
def test_orthotropy_is_that_of_its_kind(row: tables.Material) -> None:
    (low, high), (low_G, high_G) = ORTHOTROPY[row.kind]
    if row.E_90 is not None:
        assert low <= row.E_0 / row.E_90 <= high
    if row.G_0 is not None:
        assert low_G <= row.E_0 / row.G_0 <= high_G
    if row.G_0 is not None and row.G_90 is not None and row.kind in {"solid", "glulam"}:
        # rolling shear a tenth: EN 1194 and EN 14080
        assert row.G_0 / row.G_90 == pytest.approx(10, rel=0.01)


@BY_ROW
def test_shear_of_the_panel_is_that_of_its_kind(row: tables.Material) -> None:
    # Sheets of fibres that lie every way: up to E / 2.4 (nu 0.2). Wood and plywood, whose
    # fibres lie square to each other: about E / 16, black cherry E / 6.8 by the handbook.
    if row.G_panel is not None:
        wood = row.kind in {"solid", "glulam", "plywood", "bamboo", "blockboard"}
        low, high = (0.035, 0.155) if wood else (0.15, 0.42)
        assert low <= row.G_panel / row.E_0 <= high
        assert row.G_0 is None or row.G_panel >= row.G_0


@BY_ROW
def test_no_strength_comes_near_a_stiffness(row: tables.Material) -> None:
    along = (row.f_m_0, row.f_t_0, row.f_c_0, row.f_v, row.f_r_0)
    for strength, stiffness, part in (
        *((strength, row.E_0, 85) for strength in along),
        (row.f_m_90, row.E_90, 85),
        (row.f_c_90, row.E_90, 60),  # bearing across the fibres: up to 1.5 % of strain
    ):
        if strength is not None and stiffness is not None:
            assert strength < stiffness / part


@BY_ROW
def test_strengths_stand_in_proportion(row: tables.Material) -> None:
    if row.f_m_0 is None or row.kind in {"steel", "aluminium"}:
        return
    if row.strength_basis == "characteristic" and row.kind == "solid" and row.f_t_0 is not None:
        # EN 384: f_t,0,k about 0.6 f_m,k, f_c,0,k about 4.3 f_m,k^0.5
        assert row.f_t_0 == pytest.approx(0.6 * row.f_m_0, rel=0.15)
        assert row.f_c_0 == pytest.approx(4.3 * row.f_m_0**0.5, rel=0.05)
    for strength in (row.f_t_0, row.f_c_0):
        # 1.15: low classes break in bending at their knots, before their fibres crush
        assert strength is None or 0.4 * row.f_m_0 <= strength <= 1.15 * row.f_m_0
    for shear in (row.f_v, row.f_r_0, row.f_r_90):
        assert shear is None or 0.01 * row.f_m_0 <= shear <= 0.55 * row.f_m_0
    if row.f_m_90 is not None:
        # a 3-ply sheet is the worst: only its core acts across
        assert 0.1 * row.f_m_0 <= row.f_m_90 <= row.f_m_0


@BY_ROW
def test_characteristic_value_lies_below_the_mean(row: tables.Material) -> None:
    for lower, mean in ((row.density_k, row.density), (row.E_005, row.E_0)):
        assert lower is None or 0.6 * mean < lower < mean
    if row.kind == "solid" and row.strength_basis == "characteristic":
        # a class is graded timber: its fifth percentile lies below the mean of clear wood of
        # the same density (the law above, less its scatter)
        clear = 170.7 * (row.density / 1120) ** 1.01
        assert row.f_m_0 is not None
        assert row.f_m_0 < 0.75 * clear


@BY_ROW
def test_range_of_handbook_scatter(row: tables.Material) -> None:
    # Wood Handbook, Table 5-6: COV 0.22 of E and 0.16 of bending strength of clear wood;
    # panels scatter less than wood, metals least
    if row.cov_E is not None:
        low, high = {"solid": (0.1, 0.22), "steel": (0.02, 0.05), "aluminium": (0.02, 0.05)}.get(
            row.kind, (0.03, 0.3)
        )
        assert low <= row.cov_E <= high
    if row.cov_f is not None:
        assert row.cov_f == 0.16


@BY_ROW
def test_title_of_a_sheet_says_its_thickness(row: tables.Material) -> None:
    if row.family:
        bounds = (row.thickness_nominal, row.thickness_over, row.thickness_to)
        for bound in bounds:
            assert bound is None or re.search(rf"\b{bound:g}\b", row.title)
            assert bound is None or f"{bound:g}".replace(".", "-") in row.name


@pytest.mark.parametrize("row", tables.fasteners().values(), ids=lambda row: row.name)
def test_size_of_a_fastener_stands_in_its_name_and_title(row: tables.Fastener) -> None:
    if row.kind == "wood screw":
        gauge = row.name.rpartition("-")[2]
        assert row.title.endswith(f"No. {gauge}")
    else:
        assert f"{row.diameter:g}".replace(".", "-") in row.name
        assert f"{row.diameter:g}" in row.title


@pytest.mark.parametrize("row", tables.fasteners().values(), ids=lambda row: row.name)
def test_core_of_a_metric_thread(row: tables.Fastener) -> None:
    # ISO 724: d_1 = d - 1.0825 P; coarse pitches M4 0.7, M5 0.8, M6 1, M8 1.25, M10 1.5
    pitch = {4: 0.7, 5: 0.8, 6: 1.0, 8: 1.25, 10: 1.5}
    if row.kind in {"machine screw and insert", "connector bolt", "bolt"}:
        assert row.root_diameter == pytest.approx(
            row.diameter - 1.0825 * pitch[int(row.diameter)], abs=0.006
        )
