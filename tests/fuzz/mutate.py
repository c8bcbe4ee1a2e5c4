"""Changes to a parsed description: bytes of TOML rarely get past its parser, trees do."""

from __future__ import annotations

import json
import tomllib
from copy import deepcopy
from random import Random
from typing import Any

from shelfload.describe.examples import example_names, example_text

Tree = Any
Spot = tuple[Any, Any]  # a dict or list, and a key or index in it

NUMBERS = (
    "0", "0.000001", "0.01", "0.5", "1", "1/64", "1 1/2", "12,5", "17.999999", "18", "600",
    "999999.99", "1000000", "1e308", "1e-308", "9**9**9", "-1", "nan", "inf", "1" * 50,
)  # fmt: skip
UNITS = (
    "mm", "cm", "m", "in", "ft", "'", '"', "kg", "t", "lb", "N", "kN", "kg/m", "lb/ft", "psf",
    "kPa", "kg/m3", "MPa", "ksi", "deg", "rad", "N m/rad", "", "furlong", "mm2",
)  # fmt: skip
ODD: tuple[Tree, ...] = (
    None, True, False, 0, 1, -1, 2, 10**30, 1.5, 1e308, -0.0, "", " ", "empty", "none", "glued",
    "screwed", "lying", "through", "between", "screws", "bolts", "glue", "hardboard", "c24",
    "birch-plywood", "steel-s235", "unknown", "no fixing allowed", "\x00", "\x1b[31m", "\u202e",
    "\ue000length\ue0011.0\ue001\ue002", "\ud800", "A" * 200, [], {}, [[[]]], {"": {}},
)  # fmt: skip


def seeds() -> list[str]:
    """Return the bundled examples as JSON, whole and cut down to one unit or shelf each."""
    found = []
    for name in example_names():
        whole = tomllib.loads(example_text(name))
        found.append(whole)
        for key in ("unit", "shelf"):
            for piece in whole.get(key, []):
                rest = {k: v for k, v in whole.items() if k not in ("unit", "shelf")}
                found.append({**rest, key: [piece]})
    return [json.dumps(one) for one in found]


def spots(tree: Tree) -> list[Spot]:
    """Return every place in a tree that can be changed."""
    found: list[Spot] = []
    stack = [tree]
    while stack:
        here = stack.pop()
        keys = here if isinstance(here, dict) else range(len(here))
        for key in keys:
            found.append((here, key))
            if isinstance(here[key], dict | list):
                stack.append(here[key])
    return found


def change(tree: Tree, by: Random, donors: list[Tree]) -> None:
    """Make one change to a tree."""
    places = spots(tree)
    if not places:
        tree.update(deepcopy(by.choice(donors)))
        return
    here, key = by.choice(places)
    old = here[key]
    match by.randrange(9):
        case 0 | 1 if isinstance(old, str):
            number, _, unit = old.rpartition(" ")
            here[key] = (
                f"{by.choice(NUMBERS)} {unit}" if by.random() < 0.5
                else f"{number} {by.choice(UNITS)}"
            )  # fmt: skip
        case 2 if isinstance(old, str) and old[:1].isdigit():
            number, _, unit = old.partition(" ")
            here[key] = f"{_scaled(number, by)} {unit}"
        case 3:
            del here[key]
        case 4 if isinstance(here, list):
            here[key:key] = [deepcopy(old) for _ in range(by.choice((1, 1, 2, 5, 30)))]
        case 5:
            here[key] = deepcopy(by.choice(ODD))
        case 6 if isinstance(here, dict):
            here[by.choice(places)[1] if by.random() < 0.7 else by.choice(("", "x", "\x1b"))] = old
        case 7:
            for _ in range(by.choice((1, 3, 40))):
                here[key] = [here[key]] if by.random() < 0.5 else {"unit": here[key]}
        case _:
            # a part of another description in its place, or under its key anywhere
            other, part = by.choice(spots(by.choice(donors)))
            if isinstance(here, dict) and isinstance(part, str):
                key = part
            here[key] = deepcopy(other[part])


def _scaled(number: str, by: Random) -> str:
    try:
        return f"{float(number) * by.choice((0.001, 0.1, 0.5, 0.9, 1.1, 2, 10, 100)):.6f}"
    except ValueError:
        return number


def mutated(data: bytes, most: int, seed: int) -> bytes:
    """Return JSON of a description changed in a few places."""
    by = Random(seed)  # noqa: S311  a fuzzer wants to be repeatable
    donors = _DONORS or _DONORS.extend(map(json.loads, seeds())) or _DONORS
    try:
        tree = json.loads(data)
    except ValueError:
        tree = None
    if not isinstance(tree, dict) or not tree:
        tree = deepcopy(by.choice(donors))
    for _ in range(by.choice((1, 1, 1, 2, 3, 8))):
        change(tree, by, donors)
    made = json.dumps(tree).encode()
    return made if len(made) <= most else data


_DONORS: list[Tree] = []
