"""Bundled descriptions to start from: the paper store of a print studio."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from importlib.resources import files

from shelfload.errors import UnknownName

_FIRST = "paper-cupboards"


def example_names() -> Mapping[str, str]:
    """Return the title of each example by its name, the one to start with first."""
    found = {
        entry.name.removesuffix(".toml"): str(tomllib.loads(entry.read_text("utf-8"))["title"])
        for entry in (files("shelfload.describe") / "examples").iterdir()
        if entry.name.endswith(".toml")
    }
    return dict(sorted(found.items(), key=lambda pair: (pair[0] != _FIRST, pair[0])))


def example_text(name: str | None = None) -> str:
    """Return a bundled description as TOML text.

    Raises
    ------
    UnknownName
        If there is no example of that name.
    """
    known = example_names()
    chosen = name or _FIRST
    if chosen not in known:
        raise UnknownName("example", chosen, known)
    path = files("shelfload.describe") / "examples" / f"{chosen}.toml"
    return path.read_text("utf-8")
