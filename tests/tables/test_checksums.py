"""No value changes unseen: every row and cell has a checksum that was written on purpose."""

from __future__ import annotations

from dataclasses import replace

import pytest
import table_sums
from table_rows import ROWS, Row
from table_sums import differences, places, present, written

NOW, WAS = present(), written()
HOW = "look at the row and its source again, then: python tests/table_sums.py --looked-at {}"


@pytest.mark.parametrize(
    ("table", "key"), places(NOW, WAS), ids=[f"{table}:{key}" for table, key in places(NOW, WAS)]
)
def test_row_is_as_it_was_when_somebody_looked(table: str, key: str) -> None:
    changed = differences(table, key, WAS, NOW)
    assert not changed, f"{table}, {key}: {'; '.join(changed)} changed; " + HOW.format(
        f"'{table}:{key}'"
    )


def test_no_two_rows_of_a_table_share_a_key() -> None:
    assert len({(row.table, row.key) for row in ROWS}) == len(ROWS)


def changed(row: Row, column: str, value: str) -> list[str]:
    other = replace(row, cells={**row.cells, column: value})
    return differences(row.table, row.key, WAS, present([other]))


@pytest.mark.parametrize("row", ROWS[:: len(ROWS) // 40], ids=str)
def test_change_of_any_cell_is_told_by_its_column(row: Row) -> None:
    for column, value in row.cells.items():
        if column in ("name", "service_class"):
            continue  # another key: the row is gone and a new one there, tested below
        told = changed(row, column, value + "1")
        assert [name.partition(" [")[0] for name in told] == [column]


def test_swapped_cells_and_other_units_are_told() -> None:
    row = next(row for row in ROWS if row.key == "c24")
    swapped = {**row.cells, "f_t_0": row.cells["f_c_0"], "f_c_0": row.cells["f_t_0"]}
    other = present([replace(row, cells=swapped)])
    assert differences(row.table, "c24", WAS, other) == ["f_t_0 [MPa]", "f_c_0 [MPa]"]
    units = present([replace(row, units={**row.units, "E_0": "GPa"})])
    assert differences(row.table, "c24", WAS, units) == ["E_0 [MPa]", "E_0 [GPa]"]


def test_new_and_missing_rows_are_told() -> None:
    assert differences("kdef.csv", "plywood", {}, NOW) == ["the row is new"]
    assert differences("kdef.csv", "plywood", WAS, {}) == ["the row is gone"]


def test_command_writes_only_what_was_looked_at(tmp_path, monkeypatch, capsys) -> None:
    file = tmp_path / "sums.toml"
    spoilt = present()
    for key in ("plywood", "LVL"):
        spoilt["kdef.csv"][key] = {**spoilt["kdef.csv"][key], "": "0" * 16, "status": "0000"}
    file.write_text(table_sums.text(spoilt), encoding="utf-8")
    monkeypatch.setattr(table_sums, "FILE", file)
    monkeypatch.setattr(table_sums, "written", lambda: written(file))
    assert table_sums.main([]) == 1
    assert "kdef.csv:plywood\n  status: now 'published'\n" in capsys.readouterr().out
    assert table_sums.main(["--looked-at", "kdef.csv:plywood"]) == 1
    assert written(file)["kdef.csv"]["plywood"] == NOW["kdef.csv"]["plywood"]
    assert written(file)["kdef.csv"]["LVL"]["status"] == "0000"
    assert table_sums.main(["--looked-at", "kdef.csv"]) == 0
    assert written(file) == NOW
    assert table_sums.main(["--looked-at", "kdef.csv:nothing"]) == 2
