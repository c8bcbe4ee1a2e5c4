"""Two layers on fasteners: gamma method, exact solution, and an energy method beside them."""

from __future__ import annotations

import numpy as np
import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.polynomial import legendre

from shelfload.solve import composite, composite_exact, composite_stress

# E [MPa], A [mm2], I [mm4] of two layers and the distance of their centroids [mm]
DOUBLE_12_PLY = (9000, 300 * 12, 300 * 12**3 / 12, 9000, 300 * 12, 300 * 12**3 / 12, 12)
LIPPED = (11000, 20 * 40, 20 * 40**3 / 12, 2600, 300 * 16, 300 * 16**3 / 12, 12)
UNEQUAL = (9000, 300 * 9, 300 * 9**3 / 12, 3000, 300 * 22, 300 * 22**3 / 12, 15.5)
SECTIONS = [DOUBLE_12_PLY, LIPPED, UNEQUAL]


def rectangle(b, h):
    return b * h, b * h**3 / 12


@st.composite
def sections(draw):
    b = draw(st.floats(20, 600))
    h_1, h_2 = draw(st.floats(3, 60)), draw(st.floats(3, 60))
    E_1, E_2 = draw(st.floats(1000, 200000)), draw(st.floats(1000, 20000))
    return (E_1, *rectangle(b, h_1), E_2, *rectangle(b, h_2), (h_1 + h_2) / 2)


STEADY = settings(deadline=None)
SPACING = st.floats(1, 2000)
MODULUS = st.floats(100, 10000)
SPAN = st.floats(200, 3000)


class Ritz:
    """Potential energy of both layers' displacements, minimised over polynomials.

    Nothing of the closed solution is used: u_1, u_2 along the layers and w down are free in
    each stretch between ``cuts``, joined there by multipliers with their slope; the fasteners
    stretch by u_2 - u_1 + r w'; supports hold w.
    """

    def __init__(self, section, cuts, supports, k=0.0, screws=(), K=0.0, degree=24):
        E_1, A_1, I_1, E_2, A_2, I_2, self.r = section
        self.cuts, self.n = np.asarray(cuts, dtype=float), degree + 1
        self.size = 3 * self.n * (len(cuts) - 1)
        t, weights = legendre.leggauss(2 * self.n)
        energy = np.zeros((self.size, self.size))
        self.even = np.zeros(self.size)
        for left, right in zip(self.cuts[:-1], self.cuts[1:], strict=True):
            x = (left + right) / 2 + t * (right - left) / 2
            dx = weights * (right - left) / 2
            w_2 = self.field("w", x, 2)
            for rows, stiffness in (
                (self.field("u_1", x, 1), E_1 * A_1),
                (self.field("u_2", x, 1), E_2 * A_2),
                (w_2, E_1 * I_1 + E_2 * I_2),
                (self.slip(x), k),
            ):
                energy += stiffness * rows.T @ (dx[:, None] * rows)
            self.even += dx @ self.field("w", x)
        if len(screws):
            rows = self.slip(np.asarray(screws))
            energy += K * rows.T @ rows
        inner = self.cuts[1:-1]
        # an end is approached from the left stretch by a hair less, from the right as it is
        joins = [
            self.field(name, inner, order) - self.field(name, inner, order, from_left=True)
            for name, order in (("u_1", 0), ("u_2", 0), ("w", 0), ("w", 1))
        ]
        # the layers may not float away along the span: hold one point
        held = self.field("u_1", self.cuts[:1])
        C = np.vstack([*joins, held, self.field("w", np.asarray(supports, dtype=float))])
        m = len(C)
        self.matrix = np.block([[energy, C.T], [C, np.zeros((m, m))]])
        self.supports = len(supports)

    def field(self, name, x, order=0, from_left=False):
        """Rows that turn the coefficients into a field, or its derivative, at x."""
        x = np.atleast_1d(x)
        stretch = np.searchsorted(self.cuts, x, side="left" if from_left else "right") - 1
        stretch = np.clip(stretch, 0, len(self.cuts) - 2)
        left, right = self.cuts[stretch], self.cuts[stretch + 1]
        t = (2 * x - left - right) / (right - left)
        n = self.n
        polynomials = [legendre.legder(row, order) if order else row for row in np.eye(n)]
        values = np.stack([legendre.legval(t, c) for c in polynomials], axis=1)
        values *= ((2 / (right - left)) ** order)[:, None]
        rows = np.zeros((len(x), self.size))
        first = (3 * stretch + ("u_1", "u_2", "w").index(name)) * n
        rows[np.arange(len(x))[:, None], first[:, None] + np.arange(n)] = values
        return rows

    def slip(self, x):
        return self.field("u_2", x) - self.field("u_1", x) + self.r * self.field("w", x, 1)

    def load(self, q=0.0, P=0.0, a=0.0):
        force = np.zeros(len(self.matrix))
        force[: self.size] = q * self.even + P * self.field("w", a)[0]
        scale = np.sqrt(np.maximum(np.abs(np.diag(self.matrix)), 1e-12))
        scale[self.size :] = 1 / scale[: self.size].max()
        scaled = self.matrix / scale[:, None] / scale
        self.answer = np.linalg.solve(scaled, force / scale) / scale
        return self

    def sag(self, x):
        return self.field("w", x) @ self.answer[: self.size]

    def reactions(self):
        return self.answer[-self.supports :]


