"""Odds: closed-form propagation, the mean shelf, sampling error, same seed same answer."""

from __future__ import annotations

import tracemalloc
from dataclasses import replace
from math import exp, log, sqrt

import numpy as np
import pytest
from scipy import stats

from shelfload.advise import odds as module
from shelfload.advise.odds import block, odds
from shelfload.advise.trial import Stress, Trial, trial_of
from shelfload.check.assess import assess
from shelfload.check.criteria import GAMMA_G, GAMMA_Q
from shelfload.describe.reader import read_raw
from shelfload.idealise.place import Place
from shelfload.solve.scatter import lognormal_spread
from shelfload.tables import gamma_M

SPREADS = lognormal_spread([0.2, 0.0, 0.02, 0.25, 0.3])  # E, strength (unused), t, contents, creep


def product_trial(creep=0.0, limit=6.0):
    """Sag = w c / (E t^3), and with creep the same times (1 + k): a product of lognormals."""
    return Trial(
        place=Place(unit="shelf"), when="sag on the first day", limit=limit, said=(),
        names=("stiffness", "strength", "thickness", "contents", "creep"), spreads=SPREADS,
        EI_of_E=np.array([1.0]), GA_of_E=np.array([1.0]), EI_of_t=3.0, GA_of_t=1.0,
        sag=np.array([[0.0, 5.0, 5.0], [0.0, 0.0, 0.0]]), creep=creep,
        stresses=(Stress(dead=0.0, imposed=0.4, power=-2.0, spread=0.25, of=0),),
    )  # fmt: skip


def sampled(trial, samples=200_000, seed=11):
    return module._sampled(trial, samples, np.random.default_rng(seed), lambda count: None)


def test_mean_and_spread_are_those_of_closed_form_propagation():
    n = 200_000
    found = sampled(product_trial(), n)
    s = SPREADS
    # ln sag = ln 5 + ln c - ln E - 3 ln t: normal; every factor has mean 1, median exp(-s^2/2)
    variance = s[3] ** 2 + s[0] ** 2 + 9 * s[2] ** 2
    median = 5.0 * exp(-(s[3] ** 2) / 2 + s[0] ** 2 / 2 + 3 * s[2] ** 2 / 2)
    exact = stats.lognorm(s=sqrt(variance), scale=median)
    assert found.mean == pytest.approx(exact.mean(), abs=4 * exact.std() / sqrt(n))
    kurtosis = float(exact.stats(moments="k")) + 3.0
    error = exact.std() * sqrt((kurtosis - 1.0) / n) / 2.0
    assert found.spread == pytest.approx(exact.std(), abs=4 * error)
    chance = exact.sf(6.0)
    assert found.sag.value == pytest.approx(chance, abs=4 * sqrt(chance * (1 - chance) / n))
    shares = dict(found.sag.shares)
    for name, part in (
        ("contents", s[3] ** 2),
        ("stiffness", s[0] ** 2),
        ("thickness", 9 * s[2] ** 2),
    ):
        assert shares[name] == pytest.approx(part / variance, abs=8 / sqrt(n))


def test_mean_with_creep_is_that_of_the_product_of_means():
    n = 200_000
    plain, crept = sampled(product_trial(), n), sampled(product_trial(creep=0.8), n)
    # creep is independent of the rest and has mean 1: E[w (1 + 0.8 k)] = 1.8 E[w]
    assert crept.mean == pytest.approx(1.8 * plain.mean, rel=4 * 0.3 / sqrt(n))
    assert crept.spread > 1.8 * plain.spread


def test_chance_of_overload_is_that_of_two_lognormals():
    n = 200_000
    # 0.75 of the strength's 5 % point, so that overload is not rare
    trial = replace(
        product_trial(), stresses=(Stress(dead=0.0, imposed=0.75, power=-2.0, spread=0.25, of=0),)
    )
    s = SPREADS
    # ln used = ln 0.75 + ln c - 2 ln t - 0.25 (1.645 + u)
    middle = log(0.75) - s[3] ** 2 / 2 + 2 * s[2] ** 2 / 2 - 0.25 * stats.norm.ppf(0.95)
    sigma = sqrt(s[3] ** 2 + 4 * s[2] ** 2 + 0.25**2)
    chance = stats.norm.sf(-middle / sigma)
    found = sampled(trial, n)
    assert found.overload.value == pytest.approx(chance, abs=4 * sqrt(chance * (1 - chance) / n))
    assert found.overload.lower < chance < found.overload.upper


