"""Reading and showing numbers with units.

Exact definitions (inch, pound, standard gravity): SI brochure, 9th edition, 2019, and
NIST SP 811 (2008), appendix B. Derived factors are compared twice: with the definitions
multiplied out by hand, and with seven-figure factors as in NIST SP 811, appendix B.8
(written down from memory, not read again in the document).
"""

from __future__ import annotations

import contextlib
import math
import subprocess
import sys
from fractions import Fraction
from typing import get_args

import pint
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from printed import printed

from shelfload.errors import QuantityError
from shelfload.units import (
    NO_FIGURE,
    Dimension,
    Load,
    express,
    factor,
    quantity,
    read,
    read_lengths,
    read_load,
    read_number,
    read_screw_diameter,
    show,
    show_size,
    shown_value,
)
from shelfload.units.factors import FACTORS, INTERNAL
from shelfload.units.names import LOADS, unit_name
from shelfload.units.quantities import pint_name, registry
from shelfload.units.showing import in_people_units

DIMENSIONS = get_args(Dimension)
INCH = 25.4  # mm, exact: SP 811 appendix B
POUND = 0.45359237  # kg, exact: SP 811 appendix B
G0 = 9.80665  # m/s2, standard gravity, exact: SI brochure
LBF = POUND * G0


def refusal(text: object, dimension: Dimension = "length") -> str:
    with pytest.raises(QuantityError) as caught:
        read(text, dimension)  # type: ignore[arg-type]
    return str(caught.value)


# ---- the number


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("12", 12),
        ("12.5", 12.5),
        (".5", 0.5),
        ("12,5", 12.5),
        ("12,55", 12.55),
        ("1,2345", 1.2345),
        ("0,125", 0.125),
        ("0", 0),
        ("3/4", 0.75),
        ("1 1/2", 1.5),
        ("1-1/2", 1.5),
        ("11 1/4", 11.25),
        ("½", 0.5),
        ("1½", 1.5),
        ("1 ½", 1.5),
        ("1-½", 1.5),
        ("23⅝", 23.625),
        ("¼", 0.25),
        ("¾", 0.75),
        ("⅛", 0.125),
        ("⅜", 0.375),
        ("⅞", 0.875),
        ("⅓", 1 / 3),
        ("⅚", 5 / 6),
        ("3⁄4", 0.75),
        (" 12 ", 12),
        ("1\u00a01/2", 1.5),
    ],
)
def test_number_as_written(text, number):
    assert read_number(text) == number


@pytest.mark.parametrize(
    "text",
    [
        *(
            "",
            " ",
            "abc",
            "nan",
            "inf",
            "-1",
            "+1",
            "−1",
            "-½",
            "1e3",
            "1E3",
            "1e-3",
            "0x10",
            "1_000",
        ),
        *(
            "1 000",
            "1'000",
            "1,000",
            "12,345",
            "1.200,5",
            "1,200.5",
            "1.200.000",
            "12.",
            "1..2",
        ),
        *(
            "1/0",
            "1 5/4",
            "2 4/4",
            "1.5 1/2",
            "1/2/3",
            "1 / 2",
            "5½2",
            "½½",
            "1/½",
            "½/4",
            "1,½",
        ),
        *(
            "9**9",
            "2*3",
            "(1)",
            "1 mm",
            "1 2",
            "٣",
            "１２",
            "5²",
            "²",
            "9" * 61,
            "1 -1/2",
            "1 - 1/2",
        ),
    ],
)
def test_number_refused(text):
    with pytest.raises(QuantityError):
        read_number(text)


@pytest.mark.parametrize("text", ["1,200 mm", "12,345 mm", "1200,500 mm"])
def test_comma_before_three_digits_is_refused_in_words(text):
    assert "may be a decimal mark or part thousands" in refusal(text)


def test_thousands_separators_are_refused_in_words():
    for text in ("1.200,5 mm", "1 200 mm", "1,200,000 mm"):
        assert "thousands" in refusal(text)


# ---- what a units library's own parser gets wrong


def test_mixed_number_is_added_not_overwritten():
    assert read("1 1/2 in", "length") == 38.1


def test_decimal_comma_is_not_dropped():
    assert read("12,5 mm", "length") == 12.5


def test_feet_and_inches_are_added_not_multiplied():
    assert read("5' 6\"", "length") == 1676.4


def test_two_numbers_are_not_multiplied():
    assert "one number, then one unit" in refusal("12 mm 3")


def test_power_tower_is_never_worked_out():
    # worked out, this would never return
    assert "one number, then one unit" in refusal("9**9**9 mm")


@pytest.mark.parametrize("text", ["nan mm", "inf mm", "-inf mm", "1e400 mm", "NaN mm", "∞ mm"])
def test_no_infinite_or_missing_number(text):
    refusal(text)


@pytest.mark.parametrize("text", ["-5 mm", "−5 mm", "–5 mm", "+5 mm"])
def test_sign_is_refused_in_words(text):
    assert "without a sign" in refusal(text)


@pytest.mark.parametrize("text", ["12", "3/4", "12,5", "½"])
def test_number_without_unit_is_refused_in_words(text):
    assert "a number without a unit can't be used" in refusal(text)


@pytest.mark.parametrize("value", [12, 12.5, 0])
def test_bare_python_number_is_refused_in_words(value):
    assert "a number without a unit can't be used" in refusal(value)


@pytest.mark.parametrize("value", [None, True, [], {}, b"12 mm", ("12 mm",)])
def test_other_types_are_refused(value):
    assert "a length such as" in refusal(value)


