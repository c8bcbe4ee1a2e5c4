"""People on a horizontal: between each two uprights below it, where they bend it most."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from shelfload.describe.catalogue import Catalogue
from shelfload.describe.parts import Fill
from shelfload.idealise.geometry import BayAt, UprightAt
from shelfload.idealise.loads import BayLoad, bay_load, with_people

LEAST_PIECE = 50.0
"""An upright this near to the end of a bay does not part it [mm]."""


def people_between(
    fill: Fill,
    bay: BayAt,
    standing: Sequence[UprightAt],
    height: float,
    depth: float,
    catalogue: Catalogue,
) -> list[tuple[BayAt, BayLoad]]:
    """Cut a bay over the uprights below it and put people on every piece.

    One person in the middle of a whole bay might stand right over a divider. What else stands
    in the bay keeps its place.
    """
    if fill.people is None:
        return []
    goods = fill.model_copy(update={"people": None})
    width = bay.right - bay.left
    rest = BayLoad(words="") if goods.is_empty else bay_load(goods, width, height, depth, catalogue)
    inner = [
        upright.centre
        for upright in standing
        if bay.left + LEAST_PIECE < upright.centre < bay.right - LEAST_PIECE
    ]
    found = []
    for left, right in pairwise([bay.left, *inner, bay.right]):
        here = rest.clipped(left - bay.left, right - bay.left, width)
        words = " and ".join(filter(None, (here.words, f"people {fill.people}")))
        load = with_people(replace(here, words=words), fill.people, right - left, depth)
        found.append((replace(bay, left=left, right=right), load))
    return found
