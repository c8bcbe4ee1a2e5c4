"""The schema of a description: complete, true to the reader, and met by every example."""

from __future__ import annotations

import tomllib

import jsonschema
import pytest

from shelfload import units
from shelfload.describe.examples import example_names, example_text
from shelfload.describe.reader import read_raw
from shelfload.describe.schema import description_schema
from shelfload.errors import DescriptionError

SCHEMA = description_schema()
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)


def tables():
    yield "description", SCHEMA
    yield from SCHEMA["$defs"].items()


KEYS = [(table, key, prop) for table, node in tables() for key, prop in node["properties"].items()]


def example(name):
    return tomllib.loads(example_text(name))


def test_it_is_a_schema():
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    assert len(KEYS) > 150


@pytest.mark.parametrize(("table", "key", "prop"), KEYS)
def test_every_key_has_a_description_and_a_quantity_its_unit(table, key, prop):
    assert prop["description"].strip()
    assert "\n" not in prop["description"]
    for text in prop.get("examples", ()):
        # a quantity shows how it is written, unit and all
        assert any(character.isdigit() for character in text) or text.isalpha()
    if isinstance(prop.get("default"), str) and prop["default"].endswith(" mm"):
        assert units.read(prop["default"], "length") >= 0


def test_nothing_internal_is_left():
    def walk(node):
        if isinstance(node, dict):
            assert not any(key.startswith("x-") for key in node)
            assert node.get("type") != "null"
            for inner in node.values():
                walk(inner)
        elif isinstance(node, list):
            for inner in node:
                walk(inner)

    walk(SCHEMA)


LENGTHS = [
    prop
    for _, _, prop in KEYS
    if any("length with its unit" in str(prop.get(name)) for name in ("description",))
]


@pytest.mark.parametrize("prop", LENGTHS[:5])
def test_examples_of_lengths_can_be_read(prop):
    for text in prop["examples"]:
        assert units.read(text, "length") > 0


def test_examples_of_stiffness_and_loads_can_be_read():
    own = SCHEMA["$defs"]["OwnMaterial"]["properties"]
    for text in own["E"]["examples"]:
        assert units.read(text, "stress") > 0
    for text in SCHEMA["$defs"]["Fill"]["properties"]["load"]["examples"]:
        assert units.read_load(text).value > 0


@pytest.mark.parametrize("name", example_names())
def test_every_example_meets_it_and_names_it(name):
    assert list(VALIDATOR.iter_errors(example(name))) == []
    assert example_text(name).startswith("#:schema ./shelfload.schema.json\n")


SHORT = [
    ("contents", '"books"'),
    ("contents", '["books", "empty", { load = "20 kg" }]'),
    ("contents", '{ what = "lever-arch-file-each", count = 12 }'),
]


@pytest.mark.parametrize(("key", "value"), SHORT)
def test_short_ways_of_writing_meet_it_and_are_read(key, value):
    text = (
        '[site]\nservice_class = "humid"\n[[unit]]\nname = "a"\ndepth = "300 mm"\n'
        'panel = { material = "birch ply", thickness = "18 mm" }\n'
        'joins = { shelves = "4 x 35 mm", stack = "glue" }\n'
        'hangs = { heights = "500 mm" }\nunderside = "1 m"\n'
        '[[unit.level]]\nheight = "400 mm"\nbays = ["300 mm", "300 mm", "300 mm"]\n'
        f"{key} = {value}\n"
    )
    raw = tomllib.loads(text)
    assert [error.message for error in VALIDATOR.iter_errors(raw)] == []
    assert read_raw(raw).project.unit


@pytest.mark.parametrize(
    "change",
    [
        {"depht": "300 mm"},
        {"depth": 300},
        {"base": "legs"},
        {"comes_apart": True},
        {"level": []},
        {"back": {"material": "mdf", "thickness": "6 mm", "fixed": "taped"}},
    ],
)
def test_what_the_reader_refuses_by_its_form_the_schema_refuses_too(change):
    raw = example("paper-cupboards")
    raw["unit"][0].update(change)
    assert list(VALIDATOR.iter_errors(raw))
    with pytest.raises(DescriptionError):
        read_raw(raw)


def test_names_of_tables_are_offered_and_own_ones_allowed():
    wall = SCHEMA["$defs"]["Site"]["properties"]["wall"]
    assert {"timber stud", "unknown", "no fixing allowed"} <= set(wall["enum"])
    material = SCHEMA["$defs"]["Panel"]["properties"]["material"]
    offered, own = material["anyOf"]
    assert "birch-plywood" in offered["enum"]
    assert own == {"type": "string"}
