"""Creep, load duration and partial factors against EN 1995-1-1, and their order."""

from __future__ import annotations

from itertools import pairwise

import pytest
from table_rows import ROWS

from shelfload import tables
from shelfload.errors import UnknownName
from shelfload.tables import factors

CLASSES = [name for name in factors._kmod_rows() if name != "gypsum plasterboard"]

# EN 1995-1-1:2004+A1, Table 3.1: class, service class, permanent to instantaneous
TABLE_3_1 = """
solid timber          1  0.60 0.70 0.80 0.90 1.10
solid timber          2  0.60 0.70 0.80 0.90 1.10
solid timber          3  0.50 0.55 0.65 0.70 0.90
glulam                1  0.60 0.70 0.80 0.90 1.10
glulam                2  0.60 0.70 0.80 0.90 1.10
glulam                3  0.50 0.55 0.65 0.70 0.90
LVL                   1  0.60 0.70 0.80 0.90 1.10
LVL                   2  0.60 0.70 0.80 0.90 1.10
LVL                   3  0.50 0.55 0.65 0.70 0.90
plywood               1  0.60 0.70 0.80 0.90 1.10
plywood               2  0.60 0.70 0.80 0.90 1.10
plywood               3  0.50 0.55 0.65 0.70 0.90
OSB/2                 1  0.30 0.45 0.65 0.85 1.10
OSB/3                 1  0.40 0.50 0.70 0.90 1.10
OSB/3                 2  0.30 0.40 0.55 0.70 0.90
OSB/4                 1  0.40 0.50 0.70 0.90 1.10
OSB/4                 2  0.30 0.40 0.55 0.70 0.90
particleboard P4      1  0.30 0.45 0.65 0.85 1.10
particleboard P5      1  0.30 0.45 0.65 0.85 1.10
particleboard P5      2  0.20 0.30 0.45 0.60 0.80
particleboard P6      1  0.40 0.50 0.70 0.90 1.10
particleboard P7      1  0.40 0.50 0.70 0.90 1.10
particleboard P7      2  0.30 0.40 0.55 0.70 0.90
hardboard HB.LA       1  0.30 0.45 0.65 0.85 1.10
hardboard HB.HLA      1  0.30 0.45 0.65 0.85 1.10
hardboard HB.HLA      2  0.20 0.30 0.45 0.60 0.80
medium board MBH.LA   1  0.20 0.40 0.60 0.80 1.10
medium board MBH.HLS  1  0.20 0.40 0.60 0.80 1.10
medium board MBH.HLS  2  -    -    -    0.45 0.80
MDF.LA                1  0.20 0.40 0.60 0.80 1.10
MDF.HLS               1  0.20 0.40 0.60 0.80 1.10
MDF.HLS               2  -    -    -    0.45 0.80
"""

# EN 1995-1-1:2004, Table 3.2: class, service classes 1 to 3
TABLE_3_2 = """
solid timber          0.60 0.80 2.00
glulam                0.60 0.80 2.00
LVL                   0.60 0.80 2.00
plywood               0.80 1.00 2.50
OSB/2                 2.25 -    -
OSB/3                 1.50 2.25 -
OSB/4                 1.50 2.25 -
particleboard P4      2.25 -    -
particleboard P5      2.25 3.00 -
particleboard P6      1.50 -    -
particleboard P7      1.50 2.25 -
hardboard HB.LA       2.25 -    -
hardboard HB.HLA      2.25 3.00 -
medium board MBH.LA   3.00 -    -
medium board MBH.HLS  3.00 4.00 -
MDF.LA                2.25 -    -
MDF.HLS               2.25 3.00 -
"""


def rows(table: str, figures: int) -> list[tuple[str, list[str]]]:
    split = [line.rsplit(maxsplit=figures) for line in table.strip().splitlines()]
    return [(name.strip(), figures) for name, *figures in split]


def figure(factor: tables.Factor | None) -> float | None:
    return None if factor is None else factor.value


def printed_figure(text: str) -> float | None:
    return None if text == "-" else float(text)


@pytest.mark.parametrize(("name", "printed"), rows(TABLE_3_1, 6))
def test_kmod_of_en_1995(name: str, printed: list[str]) -> None:
    service_class, *figures = printed
    for duration, text in zip(tables.DURATIONS, figures, strict=True):
        found = tables.kmod(name, int(service_class), duration)
        assert figure(found) == printed_figure(text)


@pytest.mark.parametrize(("name", "printed"), rows(TABLE_3_2, 3))
def test_kdef_of_en_1995(name: str, printed: list[str]) -> None:
    for service_class, text in zip(tables.SERVICE_CLASSES, printed, strict=True):
        assert figure(tables.kdef(name, service_class)) == printed_figure(text)


