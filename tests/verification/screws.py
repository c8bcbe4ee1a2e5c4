"""Screws, nails and bolts: embedment, yield modes, withdrawal, heads, rows, groups."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache, partial
from importlib.metadata import version

import numpy as np
from verification.case import LIBRARY, PUBLISHED, Case

from shelfload.solve import (
    connection,
    connection_rows,
    connection_steel,
    embedment,
    fastener,
    nds,
    spacing,
    wood_handbook,
    wood_handbook_lateral,
)
from shelfload.solve import withdrawal as axial
from shelfload.solve import withdrawal_nail as nail

NTNU = "exercises of TKT4211, Norwegian University of Science and Technology: "
DUTCH = "hand calculation of a public Dutch check of nails and screws to EN 1995-1-1: "
OUROCODE = "regression figure of a public package for EN 1995-1-1 (ourocode): "
AWC = "American Wood Council, worked examples to the NDS: "
HANDBOOK = "Wood Handbook FPL-GTR-190, "
PER_INCH = nds.POUND / nds.INCH

# NDS table 12.2A: lag screws of 1/4, 3/8 and 1/2 in, pounds for each inch of thread, by G.
LAG_SIZES = (0.25, 0.375, 0.5)
LAG_SCREWS = ((0.55, (260, 352, 437)), (0.50, (225, 305, 378)), (0.42, (173, 235, 291)))
# FPL-GTR-190, tables 8-10 and 8-11.
LAG_SIDE_MEMBER = {
    2: 0.62, 2.5: 0.77, 3: 0.93, 3.5: 1.00, 4: 1.07, 4.5: 1.13, 5: 1.18, 5.5: 1.21, 6: 1.22,
    6.5: 1.22,
}  # fmt: skip
LAG_ACROSS = {4.8: 1.00, 6.4: 0.97, 7.9: 0.85, 9.5: 0.76, 11.1: 0.70, 12.7: 0.65, 15.9: 0.60}


def norwegian() -> Iterator[Case]:
    def double(which: int, **inputs: float) -> float:
        return connection.double_shear(**inputs)[which]

    c1 = {"f_h_1": 25.3, "f_h_2": 25.3, "t_1": 36, "t_2": 48, "d": 12, "M_y_Rk": 115118}
    c3 = {"f_h_1": 22.6, "f_h_2": 25.6, "t_1": 75, "t_2": 115, "d": 12, "M_y_Rk": 153491}
    c5 = {"f_h_1": 28, "f_h_2": 28, "t_1": 50, "t_2": 100, "d": 10, "M_y_Rk": 95545}
    roped = {**c3, "F_ax_Rk": 13568, "rope_cap": connection.ROPE_CAP["bolt"]}
    rounded = "the source goes on with embedment rounded to 0.2 %"
    cut = "cut off in the source"
    rows = (
        ("dowel 12 in C24: embedment", "25.3", "MPa", None, "",
         lambda: embedment.embedment_predrilled(350, 12), "C1"),
        ("dowel 12, 600 MPa: yield moment", "115118", "N mm", None, "",
         lambda: fastener.yield_moment(600, 12), "C1"),
        ("dowel 12, 36/48/36: mode g", "10930", "N", None, "", partial(double, 0, **c1), "C1"),
        ("dowel 12, 36/48/36: mode h", "7286", "N", None, "", partial(double, 1, **c1), "C1"),
        ("dowel 12, 36/48/36: mode j", "6657", "N", 0.0003, rounded, partial(double, 2, **c1),
         "C1"),
        ("dowel 12, 36/48/36: mode k", "9614", "N", 0.0002, rounded, partial(double, 3, **c1),
         "C1"),
        ("dowel 12 at 70 degrees: embedment", "17.2", "MPa", None, "",
         lambda: embedment.embedment_at_angle(
             embedment.embedment_predrilled(350, 12), embedment.k_90(12, "softwood"),
             np.deg2rad(70),
         ), "C2"),
        ("bolt M12 8.8: yield moment", "153491", "N mm", None, "",
         lambda: fastener.yield_moment(800, 12), "C3"),
        ("bolt M12, 75/115/75: mode j", "9330", "N", 0.001, rounded, partial(double, 2, **c3),
         "C3"),
        ("bolt M12, 75/115/75: mode j with its rope", "11662", "N", 0.001, rounded,
         partial(double, 2, **roped), "C3"),
        ("dowel 12 at a thick steel plate: mode without hinge", "13872", "N", None, "",
         lambda: connection_steel.thick_plate(28.9, 40, 12, 76745)[2], "C4"),
        ("dowel 12 at a thick steel plate: mode with one hinge", "8294", "N", None, "",
         lambda: connection_steel.thick_plate(28.9, 40, 12, 76745)[0], "C4"),
        ("five dowels 12 at 60 in a row: effective number", "3.35", "-", None, "",
         lambda: connection_rows.effective_number_bolts(5, 60, 12), "C4"),
        ("bolt M10, 50/100/50: mode j", "6734", "N", 0.00015, cut, partial(double, 2, **c5), "C5"),
        ("bolt M10, 50/100/50: mode k", "8412", "N", None, "", partial(double, 3, **c5), "C5"),
    )  # fmt: skip
    for name, reference, unit, within, because, ours, place in rows:
        yield Case(
            name=name, reference=reference, ours=ours, unit=unit, within=within, because=because,
            kind=PUBLISHED, source=NTNU + place,
        )  # fmt: skip


def dutch() -> Iterator[Case]:
    f_h = embedment.embedment_not_predrilled(350, 3.4)
    M_y = fastener.yield_moment(600, 3.4)
    F_ax = nail.smooth_nail_withdrawal(350, 3.4, t_pen=52, t=38, d_h=7.5)

    def mode_f(*rope: float) -> float:
        return connection.single_shear(f_h, f_h, 38, 52, 3.4, M_y, *rope)[5]

    across = np.pi / 2
    rows = (
        ("nail 3.4 in C24: embedment", "19.88", "MPa", lambda: f_h),
        ("nail 3.4, 600 MPa: yield moment", "4336", "N mm", lambda: M_y),
        ("nail 3.4, 52 of point: withdrawal", "433.2", "N", lambda: F_ax),
        ("nail 3.4, 38 on 71: mode f", "880.5", "N", mode_f),
        ("nail 3.4, 38 on 71: mode f with its rope", "988.8", "N",
         partial(mode_f, float(F_ax), connection.ROPE_CAP["round nail"])),
        ("nail 3.4, 38 on 71: design value, k_mod 0.8", "608.5", "N",
         lambda: 0.8 / 1.3 * mode_f(float(F_ax), connection.ROPE_CAP["round nail"])),
        ("five nails in a row, k_ef 0.916: effective number", "4.37", "-",
         lambda: connection_rows.effective_number_nails(5, 0.916)),
        ("screw 6 with a root of 4: effective diameter", "4.4", "mm",
         lambda: fastener.effective_diameter(0, 4, 0)),
        ("screw 6, 55 of thread in C24: withdrawal strength", "15.42", "MPa",
         lambda: axial.screw_withdrawal_strength(6, 55, 350)),
        ("screw 6, 55 of thread in C24: withdrawal", "3817", "N",
         lambda: axial.screw_withdrawal(
             axial.screw_withdrawal_strength(6, 55, 350), 6, 55, across
         )),
        ("screw 6, head of 12 in C24: pull-through", "1512", "N",
         lambda: axial.head_pull_through(10.5, 12, 350, 350)),
        ("ten screws along their axes: effective number", "7.943", "-",
         lambda: axial.effective_number_axial(10)),
        ("beam 140 x 300 pulled 100 from its edge: splitting", "24005", "N",
         lambda: connection_rows.splitting_resistance(b=140, h=300, h_e=100)),
    )  # fmt: skip
    for name, reference, unit, ours in rows:
        yield Case(
            name=name, reference=reference, ours=ours, unit=unit, kind=PUBLISHED,
            source=DUTCH + "smooth nail 3.4 x 90, screw 6 x 100, splitting",
        )  # fmt: skip


def french() -> Iterator[Case]:
    def screw(F_ax: float) -> float:
        f_h = embedment.embedment_not_predrilled(385, 4.95)
        M_y = fastener.yield_moment(600, 4.95)
        return np.min(connection.single_shear(f_h, f_h, 100, 80, 4.95, M_y, F_ax, 1.0))

    def nail_in_osb() -> float:
        return np.min(
            connection.single_shear(
                f_h_1=embedment.embedment_particleboard(2.5, 12),
                f_h_2=embedment.embedment_not_predrilled(385, 2.5),
                t_1=12,
                t_2=55 - 12,
                d=2.5,
                M_y_Rk=fastener.yield_moment(600, 2.5),
                F_ax_Rk=300.16,
                rope_cap=0.5,
            )
        )

    rows = (
        ("screw 6 with a root of 4.5, 600 MPa: yield moment", "11514.5", "N mm",
         lambda: fastener.yield_moment(600, fastener.effective_diameter(0, 4.5, 0))),
        ("four screws 6, head of 10: pull-through", "5278.2", "N",
         lambda: axial.head_pull_through(15, 10, 385, 380, axial.effective_number_axial(4))),
        ("screw 6 x 180, glulam on glulam: resistance with its rope", "2095.21", "N",
         lambda: screw(float(axial.head_pull_through(15, 10, 385, 380)))),
        ("nail 2.5 x 55, 12 mm OSB on glulam: resistance", "615.32", "N", nail_in_osb),
        ("nail 2.5 in OSB, 600 MPa: yield moment", "1949.47", "N mm",
         lambda: fastener.yield_moment(600, 2.5)),
        ("two bolts M12 at 100: effective number", "1.6697284", "-",
         lambda: connection_rows.effective_number_bolts(2, 100, 12)),
        ("nail 2.5 in sensitive wood: least thickness", "35", "mm",
         lambda: spacing.splitting_thickness(2.5, 385, sensitive=True)),
    )  # fmt: skip
    for name, reference, unit, ours in rows:
        yield Case(
            name=name, reference=reference, ours=ours, unit=unit, kind=PUBLISHED,
            source=OUROCODE + "panel with nails, screwed glulam, rules of rows",
        )  # fmt: skip


def nail_in_shear():
    """Each yield mode of a nail 0.148 x 3 in, 3/4 in side member, G 0.50, F_yb 90 ksi."""
    F_e = nds.dowel_bearing_strength(0.50)
    D = 0.148 * nds.INCH
    return nds.single_shear_allowable(
        F_e,
        F_e,
        l_m=2.25 * nds.INCH,
        l_s=0.75 * nds.INCH,
        D=D,
        F_yb=90000 * nds.PSI,
        R_d=nds.reduction_term(D),
    )


def american() -> Iterator[Case]:
    rows = (
        ("nail 0.131 in, G 0.42: withdrawal", "20.67", "lbf/in",
         lambda: nds.nail_withdrawal_allowable(0.42, 0.131 * nds.INCH) / PER_INCH, "E2.1a"),
        ("lag screw 1/2 in, G 0.55: withdrawal", "437", "lbf/in",
         lambda: nds.lag_screw_withdrawal_allowable(0.55, 0.5 * nds.INCH) / PER_INCH, "E2.3"),
        ("dowel bearing strength, G 0.50", "4637", "psi",
         lambda: nds.dowel_bearing_strength(0.50) / nds.PSI, "nail in single shear"),
        ("nail 0.148 x 3 in, 3/4 in side member: allowable", "105.1", "lbf",
         lambda: np.min(nail_in_shear()) / nds.POUND,
         "nail in single shear"),
    )  # fmt: skip
    for name, reference, unit, ours, place in rows:
        yield Case(
            name=name, reference=reference, ours=ours, unit=unit, kind=PUBLISHED,
            source=AWC + place,
        )  # fmt: skip
    for G, row in LAG_SCREWS:
        for D, reference in zip(LAG_SIZES, row, strict=True):
            yield Case(
                name=f"lag screw {D:g} in, G {G:g}: withdrawal in the table",
                reference=str(reference),
                ours=lambda G=G, D=D: (
                    nds.lag_screw_withdrawal_allowable(G, D * nds.INCH) / PER_INCH
                ),
                unit="lbf/in",
                kind=PUBLISHED,
                source="NDS, table 12.2A",
            )
    for ratio in (2, 3, 4.5, 6.5):
        yield Case(
            name=f"lag screw, side member {ratio:g} diameters thick: factor",
            reference=f"{LAG_SIDE_MEMBER[ratio]:.2f}",
            ours=partial(wood_handbook_lateral.lag_side_member_factor, 8.0 * ratio, 8.0),
            kind=PUBLISHED,
            source=HANDBOOK + "table 8-10",
        )
    for d in (4.8, 9.5, 15.9):
        yield Case(
            name=f"lag screw {d:g} mm across the grain: factor",
            reference=f"{LAG_ACROSS[d]:.2f}",
            ours=partial(wood_handbook_lateral.lag_across_grain_factor, d),
            kind=PUBLISHED,
            source=HANDBOOK + "table 8-11",
        )
    yield Case(
        name="wood screw 0.2 in, G 0.5, 1 in of thread: mean withdrawal",
        reference=15700 * 0.5**2 * 0.2 * 1.0,
        ours=lambda: wood_handbook.wood_screw_withdrawal(0.5, 0.2 * nds.INCH, nds.INCH) / nds.POUND,
        within=0.003,
        unit="lbf",
        kind=PUBLISHED,
        source=HANDBOOK + "wood screws, 15,700 G^2 D L in pounds and inches beside the metric "
        "formula of three digits",
    )


@cache
def joint(letter: str) -> dict[str, float]:
    """A joint in which this mode governs."""
    drawn = {"f_h_1": 20.0, "f_h_2": 30.0, "d": 6.0, "M_y_Rk": 12000.0}
    sizes = {
        "a": (6.0, 60.0), "b": (60.0, 4.0), "c": (8.0, 9.0), "d": (12.0, 60.0), "e": (60.0, 12.0),
        "f": (60.0, 60.0),
    }  # fmt: skip
    t_1, t_2 = sizes[letter]
    return {**drawn, "t_1": t_1, "t_2": t_2}


def yield_modes() -> Iterator[Case]:
    factors = dict(zip("abcdef", (1, 1, 1, 1.05, 1.05, 1.15), strict=True))

    def by_programming(letter: str) -> float:
        from reference import test_yield_modes as plastic  # here: only these rows pay for it

        inputs = joint(letter)
        order = ("f_h_1", "f_h_2", "t_1", "t_2", "d", "M_y_Rk")
        return factors[letter] * plastic.in_two_members(*(inputs[name] for name in order))

    def ours(letter: str) -> float:
        modes = connection.single_shear(**joint(letter))
        least, found = connection.governing(modes, connection.SINGLE_SHEAR_MODES)
        if found != letter:
            raise ValueError(f"mode {found} governs")
        return least

    for letter in "abcdef":
        yield Case(
            name=f"screw of 6 between two members, mode {letter} governs: resistance",
            reference=partial(by_programming, letter),
            ours=partial(ours, letter),
            unit="N",
            within=0.002,
            kind=LIBRARY,
            source=f"scipy {version('scipy')}, linear programme of a plastic dowel in 240 pieces, "
            "times the clause's 1.05 or 1.15",
        )


def cases() -> Iterator[Case]:
    """All rows of this field."""
    yield from norwegian()
    yield from dutch()
    yield from french()
    yield from american()
    yield from yield_modes()
