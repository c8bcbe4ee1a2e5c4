"""Which fastener for a join, how many and where: the whole table against all joins at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from shelfload import tables
from shelfload.check.result import CLOSE_FROM
from shelfload.check.screw_fate import Fate
from shelfload.check.screw_found import COUNTS, END_GRAIN_COUNT, Found
from shelfload.check.screw_option import Option, Refused
from shelfload.check.screw_table import columns, whole_table
from shelfload.describe.joins import KINDS
from shelfload.idealise.joint import Joint

SHOWN = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """What is proposed for a join: the best first; or nothing, and what came nearest.

    ``cheaper`` costs less apiece than the best and came nearest to doing: it fails, or its
    ``fits`` would be needed.
    """

    joint: Joint
    works: tuple[Option, ...]
    cheaper: Refused | None
    nearest: Refused | None

    @property
    def best(self) -> Option | None:
        """The cheapest that works."""
        return self.works[0] if self.works else None


def choose(
    joints: Sequence[Joint], kinds: Sequence[str] = KINDS["screws"], shown: int = SHOWN
) -> list[Choice]:
    """Choose fasteners for joins from the whole table.

    The cheapest comes first: holes and steel, by kind (``screw_table``). What is chosen
    passes with room to spare.

    Parameters
    ----------
    joints : sequence of Joint
        All that are to be made.
    kinds : sequence of str
        Kinds of fasteners to choose from.
    shown : int
        How many different fasteners to lay out for each join, one length of each.
    """
    if not joints:
        return []
    table = whole_table(tuple(kinds))
    found = Found.of(joints, table, CLOSE_FROM)
    score = np.where(found.count > 0, found.count * table.cost, np.inf)
    choices = []
    for number, joint in enumerate(joints):
        works = tuple(
            found.option(number, at, int(found.count[number, at]))
            for at in _cheapest(score[number], table.rows, shown)
        )
        choices.append(
            Choice(
                joint=joint,
                works=works,
                cheaper=_cheaper(found, number, score[number]),
                nearest=None if works else _nearest(found, number),
            )
        )
    return choices


def judge(
    joint: Joint, screw: tables.Fastener, length: float, count: int | None = None
) -> Option | Refused:
    """Say how a fastener of one's own choice does, in the number given or the least needed."""
    found = Found.of([joint], columns([(screw, length)]), CLOSE_FROM)
    fate = Fate(found.fate[0, 0])
    fits = int(found.room.fits[0, 0])
    if fate is Fate.NO_ROOM and count is not None and count <= fits:
        fate = Fate.GOOD
    if fate not in (Fate.GOOD, Fate.WEAK):
        return found.refused(0, 0)
    if count is None:
        count = int(found.count[0, 0]) or int(COUNTS[fits >= COUNTS][-1])
    if count > fits:
        return found.refused(0, 0, Fate.NO_ROOM)
    if joint.second.entered == "end grain" and count < END_GRAIN_COUNT:
        return found.refused(0, 0, Fate.FEW)
    return found.option(0, 0, count)


def _cheapest(score: NDArray[np.float64], rows: Sequence[tables.Fastener], shown: int) -> list[int]:
    """The cheapest that work, one length of each fastener."""
    kept: dict[str, int] = {}
    for at in np.argsort(score, kind="stable"):
        if len(kept) == shown or not np.isfinite(score[at]):
            break
        kept.setdefault(rows[at].name, int(at))
    return list(kept.values())


def _cheaper(found: Found, joint: int, score: NDArray[np.float64]) -> Refused | None:
    best = int(score.argmin())
    cost = found.screws.cost
    cheaper = cost < cost[best]
    if not np.isfinite(score[best]) or not cheaper.any():
        return None
    at = int(np.lexsort((cost, np.where(cheaper, found.fate[joint], -1)))[-1])
    needed = int(found.count[joint, at])
    one = found.refused(joint, at)
    return replace(one, fits=needed) if needed else one


def _nearest(found: Found, joint: int) -> Refused:
    """The one that comes furthest before something rules it out, or nearest to holding."""
    fate = found.fate[joint]
    furthest = int(fate.max())
    screws = found.screws
    if furthest == Fate.WEAK:
        off = found.used[joint]
    elif furthest == Fate.NARROW:
        off = screws.d
    else:
        off = -found.lies.reach[joint] / screws.d
    return found.refused(joint, int(np.where(fate == furthest, off, np.inf).argmin()))
