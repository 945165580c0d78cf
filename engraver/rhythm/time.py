"""Time on paper: exact fractions of a whole note, spans of it, and meters.

An onset is a point, a duration a length; both are `Fraction` and in whole notes (a quarter is 1/4). Never floats.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache
from itertools import accumulate, pairwise

ZERO = Fraction(0)


def tick_of(time: Fraction, whole: int) -> int:
    """A time in ticks, of which a whole note has so many; it is known to fall on one.

    Whole numbers are compared, sorted and hashed many times faster than fractions, and are as exact.
    """
    return time.numerator * (whole // time.denominator)


@dataclass(frozen=True, slots=True, order=True)
class Span:
    """A half-open stretch of time, ``start`` included, ``end`` not."""

    start: Fraction
    end: Fraction

    @property
    def length(self) -> Fraction:
        return self.end - self.start

    def __contains__(self, onset: Fraction) -> bool:
        # start <= onset < end by their whole numbers: asked of each stroke for each view, and three times as fast
        above, below = onset.as_integer_ratio()
        first, of = self.start.as_integer_ratio()
        last, to = self.end.as_integer_ratio()
        return first * below <= above * of and above * to < last * below

    def covers(self, other: Span) -> bool:
        return self.start <= other.start and other.end <= self.end

    def overlaps(self, other: Span) -> bool:
        return self.start < other.end and other.start < self.end

    def clip(self, other: Span) -> Span | None:
        """The part of this span that lies within the other, if any."""
        start, end = max(self.start, other.start), min(self.end, other.end)
        return Span(start, end) if start < end else None

    def shift(self, by: Fraction) -> Span:
        return Span(self.start + by, self.end + by)


@dataclass(frozen=True, slots=True)
class Meter:
    """A time signature with its beats. ``beats`` are counted in units of 1/``unit``.

    4/4 is ``Meter((1, 1, 1, 1), 4)``, 6/8 is ``Meter((3, 3), 8)``, (2+2+3)/8 is ``Meter((2, 2, 3), 8, additive=True)``.
    ``additive`` says that the sum is printed in the time signature.
    """

    beats: tuple[int, ...]
    unit: int
    additive: bool = False
    length: Fraction = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        assert self.beats and all(beat > 0 for beat in self.beats), self.beats
        assert self.unit > 0 and self.unit & (self.unit - 1) == 0, self.unit
        object.__setattr__(self, "length", Fraction(self.count, self.unit))

    @classmethod
    def of(cls, count: int, unit: int) -> Meter:
        """A plain signature with its usual beats.

        Quarters and longer are beats themselves. Eighths and shorter come in threes where they can; otherwise in
        twos with one three at the end, but 5 is 3+2 and 8 is 3+3+2.
        Source of 5/8 = 3+2, 8/8 = 3+3+2: LilyPond 2.24.3, scm/time-signature-settings.scm; 7/8 = 2+2+3: common
        practice, no source.
        """
        return cls(_usual_beats(count, unit), unit)

    @classmethod
    def parse(cls, text: str) -> Meter:
        """``4/4``, ``7/8`` or ``(2+2+3)/8`` (the parentheses may be left out). Raises ValueError."""
        match = re.fullmatch(r"\s*\(?\s*(\d{1,3}(?:\s*\+\s*\d{1,3})*)\s*\)?\s*/\s*(\d{1,2})\s*", text)
        if not match or text.count("(") != text.count(")"):
            raise ValueError(f"{text!r} is not a meter")
        parts = tuple(int(part) for part in match[1].split("+"))
        unit = int(match[2])
        if unit not in (1, 2, 4, 8, 16, 32) or min(parts) < 1 or sum(parts) > 64:
            raise ValueError(f"{text!r} is not a meter that can be written")
        return cls.of(parts[0], unit) if len(parts) == 1 else cls(parts, unit, additive=True)

    @property
    def count(self) -> int:
        """The upper number of the signature."""
        return sum(self.beats)

    @property
    def beat(self) -> Fraction | None:
        """The length of a beat, or None where the beats are uneven."""
        return Fraction(self.beats[0], self.unit) if len(set(self.beats)) == 1 else None

    @property
    def is_compound(self) -> bool:
        """Every beat is of three units: 6/8, 9/8, 12/16 ..."""
        return set(self.beats) == {3}

    def beat_spans(self, start: Fraction = ZERO) -> Iterator[Span]:
        """The beats of a bar that begins at ``start``."""
        edges = (start + edge for edge in _edges(self.beats, self.unit))
        return (Span(a, b) for a, b in pairwise(edges))

    def __str__(self) -> str:
        upper = f"({'+'.join(map(str, self.beats))})" if self.additive else str(self.count)
        return f"{upper}/{self.unit}"


@cache
def _edges(beats: tuple[int, ...], unit: int) -> tuple[Fraction, ...]:
    """Where the beats of a bar at zero begin, and where it ends."""
    return tuple(Fraction(count, unit) for count in accumulate(beats, initial=0))


def _usual_beats(count: int, unit: int) -> tuple[int, ...]:
    if unit <= 4:
        return (1,) * count
    if count % 3 == 0:
        return (3,) * (count // 3)
    if count in (5, 8):
        return {5: (3, 2), 8: (3, 3, 2)}[count]
    twos, rest = divmod(count, 2)
    if rest and twos:
        return (2,) * (twos - 1) + (3,)
    return (2,) * twos + (1,) * rest


VALUE_NAMES: tuple[tuple[str, Fraction], ...] = (
    ("whole", Fraction(1)),
    ("half", Fraction(1, 2)),
    ("quarter", Fraction(1, 4)),
    ("eighth", Fraction(1, 8)),
    ("sixteenth", Fraction(1, 16)),
    ("thirty-second", Fraction(1, 32)),
)


def parse_value(text: str) -> Fraction:
    """A note value in words: ``sixteenth``, ``dotted quarter``, ``eighth triplet``, ``sixteenth quintuplet``.

    A tuplet value is the length of one of its notes: three triplet eighths last two eighths, five quintuplet
    sixteenths last four sixteenths, six sextuplet sixteenths four, seven septuplet sixteenths four. Raises ValueError.
    """
    words = text.strip().lower().removesuffix(" note").split()
    names = dict(VALUE_NAMES)
    factor = Fraction(1)
    if words and words[0] == "dotted":
        factor, words = Fraction(3, 2), words[1:]
    if len(words) == 2 and words[1].rstrip("s") in TUPLETS:
        factor, words = factor * TUPLETS[words[1].rstrip("s")], words[:1]
    if len(words) != 1 or words[0].removesuffix("s") not in names:
        raise ValueError(f"{text!r} is not a note value")
    return factor * names[words[0].removesuffix("s")]


def value_name(duration: Fraction) -> str:
    """The words for a note value, the inverse of `parse_value`; ``3/64 of a whole note`` where there are none."""
    for name, value in VALUE_NAMES:
        if duration == value:
            return name
        if duration == value * Fraction(3, 2):
            return f"dotted {name}"
    for name, value in VALUE_NAMES:
        for tuplet, factor in TUPLETS.items():
            if duration == value * factor:
                return f"{name} {tuplet}"
    return f"{duration} of a whole note"


TUPLETS: dict[str, Fraction] = {
    "triplet": Fraction(2, 3),
    "quintuplet": Fraction(4, 5),
    "septuplet": Fraction(4, 7),
}


@dataclass(frozen=True, slots=True)
class Tempo:
    """``bpm`` beats a minute, each of length ``beat`` (a fraction of a whole note)."""

    beat: Fraction
    bpm: int
