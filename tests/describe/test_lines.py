"""Line numbers of TOML keys, against tomllib's own reading of the same text."""

from __future__ import annotations

import tomllib

import pytest

from shelfload.describe.examples import example_names, example_text
from shelfload.describe.lines import line_index, line_of


def scalar_paths(value, path=()):
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from scalar_paths(inner, (*path, key))
    elif isinstance(value, list):
        for number, inner in enumerate(value):
            yield from scalar_paths(inner, (*path, number))
    else:
        yield path


@pytest.mark.parametrize("name", example_names())
def test_every_key_of_every_example_is_found_on_a_line_that_holds_it(name):
    text = example_text(name)
    index, lines = line_index(text), text.splitlines()
    for path in scalar_paths(tomllib.loads(text)):
        number = line_of(index, path)
        assert number is not None, path
        keys = [step for step in path if isinstance(step, str)]
        assert any(key in lines[number - 1] for key in keys[-3:]), (path, lines[number - 1])


def test_dotted_and_quoted_keys_and_headers():
    text = '[a."b c"]\nd.e = 1\n"f" = 2\n[[x.y]]\nz = 3\n[[x.y]]\nz = 4\n[x.y.w]\nq = 5\n'
    index = line_index(text)
    assert line_of(index, ("a", "b c", "d", "e")) == 2
    assert line_of(index, ("a", "b c", "f")) == 3
    assert line_of(index, ("x", "y", 0, "z")) == 5
    assert line_of(index, ("x", "y", 1, "z")) == 7
    assert line_of(index, ("x", "y", 1, "w", "q")) == 9
    assert line_of(index, ("nowhere",)) is None
