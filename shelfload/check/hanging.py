"""What hangs on a wall: weights, their levers, and the forces on the most loaded fixing."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from shelfload import tables
from shelfload.check.demand import LASTING, Demand, Lasting, Pull, factors
from shelfload.check.fixing import Values
from shelfload.check.tipping_body import from_above, openings
from shelfload.describe.site import Site
from shelfload.describe.standing import Hung
from shelfload.idealise.arrangement import Placed
from shelfload.idealise.whole import Whole
from shelfload.solve.fixing_group import tension_by_rotation

OVERHEAD_FROM = 1000.0
"""From this height of its underside a piece is overhead [mm] (judgement)."""
HAND = 150.0
HAND_OVER_PEOPLE = 300.0
"""A hand pulling down on the front edge [N]; the higher where people are below (common
practice, no source). Where children are about, the climbing child of the figures table."""


def hand(site: Site) -> float:
    """Return the pull down on a front edge that is reckoned with [N]."""
    pull = HAND_OVER_PEOPLE if site.people_below else HAND
    return max(pull, tables.figures()["child-climbing"].low) if site.children else pull


@dataclass(frozen=True, slots=True, kw_only=True)
class Hanging:
    """All that one hung unit brings to its wall, with what stands on it and what opens.

    Attributes
    ----------
    own, own_moment : float
        Weight of the unit itself [N] and its moment about the wall [N mm].
    goods, goods_moment : float
        The same of what stands in it.
    front : float
        Distance of its front edge from the wall [mm].
    pull : float
        A hand on that edge [N].
    skew : float
        Load on its heavier end over an even share, 1 to 2 [-].
    """

    own: float
    own_moment: float
    goods: float
    goods_moment: float
    front: float
    pull: float
    skew: float

    def moment(self, f_G: float, f_Q: float, f_P: float) -> float:
        """Moment about the lower rear edge [N mm]."""
        return f_G * self.own_moment + f_Q * self.goods_moment + f_P * self.pull * self.front

    def weight(self, f_G: float, f_Q: float, f_P: float) -> float:
        """Vertical load [N]."""
        return f_G * self.own + f_Q * self.goods + f_P * self.pull

    def forces(self, heights: np.ndarray, pull_share: float, shear_share: float) -> Demand:
        """Pull and shear on the most loaded fixing, by rotation about the lower rear edge."""
        found: dict[tuple[Lasting, Values], Pull] = {}
        for lasting in LASTING:
            for values in ("design", "recommended"):
                by = factors(lasting, values)
                top = float(tension_by_rotation(self.moment(*by), heights).max())
                found[lasting, values] = Pull(
                    tension=top * pull_share * self.skew,
                    shear=self.weight(*by) * shear_share * self.skew,
                )
        return found


def hanging(whole: Whole, placed: Placed, hung: Hung) -> Hanging:
    """Gather what hangs on the fixings of one unit."""
    off = hung.through.thickness if hung.behind and hung.through is not None else 0.0
    items = [*placed.weights.items, *openings(placed), *from_above(whole, placed, placed.bottom)]

    def total(*, moving: bool, moment: bool) -> float:
        return sum(
            item.force * (item.x + off if moment else 1.0)
            for item in items
            if item.moving is moving
        )

    across = sum(item.force * item.y for item in items) / sum(item.force for item in items)
    share = across / placed.weights.width
    return Hanging(
        own=total(moving=False, moment=False),
        own_moment=total(moving=False, moment=True),
        goods=total(moving=True, moment=False),
        goods_moment=total(moving=True, moment=True),
        front=placed.weights.depth + off,
        pull=hand(whole.project.site),
        skew=min(2.0 * max(share, 1.0 - share), 2.0),
    )
