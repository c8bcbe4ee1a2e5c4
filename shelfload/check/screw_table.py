"""The fasteners table as columns: every fastener in every length it is sold in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from math import nan

import numpy as np
from numpy.typing import NDArray

from shelfload import tables
from shelfload.describe.joins import KINDS

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]

PRICE = {
    "chipboard screw": 1.0,
    "full-thread screw": 1.1,
    "wood screw": 1.5,
    "coach screw": 2.0,
    "panel connector": 2.0,
    "connector bolt": 6.0,
    "bolt": 8.0,
    "machine screw and insert": 8.0,
    "nail": 0.5,
    "ring-shank nail": 0.6,
}
"""What a kind costs, bought and set, beside a plain screw of that steel (judgement, no source)."""
HOLE = 480.0
"""What a hole costs beside steel, as d2 L of a 4 x 30 mm screw [mm3] (judgement, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """Fasteners of certain lengths, one in each place of every array [mm, MPa]."""

    rows: tuple[tables.Fastener, ...]
    length: Array
    d: Array
    root: Array
    shank: Array
    head: Array
    head_depth: Array
    thread_share: Array
    f_u: Array
    sunk: Flags
    is_screw: Flags
    is_bolt: Flags
    by_maker: Flags
    cost: Array

    def at(self, index: int) -> tuple[tables.Fastener, float]:
        """Return one fastener and its length."""
        return self.rows[index], float(self.length[index])


@cache
def whole_table(kinds: tuple[str, ...]) -> Columns:
    """Return every fastener of some kinds, in every length."""
    return columns(
        [
            (row, length)
            for row in tables.fasteners().values()
            if row.kind in kinds
            for length in row.lengths
        ]
    )


def columns(chosen: Sequence[tuple[tables.Fastener, float]]) -> Columns:
    """Return chosen fasteners as columns."""
    rows = tuple(row for row, _ in chosen)
    length = np.array([length for _, length in chosen], dtype=np.float64)

    def column(name: str) -> Array:
        values = (getattr(row, name) for row in rows)
        return np.array([nan if value is None else value for value in values], dtype=np.float64)

    def kind(*names: str) -> Flags:
        return np.array([row.kind in names for row in rows], dtype=np.bool_)

    d = column("diameter")
    price = np.array([PRICE[row.kind] for row in rows])
    return Columns(
        rows=rows,
        length=length,
        d=d,
        root=column("root_diameter"),
        shank=column("shank_diameter"),
        head=column("head_diameter"),
        head_depth=np.nan_to_num(column("head_depth")),
        thread_share=np.nan_to_num(column("thread_share")),
        f_u=column("f_u"),
        sunk=np.array([row.head_shape == "countersunk" for row in rows]),
        is_screw=kind(*KINDS["screws"]),
        is_bolt=kind(*KINDS["bolts"]),
        by_maker=kind(*KINDS["connectors"], *KINDS["inserts"]),
        cost=price * (HOLE + d**2 * length),
    )
