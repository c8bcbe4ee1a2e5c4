"""Names offered where a typed one is unknown."""

from __future__ import annotations

import pytest

from shelfload.errors import UnknownName, nearest_name

SHEETS = ("birch-plywood", "birch-plywood-12mm", "birch_ply", "mdf", "southern-pine", "white-pine")


@pytest.mark.parametrize(
    ("found", "near"),
    [
        ("bich-plywood", "birch-plywood"),
        ("birch-plywood-13mm", "birch-plywood-12mm"),
        ("MDFF", "mdf"),
        ("pine", "southern-pine or white-pine"),
        ("granite", ""),
        ("", ""),
    ],
)
def test_names_that_look_alike_or_hold_the_word(found, near):
    assert nearest_name(found, SHEETS) == near


def test_several_that_are_as_near_are_all_offered_but_no_more_than_three():
    known = [f"vinyl-{size}in" for size in (7, 10, 12, 16)]
    near = nearest_name("vinyl-11in", known)
    assert near.count("vinyl-") == 3
    assert " or " in near
    with pytest.raises(UnknownName, match=r"did you mean vinyl-\w+, vinyl-\w+ or vinyl-\w+"):
        raise UnknownName("contents entry", "vinyl-11in", known)


def test_two_spellings_of_one_name_are_offered_once():
    assert nearest_name("particlebord", ["particleboard", "particle board"]) == (
        "particleboard or particle board"
    )
    assert nearest_name("birch pli", ["birch-ply", "birch ply"]) == "birch-ply"