@pytest.mark.parametrize(
    ("text", "dimension"),
    [
        ("1000000000000 m", "length"),
        ("9" * 50 + " mm", "length"),
        ("0.0000000001 mm", "length"),
        ("99999999999 t", "force"),
    ],
)
def test_size_nobody_builds_is_refused(text, dimension):
    assert "a size that can be built" in refusal(text, dimension)


def test_zero_is_a_size():
    assert read("0 mm", "length") == 0
    assert read_load("0 kg/m") == Load("line", 0)


def test_long_text_is_refused_and_shortened_in_the_message():
    message = refusal("1 " * 10_000 + "mm")
    assert "at most 60 characters" in message
    assert len(message) < 300


# ---- lengths of the trade


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("5 ft 6 in", 66),
        ("5 ft. 6 in.", 66),
        ("5ft6in", 66),
        ("5 feet 6 inches", 66),
        ("1 foot 1 inch", 13),
        ("5' 6\"", 66),
        ("7'6\"", 90),
        ("7′6″", 90),
        ("7’6”", 90),
        ("7' 6''", 90),
        ("7′ 6′′", 90),
        ("5' 6 1/2\"", 66.5),
        ("5'-6 1/2\"", 66.5),
        ("5' 6½\"", 66.5),
        ("5' 0\"", 60),
        ("5' 1/2\"", 60.5),
        ("6'", 72),
        ("1 1/2 ft", 18),
        ('3/4"', 0.75),
        ("3/4 in", 0.75),
        ('23 5/8"', 23.625),
        ("2 yd", 72),
        ("16 in o.c.", 16),
        ('16" o.c.', 16),
        ('16"oc', 16),
        ("16 in. OC", 16),
        ("@ 16 in o.c.", 16),
        ("16 in on center", 16),
        ("16 in centres", 16),
        ("16 in c/c", 16),
        ("16 in c-c", 16),
    ],
)
def test_inch_lengths(text, inches):
    assert read(text, "length") == pytest.approx(inches * INCH, rel=1e-15)


@pytest.mark.parametrize(
    ("text", "length"),
    [
        ("600 mm", 600),
        ("600mm", 600),
        ("60 cm", 600),
        ("0.6 m", 600),
        ("2.44 m", 2440),
        ("600 millimetres", 600),
        ("600 Millimeters", 600),
        ("450 mm c/c", 450),
        ("450 mm centers", 450),
        ("@ 450 mm", 450),
        ("@450 mm", 450),
        ("18 mm.", 18),
    ],
)
def test_metric_lengths(text, length):
    assert read(text, "length") == length


@pytest.mark.parametrize(
    "text",
    [
        "5 ft 12 in",
        "5 ft 66 in",
        "5.5 ft 6 in",
        "5'6",
        "5' 6' ",
        "5\" 6'",
        "5 ft, 6 in",
        "5 ft -6 mm",
        "1 m 20 cm",
        "5 ft 6 in 3 in",
        "600-800 mm",
        "600–800 mm",
        "2 x 600 mm",
        "600 mm thick",
        "12.mm",
        "12 *mm",
        "12 -mm",
        "12 mm*",
        "12 mm-",
        "12 mm/",
        "10%",
    ],
)
def test_doubtful_lengths_are_refused(text):
    refusal(text)


def test_spacing_words_belong_to_lengths_only():
    for text in ("20 kg o.c.", "@ 20 kg"):
        refusal(text, "mass")


def test_same_length_in_mm_and_inch_text():
    assert read("19.05 mm", "length") == read("3/4 in", "length") == read('¾"', "length")
    assert read("2286 mm", "length") == read("7'6\"", "length") == read("90 in", "length")


# ---- loads


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("0.5 kN", "total", 500),
        ("20 kg", "total", 20 * G0),
        ("20 lb", "total", 20 * LBF),
        ("20 lbf", "total", 20 * LBF),
        ("20 kgf", "total", 20 * G0),
        ("30 kg/m", "line", 30 * G0 / 1000),
        ("30 kg per metre", "line", 30 * G0 / 1000),
        ("25 lb/ft", "line", 25 * LBF / (12 * INCH)),
        ("25 lbs/foot", "line", 25 * LBF / (12 * INCH)),
        ("25 plf", "line", 25 * LBF / (12 * INCH)),
        ("2 lb/in", "line", 2 * LBF / INCH),
        ("2 kN/m", "line", 2),
        ("2 N/mm", "line", 2),
        ("2 kPa", "area", 0.002),
        ("2 kN/m2", "area", 0.002),
        ("2 kN/m²", "area", 0.002),
        ("2 kN/m^2", "area", 0.002),
        ("30 kg/m2", "area", 30 * G0 / 1e6),
        ("40 psf", "area", 40 * LBF / (12 * INCH) ** 2),
        ("40 lb/ft2", "area", 40 * LBF / (12 * INCH) ** 2),
        ("40 lb/sq ft", "area", 40 * LBF / (12 * INCH) ** 2),
        ("40 lbs. per sq. ft.", "area", 40 * LBF / (12 * INCH) ** 2),
        ("40 pounds per square foot", "area", 40 * LBF / (12 * INCH) ** 2),
        ("600 kg/m3", "volume", 600 * G0 / 1e9),
        ("6 kN/m3", "volume", 6e-6),
        ("8.5 lb/ft3", "volume", 8.5 * LBF / (12 * INCH) ** 3),
        ("8.5 pcf", "volume", 8.5 * LBF / (12 * INCH) ** 3),
        ("8.5 lb per cubic foot", "volume", 8.5 * LBF / (12 * INCH) ** 3),
    ],
)
def test_loads_as_written(text, kind, value):
    load = read_load(text)
    assert load.kind == kind
    assert load.value == pytest.approx(value, rel=1e-12)
    dimension = {"total": "force"}.get(kind, f"{kind} load")
    assert read(text, dimension) == load.value


