"""What each section weighs as it is lifted, as a table."""

from __future__ import annotations

from shelfload.check.sections_lifted import sections
from shelfload.idealise.whole import Whole
from shelfload.report.document import Table
from shelfload.units import UnitSystem
from shelfload.wording import figure, size, spelled

_HEADER = ("unit", "lifted as", "weighs", "underside goes to")


def lifting_table(whole: Whole, system: UnitSystem) -> Table | None:
    """List the sections as lifted, empty and with loose shelves out; None if there are none."""
    rows = tuple(
        (
            name,
            section.name,
            spelled(figure(section.mass, "mass"), system),
            "the floor" if section.bottom == 0.0 else spelled(size(section.bottom), system),
        )
        for name, placed in whole.placed.items()
        for section in sections(placed)
    )
    if not rows:
        return None
    return Table(title="Weights to lift", header=_HEADER, rows=rows)
