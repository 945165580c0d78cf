"""How the steps of one bar fall into twos and threes. Stroke weights in, groupings with their price in bits out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import log2

from engraver.analysis.report import Grouping

# A stroke is expected on the first step of a group far more often than inside one.
ON_START, INSIDE = 0.85, 0.25
TOO_CLOSE = 3.0
LONGEST_BAR = 24


def groupings(weights: Sequence[int]) -> tuple[Grouping, ...]:
    """The best grouping and any within three bits of it, best first; none where nothing sounds or the bar is long.

    ``weights``: 2 an accent, 1 a stroke, 0 none.
    """
    if not any(weights) or not 2 <= len(weights) <= LONGEST_BAR:
        return ()
    every = list(compositions(len(weights)))
    priced = sorted((Grouping(parts, _bits(weights, parts, len(every))) for parts in every), key=lambda each: each.bits)
    return tuple(each for each in priced if each.bits - priced[0].bits < TOO_CLOSE)


def compositions(steps: int) -> Iterator[tuple[int, ...]]:
    """Every way to write ``steps`` as a sum of twos and threes, order counting."""
    if steps == 0:
        yield ()
    for part in (2, 3):
        if part <= steps:
            yield from ((part, *rest) for rest in compositions(steps - part))


def _bits(weights: Sequence[int], parts: Sequence[int], choices: int) -> float:
    starts = {sum(parts[:index]) for index in range(len(parts))}
    total = log2(choices)
    for step, weight in enumerate(weights):
        expected = ON_START if step in starts else INSIDE
        total -= weight * log2(expected) if weight else log2(1 - expected)
    return round(total, 1)
