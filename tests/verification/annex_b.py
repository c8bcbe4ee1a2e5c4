"""Two whole beams by Annex B of EN 1995-1-1: a timber T-beam, a timber beam under a slab."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

import numpy as np
from verification.case import PUBLISHED, Case

from shelfload.solve import composite, composite_stress, slip

# A glulam beam of 240 x 440 under a crosswise panel that counts as one layer of 600 x 30 with its
# middle 295 above the beam's, and for its own bending as that layer 30 off the panel's axis;
# dowels at 50, 9.2 m, 17.134 kN/m at the ultimate. The workbook's K_ser is rho^1.5 d / 20. It also
# puts a gamma_2 on the beam, for which (B.4) has 1: followed here, as the sums are compared.
WORKBOOK = "regression case of the public package strutture-js, after a workbook by EN 1995-1-1, "
T_E, T_A = (11600.0, 12600.0), (600 * 30.0, 240 * 440.0)
T_I = (600 * (30**3 / 12 + 30 * 30**2), 240 * 440**3 / 12)
T_SPAN, T_SPACING, T_OFFSET, T_K_SER = 9200.0, 50.0, 295.0, 410**1.5 * 16 / 20
T_LOAD = 17.134


def t_beam(K: float) -> tuple[np.ndarray, np.ndarray, float]:
    """Both gammas, both offsets, effective stiffness."""
    gamma = composite.gamma_slip(T_E, T_A, T_SPACING, K, T_SPAN)
    # (B.6) for parts that don't touch: depths that put the middles as far apart
    depths = (2 * T_OFFSET - 440.0, 440.0)
    a = composite.axis_offset(gamma[0], T_E[0], T_A[0], depths[0], T_E[1], T_A[1], depths[1])[:2]
    return gamma, a, float(composite.effective_stiffness(gamma, T_E, T_I, T_A, a))


def t_beam_workbook() -> Iterator[Case]:
    """A whole timber T-beam by the gamma method."""
    M, V = T_LOAD * T_SPAN**2 / 8, T_LOAD * T_SPAN / 2
    K_u = slip.slip_modulus_ultimate(T_K_SER)

    def gamma(K: float, part: int) -> float:
        return float(t_beam(K)[0][part])

    def stress() -> float:
        g, a, EI = t_beam(K_u)
        return float(composite_stress.normal_stress(g[0], T_E[0], a[0], M, EI))

    def bending() -> float:
        # half of the panel's 60 that bend: its outer fibre is 30 off
        return float(composite_stress.bending_stress(T_E[0], 60, M, t_beam(K_u)[2]))

    def shear() -> float:
        _, a, EI = t_beam(K_u)
        return float(composite_stress.shear_stress(0, 0, 0, 0, T_E[1], 240, 220 + a[1], V, EI))

    def force() -> float:
        g, a, EI = t_beam(K_u)
        return float(composite_stress.fastener_force(g[0], T_E[0], T_A[0], a[0], T_SPACING, V, EI))

    def sag() -> float:
        return 5 * (5.044 + 6.24) * T_SPAN**4 / 384 / t_beam(T_K_SER)[2]

    for name, reference, unit, ours, place in (
        ("gamma of the panel, ultimate", "0.784346", "-", partial(gamma, K_u, 0), "(B.5)"),
        ("gamma of the beam, ultimate", "0.363361", "-", partial(gamma, K_u, 1), "(B.5)"),
        ("gamma of the panel, in use", "0.845095", "-", partial(gamma, T_K_SER, 0), "(B.5)"),
        ("gamma of the beam, in use", "0.461243", "-", partial(gamma, T_K_SER, 1), "(B.5)"),
        ("effective stiffness, ultimate", "33.474755", "10^12 N mm2",
         lambda: t_beam(K_u)[2] / 1e12, "(B.1) and (B.6), with its gamma_2"),
        ("mean stress of the panel", "12.942024", "MPa", stress, "(B.7)"),
        ("bending stress of the panel", "1.884544", "MPa", bending, "(B.8)"),
        ("shear stress of the beam", "0.944451", "MPa", shear, "(B.9)"),
        ("force on the outermost dowel", "5.06427", "kN", lambda: force() / 1e3, "(B.10)"),
        ("sag on the first day", "30.622415", "mm", sag, "(B.1)"),
    ):  # fmt: skip
        yield Case(
            name=f"T-beam of a panel doweled on glulam, 9.2 m: {name}", reference=reference,
            ours=ours, unit=unit, kind=PUBLISHED, source=f"{WORKBOOK}annex B {place}",
        )  # fmt: skip


# A beam of 220 x 250 mm C24 under a slab of 1800 x 60, 100 apart, connectors of 10.4 and
# 18.6 kN/mm at 150, over 4.25 m; moments and shears of 12.5 and 9 kN/m.
C_PARTS = (
    31476.0, 1800 * 60.0, 1800 * 60**3 / 12, 11000.0, 220 * 250.0, 220 * 250**3 / 12, 255.0
)  # fmt: skip
C_SPAN, C_SPACING, C_LOAD = 4250.0, 150.0, 12.5


def slab_on_beam(K: float) -> float:
    """Effective stiffness."""
    return float(composite.two_part_stiffness(*C_PARTS, s=C_SPACING, K=K, L=C_SPAN))


def slab_workbook() -> Iterator[Case]:
    """A whole timber beam under a slab by the gamma method, after Gelfi."""
    E_1, A_1, _, E_2, A_2, _, r = C_PARTS
    M, V = C_LOAD * C_SPAN**2 / 8, C_LOAD * C_SPAN / 2
    EI = slab_on_beam(10400.0)
    gamma = float(composite.gamma_slip(E_1, A_1, C_SPACING, 10400.0, C_SPAN))
    # (B.6): parts 100 apart, so that the depths are those which put the middles as far apart
    a_1, a_2, _ = composite.axis_offset(gamma, E_1, A_1, 2 * r - 250, E_2, A_2, 250)

    def beam_stress(sign: float) -> float:
        mean = composite_stress.normal_stress(1.0, E_2, a_2, M, EI)
        return abs(float(mean + sign * composite_stress.bending_stress(E_2, 250, M, EI)))

    for name, reference, unit, ours, place in (
        ("effective inertia, ultimate", "980649243.4163", "mm4", lambda: EI / E_2, "(B.1)"),
        ("stress of the beam, tension and bending", "4.8317", "MPa", partial(beam_stress, 1.0),
         "(B.7) and (B.8)"),
        ("stress of the beam, tension less bending", "2.3632", "MPa", partial(beam_stress, -1.0),
         "(B.7) and (B.8)"),
        ("force on the outermost connector", "9583.571", "N",
         lambda: composite_stress.fastener_force(gamma, E_1, A_1, a_1, C_SPACING, V, EI),
         "(B.10)"),
        ("effective stiffness after years, k_def 0.6", "9.003235314", "10^12 N mm2",
         lambda: slab_on_beam(18600.0) / 1.6e12, "(B.1), the slip with E of the first day"),
        ("sag after years under 9 kN/m", "4.2466", "mm",
         lambda: 5 * 9 * C_SPAN**4 / 384 / (slab_on_beam(18600.0) / 1.6), "(B.1)"),
    ):  # fmt: skip
        yield Case(
            name=f"slab on a beam of C24, 4.25 m: {name}", reference=reference, ours=ours,
            unit=unit, kind=PUBLISHED, source=f"{WORKBOOK}annex B {place}",
        )  # fmt: skip


def cases() -> Iterator[Case]:
    """All rows of both."""
    yield from t_beam_workbook()
    yield from slab_workbook()
