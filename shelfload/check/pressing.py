"""Does the edge of an upright cut into the panel that it stands on?"""

from __future__ import annotations

from shelfload.check.criteria import EC5, EN1990, design
from shelfload.check.result import Check
from shelfload.describe.model import Unit
from shelfload.describe.parts import Shelf
from shelfload.idealise.place import Place
from shelfload.idealise.properties import strength
from shelfload.idealise.whole import Whole
from shelfload.solve.bearing import bearing_ratio

CLAUSE = f"{EC5}, 6.1.5 with k_c,90 = 1"


def pressing(
    whole: Whole,
    unit: Unit,
    shelf: Shelf,
    *,
    place: Place,
    question: str,
    method: str,
    force: float,
    depth: float,
    width: float,
    words: str,
    remedy: str = "",
) -> Check:
    """Return what an edge presses on a horizontal of a unit.

    Parameters
    ----------
    whole : Whole
        The idealised description.
    unit, shelf : Unit, Shelf
        The unit of the horizontal, and how that is described.
    place, question, method, words, remedy : Place, str
        For the report; ``words`` say what presses.
    force : float
        Factored long-term load [N].
    depth, width : float
        Of the contact [mm].
    """
    resolved = whole.catalogue.material(
        shelf.material or unit.panel.material, shelf.thickness or unit.panel.thickness
    )
    basis = strength(resolved.material, "along")
    allowed = design(
        basis.f_bearing, resolved.material, whole.project.site.service_class, "long-term"
    )
    if isinstance(allowed, str):
        return Check(
            place=place, question=question, method="bearing", source=CLAUSE, measure="stress",
            reason=f"{resolved.material.called}: {allowed}",
        )  # fmt: skip
    return Check(
        place=place,
        question=question,
        method=method,
        source=f"{CLAUSE}; loads {EN1990}",
        measure="stress",
        value=float(bearing_ratio(force, depth, width, allowed)) * allowed,
        limit=allowed,
        governs=f"{words}; {resolved.material.called} ({basis.bearing_basis})",
        remedy=remedy,
    )
