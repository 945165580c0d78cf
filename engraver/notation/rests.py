"""Rests inside a beat, and which empty beats share one.

In: a stretch of a beat in whole 64ths from its start, or the empty beats of a bar. Out: `Value`s, or groups of beats.
Sources: half rests for beats 1-2 and 3-4 of 4/4 only, quarters in 3/4, rests by half-beats under the beat: Open
University, Introduction to music theory, 3.6 and 4.2; dotted rests in compound time: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from engraver.notation.beats import Beat
from engraver.notation.durations import VALUES
from engraver.rhythm import Meter

QUARTER = 16
DOTTED_EIGHTH = 12


def rest_lengths(start: int, end: int, unit: int, whole: int) -> Iterator[int]:
    """The rests from ``start`` to ``end`` in a beat of length ``whole``: each begins on a multiple of its own length.

    Two exceptions: a whole beat takes one rest where there is a value for it, and the first three sixteenths of a
    quarter take a dotted eighth rest.
    """
    if start == 0 and ((end == whole and whole in VALUES) or (end == DOTTED_EIGHTH and unit == whole == QUARTER)):
        yield end
        return
    while start < end:
        length = next(length for length in PLAIN if length <= end - start and start % length == 0)
        yield length
        start += length


PLAIN = tuple(length for length, value in VALUES.items() if not value.dots)


def shared_rests(empty: Sequence[Beat], meter: Meter) -> Iterator[tuple[Beat, ...]]:
    """Empty beats in groups that one rest covers: beats 1-2 and 3-4 of 4/4; everywhere else each beat has its own."""
    index = 0
    while index < len(empty):
        pair = tuple(empty[index : index + 2])
        size = 2 if len(pair) == 2 and _is_half_bar(pair, meter) else 1
        yield pair[:size]
        index += size


def _is_half_bar(pair: tuple[Beat, ...], meter: Meter) -> bool:
    first, second = pair
    return (
        meter.beats == (1, 1, 1, 1)
        and meter.unit == 4
        and first.number in (0, 2)
        and second.number == first.number + 1
        and first.is_whole
        and second.is_whole
    )
