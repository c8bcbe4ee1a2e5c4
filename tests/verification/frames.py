"""Plane frames: portals, storeys, Vierendeel, sway buckling, shear panels."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache, partial
from importlib.metadata import version

import numpy as np
from verification.case import CLOSED_FORM, FROM_MEMORY, LIBRARY, Case

from shelfload.solve.frame import solve_frame
from shelfload.solve.frame_loads import LineLoads
from shelfload.solve.frame_model import Frame
from shelfload.solve.frame_result import FrameResult
from shelfload.solve.shear_panel import shear_panel_stiffness

KLEINLOGEL = "Kleinlogel, Rigid Frame Formulas, frame with horizontal girder, from memory"
INEXTENSIBLE = 2e-4
H, SPAN, POST, GIRDER, Q, P = 2000.0, 900.0, 4e8, 1e8, 0.8, 50.0
K = GIRDER / POST * H / SPAN


@cache
def portal(feet: str, load: str) -> FrameResult:
    """Portal of members that hardly stretch, under an even load or a push at its corner."""
    fixed = np.zeros((4, 3), dtype=bool)
    fixed[[0, 3], :2] = True
    fixed[[0, 3], 2] = feet == "fixed"
    frame = Frame(
        nodes=[(0, 0), (0, H), (SPAN, H), (SPAN, 0)],
        members=[(0, 1), (1, 2), (3, 2)],
        EA=1e5 * POST / SPAN**2 * 12,
        EI=[POST, GIRDER, POST],
        fixed=fixed,
    )
    nodal = np.zeros((4, 3, 1))
    if load == "push":
        nodal[1, 0] = P
        return solve_frame(frame, nodal=nodal)
    return solve_frame(frame, lines=LineLoads(member=1, down=Q))


def portals() -> Iterator[Case]:
    def moment(feet: str, load: str, member: int, at: float) -> float:
        return abs(portal(feet, load).along(member, at, "moment")[0, 0])

    def thrust() -> float:
        return abs(portal("hinged", "even").support_forces[0, 0, 0])

    def sway() -> float:
        return portal("hinged", "push").displacements[1:3, 0, 0].mean()

    hinged = Q * SPAN**2 / (4 * H * (2 * K + 3))
    rows = (
        ("hinged feet, even load: thrust", "N", hinged, thrust),
        ("hinged feet, even load: corner moment", "N mm", hinged * H,
         partial(moment, "hinged", "even", 1, 0.0)),
        ("hinged feet, even load: moment in the girder", "N mm", Q * SPAN**2 / 8 - hinged * H,
         partial(moment, "hinged", "even", 1, SPAN / 2)),
        ("hinged feet, push: corner moment", "N mm", P * H / 2,
         partial(moment, "hinged", "push", 1, 0.0)),
        ("hinged feet, push: sway", "mm",
         P * H**3 / (6 * POST) + P * H**2 * SPAN / (12 * GIRDER), sway),
        ("fixed feet, even load: foot moment", "N mm", Q * SPAN**2 / (12 * (K + 2)),
         partial(moment, "fixed", "even", 0, 0.0)),
        ("fixed feet, even load: corner moment", "N mm", Q * SPAN**2 / (6 * (K + 2)),
         partial(moment, "fixed", "even", 1, 0.0)),
        ("fixed feet, push: foot moment", "N mm", P * H / 2 * (3 * K + 1) / (6 * K + 1),
         partial(moment, "fixed", "push", 0, 0.0)),
        ("fixed feet, push: corner moment", "N mm", P * H / 2 * 3 * K / (6 * K + 1),
         partial(moment, "fixed", "push", 0, H)),
    )  # fmt: skip
    for name, unit, reference, ours in rows:
        yield Case(
            name=f"portal, {name}", reference=reference, ours=ours, unit=unit, within=INEXTENSIBLE,
            kind=CLOSED_FORM,
            source="virtual work: both posts and the girder bend" if "sway" in name else KLEINLOGEL,
        )  # fmt: skip


@cache
def uneven_posts() -> FrameResult:
    """Posts of 12 and 18 ft, girder of 15 ft, 40 kips at the shorter post's head."""
    fixed = np.zeros((4, 3), dtype=bool)
    fixed[[0, 3]] = True
    frame = Frame(
        nodes=[(0, 0), (0, 12), (15, 12), (15, -6)],
        members=[(0, 1), (1, 2), (3, 2)],
        EA=1e9,
        EI=1e3,
        fixed=fixed,
    )
    nodal = np.zeros((4, 3, 1))
    nodal[1, 0] = 40.0
    return solve_frame(frame, nodal=nodal)


def hibbeler() -> Iterator[Case]:
    def moment(member: int, at: float) -> float:
        return abs(uneven_posts().along(member, at, "moment")[0, 0])

    for name, reference, member, at in (
        ("foot of the short post", "208", 0, 0.0),
        ("head of the short post", "135", 0, 12.0),
        ("head of the long post", "94.8", 2, 18.0),
        ("foot of the long post", "110", 2, 0.0),
    ):
        yield Case(
            name=f"portal with posts of 12 and 18 ft pushed with 40 kip: {name}",
            reference=reference,
            ours=partial(moment, member, at),
            unit="kip ft",
            kind=FROM_MEMORY,
            source="Hibbeler, Structural Analysis, slope-deflection, frame that sways, from memory",
        )


