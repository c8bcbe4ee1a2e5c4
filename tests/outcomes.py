"""The outcome of each example, worked out once for all tests that only look at it."""

from __future__ import annotations

from functools import cache

import shelfload
from shelfload.describe.examples import example_text


@cache
def example_outcome(name):
    return shelfload.check_text(example_text(name))