def test_bare_load_is_refused():
    with pytest.raises(QuantityError, match="a number without a unit can't be used"):
        read_load("20")


@pytest.mark.parametrize("text", ["20 mm", "3 MPa", "20 kg m", "20 kg/m4", "30 deg"])
def test_not_a_load(text):
    with pytest.raises(QuantityError, match="a load such as"):
        read_load(text)


def test_kinds_of_load_share_no_unit():
    loads = [set(FACTORS[dimension]) for dimension in LOADS]
    assert sum(map(len, loads)) == len(set.union(*loads))


# ---- lists and screws


@pytest.mark.parametrize(
    ("text", "lengths"),
    [
        ("600 mm, 600 mm", (600, 600)),
        ("600 mm,700 mm", (600, 700)),
        ("600 mm", (600,)),
        ("24 in, 36 in", (24 * INCH, 36 * INCH)),
        ('24", 36"', (24 * INCH, 36 * INCH)),
        ('7\'6", 24"', (90 * INCH, 24 * INCH)),
        ("8 ft, 24 in", (96 * INCH, 24 * INCH)),
        ("5 ft; 6 in", (60 * INCH, 6 * INCH)),
        ("12,5 mm; 600 mm", (12.5, 600)),
    ],
)
def test_lists_of_lengths(text, lengths):
    assert read_lengths(text) == pytest.approx(lengths, rel=1e-12)


@pytest.mark.parametrize(
    "text",
    [
        *(
            "24,24 in",
            "12,5 mm, 600 mm",
            "1,200 mm",
            "600, 600 mm",
            "5 ft, 6 in",
            "5', 6\"",
            "5′, 6″",
        ),
        *(
            "",
            ",",
            "600 mm,",
            "600 mm;",
            "600 mm, , 600 mm",
            "600 mm 600 mm",
            "600 mm, 12 kg",
        ),
        *("1 mm, " * 200,),
    ],
)
def test_doubtful_lists_are_refused(text):
    with pytest.raises(QuantityError):
        read_lengths(text)


# Wood Handbook (USDA FPL-GTR-282), chapter 8: wood screw gauge and shank diameter in mm.
GAUGES = dict(
    zip(
        (4, 5, 6, 7, 8, 9, 10, 12, 14),
        ["2.84", "3.18", "3.51", "3.84", "4.17", "4.50", "4.83", "5.49", "6.15"],
        strict=True,
    )
)


@pytest.mark.parametrize(("gauge", "diameter"), GAUGES.items())
def test_screw_gauge(gauge, diameter):
    for text in (f"No. {gauge}", f"no {gauge}", f"#{gauge}", f"{gauge} gauge", f"No{gauge}"):
        assert read_screw_diameter(text) == printed(diameter)
    # 0.060 in + 0.013 in x gauge, the rule behind the table: common practice, no source
    in_inches = 0.060 + 0.013 * gauge
    assert read_screw_diameter(f"#{gauge}") == pytest.approx(in_inches * INCH, abs=0.00501)


@pytest.mark.parametrize(
    ("text", "diameter"),
    [
        *(("4 mm", 4), ("4.5mm", 4.5), ("5,0 mm", 5), ("3/16 in", 4.7625), ("M6", 6), ("m 8", 8)),
        *(("M3.5", 3.5),),
    ],
)
def test_screw_diameter(text, diameter):
    assert read_screw_diameter(text) == diameter


@pytest.mark.parametrize(
    "text",
    [
        *(
            "8",
            "8 g",
            "#11",
            "#99",
            "M7",
            "M6 x 20",
            "600 mm",
            "0 mm",
            "0.5 mm",
            "30.5 mm",
            "25 mm c/c",
            "@ 5 mm",
        ),
        *(
            "",
            "#",
            "no",
            "M",
            "#8 x 1 1/4",
            "5 kg",
        ),
    ],
)
def test_doubtful_screws_are_refused(text):
    with pytest.raises(QuantityError, match=r"a screw|a metric size"):
        read_screw_diameter(text)


# ---- units


# Dimension, unit, factor to the SI unit (SP 811, appendix B.8; from memory), and how many
# internal units that SI unit is.
SP_811 = [
    ("length", "in", "2.54E-02", 1e3),
    ("length", "ft", "3.048E-01", 1e3),
    ("length", "yd", "9.144E-01", 1e3),
    ("area", "in2", "6.4516E-04", 1e6),
    ("area", "ft2", "9.290304E-02", 1e6),
    ("mass", "lb", "4.535924E-01", 1),
    ("mass", "oz", "2.834952E-02", 1),
    ("density", "lb/ft3", "1.601846E+01", 1),
    ("density", "pcf", "1.601846E+01", 1),
    ("force", "kgf", "9.80665E+00", 1),
    ("force", "lbf", "4.448222E+00", 1),
    ("line load", "lbf/ft", "1.459390E+01", 1e-3),
    ("line load", "lbf/in", "1.751268E+02", 1e-3),
    ("stiffness", "lbf/in", "1.751268E+02", 1e-3),
    ("stress", "psi", "6.894757E+03", 1e-6),
    ("stress", "ksi", "6.894757E+06", 1e-6),
    ("line stiffness", "lbf/in2", "6.894757E+03", 1e-6),
    ("area load", "psf", "4.788026E+01", 1e-6),
    ("moment", "lbf ft", "1.355818E+00", 1e3),
    ("moment", "lbf in", "1.129848E-01", 1e3),
    ("angle", "deg", "1.745329E-02", 1),
]


