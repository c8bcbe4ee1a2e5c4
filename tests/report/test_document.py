"""The report: its order, its words, and the same content in every format."""

from __future__ import annotations

import io
import json

import pytest

import shelfload
from shelfload.check.result import Verdict
from shelfload.describe.examples import example_names, example_text
from shelfload.report import data, terminal, text
from shelfload.report.document import Document, Section, Table, document
from shelfload.wording import figure, spelled


@pytest.fixture(scope="module", params=list(example_names()))
def outcome(request):
    return shelfload.check_text(example_text(request.param))


def test_what_to_do_comes_first_and_cautions_last(outcome):
    page = document(outcome, "metric")
    assert page.blocks[0].title == "What to do"
    assert page.blocks[-1].title == "Cautions"
    assert all(block.items for block in page.blocks if isinstance(block, Section))


def test_every_unit_has_a_table_and_every_row_as_many_cells_as_its_header(outcome):
    page = document(outcome, "metric", full=True)
    titles = [block.title for block in page.blocks]
    for check in outcome.findings.checks:
        assert any(title.startswith(check.place.unit) for title in titles)
    for block in page.blocks:
        if isinstance(block, Table):
            assert all(len(row) == len(block.header) for row in block.rows)


def test_full_report_lists_every_check(outcome):
    page = document(outcome, "metric", full=True)
    listed = sum(
        len(block.rows)
        for block in page.blocks
        if isinstance(block, Table) and block.title.endswith("every check")
    )
    assert listed == len(outcome.findings.checks)


@pytest.mark.parametrize("system", ["metric", "inch"])
def test_no_mark_is_left_unspelled_in_any_format(outcome, system):
    page = document(outcome, system, full=True)
    stream = io.StringIO()
    terminal.write(page, stream)
    for shown in (
        stream.getvalue(),
        text.plain(page),
        text.markdown(page),
        data.render(outcome, system),
    ):
        assert not any("\ue000" <= character <= "\ue002" for character in shown)


def test_json_has_every_key_that_is_documented(outcome):
    found = json.loads(data.render(outcome, "metric"))
    assert found["schema_version"] == 1
    assert found["verdict"] == outcome.verdict.value
    assert len(found["checks"]) == len(outcome.findings.checks)
    for check, shown in zip(outcome.findings.checks, found["checks"], strict=True):
        assert shown["verdict"] == check.verdict.value
        if check.value is not None and check.measure == "length":
            assert shown["value"] == pytest.approx(check.value, rel=1e-5)


def test_markdown_takes_hostile_text_as_text():
    page = Document(
        title="a | b <script>",
        verdict=Verdict.PASSES,
        summary="1 check",
        blocks=(Table(title="t", header=("h",), rows=(("x | y `z` <b>",),)),),
    )
    shown = text.markdown(page)
    assert "<script>" not in shown
    assert "x \\| y" in shown


def test_figures_in_sentences_are_spelled_in_the_readers_units():
    sentence = f"sag {figure(25.4, 'length')}, load {figure(98.0665, 'force', as_mass=True)}"
    # 25.4 mm = 1 in by definition; 98.0665 N is the weight of 10 kg (standard gravity)
    assert spelled(sentence, "metric") == "sag 25.4 mm, load 10 kg"
    assert spelled(sentence, "inch") == "sag 1 in, load 22 lb"
    assert spelled(f"{figure(1.234, 'ratio')} of {figure(3, 'count')}", "metric") == "1.23 of 3"