def shelf(spans=("900 mm",), contents="books", **keys):
    return {
        "shelf": [
            {
                "name": "shelf", "depth": "300 mm", "spans": list(spans), "fixed_down": True,
                "contents": contents,
                "shelf": {"material": "birch-plywood", "thickness": "18 mm", **keys},
            }
        ]
    }  # fmt: skip


def found_for(raw):
    description = read_raw(raw)
    return assess(description.project, description.catalogue)


SHELVES = {
    "one span": shelf(),
    "three spans": shelf(spans=("500 mm", "800 mm", "300 mm")),
    "a lipping of another wood": shelf(
        lipping_front={"material": "european-oak", "thickness": "20 mm", "height": "45 mm"}
    ),
    "a glued double": shelf(panels=2, joined="glued"),
    "someone on it": shelf(
        contents={
            "what": "books",
            "points": [{"load": "80 kg", "at": "300 mm", "duration": "short-term"}],
        }
    ),
    "on the first day": shelf(limit="first day"),
    "no more than a length": shelf(limit="3 mm"),
}  # fmt: skip


@pytest.mark.parametrize("raw", SHELVES.values(), ids=SHELVES)
def test_shelf_without_scatter_is_the_one_that_is_checked(raw):
    findings = found_for(raw)
    (beam,) = findings.whole.beams
    trial = trial_of(findings, beam)
    still = replace(
        trial,
        spreads=np.zeros_like(trial.spreads),
        stresses=tuple(replace(one, spread=0.0) for one in trial.stresses),
    )
    sag, used = block(still, np.zeros((len(trial.names), 1)))
    check = next(check for check in findings.checks if check.question == trial.when)
    assert float(sag[0]) == pytest.approx(check.value, rel=1e-9)
    assert trial.limit == pytest.approx(check.limit, rel=1e-12)
    # a check's ratio has its partial factors in it: gamma_G to gamma_Q, times gamma_M
    ratios = [
        c.ratio for c in findings.checks if c.question in ("bending", "rolling shear", "bearing")
    ]
    low, high = gamma_M("plywood").value, gamma_M("solid timber").value
    assert GAMMA_G * low <= max(ratios) / float(used[0]) <= GAMMA_Q * high * (1.0 + 1e-9)


def test_thickness_and_stiffness_go_in_with_their_powers():
    findings = found_for(shelf())
    trial = trial_of(findings, findings.whole.beams[0])
    # a rectangle: EI = E b h^3 / 12, GA = 5/6 G b h
    assert trial.EI_of_E == pytest.approx([1.0], rel=1e-6)
    assert trial.EI_of_t == pytest.approx(3.0, rel=1e-3)
    assert trial.GA_of_t == pytest.approx(1.0, rel=1e-3)
    double = found_for(SHELVES["a lipping of another wood"])
    trial = trial_of(double, double.whole.beams[0])
    # EI is linear in both stiffnesses together (Euler)
    assert trial.EI_of_E.sum() == pytest.approx(1.0, rel=1e-3)
    assert (trial.EI_of_E > 0.0).all()


