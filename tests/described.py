"""Small descriptions for tests of whole units: one board of 500 kg/m3 and 20 mm, no surprises."""

from __future__ import annotations

from shelfload.check.assess import assess
from shelfload.describe.reader import read_raw

G = 9.80665  # m/s2, standard gravity (CGPM 1901)
BOARD = {
    "kind": "plywood",
    "density": "500 kg/m3",
    "E": "10000 MPa",
    "E_across": "10000 MPa",
    "G": "500 MPa",
    "bending_strength": "30 MPa",
    "shear_strength": "3 MPa",
    "source": "made up for tests",
}
MAKER = {"tension": "300 N", "shear": "600 N", "source": "made up for tests"}
PER_AREA = 500e-9 * G * 20.0  # N/mm2 of 20 mm board


def unit(name="box", heights=(360,), bays=(960,), depth=300, loads=(), **more):
    levels = [
        {"height": f"{height} mm", "bays": [f"{bay} mm" for bay in bays], "contents": "empty"}
        for height in heights
    ]
    for level, load in zip(levels, loads, strict=False):
        if load:
            level["contents"] = {"load": f"{load} kg"}
    return {
        "name": name,
        "depth": f"{depth} mm",
        "panel": {"material": "board", "thickness": "20 mm"},
        "level": levels,
        **more,
    }


def project(*units, site=None, shelf=(), fixings=None):
    raw = {
        "materials": {"board": BOARD},
        "fixings": {"anchor": MAKER, **(fixings or {})},
        "site": site or {},
    }
    if units:
        raw["unit"] = list(units)
    if shelf:
        raw["shelf"] = list(shelf)
    return raw


def findings(*units, **more):
    description = read_raw(project(*units, **more))
    return assess(description.project, description.catalogue)


def asked(found, part, question="", unit=None, bay=None):
    """Return the checks of a part whose question starts with some words."""
    return [
        check
        for check in found.checks
        if check.place.part == part
        and check.question.startswith(question)
        and unit in (None, check.place.unit)
        and bay in (None, check.place.bay)
    ]


def the(found, part, question="", **more):
    """Return the one check of a part whose question starts with some words."""
    (check,) = asked(found, part, question, **more)
    return check
