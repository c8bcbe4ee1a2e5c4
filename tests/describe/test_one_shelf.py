"""One shelf from options: the same description as a file would give, mistakes named by option."""

from __future__ import annotations

import pytest
from printed import printed

from shelfload.describe.one_shelf import one_shelf
from shelfload.errors import DescriptionError

NOTHING_SAID = {
    "find": None, "span": None, "spans": None, "length": None, "thickness": None,
    "depth": "250 mm", "material": "birch-plywood", "grain": None, "ends": None,
    "bearing": None, "limit": None, "lipping": None, "lipping_material": "birch-plywood",
    "doubled": None, "name": "shelf", "overhang": None, "service_class": "indoor",
    "contents": None, "load": None, "people": None, "point": [], "person": [],
    "brackets": None, "bracket_height": None, "cleat": None, "cleat_ends": None, "rods": None,
    "rod": None, "rod_in_wall": None, "screw": None, "screw_length": None, "fixings": None,
    "wall": None, "stud_spacing": None, "people_below": False, "children": False,
}  # fmt: skip


def described(**options):
    return one_shelf({**NOTHING_SAID, **options})


def read(**options):
    usual = {"span": "800 mm", "thickness": "18 mm", "load": "20 kg/m"}
    (shelf,) = described(**{**usual, **options}).project.shelf
    return shelf


def mistakes(**options):
    usual = {"span": "800 mm", "thickness": "18 mm", "load": "20 kg/m"}
    with pytest.raises(DescriptionError) as fault:
        described(**{**usual, **options})
    return {one.key: one for one in fault.value.mistakes}


def test_options_are_read_as_a_file_would_be():
    shelf = read(
        depth="10 in", bearing="20 mm", overhang="100 mm", ends="clamped", name="top",
        service_class="humid",
    )  # fmt: skip
    assert shelf.name == "top"
    assert shelf.depth == pytest.approx(254.0)
    assert shelf.spans == (800.0,)
    assert shelf.shelf.thickness == 18.0
    assert shelf.shelf.bearing == 20.0
    assert shelf.shelf.ends == "clamped"
    assert (shelf.overhang_left, shelf.overhang_right) == (100.0, 100.0)


def test_site_options():
    project = described(
        span="800 mm", thickness="18 mm", wall="timber stud", stud_spacing="16 in",
        people_below=True, children=True, service_class="outdoor", load="1 kg",
    ).project  # fmt: skip
    assert project.site.wall == "timber stud"
    assert project.site.stud_spacing == printed("406.4")
    assert project.site.people_below
    assert project.site.children
    assert project.site.service_class == 3
    quiet = described(span="800 mm", thickness="18 mm", load="1 kg").project.site
    assert not quiet.people_below
    assert not quiet.children


def test_several_spans_share_a_load_and_a_point_stands_on_the_first():
    spread = read(span=None, spans="600 mm, 24 in")
    assert spread.spans == pytest.approx((600.0, 609.6))
    (fill,) = spread.contents  # one for all
    assert fill.load.value == pytest.approx(20e-3 * 9.80665)
    point = read(span=None, spans="600 mm, 400 mm", load=None, point=["20 kg @ 300 mm"])
    first, second = point.contents
    assert first.points[0].at == 300.0
    assert second is None  # empty


def test_points_and_people_last_as_long_as_they_do():
    (fill,) = read(
        load=None, point=["20 kg @ 300 mm"], person=["90 kg@ 1/2 m", "1 kN @ 200 mm"]
    ).contents
    assert [point.duration for point in fill.points] == ["long-term", "short-term", "short-term"]
    assert [point.at for point in fill.points] == [300.0, 500.0, 200.0]
    # 9.80665 m/s2 (CGPM 1901)
    assert fill.points[0].load.value == pytest.approx(20 * 9.80665)


@pytest.mark.parametrize("cross", ["x", "×"])
def test_lipping(cross):
    lipping = read(lipping=f"20 mm {cross} 45 mm", lipping_material="c24").shelf.lipping_front
    assert (lipping.thickness, lipping.height, lipping.material) == (20.0, 45.0, "c24")
    assert read().shelf.lipping_front is None


def test_doubled_panel():
    shelf = read(doubled="glued").shelf
    assert (shelf.panels, shelf.joined) == (2, "glued")
    assert read().shelf.panels == 1


