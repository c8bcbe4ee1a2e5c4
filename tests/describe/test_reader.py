"""Reading descriptions: what is accepted, and how mistakes are told."""

from __future__ import annotations

import pytest

from shelfload.describe.examples import example_names, example_text
from shelfload.describe.reader import read_text
from shelfload.errors import DescriptionError

GOOD = """
[[unit]]
name = "cupboard"
depth = "400 mm"
panel = { material = "birch-plywood", thickness = "18 mm" }
[[unit.level]]
height = "350 mm"
bays = ["800 mm", "31 1/2 in"]
contents = { load = "30 kg/m" }
"""


def mistakes_of(text: str) -> list[str]:
    with pytest.raises(DescriptionError) as caught:
        read_text(text)
    return [str(mistake) for mistake in caught.value.mistakes]


def test_good_description_is_read_in_internal_units():
    unit = read_text(GOOD).project.unit[0]
    assert unit.depth == pytest.approx(400.0)
    assert unit.level[0].bays == pytest.approx((800.0, 800.1))
    fill = unit.level[0].fills[1]
    # 30 kg/m x 9.80665 m/s2, standard gravity (BIPM SI Brochure)
    assert fill.load.kind == "line"
    assert fill.load.value == pytest.approx(30 * 9.80665 / 1000)


@pytest.mark.parametrize("name", example_names())
def test_every_bundled_example_is_accepted(name):
    assert read_text(example_text(name)).project.title


def test_five_mistakes_are_all_named_with_line_found_allowed_and_nearest():
    text = GOOD.replace('depth = "400 mm"', 'depth = "400"')
    text = text.replace("birch-plywood", "brich-plywood")
    text = text.replace("height =", "hieght =")
    text = text.replace('{ load = "30 kg/m" }', '"bookz"')
    text += '\n[site]\nservice_class = "attic"\n'
    told = mistakes_of(text)
    for wanted in (
        "line 4, unit[1].depth: found 400",
        "line 5, unit[1].panel.material: found 'brich-plywood'",
        "Did you mean birch-plywood?",
        "line 7, unit[1].level[1].hieght: found the unknown key 'hieght'",
        "Did you mean height?",
        "unit[1].level[1].height: found nothing; this key is needed",
        "unit[1].level[1].contents: found 'bookz'",
        "line 12, site.service_class: found 'attic'",
    ):
        assert any(wanted in line for line in told), (wanted, told)


def test_doubled_unit_name_is_told_at_the_second():
    text = GOOD + GOOD
    told = mistakes_of(text)
    assert len(told) == 1
    assert told[0].startswith("line 12, unit[2].name: found a second unit called 'cupboard'")


def test_levels_that_do_not_end_flush_are_told():
    text = GOOD + '[[unit.level]]\nheight = "300 mm"\nbays = ["700 mm"]\n'
    (told,) = mistakes_of(text)
    assert "level 2 is 736 mm wide outside, level 1 1654 mm" in told


@pytest.mark.parametrize(
    ("change", "to", "wanted"),
    [
        ('"800 mm", "31 1/2 in"', "800", "bays"),
        ('"30 kg/m"', '"30"', "contents"),
        ('"30 kg/m"', '"0 kg/m"', "above zero"),
        ('"30 kg/m"', '"nan kg/m"', "contents"),
        ('"30 kg/m"', '"30 mm"', "contents"),
        ('"400 mm"', '"-400 mm"', "depth"),
        ('"18 mm"', '"18.9 cm"', "tabled"),
        ('{ load = "30 kg/m" }', "{ }", "empty table"),
        ('{ load = "30 kg/m" }', '["books", "books", "books"]', "3 contents for 2 bays"),
        ('{ load = "30 kg/m" }', '{ what = "paper-ream-a4" }', "without count"),
        ('{ load = "30 kg/m" }', '{ what = "books", count = 3 }', "with count"),
        (
            '{ load = "30 kg/m" }',
            '{ points = [{ load = "5 kg", at = "900 mm" }] }',
            "in a bay 800 mm wide",
        ),
        (
            '{ load = "30 kg/m" }',
            '{ points = [{ load = "5 kg/m", at = "1 mm" }] }',
            'a total such as "20 kg"',
        ),
    ],
)
def test_bad_values_say_what_is_wrong(change, to, wanted):
    told = mistakes_of(GOOD.replace(change, to))
    assert any(wanted in line for line in told), told


def test_double_needs_to_say_how_it_is_joined():
    (told,) = mistakes_of(GOOD + "shelf = { panels = 2 }\n")
    assert "panels = 2 without 'joined'" in told


def test_back_fixed_at_a_spacing_needs_the_spacing():
    back = 'back = { material = "hardboard", thickness = "3.2 mm", fixed = "nailed" }\n'
    (told,) = mistakes_of(GOOD + back)
    assert "without spacing" in told


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("", "no unit and no shelf"),
        ("x = [", "no valid TOML"),
        ("[" * 3000, "no valid TOML"),
        ("unit = 3", "unit"),
        ("unit = [3]", "unit[1]"),
    ],
)
def test_what_is_no_description_is_one_clear_mistake(text, wanted):
    told = mistakes_of(text)
    assert wanted in told[0]


def test_byte_order_mark_and_windows_line_ends_are_read():
    assert read_text("\ufeff" + GOOD.replace("\n", "\r\n")).project.unit


def test_own_material_and_contents_are_used_and_need_a_source():
    own = """
[materials.shop-ply]
kind = "plywood"
density = "640 kg/m3"
E = "7.5 GPa"
G = "150 MPa"
bending_strength = "30 MPa"
source = "offcut measured on two trestles"
[contents.pads]
load = "28 kg/m"
source = "weighed"
"""
    text = GOOD.replace("birch-plywood", "shop-ply").replace('{ load = "30 kg/m" }', '"pads"')
    found = read_text(text + own)
    assert found.catalogue.material("shop-ply", 18.0).material.E_0 == pytest.approx(7500.0)
    told = mistakes_of(text + own.replace('source = "weighed"', ""))
    assert any("contents.pads.source" in line and "needed" in line for line in told)


def test_own_rows_can_stand_in_a_csv(tmp_path):
    table = tmp_path / "mine.csv"
    table.write_text("name,typical [kg/m],status,source\npads,28,own,weighed\n", encoding="utf-8")
    text = 'contents_from = "mine.csv"\n' + GOOD.replace('{ load = "30 kg/m" }', '"pads"')
    found = read_text(text, folder=tmp_path)
    assert found.catalogue.contents("pads").typical == pytest.approx(28 * 9.80665 / 1000)
    table.write_text("name,typical [kg/m],status,source\npads,much,own,weighed\n")
    with pytest.raises(DescriptionError, match=r"mine\.csv.*much"):
        read_text(text, folder=tmp_path)


def test_control_characters_in_a_name_are_refused():
    (told,) = mistakes_of(GOOD.replace('"cupboard"', '"cup\\u202eboard"'))
    assert "without control characters" in told
