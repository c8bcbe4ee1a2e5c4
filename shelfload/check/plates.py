"""Will a shelf that bends as a plate carry what stands on it, and what would a beam have said?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from shelfload.check.criteria import (
    EC5,
    EN1990,
    GAMMA_Q,
    Criterion,
    Unanswered,
    strength_factors,
)
from shelfload.check.plate_demands import BACK_IN_SHEAR, Demand, both, plate_demands
from shelfload.check.plate_safe_load import plate_safe_loads
from shelfload.check.result import Answer, Check, SafeLoad, Verdict, worst
from shelfload.check.safe_load import safe_loads
from shelfload.idealise.place import Place
from shelfload.idealise.plates import ShelfPlate, on_an_edge
from shelfload.idealise.shelf_beam import ShelfBeam
from shelfload.wording import figure

_STEADY = 0.9  # self-weight where it helps, EN 1990 Table A1.2(A), from memory


def plate_checks(
    beam: ShelfBeam,
    plate: ShelfPlate,
    demands: Sequence[Demand | Unanswered],
    plain: Sequence[Check],
) -> list[Check]:
    """Ask a plate every question; ``plain`` are the answers of the plain beam."""
    asked: dict[str, Check] = {}
    for demand in demands:
        check = _check(beam, plate, demand, plain)
        before = asked.get(check.question)
        if (
            before is None
            or check.value is None
            or (before.value is not None and check.ratio > before.ratio)
        ):
            asked[check.question] = check
    kept = [check for check in plain if check.question == "held down on its supports"]
    return [*asked.values(), *kept, *_lifting_off(beam, plate), *_fixings(beam, plate, plain)]


FIXINGS_OF_THE_BACK = "fixings of the back"
OF_THE_BACK = {FIXINGS_OF_THE_BACK, BACK_IN_SHEAR}
"""Questions about the back alone: without it the shelf may still carry as a plain beam."""


def plate_answer(
    beam: ShelfBeam,
    plate: ShelfPlate,
    asked: Sequence[Criterion | Unanswered],
    plain: Answer,
) -> Answer:
    """Answer for a shelf that bends as a plate; ``plain`` is the answer of its plain beam.

    A back that can't be counted on for what leans on it is left out: a shelf that carries
    everything as a plain beam needs none. That holds only where nothing but the back itself
    is in doubt: a shelf held at its rear may tip forward and sag more than a plain beam.
    """
    demands = plate_demands(beam, plate, asked)
    checks = plate_checks(beam, plate, demands, plain.checks)
    if plate.model == "two ends":
        checks = _no_milder(checks, plain.checks)
    doubtful = {
        check.question for check in checks if check.verdict in (Verdict.FAILS, Verdict.NOT_CHECKED)
    }
    known = [demand for demand in demands if demand.question != BACK_IN_SHEAR]
    if plate.model == "three edges" and doubtful and doubtful <= OF_THE_BACK:
        as_beam = worst(check.verdict for check in plain.checks)
        if as_beam in (Verdict.PASSES, Verdict.CLOSE) and not on_an_edge(beam):
            said = f"a plain beam, which passes; not counted is its {plate.hold_words}"
            return replace(
                plain,
                models=((beam.place, said), *plain.models),
                safe_loads=least_of(plain.safe_loads, plate_safe_loads(beam, known)),
            )
    safe = tuple(plate_safe_loads(beam, demands))
    if plate.hold is not None or plate.model == "two ends":
        # beyond what it carries without its back, the back's fixings are asked and unknown;
        # and nothing but its ends carries a shelf without one
        bare = [one for one in asked if isinstance(one, Unanswered) or one.curve != "sag"]
        safe = least_of(safe, safe_loads(beam, bare))
    return Answer(
        checks=tuple(checks),
        safe_loads=safe,
        assumptions=(*plain.assumptions, *plate.said),
        models=(*model_sentences(beam, plate, checks, plain.checks), *plain.models),
    )


def _no_milder(checks: Sequence[Check], plain: Sequence[Check]) -> list[Check]:
    """Put the plain beam's stresses in place of milder ones of a plate held at its ends alone.

    Over its depth a section takes the whole moment and shear of the beam: no plate takes less,
    but a load on one spot that is run up to a support brings none.
    """
    asked = {check.question: check for check in plain if check.measure == "stress"}
    return [
        beam
        if (beam := asked.get(check.question)) is not None and beam.ratio > check.ratio
        else check
        for check in checks
    ]


def only_helps(checks: Sequence[Check], plain: Sequence[Check]) -> bool:
    """Whether a plate that does not pass asks nothing more than its plain beam does."""
    asked = {check.question: check for check in plain}
    return all(
        check.verdict in (Verdict.PASSES, Verdict.CLOSE)
        or check.question in OF_THE_BACK
        or (
            (beam := asked.get(check.question)) is not None
            and beam.value is not None
            and check.value is not None
            and beam.ratio >= check.ratio
        )
        for check in checks
    )


def beyond_a_beam(
    beam: ShelfBeam, plate: ShelfPlate, asked: Sequence[Criterion | Unanswered]
) -> list[SafeLoad]:
    """Return what a plate may carry by what is asked of plates and of no beam."""
    of_beams = {one.question for one in asked} | OF_THE_BACK
    own = [one for one in plate_demands(beam, plate, asked) if one.question not in of_beams]
    return plate_safe_loads(beam, own)


def least_of(one: Sequence[SafeLoad], other: Sequence[SafeLoad]) -> tuple[SafeLoad, ...]:
    """Return the lower of two safe loads, bay by bay; unknown if either is."""
    found = []
    for a, b in zip(one, other, strict=True):
        if a.reason or b.reason:
            found.append(a if a.reason else b)
            continue
        even = min((a, b), key=lambda load: load.even or 0.0)
        point = min((a, b), key=lambda load: load.point or 0.0)
        found.append(replace(even, point=point.point, point_governed_by=point.point_governed_by))
    return tuple(found)


def _check(
    beam: ShelfBeam, plate: ShelfPlate, demand: Demand | Unanswered, plain: Sequence[Check]
) -> Check:
    if isinstance(demand, Unanswered):
        return Check(
            place=beam.place,
            question=demand.question,
            method="none",
            source=demand.source,
            measure="stress",
            reason=demand.reason,
        )
    ratios = demand.ratios(demand.sometimes)
    at = int(np.argmax(ratios))
    governs = demand.governs
    if demand.measure == "length":
        governs = _sag_in_words(plate, demand, plain, at)
    return Check(
        place=beam.place,
        question=demand.question,
        value=float(ratios[at] * demand.limit[at]),
        limit=float(demand.limit[at]),
        measure=demand.measure,
        method=demand.method,
        source=demand.source,
        governs=governs,
    )


def _sag_in_words(plate: ShelfPlate, demand: Demand, plain: Sequence[Check], at: int) -> str:
    first = plate.first_day.w[at]
    now = float(first @ (demand.always + demand.sometimes))
    words = [plate.words, f"first day {figure(now, 'length')}"]
    beam_sag = next((check for check in plain if check.question == demand.question), None)
    if beam_sag is not None and beam_sag.value is not None:
        words.append(f"a plain beam would give {figure(beam_sag.value, 'length')}")
    return "; ".join(words)


def model_sentences(
    beam: ShelfBeam, plate: ShelfPlate, checks: Sequence[Check], plain: Sequence[Check]
) -> list[tuple[Place, str]]:
    """Say which model was used and why, and where that matters what a beam would have said."""
    told = [(beam.place, f"{plate.words}, because {plate.reason}")]
    mine, theirs = (
        next((c for c in asked if c.question.startswith("sag") and c.value is not None), None)
        for asked in (checks, plain)
    )
    if mine is None or theirs is None or mine.value is None or theirs.value is None:
        return told
    if mine.verdict is theirs.verdict is Verdict.PASSES:
        return told
    text = (
        f"sag {figure(mine.value, 'length')}, {mine.verdict.value}; as a plain beam "
        f"{figure(theirs.value, 'length')}, {theirs.verdict.value} "
        f"(allowed {figure(theirs.limit or 0.0, 'length')})"
    )
    if plate.model == "three edges" and mine.value > theirs.value:
        spots = any(bay.load.points or bay.load.line for bay in beam.bays)
        text += (
            "; the front edge under its load sags more than a beam shows"
            if spots
            else "; held at the rear, a short deep shelf tips down a little at its front"
        )
    return [*told, (beam.place, text)]


def _lifting_off(beam: ShelfBeam, plate: ShelfPlate) -> list[Check]:
    """A pin or the corner of an end that the shelf would lift off."""
    if plate.model not in ("pins", "sector") or (beam.held_down and plate.model == "sector"):
        return []
    always = beam.weights({"self": _STEADY, "landing dead": _STEADY})
    sometimes = beam.weights({"contents": GAMMA_Q, "landing": GAMMA_Q, "spot": GAMMA_Q})
    lowest = np.inf
    for response in (plate.first_day, plate.crept):
        low = response.corners @ always + np.minimum(response.corners * sometimes, 0.0).sum(axis=1)
        lowest = min(lowest, float(low.min()))
    if lowest >= 0.0:
        return []
    what = "a pin" if plate.model == "pins" else "a corner of an end"
    return [
        Check(
            place=beam.place,
            question="held down on its supports",
            method=f"{plate.words}; factored loads, 0.9 of the shelf's own weight",
            source=EN1990,
            measure="force",
            reason=f"the shelf lifts off {what}: a fixing that holds "
            f"{figure(-lowest, 'force')} is needed and none is described",
        )
    ]


def _fixings(beam: ShelfBeam, plate: ShelfPlate, plain: Sequence[Check]) -> list[Check]:
    """Fixings of a back count only where the shelf would break without them."""
    if plate.hold is None or not any(_breaks(check) for check in plain):
        return []
    force = figure(back_force(beam, plate), "force" if plate.hold.spacing else "line load")
    each = "each" if plate.hold.spacing else "for each length"
    return [
        Check(
            place=beam.place,
            question=FIXINGS_OF_THE_BACK,
            method=plate.words,
            source=f"{EC5}, 8.3",
            measure="force",
            reason=f"without its back this shelf would break, and no rule gives a strength for "
            f"fixings in the edge of a panel; they must carry {force} {each}",
        )
    ]


def _breaks(check: Check) -> bool:
    return check.question in ("bearing", "bending", "shear", "rolling shear") and check.ratio > 1.0


def back_force(beam: ShelfBeam, plate: ShelfPlate) -> float:
    """Return the factored force on one fastener of the back [N], or per length for glue [N/mm]."""
    if plate.hold is None:
        return 0.0
    always, sometimes = strength_factors(beam, "short-term")
    rear = both(plate, "rear")
    worst = rear @ always + np.maximum(rear * sometimes, 0.0).sum(axis=1)
    return float(worst.max()) * (plate.hold.spacing or 1.0)