def vierendeel(post: float) -> FrameResult:
    """Four bays of 200 on two supports, a force at mid-span, chords that hardly stretch."""
    n, bay, depth = 5, 200.0, 300.0
    line = np.arange(n)
    fixed = np.zeros((2 * n, 3), dtype=bool)
    fixed[0, :2] = True
    fixed[n - 1, 1] = True
    chords = [(i, i + 1) for i in line[:-1]] + [(n + i, n + i + 1) for i in line[:-1]]
    frame = Frame(
        nodes=[*((x * bay, 0.0) for x in line), *((x * bay, depth) for x in line)],
        members=chords + [(i, n + i) for i in line],
        EA=1e11,
        EI=[4e8] * len(chords) + [post] * n,
        fixed=fixed,
    )
    nodal = np.zeros((2 * n, 3, 1))
    nodal[2, 1] = nodal[7, 1] = P / 2
    return solve_frame(frame, nodal=nodal)


def other() -> Iterator[Case]:
    yield Case(
        name="Vierendeel of four bays, stiff posts: sag",
        reference=2 * (P / 2) / (24 * 4e8 / 200.0**3),
        ours=lambda: vierendeel(1e14).displacements[2, 1, 0],
        unit="mm",
        within=1e-3,
        kind=CLOSED_FORM,
        source="each bay shears as two chords fixed at both ends, 12 EI / b^3 each, any textbook",
    )
    yield Case(
        name="Vierendeel of four bays, stiff posts: moment at a chord's end",
        reference=P / 4 * 200.0 / 2,
        ours=lambda: abs(vierendeel(1e14).along(0, 0.0, "moment")[0, 0]),
        unit="N mm",
        within=1e-3,
        kind=CLOSED_FORM,
        source="half the shear of a bay in each chord, hinge in its middle, any textbook",
    )
    yield Case(
        name="sheet nailed all round: stiffness in shear",
        reference=1 / (1 / (600 * 5) + 2 * 100 / 900 * (1 / 800 + 1 / 400)),
        ours=lambda: float(shear_panel_stiffness(600, 5, 800, 400, 900, 100)),
        unit="N/mm",
        kind=CLOSED_FORM,
        source="complementary work of sheet and fasteners, worked in the row",
    )

    def racked() -> float:
        """A hinged box with a panel: its push over its shear angle."""
        fixed = np.zeros((4, 3), dtype=bool)
        fixed[[0, 1], :2] = True
        box = Frame(
            nodes=[(0, 0), (800, 0), (0, 400), (800, 400)],
            members=[(0, 2), (1, 3), (2, 3)],
            EA=1e12,
            EI=1e9,
            joints=[(0, 0)] * 3,
            fixed=fixed,
            panels=[(0, 1, 3, 2)],
            panel_stiffness=[3000.0],
        )
        nodal = np.zeros((4, 3, 1))
        nodal[2, 0] = P
        return solve_frame(box, nodal=nodal).displacements[2:, 0, 0].mean()

    yield Case(
        name="hinged box with a back pushed at its top: sway",
        reference=P / 800 / 3000.0 * 400,
        ours=racked,
        unit="mm",
        within=1e-5,
        kind=CLOSED_FORM,
        source="shear flow P / b over G t, times the height, any textbook",
    )


@cache
def two_storeys() -> FrameResult:
    """Two uneven storeys of two uneven bays, feet hinged but one, even loads and a push."""
    x, z = (0.0, 700.0, 1600.0), (0.0, 400.0, 720.0)
    nodes = [(a, b) for b in z for a in x]
    members = [(i, i + 3) for i in range(6)] + [(3, 4), (4, 5), (6, 7), (7, 8)]
    fixed = np.zeros((9, 3), dtype=bool)
    fixed[:3, :2] = True
    fixed[1, 2] = True
    nodal = np.zeros((9, 3, 1))
    nodal[6, 0] = 35.0
    frame = Frame(nodes=nodes, members=members, EA=1e7, EI=np.linspace(2e8, 6e8, 10), fixed=fixed)
    return solve_frame(frame, lines=LineLoads(member=[6, 7, 9], down=[0.4, 0.7, 0.3]), nodal=nodal)


@cache
def by_pynite() -> object:
    from reference import test_frame_reference as other  # here: only these rows pay for it

    from shelfload.solve.frame_loads import PointLoads

    frame = two_storeys().frame
    nodal = np.zeros((9, 3, 1))
    nodal[6, 0] = 35.0
    lines = LineLoads(
        member=[6, 7, 9], down=[0.4, 0.7, 0.3], end=frame.length[[6, 7, 9]],
        down_end=[0.4, 0.7, 0.3],
    )  # fmt: skip
    none = PointLoads(member=[0], at=[1.0], down=[0.0])
    return other.pynite_model(frame, lines, none, nodal, sprung=False)


def libraries() -> Iterator[Case]:
    source = f"PyNiteFEA {version('PyNiteFEA')}"

    def theirs(node: int, dof: str, sign: float) -> float:
        return sign * getattr(by_pynite().nodes[f"N{node}"], dof)["Combo 1"]

    def ours(node: int, movement: int) -> float:
        return float(two_storeys().displacements[node, movement, 0])

    for name, unit, node, dof, sign, movement in (
        ("sway of the lower storey", "mm", 3, "DX", 1.0, 0),
        ("sway of the top", "mm", 6, "DX", 1.0, 0),
        ("post shortens", "mm", 7, "DY", -1.0, 1),
        ("turn of the middle joint", "rad", 4, "RZ", -1.0, 2),
    ):
        yield Case(
            name=f"two uneven storeys and bays: {name}",
            reference=partial(theirs, node, dof, sign),
            ours=partial(ours, node, movement),
            unit=unit,
            within=1e-6,
            kind=LIBRARY,
            source=source,
        )


def cases() -> Iterator[Case]:
    """All rows of this field."""
    yield from portals()
    yield from hibbeler()
    yield from other()
    yield from libraries()
