"""Counting: a bar goes in, what is said on each of its steps comes out."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from engraver.rhythm import Bar, Groove
from engraver.style import Syllables


def counts(groove: Groove, bar: Bar, syllables: Syllables) -> Iterator[tuple[Fraction, str]]:
    """Quarters and longer are counted as beats, eighths and sixteenths of other meters by their own number."""
    pulse = Fraction(1, bar.meter.unit)
    number = 0
    onset = bar.start
    while onset < bar.span.end:
        number += 1
        parts = pulse / groove.step
        yield onset, str(number)
        for index, syllable in enumerate(syllables.of(_whole(parts)), start=1):
            if onset + index * pulse / _whole(parts) < bar.span.end:
                yield onset + index * pulse / _whole(parts), syllable
        onset += pulse


def _whole(parts: Fraction) -> int:
    return int(parts) if parts.denominator == 1 else 1
