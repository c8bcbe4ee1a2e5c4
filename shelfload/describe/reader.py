"""Reading a description: TOML text in, a Project and its Catalogue out, or every mistake."""

from __future__ import annotations

import tomllib
from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from shelfload import tables
from shelfload.describe.catalogue import Catalogue
from shelfload.describe.lines import line_index, line_of
from shelfload.describe.model import OwnContents, OwnMaterial, Project
from shelfload.describe.neighbours import neighbour_mistakes
from shelfload.describe.own import contents_row, material_row
from shelfload.describe.standing import OwnFixing
from shelfload.errors import (
    DescriptionError,
    Mistake,
    QuantityError,
    TableError,
    UnknownName,
    nearest_name,
)

MAX_BYTES = 2_000_000
_TRIED = {
    "width": "the outer width is the bays plus the uprights: give each level its bays",
    **dict.fromkeys(
        ("inset", "let_in", "rebate", "rebated", "rabbet", "rabbeted", "groove"),
        "backs lie over the rear edges of everything. There is no key for one let into a rebate "
        "(rabbet) or a groove: its fasteners sit nearer to its edge than any rule allows for, so "
        "leave such a back out of the description, order it yourself, and count on none of its "
        "hold",
    ),
}
"""Keys that people look for, and what to write instead."""
_LISTED = 15
"""Names that are listed whole when one is not known."""
_LONGEST_SAID = 300  # pydantic repeats some wrong values whole
_LISTED_BY = {
    "material": "materials",
    "contents entry": "contents",
    "fastener": "fasteners",
    "screw": "fasteners",
}
"""The command that lists them where they are more."""
_KEYS = "a key of this table"
_FOLLOW_UPS = ("too_short", "literal_error", "too_long")
"""Faults that pydantic adds when something deeper in the same place is wrong already."""
Model = TypeVar("Model", bound=BaseModel)
Row = TypeVar("Row", tables.Material, tables.Contents)
KeyPath = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Description:
    """A description that can be used: the project and what its names stand for."""

    project: Project
    catalogue: Catalogue
    origin: str = ""


def read_text(text: str, origin: str = "", folder: Path | None = None) -> Description:
    """Read a TOML description.

    Parameters
    ----------
    text : str
        The file's content.
    origin : str
        Name shown in messages.
    folder : Path, optional
        Where files named in the description are looked for; the current folder if None.

    Raises
    ------
    DescriptionError
        With every mistake found, each with its line, what was found and what is allowed.
    """
    if len(text) > MAX_BYTES:
        raise _single("file", f"{len(text):,} characters", f"at most {MAX_BYTES:,}", origin)
    text = text.removeprefix("\ufeff").replace("\r\n", "\n")
    try:
        raw = tomllib.loads(text)
    except (ValueError, RecursionError) as fault:  # a whole number of 4300 digits is a ValueError
        raise _single("file", f"no valid TOML ({fault})", "TOML 1.0", origin) from None
    return read_raw(raw, origin, folder, line_index(text))


def read_raw(
    raw: Mapping[str, Any],
    origin: str = "",
    folder: Path | None = None,
    index: Mapping[KeyPath, int] | None = None,
) -> Description:
    """Read a description given as nested dicts and lists; see :func:`read_text`.

    ``index`` gives the line of each key path, where there are lines.
    """
    mistakes: list[tuple[KeyPath, Mistake]] = []
    catalogue = _own_rows(raw, folder or Path(), mistakes)
    mistakes += _doubled_names(raw)
    mistakes += [
        (path, _mistake(key_text(path), found, allowed, nearest))
        for path, found, allowed, nearest in neighbour_mistakes(raw)
    ]
    project = _validated(Project, raw, (), catalogue, mistakes)
    if mistakes or project is None:
        raise DescriptionError(_with_lines(mistakes, index or {}), origin)
    return Description(project, catalogue, origin)


def read_file(path: Path) -> Description:
    """Read a description file; see :func:`read_text`."""
    try:
        with path.open("rb") as stream:
            content = stream.read(MAX_BYTES + 1)
        text = content.decode("utf-8-sig")
    except OSError as fault:
        reason = fault.strerror or "can't be read"
        raise _single("file", f"{path}: {reason}", "a file that can be read", str(path)) from None
    except UnicodeDecodeError:
        raise _single("file", "text that is not UTF-8", "UTF-8 text", str(path)) from None
    return read_text(text, str(path), path.parent)