@pytest.mark.parametrize(("dimension", "unit", "si", "internal"), SP_811)
def test_factor_to_seven_figures(dimension, unit, si, internal):
    assert factor(unit, dimension) / internal == printed(si)


LENGTHS = {"mm": 1, "cm": 10, "m": 1000, "in": INCH, "ft": 12 * INCH, "yd": 36 * INCH}
MASSES = {"g": 1e-3, "kg": 1, "t": 1000, "lb": POUND, "oz": POUND / 16}
FORCES = {"N": 1, "daN": 10, "kN": 1000, "kgf": G0, "lbf": LBF} | {
    name: mass * G0 for name, mass in MASSES.items()
}
STRESSES = {
    "Pa": 1e-6,
    "kPa": 1e-3,
    "MPa": 1,
    "GPa": 1000,
    "psi": LBF / INCH**2,
    "ksi": 1000 * LBF / INCH**2,
    "psf": LBF / (12 * INCH) ** 2,
}
ANGLES = {"rad": 1, "deg": math.pi / 180}


def defined(unit: str, dimension: Dimension) -> float:
    """Build the factor from the exact definitions, by a route without a units library."""
    if dimension == "angle":
        return ANGLES[unit]
    if dimension == "mass":
        return MASSES[unit]
    if unit == "plf":
        return LBF / (12 * INCH)
    if unit == "pcf":
        return defined("lb/ft3", dimension)
    if unit in STRESSES:
        return STRESSES[unit]
    if dimension == "density":
        mass, _, length = unit.partition("/")
        return MASSES[mass] / (LENGTHS[length[:-1]] / 1000) ** 3
    over, _, under = unit.partition("/")
    result = 1.0
    for word in over.split():
        # "m" beside a force is the lever arm of a moment
        name, power = (word[:-1], int(word[-1])) if word[-1] in "23" else (word, 1)
        result *= LENGTHS[name] ** power if name in LENGTHS else FORCES[name]
    if under in ANGLES:
        return result / ANGLES[under]
    if under:
        name, power = (under[:-1], int(under[-1])) if under[-1] in "23" else (under, 1)
        result /= LENGTHS[name] ** power
    return result


ROWS = [(dimension, unit) for dimension in DIMENSIONS for unit in FACTORS[dimension]]


@pytest.mark.parametrize(("dimension", "unit"), ROWS)
def test_each_unit_against_its_definition(dimension, unit):
    assert factor(unit, dimension) == pytest.approx(defined(unit, dimension), rel=1e-13)
    assert read(f"1 {unit}", dimension) == factor(unit, dimension)
    assert express(factor(unit, dimension), unit, dimension) == 1


def in_pint(unit: str, dimension: Dimension, weights: dict[str, str]) -> str:
    """Write a unit for pint; where a force is meant, a mass as its weight."""
    over, slash, under = unit.partition("/")
    if dimension not in ("length", "area", "mass", "density", "angle"):
        over = " ".join(weights.get(word, word) for word in over.split())
    return pint_name(over + slash + under)


@pytest.mark.parametrize(("dimension", "unit"), ROWS)
def test_each_row_of_the_table_is_pints_to_the_last_digit(dimension, unit):
    weights = {"g": "gf", "kg": "kgf", "t": "tf", "lb": "lbf", "oz": "ozf", "pcf": "pcf*g_0"}
    one = registry(Fraction).Quantity(Fraction(1), in_pint(unit, dimension, weights))
    assert Fraction(one.to(pint_name(INTERNAL[dimension])).magnitude) == FACTORS[dimension][unit]


@pytest.fixture(scope="module")
def shipped_with_pint():
    return pint.UnitRegistry()


@pytest.mark.parametrize(("dimension", "unit"), ROWS)
def test_each_row_of_the_table_by_the_definitions_that_come_with_pint(
    dimension, unit, shipped_with_pint
):
    trade = {"plf": "lbf/ft", "psf": "lbf/ft2", "pcf": "lb/ft3"}
    weights = {mass: f"{mass}*g_0" for mass in ("g", "kg", "t", "lb", "oz")}
    name = in_pint(trade.get(unit, unit), dimension, weights)
    one = shipped_with_pint.Quantity(1.0, name).to(pint_name(INTERNAL[dimension]))
    assert one.magnitude == pytest.approx(float(FACTORS[dimension][unit]), rel=1e-12)


def test_no_dimension_is_without_units():
    assert set(FACTORS) == set(DIMENSIONS)


@pytest.mark.parametrize(("dimension", "unit"), ROWS)
def test_the_name_of_a_unit_is_one_of_its_spellings(dimension, unit):
    assert unit_name(unit) == unit
    # the long way round, past the shortcut for names that need no tidying
    assert unit_name(unit.replace("/", " / ") + ".") == unit


@pytest.mark.parametrize("dimension", DIMENSIONS)
def test_first_unit_listed_is_the_internal_one(dimension):
    assert factor(INTERNAL[dimension], dimension) == 1


