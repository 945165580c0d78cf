"""The beats of one bar as frames to write in: where each begins, what it divides into, what the bar holds of it.

In: a `Bar`. Out: its `Beat`s. A bar that is cut off loses the end of its meter, a pickup the beginning.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from engraver.rhythm import ZERO, Bar, Meter, Span


@dataclass(frozen=True, slots=True)
class Beat:
    """``span`` is what the bar holds of the beat that begins at ``origin`` and would last ``length``.

    ``unit`` is the longest value that divides by two all the way down: the beat itself, or the eighth in 6/8.
    ``number`` counts from 0 in the meter, so that a pickup of one quarter in 4/4 is beat 3.
    """

    number: int
    span: Span
    origin: Fraction
    length: Fraction
    unit: Fraction

    @property
    def is_whole(self) -> bool:
        return self.span.length == self.length

    @property
    def is_simple(self) -> bool:
        return self.unit == self.length


@lru_cache(maxsize=1024)
def beats(bar: Bar, is_pickup: bool = False) -> tuple[Beat, ...]:
    """The beats that the bar holds, in order."""
    missing = bar.meter.length - bar.length if is_pickup else ZERO
    assert ZERO < bar.length <= bar.meter.length, f"a bar of {bar.length} in {bar.meter}"
    whole = enumerate(bar.meter.beat_spans(bar.start - missing))
    return tuple(
        Beat(number, part, span.start, span.length, _unit(bar.meter, number))
        for number, span in whole
        if (part := span.clip(bar.span)) is not None
    )


def _unit(meter: Meter, number: int) -> Fraction:
    count = meter.beats[number]
    return Fraction(count if is_power_of_two(count) else 1, meter.unit)


def is_power_of_two(number: int) -> bool:
    return number > 0 and number & (number - 1) == 0
