"""Arbitrary text and arbitrary furniture: a refusal with its place, or a whole finite report.

More examples: HOSTILE_EXAMPLES=2000 pytest tests/fuzz/test_properties.py
"""

from __future__ import annotations

import json
import os
import tomllib

import pytest
from fuzz import oracle
from fuzz.furniture import descriptions
from fuzz.mutate import NUMBERS, UNITS, mutated, seeds
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from shelfload.describe.examples import example_names, example_text

MANY = int(os.environ.get("HOSTILE_EXAMPLES", "0"))


def examples(count):
    return settings(
        max_examples=MANY or count,
        deadline=None,
        derandomize=not MANY,
        suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
    )


anything = st.text(max_size=70)
typed = st.builds(
    lambda *parts: "".join(parts),
    st.sampled_from((*NUMBERS, "5 ft", "6'", "½", "No. ", "M", "@")) | anything,
    st.sampled_from(("", " ", "x", ",", ";", "/", "\u2212", "\u00a0")),
    st.sampled_from((*UNITS, "kg per m", "sq ft", "o.c.")) | anything,
)


@examples(300)
@given(typed | anything)
def test_any_text_is_a_quantity_or_is_refused(text):
    oracle.quantity(text)


toml_lines = st.lists(
    st.sampled_from(
        sorted({line for name in example_names() for line in example_text(name).splitlines()})
    )
    | anything,
    max_size=30,
).map("\n".join)


@examples(60)
@given(toml_lines | anything)
def test_any_text_is_a_description_or_is_refused(text):
    oracle.toml(text)


cells = st.sampled_from(
    ("length", "width [mm]", "t", "qty", "name", "E_0 [MPa]", "density [kg/m3]", "typical [kg/m]",
     "thickness [mm]", "source", "600 mm", "18", "1e999", "0", "-1", '"', "")
) | anything  # fmt: skip
rows = st.lists(cells, max_size=6).map(",".join)
tables = st.lists(rows, max_size=6).map("\n".join)


@pytest.mark.parametrize("reader", ["supplier", "materials", "contents"])
def test_any_text_is_a_table_or_is_refused(reader):
    @examples(60)
    @given(tables | anything)
    def tried(text):
        oracle.READERS[reader](text)

    tried()


@examples(10)
@given(descriptions(3 if MANY else 0))
def test_any_furniture_is_refused_or_reported_whole(raw):
    oracle.check_raw(raw)


SMALLEST = sorted(seeds(), key=len)[:3]


@examples(5)
@given(st.sampled_from(SMALLEST), st.integers(0, 2**32))
def test_changed_example_is_refused_or_reported_whole(seed, number):
    oracle.check_raw(json.loads(mutated(seed.encode(), 20_000, number)))


def test_examples_themselves_are_accepted():
    # else the properties above would hold of readers that refuse everything
    assert oracle.quantity("12,5 mm")
    assert oracle.supplier("length,width\n600 mm,300 mm\n")
    assert all(oracle.toml(example_text(name)) for name in example_names())
    assert oracle.check_raw(tomllib.loads(example_text("print-display")))
