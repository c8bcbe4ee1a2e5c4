"""Names across the tables: none twice however it is typed, and each that is used exists."""

from __future__ import annotations

import ast
import re
from collections import Counter, defaultdict
from collections.abc import Iterator
from pathlib import Path

import pytest
from table_rows import FOLDER, ROWS, Row

import shelfload
from shelfload import tables
from shelfload.tables import fixings, stock

PACKAGE = Path(shelfload.__file__).parent
GROUPS = ("materials", "contents", "figures")
BY_ROW = pytest.mark.parametrize("row", ROWS, ids=str)


def of(*files: str) -> list[Row]:
    return [row for row in ROWS if row.table.partition(".")[0].startswith(files)]


def bare(name: str) -> str:
    """Return a name as nobody could tell two apart: no case, blank, hyphen or stroke."""
    return re.sub(r"[\s_./-]+", "", name).casefold()


def parts(row: Row, column: str) -> list[str]:
    cell = row.cells.get(column, "")
    return [part.strip() for part in cell.split(";")] if cell else []


def room(row: Row) -> str:
    """Tables whose rows are looked up together."""
    first = row.table.partition(".")[0].partition("_")[0]
    return first if first in GROUPS else row.table


FAMILIES = {row.cells["family"] for row in ROWS if row.cells.get("family")}
MEANT: dict[str, dict[str, set[str]]] = defaultdict(lambda: defaultdict(set))
TITLES: dict[str, Counter[str]] = defaultdict(Counter)
for _row in ROWS:
    MEANT[room(_row)][bare(_row.key)].add(_row.key)
    for _alias in parts(_row, "aliases"):
        MEANT[room(_row)][bare(_alias)].add(_row.cells.get("family") or _row.key)
    TITLES[room(_row)][bare(_row.cells.get("title", _row.key))] += 1
for _family in FAMILIES:
    MEANT["materials"][bare(_family)].add(_family)


@BY_ROW
def test_name_and_aliases_mean_one_thing_however_they_are_typed(row: Row) -> None:
    for name in (row.key, *parts(row, "aliases")):
        assert len(MEANT[room(row)][bare(name)]) == 1, MEANT[room(row)][bare(name)]
    keys = [bare(other.key) for other in ROWS if room(other) == room(row)]
    assert keys.count(bare(row.key)) == 1
    assert TITLES[room(row)][bare(row.cells.get("title", row.key))] == 1


def test_families_have_several_rows_and_no_row_of_that_name() -> None:
    names = {bare(row.key) for row in of("materials")}
    for family in FAMILIES:
        assert sum(row.cells.get("family") == family for row in of("materials")) > 1
        assert bare(family) not in names


NAMES = {room(row): set() for row in ROWS} | {
    file.stem: {row.cells["name"] for row in of(file.stem)} for file in FOLDER.glob("*.csv")
}


@pytest.mark.parametrize("row", of("materials"), ids=str)
def test_classes_of_a_material_exist(row: Row) -> None:
    assert row.cells["duration_class"] in NAMES["kdef"]
    assert row.cells["duration_class"] in NAMES["kmod"]
    assert row.cells["gamma_M_class"] in NAMES["gamma_M"]
    assert row.cells["kind"] in stock.KINDS
    assert row.cells["E_basis"] in stock.E_BASES
    assert row.cells["strength_basis"] in stock.STRENGTH_BASES
    if row.cells.get("family"):
        assert row.key.startswith(row.cells["family"])


def test_classes_of_a_users_own_material_exist() -> None:
    assert set(stock._BY_KIND) == set(stock.KINDS)
    for duration_class, gamma_M_class in stock._BY_KIND.values():
        assert duration_class in NAMES["kdef"] & NAMES["kmod"]
        assert gamma_M_class in NAMES["gamma_M"]


# Rows of a class that no material uses: kept for comparison, or for a user's own row.
UNUSED = {
    "kdef": {"trade figure"},
    "kmod": {"gypsum plasterboard"},
    "gamma_M": {"LVL", "connections", "punched metal plate fasteners"},
}
OPEN_TO_OWN_ROWS = {
    "LVL", "MDF.HLS", "hardboard HB.HLA", "medium board MBH.LA", "medium board MBH.HLS",
    "particleboard P6", "particleboard P7",
}  # fmt: skip


@pytest.mark.parametrize("table", UNUSED)
def test_class_is_used_or_known_to_be_spare(table: str) -> None:
    column = "gamma_M_class" if table == "gamma_M" else "duration_class"
    used = {row.cells[column] for row in of("materials")}
    spare = UNUSED[table] | (OPEN_TO_OWN_ROWS if table != "gamma_M" else set())
    assert NAMES[table] - used == spare


@pytest.mark.parametrize("table", ["kdef", "kmod"])
def test_creep_and_duration_name_the_same_classes(table: str) -> None:
    other = "kmod" if table == "kdef" else "kdef"
    assert NAMES[table] - UNUSED[table] == NAMES[other] - UNUSED[other]


@pytest.mark.parametrize("row", of("fasteners"), ids=str)
def test_kind_of_a_fastener_exists(row: Row) -> None:
    assert row.cells["kind"] in fixings.FASTENER_KINDS
    assert row.cells["head_shape"] in {"countersunk", "pan", "hexagon", "flat"}


@pytest.mark.parametrize("row", of("contents"), ids=str)
def test_duration_of_contents_exists(row: Row) -> None:
    assert row.cells["duration"] in tables.DURATIONS


@BY_ROW
def test_row_that_another_was_derived_from_exists(row: Row) -> None:
    named = re.findall(r"derived from ([a-z0-9]+(?:-[a-z0-9]+)+)", row.cells["source"])
    named += re.findall(r"^as ([a-z0-9]+(?:-[a-z0-9]+)+)$", row.cells["note"])
    for name in named:
        assert name != row.key
        assert name in {other.key for other in of(room(row))}


LOOKED_UP = {
    "figures": tables.figures,
    "fasteners": tables.fasteners,
    "substrates": tables.substrates,
    "limits": tables.limits,
    "contents": tables.contents,
    "studs": tables.studs,
    "lumber": tables.lumber,
    "materials": tables.materials,
}


def names_in_code() -> Iterator[tuple[str, str, str]]:
    """Place, table and name of each ``tables.figures()["..."]`` and ``gamma_M("...")``."""
    for path in sorted(PACKAGE.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            match node:
                case ast.Subscript(
                    value=ast.Call(func=ast.Attribute(attr=table) | ast.Name(id=table), args=[]),
                    slice=ast.Constant(value=str(name)),
                ) if table in LOOKED_UP:
                    yield path.name, table, name
                case ast.Call(
                    func=ast.Attribute(attr="gamma_M" | "kdef" | "kmod" as table),
                    args=[ast.Constant(value=str(name)), *_],
                ):
                    yield path.name, table, name


IN_CODE = sorted(set(names_in_code()))


def test_names_in_the_code_are_found() -> None:
    assert len(IN_CODE) >= 8


@pytest.mark.parametrize(("place", "table", "name"), IN_CODE)
def test_name_in_the_code_is_a_row(place: str, table: str, name: str) -> None:
    if table in LOOKED_UP:
        assert name in LOOKED_UP[table]()
    else:
        assert name in NAMES[table]


def test_number_of_a_screw_stands_in_its_name_once() -> None:
    # sizes and names are typed in turn: "5", "5 mm" and "no 5" must not be one row
    shown = [(row.cells["kind"], row.cells["diameter"]) for row in of("fasteners")]
    assert len(set(shown)) == len(shown)
