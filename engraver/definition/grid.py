"""The bars of a groove definition on the time line, and the spans that a layer or a range of bars means."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby, pairwise

from engraver.definition.bars import Numbers
from engraver.definition.meters import meters_of
from engraver.definition.schema import GrooveDefinition, LayerDefinition
from engraver.rhythm import ZERO, Bar, Span


@dataclass(frozen=True, slots=True)
class Grid:
    """``bars`` are numbered from 1 by the author; the pickup, if any, comes before them. ``phrase`` counts bars."""

    bars: tuple[Bar, ...]
    pickup: Fraction
    phrase: int
    step: Fraction

    @classmethod
    def of(cls, groove: GrooveDefinition) -> Grid:
        pickup = groove.pickup * groove.step
        bars: list[Bar] = []
        start = pickup
        for meter, _ in meters_of(groove.meter, groove.bars):
            assert meter is not None, "checked by check_meters"
            bars.append(Bar.of(start, meter))
            start = bars[-1].span.end
        return cls(tuple(bars), pickup, groove.phrase or groove.bars, groove.step)

    @property
    def all_bars(self) -> tuple[Bar, ...]:
        """With the pickup as a shorter bar before the first."""
        first = self.bars[0]
        return (Bar(ZERO, first.meter, self.pickup), *self.bars) if self.pickup else self.bars

    @property
    def first_index(self) -> int:
        """The index in `all_bars` of the bar that the author calls 1."""
        return 1 if self.pickup else 0

    @property
    def span(self) -> Span:
        return Span(ZERO, self.bars[-1].span.end)

    @property
    def phrase_length(self) -> Fraction:
        last = self.bars[min(self.phrase, len(self.bars)) - 1]
        return last.span.end - self.pickup

    @property
    def bar_lines(self) -> frozenset[Fraction]:
        return frozenset({self.pickup, *(bar.span.end for bar in self.bars)})

    def phrase_of(self, number: int) -> int:
        return (number - 1) // self.phrase

    def units(self, layer: LayerDefinition | None, bars: Numbers | None) -> tuple[Unit, ...]:
        """What a pattern is measured in: the bars of the range, or their beats where the layer names beats."""
        beats = layer.beats if layer else None
        wanted = self.numbers(layer)
        if bars is not None:
            wanted = [number for number in wanted if number in bars.numbers]
        return tuple(unit for number in wanted for unit in self._units_of(number, beats))

    def numbers(self, layer: LayerDefinition | None) -> Sequence[int]:
        """The bars that a layer lies in."""
        return layer.bars.numbers if layer and layer.bars else range(1, len(self.bars) + 1)

    def _units_of(self, number: int, beats: Numbers | None) -> Iterator[Unit]:
        bar = self.bars[number - 1]
        if beats is None:
            yield Unit(number, bar.span, bar.length)
            return
        spans = list(bar.meter.beat_spans(bar.start))
        for beat in beats.numbers:
            yield Unit(number, spans[beat - 1], spans[beat - 1].length)


@dataclass(frozen=True, slots=True)
class Unit:
    """A bar, or a beat of a bar: the least that a pattern can fill."""

    bar: int
    span: Span
    length: Fraction


def runs(units: tuple[Unit, ...]) -> Iterator[tuple[Unit, ...]]:
    """The units that follow one another without a gap, together."""
    breaks = [0]
    for before, after in pairwise(units):
        breaks.append(breaks[-1] + (before.span.end != after.span.start))
    for _, group in groupby(zip(breaks, units, strict=True), key=lambda pair: pair[0]):
        yield tuple(unit for _, unit in group)


def join(run: tuple[Unit, ...]) -> Span:
    return Span(run[0].span.start, run[-1].span.end)
