"""How predictable the limbs are: an Assignment in, bits out. Told in the facts; no part of the difficulty."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from itertools import pairwise
from math import log2

from engraver.analysis.limbs.assignment import Assignment


def next_limbs_entropy(assignment: Assignment, step: Fraction) -> float:
    """Bits: how uncertain the limbs that strike on one step leave those that strike on the next; silence is a choice.

    The conditional entropy over the steps of the groove, round and round. It is 0 where it is always known what comes,
    and it falls when a pattern is filled up to a steady row: so it says something else than how hard a groove is.
    Strokes between the steps count for the step in which they begin. The definition is Shannon's; its use is ours.
    """
    steps = int(assignment.length / step)
    rows: list[set[str]] = [set() for _ in range(steps)]
    for each in assignment.strokes:
        rows[int(each.onset // step) % steps] |= {limb.value for limb in each.limbs}
    sets = [frozenset(row) for row in rows]
    follows = Counter(pairwise([*sets, *sets[:1]]))
    present = Counter(sets)
    return sum(n / steps * log2(present[before] / n) for (before, _), n in follows.items())
