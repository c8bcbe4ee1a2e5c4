"""One join asked about without a file: forces, choice, judgement, and what to do instead."""

from __future__ import annotations

import pytest
from joined import join
from printed import printed

from shelfload import tables
from shelfload.check.result import Verdict
from shelfload.check.screw_table import HOLE, PRICE
from shelfload.wording import spelled


@pytest.mark.parametrize(
    ("how_long", "design"),
    [
        # EN 1990, Table A1.2(B), eq. (6.10): 1.35 on permanent actions, 1.5 on others
        ("permanent", {"permanent": 405.0}),
        ("long-term", {"long-term": 450.0}),
        ("medium-term", {"medium-term": 450.0}),
        ("short-term", {"short-term": 450.0}),
    ],
)
def test_forces_are_factored_by_how_long_they_last(how_long, design):
    joint = join(force="300 N", pull="100 N", lasting=how_long).joint
    assert joint.lateral.design == pytest.approx(design)
    assert joint.lateral.service == pytest.approx(300.0)
    assert joint.pull.design == pytest.approx({key: f / 3 for key, f in design.items()})
    assert joint.pull.service == pytest.approx(100.0)


def test_join_nobody_loads_must_take_a_knock():
    found = join()
    assert found.joint.lateral.design == {"short-term": 375.0}  # 1.5 x 250 N
    assert not found.joint.pull.acts
    assert any("no force given" in text for text in found.assumptions)
    assert not any("as they are" in text for text in found.assumptions)
    assert not join(force="300 N", lasting="permanent").joint.pull.acts
    pulled = join(pull="100 N")
    assert not pulled.joint.lateral.acts
    assert any("as they are" in text for text in pulled.assumptions)


def test_join_is_what_was_asked():
    found = join(
        "birch-plywood 18 mm", "pine 28 mm", "350 mm", into_end_grain=True, recess="2 mm",
        service_class="humid", redriven=True, force="10 N", step=6.35,
    )  # fmt: skip
    joint = found.joint
    assert joint.first.material.name.startswith("birch-plywood")
    assert joint.first.thickness == pytest.approx(17.6)  # as tabled for 18 mm
    assert joint.first.entered == "face"
    assert joint.second.entered == "end grain"
    assert joint.second.material.kind == "solid"
    assert (joint.length, joint.recess, joint.round_to) == (350.0, 2.0, 6.35)
    assert joint.service_class == 2
    assert joint.redriven
    assert any("worn threads" in text for text in found.assumptions)
    assert any("nominal" in text for text in found.assumptions)
    assert not any("countersunk" in text for text in found.assumptions)


def test_every_choice_holds_with_marks_alike_from_both_ends():
    found = join(force="300 N", pull="80 N")
    assert found.verdict is Verdict.PASSES
    for line in found.options:
        assert 0.0 < line.used <= 1.0
        assert line.by == "screws"
        assert line.proposed
        assert line.positions == pytest.approx([400.0 - at for at in reversed(line.positions)])
        assert all(at % 5.0 == pytest.approx(0.0) for at in line.positions)
    assert [bool(line.cheaper) for line in found.options] == [True] + [False] * (
        len(found.options) - 1
    )
    assert found.advice[0].startswith(f"{found.options[0].count} x ")
    assert found.options[0].cheaper in found.advice[1]


@pytest.mark.parametrize("force", ["300 N", "1500 N"])
def test_cheapest_comes_first(force):
    # number x (hole + d2 L), by kind (judgement, DEVELOPERS.md)
    def cost(line):
        row = tables.fasteners()[line.name]
        return line.count * PRICE[row.kind] * (HOLE + row.diameter**2 * line.length)

    costs = [cost(line) for line in join(force=force).options]
    assert len(costs) > 2
    assert costs == sorted(costs)


def test_checks_speak_of_the_first_choice():
    found = join(force="300 N", pull="80 N")
    both = next(check for check in found.checks if "together" in check.question)
    assert both.value == pytest.approx(found.options[0].used)
    assert both.value == pytest.approx(max(line.ratio for line in found.checks))
    asked = {check.question: check.value for check in found.checks}
    assert asked["screws: sideways"] == pytest.approx(450.0)