def _single(key: str, found: str, allowed: str, origin: str) -> DescriptionError:
    return DescriptionError([Mistake(key=key, found=found, allowed=allowed)], origin)


def _own_rows(
    raw: Mapping[str, Any], folder: Path, mistakes: list[tuple[KeyPath, Mistake]]
) -> Catalogue:
    """Read the user's own materials and contents first: the rest may name them."""
    empty = Catalogue()
    materials: dict[str, tables.Material] = {}
    contents: dict[str, tables.Contents] = {}
    _from_csv(raw, "materials_from", folder, tables.materials_from_csv, materials, mistakes)
    _from_csv(raw, "contents_from", folder, tables.contents_from_csv, contents, mistakes)
    for name, body in _tables_in(raw, "materials"):
        own = _validated(OwnMaterial, body, ("materials", name), empty, [])
        if own is not None:
            materials[name] = material_row(name, own)
    for name, body in _tables_in(raw, "contents"):
        stock = _validated(OwnContents, body, ("contents", name), empty, [])
        if stock is not None:
            contents[name] = contents_row(name, stock)
    fixings = {
        name: fixing
        for name, body in _tables_in(raw, "fixings")
        if (fixing := _validated(OwnFixing, body, ("fixings", name), empty, [])) is not None
    }
    return Catalogue(materials, contents, fixings)


def _from_csv(
    raw: Mapping[str, Any],
    key: str,
    folder: Path,
    reader: Callable[[Path], Iterable[Row]],
    into: dict[str, Row],
    mistakes: list[tuple[KeyPath, Mistake]],
) -> None:
    named = raw.get(key)
    if not isinstance(named, str):
        return  # left out, or a mistake that the model reports
    try:
        into.update({row.name: row for row in reader(folder / named)})
    except TableError as fault:
        mistakes.append(((key,), _mistake(key, str(fault), "allowed: a CSV with sourced rows")))


def _tables_in(raw: Mapping[str, Any], key: str) -> list[tuple[str, Any]]:
    section = raw.get(key)
    return list(section.items()) if isinstance(section, dict) else []


def _doubled_names(raw: Mapping[str, Any]) -> list[tuple[KeyPath, Mistake]]:
    listed = raw.get("unit")
    if not isinstance(listed, list):
        return []
    names = [unit.get("name") if isinstance(unit, dict) else None for unit in listed]
    counts = Counter(name for name in names if isinstance(name, str))
    found: list[tuple[KeyPath, Mistake]] = []
    seen: set[str] = set()
    for number, name in enumerate(names):
        if isinstance(name, str) and counts[name] > 1 and name in seen:
            path: KeyPath = ("unit", number, "name")
            found.append(
                (path, _mistake(key_text(path), f"a second unit called {name!r}", "each name once"))
            )
        if isinstance(name, str):
            seen.add(name)
    return found


def _validated(
    model: type[Model],
    raw: Any,
    prefix: KeyPath,
    catalogue: Catalogue,
    mistakes: list[tuple[KeyPath, Mistake]],
) -> Model | None:
    try:
        return model.model_validate(raw, context=catalogue)
    except ValidationError as faults:
        told = faults.errors(include_url=False)
        paths = [(*prefix, *_keys_only(fault, raw)) for fault in told]
        for fault, path in zip(told, paths, strict=True):
            if fault["type"] in _FOLLOW_UPS and any(
                other is not path and other[: len(path)] == path for other in paths
            ):
                continue
            mistakes.append((path, _explained(fault, path, model)))
        return None
    except RecursionError:
        mistakes.append((prefix, _mistake("file", "tables nested too deep", "a plain description")))
        return None


def _keys_only(fault: Any, raw: Any) -> KeyPath:
    """Drop the names of union members that pydantic puts into a location."""
    kept: list[str | int] = []
    here = raw
    loc: Sequence[str | int] = fault["loc"]
    for number, step in enumerate(loc):
        # a key that is missing, or should not be there, closes the path
        last = number == len(loc) - 1 and fault["type"] in ("missing", "extra_forbidden")
        if isinstance(here, dict) and (step in here or last):
            kept.append(step)
            here = here.get(step)
        elif isinstance(step, int) and isinstance(here, list) and step < len(here):
            kept.append(step)
            here = here[step]
        elif isinstance(step, int) and isinstance(here, str | dict):
            # one entry that stands for every bay was wrapped in a list on the way in
            continue
    return tuple(kept)


