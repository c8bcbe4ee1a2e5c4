"""Screws, bolts and nails as sold, and the walls they go into."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from shelfload.tables.columns import NAME, SOURCED, Column, Named, number, text
from shelfload.tables.reader import bundled
from shelfload.units import show_size

FASTENER_KINDS = (
    "wood screw",
    "chipboard screw",
    "full-thread screw",
    "coach screw",
    "panel connector",
    "machine screw and insert",
    "connector bolt",
    "bolt",
    "nail",
    "ring-shank nail",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fastener:
    """One diameter of one kind of fastener; None means unknown.

    Attributes
    ----------
    name, title, kind : str
        Name as typed, words for the report, and one of ``FASTENER_KINDS``
    diameter : float
        Nominal: outside of the thread of metric screws, shank of gauge screws [mm]
    root_diameter, shank_diameter, head_diameter : float or None
        Inside of the thread, smooth shank, and head [mm]
    head_depth : float or None
        How deep a countersunk head lies in the wood [mm]
    head_shape : str
        ``countersunk``, ``pan``, ``hexagon`` or ``flat``
    lengths : tuple of float
        Lengths sold [mm]
    thread_share : float or None
        Threaded part of the length, point included; nought for none [-]
    pilot_softwood, pilot_hardwood, clearance : float or None
        Holes to drill: for the thread, and through the first panel [mm]
    f_u : float or None
        Tensile strength of the wire [MPa]
    demountable : bool
        True where it can be undone and redone without loss
    order : int or None
        1 for the first to be tried
    status, source, note : str
        Who says so
    """

    name: str
    title: str
    kind: str
    diameter: float
    head_shape: str
    lengths: tuple[float, ...]
    status: str
    source: str
    root_diameter: float | None = None
    shank_diameter: float | None = None
    head_diameter: float | None = None
    head_depth: float | None = None
    thread_share: float | None = None
    pilot_softwood: float | None = None
    pilot_hardwood: float | None = None
    clearance: float | None = None
    f_u: float | None = None
    demountable: bool = False
    order: int | None = None
    note: str = ""

    @property
    def sold_lengths(self) -> str:
        """The lengths sold, in the unit of the trade that sells them."""
        sizes = [self.length_words(length) for length in self.lengths]
        unit = sizes[0].rpartition(" ")[2]
        return f"{', '.join(size.removesuffix(f' {unit}') for size in sizes)} {unit}"

    def length_words(self, length: float) -> str:
        """Return a length [mm] as it stands on the packet: gauge screws are sold in inches."""
        return show_size(length, "inch") if self.kind == "wood screw" else f"{length:.4g} mm"


@dataclass(frozen=True, slots=True, kw_only=True)
class Substrate:
    """A wall to fix to; its figures are for planning only, never for a pass.

    Attributes
    ----------
    name, title : str
        Name as typed, and words for the report
    fixing : str
        What usually goes into it
    tension, shear : float or None
        Planning load of one fixing, the low end [N]
    by_formula : bool
        True where the screw formulas give a design value (timber)
    allowed_overhead : bool
        True where something may hang from it over people, with a proper fixing
    status, source, note : str
        Who says so
    """

    name: str
    title: str
    fixing: str
    by_formula: bool
    allowed_overhead: bool
    status: str
    source: str
    tension: float | None = None
    shear: float | None = None
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class StudSpacing:
    """A usual distance between studs.

    Attributes
    ----------
    name, region : str
        Name as typed, and where it is usual
    spacing : float
        Centre to centre [mm]
    status, source, note : str
        Who says so
    """

    name: str
    region: str
    spacing: float
    status: str
    source: str
    note: str = ""


_SIZE = number("length", low=0.3, high=60.0)


@cache
def fasteners() -> Mapping[str, Fastener]:
    """Return every fastener by name, read once."""
    columns = {
        "name": NAME,
        "title": text(required=True),
        "kind": text(*FASTENER_KINDS, required=True),
        "diameter": number("length", required=True, low=0.8, high=20.0),
        "root_diameter": _SIZE,
        "shank_diameter": _SIZE,
        "head_diameter": _SIZE,
        "head_depth": _SIZE,
        "head_shape": text("countersunk", "pan", "hexagon", "flat", required=True),
        "lengths": Column(holds="numbers", dimension="length", required=True, low=8.0, high=400.0),
        "thread_share": number(high=1.0),
        "pilot_softwood": _SIZE,
        "pilot_hardwood": _SIZE,
        "clearance": _SIZE,
        "f_u": number("stress", low=200.0, high=1500.0),
        "demountable": Column(holds="flag", required=True),
        "order": Column(holds="count"),
        **SOURCED,
    }
    return Named("fastener", {row.name: row for row in bundled("fasteners.csv", columns, Fastener)})


@cache
def substrates() -> Mapping[str, Substrate]:
    """Return every kind of wall by name, read once."""
    load = number("force", low=10.0, high=10000.0)
    columns = {
        "name": NAME,
        "title": text(required=True),
        "fixing": text(required=True),
        "tension": load,
        "shear": load,
        "by_formula": Column(holds="flag", required=True),
        "allowed_overhead": Column(holds="flag", required=True),
        **SOURCED,
    }
    return Named("wall", {row.name: row for row in bundled("substrates.csv", columns, Substrate)})


@cache
def studs() -> Mapping[str, StudSpacing]:
    """Return the usual stud spacings by name, read once."""
    columns = {
        "name": NAME,
        "region": text(required=True),
        "spacing": number("length", required=True, low=200.0, high=1200.0),
        **SOURCED,
    }
    return Named(
        "stud spacing", {row.name: row for row in bundled("studs.csv", columns, StudSpacing)}
    )
