"""A simple grade for the page. A difficulty in, 1 to 5 out."""

from __future__ import annotations

from bisect import bisect_left
from fractions import Fraction

GRADES = (1, 2, 3, 4, 5)
# The highest total of grades 1 to 4. Ours, set so that the exercises of our own demo book spread over the grades: no
# more than names for parts of an order.
BOUNDS = tuple(map(Fraction, (12, 20, 30, 42)))


def grade(total: Fraction) -> int:
    """A bound belongs to the easier of its grades."""
    return GRADES[bisect_left(BOUNDS, total)]
