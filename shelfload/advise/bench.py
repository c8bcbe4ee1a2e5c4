"""A bending test as it was done, read from what was typed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from shelfload.advise.asked import Reader, above_zero
from shelfload.describe.catalogue import Catalogue
from shelfload.errors import QuantityError
from shelfload.solve.measured import Loading
from shelfload.tables import Material
from shelfload.units import read


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """A test as it was done; lengths [mm], each with how far it may be off.

    Attributes
    ----------
    span, width, thickness : float
        Between the supports, and of the strip.
    span_error, width_error, thickness_error, sag_error : float
        Most that each may be off, either way.
    weight_error : float
        Most that the weights may be off, as a share [-].
    loading : "centre" or "thirds"
        Where the weight stood.
    readings : tuple of (float, float)
        Weight [N] and the sag that it added.
    length, mass : float or None
        Of the whole offcut, the mass in [kg]; for its density.
    kind : str
        One of the kinds of the materials table.
    like : Material or None
        Row that it is taken for where nothing was measured.
    name : str
        For the entry.
    """

    span: float
    width: float
    thickness: float
    readings: tuple[tuple[float, float], ...]
    kind: str
    like: Material | None = None
    loading: Loading = "centre"
    span_error: float = 1.0
    width_error: float = 0.5
    thickness_error: float = 0.1
    sag_error: float = 0.25
    weight_error: float = 0.01
    length: float | None = None
    mass: float | None = None
    name: str = "offcut"


def bench_asked(options: Mapping[str, Any]) -> Bench:
    """Read a test from what was typed.

    Raises
    ------
    DescriptionError
        With every mistake, each under the name of its option.
    """
    reader = Reader()
    catalogue = Catalogue()

    def length(option: str, instead: float = 1.0) -> float:
        key = option.removeprefix("--").replace("-", "_")
        return reader.read(option, above_zero, options[key], instead)

    thickness = length("--thickness")
    like = None
    if options["like"] is not None:
        like = reader.read(
            "--like",
            lambda name: catalogue.material(name, thickness).material,
            options["like"],
            None,
        )
    readings = [reader.read("--reading", reading, text, (1.0, 1.0)) for text in options["reading"]]
    mass = options["mass"]
    bench = Bench(
        span=length("--span"),
        width=length("--width"),
        thickness=thickness,
        readings=tuple(readings),
        kind=options["kind"] or (like.kind if like is not None else "plywood"),
        like=like,
        loading=options["at"],
        sag_error=length("--sag-error"),
        thickness_error=length("--thickness-error"),
        span_error=length("--span-error"),
        length=None if options["length"] is None else length("--length"),
        mass=None if mass is None else reader.read("--mass", lambda m: read(m, "mass"), mass, 1.0),
        name=reader.read("--name", _name, options["name"], "offcut"),
    )
    reader.done()
    return bench


def reading(text: str) -> tuple[float, float]:
    """Read a weight [N] and the sag that it adds [mm]."""
    weight, equals, sag = text.partition("=")
    if not equals:
        raise QuantityError(text, '"10 kg = 2.1 mm": a weight, an equals sign and the sag it adds')
    force, w = read(weight.strip(), "force"), above_zero(sag.strip())
    if force <= 0.0:
        raise QuantityError(text, "a weight above zero")
    return force, w


def _name(text: str) -> str:
    if not text or not all(c.isascii() and (c.isalnum() or c in "-_") for c in text):
        raise QuantityError(text, "letters, digits and hyphens")
    return text
