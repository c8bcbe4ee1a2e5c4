"""What holds the one shelf of the command line: options turned into keys of a description."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

SITE_OPTIONS = {
    "wall": "wall",
    "stud_spacing": "stud_spacing",
    "people_below": "people_below",
    "children": "children",
}


def supports(options: Mapping[str, Any]) -> dict[str, Any] | None:
    """Return the supports asked for by ``--brackets``, ``--cleat`` or ``--rods``; None for none."""
    held = {
        "screw": options["screw"],
        "length": options["screw_length"],
        "count": options["fixings"],
    }
    if options["brackets"] is not None:
        found = {
            "kind": "brackets",
            "number": options["brackets"],
            "height": options["bracket_height"],
            **held,
        }
    elif options["cleat"] is not None:
        found = {
            "kind": "cleat", "height": options["cleat"], "ends": options["cleat_ends"], **held
        }  # fmt: skip
    elif options["rods"] is not None:
        found = {
            "kind": "rods",
            "number": options["rods"],
            "diameter": options["rod"],
            "in_wall": options["rod_in_wall"],
        }
    else:
        return None
    return {key: value for key, value in found.items() if value is not None}


def site(options: Mapping[str, Any]) -> dict[str, Any]:
    """Return the keys of the site that the options say."""
    return {
        key: options[option]
        for option, key in SITE_OPTIONS.items()
        if options[option] not in (None, False)
    }
