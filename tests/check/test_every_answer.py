"""Whatever is asked: an answer says where, how, by which rule and in what, or why there is none."""

from __future__ import annotations

from typing import Literal, get_args, get_origin

import pytest
from described import findings, unit
from outcomes import example_outcome

from shelfload.check.result import Verdict
from shelfload.describe.examples import example_names
from shelfload.wording import Measure

WORDS = ("reason", "governs", "remedy")
MEASURES = {
    value
    for part in get_args(Measure)
    for value in (get_args(part) if get_origin(part) is Literal else [part])
}


BOARD = {"material": "board", "thickness": "20 mm"}
P4 = {"material": "particleboard-p4", "thickness": "19 mm"}
JOISTS = {"width": "19 mm", "height": "200 mm", "span": "3 m", "spacing": "400 mm"}
TALL = (300, 300, 300, 300)
UNFINISHED = {
    "a climate the board is not made for": lambda: findings(
        unit(heights=TALL, loads=[20] * 4, bays=(470, 470), panel=P4), site={"service_class": 2}
    ),
    "joists of a board in the damp": lambda: findings(
        unit(loads=[50]),
        site={
            "service_class": 2,
            "floor": {"joists": {**JOISTS, "run": "across", "material": "particleboard-p4"}},
        },
    ),
    "hung on nobody knows what": lambda: findings(
        unit(loads=[20], hangs={"count": 2}), site={"wall": "unknown"}
    ),
    "hung on one fixing": lambda: findings(
        unit(loads=[20], hangs={"maker": "anchor", "carcass": "anchor", "count": 1}),
        site={"wall": "solid brick"},
    ),
    "hung with a rail and nothing that holds it": lambda: findings(
        unit(loads=[20], hangs={"through": BOARD}), site={"wall": "timber stud"}
    ),
    "hung between neighbours by nothing": lambda: findings(
        unit("l", heights=(900,)),
        unit("r", heights=(900,)),
        unit("m", underside="300 mm", between={"left": "l", "right": "r"}),
    ),
    "a back that must not let go": lambda: findings(
        unit(
            bays=(1400,), loads=[150],
            back={"material": "board", "thickness": "6 mm", "fixed": "nailed", "spacing": "50 mm"},
        )
    ),
    "open boxes on each other": lambda: findings(
        unit(heights=TALL, loads=[20] * 4, panel=BOARD, comes_apart="boxes")
    ),
}  # fmt: skip


@pytest.fixture(params=[*example_names(), *UNFINISHED])
def found(request):
    if request.param in UNFINISHED:
        return UNFINISHED[request.param]()
    return example_outcome(request.param).findings


def test_check_says_how_and_by_which_rule(found):
    for check in found.checks:
        told = f"{check.place}: {check.question}"
        assert isinstance(check.question, str), told
        assert check.question, told
        assert check.method, told
        assert isinstance(check.source, str), told
        assert check.source or check.method == "none", told  # not asked at all
        assert check.measure in MEASURES, told
        assert check.place.unit in found.whole.placed or check.place.unit in {
            shelf.name for shelf in found.whole.project.shelf
        }, told


def test_what_a_check_may_leave_out_is_still_of_its_kind(found):
    for check in found.checks:
        told = f"{check.place}: {check.question}"
        assert all(isinstance(getattr(check, name), str) for name in WORDS), told
        assert isinstance(check.at_least, bool), told
        assert isinstance(check.as_mass, bool), told
        assert all(f is None or isinstance(f, float | int) for f in (check.value, check.limit)), (
            told
        )


def test_figures_of_a_pass_are_what_was_asked(found):
    passes = [c for c in found.checks if c.verdict in (Verdict.PASSES, Verdict.CLOSE)]
    assert all(c.value >= 0.0 for c in passes if not c.at_least)
    assert all(c.limit >= 0.0 for c in passes)


def test_safe_load_says_what_ends_it(found):
    for load in found.safe_loads:
        if not load.reason:
            assert load.governed_by, str(load.place)
            assert load.point_governed_by, str(load.place)
            assert 0.0 <= load.point, str(load.place)
            assert 0.0 <= load.even_per_length <= load.even, str(load.place)
