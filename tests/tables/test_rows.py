"""Every row of every table, cell by cell: units, ranges, sources, keys."""

from __future__ import annotations

import csv
import re
import unicodedata

import pytest
from table_rows import FILES, ROWS, Row, heads

from shelfload import tables
from shelfload.units import factor

BY_TABLE = pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
BY_ROW = pytest.mark.parametrize("row", ROWS, ids=str)

# Which dimension the unit over a column must have; None for a pure number.
DIMENSIONS: dict[str, str | None] = {
    **dict.fromkeys(("density", "density_k"), "density"),
    **dict.fromkeys(("E_0", "E_90", "E_005", "G_0", "G_90", "G_panel", "f_u"), "stress"),
    **dict.fromkeys(("f_m_0", "f_m_90", "f_t_0", "f_c_0", "f_c_90"), "stress"),
    **dict.fromkeys(("f_v", "f_r_0", "f_r_90"), "stress"),
    **dict.fromkeys(("thickness_nominal", "thickness_actual"), "length"),
    **dict.fromkeys(("thickness_over", "thickness_to"), "length"),
    **dict.fromkeys(("diameter", "root_diameter", "shank_diameter"), "length"),
    **dict.fromkeys(("head_diameter", "head_depth", "lengths"), "length"),
    **dict.fromkeys(("pilot_softwood", "pilot_hardwood", "clearance"), "length"),
    **dict.fromkeys(("thickness", "width", "spacing", "absolute", "row_depth"), "length"),
    **dict.fromkeys(("tension", "shear"), "force"),
    **dict.fromkeys(("cov_E", "cov_f", "thread_share", "ratio", "cantilever_ratio"), None),
    **dict.fromkeys(("value", "service_class_1", "service_class_2", "service_class_3"), None),
    **dict.fromkeys(tables.DURATIONS, None),
}
# These three mean what the name of the table says.
OF_THE_TABLE: dict[str, str | None] = {
    "contents_line.csv": "line load",
    "contents_area.csv": "area load",
    "contents_volume.csv": "volume load",
    "contents_each.csv": "force",
    "figures_area.csv": "area load",
    "figures_force.csv": "force",
    "figures_length.csv": "length",
    "figures_ratio.csv": None,
}

# What a cell may hold, in the unit of its column; a shifted column or a slip of a power of
# ten leaves these bands. Physical limits where a reason stands beside them, else the range
# of what is sold: common practice, no source.
PLAUSIBLE: dict[tuple[str, str], tuple[float, float]] = {
    ("density", "kg/m3"): (300, 7900),  # no board is lighter than balsa's double, none beats steel
    ("density_k", "kg/m3"): (250, 800),
    ("E_0", "MPa"): (1000, 210000),  # steel, EN 1993-1-1, 3.2.6
    ("E_90", "MPa"): (200, 210000),
    ("E_005", "MPa"): (1500, 15000),
    ("G_0", "MPa"): (40, 81000),  # steel, EN 1993-1-1, 3.2.6
    ("G_90", "MPa"): (40, 81000),
    ("G_panel", "MPa"): (250, 81000),
    ("f_m_0", "MPa"): (5, 240),
    ("f_m_90", "MPa"): (5, 240),
    ("f_t_0", "MPa"): (5, 240),
    ("f_c_0", "MPa"): (8, 240),
    ("f_c_90", "MPa"): (1.5, 15),
    ("f_v", "MPa"): (2, 140),
    ("f_r_0", "MPa"): (0.5, 140),
    ("f_r_90", "MPa"): (0.5, 140),
    ("cov_E", "-"): (0.02, 0.35),
    ("cov_f", "-"): (0.05, 0.35),
    ("thickness_nominal", "mm"): (3, 50),
    ("thickness_actual", "mm"): (3, 50),
    ("thickness_over", "mm"): (0.4, 45),
    ("thickness_to", "mm"): (5, 60),
    ("diameter", "mm"): (1.2, 12),
    ("root_diameter", "mm"): (1.2, 11),
    ("shank_diameter", "mm"): (1.2, 12),
    ("head_diameter", "mm"): (2.5, 30),
    ("head_depth", "mm"): (1, 7),
    ("lengths", "mm"): (10, 250),
    ("thread_share", "-"): (0, 1),
    ("pilot_softwood", "mm"): (1, 15),
    ("pilot_hardwood", "mm"): (1, 15),
    ("clearance", "mm"): (2, 15),
    ("f_u", "MPa"): (400, 1000),  # from class 4.6 on, ISO 898-1
    ("permanent", "-"): (0.2, 1.0),
    ("long-term", "-"): (0.25, 1.0),
    ("medium-term", "-"): (0.35, 1.0),
    ("short-term", "-"): (0.4, 1.0),
    ("instantaneous", "-"): (0.7, 1.1),
    ("service_class_1", "-"): (0, 3),  # EN 1995-1-1, Table 3.2: at most 3, 4 and 2.5
    ("service_class_2", "-"): (0, 4),
    ("service_class_3", "-"): (0, 2.5),
    ("value", "-"): (1, 2),
    ("ratio", "-"): (100, 600),
    ("cantilever_ratio", "-"): (50, 300),
    ("absolute", "mm"): (1, 10),
    ("thickness", "in"): (0.5, 4),
    ("width", "in"): (1, 12),
    ("spacing", "mm"): (300, 700),
    ("tension", "kN"): (0.05, 2),
    ("shear", "kN"): (0.05, 2),
    ("row_depth", "mm"): (100, 700),
    **{(column, "kg/m"): (5, 160) for column in ("low", "typical", "high")},
    **{(column, "kg/m2"): (15, 400) for column in ("low", "typical", "high")},
    **{(column, "kg/m3"): (60, 1700) for column in ("low", "typical", "high")},
    **{(column, "kg"): (0.4, 60) for column in ("low", "typical", "high")},
    **{(column, "kN/m2"): (0.4, 15) for column in ("low", "high")},
    **{(column, "N"): (40, 8000) for column in ("low", "high")},
    **{(column, "mm"): (5, 1600) for column in ("low", "high")},
    **{(column, "-"): (0.1, 100) for column in ("low", "high")},
}


