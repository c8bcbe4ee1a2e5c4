"""A check's answer follows from its figures, and there is no way to read it as true or false."""

from __future__ import annotations

from math import isnan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shelfload.check.result import Check, Verdict, worst
from shelfload.idealise.place import Place


def check(**changes):
    fields = {
        "place": Place(unit="u"),
        "question": "sag",
        "method": "m",
        "source": "s",
        "measure": "length",
    }
    return Check(**{**fields, **changes})


@pytest.mark.parametrize(
    ("value", "limit", "at_least", "verdict"),
    [
        (1.0, 2.0, False, Verdict.PASSES),
        (1.85, 2.0, False, Verdict.CLOSE),
        (2.0, 2.0, False, Verdict.CLOSE),
        (2.1, 2.0, False, Verdict.FAILS),
        (3.0, 2.0, True, Verdict.PASSES),
        (1.9, 2.0, True, Verdict.FAILS),
        (0.0, 2.0, True, Verdict.FAILS),
        (-1.0, 2.0, True, Verdict.FAILS),
        (1.0, 0.0, False, Verdict.FAILS),
        (0.0, 0.0, False, Verdict.PASSES),
    ],
)
def test_verdict_follows_from_value_and_limit(value, limit, at_least, verdict):
    assert check(value=value, limit=limit, at_least=at_least).verdict is verdict


def test_reason_makes_it_not_checked_unless_the_figures_fail_already():
    assert check(reason="no figure").verdict is Verdict.NOT_CHECKED
    assert check(value=1.0, limit=2.0, reason="provisional").verdict is Verdict.NOT_CHECKED
    assert check(value=3.0, limit=2.0, reason="provisional").verdict is Verdict.FAILS
    assert isnan(check(reason="no figure").ratio)


def test_check_without_figure_needs_a_reason():
    with pytest.raises(ValueError, match="no figure and no reason"):
        check(value=1.0)


@pytest.mark.parametrize("figure", [float("nan"), float("inf")])
def test_figures_are_finite(figure):
    with pytest.raises(ValueError, match="not finite"):
        check(value=figure, limit=1.0)


def test_check_has_no_truth_value():
    with pytest.raises(TypeError, match="four answers"):
        bool(check(value=1.0, limit=2.0))


def test_value_can_be_asked_in_any_unit():
    # 25.4 mm = 1 in by definition
    assert check(value=25.4, limit=30.0).quantity.to("in").magnitude == pytest.approx(1.0)
    assert check(value=1.0, limit=2.0, measure="ratio").quantity is None


@given(st.lists(st.sampled_from(list(Verdict)), min_size=1))
def test_worst_never_hides_a_failure_or_a_gap(verdicts):
    found = worst(verdicts)
    assert found in verdicts
    if Verdict.FAILS in verdicts:
        assert found is Verdict.FAILS
    elif Verdict.NOT_CHECKED in verdicts:
        assert found is Verdict.NOT_CHECKED


def test_nothing_asked_is_not_a_pass():
    assert worst([]) is Verdict.NOT_CHECKED
