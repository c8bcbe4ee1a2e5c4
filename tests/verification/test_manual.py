"""Each row of the manual, and the manual itself."""

from __future__ import annotations

import csv
import io
from dataclasses import replace

import pytest
from verification import manual
from verification.case import CLOSED_FORM, FROM_MEMORY, KINDS, PUBLISHED, Case

ROWS = list(manual.field_cases())
CASES = [case for _, case in ROWS]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_row(case: Case) -> None:
    found = case.solved()
    assert found.agrees, (found.reference, found.ours, found.tolerance, case.source)


def test_there_are_many_rows_of_every_field_and_kind() -> None:
    assert len(CASES) >= 300
    for field in manual.FIELDS:
        assert sum(name == field for name, _ in ROWS) >= 8, field
    for kind in KINDS:
        assert sum(case.kind == kind for case in CASES) >= 30, kind


def test_no_two_rows_have_the_same_name() -> None:
    names = [case.name for case in CASES]
    assert sorted(names) == sorted(set(names))


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_row_says_where_its_figure_comes_from(case: Case) -> None:
    assert case.kind in KINDS
    assert len(case.source) > 8
    # What was not seen while writing it down says so, and nothing else does.
    assert ("from memory" in case.source) <= (case.kind in (FROM_MEMORY, CLOSED_FORM))
    assert (case.kind == FROM_MEMORY) <= ("from memory" in case.source)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_printed_figure_that_may_differ_by_more_than_half_a_digit_says_why(case: Case) -> None:
    if isinstance(case.reference, str):
        assert bool(case.within) == bool(case.because)
    assert case.within is None or 0 < case.within <= 0.03


def made_up(**changes: object) -> Case:
    row = Case(
        name="a row", reference="2.00", ours=lambda: 2.004, kind=PUBLISHED, source="made up here"
    )
    return replace(row, **changes)


@pytest.mark.parametrize(
    ("changes", "agrees"),
    [
        ({}, True),
        ({"ours": lambda: 2.006}, False),
        ({"ours": lambda: -2.0}, False),
        ({"ours": lambda: float("nan")}, False),
        ({"reference": 2.0}, False),
        ({"reference": 2.0, "within": 0.003}, True),
        ({"within": 0.01, "ours": lambda: 2.02}, True),
        ({"within": 0.01, "ours": lambda: 2.021}, False),
        ({"reference": lambda: 2.004}, True),
    ],
)
def test_tolerance(changes: dict[str, object], agrees: bool) -> None:
    assert made_up(**changes).solved().agrees is agrees


@pytest.mark.parametrize("case", CASES[::10], ids=lambda case: case.name)
def test_wrong_figure_fails(case: Case) -> None:
    found = case.solved()
    wrong = found.reference * 1.04 + 3 * found.tolerance
    assert not replace(case, ours=lambda: wrong).solved().agrees


def test_error_names_its_row() -> None:
    def breaks() -> float:
        raise ArithmeticError("no")

    with pytest.raises(ArithmeticError) as error:
        made_up(ours=breaks).solved()
    assert error.value.__notes__ == ["in the case: a row"]


@pytest.fixture
def short(monkeypatch: pytest.MonkeyPatch) -> None:
    """A manual of two rows, one of them wrong."""
    fields = {
        "good": lambda: iter([made_up()]),
        "bad": lambda: iter([made_up(name="a wrong row", reference="3.00")]),
    }
    monkeypatch.setattr(manual, "FIELDS", fields)


@pytest.mark.usefixtures("short")
@pytest.mark.parametrize("form", manual.FORMATS)
def test_status_says_whether_a_row_differs(form: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert manual.main(["--format", form, "--field", "good"]) == 0
    assert "made up" in capsys.readouterr().out
    assert manual.main(["--format", form]) == 1
    out, err = capsys.readouterr()
    assert "DIFFERS" in out
    assert err == "differs by more than its tolerance: a wrong row\n"


@pytest.mark.usefixtures("short")
def test_file_holds_what_would_be_printed(tmp_path, capsys: pytest.CaptureFixture[str]) -> None:
    place = tmp_path / "manual.md"
    manual.main(["--format", "markdown", "--out", str(place), "--field", "good"])
    assert capsys.readouterr().out == ""
    manual.main(["--format", "markdown", "--field", "good"])
    assert place.read_text(encoding="utf-8") == capsys.readouterr().out


@pytest.mark.usefixtures("short")
def test_csv_is_one_table_and_summary_counts_kinds(capsys: pytest.CaptureFixture[str]) -> None:
    manual.main(["--format", "csv"])
    rows = list(csv.DictReader(io.StringIO(capsys.readouterr().out)))
    assert [row["field"] for row in rows] == ["good", "bad"]
    assert rows[0]["difference"] == "4.0e-03"
    assert rows[0]["tolerance"] == "5.0e-03"
    outcomes = [(field, case.solved()) for field, case in manual.field_cases()]
    everything = dict(zip(manual.SUMMARY, manual.summary(outcomes)[-1], strict=True))
    assert everything["rows"] == "2"
    assert everything[PUBLISHED] == "2"
    assert everything[FROM_MEMORY] == "0"
    assert everything["largest difference"] == "33.20% (a wrong row)"
    assert everything["failing"] == "1"


@pytest.mark.usefixtures("short")
@pytest.mark.parametrize("width", [120, 160, 220])
def test_terminal_keeps_to_its_width(width: int) -> None:
    outcomes = [(field, case.solved()) for field, case in manual.field_cases()]
    assert max(map(len, manual.as_terminal(outcomes, width).splitlines())) <= width
