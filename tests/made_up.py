"""Parts with made-up figures, two of everything, no two alike: whatever is swapped shows."""

from __future__ import annotations

from types import SimpleNamespace as Made

import numpy as np
from described import findings

from shelfload.check import (
    plate_demands,
)
from shelfload.check.criteria import Criterion
from shelfload.check.frame_demand import Curve, Demand
from shelfload.check.result import Check
from shelfload.idealise.place import Place

PLACE = Place(unit="box", part="shelf 1")


def check(value=8.0, limit=10.0, **more):
    told = {"question": "sag after years", "method": "beam", "source": "EC5", "measure": "length"}
    return Check(place=PLACE, value=value, limit=limit, **{**told, **more})


def factors_of(cases):
    return lambda **kinds: np.array([kinds.get(case.kind, 0.0) for case in cases])


def case(kind, unit="box", number=1, duration="long-term", bay=None):
    return Made(kind=kind, unit=unit, number=number, duration=duration, bay=bay)


def criterion(curve="moment", **more):
    given = {
        "question": "bending", "always": np.array([1.35, 0.0]), "sometimes": np.array([0.0, 1.5]),
        "per_load": 1.5, "allowed": np.array([4.0]), "scale": np.array([0.5]),
        "measure": "stress", "method": "factored loads", "source": "6.1.6", "governs": "board",
    }  # fmt: skip
    return Criterion(curve=curve, **{**given, **more})


def demand(axial=False, **more):
    given = {
        "question": "bending",
        "curve": Curve(main=np.array([[0.1, 0.2, 0.4]]), axial=np.array([[0.01, 0.02, 0.03]])),
        "unit": Curve(main=np.array([[0.05, 0.07]]), axial=np.array([[0.002, 0.003]])),
        "limit": np.array([17.5]),
        "always": np.array([1.35, 0.0, 0.0]),
        "sometimes": np.array([0.0, 1.5, 1.5]),
        "per_load": 1.5,
        **more,
    }
    if not axial:
        given["curve"] = Curve(main=given["curve"].main)
        given["unit"] = Curve(main=given["unit"].main)
    return Demand(**given)


def plate_demand(*curves, **more):
    given = {
        "question": "bending", "method": "plate", "source": "6.1.6", "governs": "board",
        "always": np.array([1.0, 0.0]), "sometimes": np.array([0.0, 1.5]), "per_load": 1.5,
        "limit": np.array([20.0, 10.0]), "measure": "stress",
    }  # fmt: skip
    return plate_demands.Demand(curves=tuple(map(np.array, curves)), **{**given, **more})


def board_plate(material="birch-plywood", **more):
    """A lone shelf 300 mm deep, and made-up fields of a plate for two points and its cases."""
    shelf = {"material": material, "thickness": "18 mm", "bearing": "6 mm"}
    found = findings(shelf=[{"name": "s", "depth": "300 mm", "spans": ["900 mm"], "shelf": shelf,
                             "contents": {"load": "20 kg/m"}}])  # fmt: skip
    (beam,) = found.whole.beams
    rng = np.random.default_rng(7)

    def fields():
        of = {name: rng.normal(size=(2, len(beam.cases))) for name in ("w", "M_x", "M_y", "M_xy")}
        return Made(**of, Q=rng.normal(size=(2, 2, len(beam.cases))),
                    back=rng.normal(size=len(beam.cases)))  # fmt: skip

    given = {
        "model": "two ends", "words": "plate", "first_day": fields(), "crept": fields(),
        "moment_scale": 300.0, "across_stress": np.array([0.02]), "twist_stress": np.array([0.03]),
        "segment": np.array([0, 0]), "hold": None,
    }  # fmt: skip
    return beam, Made(**{**given, **more})


NAILED = {"material": "hardboard", "thickness": "3.2 mm", "fixed": "nailed", "spacing": "100 mm"}