def test_screw_that_is_meant_is_judged_in_proportion_to_the_force():
    one, two = (join(screw="4 x 40 mm", count=2, force=f"{F} N") for F in (3000, 6000))
    assert one.verdict is Verdict.FAILS
    assert two.checks[0].ratio == pytest.approx(2.0 * one.checks[0].ratio)
    assert one.options[0].count == 2
    assert one.options[0].name == "chipboard-screw-4"
    assert one.advice[0].startswith("Not enough")


def test_weak_screw_is_answered_with_one_that_holds():
    found = join(screw="4 x 40 mm", count=2, force="600 N")
    meant, instead = found.options
    assert meant.used > 1.0
    assert instead.used <= 1.0
    assert (meant.note, instead.note) == ("", "instead")
    assert (meant.proposed, instead.proposed) == (True, False)
    assert found.advice[-1].startswith("This one does")
    enough = join(screw="4.5 x 45 mm", force="300 N")
    assert enough.verdict is Verdict.PASSES
    assert len(enough.options) == 1
    assert enough.advice[0].startswith(f"{enough.options[0].count} x ")


def test_pull_on_two_screws_by_hand():
    # 6 x 80 mm through 17.6 mm of birch plywood into C24: 0.6 x 80 = 48 mm of thread
    # EN 1995-1-1 (8.39): f_ax = 0.52 d^-0.5 l^-0.1 rho_k^0.8; (8.38): F = n^0.9 f_ax d l k_d with
    # k_d = d / 8; kmod 0.7, gamma_M 1.3
    found = join("birch-plywood 18 mm", "c24 75 mm", screw="6 x 80 mm", count=2, pull="1000 N")
    thread, head = found.checks
    f_ax = 0.52 * 6**-0.5 * 48**-0.1 * 350**0.8
    assert thread.limit == pytest.approx(2**0.9 * f_ax * 6 * 48 * 6 / 8 * 0.7 / 1.3, rel=1e-3)
    # (8.26) stands in: 70e-6 rho_k^2 d_h^2 with 630 kg/m3 and a head of 12 mm
    assert head.limit == pytest.approx(2**0.9 * 70e-6 * 630**2 * 12**2 * 0.7 / 1.3, rel=1e-3)
    assert thread.value == head.value == pytest.approx(1500.0)


def test_holes_are_those_of_the_second_piece():
    # hard wood, 700 kg/m3, asks a wider pilot hole than softwood, 420 kg/m3
    row = tables.fasteners()["chipboard-screw-6"]
    for wood, hole in (
        ("c24 75 mm", row.pilot_softwood),
        ("european-oak 75 mm", row.pilot_hardwood),
    ):
        (line, *_) = join("birch-plywood 18 mm", wood, screw="6 x 80 mm", force="100 N").options
        assert line.pilot == hole
        assert line.clearance == row.clearance
    assert row.pilot_softwood < row.pilot_hardwood


def test_thread_up_to_the_head_holds_sideways_as_the_core_of_a_part_threaded_one():
    # EN 1995-1-1, 8.7.1(3): the smooth shank of a 5 x 60 mm screw ends 60 - 36 - 17.6 = 6.4 mm
    # inside the second piece, less than 4 d, so that 1.1 times the core counts for both
    part, full = (
        join("birch-plywood 18 mm", "c24 75 mm", screw=f"{name} x 60 mm", force="300 N").checks[0]
        for name in ("chipboard-screw-5", "full-thread-screw-5")
    )
    assert part.source == full.source
    assert full.limit == pytest.approx(part.limit, rel=1e-9)


