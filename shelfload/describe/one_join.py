"""One join from the command line: two pieces, the forces on them, and a screw if one is meant."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Literal, TypeVar

from shelfload import tables, units
from shelfload.describe.joins import KINDS, WAYS, By, read_screw, way_of
from shelfload.describe.site import CLIMATES
from shelfload.errors import DescriptionError, Mistake, QuantityError, UnknownName

_PIECE = re.compile(r"^(?P<material>.+?)\s+(?P<thickness>[0-9.].*)$")
Read = TypeVar("Read")
Lasting = Literal["permanent", "long-term", "medium-term", "short-term"]


@dataclass(frozen=True, slots=True, kw_only=True)
class OneJoin:
    """A join asked about without a file; lengths in mm, forces in N, as they are in service.

    ``span`` and ``depth`` are those of a doubled shelf of which the two are the panels.
    """

    first: tables.Resolved
    second: tables.Resolved
    into: Literal["face", "edge", "end grain"]
    length: float
    force: float | None
    pull: float | None
    lasting: Lasting
    service_class: int
    redriven: bool
    by: By | None
    screw: tables.Fastener | None
    screw_length: float | None
    count: int | None
    recess: float | None
    span: float | None
    depth: float | None

    @property
    def kinds(self) -> tuple[str, ...]:
        """Kinds of fasteners to choose from."""
        return KINDS[self.by or "screws"]


def one_join(options: Mapping[str, Any]) -> OneJoin:
    """Turn the options of ``shelfload screws`` into a join.

    Raises
    ------
    DescriptionError
        With every mistake, each under the name of its option.
    """
    mistakes: list[Mistake] = []

    def ask(option: str, read: Callable[[str], Read]) -> Read | None:
        text = options[option]
        if text is None:
            return None
        try:
            return read(text)
        except (QuantityError, UnknownName) as fault:
            mistakes.append(_mistake(option, fault))
            return None

    first = ask("first", _piece)
    second = ask("second", _piece)
    screw = ask("screw", read_screw)
    length = ask("length", _length)
    force, pull = ask("force", _force), ask("pull", _force)
    recess = ask("recess", lambda text: units.read(text, "length"))
    span, depth = ask("span", _length), ask("depth", _length)
    by = ask("by", _way)
    if (span is None) != (depth is None):
        mistakes.append(
            Mistake(key="--span", found="one of --span and --depth", allowed="both or neither")
        )
    if screw is not None and by is not None and screw[0].kind not in KINDS[by]:
        allowed = f"{' or '.join(KINDS[by])}, or no --by"
        mistakes.append(Mistake(key="--screw", found=screw[0].name, allowed=allowed))
    if options["into_edge"] and options["into_end_grain"]:
        mistakes.append(
            Mistake(key="--into-edge", found="with --into-end-grain", allowed="one of the two")
        )
    if second is not None and options["into_end_grain"] and second.material.kind not in _GRAINED:
        wanted = "solid wood; the edges of a panel: --into-edge"
        mistakes.append(
            Mistake(key="--into-end-grain", found=second.material.called, allowed=wanted)
        )
    if options["count"] is not None and options["count"] < 2:
        mistakes.append(
            Mistake(key="--count", found=str(options["count"]), allowed="two or more: one turns")
        )
    if mistakes or first is None or second is None or length is None:
        raise DescriptionError(mistakes)
    into: Literal["face", "edge", "end grain"] = "face"
    if options["into_edge"]:
        into = "edge"
    elif options["into_end_grain"]:
        into = "end grain"
    return OneJoin(
        first=first,
        second=second,
        into=into,
        length=length,
        force=force,
        pull=pull,
        lasting=options["lasting"],
        service_class=CLIMATES[options["service_class"]],
        redriven=options["redriven"],
        by=by if screw is None else way_of(screw[0]),
        screw=screw[0] if screw else None,
        screw_length=screw[1] if screw else None,
        count=options["count"],
        recess=recess,
        span=span,
        depth=depth,
    )


_GRAINED = ("solid", "glulam")
_OPTION = {"first": "--from", "second": "--into"}


def _piece(text: str) -> tables.Resolved:
    match = _PIECE.match(text.strip())
    if match is None:
        raise QuantityError(text, 'a material and its thickness, such as "birch-plywood 18 mm"')
    return tables.material(match["material"].strip(), _length(match["thickness"]))


def _length(text: str) -> float:
    value = units.read(text, "length")
    if value <= 0.0:
        raise QuantityError(text, "a length above zero")
    return value


def _force(text: str) -> float:
    value = units.read(text, "force")
    if value <= 0.0:
        raise QuantityError(text, "a force above zero")
    return value


def _way(text: str) -> By:
    for way in WAYS:
        if way == text and way in KINDS:
            return way
    raise QuantityError(text, ", ".join(way for way in WAYS if way in KINDS))


def _mistake(option: str, fault: QuantityError | UnknownName) -> Mistake:
    name = _OPTION.get(option, "--" + option.replace("_", "-"))
    if isinstance(fault, UnknownName):
        known = f"allowed: a {fault.what} that is known"
        return Mistake(key=name, found=repr(fault.found), allowed=known, nearest=fault.nearest)
    return Mistake(
        key=name, found=fault.found, allowed=f"allowed: {fault.allowed}", nearest=fault.nearest
    )
