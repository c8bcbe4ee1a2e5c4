"""Compare a figure with one printed in a book, to half of its last printed digit."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest


def printed(text: str) -> Any:
    """Match a number that rounds to ``text``; 0.12345 is printed as 0.1235 in spite of rounding."""
    exponent = Decimal(text).as_tuple().exponent
    return pytest.approx(float(text), rel=0, abs=(0.5 + 1e-9) * 10.0 ** int(exponent))