@pytest.mark.parametrize(
    ("spellings", "dimension"),
    [
        (("m2", "m²", "m^2", "m**2", "sq m", "sqm", "square metres"), "area"),
        (("ft2", "sq ft", "sq. ft.", "square feet", "sqft", "sf", "SQ FT"), "area"),
        (("in2", "sq in", "square inches", "sqin"), "area"),
        (("kg/m3", "kg/m³", "kg / m^3", "kg per m3", "KG/m3", "kg/cu m"), "density"),
        (("lb/ft3", "lbs/ft3", "lb/cu ft", "pounds per cubic foot", "pcf"), "density"),
        (("N m", "Nm", "N·m", "N*m", "N-m", "newton metre"), "moment"),
        (("kN m", "kNm", "kN·m"), "moment"),
        (("lb ft", "ft lb", "ft-lb", "lb-ft", "ft lbs"), "moment"),
        (("kg", "KG", "Kg", "kilos", "kilograms"), "mass"),
        (("lb", "lbs", "lb.", "LB", "pounds"), "mass"),
        (("kN", "KN", "kn"), "force"),
        (("MPa", "Mpa", "MPA", "N/mm2", "N/mm²"), "stress"),
        (("deg", "°", "degrees"), "angle"),
        (("kN m/rad", "kNm/rad", "kN*m/rad"), "rotational stiffness"),
    ],
)
def test_spellings_of_one_unit(spellings, dimension):
    assert len({read(f"2 {spelling}", dimension) for spelling in spellings}) == 1


@pytest.mark.parametrize("unit", ["mPa", "mpa", "Mm", "MM", "n", "nm"])
def test_capitals_that_change_the_prefix_are_not_guessed(unit):
    for dimension in DIMENSIONS:
        with pytest.raises(QuantityError):
            factor(unit, dimension)


@pytest.mark.parametrize(
    ("text", "dimension", "nearest"),
    [
        ("600 MM", "length", "mm"),
        ("24 inchs", "length", "inches or inch"),
        ("40 psi", "area load", "psf"),
        ("9000 psf", "stress", "psi"),
        ("3 stone", "mass", "lb or kg"),
        ("3 stone", "length", ""),
        ("3 mPa", "stress", "MPa"),
        ("3 killos", "mass", "kilos"),
        ("2 kN/mm", "area load", ""),
    ],
)
def test_unknown_unit_names_the_nearest(text, dimension, nearest):
    with pytest.raises(QuantityError) as caught:
        read(text, dimension)
    assert caught.value.nearest == nearest
    assert all(unit in caught.value.allowed for unit in FACTORS[dimension])


@pytest.mark.parametrize(
    ("text", "nearest"),
    [
        ("30 lb/m", "lb/ft"),
        ("30 lbs per metre", "lb/ft"),
        ("30 kg/ft", "kg/m"),
        ("3 kg/ft2", "kg/m2"),
        ("3 lb/m3", "lb/ft3"),
        ("30 psi", "psf"),
        ("30 pfs", "psf, plf or pcf"),
        ("30 books/m", ""),
    ],
)
def test_a_load_that_mixes_two_systems_names_the_unit_meant(text, nearest):
    with pytest.raises(QuantityError) as caught:
        read_load(text)
    assert caught.value.nearest == nearest


@pytest.mark.parametrize(
    ("text", "dimension", "said"),
    [
        ("12 kg", "length", "this is a mass"),
        ("12 mm", "force", "this is a length"),
        ("9 m2", "length", "this is an area"),
        ("30 kg/m", "force", "this is a load per length"),
        ("9 GPa", "length", "this is a stress"),
        ("6 kN/m3", "density", "this is a load per volume"),
        ("5 N", "mass", "this is a force"),
    ],
)
def test_wrong_dimension_says_what_was_found(text, dimension, said):
    message = refusal(text, dimension)
    assert said in message
    assert repr(text) in message


def test_message_reads_as_a_sentence():
    assert refusal("12 kg") == (
        "found '12 kg'; allowed: a length such as '600 mm' or '23 5/8 in', "
        "in mm, cm, m, in, ft, yd; this is a mass"
    )


# ---- quantities


def test_quantity_of_a_foreign_registry():
    foreign = pint.UnitRegistry()
    assert read(foreign.Quantity(1.5, "inch"), "length") == pytest.approx(38.1, rel=1e-12)
    assert read(foreign.Quantity(20, "kg"), "force") == pytest.approx(20 * G0, rel=1e-12)
    assert read(foreign.Quantity(20, "kg"), "mass") == 20
    assert read(foreign.Quantity(650, "kg/m**3"), "density") == pytest.approx(650, rel=1e-12)
    load = read_load(foreign.Quantity(40, "lbf/ft**2"))
    assert load.kind == "area"
    assert load.value == pytest.approx(read("40 psf", "area load"), rel=1e-12)
    assert read_load(foreign.Quantity(600, "kg/m**3")).kind == "volume"


def test_quantities_that_are_refused():
    Quantity = pint.UnitRegistry().Quantity
    for bad, dimension in [
        (Quantity(-1.0, "mm"), "length"),
        (Quantity(math.nan, "mm"), "length"),
        (Quantity(math.inf, "mm"), "length"),
        (Quantity(5.0, "kg"), "length"),
        (Quantity(5.0, ""), "length"),
        (Quantity(5.0, ""), "angle"),
        (Quantity(20.0, "degC"), "length"),
        (Quantity([1.0, 2.0], "mm"), "length"),
        (Quantity(1 + 2j, "mm"), "length"),
    ]:
        refusal(bad, dimension)


@pytest.mark.parametrize("dimension", DIMENSIONS)
def test_quantity_there_and_back(dimension):
    assert read(quantity(2.5, dimension), dimension) == pytest.approx(2.5, rel=1e-12)


def test_quantity_can_be_asked_in_another_unit():
    assert quantity(38.1, "length").to("in").magnitude == pytest.approx(1.5, rel=1e-12)
    assert quantity(1000, "force").to("kN").magnitude == pytest.approx(1, rel=1e-12)


# ---- shown to people


