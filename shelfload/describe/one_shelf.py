"""One shelf from the command line, read by the same rules as a description file."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from shelfload import units
from shelfload.describe import one_support
from shelfload.describe.reader import Description, read_raw
from shelfload.errors import DescriptionError, Mistake, QuantityError

_OPTION_OF = {
    "shelf[1].depth": "--depth",
    "shelf[1].shelf.thickness": "--thickness",
    "shelf[1].shelf.material": "--material",
    "shelf[1].shelf.lipping_front.material": "--lipping-material",
    "shelf[1].shelf.lipping_front.thickness": "--lipping",
    "shelf[1].shelf.lipping_front.height": "--lipping",
    "shelf[1].shelf.bearing": "--bearing",
    "shelf[1].shelf.limit": "--limit",
    "shelf[1].overhang_left": "--overhang",
    "shelf[1].overhang_right": "--overhang",
    "shelf[1].name": "--name",
}
_STARTS: dict[str, dict[str, str]] = {
    "span": {"span": "1 m"},
    "thickness": {"thickness": "18 mm"},
    "load": {"load": "10 kg/m"},
}
"""What may be left out while it is looked for, and what the search starts from."""

_PREFIXES = {
    "shelf[1].spans": "--span",
    "shelf[1].supports.screw": "--screw",
    "shelf[1].supports.length": "--screw-length",
    "shelf[1].supports.count": "--fixings",
    "shelf[1].supports.diameter": "--rod",
    "shelf[1].supports.in_wall": "--rod-in-wall",
    "shelf[1].length": "--length",
    "site.wall": "--wall",
    "site.stud_spacing": "--stud-spacing",
    "shelf[1].contents.what": "--contents",
    "shelf[1].contents.load": "--load",
    "shelf[1].contents.points": "--point",
}
_BY_KIND = {
    "shelf[1].supports.height": {"brackets": "--bracket-height", "cleat": "--cleat"},
    "shelf[1].supports.number": {"brackets": "--brackets", "rods": "--rods"},
}
"""Keys that stand for another option, depending on what the shelf is held by."""
_WHOLE_SHELF = {
    "a point load": ("--point", "a point load", ""),
    "a shelf without spans": (
        "--length",
        "no number of --brackets to be placed along it",
        "allowed: --length with --brackets, or --span",
    ),
    "spans and a length": (
        "--length",
        "--span or --spans too",
        "allowed: --span, or --length with --brackets",
    ),
}
"""How a mistake of the shelf as a whole begins; option, and how it goes on in options."""


def one_shelf(options: Mapping[str, Any]) -> Description:
    """Turn the options of ``shelfload shelf`` into a description of one shelf.

    Raises
    ------
    DescriptionError
        With every mistake, each under the name of its option.
    """
    mistakes: list[Mistake] = []
    options = _with_what_is_looked_for(options, mistakes)
    spans = _spans(options, mistakes)
    fill = _fill(options, mistakes)
    shelf = {
        "material": options["material"],
        "thickness": options["thickness"],
        "grain": options["grain"],
        "ends": options["ends"],
        "bearing": options["bearing"],
        "limit": options["limit"],
        "lipping_front": _lipping(options, mistakes),
    }
    if options["doubled"]:
        shelf |= {"panels": 2, "joined": options["doubled"]}
    raw_shelf = {
        "name": options["name"],
        "depth": options["depth"],
        "spans": spans or None,
        "length": options["length"],
        "supports": one_support.supports(options),
        "overhang_left": options["overhang"],
        "overhang_right": options["overhang"],
        "shelf": {key: value for key, value in shelf.items() if value is not None},
        "contents": [fill, *["empty"] * (len(spans) - 1)]
        if fill and fill.get("points") and len(spans) > 1
        else fill,
    }
    raw = {
        "title": "One shelf",
        "site": {"service_class": options["service_class"], **one_support.site(options)},
        "shelf": [{key: value for key, value in raw_shelf.items() if value is not None}],
    }
    try:
        description = read_raw(raw)
    except DescriptionError as fault:
        mistakes += [_renamed(mistake, options) for mistake in fault.mistakes]
    if mistakes:
        raise DescriptionError(list(dict.fromkeys(mistakes)))
    return description


def _with_what_is_looked_for(
    options: Mapping[str, Any], mistakes: list[Mistake]
) -> Mapping[str, Any]:
    """Let a quantity that is looked for be left out; a start stands in for it."""
    start = _STARTS.get(options["find"] or "", {})
    needed = {
        "span": options["span"] or options["spans"] or options["length"],
        "thickness": options["thickness"],
    }
    for name, given in needed.items():
        if given is None and name not in start:
            mistakes.append(
                Mistake(key=f"--{name}", found="nothing", allowed="this option is needed")
            )
    stand_ins = {"span": "1 m", "thickness": "18 mm"}
    missing = {name: stand_ins[name] for name, given in needed.items() if given is None}
    if "load" in start and not (options["load"] or options["contents"] or options["point"]):
        missing |= start
    return {**options, **missing}


def _spans(options: Mapping[str, Any], mistakes: list[Mistake]) -> list[str]:
    if options["span"] is not None:
        return [options["span"]]
    if options["spans"] is None:
        return []  # brackets are placed along the length
    try:
        return [f"{span!r} mm" for span in units.read_lengths(options["spans"])]
    except QuantityError as fault:
        mistakes.append(_mistake("--spans", fault))
        return ["1 m"]  # stands in, so that the other options are still read


def _fill(options: Mapping[str, Any], mistakes: list[Mistake]) -> dict[str, Any] | None:
    fill: dict[str, Any] = {}
    if options["contents"]:
        fill["what"] = options["contents"]
    if options["load"]:
        fill["load"] = options["load"]
    if options.get("people"):
        fill["people"] = options["people"]
    points = []
    for option, duration in (("point", "long-term"), ("person", "short-term")):
        for text in options[option]:
            load, at, place = text.partition("@")
            if not at:
                wanted = '"20 kg @ 300 mm": a load, @ and a place'
                mistakes.append(Mistake(key=f"--{option}", found=repr(text), allowed=wanted))
                continue
            points.append({"load": load.strip(), "at": place.strip(), "duration": duration})
    if points:
        fill["points"] = points
    return fill or None


def _lipping(options: Mapping[str, Any], mistakes: list[Mistake]) -> dict[str, str] | None:
    text = options["lipping"]
    if text is None:
        return None
    thickness, cross, height = text.replace("×", "x").partition(" x ")
    if not cross:
        wanted = '"20 mm x 45 mm": thickness front to back, x, height'
        mistakes.append(Mistake(key="--lipping", found=repr(text), allowed=wanted))
        return None
    return {
        "material": options["lipping_material"],
        "thickness": thickness.strip(),
        "height": height.strip(),
    }


def _mistake(option: str, fault: QuantityError) -> Mistake:
    return Mistake(
        key=option, found=fault.found, allowed=f"allowed: {fault.allowed}", nearest=fault.nearest
    )


def _renamed(mistake: Mistake, options: Mapping[str, Any]) -> Mistake:
    """Put the name of the option where the key of a file would stand."""
    place = mistake.key.replace(".contents[1]", ".contents")
    by_kind = _BY_KIND.get(mistake.key, {})
    held_by = (option for kind, option in by_kind.items() if options[kind] is not None)
    prefixed = (name for prefix, name in _PREFIXES.items() if place.startswith(prefix))
    option = _OPTION_OF.get(mistake.key) or next(held_by, None) or next(prefixed, mistake.key)
    found, allowed = mistake.found, mistake.allowed.replace("this key is", "this option is")
    if mistake.key == "shelf[1]":
        for start, (name, what, instead) in _WHOLE_SHELF.items():
            if found.startswith(start):
                option, found = name, found.replace(start, what) if not instead else what
                allowed = instead or allowed
    return Mistake(key=option, found=found, allowed=allowed, nearest=mistake.nearest)
