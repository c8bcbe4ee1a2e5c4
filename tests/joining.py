"""Members, joints and forces that tests of joins are made of."""

from __future__ import annotations

import re

from shelfload import tables
from shelfload.idealise.joint import NOTHING, Force, Joint, Member


def member(name, thickness, entered="face"):
    """A piece of a tabled material, its row that of 18 mm; ``thickness`` in mm as it measures."""
    row = tables.material(name, 18.0).material
    return Member(material=row, thickness=thickness, entered=entered)


def held(newtons, lasting="long-term"):
    """A force as it is in service, factored by 1.5 (EN 1990 Table A1.2(B))."""
    return Force(design={lasting: 1.5 * newtons}, service=newtons)


def joint(first, second, sideways=0.0, pull=0.0, length=400.0, **more):
    """A joint under long-term forces [N]."""
    return Joint(
        first=first,
        second=second,
        length=length,
        lateral=held(sideways) if sideways else NOTHING,
        pull=held(pull) if pull else NOTHING,
        **more,
    )


def sizes_as_sold_left_out(text: str) -> str:
    """Leave out of a report the sizes by which metric screws and bolts are sold everywhere."""
    words = " ".join(text.split())
    sold = r"(?<=screw )[0-9.]+( x [0-9]+)? mm|(?<=[M0-9]) x [0-9]+ mm"
    sold += r"|(?<=washers x )[0-9]+ mm|(?<=(?:insert|ap nut) x )[0-9]+ mm"
    return re.sub(sold, "", words)