@pytest.mark.parametrize("section", SECTIONS)
@pytest.mark.parametrize("s", [20, 150, 600])
def test_exact_uniform_load_against_energy_method(section, s):
    L, K, q = 800.0, 1200.0, 0.4
    x = np.linspace(0, L, 9)
    layers = composite_exact.two_layers(*section, s, K)
    ritz = Ritz(section, [0, L], [0, L], K / s).load(q)
    exact = composite_exact.sag_uniform(layers, x, q, L)
    assert exact == pytest.approx(ritz.sag(x), rel=1e-6, abs=1e-9 * exact.max())


@pytest.mark.parametrize("section", SECTIONS)
@pytest.mark.parametrize("s", [20, 150, 600])
def test_exact_point_load_against_energy_method(section, s):
    L, K, P, a = 800.0, 1200.0, 150.0, 230.0
    layers = composite_exact.two_layers(*section, s, K)
    ritz = Ritz(section, [0, a, L], [0, L], K / s).load(P=P, a=a)
    x = np.array([100, 230, 400, 700])
    exact = composite_exact.sag_point_load(layers, x, P, a, L)
    assert exact == pytest.approx(ritz.sag(x), rel=1e-6)


@pytest.mark.parametrize("section", SECTIONS)
@pytest.mark.parametrize("s", [20, 150, 600])
def test_exact_continuous_against_energy_method(section, s):
    spans, K, q = [700.0, 350.0, 500.0], 1200.0, 0.4
    supports = [0, 700, 1050, 1550]
    layers = composite_exact.two_layers(*section, s, K)
    x = np.array([150.0, 300.0, 500.0, 700.0, 900.0, 1300.0])
    sag, reactions = composite_exact.sag_continuous(layers, spans, q, x)
    ritz = Ritz(section, supports, supports, K / s).load(q)
    assert sag == pytest.approx(ritz.sag(x), rel=1e-6, abs=1e-8 * np.max(np.abs(sag)))
    assert reactions == pytest.approx(ritz.reactions()[1:-1], rel=1e-6)


@pytest.mark.parametrize("count", [4, 5, 8, 15])
def test_smeared_fasteners_stand_for_single_ones(count):
    """Screws at even spacing, the first half a spacing from the end, one by one."""
    L, K, q = 800.0, 1500.0, 0.4
    s = L / count
    screws = s * (np.arange(count) + 0.5)
    layers = composite_exact.two_layers(*DOUBLE_12_PLY, s, K)
    smeared = float(composite_exact.midspan_sag_uniform(layers, q, L))
    single = Ritz(DOUBLE_12_PLY, [0, *screws, L], [0, L], screws=screws, K=K, degree=8)
    assert smeared == pytest.approx(float(single.load(q).sag([L / 2])[0]), rel=0.01)


