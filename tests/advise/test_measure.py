"""An offcut on two supports: what is found, what is warned of, what is pasted."""

from __future__ import annotations

import tomllib
from dataclasses import replace

import numpy as np
import pytest

from shelfload import tables
from shelfload.advise.bench import Bench, bench_asked
from shelfload.advise.measure import entry, measured
from shelfload.errors import DescriptionError
from shelfload.solve.measured import modulus_from_sag
from shelfload.wording import spelled

BIRCH = tables.material("birch-plywood", 18.0).material


def bench(E=9000.0, span=800.0, width=100.0, thickness=18.0, weights=(50.0, 50.0, 100.0), **more):
    """A test without any noise on a strip of known stiffness, like birch plywood."""
    ratio = BIRCH.E_0 / BIRCH.G_0
    k = E / float(modulus_from_sag(1.0, span, width, thickness, ratio, "centre"))
    return Bench(
        span=span, width=width, thickness=thickness, kind="plywood", like=BIRCH,
        readings=tuple((P, P / k) for P in weights), **more,
    )  # fmt: skip


def test_stiffness_is_recovered_and_shear_taken_off():
    found = measured(bench(E=9000.0))
    assert found.E == pytest.approx(9000.0, rel=1e-9)
    assert found.apparent < found.E
    assert found.lower < found.E < found.upper
    assert found.G == pytest.approx(9000.0 * BIRCH.G_0 / BIRCH.E_0)
    assert not found.warnings


def test_finer_reading_and_more_weight_narrow_the_interval():
    widths = [
        measured(bench(sag_error=error, weights=weights)).half
        for error, weights in ((0.5, (50.0,)), (0.1, (50.0,)), (0.1, (150.0,)))
    ]
    assert widths == sorted(widths, reverse=True)
    assert dict(measured(bench(sag_error=0.5)).parts)["reading the sag"] == max(
        part for _, part in measured(bench(sag_error=0.5)).parts
    )


@pytest.mark.parametrize(
    ("changed", "word"),
    [
        (bench(span=300.0, weights=(20.0,)), "Too stiff"),
        (bench(span=1800.0, weights=(150.0,)), "Too limp"),
        (bench(span=250.0, weights=(2000.0,), sag_error=0.01), "A short test"),
        (bench(width=500.0, weights=(500.0,)), "A wide piece"),
        (bench(thickness=6.0, span=500.0, weights=(100.0,)), "over 40%"),
        (bench(E=4000.0), "Hardly"),
    ],
)
def test_warnings_come_when_a_test_can_not_tell(changed, word):
    assert any(word in warning for warning in measured(changed).warnings)


def test_density_is_weighed_or_taken_from_the_row_and_said():
    weighed = measured(bench(length=900.0, mass=1.1))
    assert weighed.density == pytest.approx(1.1 / (0.9 * 0.1 * 0.018))
    assert not any("weigh" in text for text in weighed.said)
    assert measured(bench()).density == BIRCH.density
    assert any("weigh" in text for text in measured(bench()).said)
    unknown = measured(replace(bench(), like=None))
    densest = max(row.density for row in tables.materials().values() if row.kind == "plywood")
    assert unknown.density == densest


def test_entry_is_toml_and_leaves_out_strength_that_nobody_measured():
    known = tomllib.loads(entry(measured(bench(name="ply"))))["materials"]["ply"]
    assert known["E"] == "9000 MPa"
    assert known["thickness"] == "18 mm"
    assert "bending_strength" in known
    unknown = tomllib.loads(entry(measured(replace(bench(), like=None))))["materials"]["offcut"]
    assert "bending_strength" not in unknown
    assert unknown["kind"] == "plywood"


def test_loose_test_gives_its_lower_end_and_a_useless_one_no_entry():
    loose = measured(bench(weights=(50.0,), sag_error=0.45))
    assert 0.2 < loose.half <= 0.5
    pasted = tomllib.loads(entry(loose))["materials"]["offcut"]
    assert float(pasted["E"].split()[0]) == pytest.approx(loose.lower, rel=5e-3)
    useless = measured(bench(span=300.0, weights=(20.0,)))
    assert useless.half > 0.5
    assert entry(useless) is None


def test_interval_of_the_whole_chain_covers_over_many_seeds():
    rng = np.random.default_rng(77)
    hits, tests = 0, 400
    exact = bench(E=8200.0, weights=(60.0, 60.0, 60.0, 60.0))
    for _ in range(tests):
        span = exact.span + rng.uniform(-1.0, 1.0)
        thickness = exact.thickness + rng.uniform(-0.1, 0.1)
        off = rng.uniform(-0.05, 0.05)  # a dial that is off by up to its division all day
        readings = tuple((P, w + off + rng.normal(0.0, 0.03)) for P, w in exact.readings)
        found = measured(
            replace(exact, span=span, thickness=thickness, readings=readings, sag_error=0.05)
        )
        hits += found.lower <= 8200.0 <= found.upper
    # 0.95 less four standard errors; more is allowed, errors were taken at their worst
    assert hits / tests >= 0.95 - 4 * np.sqrt(0.95 * 0.05 / tests)


def test_every_mistake_is_named_by_its_option():
    options = {
        "span": "0 mm", "width": "100", "thickness": "18 mm", "reading": ["5 kg", "0 kg = 2 mm"],
        "like": "brich-plywood", "kind": None, "at": "centre", "length": None, "mass": "1 m",
        "sag_error": "0.1 mm", "thickness_error": "x", "span_error": "1 mm", "name": "a b",
    }  # fmt: skip
    with pytest.raises(DescriptionError) as caught:
        bench_asked(options)
    keys = [mistake.key for mistake in caught.value.mistakes]
    assert set(keys) == {
        "--span", "--width", "--reading", "--like", "--mass", "--thickness-error", "--name",
    }  # fmt: skip
    assert keys.count("--reading") == 2


def test_warnings_are_spelled_in_either_system():
    (warning,) = measured(bench(span=1800.0, weights=(150.0,), sag_error=0.01)).warnings
    assert "in" in spelled(warning, "inch")
    assert "mm" not in spelled(warning, "inch")
