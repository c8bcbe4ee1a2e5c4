"""Pytest plugin for runs on mutants: few examples, always the same, and nothing remembered."""

from __future__ import annotations

import os
import sys
from pathlib import Path

from hypothesis import HealthCheck, Phase, settings

EXAMPLES = 20
KEPT = "shelfload.tables"  # reading the tables again takes longer than most tests


def few(test) -> None:
    """Leave a property 20 examples that do not change from run to run, and no shrinking."""
    before = getattr(test, "_hypothesis_internal_use_settings", None) or settings.default
    test._hypothesis_internal_use_settings = settings(
        before,
        max_examples=min(before.max_examples, EXAMPLES),
        derandomize=True,
        database=None,
        deadline=None,
        phases=[Phase.explicit, Phase.generate],
        suppress_health_check=list(HealthCheck),
    )


def pytest_collection_modifyitems(items) -> None:
    seen = set()
    for item in items:
        test = getattr(item, "obj", None)
        test = getattr(test, "__func__", test)
        if getattr(test, "is_hypothesis_test", False) and test not in seen:
            seen.add(test)
            few(test)


def pytest_sessionstart() -> None:
    """A mutant is forked from a process that has run the tests: what that cached must go."""
    mutant = os.environ.get("MUTANT_UNDER_TEST", "")
    if "__mutmut_" not in mutant:
        return
    here = str(Path.cwd())
    for name, module in list(sys.modules.items()):
        if not (getattr(module, "__file__", None) or "").startswith(here):
            continue
        if name.startswith(KEPT) and not mutant.startswith("shelfload.units"):
            continue
        for thing in list(vars(module).values()):
            if callable(getattr(thing, "cache_clear", None)):
                thing.cache_clear()
