"""The JSON Schema of a description, for an editor that completes and checks it.

What pydantic derives from the models says what a description is once it is read. A person
writes shorter: one name for a table, one entry for a list. These ways of writing are added
here, and names that tables hold are listed.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from shelfload import tables
from shelfload.describe.joins import WAYS
from shelfload.describe.model import Project
from shelfload.describe.site import CLIMATES, NO_FIXING

FILE_NAME = "shelfload.schema.json"
Node = dict[str, Any]
_JOIN = "#/$defs/Join"
_FILL = {"$ref": "#/$defs/Fill"}
_NAMES: dict[str, Callable[[], list[str]]] = {
    "materials": lambda: sorted({*tables.families(), *tables.materials()}),
    "contents": lambda: sorted(tables.contents()),
    "limits": lambda: sorted(tables.limits()),
    "fasteners": lambda: sorted(tables.fasteners()),
    "walls": lambda: [*sorted(tables.substrates()), NO_FIXING],
}
_OPEN = ("materials", "contents")
"""Tables that a description may add rows of its own to."""


def description_schema() -> Node:
    """Return the JSON Schema (draft 2020-12) of a description file."""
    derived = Project.model_json_schema()
    definitions: Node = derived.pop("$defs")
    definitions.pop("Screw")  # written as text
    for name, definition in definitions.items():
        _tidied(definition)
        for key, prop in definition["properties"].items():
            definition["properties"][key] = _as_written(name, key, prop)
    _tidied(derived)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **derived,
        "title": "shelfload description",
        "description": "Furniture and shelves to be checked; lengths and loads are text with "
        'their unit, such as "900 mm", "3/4 in" or "30 kg/m".',
        "$defs": definitions,
    }


def _tidied(definition: Node) -> None:
    """Make the properties of one table what TOML can hold: it knows no null."""
    definition.pop("title", None)
    text = definition.get("description", "")
    definition["description"] = " ".join(text.replace("``", "").split())
    for key, prop in definition["properties"].items():
        definition["properties"][key] = _plain(prop, of_key=True)


def _plain(node: Node, *, of_key: bool = False) -> Node:
    node = dict(node)
    if of_key:
        node.pop("title", None)
    choices = [_plain(one) for one in node.pop("anyOf", ()) if one != {"type": "null"}]
    if len(choices) == 1:
        inner = choices[0]
        described = [text for text in (node.get("description"), inner.get("description")) if text]
        node = {**inner, **node}
        if described:
            node["description"] = " - ".join(dict.fromkeys(described))
    elif choices:
        node["anyOf"] = choices
    for part in ("items", "additionalProperties"):
        if isinstance(node.get(part), dict):
            node[part] = _plain(node[part])
    measure = node.pop("x-measure", None)
    if measure is not None and measure not in node.get("description", ""):
        node["description"] = f"{node['description']} - {measure}"
    if node.get("default") in (None, [], {}) or isinstance(node.get("default"), dict):
        node.pop("default", None)
    elif measure is not None and isinstance(node["default"], float):
        node["default"] = f"{node['default']:g} mm"  # only lengths have such a default
    if node.get("type") == "array" and "maxLength" in node:
        node["maxItems"] = node.pop("maxLength")
    return _named(node)


def _named(node: Node) -> Node:
    table = node.pop("x-names", None)
    if table is None:
        return node
    known = _NAMES[table]()
    if table not in _OPEN:
        return {**node, "enum": known}
    node.pop("type")
    return {**node, "anyOf": [{"enum": known}, {"type": "string"}]}


def _as_written(table: str, key: str, prop: Node) -> Node:
    """Let a key be written in the short ways that the reader takes."""
    if prop.get("$ref") == _JOIN:
        either = {"enum": list(WAYS)}, {"type": "string", "examples": ["4 x 35 mm"]}
        return {"description": prop["description"], "anyOf": [{"$ref": _JOIN}, *either]}
    if key in ("contents", "top_contents"):
        entry = {"anyOf": [{**_FILL}, *_named({"type": "string", "x-names": "contents"})["anyOf"]]}
        many = {"type": "array", "items": entry}
        return {"description": prop["description"], "anyOf": [*entry["anyOf"], many]}
    if (table, key) == ("Site", "service_class"):
        prop = {name: value for name, value in prop.items() if name != "type"}
        return {**prop, "enum": [*CLIMATES, *CLIMATES.values()]}
    if (table, key) == ("Join", "screw"):
        kept = {name: prop[name] for name in ("description", "examples")}
        return {**kept, "type": "string"}
    if (table, key) in (("Hung", "heights"), ("Unit", "on")):
        one = {name: value for name, value in prop["items"].items() if name != "description"}
        many = {name: value for name, value in prop.items() if name != "description"}
        return {"description": prop["description"], "anyOf": [one, many]}
    return prop
