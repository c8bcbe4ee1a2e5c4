"""Sections: against fibres summed up one by one, limits, symmetry, bad input."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shelfload.solve.section import bonded, lying, plywood_layup, true_modulus

LOPSIDED = {
    "a lipping on one edge": {
        "E": [3000.0, 11000.0],
        "G": [150.0, 700.0],
        "b": [280.0, 20.0],
        "h": [18.0, 45.0],
        "y": [160.0, 10.0],
        "z": [9.0, 22.5],
    },
    "layers of 40, 20 and 40": {
        "E": [9000.0, 300.0, 12000.0],
        "G": [500.0, 60.0, 700.0],
        "b": [300.0, 300.0, 300.0],
        "h": [40.0, 20.0, 40.0],
        "y": [0.0, 0.0, 0.0],
        "z": [20.0, 50.0, 80.0],
    },
    "lippings of two heights and a steel strip let in": {
        "E": [2500.0, 10000.0, 12000.0, 210000.0],
        "G": [200.0, 600.0, 700.0, 81000.0],
        "b": [260.0, 18.0, 22.0, 40.0],
        "h": [19.0, 38.0, 60.0, 3.0],
        "y": [130.0, -9.0, 271.0, 60.0],
        "z": [9.5, 19.0, 25.0, 20.5],
    },
    "a hollow box": {
        "E": [4000.0, 4000.0, 9000.0, 9000.0],
        "G": [200.0, 200.0, 500.0, 500.0],
        "b": [300.0, 300.0, 20.0, 30.0],
        "h": [6.0, 9.0, 40.0, 40.0],
        "y": [0.0, 0.0, -140.0, 135.0],
        "z": [3.0, 50.5, 26.0, 26.0],
    },
}


def arrays(parts):
    return {name: np.asarray(values, dtype=float) for name, values in parts.items()}


class Fibres:
    """The same section cut into a great many fibres; nothing is shared with the code."""

    down, across = 400, 100

    def __init__(self, parts):
        cells = []
        t, u = ((np.arange(n) + 0.5) / n - 0.5 for n in (self.down, self.across))
        for E, G, b, h, y, z in zip(*arrays(parts).values(), strict=True):
            yy, zz = np.meshgrid(y + b * u, z + h * t, indexing="ij")
            area = np.full(yy.shape, b * h / yy.size)
            cells.append(
                np.stack([np.full(yy.shape, E), np.full(yy.shape, G), yy, zz, area]).reshape(5, -1)
            )
        self.E, self.G, self.y, self.z, self.A = np.concatenate(cells, axis=1)
        self.part = np.repeat(np.arange(len(cells)), [cell.shape[1] for cell in cells])

    def bending(self):
        """2 x 2 bending stiffness about the neutral axes, [[EI, EI_yz], [EI_yz, EI_zz]]."""
        EA = self.E * self.A
        arms = np.stack([self.z - EA @ self.z / EA.sum(), self.y - EA @ self.y / EA.sum()])
        return (EA * arms) @ arms.T, arms


def shear_stiffness(parts, n=20001):
    """GA from the energy of the shear flow, by the trapezoidal rule over the depth."""
    p = arrays(parts)
    EA = p["E"] * p["b"] * p["h"]
    z_na = EA @ p["z"] / EA.sum()
    top, bottom = p["z"] - p["h"] / 2, p["z"] + p["h"] / 2
    total, peak, EI = 0.0, np.zeros(EA.size), Fibres(parts).bending()[0][0, 0]
    levels = np.unique(np.concatenate([top, bottom]))
    for start, end in pairwise(levels):
        z = np.linspace(start, end, n)
        inside = (top <= start) & (bottom >= end)
        Gb = (p["G"] * p["b"])[inside].sum()
        ES = np.zeros(n)
        for E, b, t, low in zip(p["E"], p["b"], top, bottom, strict=True):
            upper = np.clip(z, t, low)
            ES += E * b * (low - upper) * ((low + upper) / 2 - z_na)
        total += np.trapezoid(ES**2, z) / Gb
        peak[inside] = np.maximum(peak[inside], np.abs(ES).max() / Gb)
    return EI**2 / total, p["G"] * peak / EI


@pytest.mark.parametrize("parts", LOPSIDED.values(), ids=LOPSIDED.keys())
class TestAgainstFibres:
    # n fibres over a size leave an error of 1 / n^2 of each part's own EI: 6e-6 down, 1e-4 across

    def test_bending_stiffness(self, parts):
        stiffness, _ = Fibres(parts).bending()
        shape = bonded(**parts)
        assert pytest.approx(stiffness[0, 0], rel=1e-5) == shape.EI
        # Free to move sideways: no moment about the vertical axis
        flexibility = np.linalg.inv(stiffness)
        assert shape.EI_free == pytest.approx(1 / flexibility[0, 0], rel=2e-4)

    def test_principal_axes(self, parts):
        # The same free stiffness from the eigenvalues: 1/EI_free = cos^2 / I_1 + sin^2 / I_2
        stiffness, _ = Fibres(parts).bending()
        principal, axes = np.linalg.eigh(stiffness)
        assert bonded(**parts).EI_free == pytest.approx(
            1 / (axes[0] ** 2 @ (1 / principal)), rel=2e-4
        )

    def test_stress(self, parts):
        fibres = Fibres(parts)
        stiffness, arms = fibres.bending()
        held = fibres.E * arms[0] / stiffness[0, 0]
        free = np.abs(fibres.E * (np.linalg.inv(stiffness)[0] @ arms))
        shape = bonded(**parts)
        for i, (E, h) in enumerate(zip(parts["E"], parts["h"], strict=True)):
            mine = fibres.part == i
            half_a_fibre = E * h / (2 * fibres.down) / shape.EI
            slack = 1e-5 * np.abs(held).max()
            assert shape.stress_top[i] + half_a_fibre == pytest.approx(held[mine].min(), abs=slack)
            assert shape.stress_bottom[i] - half_a_fibre == pytest.approx(
                held[mine].max(), abs=slack
            )
            # The outermost fibre's centre lies up to 1/100 of the size inside the corner
            assert shape.stress_free[i] == pytest.approx(free[mine].max(), rel=1.5e-2)
            assert shape.stress_free[i] > free[mine].max() * (1 - 1e-4)

    def test_stress_adds_up_to_no_force_and_a_moment_of_one(self, parts):
        p = arrays(parts)
        shape = bonded(**parts)
        middle = (shape.stress_top + shape.stress_bottom) / 2
        area = p["b"] * p["h"]
        assert area @ middle == pytest.approx(0.0, abs=1e-12 * area @ np.abs(middle))
        own = (shape.stress_bottom - shape.stress_top) * area * p["h"] / 12
        assert (area * middle) @ p["z"] + own.sum() == pytest.approx(1.0, rel=1e-12)

    def test_shear_stiffness_and_peak(self, parts):
        GA, peak = shear_stiffness(parts)
        shape = bonded(**parts)
        assert pytest.approx(GA, rel=1e-5) == shape.GA
        assert shape.shear_peak == pytest.approx(peak, rel=1e-5)

    def test_glue_flow_is_the_change_of_axial_force(self, parts):
        fibres = Fibres(parts)
        stiffness, arms = fibres.bending()
        force = fibres.E * fibres.A * arms[0] / stiffness[0, 0]
        for i in range(len(parts["E"])):
            flow = bonded(**parts).glue_flow(np.arange(len(parts["E"])) == i)
            assert flow == pytest.approx(abs(force[fibres.part == i].sum()), rel=1e-5)

    def test_shift_and_mirror_change_nothing(self, parts):
        p = arrays(parts)
        shape = bonded(**p)
        moved = bonded(**p | {"y": 37.0 - p["y"], "z": p["z"] + 1000.0})
        assert moved.EI_free == pytest.approx(shape.EI_free, rel=1e-9)
        assert pytest.approx(shape.GA, rel=1e-9) == moved.GA
        assert moved.stress_free == pytest.approx(shape.stress_free, rel=1e-9)

    def test_upside_down_swaps_top_and_bottom(self, parts):
        p = arrays(parts)
        shape, turned = bonded(**p), bonded(**p | {"z": -p["z"]})
        assert turned.stress_top == pytest.approx(-shape.stress_bottom, rel=1e-12)
        assert pytest.approx(shape.GA, rel=1e-12) == turned.GA

    def test_leading_axes(self, parts):
        p = arrays(parts)
        scale = np.array([[1.0], [2.0]])
        shape, both = bonded(**p), bonded(**p | {"E": p["E"] * scale, "G": p["G"] * scale})
        assert pytest.approx(shape.EI * scale[:, 0], rel=1e-12) == both.EI
        assert pytest.approx(shape.GA * scale[:, 0], rel=1e-12) == both.GA
        assert both.shear_peak == pytest.approx(np.stack([shape.shear_peak] * 2), rel=1e-12)


def test_a_part_cut_in_two_and_glued_again_is_whole():
    whole = bonded(E=[9000.0], G=600.0, b=300.0, h=18.0, y=0.0, z=9.0)
    layers = bonded(E=[9000.0] * 3, G=600.0, b=300.0, h=[4.0, 9.0, 5.0], y=0.0, z=[2, 8.5, 15.5])
    strips = bonded(E=[9000.0] * 2, G=600.0, b=[100.0, 200.0], h=18.0, y=[50.0, 200.0], z=9.0)
    for cut in (layers, strips):
        assert cut.EI_free == pytest.approx(whole.EI, rel=1e-12)
        assert pytest.approx(whole.GA, rel=1e-12) == cut.GA
        assert cut.shear_peak.max() == pytest.approx(whole.shear_peak[0], rel=1e-12)


def test_a_panel_with_a_lipping_on_one_edge_bends_sideways_too():
    parts = LOPSIDED["a lipping on one edge"]
    shape = bonded(**parts)
    assert shape.EI_free < 0.95 * shape.EI
    assert (shape.stress_free > np.abs(shape.stress_bottom)).any()


size = st.floats(1.0, 200.0)
modulus = st.floats(50.0, 2e5)


@given(E=st.lists(modulus, min_size=2, max_size=2), h=st.lists(size, min_size=2, max_size=2))
def test_glue_always_helps(E, h):
    glued = bonded(E=E, G=500.0, b=300.0, h=h, y=0.0, z=[h[0] / 2, h[0] + h[1] / 2])
    loose = lying(E=E, G=500.0, b=300.0, h=h)
    assert glued.EI >= loose.EI
    assert pytest.approx(loose.EA) == glued.EA


@given(E=st.lists(modulus, min_size=3, max_size=3), h=st.lists(size, min_size=3, max_size=3))
def test_a_thicker_part_never_makes_a_stack_softer(E, h):
    def stack(h):
        h = np.asarray(h)
        return bonded(E=E, G=500.0, b=300.0, h=h, y=0.0, z=np.cumsum(h) - h / 2)

    for i in range(3):
        assert stack(h * np.where(np.arange(3) == i, 1.1, 1.0)).EI > stack(h).EI


@given(st.lists(modulus, min_size=1, max_size=4), st.lists(size, min_size=4, max_size=4))
def test_shear_stiffness_of_lying_parts_never_exceeds_their_sum(E, h):
    h = np.array(h[: len(E)])
    assert (5 / 6 * 600 * 300 * h).sum() * (1 + 1e-12) >= lying(E=E, G=600.0, b=300.0, h=h).GA


def test_lying_parts_share_the_moment_by_stiffness():
    E, h = np.array([9000.0, 4000.0]), np.array([18.0, 25.0])
    loose = lying(E=E, G=600.0, b=300.0, h=h)
    own = E * 300 * h**3 / 12
    share = own / own.sum()
    assert loose.stress_bottom == pytest.approx(share * 6 / (300 * h**2), rel=1e-12)
    assert loose.shear_peak == pytest.approx(share * 1.5 / (300 * h), rel=1e-12)
    assert np.isnan(loose.z_na)


def test_thin_faces_make_plywood_stiffer_across_than_along():
    along, across = plywood_layup(13000.0, 600.0, [0.6, 3.4, 3.4, 3.4, 0.6])
    assert across > along


def test_plywood_equals_its_plies_glued():
    t = np.array([1.2, 2.0, 1.4, 2.0, 1.1])  # not quite symmetric, as after sanding
    E = np.array([13000.0, 600.0] * 3)[:5]
    shape = bonded(E=E, G=500.0, b=1.0, h=t, y=0.0, z=np.cumsum(t) - t / 2)
    along, _ = plywood_layup(13000.0, 600.0, t)
    assert along * t.sum() ** 3 / 12 == pytest.approx(shape.EI, rel=1e-12)


def test_true_modulus_of_a_long_specimen_is_the_apparent_one():
    assert true_modulus(11000.0, 700.0, 1e6) == pytest.approx(11000.0, rel=1e-9)


ONE = {"E": [9000.0], "G": [600.0], "b": [300.0], "h": [18.0], "y": [0.0], "z": [9.0]}
TWO = {"E": [9.0, 9.0], "G": 6.0, "b": 300.0, "h": 18.0, "y": 0.0, "z": [9.0, 27.0]}


@pytest.mark.parametrize("name", ["E", "G", "b", "h"])
@pytest.mark.parametrize("bad", [0.0, -1.0, np.nan, np.inf])
def test_figures_must_be_above_zero(name, bad):
    with pytest.raises(ValueError, match=f"^{name}: "):
        bonded(**ONE | {name: [bad]})
    with pytest.raises(ValueError, match=f"^{name}: "):
        lying(**{key: ONE[key] for key in "EGbh"} | {name: [bad]})


def test_parts_that_overlap_are_refused():
    with pytest.raises(ValueError, match="overlap"):
        bonded(**TWO | {"z": [9.0, 20.0]})


def test_parts_that_do_not_touch_are_refused():
    with pytest.raises(ValueError, match="gap"):
        bonded(**TWO | {"z": [9.0, 30.0]})


def test_a_place_must_be_a_number():
    with pytest.raises(ValueError, match="y, z"):
        bonded(**TWO | {"z": [9.0, np.nan]})


def test_parts_need_an_axis():
    with pytest.raises(ValueError, match="last axis"):
        bonded(9000.0, 600.0, 300.0, 18.0, 0.0, 9.0)
    with pytest.raises(ValueError, match="last axis"):
        lying(9000.0, 600.0, 300.0, 18.0)


def test_a_test_that_shear_alone_would_exceed_is_refused():
    with pytest.raises(ValueError, match=r"^G: "):
        true_modulus(11000.0, 0.99 * 11000.0 * 1.2 / 14**2)
