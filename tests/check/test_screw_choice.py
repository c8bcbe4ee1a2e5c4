"""The chooser of fasteners: worked by hand, never weaker for more, always a reason in words."""

from __future__ import annotations

from itertools import pairwise
from math import sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from joining import held, joint, member

from shelfload import tables
from shelfload.check.join_words import REMEDIES, why_none
from shelfload.check.screw_choice import choose, judge
from shelfload.check.screw_fate import Fate, why
from shelfload.check.screw_option import Option, Refused
from shelfload.describe.joins import KINDS
from shelfload.idealise.joint import Joint
from shelfload.solve import spacing
from shelfload.wording import spelled

SCREWS = [row for row in tables.fasteners().values() if row.kind in KINDS["screws"]]
BOLTS = [row for row in tables.fasteners().values() if row.kind in KINDS["bolts"]]
NAMES = ["birch-plywood", "spruce-plywood", "c24", "norway-spruce", "particleboard-p5", "osb-3"]


def plywood(thickness=18.0, entered="face"):
    return member("birch-plywood", thickness, entered)


def test_screw_through_plywood_into_timber_by_hand():
    # 4 x 50 mm through 17.6 mm birch plywood (rho_k 630) into C24 (rho_k 350), head 1 mm deep.
    # EN 1995-1-1: d_ef = 1.1 x 2.5 (8.7.1), f_h (8.20) and (8.15), M_y (8.14), modes (8.6).
    d = 1.1 * 2.5
    f_1, f_2 = 0.11 * 630 * d**-0.3, 0.082 * 350 * d**-0.3
    M = 0.3 * 600 * d**2.6
    t_1, t_2 = 17.6 - 1.0, 50 + 1.0 - 17.6
    b = f_2 / f_1
    r = t_2 / t_1
    modes = [
        f_1 * t_1 * d,
        f_2 * t_2 * d,
        f_1 * t_1 * d / (1 + b) * (sqrt(b + 2 * b**2 * (1 + r + r**2) + b**3 * r**2) - b * (1 + r)),
        1.05 * f_1 * t_1 * d / (2 + b)
        * (sqrt(2 * b * (1 + b) + 4 * b * (2 + b) * M / (f_1 * d * t_1**2)) - b),
        1.05 * f_1 * t_2 * d / (1 + 2 * b)
        * (sqrt(2 * b**2 * (1 + b) + 4 * b * (1 + 2 * b) * M / (f_1 * d * t_2**2)) - b),
        1.15 * sqrt(2 * b / (1 + b)) * sqrt(2 * M * f_1 * d),
    ]  # fmt: skip
    here = joint(plywood(17.6), member("c24", 60.0), sideways=100.0)
    found = judge(here, tables.fasteners()["chipboard-screw-4"], 50.0, 1)
    assert isinstance(found, Option)
    (link,) = found.links
    assert link.basis == "EC5"
    assert link.mode == "abcdef"[int(np.argmin(modes))]
    # k_mod 0.7 for both, long-term, class 1 (Table 3.1); gamma_M 1.3 (Table 2.3)
    assert link.holds == pytest.approx(min(modes) * 0.7 / 1.3, rel=1e-9)
    assert link.demand == pytest.approx(150.0, rel=1e-12)


def test_short_screw_in_two_panels_by_the_handbook_by_hand():
    # No. 6 x 31.8 mm in two 17.6 mm birch plywood sheets (685 kg/m3, G = 685/1120 = 0.612).
    # Wood Handbook Table 8-4: the lower of softwood .48-.52 (36.40) and hardwood .57-.74
    # (44.13); in proportion below 7 D; a fifth of it, 0.9 for lasting load.
    here = joint(plywood(17.6), plywood(17.6), sideways=40.0)
    found = judge(here, tables.fasteners()["wood-screw-no-6"], 31.8, 1)
    assert isinstance(found, Option)
    (link,) = found.links
    assert link.basis == "Wood Handbook"
    reach = 31.8 + 1.0 - 17.6
    by_hand = 36.40 * 3.51**2 * reach / (7 * 3.51) * 0.2 * 0.9
    assert link.holds == pytest.approx(by_hand, rel=1e-9)
    assert link.demand == pytest.approx(40.0, rel=1e-12)  # as it is, never factored