def test_closed_form_obeys_its_equations():
    """Equilibrium, compatibility and the ends, by computer algebra."""
    x, L, q, al, EI_0, c, r = sympy.symbols("x L q alpha EI_0 c r", positive=True)
    EI_inf = 1 / (1 / EI_0 - c)
    shape = x * (L - x)
    rest = 1 - sympy.cosh(al * (x - L / 2)) / sympy.cosh(al * L / 2)
    w = q * (shape * (L**2 + shape) / 24 / EI_inf + c / al**2 * (shape / 2 - rest / al**2))
    M = q * shape / 2
    N = (M + EI_0 * sympy.diff(w, x, 2)) / r  # M = EI_0 kappa + N r
    # k r / EI_0 = alpha^2 (EI_inf - EI_0) / (EI_inf r), from the two definitions
    drive = al**2 * (EI_inf - EI_0) / (EI_inf * r)
    assert sympy.simplify(sympy.diff(N, x, 2) - al**2 * N + drive * M) == 0
    for end in (0, L):
        assert sympy.simplify(w.subs(x, end)) == 0
        assert sympy.simplify(N.subs(x, end)) == 0
    flow = sympy.simplify(sympy.diff(N, x).subs(x, 0))
    z = al * L / 2
    printed_flow = (EI_inf - EI_0) / (EI_inf * r) * q * L / 2 * (1 - sympy.tanh(z) / z)
    assert sympy.simplify((flow - printed_flow).rewrite(sympy.exp)) == 0
    # and the program computes that very expression
    section, s, K = UNEQUAL, 120.0, 900.0
    layers = composite_exact.two_layers(*section, s, K)
    values = {
        L: 650.0,
        q: 0.3,
        al: float(layers.alpha),
        EI_0: float(layers.EI_0),
        c: float(1 / layers.EI_0 - 1 / layers.EI_inf),
        r: 15.5,
    }
    algebra = [float(w.subs(values).subs(x, at)) for at in (60, 325, 500)]
    assert composite_exact.sag_uniform(layers, [60, 325, 500], 0.3, 650) == pytest.approx(
        algebra, rel=1e-9
    )
    assert float(composite_exact.midspan_sag_uniform(layers, 0.3, 650)) == pytest.approx(
        algebra[1], rel=1e-9
    )
    assert float(composite_exact.end_slip_flow_uniform(layers, 0.3, 650)) == pytest.approx(
        float(flow.subs(values)), rel=1e-9
    )


@STEADY
@given(section=sections(), s=SPACING, K=MODULUS, L=SPAN)
def test_gamma_method_is_exact_under_a_sine_load(section, s, K, L):
    """M = M_0 sin(pi x / L): N'' = -(pi / L)^2 N turns the exact equation into algebra."""
    E_1, A_1, I_1, E_2, A_2, I_2, r = section
    k, p = K / s, np.pi / L
    EI_0 = E_1 * I_1 + E_2 * I_2
    alpha_2 = k * (1 / (E_1 * A_1) + 1 / (E_2 * A_2) + r**2 / EI_0)
    N_over_M = k * r / EI_0 / (alpha_2 + p**2)
    exact = EI_0 / (1 - r * N_over_M)
    assert float(composite.two_part_stiffness(*section, s, K, L)) == pytest.approx(exact, rel=1e-9)


@STEADY
@given(section=sections(), s=SPACING, K=MODULUS, L=SPAN)
def test_gamma_method_is_close_under_uniform_load(section, s, K, L):
    layers = composite_exact.two_layers(*section, s, K)
    exact = float(composite_exact.effective_stiffness_uniform(layers, L))
    gamma = float(composite.two_part_stiffness(*section, s, K, L))
    assert 0.985 * exact < gamma < 1.005 * exact


