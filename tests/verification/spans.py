"""Beams over many spans: tables of equal spans, and one where nothing is even."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cache, partial
from importlib.metadata import version

import numpy as np
from verification.beams import EI, GA, L, W, w
from verification.case import FROM_MEMORY, LIBRARY, Case

from shelfload.solve.beam import Beam, Loads, envelope, solve
from shelfload.solve.beam_result import BeamResult, Extremes


@cache
def equal_spans(n: int, load: str) -> BeamResult:
    """Each span loaded by itself, one case a span."""
    bays = np.arange(n)
    long = Beam(length=n * L, support_at=L * np.arange(n + 1), EI=EI)
    if load == "centre":
        return solve(long, Loads.point(bays, (bays + 0.5) * L, W))
    return solve(long, Loads.uniform(bays, bays * L, (bays + 1) * L, w))


@cache
def all_loaded(n: int, load: str = "even") -> tuple[BeamResult, Extremes]:
    result = equal_spans(n, load).combine(np.ones((1, n)))
    return result, result.extremes()


def many_spans() -> Iterator[Case]:
    """Equal spans as most handbooks tabulate them."""
    table = "table of continuous beams (AISC table 3-22 and many handbooks), from memory"
    sag, moment = w * L**4 / EI, w * L**2

    def reaction(n: int, support: int) -> float:
        return all_loaded(n)[0].reactions[0, support] / W

    def most(n: int, load: str, what: str, span: int, over: float) -> float:
        return getattr(all_loaded(n, load)[1], what)[0, span] / over

    def worst(what: str, span: int, over: float) -> float:
        found = envelope(equal_spans(3, "even"), np.zeros(3), np.ones(3))
        return getattr(found.extremes, what)[span] / over

    def one_of_two(what: str, load: str, over: float) -> float:
        return getattr(equal_spans(2, load).extremes(), what)[0, 0] / over

    rows: list[tuple[str, str, Callable[[], float]]] = [
        ("2 spans, even load: sag", "0.0054", partial(most, 2, "even", "w_max", 0, sag)),
        ("3 spans, even load: sag", "0.0069", partial(most, 3, "even", "w_max", 0, sag)),
        ("3 spans, even load: inner moment", "0.025",
         partial(most, 3, "even", "M_max", 1, moment)),
        ("3 spans, worst pattern: end span", "0.1013", partial(worst, "M_max", 0, moment)),
        ("3 spans, worst pattern: support", "-0.1167", partial(worst, "M_min", 0, moment)),
        ("3 spans, worst pattern: sag", "0.0099", partial(worst, "w_max", 0, sag)),
        ("4 spans, even load: first inner support", "1.143", partial(reaction, 4, 1)),
        ("4 spans, even load: sag", "0.0065", partial(most, 4, "even", "w_max", 0, sag)),
        ("5 spans, even load: end support", "0.395", partial(reaction, 5, 0)),
        ("5 spans, even load: first inner support", "1.132", partial(reaction, 5, 1)),
        ("5 spans, even load: second inner support", "0.974", partial(reaction, 5, 2)),
        ("5 spans, even load: moment over the first support", "-0.105",
         partial(most, 5, "even", "M_min", 0, moment)),
        ("5 spans, even load: moment in the middle span", "0.046",
         partial(most, 5, "even", "M_max", 2, moment)),
        ("2 spans, loads in the middles: moment in a span", "0.156",
         partial(most, 2, "centre", "M_max", 0, W * L)),
        ("2 spans, loads in the middles: moment over the support", "-0.188",
         partial(most, 2, "centre", "M_min", 0, W * L)),
        ("3 spans, loads in the middles: moment in an end span", "0.175",
         partial(most, 3, "centre", "M_max", 0, W * L)),
        ("3 spans, loads in the middles: moment in the middle span", "0.100",
         partial(most, 3, "centre", "M_max", 1, W * L)),
        ("3 spans, loads in the middles: moment over a support", "-0.150",
         partial(most, 3, "centre", "M_min", 0, W * L)),
        ("2 spans, one loaded: sag", "0.0092", partial(one_of_two, "w_max", "even", sag)),
        ("2 spans, load in the middle of one: sag", "0.015",
         partial(one_of_two, "w_max", "centre", W * L**3 / EI)),
        ("2 spans, load in the middle of one: sag's place", "0.480",
         partial(one_of_two, "w_max_at", "centre", L)),
    ]  # fmt: skip
    for name, reference, ours in rows:
        yield Case(
            name=f"beam, {name}", reference=reference, ours=ours, kind=FROM_MEMORY, source=table
        )


# Three spans, an overhang, a soft support, half-loaded spans: nothing about it is even.
LOPSIDED_MARKS = (0.0, 300.0, 700.0, 1500.0, 1800.0, 2100.0)
LOPSIDED_SUPPORTS = (0.0, 700.0, 1500.0, 2100.0)
LOPSIDED_LOADS = ((0, 0.0, 300.0, 0.4, 0.4), (0, 700.0, 1500.0, 0.2, 0.9))
LOPSIDED_POINT = (1800.0, 120.0)


@cache
def lopsided() -> BeamResult:
    loads = Loads.of(cases=1, patches=LOPSIDED_LOADS, points=[(0, *LOPSIDED_POINT)])
    return solve(
        Beam(
            length=2400.0,
            support_at=LOPSIDED_SUPPORTS,
            EI=EI,
            GA=GA,
            support_stiffness=[np.inf, 60.0, np.inf, np.inf],
        ),
        loads,
    )


@cache
def by_pycba() -> object:
    import pycba  # here: only these rows pay for it

    lengths = np.diff([*LOPSIDED_MARKS, 2400.0])
    free = [[0, 0] for _ in range(len(lengths) + 1)]
    for at in LOPSIDED_SUPPORTS:
        free[LOPSIDED_MARKS.index(at)][0] = 60.0 if at == 700.0 else -1
    loads = [
        [1, 5, 0.4, 0.4, 0.0, 300.0],
        [3, 5, 0.2, 0.9, 0.0, 800.0],
        [4, 2, 120.0, 300.0],
    ]
    analysis = pycba.BeamAnalysis(
        lengths, np.full(len(lengths), EI), np.ravel(free), loads, GAv=[GA] * len(lengths)
    )
    analysis.analyze(npts=400)
    return analysis.beam_results


def libraries() -> Iterator[Case]:
    def moment(at: float) -> float:
        return lopsided().at(at)[1][0, 0]

    def sag(at: float) -> float:
        return lopsided().at(at)[0][0, 0]

    def theirs(at: float, what: str, sign: float = 1.0) -> float:
        # Its first station repeats the start of the member, the second holds the figure.
        return sign * getattr(by_pycba().vRes[LOPSIDED_MARKS.index(at)], what)[1]

    source = f"pycba {version('pycba')}, direct stiffness with shear"
    for at in (700.0, 1500.0):
        yield Case(
            name=f"beam of three uneven spans and an overhang, one support soft: M at {at:g}",
            reference=partial(theirs, at, "M"),
            ours=partial(moment, at),
            unit="N mm",
            within=1e-6,
            kind=LIBRARY,
            source=source,
        )
    for at in (300.0, 700.0, 1800.0):
        yield Case(
            name=f"beam of three uneven spans and an overhang, one support soft: sag at {at:g}",
            reference=partial(theirs, at, "D", -1.0),
            ours=partial(sag, at),
            unit="mm",
            within=1e-6,
            kind=LIBRARY,
            source=source,
        )


def cases() -> Iterator[Case]:
    """All rows of this field."""
    yield from many_spans()
    yield from libraries()
