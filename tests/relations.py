"""Changes that make nothing better, and what each of them may ease all the same."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from copy import deepcopy
from dataclasses import dataclass

import worse_made
import worse_place
from random_parts import Draws, Raw

Change = Callable[[Draws, Raw], bool]


@dataclass(frozen=True, slots=True)
class Spared:
    """Checks that a change may ease, by the first words of their question and their method."""

    why: str
    question: str | tuple[str, ...] = ""
    method: str | tuple[str, ...] = ""

    def covers(self, question: str, method: str) -> bool:
        return question.startswith(self.question) and method.startswith(self.method)


@dataclass(frozen=True, slots=True, kw_only=True)
class Relation:
    """A change that never makes anything better.

    ``before`` brings the description into a state in which only the change itself counts.
    ``spared`` are checks that the change may ease, each with the reason.
    ``by_part`` compares the worst bay of each part, where bays change their numbers.
    ``weakened`` names a figure of the materials table that is lowered.
    """

    name: str
    change: Change
    before: Change | None = None
    spared: tuple[Spared, ...] = ()
    by_part: bool = False
    weakened: str = ""

    def spares(self, question: str, method: str) -> bool:
        return any(one.covers(question, method) for one in (*ALWAYS_SPARED, *self.spared))


WEAKENED = ("E_0", "E_90", "G_0", "G_90", "G_panel", "f_m_0", "f_m_90", "f_v", "f_r_0", "f_r_90",
            "f_c_0", "f_c_90", "E_005")  # fmt: skip


STRESSES = ("bending", "shear", "rolling shear")


SAG = ("sag", "slips off")


CARRYING = (*STRESSES, *SAG, "bearing", "held down", "back as a shear", "fixings of the back")


UPRIGHTS = ("uprights", "presses on what is below")


FLOOR = ("load on its own footprint", "whole weight", "joists", "floor sheet")


STANDING = (
    "tips over",
    "lifts off",
    "slides",
    "part-stacked",
    "holds",
    "pull if one",
    "if one",
    "tied",
)


LIFTING = ("people",)


ALWAYS_SPARED: tuple[Spared, ...] = ()


BALANCED = Spared(
    "a load on one edge and one on the other twist a shelf against each other",
    (*STRESSES, *SAG),
    "plate",
)


BALANCED_REAR = Spared("a load at the front lifts the rear off its back", "back as a shear")
REAR = Spared(
    "a shelf held at its rear tips down at its front: held less, it tips less", CARRYING, "plate"
)


SHARED = Spared("what is softer leaves more to the rest", (*STRESSES, "bearing"))


LIFTED = Spared("an empty span beside a full one rises less where shear softens it", SAG, "sag")


REACTIONS = Spared("with the shear in it the loads on several supports shift", ("holds", "pull"))


SHARED_PLATE = Spared("what is softer leaves more to the rest", CARRYING, "plate")


SHARED_FRAME = Spared("what is softer leaves more to the rest", CARRYING, "elevation frame")


LOADS_OF_FRAME = Spared("a softer frame may hand less to one upright and more to others", UPRIGHTS)


GONE = Spared("what is not there has no fasteners", "fasteners of the back")


LANDS = Spared(
    "softer shelves above hand other shares of their load to the uprights that land on it",
    SAG,
    ("beam", "sag"),
)


FLOW = Spared("a softer frame may lead less through one back and more through others",
              ("back buckles", "glued corners"))  # fmt: skip


LEANS = Spared("a softer shelf leans less on its back, a softer back takes less", "back as a shear")


SOFTER = (LEANS, SHARED_PLATE, SHARED_FRAME, LOADS_OF_FRAME, FLOW)


RELATIONS: tuple[Relation, ...] = (
    Relation(name="more load", change=worse_place.more_load, spared=(BALANCED, BALANCED_REAR)),
    Relation(
        name="another point load",
        change=worse_place.another_point,
        spared=(
            BALANCED,
            BALANCED_REAR,
            Spared("on the lighter side it evens out what each fixing bears", "holds"),
        ),
    ),
    Relation(name="packed denser", change=worse_place.denser, spared=(BALANCED, BALANCED_REAR)),
    Relation(
        name="load stays longer", change=worse_place.lasting, spared=(BALANCED, BALANCED_REAR)
    ),
    Relation(
        name="load on the front edge",
        change=worse_place.to_the_front,
        spared=(BALANCED, BALANCED_REAR),
    ),
    Relation(
        name="no back",
        change=worse_made.no_back,
        before=worse_made.light_backs,
        spared=(
            REAR,
            Spared("the test makes the unit less deep by what the back took", LIFTING),
            Spared("the same: less lever from the wall", ("holds", "pull if one")),
            Spared(
                "the same: its shelves keep their depth, its uprights are lighter",
                ("weight on", "stays square", *CARRYING),
            ),
            GONE,
            Spared("the same", (*FLOOR, *STANDING, "bearing", "slips off", *UPRIGHTS)),
            FLOW,
        ),
    ),
    Relation(
        name="back taken off",
        change=worse_made.back_off,
        spared=(
            Spared("a shelf without a back behind it is deeper by it", CARRYING),
            Spared(
                "it is lighter, and its middle further forward or back",
                (*LIFTING, *FLOOR, *UPRIGHTS, "weight on", "tips over", "stays square"),
            ),
            GONE,
            Spared("it is lighter", ("holds", "pull if one"), ("rotation", "the other lines")),
            Spared("it is lighter", ("holds", "pull if one"), ("group without", "equal shares")),
            FLOW,
        ),
    ),
    Relation(name="back fixed less", change=worse_made.back_comes_loose, spared=(REAR, *SOFTER)),
    Relation(name="back held less", change=worse_made.back_held_less, spared=(REAR, *SOFTER)),
    Relation(
        name="screws further apart",
        change=worse_made.wider_screws,
        spared=(SHARED, REACTIONS, *SOFTER),
    ),
    Relation(name="fewer screws in a join", change=worse_made.fewer_in_a_join),
    Relation(name="screws driven again", change=worse_made.redriven),
    Relation(name="fewer fixings", change=worse_place.fewer_fixings),
    Relation(
        name="fewer hangers",
        change=worse_place.fewer_hangers,
        spared=(
            Spared(
                "each hanger hands its load to the fixings beside it: these change",
                ("holds: fixing", "holds: pull", "holds: head", "holds: shear", "rail", "pull"),
            ),
        ),
    ),
    Relation(name="shorter fixings", change=worse_place.shorter_fixings),
    Relation(name="weaker fixings", change=worse_place.weaker_maker),
    Relation(
        name="no divider",
        change=worse_made.no_divider,
        before=worse_made.light_dividers,
        by_part=True,
        spared=(
            Spared(
                "a divider is itself pressed, more than the sides, and presses what is below",
                ("bearing", *UPRIGHTS, *STRESSES),
            ),
            Spared("a wider panel of a back slips on fewer edges", "stays square", "elevation"),
            SHARED_FRAME,
            Spared("the light divider still weighs a little", (*LIFTING, *FLOOR)),
            FLOW,
        ),
    ),
    Relation(
        name="longer span",
        change=worse_made.longer_span,
        spared=(
            Spared("a longer unit is heavier, on a larger base", (*STANDING, *FLOOR)),
            Spared("its back is longer, and carries more", ("stays square", "back buckles")),
            Spared("total loads are spread over more length", ("bearing on pins", *UPRIGHTS)),
            Spared("the same", STRESSES, "plate"),
            Spared("the same", "back as a shear"),
            Spared("studs met", ("studs",)),
            SHARED_FRAME,
        ),
    ),
    Relation(
        name="thinner panel",
        change=worse_made.thinner,
        before=worse_made.own_boards,
        spared=(
            Spared("the unit is lower by one thickness, its levels higher", (*STANDING, *LIFTING)),
            Spared("and its higher levels may sway more", "stays square"),
            Spared("what it weighs where that is no board of ours", (*FLOOR, "weight on")),
            Spared("so that less pulls at what joins it to the next", "fasteners of"),
            Spared(
                "of several supports, or corners of a curve, one may be pressed less", "bearing"
            ),
            *SOFTER,
        ),
    ),
    Relation(
        name="more humid",
        change=worse_place.more_humid,
        spared=(
            Spared("back and shelf creep by shares of their own", CARRYING, "plate"),
            Spared("a back of unknown creep is not counted on", ("back as a", "fixings of the")),
        ),
    ),
    Relation(
        name="weaker wall",
        change=worse_place.weaker_wall,
        spared=(
            # what such a wall bears is then not checked, so that the shelf never passes
            Spared("nobody knows the gap in front of what rods find", ("rods in", "front droops")),
        ),
    ),
    Relation(name="fewer helpers", change=worse_place.fewer_helpers),
    Relation(
        name="deeper overhang",
        change=worse_made.deeper_overhang,
        spared=(
            Spared("an empty end that reaches out lifts the span beside it", CARRYING),
            Spared("and takes load off the inner bracket", "holds"),
        ),
    ),
    Relation(
        name="no restraint",
        change=worse_place.no_restraint,
        spared=(
            Spared(
                "what is not there can't fail; tipping is then asked without it",
                ("holds", "pull if one", "number of restraints", "studs behind"),
            ),
        ),
    ),
    Relation(
        name="double held less",
        change=worse_made.looser_double,
        spared=(SHARED, REACTIONS, *SOFTER),
    ),
    Relation(
        name="grain turned across",
        change=worse_made.grain_turned,
        spared=(SHARED, REACTIONS, *SOFTER),
    ),
    Relation(
        name="loose shelf",
        change=worse_made.shelf_loose,
        spared=(REAR, Spared("it is taken out before the unit is lifted", LIFTING), *SOFTER),
    ),
    Relation(
        name="shorter bearing",
        change=worse_made.shorter_bearing,
        spared=(
            Spared(
                "the span ends in the middle of its bearing: it grows shorter",
                (*STRESSES, "sag", *UPRIGHTS, *FLOOR, "back as a shear", "stays square"),
            ),
            Spared("and a shelf of its own lighter", ("holds", "rods in bending", "front droops")),
            Spared("and an upright below presses less, however wide", "bearing"),
            FLOW,
        ),
    ),
    Relation(name="more play", change=worse_made.more_play),
    Relation(
        name="ends free to turn",
        change=worse_made.ends_turn,
        spared=(
            Spared("a clamped end draws load to itself", ("bearing", "shear", "rolling shear")),
            *SOFTER,
        ),
    ),
    Relation(name="not fixed down", change=worse_made.not_fixed_down),
    Relation(name="wilder place", change=worse_place.wilder_place),
    Relation(name="worse floor", change=worse_place.worse_floor),
    Relation(name="opens further", change=worse_place.opens_further),
    Relation(name="feet further back", change=worse_place.feet_further_back),
    Relation(
        name="softer corners",
        change=worse_made.softer_corners,
        spared=(Spared("corners that turn have no glue to hold", "glued corners"), *SOFTER),
    ),
    Relation(name="weaker rest", change=worse_place.weaker_rest),
    Relation(name="smaller supports", change=worse_place.smaller_supports),
    Relation(name="stricter sag limit", change=worse_made.stricter_limit),
    *(
        Relation(
            name=f"lower {name}",
            change=worse_place.nothing,
            weakened=name,
            spared=(SHARED, REACTIONS, LANDS, *SOFTER, *((LIFTED,) if name[0] == "G" else ()))
            if name[0] in "EG"
            else (),
        )
        for name in WEAKENED
    ),
)


def both_states(d: Draws, raw: Raw, relation: Relation) -> tuple[Raw, Raw] | None:
    """Return a description before and after; None where there is nothing to change."""
    before = deepcopy(raw)
    if relation.before is not None and not relation.before(d, before):
        return None
    after = deepcopy(before)
    return (before, after) if relation.change(d, after) else None


def changes(d: Draws, raw: Raw, most: int) -> Iterator[tuple[Relation, Raw, Raw]]:
    """Draw relations that have something to change in a description, with both states."""
    found = 0
    for _ in range(6 * most):
        relation = d.one(*RELATIONS)
        states = both_states(d, raw, relation)
        if states is not None and found < most:
            found += 1
            yield (relation, *states)