def test_screw_that_no_rule_covers_is_not_checked_and_another_named():
    # 4 x 16 mm ends inside 17.6 mm of plywood
    found = join(screw="4 x 16 mm", force="300 N")
    assert found.verdict is Verdict.NOT_CHECKED
    assert found.options[0].note == "instead"
    assert found.options[0].used <= 1.0
    thin = join("birch-plywood 12 mm", "birch-plywood 12 mm", screw="3.5 x 20 mm", force="300 N")
    assert thin.verdict is Verdict.NOT_CHECKED
    assert thin.options[0].note == "bolts instead"
    assert thin.options[0].by == "bolts"
    assert any(text.startswith("Nor any other") for text in thin.advice)
    assert thin.advice[-1].startswith("Bolts do it")


def test_join_without_any_value_offers_bolts_or_nothing():
    soft = join("mdf 18 mm", "mdf 18 mm")
    assert soft.verdict is Verdict.NOT_CHECKED
    assert soft.options == ()
    thin = join("birch-plywood 12 mm", "birch-plywood 12 mm", force="2 kN")
    assert thin.verdict is Verdict.NOT_CHECKED
    assert thin.options[0].note == "instead of screws"
    assert "bolt" in thin.options[0].name
    assert thin.advice[-1].startswith("Bolts do it")


def test_bolts_asked_for_are_bolts():
    found = join(by="bolts", force="500 N")
    assert found.verdict is Verdict.PASSES
    assert all("bolt" in line.name and line.by == "bolts" for line in found.options)
    hopeless = join("mdf 18 mm", "mdf 18 mm", by="bolts")
    assert hopeless.options == ()


def test_screw_of_a_size_is_kept_to_that_size():
    found = join(screw="4.5 mm", force="300 N")
    assert {line.name for line in found.options} == {"chipboard-screw-4-5"}
    assert found.verdict is Verdict.PASSES


def test_join_that_is_taken_apart_says_what_lasts():
    assert join(redriven=True).advice[-1].startswith("To take it apart often: 2 x ")
    soft = join("mdf 18 mm", "mdf 18 mm", redriven=True)
    assert not any("take it apart" in text for text in soft.advice)
    assert not any("take it apart" in text for text in join().advice)


def test_worst_check_is_the_one_that_is_told():
    found = join(screw="4 x 40 mm", count=2, force="100 N", pull="3000 N")
    gravest = max(found.checks, key=lambda check: check.ratio)
    assert gravest.question in found.advice[0]


def test_doubled_shelf_lies_between_loose_and_glued_by_hand():
    # 17.6 and 23.2 mm of birch plywood, as tabled; loose: sum of E b t^3 / 12; glued: and, with
    # the panels' middles (17.6 + 23.2) / 2 apart, EA1 EA2 / (EA1 + EA2) r^2
    first, second = (tables.material("birch-plywood", t) for t in (18.0, 24.0))
    found = join("birch-plywood 18 mm", "birch-plywood 24 mm", span="800 mm", depth="300 mm")
    (E_1, t_1), (E_2, t_2) = ((one.material.E_0, one.thickness) for one in (first, second))
    loose = 300.0 / 12.0 * (E_1 * t_1**3 + E_2 * t_2**3)
    EA_1, EA_2 = E_1 * 300.0 * t_1, E_2 * 300.0 * t_2
    assert found.double.EI_lying == pytest.approx(loose, rel=0.01)
    glued = loose + EA_1 * EA_2 / (EA_1 + EA_2) * ((t_1 + t_2) / 2) ** 2
    assert found.double.EI_glued == pytest.approx(glued, rel=0.01)
    assert all(loose < EI < glued for EI in found.double.EI)
    assert found.advice[-1].startswith("As a doubled shelf: screws every")


def test_slip_of_the_screws_of_a_double_is_that_of_the_code():
    # EN 1995-1-1, Table 7.1: K = rho_m^1.5 d / 23; one row of 3 mm screws every 50 mm.
    # Annex B: gamma = 1 / (1 + pi^2 E A s / (K L^2))
    found = join("birch-plywood 18 mm", "birch-plywood 24 mm", span="800 mm", depth="300 mm")
    first, second = (tables.material("birch-plywood", t) for t in (18.0, 24.0))
    row = tables.fasteners()[found.options[0].name]
    K = (first.material.density * second.material.density) ** 0.75 * 1.1 * row.root_diameter / 23.0
    EA = first.material.E_0 * 300.0 * first.thickness
    gamma = 1.0 / (1.0 + 9.8696 * EA * 50.0 / (K * 800.0**2))
    assert found.double.gamma[0] == pytest.approx(gamma, rel=1e-3)
    assert found.double.spacing[0] == 50.0