def test_thicker_sheet_sags_as_the_whole_check_of_it_says():
    def plain(thickness):
        raw = shelf(contents={"load": "30 kg/m"})
        raw["materials"] = {
            "sheet": {
                "kind": "plywood", "density": "680 kg/m3", "E": "9000 MPa", "G": "200 MPa",
                "bending_strength": "40 MPa", "shear_strength": "2.5 MPa", "source": "test",
            }
        }  # fmt: skip
        raw["shelf"][0]["shelf"] = {"material": "sheet", "thickness": f"{thickness} mm"}
        return found_for(raw)

    before, after = plain(18.0), plain(18.18)
    trial = trial_of(before, before.whole.beams[0])
    spreads = np.zeros_like(trial.spreads)
    spreads[2] = 1e-9
    z = np.zeros((len(trial.names), 2))
    z[2, 1] = log(1.01) / 1e-9
    sag, _ = block(replace(trial, spreads=spreads), z)
    checked = [
        next(check.value for check in one.checks if check.question.startswith("sag"))
        for one in (before, after)
    ]
    assert sag == pytest.approx(checked, rel=1e-6)


def checked_sag(findings):
    return next(check.value for check in findings.checks if check.question.startswith("sag"))


@pytest.mark.parametrize(
    ("spans", "tolerance"),
    [(["900 mm"], 1e-6), (["500 mm", "800 mm", "300 mm"], 0.005)],
    ids=["one span, exact", "three spans, moments kept as on the mean shelf"],
)
def test_samples_are_what_checks_of_changed_descriptions_say(spans, tolerance):
    def plain(E=9000.0, thickness=18.0, load=30.0):
        raw = shelf(spans=spans, contents={"load": f"{load:.9f} kg/m"})
        raw["materials"] = {
            "sheet": {
                "kind": "plywood", "density": "680 kg/m3", "E": f"{E:.9f} MPa",
                "G": f"{E / 45:.9f} MPa", "bending_strength": "40 MPa",
                "shear_strength": "2.5 MPa", "source": "test",
            }
        }  # fmt: skip
        raw["shelf"][0]["shelf"] = {"material": "sheet", "thickness": f"{thickness:.9f} mm"}
        return found_for(raw)

    mean = plain()
    trial = trial_of(mean, mean.whole.beams[0])
    trial = replace(trial, spreads=np.where(np.arange(5) == 4, 0.0, trial.spreads))
    z = np.random.default_rng(2).standard_normal((5, 6))
    sag, _ = block(trial, z)
    factors = np.exp(trial.spreads[:, None] * z - trial.spreads[:, None] ** 2 / 2)
    for number in range(6):
        E, _, t, c, _ = factors[:, number]
        again = plain(9000.0 * E, 18.0 * t, 30.0 * c)
        assert sag[number] == pytest.approx(checked_sag(again), rel=tolerance)


def test_same_seed_same_answer_and_another_seed_another():
    findings = found_for(shelf())
    one, again = (odds(findings, samples=30_000, seed=4) for _ in range(2))
    other = odds(findings, samples=30_000, seed=5)
    assert one == again
    assert one.shelves[0].mean != other.shelves[0].mean
    assert one.shelves[0].sag.value == pytest.approx(other.shelves[0].sag.value, abs=0.02)


def test_memory_does_not_grow_with_the_number_of_samples():
    findings = found_for(shelf())

    def peak(samples):
        tracemalloc.start()
        odds(findings, samples=samples)
        _, most = tracemalloc.get_traced_memory()
        tracemalloc.stop()
        return most

    peak(10_000)  # what is imported and cached once
    assert peak(400_000) < 1.2 * peak(40_000)


def test_more_load_is_never_less_likely_to_sag():
    chances = [
        odds(found_for(shelf(contents={"load": f"{load} kg/m"})), samples=20_000)
        .shelves[0]
        .sag.value
        for load in (20, 30, 40, 60)
    ]
    assert chances == sorted(chances)
    assert chances[-1] > chances[0]


def test_progress_is_told_to_the_end_and_shelves_without_a_beam_say_why():
    raw = shelf(spans=("600 mm",))
    raw["shelf"].append({**raw["shelf"][0], "name": "second"})
    raw["site"] = {"service_class": "outdoor"}
    raw["shelf"][1]["shelf"] = {"material": "mdf", "thickness": "18 mm"}
    told = []
    found = odds(found_for(raw), samples=10_000, step=lambda done, of: told.append((done, of)))
    assert told[-1] == (10_000, 20_000)
    assert len(found.shelves) == 1
    assert found.left_out[0].startswith("second: ")
