"""One join as the command asks about it, without the command line."""

from __future__ import annotations

from shelfload.check.one_join import one_join_findings
from shelfload.describe.one_join import one_join

NOTHING_SAID = {
    "force": None, "pull": None, "lasting": "long-term", "into_edge": False,
    "into_end_grain": False, "redriven": False, "screw": None, "count": None, "by": None,
    "recess": None, "span": None, "depth": None, "service_class": "indoor",
}  # fmt: skip


def asked(first="birch-plywood 18 mm", second="c24 45 mm", length="400 mm", **more):
    return one_join({**NOTHING_SAID, "first": first, "second": second, "length": length, **more})


def join(*pieces, step=5.0, **more):
    return one_join_findings(asked(*pieces, **more), step)
