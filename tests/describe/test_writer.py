"""What is read can be written and read again."""

from __future__ import annotations

import pytest

from shelfload.describe.examples import example_names, example_text
from shelfload.describe.reader import read_raw, read_text
from shelfload.describe.writer import as_mapping


@pytest.mark.parametrize("name", example_names())
def test_every_example_comes_back_the_same(name):
    project = read_text(example_text(name)).project
    assert read_raw(as_mapping(project)).project == project


def test_small_and_odd_figures_come_back_the_same():
    text = """
[contents.dust]
load = "0.3 kg/m3"
source = "weighed"
[[shelf]]
name = "shelf"
depth = "11 23/32 in"
spans = ["2' 7 1/16\\""]
shelf = { material = "mdf", thickness = "3/4 in" }
contents = [{ what = "dust", load = "1/3 psf", points = [{ load = "1 lb", at = "0 mm" }] }]
[[shelf]]
name = "empty one"
depth = "300 mm"
spans = ["1 m", "1 m"]
shelf = { material = "mdf", thickness = "19 mm" }
contents = ["empty", { load = "0.01 N" }]
"""
    project = read_text(text).project
    assert read_raw(as_mapping(project)).project == project
