"""What hangs on a wall: groups of fixings, rails, brackets, rods."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache, partial
from importlib.metadata import version
from math import hypot, pi

import numpy as np
from verification.case import CLOSED_FORM, FROM_MEMORY, LIBRARY, Case

from shelfload.solve import bracket, fixing_group, studs

# A cupboard of 600 N, centre 160 out, a hand with 250 N on its front edge at 320; fixings at
# 650 and 50 above its lower edge, two each.
M = 600 * 160 + 250 * 320
Z = (650.0, 650.0, 50.0, 50.0)
SQUARES = 2 * 650**2 + 2 * 50**2


def hung() -> Iterator[Case]:
    by_hand = "statics, turn about the lower edge, worked in the row"
    for name, unit, reference, ours in (
        ("moment at the wall", "N mm", M, lambda: fixing_group.wall_moment(600, 160, 250, 320)),
        ("tension of an upper fixing", "N", M * 650 / SQUARES,
         lambda: fixing_group.tension_by_rotation(M, Z)[0]),
        ("tension of a lower fixing", "N", M * 50 / SQUARES,
         lambda: fixing_group.tension_by_rotation(M, Z)[2]),
        ("one upper fixing lost: tension of the other", "N", M * 650 / (SQUARES - 650**2),
         lambda: np.max(fixing_group.tension_with_one_lost(M, Z))),
        ("press at the lower edge", "N", M * 1400 / SQUARES,
         lambda: fixing_group.edge_compression(fixing_group.tension_by_rotation(M, Z))),
        ("shear of each fixing", "N", 850 / 4,
         lambda: fixing_group.shear_per_fixing(850.0, 4)),
    ):  # fmt: skip
        yield Case(
            name=f"cupboard hung on four fixings: {name}", reference=reference, ours=ours,
            unit=unit, kind=CLOSED_FORM, source=by_hand,
        )  # fmt: skip
    for power, reference in ((1, 1.0), (2, 0.52)):
        yield Case(
            name=f"pull of 300 on 500 and shear of 400 on 1000, power {power}",
            reference=reference,
            ours=partial(fixing_group.interaction, 300, 500, 400, 1000, power),
            kind=CLOSED_FORM,
            source="EN 1995-1-1:2004, (8.27) and (8.28), by hand",
        )


def bolt_group() -> float:
    """Worst of six bolts, 4 in across and 3 in along, 24 kips at 5 in from their middle."""
    x, z = [-2, 2] * 3, np.repeat([-3, 0, 3], 2)
    f_x, f_z = fixing_group.eccentric_group(x, z, 0.0, 24.0, 24.0 * 5.0)
    return max(hypot(a, b) for a, b in zip(f_x, f_z, strict=True))


# A rail of 1200 on studs at 100, 500, 900 and 1100: uneven, with overhangs.
RAIL, STUDS = 1200.0, (100.0, 500.0, 900.0, 1100.0)
FORCES = ((200.0, 40.0), (150.0, 620.0), (90.0, 1000.0))


@cache
def rail_by_pycba() -> tuple[float, ...]:
    import pycba  # here: only these rows pay for it

    marks = np.array([0.0, *STUDS, RAIL])
    loads = []
    for force, at in FORCES:
        member = int(np.searchsorted(marks, at) - 1)
        loads.append([member + 1, 2, force, at - marks[member]])
    free = [0, 0, *[-1, 0] * len(STUDS), 0, 0]
    lengths = np.diff(marks)
    analysis = pycba.BeamAnalysis(lengths, np.full(len(lengths), 1e9), free, loads)
    analysis.analyze()
    return tuple(float(value) for value in np.ravel(analysis.beam_results.R))


def others() -> Iterator[Case]:
    yield Case(
        name="six bolts, 24 kips at 5 in from their middle: the worst bolt",
        reference="10.0",
        ours=bolt_group,
        unit="kip",
        kind=FROM_MEMORY,
        source="Salmon and Johnson, Steel Structures, eccentric shear, elastic method, from memory",
    )
    force, at = zip(*FORCES, strict=True)
    for stud in range(len(STUDS)):
        yield Case(
            name=f"rail over four uneven studs: reaction of stud {stud + 1}",
            reference=lambda stud=stud: rail_by_pycba()[stud],
            ours=lambda stud=stud: studs.continuous_rail(force, at, STUDS, RAIL).reactions[stud],
            unit="N",
            within=1e-6,
            kind=LIBRARY,
            source=f"pycba {version('pycba')}",
        )
    mean = 300.0 / (80 * 12)
    for name, unit, reference, ours, source in (
        ("bracket, 300 N at 125, upper fixing 180 above its foot: pull", "N", 300 * 125 / 180,
         partial(bracket.upper_fixing_pull, 300.0, 125.0, 180.0), "moments about the foot"),
        ("rod of 12 in 80 of wall, 300 N at 100: press at the face", "MPa",
         mean * (1 + 6 * (100 + 40) / 80), lambda: bracket.rod_wall_pressure(300, 100, 80, 12)[0],
         "N / A + M / W of a footing 80 long under 300 N at 140 from its middle"),
        ("rod of 12 under 40 N m: bending stress", "MPa", 32 * 40e3 / (pi * 12**3),
         partial(bracket.round_bar_stress, 40e3, 12.0), "32 M / pi d^3, any handbook"),
        ("rod 230 out, EI 2.1e8, 100 N spread over it: sag of its tip", "mm",
         100 * 230**3 / (8 * 2.1e8), partial(bracket.rod_tip_sag, 100.0, 230.0, 2.1e8),
         "W L^3 / 8 EI, any table of beams"),
        ("rail of 900 with its studs at 400, wherever they are: studs met", "-", 2.0,
         partial(studs.least_studs_met, 900.0, 400.0, 25.0), "850 hold two pitches of 400"),
    ):  # fmt: skip
        yield Case(
            name=name, reference=reference, ours=ours, unit=unit, kind=CLOSED_FORM, source=source
        )


def cases() -> Iterator[Case]:
    """All rows of this field."""
    yield from hung()
    yield from others()
