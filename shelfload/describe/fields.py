"""Field types of the description: text with a unit in, N-mm-kg numbers out."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal
from typing import Annotated, Any, Literal
from unicodedata import category

from pydantic import (
    AfterValidator,
    BeforeValidator,
    Field,
    PlainSerializer,
    ValidationInfo,
    WithJsonSchema,
)

from shelfload import units
from shelfload.describe.catalogue import Catalogue
from shelfload.errors import QuantityError

# Least and most of what is described, generously: beyond, nothing is built, and figures that
# follow from it mean nothing. Common practice, no source.
_BOUNDS: Mapping[units.Dimension, tuple[float, float, str]] = {
    "length": (0.01, 1e6, "0.01 mm to 1000 m"),
    "mass": (1e-3, 1e6, "1 g to 1000 t"),
    "density": (1.0, 25_000.0, "1 to 25000 kg/m3"),
    "force": (1e-3, 1e7, "0.001 N to 10 MN (1000 t)"),
    "stress": (0.01, 2e6, "0.01 to 2000000 MPa"),
    "rotational stiffness": (1.0, 1e15, "1 N mm/rad to 1000000 MN m/rad"),
    "angle": (0.01, 3.05, "0.6 to 174 deg; a half ring held at its two ends tips over"),
}
_LOAD_BOUNDS: Mapping[str, tuple[float, float, str]] = {
    "total": (1e-3, 1e7, "0.001 N to 10 MN (1000 t)"),
    "line": (1e-6, 1e4, "0.001 N/m to 10 MN/m (1000 t/m)"),
    "area": (1e-9, 10.0, "0.001 N/m2 to 10 MN/m2 (1000 t/m2)"),
    "volume": (1e-12, 1e-3, "0.001 N/m3 to 1 MN/m3 (100 t/m3)"),
}
_ROOM = (10.0, 1e5, "10 mm to 100 m")


def _reader(
    dimension: units.Dimension,
    *,
    above_zero: bool = True,
    bounds: tuple[float, float, str] | None = None,
) -> Callable[[Any], float]:
    least, most, in_words = bounds or _BOUNDS[dimension]

    def read(value: Any) -> float:
        number = units.read(_as_text(value), dimension)
        if above_zero and number <= 0.0:
            raise QuantityError(str(value), f"a {dimension} above zero")
        if not (number == 0.0 or least <= number <= most):
            nought = "" if above_zero else ", or 0"
            raise QuantityError(str(value), f"a {dimension} of {in_words}{nought}")
        return number

    return read


def _as_text(value: Any) -> Any:
    """Pass text and quantities on; a bare number has no unit and is refused here."""
    if isinstance(value, bool | list | dict):
        raise QuantityError(str(value), 'one value with its unit, such as "900 mm"')
    if isinstance(value, int | float):
        raise QuantityError(str(value), f'a number with its unit in quotes, such as "{value} mm"')
    return value


def _written(unit: str) -> PlainSerializer:
    """Write an internal number back as text with its unit, to the last digit."""
    return PlainSerializer(lambda value: _with_unit(value, unit), return_type=Any)


def _with_unit(value: Any, unit: str) -> Any:
    # no exponents: the reader takes none
    return f"{Decimal(repr(value)):f} {unit}" if isinstance(value, float) else value


_LOAD_UNITS = {"total": "N", "line": "N/mm", "area": "N/mm2", "volume": "N/mm3"}


def _load_written(load: units.Load) -> str:
    text: str = _with_unit(load.value, _LOAD_UNITS[load.kind])
    return text


def _text_schema(what: str, *examples: str) -> WithJsonSchema:
    # a key's own description replaces the one of its type: the measure is kept beside it
    schema = {"type": "string", "description": what, "x-measure": what, "examples": list(examples)}
    return WithJsonSchema(schema)


def name_schema(table: str) -> WithJsonSchema:
    """Mark a text as a name of a table, for the schema to list."""
    return WithJsonSchema({"type": "string", "x-names": table})


def catalogue_of(info: ValidationInfo) -> Catalogue:
    """Return the catalogue that the reader passes to every validation."""
    if not isinstance(info.context, Catalogue):
        raise TypeError("descriptions are read with a catalogue")
    return info.context


def _known_material(name: str, info: ValidationInfo) -> str:
    catalogue_of(info).require_material(name)
    return name


def _known_contents(name: str, info: ValidationInfo) -> str:
    catalogue_of(info).contents(name)
    return name


def _known_limit(name: str, info: ValidationInfo) -> str:
    catalogue_of(info).limit(name)
    return name


def _load(value: Any) -> units.Load:
    load = units.read_load(_as_text(value))
    if load.value <= 0.0:
        raise QuantityError(str(value), "a load above zero")
    least, most, in_words = _LOAD_BOUNDS[load.kind]
    if not least <= load.value <= most:
        raise QuantityError(str(value), f"a load of {in_words}")
    return load


def _corners(value: Any) -> Any:
    if value in ("pinned", "glued"):
        return value
    if isinstance(value, str) and value.strip().isalpha():
        raise QuantityError(repr(value), '"pinned", "glued", or a value such as "800 N m/rad"')
    return _reader("rotational stiffness")(value)


def _plain_text(value: str) -> str:
    # categories Cc, Cf, Co...: controls, direction marks and the report's own quantity marks
    if any(category(character)[0] == "C" for character in value.replace("\n", "")):
        raise QuantityError(repr(value)[:60], "text without control characters")
    return value


Length = Annotated[
    float,
    BeforeValidator(_reader("length")),
    _written("mm"),
    _text_schema("a length with its unit", "900 mm", "35 1/2 in", "7'6\""),
]
Room = Annotated[
    float,
    BeforeValidator(_reader("length", bounds=_ROOM)),
    _written("mm"),
    _text_schema("a length with its unit, from 10 mm to 100 m", "900 mm", "35 1/2 in", "7'6\""),
]
"""A width, height or depth of furniture."""
Offset = Annotated[
    float,
    BeforeValidator(_reader("length", above_zero=False)),
    _written("mm"),
    _text_schema("a distance with its unit; may be zero", "0 mm", "300 mm"),
]
Stress = Annotated[
    float,
    BeforeValidator(_reader("stress")),
    _written("MPa"),
    _text_schema("a stiffness or strength with its unit", "9000 MPa", "1300 ksi"),
]
Density = Annotated[
    float,
    BeforeValidator(_reader("density")),
    _written("kg/m3"),
    _text_schema("mass per volume", "680 kg/m3"),
]
Mass = Annotated[
    float,
    BeforeValidator(_reader("mass")),
    _written("kg"),
    _text_schema("a mass", "12 kg", "25 lb"),
]
Force = Annotated[
    float,
    BeforeValidator(_reader("force")),
    _written("N"),
    _text_schema("a force, or a mass that weighs on it", "0.5 kN", "50 kg"),
]
Corners = Annotated[
    Literal["pinned", "glued"] | float,
    BeforeValidator(_corners),
    _written("N mm/rad"),
    _text_schema(
        "corners that turn freely, are housed or dowelled and glued, or resist a moment per turn",
        "pinned",
        "glued",
        "800 N m/rad",
    ),
]
Angle = Annotated[
    float,
    BeforeValidator(_reader("angle")),
    _written("rad"),
    _text_schema("an angle", "60 deg", "1.05 rad"),
]
LoadValue = Annotated[
    units.Load,
    BeforeValidator(_load),
    PlainSerializer(_load_written),
    _text_schema(
        "a load: total, per length, per area or per volume", "40 kg", "30 kg/m", "2 kPa", "40 psf"
    ),
]
MaterialName = Annotated[str, AfterValidator(_known_material), name_schema("materials")]
LimitName = Annotated[str, AfterValidator(_known_limit), name_schema("limits")]
ContentsName = Annotated[str, AfterValidator(_known_contents), name_schema("contents")]
Name = Annotated[str, Field(min_length=1, max_length=80), AfterValidator(_plain_text)]
Text = Annotated[str, Field(max_length=10_000), AfterValidator(_plain_text)]
Source = Annotated[str, Field(min_length=1, max_length=500), AfterValidator(_plain_text)]
