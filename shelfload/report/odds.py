"""Odds of shelves laid out for people, and as data."""

from __future__ import annotations

from math import ceil, log10
from typing import TYPE_CHECKING, Any

from shelfload import units
from shelfload.units import UnitSystem
from shelfload.wording import figure, spelled

if TYPE_CHECKING:
    # most reports have no odds; they need not load what finds them
    from shelfload.advise.odds import Chance, Odds, ShelfOdds

HEADER = ("shelf", "mean sag", "spread", "allowed", "sags past", "overload", "mostly from")
_WORTH_NAMING = 0.1
_DIGITS = 6


def odds_rows(odds: Odds, system: UnitSystem) -> tuple[tuple[str, ...], ...]:
    """Return the chances of every shelf and what brings them about."""
    return tuple(_row(shelf, system) for shelf in odds.shelves)


def odds_notes(odds: Odds, system: UnitSystem) -> tuple[str, ...]:
    """Say how the odds were found, and what they leave out."""
    notes = [
        f"Each shelf made and filled {odds.samples} times over (seed {odds.seed}); intervals hold "
        "the chance of this model 19 times in 20.",
        "Sag is that of the checks; overload means loads as they are above the strength as it "
        "is, without partial factors. Odds take the description and the model as they are: a "
        "slip in either is not in them, and they never replace a check.",
        "Overload is bending, shear and bearing of the shelf itself: joins, back, wall, uprights, "
        "floor and tipping have no odds.",
        "A shelf that bends as a plate is taken to scatter as its beam does, from the plate's sag.",
    ]
    alike: dict[str, list[str]] = {}
    for shelf in odds.shelves:
        alike.setdefault("; ".join(shelf.said), []).append(str(shelf.place))
    notes += [f"{', '.join(places)}: scatter of {said}." for said, places in alike.items()]
    notes += [f"No odds for {text}." for text in odds.left_out]
    return tuple(spelled(note, system) for note in notes)


def _row(shelf: ShelfOdds, system: UnitSystem) -> tuple[str, ...]:
    def length(value: float) -> str:
        return spelled(figure(value, "length"), system)

    named = [share for share in shelf.sag.shares if share[1] >= _WORTH_NAMING]
    return (
        str(shelf.place),
        length(shelf.mean),
        length(shelf.spread),
        length(shelf.limit),
        _in_percent(shelf.sag),
        _in_percent(shelf.overload),
        ", ".join(f"{name} {share:.0%}" for name, share in named),
    )


def _in_percent(chance: Chance) -> str:
    # as many decimals as the interval leaves sure
    wide = (chance.upper - chance.lower) * 100.0
    decimals = min(max(ceil(-log10(wide)), 1), 4)
    if chance.value == 0.0:
        finest = 10.0**decimals
        return f"under {ceil(chance.upper * 100.0 * finest) / finest:.{decimals}f} %"
    value, lower, upper = (
        f"{part * 100.0:.{decimals}f}" for part in (chance.value, chance.lower, chance.upper)
    )
    return f"{value} % ({lower} to {upper})"


def odds_data(odds: Odds, system: UnitSystem) -> dict[str, Any]:
    """Return the odds as plain lists and dicts."""
    _, unit = units.shown_value(1.0, "length", system, False)

    def length(value: float) -> float:
        return _rounded(units.express(value, unit, "length"))

    return {
        "samples": odds.samples,
        "seed": odds.seed,
        "unit": unit,
        "shelves": [
            {
                "place": {
                    "unit": shelf.place.unit,
                    "part": shelf.place.part,
                    "bay": shelf.place.bay,
                },
                "question": shelf.when,
                "mean": length(shelf.mean),
                "spread": length(shelf.spread),
                "limit": length(shelf.limit),
                "sag": _chance_data(shelf.sag),
                "overload": _chance_data(shelf.overload),
                "scatter": [spelled(text, system) for text in shelf.said],
            }
            for shelf in odds.shelves
        ],
        "left_out": [spelled(text, system) for text in odds.left_out],
    }


def _chance_data(chance: Chance) -> dict[str, Any]:
    return {
        "chance": _rounded(chance.value),
        "from": _rounded(chance.lower),
        "to": _rounded(chance.upper),
        "shares": {name: round(share, 3) for name, share in chance.shares},
    }


def _rounded(value: float) -> float:
    return float(f"{value:.{_DIGITS}g}")
