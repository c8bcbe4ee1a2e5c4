"""What each side and divider carries down, for a table and for JSON."""

from __future__ import annotations

from shelfload.idealise.whole import Whole
from shelfload.units import UnitSystem
from shelfload.wording import figure, spelled

HEADER = ("level", "upright", "always there", "with everything full")


def upright_rows(whole: Whole, unit: str, system: UnitSystem) -> tuple[tuple[str, ...], ...]:
    """Return a row for each upright of a unit, from the top down; loads as masses."""

    def mass(force: float) -> str:
        return spelled(figure(force, "force", as_mass=True), system)

    return tuple(
        (
            force.place.part,
            force.upright.name,
            mass(force.dead),
            mass(force.dead + force.imposed),
        )
        for force in whole.upright_forces(unit)
    )