@STEADY
@given(section=sections(), s=SPACING, K=MODULUS, L=SPAN)
def test_between_lying_and_glued(section, s, K, L):
    layers = composite_exact.two_layers(*section, s, K)
    for stiffness in (
        composite.two_part_stiffness(*section, s, K, L),
        composite_exact.effective_stiffness_uniform(layers, L),
    ):
        assert layers.EI_0 * (1 - 1e-9) <= stiffness <= layers.EI_inf * (1 + 1e-9)


@STEADY
@given(section=sections(), K=MODULUS, L=SPAN)
def test_limits_of_the_spacing(section, K, L):
    E_1, A_1, I_1, E_2, A_2, I_2, r = section
    lying = E_1 * I_1 + E_2 * I_2
    glued = lying + E_1 * A_1 * E_2 * A_2 / (E_1 * A_1 + E_2 * A_2) * r**2
    for s, limit in ((0.0, glued), (1e-9, glued), (np.inf, lying), (1e12, lying)):
        layers = composite_exact.two_layers(*section, s, K)
        exact = composite_exact.effective_stiffness_uniform(layers, L)
        assert float(exact) == pytest.approx(limit, rel=1e-5)
        gamma = composite.two_part_stiffness(*section, s, K, L)
        assert float(gamma) == pytest.approx(limit, rel=1e-5)


@STEADY
@given(section=sections(), K=MODULUS, L=SPAN)
def test_wider_spacing_is_never_stiffer(section, K, L):
    s = np.concatenate([[0.0], np.geomspace(0.1, 1e6, 60), [np.inf]])
    layers = composite_exact.two_layers(*section, s, K)
    exact = composite_exact.effective_stiffness_uniform(layers, L)
    gamma = composite.two_part_stiffness(*section, s, K, L)
    assert np.all(np.diff(exact) <= 1e-9 * exact[:-1])
    assert np.all(np.diff(gamma) <= 1e-12 * gamma[:-1])


@STEADY
@given(section=sections(), s=SPACING, K=MODULUS, L=SPAN)
def test_either_layer_may_be_called_the_first(section, s, K, L):
    swapped = (*section[3:6], *section[:3], section[6])
    assert float(composite.two_part_stiffness(*section, s, K, L)) == pytest.approx(
        float(composite.two_part_stiffness(*swapped, s, K, L)), rel=1e-9
    )


@STEADY
@given(section=sections(), s=SPACING, K=MODULUS, L=SPAN, a=st.floats(0.05, 0.95))
def test_influence_line_is_symmetric(section, s, K, L, a):
    layers = composite_exact.two_layers(*section, s, K)
    there = composite_exact.sag_point_load(layers, 0.3 * L, 1.0, a * L, L)
    back = composite_exact.sag_point_load(layers, a * L, 1.0, 0.3 * L, L)
    assert float(there) == pytest.approx(float(back), rel=1e-9)


@STEADY
@given(section=sections(), s=SPACING, K=MODULUS, L=SPAN)
def test_many_point_loads_make_a_uniform_load(section, s, K, L):
    layers = composite_exact.two_layers(*section, s, K)
    t, weights = legendre.leggauss(40)
    halves = [L / 4 * (1 + t), L / 2 + L / 4 * (1 + t)]  # the line has a kink at midspan
    total = sum(
        composite_exact.sag_point_load(layers, L / 2, weights * L / 4, a, L).sum() for a in halves
    )
    even = composite_exact.midspan_sag_uniform(layers, 1.0, L)
    # short decay lengths against L need more than forty points a half
    assert float(total) == pytest.approx(float(even), rel=1e-4)


def test_continuous_limits_are_solid_beams():
    spans, q = [600.0, 600.0], 0.5
    for s in (0.0, np.inf):
        layers = composite_exact.two_layers(*DOUBLE_12_PLY, s, 1000.0)
        sag, reaction = composite_exact.sag_continuous(layers, spans, q, [300.0, 600.0])
        EI = float(layers.EI_inf if s == 0 else layers.EI_0)
        assert float(reaction[0]) == pytest.approx(1.25 * q * 600, rel=1e-9)
        # 3/8 q L at the end; sag at midspan q L^4 / (192 E I)
        assert float(sag[0]) == pytest.approx(q * 600**4 / (192 * EI), rel=1e-9)
        assert float(sag[1]) == pytest.approx(0, abs=1e-9)


