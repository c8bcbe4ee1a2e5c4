"""What was typed for a table, read by the rules of a description: every mistake at once."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any, TypeVar

from shelfload import units
from shelfload.advise.span_tables import LONGEST, SHORTEST
from shelfload.advise.table_cells import BACKED, SUPPORTS, Asked, Sheet
from shelfload.describe.catalogue import Catalogue
from shelfload.describe.parts import Back, Fill
from shelfload.describe.site import Site
from shelfload.errors import DescriptionError, Mistake, QuantityError, UnknownName
from shelfload.wording import figure, size

USUAL_MATERIALS = ("birch-plywood", "mdf", "particleboard-p2", "osb-3", "c24", "european-oak")
USUAL_THICKNESSES = {
    "metric": (12.0, 15.0, 18.0, 24.0),
    "inch": (12.7, 15.875, 19.05),  # 1/2, 5/8, 3/4 in
}
USUAL_CONTENTS = ("clothes-folded-shelf", "books", "lever-arch-file", "paper-piled")
USUAL_SPANS = {
    "metric": (400.0, 600.0, 800.0, 1000.0, 1200.0),
    "inch": (406.4, 609.6, 812.8, 914.4, 1219.2),  # 16, 24, 32, 36, 48 in
}
"""What a table shows where nothing is said: sheets [mm] that most yards have."""
USUAL_BACK = "birch-plywood 6.5 mm, screwed every 150 mm"
_BACK = re.compile(
    r"(?P<material>[\w-]+) (?P<thickness>[^,]+), ?(?P<fixed>glued|screwed|nailed)"
    r"(?: every (?P<spacing>.+))?"
)

_T = TypeVar("_T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column of a table: its words, and the load [N/mm] or clear span [mm] it stands for."""

    words: str
    value: float


class Reader:
    """Reads options one by one and keeps their mistakes."""

    def __init__(self) -> None:
        self.mistakes: list[Mistake] = []

    def read(self, option: str, how: Callable[[str], _T], text: str, instead: _T) -> _T:
        """Read the text of an option; a mistake is kept and ``instead`` stands in."""
        try:
            return how(text)
        except (QuantityError, UnknownName) as fault:
            found = repr(fault.found)
            allowed = f"allowed: {fault.allowed}" if isinstance(fault, QuantityError) else "unknown"
            self.mistakes.append(
                Mistake(key=option, found=found, allowed=allowed, nearest=fault.nearest)
            )
            return instead

    def done(self) -> None:
        """Raise all mistakes together, if there are any."""
        if self.mistakes:
            raise DescriptionError(list(dict.fromkeys(self.mistakes)))


def spans_asked(
    options: Mapping[str, Any], catalogue: Catalogue
) -> tuple[Asked, tuple[Column, ...]]:
    """Read what a table of spans is asked for, with a column for each load.

    Raises
    ------
    DescriptionError
        With every mistake, each under the name of its option.
    """
    reader = Reader()
    asked = _asked(options, catalogue, reader)
    columns = []
    named = options["contents"] or (() if options["load"] else USUAL_CONTENTS)
    for name in named:
        load = reader.read("--contents", partial(_contents, asked), name, 1.0)
        if not reader.mistakes:
            columns.append(Column(words=asked.catalogue.contents(name).title, value=load))
    for text in options["load"] or ():
        load = reader.read("--load", partial(_load, asked), text, 1.0)
        columns.append(Column(words=figure(load, "line load", as_mass=True), value=load))
    reader.done()
    return asked, tuple(columns)


def loads_asked(
    options: Mapping[str, Any], catalogue: Catalogue
) -> tuple[Asked, tuple[Column, ...]]:
    """Read what a table of safe loads is asked for, with a column for each clear span.

    Raises
    ------
    DescriptionError
        With every mistake, each under the name of its option.
    """
    reader = Reader()
    asked = _asked(options, catalogue, reader)
    spans: Sequence[float] = USUAL_SPANS[options.get("units", "metric")]
    if options["spans"]:
        spans = reader.read("--spans", units.read_lengths, options["spans"], ())
    for span in spans:
        if not SHORTEST <= span <= LONGEST:
            allowed = "allowed: clear spans from 50 mm to 6 m"
            reader.mistakes.append(Mistake(key="--spans", found=f"{span:g} mm", allowed=allowed))
    reader.done()
    return asked, tuple(Column(words=size(span), value=span) for span in spans)


def _asked(options: Mapping[str, Any], catalogue: Catalogue, reader: Reader) -> Asked:
    def known(name: str) -> str:
        catalogue.require_material(name)
        return name

    def limit(name: str) -> str:
        catalogue.limit(name)
        return name

    materials = options["material"] or USUAL_MATERIALS
    materials = [reader.read("--material", known, name, "birch-plywood") for name in materials]
    usual = USUAL_THICKNESSES[options.get("units", "metric")]
    thicknesses: Sequence[float] = usual
    if options["thickness"]:
        thicknesses = reader.read("--thickness", units.read_lengths, options["thickness"], usual)
        if min(thicknesses) <= 0.0:
            reader.read("--thickness", above_zero, options["thickness"], 0.0)
    bearing, sag = options["bearing"], options["limit"]
    back = USUAL_BACK if options["back"] == "" else options["back"]
    supports = [list(SUPPORTS)[number] for number in options["dividers"]]
    return Asked(
        sheets=tuple(Sheet(material=m, thickness=t) for m in materials for t in thicknesses),
        depth=reader.read("--depth", above_zero, options["depth"], 300.0),
        supports=tuple([*supports, BACKED] if back is not None else supports),
        bearing=None if bearing is None else reader.read("--bearing", above_zero, bearing, 6.0),
        limit=None if sag is None else reader.read("--limit", limit, sag, None),
        grain=options["grain"],
        clear_height=reader.read("--clear-height", above_zero, options["clear_height"], 300.0),
        site=Site.model_validate({"service_class": options["service_class"]}),
        catalogue=catalogue,
        back=None if back is None else reader.read("--back", partial(_back, catalogue), back, None),
    )


def _back(catalogue: Catalogue, text: str) -> Back:
    """Read a back such as "hardboard 3.2 mm, nailed every 100 mm"."""
    match = _BACK.fullmatch(" ".join(text.split()))
    if match is None or (match["fixed"] == "glued") != (match["spacing"] is None):
        raise QuantityError(text, f'a sheet and how it is fixed, such as "{USUAL_BACK}"')
    thickness = above_zero(match["thickness"])
    catalogue.material(match["material"], thickness)
    fixed: Any = match["fixed"]
    return Back.model_construct(
        material=match["material"],
        thickness=thickness,
        fixed=fixed,
        spacing=None if match["spacing"] is None else above_zero(match["spacing"]),
    )


def above_zero(text: str) -> float:
    """Read a length above zero [mm]."""
    value = units.read(text, "length")
    if value <= 0.0:
        raise QuantityError(text, "a length above zero")
    return value


def _contents(asked: Asked, name: str) -> float:
    return asked.load_of(Fill.model_construct(what=name))


def _load(asked: Asked, text: str) -> float:
    load = units.read_load(text)
    if load.value <= 0.0:
        raise QuantityError(text, "a load above zero")
    return asked.load_of(Fill.model_construct(load=load))
