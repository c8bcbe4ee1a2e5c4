"""Materials and contents a description may name: the tables plus the user's own."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from shelfload import tables
from shelfload.errors import QuantityError, UnknownName

if TYPE_CHECKING:
    from shelfload.describe.standing import OwnFixing


@dataclass(frozen=True, slots=True)
class Catalogue:
    """The user's own rows in front of the tables; an own row may replace a table's."""

    own_materials: Mapping[str, tables.Material] = field(default_factory=dict)
    own_contents: Mapping[str, tables.Contents] = field(default_factory=dict)
    own_fixings: Mapping[str, OwnFixing] = field(default_factory=dict)

    def material(self, name: str, thickness: float | None = None) -> tables.Resolved:
        """Return the row a name stands for at a thickness [mm].

        Raises
        ------
        UnknownName
            If neither the user nor the tables know the name.
        """
        own = self.own_materials.get(name)
        if own is None:
            try:
                return tables.material(name, thickness)
            except UnknownName as unknown:
                if not self.own_materials or unknown.nearest:
                    raise
                raise UnknownName("material", name, self.own_materials) from None
        used = thickness if thickness is not None else own.thickness_actual
        if used is None:
            raise QuantityError(f"{name} without a thickness", "a thickness with its unit")
        return tables.Resolved(material=own, thickness=used, said="")

    def sheets(self, row: tables.Material) -> list[float]:
        """Return the thicknesses a row's family is sold in [mm], rising; none if it is planed."""
        family = tables.families().get(row.family, ())
        sizes = {sheet.thickness_nominal for sheet in family if sheet.thickness_nominal is not None}
        return sorted(sizes)

    def require_material(self, name: str) -> None:
        """Raise UnknownName unless ``name`` is a row, a family, an alias or the user's own."""
        try:
            self.material(name)
        except QuantityError:
            return  # known, but sold in several thicknesses

    def contents(self, name: str) -> tables.Contents:
        """Return the contents row called ``name``.

        Raises
        ------
        UnknownName
            If neither the user nor the table knows it.
        """
        own = self.own_contents.get(name)
        if own is not None:
            return own
        known = tables.contents()
        if name not in known:
            raise UnknownName("contents entry", name, [*self.own_contents, *known])
        return known[name]

    def limit(self, name: str | None) -> tables.Limit:
        """Return the sag limit called ``name``, or the default one for None.

        Raises
        ------
        UnknownName
            If the limits table has no such row.
        """
        if name is not None:
            return tables.limits()[name]
        return next(row for row in tables.limits().values() if row.default)
