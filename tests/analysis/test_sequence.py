"""Letter sequences; each answer is worked by hand or cites where it is printed."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path

import pytest

from engraver.analysis.pulse import border_array, period
from engraver.analysis.sequence import sequence
from engraver.analysis.sticking import RUDIMENTS


def test_one_more_a_makes_a_mirror_between_the_fourth_and_fifth_cell():
    found = sequence("ABCAACB")
    assert (found.palindrome, found.centre, found.mirror_continuation) == (False, Fraction(7, 2), ("A",))


@pytest.mark.parametrize(
    ("letters", "centre", "continuation"),
    [
        ("ABA", Fraction(1), ""),  # turns round on the B, index 1
        ("ABBA", Fraction(3, 2), ""),  # between the two Bs, indexes 1 and 2
        ("ABAABABA", Fraction(5), "ABA"),  # A B A B A at the end turns on index 5; A B A before it comes after it
        ("ABAAAA", None, ""),  # the end mirrors as one letter: not worth telling
        ("AAAA", None, ""),
        ("AB", None, ""),
    ],
)
def test_mirrors(letters, centre, continuation):
    found = sequence(letters)
    assert (found.centre, "".join(found.mirror_continuation)) == (centre, continuation)


@pytest.mark.parametrize(
    ("text", "borders"),
    [
        ("ababaca", "0012301"),  # Cormen et al., Introduction to Algorithms, 3rd ed., section 32.4
        ("ababababca", "0012345601"),  # Cormen et al., 2nd ed., section 32.4
    ],
)
def test_border_array(text, borders):
    assert border_array(text) == [int(each) for each in borders]


@pytest.mark.parametrize(
    ("text", "steps"),
    [
        ("AABAAB", 3),
        ("x..x..x.x..x..x.", 8),
        ("RLRRLRLLRLRRLRLL", 8),
        ("x..x..x...x.x...", 16),  # the son timeline holds no shorter one
        ("abaababaaba", 5),  # Fine and Wilf 1965 (from memory): periods 5 and 8 at length 5 + 8 - 2, and yet not 1
        ("ABCAB", 3),
        ("ABC", 3),
        ("A", 1),
    ],
)
def test_period(text, steps):
    assert period(text) == steps


def test_one_letter_away_from_the_single_paradiddle():
    # A B A A B A B A against R L R R L R L L: only the last letter differs.
    found = sequence("ABAABABA").sticking
    assert (found.name, found.distance, found.over, found.rotation) == ("Single Paradiddle", 1, 8, 0)


@pytest.mark.parametrize(
    ("letters", "name", "rotation"),
    [
        ("ABAABABB", "Single Paradiddle", 0),
        ("BABBABAA", "Single Paradiddle", 0),  # the other hand leads
        ("ABBABAAB", "Single Paradiddle", 1),  # L R R L R L L R: begun on its second stroke
        ("AABBAABB", "Double Stroke Open Roll", 0),
        ("ABABAABABABB", "Double Paradiddle", 0),
    ],
)
def test_sequences_that_are_a_rudiment(letters, name, rotation):
    found = sequence(letters).sticking
    assert (found.name, found.distance, found.rotation) == (name, 0, rotation)


@pytest.mark.parametrize("letters", ["AAAA", "ABCA", "AB"])
def test_no_sticking_without_two_letters_and_four_cells(letters):
    assert sequence(letters).sticking is None


def test_rudiments_are_those_of_the_chart():
    # tests/sources/rhythm/rudiments.json: the society's forty; ours holds both leads where its row holds one.
    chart = json.loads((Path(__file__).parents[1] / "sources/rhythm/rudiments.json").read_text())["rows"]
    stickings = {row["name"]: row["sticking"] for row in chart}
    for name, hands in RUDIMENTS:
        printed = stickings[name]
        assert (hands * len(printed))[: len(printed)] == printed


@pytest.mark.parametrize(("letters", "swapped"), [("ABAABABB", True), ("ABAB", False), ("AB", True), ("ABCA", False)])
def test_swapped_halves(letters, swapped):
    assert sequence(letters).swapped_halves is swapped


@pytest.mark.parametrize(("letters", "places"), [("ABAABA", 3), ("ABAB", 2), ("AABAB", 5), ("AAA", 1)])
def test_turns_of_the_ring(letters, places):
    assert sequence(letters).turn == places