def test_half_of_what_glue_gives_is_offered_where_screws_can_be_set_so_close():
    long = join("birch-plywood 9 mm", "birch-plywood 24 mm", span="2400 mm", depth="150 mm")
    assert "gives half of what glue" in long.advice[-1]
    short = join("birch-plywood 18 mm", "birch-plywood 24 mm", span="500 mm", depth="400 mm")
    assert "no row of screws" in short.advice[-1]


def test_double_without_a_slip_counts_as_loose():
    found = join("mdf 18 mm", "mdf 18 mm", span="800 mm", depth="300 mm")
    assert found.double is None
    assert "count the two as loose" in found.advice[-1]


def test_sizes_of_the_head_of_the_report():
    title = join(force="300 N", pull="100 N").title
    assert " sideways and " in title
    assert title.endswith("apart")
    assert " and " not in join(force="300 N").title
    assert join().joint.recess == printed("1.0")


def test_line_of_the_screw_that_is_meant_has_every_figure():
    found = join(screw="4 x 50 mm", force="300 N", pull="80 N", count=4)
    (line,) = found.options
    assert (line.place.unit, line.place.part) == ("join", "join")
    assert (line.join, line.by, line.along, line.joins) == ("", "screws", "along the join", 1)
    # 12 d from the ends of timber (Table 8.2), on the marks; 7 d to the rim of plywood
    assert line.positions == (50.0, 150.0, 250.0, 350.0)
    assert (line.spacing, line.edge) == (100.0, pytest.approx(28.0))
    # fasteners table: root 2.5 mm, 70 % of it in softwood; a head 2.6 mm deep, 1 mm below the face
    assert (line.pilot, line.clearance, line.countersink) == (1.8, 4.5, 8.0)
    assert line.countersink_depth == pytest.approx(3.6)
    assert (line.proposed, line.note, line.cheaper) == (True, "", "")
    assert line.demountable == "once or twice: threads wear"
    assert [(check.question, check.value) for check in found.checks[:3]] == [
        ("screws: sideways", pytest.approx(450.0)),
        ("screws: thread pulled out", pytest.approx(80.0)),  # by the handbook: as it is
        ("screws: head pulled through", pytest.approx(120.0)),
    ]
    head = found.checks[2].limit
    assert head == pytest.approx(4**0.9 * 70e-6 * 630**2 * 8**2 * 0.7 / 1.3, rel=1e-9)  # (8.26)
    both = found.checks[3]
    shares = [check.ratio for check in found.checks[:3]]
    assert both.value == pytest.approx((shares[0] ** 2 + max(shares[1:]) ** 2) ** 0.5)
    assert (both.limit, both.measure) == (1.0, "ratio")
    assert {(check.place.unit, check.place.part) for check in found.checks} == {("join", "join")}
    advice = spelled(found.advice[0], "metric")
    assert advice == "4 x Chipboard-type screw 4 x 50 mm, at 50 mm, 150 mm from each end."
    title = spelled(found.title, "metric")
    assert title == (
        "17.6 mm Birch plywood onto 45 mm Softwood, strength class C24, over 400 mm; "
        "300 N sideways and 80 N apart"
    )


def test_marks_are_told_up_to_the_middle_one():
    found = join(screw="4 x 50 mm", force="300 N", count=5)
    assert spelled(found.advice[0], "metric").endswith("at 50 mm, 125 mm, 200 mm from each end.")
    assert spelled(join(screw="4 x 50 mm", force="300 N", count=3).advice[0], "metric").endswith(
        "at 50 mm, 200 mm from each end."
    )


