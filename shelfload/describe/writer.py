"""A description written back as the nested mappings that it can be read from."""

from __future__ import annotations

from typing import Any

from shelfload.describe.model import Project


def as_mapping(project: Project) -> dict[str, Any]:
    """Return a project as mappings of text with units; what is left at its default is left out.

    ``read_raw(as_mapping(project))`` gives the same project again.
    """
    written: dict[str, Any] = _plain(project.model_dump(exclude_defaults=True))
    return written


def _plain(value: Any) -> Any:
    if isinstance(value, dict):
        # an empty bay is None inside and "empty" in the user's words
        return {
            key: _fills(inner) if key in ("contents", "top_contents") else _plain(inner)
            for key, inner in value.items()
        }
    if isinstance(value, list | tuple):
        return [_plain(inner) for inner in value]
    return value


def _fills(value: Any) -> Any:
    if isinstance(value, list | tuple):
        return ["empty" if fill is None else _plain(fill) for fill in value]
    return _plain(value)
