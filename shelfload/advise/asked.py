"""What was typed for a table, read by the rules of a description: every mistake at once."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any, TypeVar

from shelfload import units
from shelfload.advise.span_tables import LONGEST, SHORTEST
from shelfload.advise.table_cells import SUPPORTS, Asked, Sheet
from shelfload.describe.catalogue import Catalogue
from shelfload.describe.parts import Fill
from shelfload.describe.site import Site
from shelfload.errors import DescriptionError, Mistake, QuantityError, UnknownName
from shelfload.wording import figure

USUAL_MATERIALS = ("birch-plywood", "mdf", "particleboard-p2", "osb-3", "c24", "european-oak")
USUAL_THICKNESSES = (12.0, 15.0, 18.0, 24.0)
USUAL_CONTENTS = ("clothes-folded-shelf", "books", "lever-arch-file", "paper-piled")
USUAL_SPANS = (400.0, 600.0, 800.0, 1000.0, 1200.0)
"""What a table shows where nothing is said: sheets [mm] that most yards have."""

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
    spans: Sequence[float] = USUAL_SPANS
    if options["spans"]:
        spans = reader.read("--spans", units.read_lengths, options["spans"], ())
    for span in spans:
        if not SHORTEST <= span <= LONGEST:
            allowed = "allowed: clear spans from 50 mm to 6 m"
            reader.mistakes.append(Mistake(key="--spans", found=f"{span:g} mm", allowed=allowed))
    reader.done()
    return asked, tuple(Column(words=figure(span, "length"), value=span) for span in spans)


def _asked(options: Mapping[str, Any], catalogue: Catalogue, reader: Reader) -> Asked:
    def known(name: str) -> str:
        catalogue.require_material(name)
        return name

    def limit(name: str) -> str:
        catalogue.limit(name)
        return name

    materials = options["material"] or USUAL_MATERIALS
    materials = [reader.read("--material", known, name, "birch-plywood") for name in materials]
    thicknesses: Sequence[float] = USUAL_THICKNESSES
    if options["thickness"]:
        thicknesses = reader.read(
            "--thickness", units.read_lengths, options["thickness"], USUAL_THICKNESSES
        )
        if min(thicknesses) <= 0.0:
            reader.read("--thickness", above_zero, options["thickness"], 0.0)
    bearing, sag = options["bearing"], options["limit"]
    return Asked(
        sheets=tuple(Sheet(material=m, thickness=t) for m in materials for t in thicknesses),
        depth=reader.read("--depth", above_zero, options["depth"], 300.0),
        supports=tuple(list(SUPPORTS)[number] for number in options["dividers"]),
        bearing=None if bearing is None else reader.read("--bearing", above_zero, bearing, 6.0),
        limit=None if sag is None else reader.read("--limit", limit, sag, None),
        grain=options["grain"],
        clear_height=reader.read("--clear-height", above_zero, options["clear_height"], 300.0),
        site=Site.model_validate({"service_class": options["service_class"]}),
        catalogue=catalogue,
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