def test_bolts_instead_stand_in_the_same_place():
    pieces = ("birch-plywood 12 mm", "birch-plywood 12 mm")
    thin = join(*pieces, force="900 N")
    (line,) = thin.options
    assert (line.place.unit, line.place.part) == ("join", "join")
    assert (line.join, line.by, line.along) == ("", "bolts", "along the join")
    assert (line.pilot, line.countersink, line.clearance) == (None, None, 7.0)
    (check,) = thin.checks
    assert (check.place.unit, check.question) == ("join", "screws: holds")
    assert (check.value, check.limit, check.method) == (None, None, "none")
    assert check.reason in thin.advice[0]
    assert check.remedy == thin.advice[1]
    asked_for = join(*pieces, force="900 N", by="bolts")
    # the cheapest of the bolts that are laid out for choice is the one offered
    first = asked_for.options[0]
    assert (first.name, first.count, first.positions) == (line.name, line.count, line.positions)
    assert len(asked_for.options) > 1


def test_enough_to_the_limit_is_enough():
    # exactly what four hold, and a hair more
    holds = join(screw="4 x 50 mm", force="300 N", count=4).checks[0].limit / 1.5
    full, over = (
        join(screw="4 x 50 mm", force=f"{holds * share} N", count=4) for share in (0.9999, 1.0001)
    )
    assert full.advice[0].startswith("4 x ")
    assert len(full.options) == 1
    assert over.advice[0].startswith("Not enough: screws: sideways is ")
    assert len(over.options) == 2
    told = spelled(over.advice[0], "metric")
    assert told == "Not enough: screws: sideways is 1.59 kN, allowed is 1.59 kN."


def test_what_is_assumed_is_said():
    everything = [spelled(text, "metric") for text in join(force="300 N").assumptions]
    assert everything == [
        "18 mm nominal is 17.6 mm actual",
        "forces as they are, long-term, factored by EN 1990 eq. (6.10)",
        "countersunk heads lie 1 mm below the face (common practice, no source)",
        "pilot and clearance holes are drilled as listed",
        "the direction of the force is not known: distances and strength are the worst of all",
    ]
    knock = [spelled(text, "metric") for text in join().assumptions]
    assert "no force given: 250 N sideways for handling and knocks" in knock[1]


def test_worth_of_a_doubled_shelf_is_told_in_shares():
    found = join("birch-plywood 18 mm", "birch-plywood 24 mm", span="800 mm", depth="300 mm")
    double = found.double
    most = double.EI[0] / double.EI_lying - 1.0
    glued = double.EI_glued / double.EI_lying - 1.0
    words = spelled(found.advice[-1], "metric")
    assert (
        f"screws every 50 mm stiffen it by {most:.0%} over loose panels, glue by {glued:.0%}"
        in (words)
    )
    assert 0.0 < most < glued
    assert list(double.spacing) == [50.0, 75.0, 100.0, 150.0, 200.0, 300.0, 400.0]
    alone = join("birch-plywood 18 mm", "birch-plywood 24 mm")
    assert alone.double is None
    assert not any("doubled shelf" in text for text in alone.advice)


def test_bolts_make_no_stiffer_double():
    # they have play: the two count as loose
    pieces = ("birch-plywood 18 mm", "birch-plywood 24 mm")
    found = join(*pieces, by="bolts", span="800 mm", depth="300 mm")
    assert found.options
    assert found.double is None
    assert "count the two as loose" in found.advice[-1]


def test_chosen_lines_stand_in_the_place_of_the_join():
    found = join(force="300 N")
    places = {(line.place.unit, line.place.part) for line in found.options}
    assert places == {("join", "join")}
    assert {(line.join, line.along, line.joins) for line in found.options} == {
        ("", "along the join", 1)
    }


def test_screw_that_is_meant_and_taken_apart_often_is_answered_with_a_bolt():
    advice = join(screw="4 x 50 mm", force="300 N", redriven=True).advice
    assert advice[-1].startswith("To take it apart often: 2 x Connector bolt M6")
