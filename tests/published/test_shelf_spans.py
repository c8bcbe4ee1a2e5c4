"""Shelf spans of the Architectural Woodwork Standards 2009, computed by the whole program.

AWS 2009, shelf table: simply supported, uniform load, first-day sag span / 144. The table
truncates most spans to a whole inch and rounds one (45.98 is printed as 46), so that one
inch either way is allowed.
"""

from __future__ import annotations

import pytest
from verification.shelves import AWS, sag_over_limit


@pytest.mark.parametrize(("E", "thickness", "load", "printed_span"), AWS)
def test_printed_span_lies_within_an_inch_of_where_sag_is_span_over_144(
    E, thickness, load, printed_span
):
    assert sag_over_limit(E, thickness, load, printed_span - 1) < 1.0
    assert sag_over_limit(E, thickness, load, printed_span + 1) > 1.0