# EN 1995-1-1:2004, Table 2.3
TABLE_2_3 = {
    "solid timber": 1.3,
    "glulam": 1.25,
    "LVL": 1.2,
    "plywood": 1.2,
    "OSB": 1.2,
    "particleboard": 1.3,
    "fibreboard": 1.3,
    "connections": 1.3,
    "punched metal plate fasteners": 1.25,
}


@pytest.mark.parametrize(("name", "value"), TABLE_2_3.items())
def test_gamma_M_of_en_1995(name: str, value: float) -> None:
    assert tables.gamma_M(name).value == value


@pytest.mark.parametrize("name", CLASSES)
def test_kmod_rises_as_loads_get_shorter(name: str) -> None:
    for service_class in tables.SERVICE_CLASSES:
        values = [figure(tables.kmod(name, service_class, load)) for load in tables.DURATIONS]
        known = [value for value in values if value is not None]
        assert known == sorted(known)
        # What is allowed for a long load is allowed for a shorter one.
        assert [value is not None for value in values] == sorted(v is not None for v in values)


@pytest.mark.parametrize("name", CLASSES)
def test_damper_air_is_never_kinder(name: str) -> None:
    for drier, damper in pairwise(tables.SERVICE_CLASSES):
        for load in tables.DURATIONS:
            dry = figure(tables.kmod(name, drier, load)) or 0.0
            assert (figure(tables.kmod(name, damper, load)) or 0.0) <= dry
        dry_creep, damp_creep = (figure(tables.kdef(name, n)) for n in (drier, damper))
        if damp_creep is not None:
            assert dry_creep is not None
            assert damp_creep >= dry_creep


@pytest.mark.parametrize("name", CLASSES)
def test_creep_and_duration_are_known_for_the_same_service_classes(name: str) -> None:
    for service_class in tables.SERVICE_CLASSES:
        strength = tables.kmod(name, service_class, "instantaneous")
        assert (strength is None) == (tables.kdef(name, service_class) is None)


def test_metal_does_not_creep_or_tire() -> None:
    for name in ("steel", "aluminium"):
        for service_class in tables.SERVICE_CLASSES:
            assert figure(tables.kdef(name, service_class)) == 0.0
            assert figure(tables.kmod(name, service_class, "permanent")) == 1.0


def test_glass_under_lasting_load() -> None:
    # EN 16612 (from memory): k_mod = 0.663 t^(-1/16), t in hours, 0.29 for 50 years
    hours = {"permanent": 50 * 8766, "medium-term": 4383, "short-term": 168, "instantaneous": 1 / 6}
    for load, t in hours.items():
        assert figure(tables.kmod("float glass", 1, load)) == pytest.approx(
            0.663 * t ** (-1 / 16), abs=0.005
        )
    strength = tables.materials()["float-glass"].f_m_0
    assert strength is not None
    assert strength * 0.29 / tables.gamma_M("glass").value == pytest.approx(7.25, abs=0.005)


def test_board_outside_its_service_class_has_no_value() -> None:
    assert tables.kmod("particleboard P4", 2, "long-term") is None
    assert tables.kdef("particleboard P4", 2) is None
    assert tables.kmod("MDF.HLS", 2, "long-term") is None
    assert tables.kdef("MDF.LA", 3) is None


def test_unknown_class_is_told_with_the_nearest() -> None:
    with pytest.raises(UnknownName, match="did you mean plywood"):
        tables.kdef("plywod", 1)
    with pytest.raises(UnknownName, match="no class of load duration"):
        tables.kmod("cheese", 1, "long-term")
    with pytest.raises(UnknownName, match="did you mean long-term"):
        tables.kmod("plywood", 1, "longterm")
    with pytest.raises(UnknownName, match="no service class is called '4'"):
        tables.kdef("plywood", 4)
    with pytest.raises(UnknownName, match="no class of partial factor"):
        tables.gamma_M("cheese")


def test_every_row_of_the_code_was_compared() -> None:
    def of(table: str) -> set[tuple[str, ...]]:
        return {
            (row.cells["name"], row.cells.get("service_class", ""))
            for row in ROWS
            if row.table == table and row.cells["source"].startswith("EN 1995-1-1")
        }

    assert of("kmod.csv") == {(name, printed[0]) for name, printed in rows(TABLE_3_1, 6)}
    assert of("kdef.csv") == {(name, "") for name, _ in rows(TABLE_3_2, 3)}
    assert of("gamma_M.csv") == {(name, "") for name in TABLE_2_3}
