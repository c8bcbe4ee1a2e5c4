"""Published span guidance of the trade beside what this program says.

The table stands in DEVELOPERS.md, and this test works it out again, so that it can't drift.
Run this file to print it anew. The guidance is opinion of the trade, "common practice" in the
tables of figures; conditions are those its sources state or imply: 10 in deep, 20 lb/ft.
"""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from shelfload import tables
from shelfload.advise.search import largest
from shelfload.advise.span_tables import span_table
from shelfload.advise.table_cells import Asked, Sheet
from shelfload.check.assess import assess
from shelfload.check.result import Verdict
from shelfload.describe.reader import read_raw
from shelfload.solve.overhang import best_overhang
from shelfload.tables import figures

DEPTH = 254.0  # 10 in
BOOKS = 30.0 * 9.80665e-3  # N/mm; 20 lb/ft, the usual figure for planning
HEADER = ("rule of the trade", "it says", "first day, span / 300", "after years, span / 200", "so")

SPANS = (
    # row of the figures, sheet, thickness [mm], panels, spans
    ("span-particleboard-books", "particleboard-p2", 19.0, "free ends"),
    ("span-plywood-books", "birch-plywood", 18.0, "free ends"),
    ("span-plywood-books", "spruce-plywood", 18.0, "free ends"),
    ("span-solid-books", "c24", 20.0, "free ends"),
    ("span-solid-books", "northern-red-oak", 19.0, "free ends"),
    ("span-doubled-books", "northern-red-oak", 38.0, "free ends"),
    ("span-before-divider", "birch-plywood", 18.0, "free ends"),
    ("bracket-spacing", "particleboard-p2", 19.0, "over two dividers"),
    ("bracket-spacing", "birch-plywood", 18.0, "over two dividers"),
)


def span(material, thickness, support, limit):
    asked = Asked(
        sheets=(Sheet(material=material, thickness=thickness),), depth=DEPTH, supports=(support,),
        limit=limit,
    )  # fmt: skip
    return float(span_table(asked, (BOOKS,)).values[support][0, 0])


def verdict(low, high, first_day, final):
    """Agree within a tenth: nobody's books weigh the same."""
    if low <= 1.1 * final:
        return "agrees" if high >= 0.9 * final else "shorter than need be"
    return "first day only: it leaves out creep" if low <= 1.1 * first_day else "too long"


def told(row):
    ends = [row.low] if row.high is None else [row.low, row.high]
    return " to ".join(f"{end:.0f}" for end in ends)


def span_rows():
    for name, material, thickness, support in SPANS:
        row = figures()[name]
        first_day = span(material, thickness, support, "first day")
        final = span(material, thickness, support, "tolerable")
        low, high = row.low, row.high or row.low
        if name == "bracket-spacing":  # from particleboard to plywood
            low = high = row.low if material.startswith("particle") else row.high
        says = told(row) if name != "bracket-spacing" else f"{low:.0f}"
        yield (
            f"{row.title} ({material}, {thickness:g} mm)", f"{says} mm", f"{first_day:.0f} mm",
            f"{final:.0f} mm", verdict(low, high, first_day, final),
        )  # fmt: skip


def with_strip(limit, **strips):
    """Longest shelf of 18 mm birch plywood under books that passes, with strips or without."""

    def passes(clear):
        described = read_raw(
            {
                "shelf": [
                    {
                        "name": "shelf", "depth": f"{DEPTH} mm", "spans": [f"{clear:.6f} mm"],
                        "contents": {"load": f"{BOOKS} N/mm"},
                        "shelf": {"material": "birch-plywood", "thickness": "18 mm",
                                  "limit": limit, **strips},
                    }
                ]
            }
        )  # fmt: skip
        found = assess(described.project, described.catalogue)
        return found.verdict in (Verdict.PASSES, Verdict.CLOSE)

    return largest(passes, 300.0, 3000.0)


def other_rows():
    gain = figures()["span-gain-front-strip"]
    face = {"material": "c24", "thickness": "19 mm", "height": "32 mm"}
    edge = {"material": "c24", "thickness": "19 mm", "height": "51 mm"}
    for says, strips, words in (
        (gain.low, {"lipping_front": face}, "face strip 19 x 32 mm"),
        (gain.high, {"lipping_front": edge, "lipping_rear": edge}, "19 x 51 mm front and rear"),
    ):
        ours = [
            with_strip(limit, **strips) / with_strip(limit) for limit in ("first day", "tolerable")
        ]
        so = "agrees" if abs(says / ours[1] - 1.0) <= 0.1 else "it gains more here"
        yield (
            f"{gain.title} ({words}, 18 mm birch plywood)", f"{says:g}",
            *(f"{ratio:.2f}" for ratio in ours), so if says <= 1.1 * ours[1] else "it gains less",
        )  # fmt: skip
    hardwood = figures()["span-per-thickness-hardwood"]
    ours = [span("northern-red-oak", 19.0, "free ends", limit) / 19.0
            for limit in ("first day", "tolerable")]  # fmt: skip
    yield (
        f"{hardwood.title} (northern-red-oak, 19 mm)", f"{hardwood.low:g}",
        *(f"{ratio:.0f}" for ratio in ours),
        verdict(hardwood.low, hardwood.low, *ours),
    )  # fmt: skip
    inset = figures()["bracket-inset"]
    best = best_overhang(2)
    agrees = inset.low <= best <= inset.high
    yield (
        inset.title, f"{inset.low:g} to {inset.high:g}", f"{best:.3f}", f"{best:.3f}",
        "agrees" if agrees else "differs",
    )  # fmt: skip
    for board, kind in (("plywood", "plywood"), ("particleboard P4", "particleboard, MDF")):
        k_def = tables.kdef(board, 1).value
        yield (
            f"Growth of sag over the years, {kind}", "+50 %", "-", f"+{k_def:.0%}",
            "the code asks for more: kept",
        )  # fmt: skip


def lines():
    yield f"| {' | '.join(HEADER)} |"
    yield "| --- " * len(HEADER) + "|"
    for row in (*span_rows(), *other_rows()):
        yield f"| {' | '.join(row)} |"


def test_table_in_the_developers_guide_is_what_the_program_says():
    guide = (Path(__file__).parents[2] / "DEVELOPERS.md").read_text(encoding="utf-8")
    missing = [line for line in lines() if line not in guide]
    assert not missing, "print it anew by running this file"


@pytest.mark.parametrize(
    ("material", "thickness", "trade"),
    [("birch-plywood", 18.0, "span-plywood-books"), ("c24", 20.0, "span-solid-books")],
)
def test_trade_spans_of_plywood_and_solid_wood_are_within_reach(material, thickness, trade):
    row = figures()[trade]
    assert span(material, thickness, "free ends", "tolerable") >= row.low


def test_trade_span_of_particleboard_holds_on_the_first_day_only():
    # kdef 2.25 of EN 1995-1-1 Table 3.2 makes the difference; the trade counts no creep
    row = figures()["span-particleboard-books"]
    assert span("particleboard-p2", 19.0, "free ends", "tolerable") < 0.85 * row.low


if __name__ == "__main__":
    sys.stdout.write("\n".join(lines()) + "\n")
