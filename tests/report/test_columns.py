"""Tables that fit: no word is broken, and nothing is lost, at any width."""

from __future__ import annotations

import re
from io import StringIO

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shelfload.check.result import Verdict
from shelfload.report import lookup, terminal
from shelfload.report.columns import column_widths, wrapped
from shelfload.report.document import Document, Table
from shelfload.report.text import fitted

WORDS = st.from_regex(r"[a-z]{1,14}(-[a-z]{1,9})?", fullmatch=True)
CELLS = st.lists(WORDS, max_size=6).map(" ".join)


def parts(text: str) -> list[str]:
    """Words, and what a hyphen may be followed by on the next line."""
    return re.split(r"\s+|(?<=-)", text)


@st.composite
def tables(draw: st.DrawFn) -> tuple[tuple[str, ...], tuple[tuple[str, ...], ...]]:
    count = draw(st.integers(1, 8))
    row = st.tuples(*[CELLS] * count)
    header = draw(st.tuples(*[WORDS] * count))
    return header, tuple(draw(st.lists(row, min_size=1, max_size=5)))


@settings(max_examples=25, deadline=None)
@given(tables())
def test_a_plain_table_of_80_columns_breaks_no_word_and_loses_none(table):
    header, rows = table
    text = fitted(header, rows)
    assert max(map(len, text.splitlines())) <= 78
    seen = re.split(r"[\s;]+|(?<=-)", text)
    for cell in (cell for row in rows for cell in row):
        assert set(parts(cell)) - {""} <= set(seen)


@pytest.mark.parametrize("width", [40, 60, 80, 200])
@settings(max_examples=25, deadline=None)
@given(tables())
def test_a_terminal_of_any_width_breaks_no_word_and_loses_none(width, table):
    header, rows = table
    page = Document(
        title="t", verdict=None, summary="s", blocks=(Table(title="t", header=header, rows=rows),)
    )
    stream = StringIO()
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("COLUMNS", str(width))
        terminal.write(page, stream)
    text = stream.getvalue()
    assert max(map(len, text.splitlines())) <= width
    seen = re.split(r"[\s;]+|(?<=-)", text)
    for cell in (cell for row in rows for cell in row):
        assert set(parts(cell)) - {""} <= set(seen)


@pytest.mark.parametrize("columns", ["60", "80"])
def test_a_verdict_stays_beside_its_row_where_the_row_has_no_columns(columns, monkeypatch):
    monkeypatch.setenv("COLUMNS", columns)
    header = ("option", "sag", "verdict")
    long = "unbreakable" * 4
    rows = (("as described", long, "FAILS"), ("another", long[:-1], "passes"))
    blocks = (Table(title="t", header=header, rows=rows, verdict_column=2),)
    page = Document(title="t", verdict=Verdict.FAILS, summary="s", blocks=blocks)
    stream = StringIO()
    terminal.write(page, stream)
    told = " ".join(stream.getvalue().split())
    if columns == "60":
        assert f"as described sag {long}; verdict FAILS another" in told
    else:
        assert f"as described {long} FAILS another" in told


@pytest.mark.parametrize("system", ["metric", "inch"])
@pytest.mark.parametrize("show", [lookup.materials, lookup.contents])
def test_looked_up_rows_fit_80_columns_with_every_word_whole(show, system):
    stream = StringIO()
    assert show("", system, stream)
    table, _, below = stream.getvalue().partition("\n\n")
    lines = table.splitlines()
    assert max(map(len, [*lines, *below.splitlines()])) <= 80
    # every source that is referred to stands below
    told = {line.split(".")[0] for line in below.splitlines() if line[:1].isdigit()}
    in_columns = lines[1].startswith("---") or lines[2].startswith("---")
    asked = set(re.findall(r"\d+$" if in_columns else r"(?<=source)\s+\d+", table, re.M))
    asked = {number.strip() for number in asked}
    assert asked
    assert told <= asked


def test_words_narrower_than_their_column_are_not_parted_at_hyphens():
    assert wrapped("a birch-plywood panel", 13) == "a\nbirch-plywood\npanel"
    assert wrapped("birch-plywood", 8) == "birch-\nplywood"
    assert wrapped("particleboard-p2 x", 14) == "particleboard-\np2 x"
    assert wrapped("-", 3) == "-"
    assert wrapped("", 3) == ""


def test_the_widest_column_gives_way_first_and_kept_ones_never():
    rows = [("a b c d e f", "one two three four")]
    assert column_widths(("x", "y"), rows, 23) == [11, 12]
    assert column_widths(("x", "y"), rows, 17, kept=1) == [11, 6]
    assert column_widths(("x", "y"), [("a-name-kept", "word")], 14, kept=1) is None