@pytest.mark.parametrize(
    ("value", "dimension", "metric", "inch"),
    [
        (0.0, "length", "0 mm", "0 in"),
        (-0.0, "length", "0 mm", "0 in"),
        (1.96, "length", "2 mm", "0.08 in"),
        (-3.21, "length", "-3.2 mm", "-0.13 in"),
        (18.0, "length", "18 mm", "0.71 in"),
        (3 / 4 * INCH, "length", "19.1 mm", "3/4 in"),
        (23 / 32 * INCH, "length", "18.3 mm", "23/32 in"),
        (-1.5 * INCH, "length", "-38.1 mm", "-1 1/2 in"),
        (96 * INCH, "length", "2438 mm", "96 in"),
        (600.4, "length", "600 mm", "23.6 in"),
        (2440.0, "length", "2440 mm", "96.1 in"),
        (7.77, "mass", "7.8 kg", "17 lb"),
        (77.7, "mass", "78 kg", "171 lb"),
        (9000.0, "stress", "9000 MPa", "1310 ksi"),
        (7.777, "stress", "7.78 MPa", "1130 psi"),
        (650.0, "density", "650 kg/m3", "40.6 lb/ft3"),
        (2e6, "area", "2 m2", "21.5 ft2"),
        (500.0, "area", "500 mm2", "0.8 in2"),
        (150e3, "moment", "150 N m", "111 lbf ft"),
        (math.pi / 6, "angle", "30 deg", "30 deg"),
    ],
)
def test_shown_for_people(value, dimension, metric, inch):
    assert show(value, dimension) == metric
    assert show(value, dimension, "inch") == inch


@pytest.mark.parametrize(
    ("text", "dimension", "force", "mass", "inch_mass"),
    [
        ("20 kg", "force", "196 N", "20 kg", "44 lb"),
        ("200 kg", "force", "1.96 kN", "200 kg", "441 lb"),
        ("30 kg/m", "line load", "294 N/m", "30 kg/m", "20 lb/ft"),
        ("30 kg/m2", "area load", "0.294 kN/m2", "30 kg/m2", "6.1 lb/ft2"),
        ("600 kg/m3", "volume load", "5.88 kN/m3", "600 kg/m3", "37 lb/ft3"),
    ],
)
def test_loads_shown_as_force_and_as_mass(text, dimension, force, mass, inch_mass):
    load = read(text, dimension)
    assert show(load, dimension) == force
    assert show(load, dimension, as_mass=True) == mass
    assert show(load, dimension, "inch", as_mass=True) == inch_mass


def test_digits_on_request():
    assert show(2.0, "length", digits=1) == "2.0 mm"
    assert show(19.05, "length", "inch", digits=3) == "0.750 in"
    assert show(0.0, "length", digits=1) == show(-0.0, "length", digits=1) == "0.0 mm"


@pytest.mark.parametrize(
    ("value", "dimension", "metric", "inch"),
    [
        (0.04, "length", "under 0.1 mm", "under 0.01 in"),
        (-0.04, "length", "under 0.1 mm", "under 0.01 in"),
        (1e-7, "length", "under 0.1 mm", "under 0.01 in"),
        (5e-324, "length", "under 0.1 mm", "under 0.01 in"),
        (0.06, "length", "0.1 mm", "under 0.01 in"),
        (0.3, "area", "under 1 mm2", "under 0.1 in2"),
        (0.01, "mass", "under 0.1 kg", "under 0.1 lb"),
        (1e-7, "area load", "under 0.001 kN/m2", "under 0.1 psf"),
        (1.0, "moment", "under 0.01 N m", "under 0.01 lbf ft"),
        (1e-4, "angle", "under 0.1 deg", "under 0.1 deg"),
    ],
)
def test_what_rounds_to_zero_is_not_shown_as_zero(value, dimension, metric, inch):
    assert show(value, dimension) == metric
    assert show(value, dimension, "inch") == inch


def test_what_rounds_to_zero_in_the_digits_asked_for():
    assert show(0.001, "length", digits=1) == "under 0.1 mm"
    assert show(0.001, "length", digits=3) == "0.001 mm"
    assert show(0.4, "length", digits=0) == "under 1 mm"
    assert show(0.4, "length", digits=-1) == "under 10 mm"


def test_under_is_not_read_as_a_number():
    assert "it has to begin with a number" in refusal("under 0.1 mm")


@pytest.mark.parametrize("dimension", DIMENSIONS)
@pytest.mark.parametrize("system", ["metric", "inch"])
@pytest.mark.parametrize("down", [False, True])
def test_zero_stays_zero(dimension, system, down):
    number, unit = shown_value(0.0, dimension, system, down=down)
    assert show(0.0, dimension, system, down=down) == f"0 {unit}"
    assert number == 0


@pytest.mark.parametrize(
    ("text", "dimension", "nearest", "down"),
    [
        ("24.6 kg", "mass", "25 kg", "24 kg"),
        ("24 kg", "mass", "24 kg", "24 kg"),
        ("9.97 kg", "mass", "10 kg", "9.9 kg"),
        ("0.09 kg", "mass", "0.1 kg", "under 0.1 kg"),
        ("599.9 mm", "length", "600 mm", "599 mm"),
        ("0.7777 kN", "force", "778 N", "777 N"),
        ("7.777 kN", "force", "7.78 kN", "7.77 kN"),
        ("7.777 MPa", "stress", "7.78 MPa", "7.77 MPa"),
        ("12999 MPa", "stress", "13000 MPa", "12900 MPa"),
    ],
)
def test_rounded_down_for_what_something_can_carry(text, dimension, nearest, down):
    value = read(text, dimension)
    assert show(value, dimension) == nearest
    assert show(value, dimension, down=True) == down


