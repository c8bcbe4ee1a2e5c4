"""People on the top panel of a unit: a seat, a platform, a bed on cupboards."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from shelfload.describe.catalogue import Catalogue
from shelfload.describe.model import Unit
from shelfload.describe.parts import Fill
from shelfload.idealise.geometry import BayAt, UprightAt
from shelfload.idealise.loads import BayLoad, bay_load, with_people


def people_on_top(
    unit: Unit, fill: Fill, lower: Sequence[UprightAt], depth: float, catalogue: Catalogue
) -> list[tuple[BayAt, BayLoad]]:
    """Put people between each two uprights below, where they bend the top most.

    What else stands there keeps its place. Each bay reaches from the middle of one upright to
    that of the next, at the ends to the outside.
    """
    if fill.people is None:
        return []
    start, end = lower[0].left, lower[-1].right
    goods = fill.model_copy(update={"people": None})
    rest = (
        BayLoad(words="")
        if goods.is_empty
        else bay_load(goods, end - start, unit.level[-1].height, depth, catalogue)
    )
    cuts = [start, *(upright.centre for upright in lower[1:-1]), end]
    found = []
    for number, (left, right) in enumerate(pairwise(cuts), start=1):
        here = rest.clipped(left - start, right - start, end - start)
        words = " and ".join(filter(None, (here.words, f"people {fill.people}")))
        load = with_people(replace(here, words=words), fill.people, right - left, depth)
        found.append((BayAt(number=number, left=left, right=right), load))
    return found
