"""Bars, the named runs and the repeats among them, and the order in which bars are played."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import pairwise

from engraver.rhythm.time import Meter, Span


@dataclass(frozen=True, slots=True)
class Bar:
    """``length`` is what the bar holds; less than the meter's for a pickup or a bar that is cut off."""

    start: Fraction
    meter: Meter
    length: Fraction
    span: Span = field(init=False, repr=False, compare=False)  # told once: it is asked for each stroke and beat

    def __post_init__(self) -> None:
        object.__setattr__(self, "span", Span(self.start, self.start + self.length))

    @classmethod
    def of(cls, start: Fraction, meter: Meter) -> Bar:
        return cls(start, meter, meter.length)

    @property
    def is_whole(self) -> bool:
        return self.length is self.meter.length or self.length == self.meter.length


@dataclass(frozen=True, slots=True)
class Section:
    """A named run of bars; ``first`` and ``last`` are indexes into the groove's bars, both included."""

    name: str
    first: int
    last: int


@dataclass(frozen=True, slots=True)
class Repeat:
    """Bars ``first`` to ``last`` (indexes, both included) are played ``times``.

    ``endings`` are the first indexes of the alternative endings within that run, in order; the body comes before them.
    """

    first: int
    last: int
    times: int
    endings: tuple[int, ...] = ()

    def passes(self) -> Iterator[tuple[int, int]]:
        """Every pass as runs of bars. With fewer endings than passes, the first ending serves the early passes."""
        if not self.endings:
            yield from [(self.first, self.last)] * self.times
            return
        endings = [(first, after - 1) for first, after in pairwise([*self.endings, self.last + 1])]
        early = self.times - len(endings)
        for turn in range(self.times):
            if self.first < self.endings[0]:
                yield self.first, self.endings[0] - 1
            yield endings[max(0, turn - early)]


def played_runs(count: int, repeats: tuple[Repeat, ...]) -> Iterator[tuple[int, int]]:
    """Runs of the ``count`` bars by index, both ends included, in the order in which they are played."""
    next_bar = 0
    for repeat in sorted(repeats, key=lambda repeat: repeat.first):
        if next_bar < repeat.first:
            yield next_bar, repeat.first - 1
        yield from repeat.passes()
        next_bar = repeat.last + 1
    if next_bar < count:
        yield next_bar, count - 1
