"""Strict reading: a bad table is told by file, line and column."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from shelfload import tables
from shelfload.errors import TableError
from shelfload.tables import columns, reader, stock

HEADER = (
    "name,title,kind,density [kg/m3],E_0 [MPa],E_basis,strength_basis,"
    "duration_class,gamma_M_class,status,source"
)
ROW = "pine,Pine,solid,500,9000,true,estimate,solid timber,solid timber,estimate,a guess"


def read(text: str) -> tuple[tables.Material, ...]:
    return reader.rows_of(text, "mine.csv", stock.COLUMNS, tables.Material)


def test_good_table_is_read() -> None:
    (row,) = read(f"{HEADER}\n{ROW}\n\n")
    assert (row.name, row.density, row.E_0, row.E_90) == ("pine", 500.0, 9000.0, None)


def test_empty_cell_is_unknown_and_never_nought() -> None:
    (row,) = read(f"{HEADER},G_0 [MPa]\n{ROW},\n")
    assert row.G_0 is None


def test_unit_in_the_header_is_the_unit_that_is_read() -> None:
    text = f"{HEADER}\n{ROW}".replace("E_0 [MPa]", "E_0 [GPa]").replace("9000", "9")
    assert pytest.approx(9000.0, rel=1e-12) == read(text)[0].E_0


def test_cell_with_comma_in_quotes_stays_one_cell() -> None:
    text = f"{HEADER}\n{ROW}".replace("a guess", '"a book, table 3"')
    assert read(text)[0].source == "a book, table 3"


@pytest.mark.parametrize(
    ("found", "instead", "words"),
    [
        pytest.param(",a guess", ",", "line 2, column 'source': the cell is empty", id="no source"),
        pytest.param(",estimate,a", ",,a", "line 2, column 'status'", id="no status"),
        pytest.param(",estimate,a", ",guesed,a", "allowed: published, common", id="status"),
        pytest.param("estimate,a guess", "from memry,x", "did you mean from memory", id="near"),
        pytest.param("E_0 [MPa]", "E0 [MPa]", "did you mean E_0", id="misspelt column"),
        pytest.param("E_0 [MPa]", "qqq [MPa]", "line 1, column 5: no column", id="no such column"),
        pytest.param("E_0 [MPa]", "density [kg/m3]", "stands twice", id="doubled column"),
        pytest.param("E_0 [MPa]", "E_0", "needs its unit", id="no unit"),
        pytest.param("E_0 [MPa]", "E_0 [kg]", "column 'E_0'", id="wrong dimension"),
        pytest.param("E_0 [MPa]", "E_0 [-]", "column 'E_0'", id="pure number"),
        pytest.param("title", "title [mm]", "takes no unit", id="unit on words"),
        pytest.param("E_0 [MPa]", "E_0 [MPa", "write a name", id="open bracket"),
        pytest.param(",E_0 [MPa]", "", "column E_0 is missing", id="missing column"),
        pytest.param("9000", "9 000", "line 2, column 'E_0': found '9 000'", id="blank"),
        pytest.param("9000", '"9000,5"', "with a full stop", id="decimal comma"),
        pytest.param("9000", "nan", "found 'nan'", id="nan"),
        pytest.param("9000", "inf", "found 'inf'", id="inf"),
        pytest.param("9000", "1e999", "must lie between", id="overflow"),
        pytest.param("9000", "0", "must lie between 1 and", id="nought"),
        pytest.param("9000", "-9000", "must lie between", id="negative"),
        pytest.param("9000", "9000 MPa", "with a full stop", id="unit in cell"),
        pytest.param(",a guess", ",a guess,more", "12 cells under 11 columns", id="long row"),
        pytest.param(",a guess", "", "10 cells under 11 columns", id="short row"),
        pytest.param("solid,", "sollid,", "did you mean solid", id="kind"),
    ],
)
def test_bad_table_is_refused_in_words(found: str, instead: str, words: str) -> None:
    good = f"{HEADER}\n{ROW}\n"
    assert found in good
    if words in {"column E_0 is missing"}:
        good = good.replace(",9000", "")
    with pytest.raises(TableError) as caught:
        read(good.replace(found, instead, 1))
    assert words in str(caught.value)
    assert str(caught.value).startswith("mine.csv, line ")


def test_doubled_row_is_refused_with_both_lines() -> None:
    with pytest.raises(TableError, match=r"line 3: pine stands already in line 2"):
        read(f"{HEADER}\n{ROW}\n{ROW}\n")


@pytest.mark.parametrize("text", ["", HEADER, HEADER + "\n"])
def test_table_without_rows_is_refused(text: str) -> None:
    with pytest.raises(TableError, match=r"mine\.csv"):
        read(text)


def test_open_quote_is_refused() -> None:
    with pytest.raises(TableError, match=r"mine\.csv, line 2"):
        read(f'{HEADER}\n"{ROW}\n')


@dataclass(frozen=True, kw_only=True)
class Thing:
    name: str
    count: int | None = None
    flag: bool = False
    sizes: tuple[float, ...] = ()
    words: tuple[str, ...] = ()
    share: float | None = None


THING = {
    "name": columns.NAME,
    "count": columns.Column(holds="count"),
    "flag": columns.Column(holds="flag"),
    "sizes": columns.Column(holds="numbers", dimension="length"),
    "words": columns.Column(holds="words"),
    "share": columns.number(high=1.0),
}


def test_lists_flags_and_counts_are_read() -> None:
    text = "name,count,flag,sizes [in],words,share [-]\na,3,yes,1;2,x; y,0.5\n"
    (thing,) = reader.rows_of(text, "t.csv", THING, Thing)
    assert thing == Thing(
        name="a", count=3, flag=True, sizes=(25.4, 50.8), words=("x", "y"), share=0.5
    )


@pytest.mark.parametrize(
    "text",
    [
        "name,count\na,3.5",
        "name,count\na,-1",
        "name,flag\na,maybe",
        "name,sizes [mm]\na,1;;2",
        "name,sizes [mm]\na,1;x",
        "name,words\na,x;",
        "name,share [%]\na,50",
        "name,share\na,0.5",
        "name,share [-]\na,1.5",
    ],
)
def test_bad_lists_flags_and_counts_are_refused(text: str) -> None:
    with pytest.raises(TableError, match=r"t\.csv, line [12]"):
        reader.rows_of(text, "t.csv", THING, Thing)


def test_bundled_folder_is_the_checkouts() -> None:
    assert (tables.folder() / "materials_wood.csv").is_file()


def test_folder_in_an_installation(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    package = tmp_path / "shelfload"
    (package / "tables").mkdir(parents=True)
    (tmp_path / "tables").mkdir()
    monkeypatch.setattr(reader, "__file__", str(package / "tables" / "reader.py"))
    with pytest.raises(RuntimeError, match="install shelfload again"):
        reader.folder()
    (package / "_tables").mkdir()
    assert reader.folder() == package / "_tables"


# ---------------------------------------------------------------- a user's own tables


def test_own_material_needs_little(tmp_path: Path) -> None:
    file = tmp_path / "mine.csv"
    file.write_text(
        "name,E_0 [MPa],density [kg/m3],thickness [mm],source\noffcut 1,7200,520,18.2,my test\n",
        encoding="utf-8-sig",
    )
    (row,) = tables.materials_from_csv(file)
    assert (row.name, row.E_0, row.density, row.thickness_actual) == ("offcut-1", 7200, 520, 18.2)
    assert (row.status, row.strength_basis, row.f_m_0) == ("as given", "estimate", None)
    assert row.duration_borrowed
    assert tables.kdef(row.duration_class, 1) is not None
    found = tables.material("offcut 1", None, own=[row])
    assert (found.material, found.thickness) == (row, 18.2)


def test_own_material_comes_before_a_bundled_one(tmp_path: Path) -> None:
    file = tmp_path / "mine.csv"
    file.write_text(
        "name,kind,E_0 [MPa],density [kg/m3],thickness [mm],source\nc24,solid,9000,400,20,me\n",
        encoding="utf-8",
    )
    own = tables.materials_from_csv(file)
    assert tables.material("C24", 20.0, own=own).material.E_0 == 9000
    assert own[0].duration_class == "solid timber"


@pytest.mark.parametrize(
    ("header", "row", "words"),
    [
        ("name,E_0 [MPa],density [kg/m3],source", "a,7000,500,me", "a thickness is needed"),
        ("name,E_0 [MPa],density [kg/m3],thickness [mm]", "a,7000,500,18", "source is missing"),
        ("name,E_0 [MPa],thickness [mm],source", "a,7000,18,me", "density is missing"),
        ("name,E_0 [MPa],density [kg/m3],thickness [mm],source", "a,7000,500,18,", "is empty"),
    ],
)
def test_own_material_is_refused(tmp_path: Path, header: str, row: str, words: str) -> None:
    file = tmp_path / "mine.csv"
    file.write_text(f"{header}\n{row}\n", encoding="utf-8")
    with pytest.raises(TableError) as caught:
        tables.materials_from_csv(file)
    assert words in str(caught.value)
    assert "mine.csv, line " in str(caught.value)


@pytest.mark.parametrize(
    ("unit", "kind", "internal"),
    [
        ("kg/m", "line", 30 * 9.80665 / 1000),  # weight of a mass: 9.80665 m/s2, by definition
        ("lb/ft", "line", 30 * 0.45359237 * 9.80665 / 304.8),  # pound and foot, by definition
        ("kg/m2", "area", 30 * 9.80665 / 1000**2),
        ("kPa", "area", 30 / 1000),
        ("kg/m3", "volume", 30 * 9.80665 / 1000**3),
        ("kg", "each", 30 * 9.80665),
        ("N", "each", 30.0),
    ],
)
def test_own_contents_by_their_unit(tmp_path: Path, unit: str, kind: str, internal: float) -> None:
    file = tmp_path / "mine.csv"
    file.write_text(f"name,typical [{unit}],source\nthings,30,weighed\n", encoding="utf-8")
    (row,) = tables.contents_from_csv(file)
    assert row.kind == kind
    assert row.typical == pytest.approx(internal, rel=1e-9)
    assert row.status == "as given"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("name,typical,source\na,1,b", "write its unit"),
        ("name,typical [mm],source\na,1,b", "write its unit"),
        ("name,source\na,b", "column typical is missing"),
        ("name,typical [kg/m],high [kg/m],source\na,10,5,b", "must rise"),
        ("name,typical [kg/m],high [kg],source\na,10,50,b", "column 'high'"),
        ("name,typical [kg/m],source\na,10,", "is empty"),
    ],
)
def test_own_contents_are_refused(tmp_path: Path, text: str, words: str) -> None:
    file = tmp_path / "mine.csv"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(TableError) as caught:
        tables.contents_from_csv(file)
    assert words in str(caught.value)


@pytest.mark.parametrize("read_own", [tables.materials_from_csv, tables.contents_from_csv])
def test_unreadable_file_is_an_error_in_words(
    tmp_path: Path, read_own: Callable[[Path], object]
) -> None:
    with pytest.raises(TableError, match="can't be read"):
        read_own(tmp_path / "none.csv")
    file = tmp_path / "latin.csv"
    file.write_bytes(b"name,source\nM\xfcller,x\n")
    with pytest.raises(TableError, match="not UTF-8"):
        read_own(file)
