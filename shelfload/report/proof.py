"""A proof load laid out."""

from __future__ import annotations

from shelfload.advise.proof import Proof
from shelfload.check.result import Verdict
from shelfload.report.document import Document, Section, Table
from shelfload.units import UnitSystem
from shelfload.wording import figure, spelled


def proof_document(found: Proof, system: UnitSystem) -> Document:
    """Lay a proof load out: what it means, then sag measured and computed for the same load."""

    def sag(per_load: float) -> str:
        return spelled(figure(per_load * found.load, "length"), system)

    load = spelled(figure(found.load, "force", as_mass=True), system)
    rows = (
        ("as computed", sag(found.free)),
        ("as measured, mean of all readings", sag(found.measured)),
        ("with ends clamped, computed", sag(found.clamped)),
    )
    return Document(
        title=f"{found.place}: proof load",
        verdict=None if found.expected else Verdict.FAILS,
        summary="sags as computed or less" if found.expected else "sags more than computed",
        blocks=(
            Section(title="In short", items=tuple(spelled(text, system) for text in found.words)),
            Table(title=f"Sag under {load}, on the first day", header=("", "sag"), rows=rows),
        ),
    )