def test_continuous_symmetry_and_batches():
    s = np.array([50.0, 150.0, 500.0])
    layers = composite_exact.two_layers(*UNEQUAL, s, 1000.0)
    x = np.array([100.0, 400.0, 1300.0, 1600.0])
    sag, reactions = composite_exact.sag_continuous(layers, [500, 700, 500], 0.3, x)
    assert sag.shape == (3, 4)
    assert reactions.shape == (3, 2)
    assert sag == pytest.approx(sag[:, ::-1], rel=1e-9)
    assert reactions[:, 0] == pytest.approx(reactions[:, 1], rel=1e-9)
    one = composite_exact.two_layers(*UNEQUAL, 150.0, 1000.0)
    alone, _ = composite_exact.sag_continuous(one, [500, 700, 500], 0.3, x)
    assert sag[1] == pytest.approx(alone, rel=1e-12)
    single, none = composite_exact.sag_continuous(one, [700], 0.3, [350])
    assert single[0] == pytest.approx(composite_exact.midspan_sag_uniform(one, 0.3, 700))
    assert none.size == 0


def solid_sag(spans, x):
    """Sag of a solid beam with E I of 1 under a unit load: the exact solution, glued."""
    layers = composite_exact.two_layers(*DOUBLE_12_PLY, 0.0, 1.0)
    sag, _ = composite_exact.sag_continuous(layers, spans, 1.0, x)
    return sag.max() * float(layers.EI_inf)


@pytest.mark.parametrize(
    ("spans", "unsafe"), [([600, 600], 0.14), ([600, 600, 600], 0.02), ([600] * 5, 0.05)]
)
def test_gamma_method_on_continuous_spans_is_only_approximate(spans, unsafe):
    """With 0.8 of the span the code understates the sag, by a seventh at worst.

    The worst is two equal spans and fasteners that halve the sag; at the spacings of screws
    in thin panels it is a few hundredths.
    """
    L, K = 600.0, 1500.0
    s = np.geomspace(0.05, 1e4, 60)
    x = np.linspace(0, L, 61)
    layers = composite_exact.two_layers(*DOUBLE_12_PLY, s, K)
    exact, _ = composite_exact.sag_continuous(layers, spans, 1.0, x)
    EI_ef = composite.two_part_stiffness(
        *DOUBLE_12_PLY, s, K, composite.SLIP_SPAN["continuous"] * L
    )
    ratio = exact.max(axis=-1) * EI_ef / solid_sag(spans, x)
    assert unsafe - 0.015 < ratio.max() - 1 < unsafe
    assert ratio.min() > 0.97
    assert np.all(ratio[s > 100] < 1.02)


class TestThinDouble:
    """Two 12 mm panels, 300 wide, span 800, 3.5 mm screws with K about 1500 N/mm."""

    def test_screws_buy_little_and_glue_much(self):
        layers = composite_exact.two_layers(*DOUBLE_12_PLY, [0.0, 150.0, np.inf], 1500.0)
        gain = composite_exact.effective_stiffness_uniform(layers, 800.0) / layers.EI_0 - 1
        assert gain[0] == pytest.approx(3.0, rel=1e-9)  # (2 h)^3 against 2 h^3
        assert 0.1 < gain[1] < 0.2
        assert gain[2] == pytest.approx(0.0, abs=1e-12)