def test_every_table_has_rows() -> None:
    assert {row.table for row in ROWS} == {path.name for path in FILES}


@BY_TABLE
def test_file_is_plain_utf_8(path) -> None:
    content = path.read_bytes()
    text = content.decode("utf-8")
    assert not content.startswith(b"\xef\xbb\xbf")
    assert b"\r" not in content
    assert content.endswith(b"\n")
    assert not content.endswith(b"\n\n")
    assert unicodedata.normalize("NFC", text) == text
    # a hidden character in a name would make it a name that nobody can type
    assert {char for char in text if unicodedata.category(char) in {"Cf", "Cc"}} == {"\n"}


@BY_TABLE
def test_file_is_written_as_a_csv_writer_would(path) -> None:
    # so that an edit by script changes one cell and not the quotes of all others
    with path.open(encoding="utf-8", newline="") as stream:
        lines = list(csv.reader(stream, strict=True))
    assert lines
    assert all(len(cells) == len(lines[0]) for cells in lines)
    assert all(cell == cell.strip() and "\n" not in cell for cells in lines for cell in cells)


@BY_TABLE
def test_units_in_the_header_parse(path) -> None:
    found = heads(path)
    assert len({name for name, _ in found}) == len(found)
    for name, unit in found:
        if name in ("low", "typical", "high"):
            dimension = OF_THE_TABLE[path.name]
        elif unit:
            dimension = DIMENSIONS[name]
        else:
            assert name not in DIMENSIONS, f"{name} needs a unit"
            continue
        assert (unit == "-") == (dimension is None)
        if dimension is not None:
            assert factor(unit, dimension) > 0.0


@BY_TABLE
def test_every_column_of_figures_has_a_range_and_some_figure(path) -> None:
    for name, unit in heads(path):
        if unit:
            assert (name, unit) in PLAUSIBLE
            filled = [row for row in ROWS if row.table == path.name and row.cells[name]]
            assert filled or (name == "high" and path.name.startswith("figures_"))


@BY_ROW
def test_figures_are_plausible(row: Row) -> None:
    for name, unit in row.units.items():
        low, high = PLAUSIBLE[name, unit]
        for part in filter(None, row.cells[name].split(";")):
            assert re.fullmatch(r"\d+(\.\d+)?", part), f"{name}: {part!r}"
            assert low <= float(part) <= high, f"{name} [{unit}]: {part}"


@BY_ROW
def test_key_can_be_typed(row: Row) -> None:
    name = row.cells["name"]
    assert re.fullmatch(r"[A-Za-z0-9](?:[A-Za-z0-9 ,./-]*[A-Za-z0-9])?", name)
    assert "  " not in name
    assert "--" not in name


NOBODY = "common practice, no source"


@BY_ROW
def test_source_says_more_than_a_word(row: Row) -> None:
    source, status = row.cells["source"], row.cells["status"]
    assert status in tables.STATUSES
    assert len(source.split()) >= 2
    assert source.casefold() != status
    assert source.count("(") == source.count(")")
    words = re.findall(r"\w+", source)
    assert not re.search(r"\b(\w+ \w+) \1\b", " ".join(words)), "a name stands twice"


@BY_ROW
def test_status_agrees_with_the_source(row: Row) -> None:
    source, note, status = row.cells["source"], row.cells["note"], row.cells["status"]
    if status in {"published", "from memory"}:
        # a document is named: a number of it, or a body with capitals
        assert NOBODY not in source
        assert "derived" not in source
        assert re.search(r"\b[A-Z]{2,}\b|\b(19|20)\d\d\b|[A-Z][a-z]+ ([A-Z]|.*\d)", source) or (
            "datasheets" in source or "supplier's declaration" in source
        )
    if status == "derived":
        assert re.search(r"\d", note + source), "the arithmetic is shown"
    if status == "common practice":
        assert not source.startswith("EN ")
    if NOBODY in source:
        assert status in {"common practice", "derived"}


@BY_ROW
def test_range_rises(row: Row) -> None:
    given = [row.number(name) for name in ("low", "typical", "high")]
    known = [figure for figure in given if figure is not None]
    assert known == sorted(known)
    if len(known) > 1:
        # wider than this, a row is two rows under one name: common practice, no source
        assert known[-1] <= 5 * known[0]


@BY_ROW
def test_words_are_words(row: Row) -> None:
    for name, cell in row.cells.items():
        if name in row.units or not cell:
            continue
        assert not re.fullmatch(r"[\d.;-]+", cell) or name in {"name", "order", "service_class"}
        if name in {"duration_borrowed", "estimate", "demountable", "default"} | {
            "by_formula",
            "allowed_overhead",
        }:
            assert cell in {"yes", "no"}
