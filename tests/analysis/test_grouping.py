"""A bar as a sum of twos and threes. The number of sums is checked against sympy, the bits by hand."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from math import factorial, log2, prod

import pytest
from sympy.utilities.iterables import partitions

from engraver.analysis import analyse
from engraver.analysis.grouping import compositions, groupings
from tests.analysis.patterns import groove, layer


@pytest.mark.parametrize("steps", range(2, 20))
def test_number_of_sums(steps):
    orders = 0
    for parts in partitions(steps):
        if set(parts) <= {2, 3}:
            orders += factorial(sum(parts.values())) // prod(factorial(times) for times in parts.values())
    assert len(list(compositions(steps))) == orders


def test_three_three_two():
    # Strokes at 0, 3 and 6 of 8: common practice calls it 3+3+2, no source.
    assert [each.parts for each in groupings([1, 0, 0, 1, 0, 0, 1, 0])] == [(3, 3, 2)]


def test_bits_of_a_bar_of_seven():
    # Three sums of 7; strokes on 0 2 4, none elsewhere: log2 3 - 3 log2 0.85 - 4 log2 0.75.
    (best,) = groupings([1, 0, 1, 0, 1, 0, 0])
    assert best.parts == (2, 2, 3)
    assert best.bits == pytest.approx(log2(3) - 3 * log2(0.85) - 4 * log2(0.75), abs=0.05)


def test_two_groupings_are_both_shown_where_neither_is_better():
    # A stroke on both places where the groups could part: 2+2+3 and 2+3+2 explain 0 2 4 5 of 7 alike.
    found = groupings([1, 0, 1, 0, 1, 1, 0])
    assert {each.parts for each in found} == {(2, 2, 3), (2, 3, 2)}
    assert Counter(each.bits for each in found).most_common(1)[0][1] == 2


def test_a_bar_of_seven_eight():
    eighth = Fraction(1, 8)
    lines = {"bass drum": "x---x--" * 2, "snare": "--x---x" * 2}
    found = analyse(groove([layer("F", lines, step=eighth)], bars=2, meter="7/8", step=eighth))
    assert found.groupings[0].parts == (2, 2, 3)