def test_two_bases_never_answer_one_question():
    here = joint(plywood(17.6), plywood(24.0), sideways=100.0, pull=50.0)
    for option in choose([here])[0].works:
        names = [link.name for link in option.links]
        assert len(names) == len(set(names))


def test_everyday_two_thin_panels_and_a_20_mm_screw():
    here = joint(plywood(12.0), plywood(12.0), sideways=100.0)
    found = judge(here, tables.fasteners()["chipboard-screw-3-5"], 20.0)
    assert isinstance(found, Refused)
    assert found.fate is Fate.SHORT
    choice = choose([here])[0]
    assert choice.best is None
    text, remedy = why_none(choice)
    assert "draw the pieces together" in text
    assert "bolt" in remedy.lower()
    assert choose([here], KINDS["bolts"])[0].best is not None


NO_VALUE = {
    "edge of plywood": (joint(plywood(), plywood(18.0, "edge"), 100.0), "edge", "housing"),
    "edge of particleboard": (
        joint(plywood(), member("particleboard-p5", 18.0, "edge"), 100.0), "edge", "housing",
    ),
    "end grain pulled": (
        joint(member("c24", 22.0), member("c24", 45.0, "end grain"), 100.0, 50.0),
        "end grain", "block",
    ),
    "MDF": (joint(member("mdf", 18.0), member("mdf", 18.0), 100.0), "no rule", "cleat"),
    "glass": (joint(member("float-glass", 6.0), plywood(), 100.0), "no rule", "cleat"),
    "OSB pulled": (joint(plywood(12.0), member("osb-3", 18.0), pull=50.0), "screw", "bolt"),
    "thin stack": (joint(plywood(6.4), plywood(6.4), 100.0), "4 diameters", "bolt"),
    "outdoors": (
        joint(plywood(17.6), plywood(17.6), 100.0, service_class=3), "", "",
    ),
    "board not allowed outdoors": (
        joint(member("particleboard-p4", 18.0), member("c24", 60.0), 100.0, service_class=3),
        "", "",
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", NO_VALUE)
def test_no_design_value_says_why_and_what_to_do(case):
    here, why_word, do_word = NO_VALUE[case]
    choice = choose([here])[0]
    assert choice.best is None
    text, remedy = (spelled(words, "metric") for words in why_none(choice))
    assert why_word in text
    assert do_word in remedy.lower()
    assert len(text) > 20
    assert len(remedy) > 20
    assert "nan" not in text


@pytest.mark.parametrize("fate", [fate for fate in Fate if fate is not Fate.GOOD])
def test_every_fate_has_a_sentence_and_a_remedy(fate):
    here = joint(plywood(), plywood(), 100.0, 50.0)
    text = spelled(why(fate, here, SCREWS[0], 30.0, 3), "inch")
    assert text
    assert text[-1] != "."
    assert REMEDIES[fate].endswith(".")


def test_fasteners_whose_strength_only_the_maker_knows_are_never_given_one():
    here = joint(plywood(), member("c24", 60.0), 100.0)
    for kind in ("panel connector", "machine screw and insert"):
        choice = choose([here], [kind])[0]
        assert choice.best is None
        assert choice.nearest is not None
        assert choice.nearest.fate is Fate.BY_MAKER


def test_end_grain_takes_a_third_sideways_and_three_screws():
    end = joint(member("c24", 22.0), member("c24", 45.0, "end grain"), 100.0)
    side = joint(member("c24", 22.0), member("c24", 200.0), 100.0)
    screw = tables.fasteners()["chipboard-screw-4"]
    at_end, at_side = judge(end, screw, 70.0, 3), judge(side, screw, 70.0, 3)
    assert isinstance(at_end, Option)
    assert isinstance(at_side, Option)
    assert at_end.links[0].holds == pytest.approx(at_side.links[0].holds / 3, rel=1e-12)
    few = judge(end, screw, 70.0, 2)
    assert isinstance(few, Refused)
    assert few.fate is Fate.FEW


def test_worn_threads_hold_less():
    new = judge(joint(plywood(), member("c24", 60.0), 50.0, 50.0), SCREWS[2], 50.0, 4)
    worn = judge(
        joint(plywood(), member("c24", 60.0), 50.0, 50.0, redriven=True), SCREWS[2], 50.0, 4
    )
    assert isinstance(new, Option)
    assert isinstance(worn, Option)
    for before, after in zip(new.links, worn.links, strict=True):
        if before.name == "head pulled through":
            assert after.holds == before.holds
        else:
            assert after.holds < before.holds


def test_deeper_countersink_takes_from_the_first_and_gives_to_the_second():
    screw = tables.fasteners()["chipboard-screw-3"]
    flush = judge(joint(plywood(17.6), plywood(17.6), 20.0, recess=0.0), screw, 30.0, 2)
    assert isinstance(flush, Option)
    assert flush.reach == pytest.approx(30.0 - 17.6)
    through = judge(joint(plywood(17.6), plywood(17.6), 20.0, recess=4.0), screw, 30.0, 2)
    assert isinstance(through, Refused)
    assert through.fate is Fate.THROUGH


pieces = st.tuples(st.sampled_from(NAMES), st.floats(9.0, 30.0))
lengths = st.sampled_from([25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 60.0, 70.0, 80.0])


def a_member(piece, least=0.0):
    name, thickness = piece
    return member(name, max(thickness, least))


@settings(max_examples=60, deadline=None)
@given(pieces, pieces, st.sampled_from(SCREWS + BOLTS), lengths, st.integers(1, 12), st.booleans())
def test_one_more_is_never_weaker(first, second, screw, length, count, pulled):
    here = joint(
        a_member(first), a_member(second, 20.0), 100.0, 50.0 if pulled else 0.0, length=600.0
    )
    fewer, more = judge(here, screw, length, count), judge(here, screw, length, count + 1)
    if isinstance(fewer, Refused) or isinstance(more, Refused):
        return
    for before, after in zip(fewer.links, more.links, strict=True):
        assert after.holds >= before.holds * (1 - 1e-12)


@settings(max_examples=60, deadline=None)
@given(pieces, st.sampled_from(NAMES), st.sampled_from(SCREWS), lengths, lengths, st.booleans())
def test_longer_is_never_weaker_until_it_comes_through(first, second, screw, one, two, pulled):
    short, long = sorted((one, two))
    here = joint(
        a_member(first), a_member((second, 60.0)), 100.0, 50.0 if pulled else 0.0, length=600.0
    )
    before, after = judge(here, screw, short, 3), judge(here, screw, long, 3)
    if isinstance(before, Option):
        if isinstance(after, Refused):
            assert after.fate is Fate.THROUGH
        else:
            assert after.used <= before.used * (1 + 1e-9)


@settings(max_examples=60, deadline=None)
@given(pieces, pieces, st.floats(0.5, 1.0), st.sampled_from(SCREWS), lengths)
def test_thinner_second_panel_is_never_stronger(first, second, share, screw, length):
    thick = a_member(second)
    thin = type(thick)(material=thick.material, thickness=thick.thickness * share)
    here = joint(a_member(first), thick, 100.0, 50.0, length=600.0)
    before = judge(here, screw, length, 3)
    after = judge(joint(here.first, thin, 100.0, 50.0, length=600.0), screw, length, 3)
    if isinstance(before, Refused):
        assert isinstance(after, Refused)
    elif isinstance(after, Option):
        assert after.used >= before.used * (1 - 1e-9)


@settings(max_examples=60, deadline=None)
@given(pieces, st.floats(0.6, 1.0), st.sampled_from(NAMES), st.floats(15.0, 40.0))
def test_thinner_first_panel_with_the_same_hold_in_the_second_is_never_stronger(
    first, share, second, reach
):
    # threaded to the head, so that the length of thread does not follow the length
    screw = tables.fasteners()["full-thread-screw-4"]
    thick = a_member(first)
    thin = type(thick)(material=thick.material, thickness=thick.thickness * share)
    into = a_member((second, 60.0))
    before = judge(joint(thick, into, 100.0), screw, thick.thickness + reach, 3)
    after = judge(joint(thin, into, 100.0), screw, thin.thickness + reach, 3)
    if isinstance(before, Option) and isinstance(after, Option):
        assert after.used >= before.used * (1 - 1e-9)


@settings(max_examples=80, deadline=None)
@given(
    pieces,
    pieces,
    st.floats(150.0, 1500.0),
    st.floats(1.0, 1500.0),
    st.sampled_from([5.0, 6.35]),
    st.sampled_from(["screws", "bolts"]),
)
def test_marks_keep_every_distance_and_are_symmetric(first, second, length, force, step, by):
    here = joint(
        a_member(first), a_member(second, 15.0), force, force / 5, length=length, round_to=step
    )
    for option in choose([here], KINDS[by])[0].works:
        marks = np.array(option.positions)
        assert len(marks) == option.count
        assert np.allclose(marks, length - marks[::-1], atol=1e-9)
        for piece in (here.first, here.second):
            least = _least(option, piece, here)
            assert marks[0] >= least[1] - 1e-6
            assert option.rim >= least[2] - 1e-9
            assert all(b - a >= least[0] - 1e-6 for a, b in pairwise(marks))
        assert option.used <= 0.9 + 1e-9
        assert option.cover >= 2.0 - 1e-9 or by == "bolts"


def _least(option, piece, here):
    """Spacing, end and edge distance straight from the clauses, whatever the direction."""
    d = option.screw.diameter
    alphas = np.linspace(0.0, np.pi / 2, 7)
    if piece.material.kind == "plywood":
        loaded = 7.0 * d  # (3 + 4 sin 90) d, 8.3.1.3(2)
        # no spacing of its own: 8.3.1.3(1) takes 0.85 of the timber's
        own = 0.85 * spacing.nail_distances(d, 630.0, 0.0, predrilled=True).a_1
        return float(own), loaded, loaded
    if option.screw.kind in KINDS["bolts"] or option.d_ef > 6.0:
        found = spacing.bolt_distances(d, alphas)
        return float(found.a_1.max()), float(found.a_3t.max()), float(found.a_4t.max())
    found = spacing.nail_distances(d, piece.rho_k, alphas, predrilled=True)
    closer = 0.85 if here.first.is_timber != here.second.is_timber else 1.0
    return (
        float(found.a_1.max()) * closer,
        float(found.a_3t.max()),
        float(found.a_4t.max()),
    )


def test_choosing_for_many_gives_what_each_gets_alone():
    joints = [
        joint(plywood(), member("c24", 45.0), force, length=length)
        for force in (50.0, 400.0, 1500.0)
        for length in (200.0, 900.0)
    ]
    together = choose(joints)
    for here, one in zip(joints, together, strict=True):
        assert choose([here])[0].best == one.best


def test_next_cheaper_option_is_named_with_what_is_wrong_with_it():
    choice = choose([joint(plywood(), member("c24", 45.0), 600.0)])[0]
    assert choice.best is not None
    assert choice.cheaper is not None
    one = choice.cheaper
    assert why(one.fate, choice.joint, one.screw, one.length, one.fits)


def test_short_load_and_lasting_load_are_held_to_their_own_strength():
    # k_mod 0.9 short-term, 0.7 long-term, EN 1995-1-1 Table 3.1, class 1
    pieces = (plywood(), member("c24", 60.0))
    screw = tables.fasteners()["chipboard-screw-4"]
    short, lasting = (
        judge(
            Joint(first=pieces[0], second=pieces[1], length=400.0, lateral=held(100.0, lasts)),
            screw,
            50.0,
            2,
        )
        for lasts in ("short-term", "long-term")
    )
    assert isinstance(short, Option)
    assert isinstance(lasting, Option)
    assert short.links[0].holds / lasting.links[0].holds == pytest.approx(0.9 / 0.7, rel=1e-12)