class TestStresses:
    """Forces and stresses of the gamma method in equilibrium with M and V."""

    E, h, b = np.array([9000.0, 3000.0, 11000.0]), np.array([12.0, 40.0, 18.0]), 200.0
    A, I = b * h, b * h**3 / 12  # noqa: E741
    gamma = np.array([0.4, 1.0, 0.25])
    a = composite.axis_offset(
        gamma[0], E[0], A[0], h[0], E[1], A[1], h[1], gamma[2], E[2], A[2], h[2]
    )
    EI_ef = composite.effective_stiffness(gamma, E, I, A, a)

    def test_no_axial_force_in_all(self):
        # a_2 is positive when the axis lies above the centroid of part 2
        pull = self.gamma * self.E * self.A * self.a * [-1.0, 1.0, 1.0]
        assert pull.sum() == pytest.approx(0, abs=1e-9 * np.abs(pull).sum())

    def test_distances_between_centroids(self):
        a_1, a_2, a_3 = self.a
        assert a_1 + a_2 == pytest.approx((self.h[0] + self.h[1]) / 2)
        assert a_3 - a_2 == pytest.approx((self.h[1] + self.h[2]) / 2)

    def test_moment_of_the_stresses(self):
        M = 1e6
        sigma = composite_stress.normal_stress(self.gamma, self.E, self.a, M, self.EI_ef)
        rim = composite_stress.bending_stress(self.E, self.h, M, self.EI_ef)
        own = rim * self.b * self.h**2 / 6
        assert (sigma * self.A * self.a).sum() + own.sum() == pytest.approx(M, rel=1e-9)

    def test_glued_rectangle(self):
        # two equal halves, rigid glue: the textbook rectangle
        h, b, E, V, s = 12.0, 300.0, 9000.0, 500.0, 100.0
        a = composite.axis_offset(1.0, E, b * h, h, E, b * h, h)
        EI = composite.effective_stiffness([1, 1], E, b * h**3 / 12, b * h, a[:2])
        assert float(EI) == pytest.approx(E * b * (2 * h) ** 3 / 12)
        tau = composite_stress.shear_stress(0, 0, 0, 0, E, b, h, V, EI)
        assert float(tau) == pytest.approx(1.5 * V / (b * 2 * h))
        F = composite_stress.fastener_force(1.0, E, b * h, a[0], s, V, EI)
        assert float(F) == pytest.approx(1.5 * V / (2 * h) * s)

    @STEADY
    @given(section=sections(), s=SPACING, K=MODULUS, L=SPAN)
    def test_end_fastener_force_is_close_to_exact(self, section, s, K, L):
        """(B.10) at the support against the exact shear flow of a uniform load."""
        E_1, A_1, _, E_2, A_2, _, r = section
        layers = composite_exact.two_layers(*section, s, K)
        exact = s * composite_exact.end_slip_flow_uniform(layers, 1.0, L)
        gamma = composite.gamma_slip(E_1, A_1, s, K, L)
        EI_ef = composite.two_part_stiffness(*section, s, K, L)
        a_1 = r * E_2 * A_2 / (gamma * E_1 * A_1 + E_2 * A_2)
        F = composite_stress.fastener_force(gamma, E_1, A_1, a_1, s, L / 2, EI_ef)
        # the exact flow lags behind the shear force near the ends: (B.10) is safe, by
        # z^2 / (z^2 + pi^2 / 4) / (1 - tanh(z) / z), at most 12 / pi^2, with z = alpha L / 2
        assert 1 - 1e-9 <= F / exact <= 12 / np.pi**2 + 1e-6


def test_effective_spacing():
    assert float(composite.effective_spacing(50, 150)) == pytest.approx(0.75 * 50 + 0.25 * 150)
    assert np.isnan(composite.effective_spacing(50, 201))
    assert np.isnan(composite.effective_spacing(50, 40))


def test_shares_of_the_span():
    # EN 1995-1-1:2004, B.1.3(2)
    assert composite.SLIP_SPAN == {"simple": 1.0, "continuous": 0.8, "cantilever": 2.0}


def test_third_part_may_be_left_out():
    two = composite.axis_offset(0.3, 9000, 3600, 12, 9000, 3600, 12)
    three = composite.axis_offset(0.3, 9000, 3600, 12, 9000, 3600, 12, 0.5, 9000, 0.0, 0.0)
    assert two[:2] == pytest.approx(three[:2])