def test_rounded_down_in_other_ways_of_showing():
    load = 24.6 * G0
    assert show(load, "force", as_mass=True, down=True) == "24 kg"
    assert show(24.6 * LBF, "force", "inch", as_mass=True, down=True) == "24 lb"
    assert shown_value(load, "force", "metric", True, down=True) == (24, "kg")
    assert show(19.99, "length", digits=1, down=True) == "19.9 mm"
    assert show(INCH * 0.996, "length", "inch", down=True) == "0.99 in"
    assert show(3 / 4 * INCH, "length", "inch", down=True) == "3/4 in"
    assert show(-3.29, "length", down=True) == "-3.2 mm"


def test_rounding_down_does_not_lose_a_step_to_round_off():
    for kilograms in range(1, 200):
        load = kilograms * G0
        for computed in (load, math.nextafter(load, 0), load * (1 - 1e-13)):
            assert show(computed, "force", as_mass=True, down=True) == f"{kilograms} kg"


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf, 1e19])
def test_no_figure_is_not_rounded_down(value):
    assert show(value, "mass", down=True) == NO_FIGURE
    assert math.isnan(shown_value(value, "mass", down=True)[0])


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf, 1.5e308, -1e19])
@pytest.mark.parametrize("system", ["metric", "inch"])
@pytest.mark.parametrize("dimension", DIMENSIONS)
def test_no_figure_is_said_in_words(value, system, dimension):
    assert show(value, dimension, system) == NO_FIGURE
    assert show(value, dimension, system, digits=1) == NO_FIGURE
    assert math.isnan(shown_value(value, dimension, system)[0])


def test_shown_value_gives_number_and_unit_apart():
    assert shown_value(601.4, "length", "metric", False) == (601, "mm")
    assert shown_value(3 / 4 * INCH, "length", "inch", False) == (0.75, "in")
    assert shown_value(20 * G0, "force", "metric", True) == (20, "kg")


def test_a_tie_shows_the_same_however_it_was_computed():
    assert show(19.05, "length") == show(0.75 * INCH, "length") == "19.1 mm"
    assert show(19.049999999999997, "length") == "19.1 mm"
    assert show(-19.05, "length") == "-19.1 mm"


# ---- properties


@given(
    value=st.floats(1e-3, 1e7),
    dimension=st.sampled_from(DIMENSIONS),
    system=st.sampled_from(["metric", "inch"]),
    as_mass=st.booleans(),
)
def test_what_is_shown_reads_back_within_rounding(value, dimension, system, as_mass):
    text = show(value, dimension, system, as_mass=as_mass)
    number, unit, decimals = in_people_units(value, dimension, system, as_mass=as_mass)
    half_a_digit = 0.5 * 10.0**-decimals * factor(unit, dimension)
    if express(half_a_digit, INTERNAL[dimension], dimension) <= value:
        assert "e" not in text.split()[0]
        back = read(text, dimension)
        assert abs(back - value) <= half_a_digit * (1 + 1e-9) + 1e-9 * value
    shown, label = shown_value(value, dimension, system, as_mass)
    assert label == unit
    assert abs(shown - number) <= 0.5 * 10.0**-decimals * (1 + 1e-9) + 1e-9 * number


@given(
    value=st.floats(-1e7, 1e7),
    dimension=st.sampled_from(DIMENSIONS),
    system=st.sampled_from(["metric", "inch"]),
    as_mass=st.booleans(),
)
def test_rounding_down_never_adds_and_takes_less_than_a_step(value, dimension, system, as_mass):
    number, unit, decimals = in_people_units(value, dimension, system, as_mass=as_mass)
    shown, label = shown_value(value, dimension, system, as_mass, down=True)
    assert label == unit
    # a typed inch length may be a fraction of a step away, but only by round-off
    round_off = 1e-6 / 32 if unit == "in" else 2e-12 * abs(number)
    assert shown * number >= 0
    assert abs(shown) <= abs(number) + round_off
    assert abs(number) - abs(shown) < 10.0**-decimals * (1 + 1e-9) + round_off
    assert abs(shown) <= abs(shown_value(value, dimension, system, as_mass)[0])


@given(
    value=st.floats(allow_nan=True, allow_infinity=True),
    dimension=st.sampled_from(DIMENSIONS),
    system=st.sampled_from(["metric", "inch"]),
    digits=st.none() | st.integers(0, 6),
    as_mass=st.booleans(),
    down=st.booleans(),
)
def test_anything_can_be_shown(value, dimension, system, digits, as_mass, down):
    text = show(value, dimension, system, digits=digits, as_mass=as_mass, down=down)
    if text != NO_FIGURE:
        assert text.startswith("under ") or value == 0 or set(text.split()[0]) & set("123456789")
        text = text.removeprefix("under ")
        figure = text.rpartition(" " + shown_value(value, dimension, system, as_mass)[1])[0]
        assert "e" not in figure
        assert "n" not in figure
        assert not (figure.startswith("-") and set(figure) <= set("-0."))


@given(sixteenths=st.integers(0, 16 * 400))
def test_inch_text_and_its_millimetres_give_the_same_number(sixteenths):
    whole, over = divmod(sixteenths, 16)
    feet, inches = divmod(whole, 12)
    fraction = f" {over}/16" if over else ""
    millimetres = f"{sixteenths * 15875 // 10000}.{sixteenths * 15875 % 10000:04d} mm"
    expected = read(millimetres, "length")
    assert read(f"{whole}{fraction} in", "length") == expected
    assert read(f"{feet}' {inches}{fraction}\"", "length") == expected
    assert read(show(expected, "length", "inch"), "length") == expected


