"""A measured stiffness laid out: the figure, how sure it is, and the entry to paste."""

from __future__ import annotations

from shelfload.advise.measure import Measured
from shelfload.report.document import Document, Section, Table
from shelfload.units import UnitSystem
from shelfload.wording import figure, spelled


def measure_document(found: Measured, system: UnitSystem) -> Document:
    """Lay a measurement out; warnings come first."""
    E = figure(found.E, "stress")
    between = f"{figure(found.lower, 'stress')} to {figure(found.upper, 'stress')}"
    count = len(found.bench.readings)
    many = f"{count} readings" if count > 1 else "1 reading"
    result = (
        f"E is {E}, and lies in {between} 19 times in 20 (within {found.half:.0%}), by this piece "
        "alone: other sheets of the same name differ.",
        f"With the shear sag left in it would be {figure(found.apparent, 'stress')}.",
        *found.said,
    )
    rows = tuple((name, f"{part:.1%}") for name, part in found.parts)
    blocks: list[Table | Section] = []
    if found.warnings:
        blocks.append(Section(title="Beware", items=_all(found.warnings, system)))
    blocks += [
        Section(title="Result", items=_all(result, system)),
        Table(title="What each error alone brings to E", header=("of", "either way"), rows=rows),
    ]
    return Document(
        title="Measured stiffness",
        verdict=None,
        summary=spelled(f"{E} from {many}", system),
        blocks=tuple(blocks),
    )


def _all(texts: tuple[str, ...], system: UnitSystem) -> tuple[str, ...]:
    return tuple(spelled(text, system) for text in texts)
