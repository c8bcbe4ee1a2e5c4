"""How long the connection formulas take for whole tables at once."""

from __future__ import annotations

import numpy as np
import pytest

from shelfload.solve import (
    composite,
    composite_exact,
    connection,
    connection_rows,
    embedment,
    fastener,
    withdrawal,
)


def resistance_of_rows(d, d_head, length, t_1, rho, count):
    """Characteristic resistance of rows of screws through plywood into timber."""
    d_ef = 1.1 * 0.65 * d
    t_2 = length - t_1
    thread = np.where(t_2 > 0, t_2, np.nan)
    pull = np.minimum(
        withdrawal.screw_withdrawal_declared(12.0, d, thread, np.pi / 2, rho, 350.0),
        withdrawal.head_pull_through(10.0, d_head, rho, 350.0),
    )
    modes = connection.single_shear(
        embedment.embedment_plywood(rho, d_ef),
        embedment.embedment_not_predrilled(rho, d_ef),
        t_1,
        t_2,
        d_ef,
        fastener.yield_moment(600.0, d_ef),
        np.nan_to_num(pull),
        connection.ROPE_CAP["screw"],
    )
    F_v_Rk, letter = connection.governing(modes, connection.SINGLE_SHEAR_MODES)
    k_ef = connection_rows.k_ef(10.0 * d, d, predrilled=False)
    return connection_rows.effective_number_nails(count, k_ef[..., None]) * F_v_Rk[
        ..., None
    ], letter


@pytest.mark.parametrize("joins", [50, 500])
def test_fastener_table_for_all_joins(benchmark, joins):
    rng = np.random.default_rng(60)
    d = rng.uniform(3, 6, (60, 1))
    length = rng.uniform(16, 100, (60, 1))
    t_1 = rng.uniform(9, 40, joins)
    rho = rng.uniform(320, 600, joins)
    count = np.arange(2, 13)
    F, letter = benchmark(resistance_of_rows, d, 2 * d, length, t_1, rho, count)
    assert F.shape == (60, joins, 11)
    assert letter.shape == (60, joins)


DOUBLE = (9000, 300 * 12, 300 * 12**3 / 12, 9000, 300 * 12, 300 * 12**3 / 12, 12)


@pytest.mark.parametrize("spacings", [20, 2000])
def test_stiffness_of_a_double_over_spacings(benchmark, spacings):
    s = np.linspace(20, 600, spacings)
    EI = benchmark(composite.two_part_stiffness, *DOUBLE, s, 1500.0, 800.0)
    assert EI.shape == (spacings,)


@pytest.mark.parametrize("spacings", [20, 2000])
def test_exact_three_span_double_over_spacings(benchmark, spacings):
    s = np.linspace(20, 600, spacings)
    x = np.linspace(0, 2000, 41)
    layers = composite_exact.two_layers(*DOUBLE, s, 1500.0)
    sag, _ = benchmark(composite_exact.sag_continuous, layers, [700, 600, 700], 0.3, x)
    assert sag.shape == (spacings, 41)
