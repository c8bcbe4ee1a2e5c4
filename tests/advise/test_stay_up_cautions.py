"""Each caution about staying up appears where its trigger is, and not elsewhere."""

from __future__ import annotations

import pytest
from described import project, unit

from shelfload.advise import cautions
from shelfload.check.assess import assess
from shelfload.describe.reader import read_raw

BACK = {"material": "board", "thickness": "6 mm", "fixed": "glued"}
LOW = unit(heights=(300,), bays=(400,), back=BACK)
HUNG = unit(heights=(300,), bays=(400,), back=BACK, hangs={"maker": "anchor", "carcass": "anchor"})
TALL = unit(heights=(400, 400), bays=(400,), back=BACK)
BRACKETS = {
    "name": "board",
    "depth": "200 mm",
    "spans": ["600 mm"],
    "shelf": {"material": "board", "thickness": "20 mm"},
    "supports": {"kind": "brackets", "height": "150 mm", "maker": "anchor", "carcass": "anchor"},
}
BRICK = {"wall": "solid brick"}


def said(*units, fixings=None, **more):
    raw = project(*units, **more)
    if fixings is None:
        needed = "anchor" in str(raw.get("unit", "")) + str(raw.get("shelf", ""))
        if not needed:
            del raw["fixings"]
    description = read_raw(raw)
    found = assess(description.project, description.catalogue)
    return set(cautions.cautions(description, found))


def raised(**more):
    return {**LOW, "name": "raised", **more}


@pytest.mark.parametrize(
    ("texts", "with_it", "without_it"),
    [
        (cautions.HUNG, lambda: said(HUNG, site=BRICK), lambda: said(LOW)),
        (cautions.HUNG, lambda: said(site=BRICK, shelf=[BRACKETS]), lambda: said(LOW)),
        (
            cautions.OVERHEAD,
            lambda: said({**HUNG, "underside": "1400 mm"}, site=BRICK),
            lambda: said(LOW),
        ),
        (cautions.OVERHEAD, lambda: said(LOW, site={"people_below": True}), lambda: said(LOW)),
        (
            cautions.OVERHEAD,
            lambda: said(
                unit("tower", heights=(1100,), bays=(400,), back=BACK), raised(on="tower")
            ),
            lambda: said(LOW, raised(on="box")),
        ),
        (cautions.TALL, lambda: said(TALL), lambda: said(LOW)),
        (cautions.EARTHQUAKE, lambda: said(TALL), lambda: said(LOW)),
        (cautions.UNKNOWN_WALL, lambda: said(TALL), lambda: said(TALL, site=BRICK)),
        (cautions.UNKNOWN_WALL, lambda: said(HUNG, site={"wall": "unknown"}), lambda: said(LOW)),
        (
            cautions.PLASTERBOARD,
            lambda: said(TALL, site={"wall": "plasterboard"}),
            lambda: said(LOW, site={"wall": "plasterboard"}),
        ),
        (cautions.MAKERS_LOADS, lambda: said(HUNG, site=BRICK), lambda: said(LOW)),
        (cautions.BRIDGE, lambda: said(LOW, raised(on="box")), lambda: said(LOW)),
        (
            cautions.PEOPLE,
            lambda: said({**LOW, "top_contents": {"people": "sitting"}}),
            lambda: said({**LOW, "top_contents": {"load": "20 kg"}}),
        ),
        (cautions.CHILDREN, lambda: said(LOW, site={"children": True}), lambda: said(LOW)),
        (
            cautions.DRAWERS,
            lambda: said(
                {**LOW, "drawers": {"mass": "3 kg", "out": "200 mm"}}, site={"children": True}
            ),
            lambda: said(LOW, site={"children": True}),
        ),
        (
            cautions.HEAVY,
            lambda: said(unit(heights=(400, 400), bays=(1400,), depth=600)),
            lambda: said(LOW),
        ),
        (cautions.RACKING, lambda: said(unit(heights=(300,), bays=(400,))), lambda: said(LOW)),
        (
            cautions.FLOOR,
            lambda: said(unit(heights=(300,), bays=(400,), loads=[300], back=BACK)),
            lambda: said(LOW),
        ),
        (cautions.NOT_CHECKED, lambda: said(TALL), lambda: said(LOW)),
    ],
)
def test_caution_appears_where_its_trigger_is(texts, with_it, without_it):
    wanted = {texts} if isinstance(texts, str) else set(texts)
    assert wanted <= with_it()
    assert not wanted & without_it()


def test_safety_page_holds_what_the_cautions_say_in_short():
    from pathlib import Path

    page = " ".join(
        Path(__file__).parents[2].joinpath("SAFETY.md").read_text("utf-8").casefold().split()
    )
    for word in (
        "licensed", "local", "plasterboard", "magnet", "pull", "children", "earthquake",
        "cables", "maker", "not checked", "from memory",
    ):  # fmt: skip
        assert word in page, word
