"""Creep, load duration and partial factors by class of material."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from shelfload.errors import UnknownName
from shelfload.tables.columns import NAME, SOURCED, Column, Named, number
from shelfload.tables.reader import bundled

DURATIONS = ("permanent", "long-term", "medium-term", "short-term", "instantaneous")
SERVICE_CLASSES = (1, 2, 3)


@dataclass(frozen=True, slots=True, kw_only=True)
class Factor:
    """A factor and who gives it.

    Attributes
    ----------
    value : float
        The factor [-]
    source, status, note : str
        Who says so
    """

    value: float
    source: str
    status: str
    note: str = ""


def kdef(duration_class: str, service_class: int) -> Factor | None:
    """Return the creep factor: final sag is instantaneous sag times (1 + kdef).

    Parameters
    ----------
    duration_class : str
        Class of material, as in ``Material.duration_class``
    service_class : int
        1 heated rooms, 2 humid, 3 outdoors

    Returns
    -------
    Factor or None
        None where the code has no value: the board is not allowed there [-]

    Raises
    ------
    UnknownName
        No such class of material, or of service

    Notes
    -----
    Source: EN 1995-1-1:2004, Table 3.2; for metal, glass and acrylic as the row says.
    """
    return _kdef_rows()[duration_class].get(_known(service_class))


def kmod(duration_class: str, service_class: int, load_duration: str) -> Factor | None:
    """Return the strength factor for moisture and duration of load.

    Parameters
    ----------
    duration_class : str
        Class of material, as in ``Material.duration_class``
    service_class : int
        1 heated rooms, 2 humid, 3 outdoors
    load_duration : str
        One of ``DURATIONS``

    Returns
    -------
    Factor or None
        None where the code has no value: the board is not allowed there [-]

    Raises
    ------
    UnknownName
        No such class of material, of service or of duration

    Notes
    -----
    Source: EN 1995-1-1:2004, Table 3.1; for metal, glass and acrylic as the row says.
    """
    if load_duration not in DURATIONS:
        raise UnknownName("load duration", load_duration, DURATIONS)
    return _kmod_rows()[duration_class].get((_known(service_class), load_duration))


def gamma_M(gamma_M_class: str) -> Factor:
    """Return the partial factor of a class of material.

    Parameters
    ----------
    gamma_M_class : str
        Class of material, as in ``Material.gamma_M_class``

    Returns
    -------
    Factor
        Divides the characteristic strength [-]

    Raises
    ------
    UnknownName
        No such class

    Notes
    -----
    Source: EN 1995-1-1:2004, Table 2.3; for metal, glass and acrylic as the row says.
    """
    return _gamma_M_rows()[gamma_M_class]


def _known(service_class: int) -> int:
    if service_class not in SERVICE_CLASSES:
        raise UnknownName("service class", str(service_class), map(str, SERVICE_CLASSES))
    return service_class


@cache
def _kdef_rows() -> Mapping[str, Mapping[int, Factor]]:
    columns = {
        "name": NAME,
        **{f"service_class_{n}": number(high=10.0) for n in SERVICE_CLASSES},
        **SOURCED,
    }
    return Named("class of creep", dict(bundled("kdef.csv", columns, _kdef_row)))


def _kdef_row(
    *, name: str, status: str, source: str, note: str = "", **values: float
) -> tuple[str, Mapping[int, Factor]]:
    return name, {
        int(column[-1]): Factor(value=value, source=source, status=status, note=note)
        for column, value in values.items()
    }


@cache
def _kmod_rows() -> Mapping[str, Mapping[tuple[int, str], Factor]]:
    columns = {
        "name": NAME,
        "service_class": Column(holds="count", required=True),
        **{duration: number(low=0.05, high=1.2) for duration in DURATIONS},
        **SOURCED,
    }
    merged: dict[str, dict[tuple[int, str], Factor]] = {}
    for name, row in bundled("kmod.csv", columns, _kmod_row, key=("name", "service_class")):
        merged.setdefault(name, {}).update(row)
    return Named("class of load duration", merged)


def _kmod_row(
    *, name: str, service_class: int, status: str, source: str, note: str = "", **values: float
) -> tuple[str, Mapping[tuple[int, str], Factor]]:
    return name, {
        (service_class, duration): Factor(value=value, source=source, status=status, note=note)
        for duration, value in values.items()
    }


@cache
def _gamma_M_rows() -> Mapping[str, Factor]:
    columns = {"name": NAME, "value": number(required=True, low=1.0, high=3.0), **SOURCED}
    return Named("class of partial factor", dict(bundled("gamma_M.csv", columns, _gamma_M_row)))


def _gamma_M_row(
    *, name: str, value: float, status: str, source: str, note: str = ""
) -> tuple[str, Factor]:
    return name, Factor(value=value, source=source, status=status, note=note)
