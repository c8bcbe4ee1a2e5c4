"""Stacks of open boxes on the floor, as tests of the frame use them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from shelfload.solve.frame_model import Frame


def grid(columns: int, levels: int) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Nodes, uprights (bottom to top), shelves (left to right) of a stack of bays."""
    x, z = np.meshgrid(np.arange(columns), np.arange(levels + 1))
    number = np.arange(x.size).reshape(x.shape)
    uprights = np.stack([number[:-1].ravel(), number[1:].ravel()], axis=1)
    shelves = np.stack([number[:, :-1].ravel(), number[:, 1:].ravel()], axis=1)
    return np.stack([x.ravel(), z.ravel()], axis=1).astype(float), uprights, shelves


def bays(columns: int, levels: int) -> np.ndarray:
    """Corner nodes of each bay, from the floor up and from left to right."""
    number = np.arange(columns * (levels + 1)).reshape(levels + 1, columns)
    corners = [number[:-1, :-1], number[:-1, 1:], number[1:, 1:], number[1:, :-1]]
    return np.stack([corner.ravel() for corner in corners], axis=1)


def stack(columns: int, levels: int, *, backs: Sequence[int] = (), **more: Any) -> Frame:
    """Straight stack of boxes on hinges on the floor, pinned unless told otherwise."""
    nodes, uprights, shelves = grid(columns, levels)
    fixed = np.zeros((len(nodes), 3), dtype=bool)
    fixed[:columns, :2] = True
    usual: dict[str, Any] = {
        "nodes": nodes * [800.0, 350.0],
        "members": np.concatenate([uprights, shelves]),
        "EA": 1.6e7,
        "EI": 4e8,
        "GA": 7e5,
        "joints": 0.0,
        "fixed": fixed,
        "panels": bays(columns, levels)[list(backs)] if backs else (),
        "panel_stiffness": 500.0 if backs else (),
    }
    return Frame(**(usual | more))
