"""Letter sequences; each answer is worked by hand or cites where it is printed."""

from __future__ import annotations

from fractions import Fraction

import pytest

from engraver.analysis.pulse import border_array, period
from engraver.analysis.sequence import sequence


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
    ("text", "steps"), [("AABAAB", 3), ("x..x..x.x..x..x.", 8), ("ABCAB", 3), ("ABC", 3), ("A", 1)]
)
def test_period(text, steps):
    assert period(text) == steps