@given(pounds=st.integers(0, 100_000))
def test_a_load_is_the_same_in_pounds_and_in_kilograms(pounds):
    kilograms = f"{pounds * 45359237 // 10**8}.{pounds * 45359237 % 10**8:08d}"
    assert read_load(f"{pounds} lb") == read_load(f"{kilograms} kg")


@given(number=st.decimals(0, 10**6, places=2, allow_nan=False))
def test_decimal_comma_reads_as_point(number):
    text = f"{number:.2f}"
    assert read_number(text.replace(".", ",")) == read_number(text) == float(text)


PIECES = st.lists(
    st.sampled_from(
        [
            *"0123456789 .,/-+'\"½¾⅛²³^*°@#;e′″",
            "ft",
            "in",
            "mm",
            "kg",
            "/m",
            "o.c.",
            "nan",
            "No.",
            "M6",
        ]
    ),
    max_size=12,
).map("".join)


@given(text=st.text(max_size=80) | PIECES, dimension=st.sampled_from(DIMENSIONS))
@example(text="1" * 60, dimension="length")
@example(text="'" * 60, dimension="length")
@example(text="1 " * 30, dimension="length")
@example(text="1' " + "1" * 50, dimension="length")
@example(text="sq " * 20, dimension="area")
@example(text="\x00", dimension="length")
@example(text="\ud800 mm", dimension="length")
def test_any_text_gives_a_usable_number_or_a_quantity_error(text, dimension):
    numbers = []
    for reader in (lambda typed: read(typed, dimension), read_number, read_screw_diameter):
        with contextlib.suppress(QuantityError):
            numbers.append(reader(text))
    with contextlib.suppress(QuantityError):
        numbers.append(read_load(text).value)
    with contextlib.suppress(QuantityError):
        numbers.extend(read_lengths(text))
    with contextlib.suppress(QuantityError):
        numbers.append(factor(text, dimension))
    assert all(math.isfinite(number) and number >= 0 for number in numbers)


@given(text=st.text(max_size=3000), dimension=st.sampled_from(DIMENSIONS))
def test_messages_stay_short(text, dimension):
    assert len(refusal("mm" + text, dimension)) < 400


def loads_pint(code: str) -> bool:
    """Run a few lines in a fresh interpreter and say whether they loaded pint."""
    code = f"import sys\nfrom shelfload.units import *\n{code}\nprint('pint' in sys.modules)"
    ran = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    return {"True": True, "False": False}[ran.stdout.strip()]


@pytest.mark.parametrize(
    "code",
    [
        "",
        f"for kind, unit in {ROWS}: read('1 1/2 ' + unit, kind), express(1, unit, kind)",
        f"for kind in {DIMENSIONS}: show(2, kind), show(2, kind, 'inch', as_mass=True)",
        "read_load('25 lbs per sq. ft'), read_lengths('600 mm, 24 in'), read_screw_diameter('M6')",
        "try: read('5 furlongs', 'length')\nexcept ValueError: pass",
        "try: read(5, 'length')\nexcept ValueError: pass",
    ],
)
def test_text_is_read_and_shown_without_loading_pint(code):
    assert not loads_pint(code)


def test_a_quantity_loads_pint():
    assert loads_pint("quantity(1.0, 'length')")


@pytest.mark.parametrize("dimension", ["length", "area load", "line load", "stress", "moment"])
def test_quantity_can_be_printed(dimension):
    assert str(quantity(2.0, dimension)).startswith("2.0 ")


@pytest.mark.parametrize(
    ("millimetres", "nearest", "down", "up"),
    [
        # typed fractions stay as they are, whichever way they would be rounded
        (19.05, "3/4 in", "3/4 in", "3/4 in"),
        (25.4 * 23 / 32, "23/32 in", "23/32 in", "23/32 in"),
        # 19 mm is 47.87/64, 115 mm 144.9/32, 72.4/16; 2.2 mm 5.54/64 of an inch
        (19.0, "3/4 in", "11/16 in", "3/4 in"),
        (115.0, "4 17/32 in", "4 1/2 in", "4 9/16 in"),
        (2.2, "3/32 in", "5/64 in", "3/32 in"),
        (0.0, "0 in", "0 in", "0 in"),
        (0.1, "under 1/64 in", "under 1/64 in", "1/64 in"),
        (math.nan, NO_FIGURE, NO_FIGURE, NO_FIGURE),
        (math.inf, NO_FIGURE, NO_FIGURE, NO_FIGURE),
    ],
)
def test_sizes_in_inches_are_workshop_fractions(millimetres, nearest, down, up):
    assert show_size(millimetres, "inch") == nearest
    assert show_size(millimetres, "inch", down=True) == down
    assert show_size(millimetres, "inch", up=True) == up


@given(st.floats(0.5, 5000.0))
def test_a_spacing_is_never_shown_wider_and_an_edge_never_nearer(value):
    def inches(text: str) -> float:
        return 0.0 if text.startswith("under") else read(text, "length")

    down = inches(show_size(value, "inch", down=True))
    up = inches(show_size(value, "inch", up=True))
    near = inches(show_size(value, "inch"))
    assert down <= value + 1e-4
    assert up >= value - 1e-4
    assert up - down <= 25.4 / 16 + 1e-4
    assert abs(near - value) <= 25.4 / 64 + 1e-4


def test_metric_sizes_are_shown_as_lengths():
    assert show_size(17.6, "metric") == "17.6 mm"
    assert show_size(115.0) == "115 mm"


@pytest.mark.parametrize(
    ("stress", "text"), [(40.2, "5830 psi"), (689.0, "99900 psi"), (10300.0, "1490 ksi")]
)
def test_a_modulus_in_inch_units_is_told_in_ksi(stress, text):
    assert show(stress, "stress", "inch") == text
