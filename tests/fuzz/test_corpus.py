"""Every input that once broke something, read again; how to add one stands in DEVELOPERS.md."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from fuzz import oracle

CASES = sorted(path for path in (Path(__file__).parent / "corpus").glob("*/*") if path.is_file())


@pytest.mark.parametrize("path", CASES, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_kept_case_is_refused_with_its_place_or_answered_whole(path):
    content = path.read_bytes()
    if path.suffix == ".json":
        oracle.check_raw(json.loads(content))
    else:
        oracle.READERS[path.parent.name](content.decode("utf-8", "surrogateescape"))