def _explained(fault: Any, path: KeyPath, model: type[BaseModel]) -> Mistake:
    key = key_text(path)
    found = _found(fault["input"])
    cause = fault.get("ctx", {}).get("error")
    if isinstance(cause, QuantityError):
        found = cause.found if cause.found.strip() else "an empty text"
        return _mistake(key, found, f"allowed: {cause.allowed}", cause.nearest)
    if isinstance(cause, UnknownName):
        few = len(cause.known) <= _LISTED
        command = _LISTED_BY.get(cause.what)
        listed = f" (shelfload {command} lists them)" if command and not few else ""
        what = ", ".join(cause.known) if few else f"a {cause.what} that is known"
        return _mistake(key, repr(cause.found), f"allowed: {what}{listed}", cause.nearest)
    if fault["type"] == "extra_forbidden":
        known = _field_names(model, path[:-1])
        allowed = f"allowed here: {', '.join(sorted(known))}" if known else f"allowed: {_KEYS}"
        wrong = str(path[-1])
        if wrong in _TRIED:
            return _mistake(key, f"the unknown key {wrong!r}", _TRIED[wrong])
        return _mistake(key, f"the unknown key {wrong!r}", allowed, nearest_name(wrong, known))
    if fault["type"] == "missing":
        return _mistake(key, "nothing", "this key is needed")
    if fault["type"] == "literal_error":
        expected = fault["ctx"]["expected"]
        choices = [choice.strip("'") for choice in expected.replace(" or ", ", ").split(", ")]
        return _mistake(
            key, found, f"allowed: {expected}", nearest_name(str(fault["input"]), choices)
        )
    bounds = fault.get("ctx", {})
    if "ge" in bounds or "le" in bounds:
        bound = f"{bounds['ge']} or more" if "ge" in bounds else f"{bounds['le']} or less"
        return _mistake(key, found, f"allowed: {bound}")
    said = (
        fault["msg"] if len(fault["msg"]) <= _LONGEST_SAID else f"{fault['msg'][:_LONGEST_SAID]}..."
    )
    return _mistake(key, found, f"allowed: {said[:1].lower()}{said[1:]}")


def _field_names(model: type[BaseModel], path: KeyPath) -> list[str]:
    """Return the keys allowed at a place, found by following the models' annotations."""
    here: list[type[BaseModel]] = [model]
    for step in path:
        if isinstance(step, int):
            continue
        inner: list[type[BaseModel]] = []
        for candidate in here:
            field = candidate.model_fields.get(step)
            inner += _models_in(field.annotation) if field is not None else []
        # a step that is no field is the user's own name of a row: its table stays in view
        here = inner or here
    return sorted({name for candidate in here for name in candidate.model_fields})


def _models_in(annotation: Any) -> list[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    return [m for inner in getattr(annotation, "__args__", ()) for m in _models_in(inner)]


def _found(value: Any) -> str:
    try:
        text = repr(value)
    except RecursionError:
        return "tables nested too deep"
    return text if len(text) <= 60 else text[:57] + "..."


def _mistake(key: str, found: str, allowed: str, nearest: str = "") -> Mistake:
    return Mistake(key=key, found=found, allowed=allowed, nearest=nearest)


def _with_lines(
    mistakes: Sequence[tuple[KeyPath, Mistake]], index: Mapping[KeyPath, int]
) -> list[Mistake]:
    placed = [
        Mistake(
            key=mistake.key,
            found=mistake.found,
            allowed=mistake.allowed,
            nearest=mistake.nearest,
            line=line_of(index, path),
        )
        for path, mistake in mistakes
    ]
    return sorted(dict.fromkeys(placed), key=lambda mistake: mistake.line or 0)


def key_text(path: Sequence[str | int]) -> str:
    """Write a key path as people do: ``unit[2].level[1].height``, counted from 1."""
    text = ""
    for step in path:
        text += f"[{step + 1}]" if isinstance(step, int) else f".{step}" if text else step
    return text or "file"
