"""The chance that a shelf sags past its limit or is overloaded: the same shelf many times over.

Sag and stresses are those of the checks, at the place and under the pattern that governs, split
into what grows with stiffness, thickness, contents and creep; the moments along a shelf over
several supports are kept as they are on the mean shelf.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shelfload.advise import scatter
from shelfload.advise.trial import Trial, trial_of
from shelfload.check.assess import Findings
from shelfload.idealise.place import Place
from shelfload.solve.scatter import QUANTILE_05, Tally, share_with_error

Array = NDArray[np.float64]

SAMPLES, SEED = 200_000, 1
_BLOCK = 1 << 13
"""Samples at a time: memory stays bounded, and rows of 64 KiB are reused by the allocator
instead of being mapped anew each time, which would take four times as long."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chance:
    """A chance [-], the interval it lies in 19 times in 20, and what brings it about.

    ``shares`` are inputs with the part of the scatter that each alone brings, largest first.
    """

    value: float
    lower: float
    upper: float
    shares: tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfOdds:
    """What becomes of a shelf made and filled many times over.

    Attributes
    ----------
    place : Place
        Which shelf.
    when : str
        What is limited: sag after years, or on the first day.
    mean, spread, limit : float
        Of the sag: mean, standard deviation and what is allowed [mm].
    sag, overload : Chance
        That the sag passes its limit; that a stress passes the strength.
    said : tuple of str
        How its figures scatter.
    """

    place: Place
    when: str
    mean: float
    spread: float
    limit: float
    sag: Chance
    overload: Chance
    said: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Odds:
    """Odds of every shelf.

    Attributes
    ----------
    shelves : tuple of ShelfOdds
        In the order of the report.
    left_out : tuple of str
        Shelves without, and why.
    samples, seed : int
        How often, and where the random numbers start.
    """

    shelves: tuple[ShelfOdds, ...]
    left_out: tuple[str, ...]
    samples: int
    seed: int


def odds(
    findings: Findings,
    *,
    samples: int = SAMPLES,
    seed: int = SEED,
    step: Callable[[int, int], object] | None = None,
) -> Odds:
    """Sample every shelf that bends.

    Parameters
    ----------
    findings : Findings
        What the checks say.
    samples, seed : int
        How often, and where the random numbers start: the same seed gives the same answer.
    step : callable
        Told after each block how many samples are done, and of how many.
    """
    beams = findings.whole.beams
    seeds = np.random.SeedSequence(seed).spawn(len(beams))
    shelves, left_out = [], []
    for number, (beam, sequence) in enumerate(zip(beams, seeds, strict=True)):
        trial = trial_of(findings, beam)
        if isinstance(trial, str):
            left_out.append(f"{beam.place}: {trial}")
            continue

        def done(count: int, before: int = number * samples) -> None:
            if step is not None:
                step(before + count, len(beams) * samples)

        shelves.append(_sampled(trial, samples, np.random.default_rng(sequence), done))
    return Odds(shelves=tuple(shelves), left_out=tuple(left_out), samples=samples, seed=seed)


def _sampled(
    trial: Trial, samples: int, random: np.random.Generator, done: Callable[[int], object]
) -> ShelfOdds:
    sag, stress = Tally(len(trial.names)), Tally(len(trial.names))
    for start in range(0, samples, _BLOCK):
        z = random.standard_normal((len(trial.names), min(_BLOCK, samples - start)))
        sags, used = block(trial, z)
        sag.add(sags, z, trial.limit)
        stress.add(used, z, 1.0)
        done(start + z.shape[1])
    return ShelfOdds(
        place=trial.place,
        when=trial.when,
        mean=sag.mean,
        spread=sag.spread,
        limit=trial.limit,
        sag=_chance(trial, sag),
        overload=_chance(trial, stress),
        said=trial.said,
    )


def _chance(trial: Trial, tally: Tally) -> Chance:
    value, lower, upper = (float(part) for part in share_with_error(tally.hits, tally.count))
    shares = zip(trial.names, tally.shares.tolist(), strict=True)
    ranked = sorted(shares, key=lambda share: -share[1])
    return Chance(value=value, lower=lower, upper=upper, shares=tuple(ranked))


def block(trial: Trial, z: Array) -> tuple[Array, Array]:
    """Return sag [mm] and the largest share of a strength that is used, for inputs z (names, n)."""
    count = len(trial.EI_of_E)
    strong = z[count]
    stiff = trial.spreads[:count, None] * z[:count] - trial.spreads[:count, None] ** 2 / 2.0
    log_t, log_c, log_k = (
        spread * row - spread**2 / 2.0
        for spread, row in zip(trial.spreads[count + 1 :], z[count + 1 :], strict=True)
    )
    t, c = np.exp(log_t), np.exp(log_c)
    bending = np.exp(-(trial.EI_of_E @ stiff + trial.EI_of_t * log_t))
    shear = np.exp(-(trial.GA_of_E @ stiff + trial.GA_of_t * log_t))

    def summed(imposed: int) -> Array:
        by_bending, by_shear = trial.sag[:, [0, imposed]]
        return np.asarray(
            (by_bending[0] * t + by_bending[1] * c) * bending
            + (by_shear[0] * t + by_shear[1] * c) * shear
        )

    sag = summed(1)
    if trial.creep:
        lasting = sag if np.array_equal(trial.sag[:, 1], trial.sag[:, 2]) else summed(2)
        sag = sag + trial.creep * np.exp(log_k) * lasting
    alike = scatter.STIFF_AND_STRONG
    used = np.zeros_like(t)
    for stress in trial.stresses:
        u = alike * z[stress.of] + np.sqrt(1.0 - alike**2) * strong
        strength = stress.power * log_t - stress.spread * (QUANTILE_05 + u)
        used = np.maximum(used, (stress.dead * t + stress.imposed * c) * np.exp(strength))
    return sag, used