def test_brackets_are_placed_along_a_length():
    held = read(
        span=None, length="1200 mm", brackets=3, bracket_height="200 mm", screw="coach-screw-8",
        screw_length="80 mm", fixings=2,
    ).supports  # fmt: skip
    assert (held.kind, held.number, held.height) == ("brackets", 3, 200.0)
    assert (held.screw, held.length, held.count) == ("coach-screw-8", 80.0, 2)


def test_cleat_and_rods():
    cleat = read(cleat="40 mm", screw="coach-screw-8", screw_length="80 mm", fixings=4).supports
    assert (cleat.kind, cleat.height, cleat.count) == ("cleat", 40.0, 4)
    rods = read(rods=3, rod="12 mm", rod_in_wall="100 mm").supports
    assert (rods.kind, rods.number, rods.diameter, rods.in_wall) == ("rods", 3, 12.0, 100.0)
    assert read().supports is None


@pytest.mark.parametrize(
    ("find", "left_out"),
    [("span", {"span": None}), ("thickness", {"thickness": None}), ("load", {"load": None})],
)
def test_what_is_looked_for_may_be_left_out(find, left_out):
    found = read(find=find, **left_out)
    assert found.spans
    assert found.shelf.thickness == 18.0
    assert found.contents


@pytest.mark.parametrize("name", ["span", "thickness"])
def test_what_is_not_looked_for_may_not(name):
    (key,) = mistakes(**{name: None, "find": "load"})
    assert key == f"--{name}"


def test_load_that_is_looked_for_starts_from_what_is_said():
    (fill,) = read(find="load", load="3 kg").contents
    assert fill.load.value == pytest.approx(3 * 9.80665)


@pytest.mark.parametrize(
    ("wrong", "key", "words"),
    [
        ({"depth": "0 mm"}, "--depth", ""),
        ({"thickness": "18"}, "--thickness", ""),
        ({"material": "brich-plywood"}, "--material", ""),
        ({"span": "wide"}, "--span", ""),
        ({"span": None, "spans": "600 mm, wide"}, "--spans", "allowed: "),
        ({"load": "20"}, "--load", ""),
        ({"contents": "boks"}, "--contents", ""),
        ({"point": ["20 kg"]}, "--point", "a load, @ and a place"),
        ({"person": ["90 kg"]}, "--person", "a load, @ and a place"),
        ({"load": None, "point": ["20 kg @ 3 m"]}, "--point", ""),
        ({"lipping": "20 mm"}, "--lipping", "front to back"),
        ({"lipping": "20 mm x tall"}, "--lipping", ""),
        ({"lipping": "20 mm x 45 mm", "lipping_material": "oka"}, "--lipping-material", ""),
        ({"bearing": "wide"}, "--bearing", ""),
        ({"overhang": "far"}, "--overhang", ""),
        ({"wall": "paper"}, "--wall", ""),
        ({"stud_spacing": "x"}, "--stud-spacing", ""),
        ({"cleat": "tall"}, "--cleat", ""),
        ({"span": None, "length": "1 m", "brackets": 2, "bracket_height": "x"},
         "--bracket-height", ""),
        ({"rods": 2, "rod": "x", "rod_in_wall": "90 mm"}, "--rod", ""),
        ({"rods": 2, "rod": "12 mm", "rod_in_wall": "x"}, "--rod-in-wall", ""),
        ({"cleat": "40 mm", "screw": "nothing"}, "--screw", ""),
        ({"cleat": "40 mm", "screw": "coach-screw-8", "screw_length": "x"}, "--screw-length", ""),
        ({"span": None, "length": "1 m"}, "--length", "--brackets"),
        ({"length": "1 m", "brackets": 2, "bracket_height": "200 mm"}, "--length", "--span"),
    ],
)  # fmt: skip
def test_mistake_stands_under_its_option(wrong, key, words):
    found = mistakes(**wrong)
    assert set(found) == {key}
    assert words in found[key].allowed
    assert "this key" not in found[key].allowed


def test_all_mistakes_come_at_once():
    found = mistakes(depth="deep", span=None, spans="x", point=["y"], lipping="z")
    assert set(found) == {"--depth", "--spans", "--point", "--lipping"}


def test_nearest_name_of_a_material():
    assert mistakes(material="brich-plywood")["--material"].nearest == "birch-plywood"
