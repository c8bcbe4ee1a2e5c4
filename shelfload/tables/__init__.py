"""Data tables as typed rows, each with its source: materials, factors, contents, fixings."""

from shelfload.tables.columns import STATUSES
from shelfload.tables.factors import (
    DURATIONS,
    SERVICE_CLASSES,
    Factor,
    gamma_M,
    kdef,
    kmod,
)
from shelfload.tables.figure import Figure, figures
from shelfload.tables.fixings import (
    Fastener,
    StudSpacing,
    Substrate,
    fasteners,
    studs,
    substrates,
)
from shelfload.tables.goods import Contents, contents, contents_from_csv
from shelfload.tables.limit import Limit, LumberSize, limits, lumber
from shelfload.tables.reader import folder
from shelfload.tables.sheet import Resolved, material
from shelfload.tables.stock import (
    Material,
    aliases,
    families,
    materials,
    materials_from_csv,
    own_material,
)

__all__ = [
    "DURATIONS",
    "SERVICE_CLASSES",
    "STATUSES",
    "Contents",
    "Factor",
    "Fastener",
    "Figure",
    "Limit",
    "LumberSize",
    "Material",
    "Resolved",
    "StudSpacing",
    "Substrate",
    "aliases",
    "contents",
    "contents_from_csv",
    "families",
    "fasteners",
    "figures",
    "folder",
    "gamma_M",
    "kdef",
    "kmod",
    "limits",
    "lumber",
    "material",
    "materials",
    "materials_from_csv",
    "own_material",
    "studs",
    "substrates",
]
