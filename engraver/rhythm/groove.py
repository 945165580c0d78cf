"""A groove: bars, and strokes in layers that are laid over one another in teaching order.

Every view (some layers, some bars, other bar lines, the phrase twice) is a new `Groove`; none edits the first.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from math import lcm

from engraver.rhythm.bars import Bar, Repeat, Section, played_runs
from engraver.rhythm.layer import Layer
from engraver.rhythm.stroke import Instrument, Kind, Sticking, Stroke
from engraver.rhythm.time import ZERO, Meter, Span, Tempo, tick_of

Held = tuple[tuple[int, Kind, Fraction], ...]


@dataclass(frozen=True, slots=True)
class Tuplet:
    """``count`` notes spread evenly over the span, as the author bracketed them."""

    span: Span
    count: int


@dataclass(frozen=True, slots=True)
class Groove:
    """Bars and layers of strokes. Times count from the start of the first bar, a pickup included.

    ``phrase`` is the length after which everything starts over; ``swing`` is the unit that is swung, if any.
    """

    title: str
    bars: tuple[Bar, ...]
    layers: tuple[Layer, ...]
    step: Fraction
    tempo: Tempo
    phrase: Fraction
    pickup: Fraction = ZERO
    swing: Fraction | None = None
    sticking: tuple[Sticking, ...] = ()
    tuplets: tuple[Tuplet, ...] = ()
    sections: tuple[Section, ...] = ()
    repeats: tuple[Repeat, ...] = ()
    # what `strokes` and `held` found, so that it is found once: every view asks for it again and again
    _sounding: tuple[Stroke, ...] | None = field(default=None, init=False, repr=False, compare=False)
    _held: tuple[Held, ...] | None = field(default=None, init=False, repr=False, compare=False)

    @property
    def span(self) -> Span:
        return Span(ZERO, self.length)

    @property
    def length(self) -> Fraction:
        return self.bars[-1].span.end if self.bars else ZERO

    @property
    def strokes(self) -> tuple[Stroke, ...]:
        """All that sounds, in order: each layer silences what it must of the earlier ones and is then laid in."""
        if self._sounding is None:
            object.__setattr__(self, "_sounding", self._laid())
        assert self._sounding is not None
        return self._sounding

    def _laid(self) -> tuple[Stroke, ...]:
        sounding: list[Stroke] = []
        for layer in self.layers:
            if layer.silences:
                sounding = [stroke for stroke in sounding if not any(s.hides(stroke) for s in layer.silences)]
            if layer.replaces:
                taken = {stroke.order for stroke in layer.strokes}
                sounding = [stroke for stroke in sounding if stroke.order not in taken]
            sounding.extend(layer.strokes)
        return _in_order(sounding)

    @property
    def instruments(self) -> tuple[Instrument, ...]:
        """Every instrument that sounds, in order of name."""
        by_name = {stroke.instrument.name: stroke.instrument for stroke in self.strokes}
        return tuple(by_name[name] for name in sorted(by_name))

    @property
    def played_bars(self) -> tuple[int, ...]:
        """Indexes of the bars in the order in which they are played: repeats and endings written out."""
        return tuple(index for first, last in self._runs() for index in range(first, last + 1))

    @property
    def held(self) -> tuple[Held, ...]:
        """What is struck in each bar, told from its start: tick, kind and step of each stroke.

        Ticks are whole numbers, as long in every bar of this groove, and not the same in another.
        """
        if self._held is None:
            object.__setattr__(self, "_held", tuple(_held(self.bars, self.strokes)))
        assert self._held is not None
        return self._held

    def bar_at(self, onset: Fraction) -> int:
        """The index of the bar that holds ``onset``."""
        return next(index for index, bar in enumerate(self.bars) if onset in bar.span)

    # ------------------------------------------------------------------ views

    def keep(self, names: Collection[str]) -> Groove:
        """These layers only, in their order; a layer that is left out silences nothing."""
        return replace(self, layers=tuple(layer for layer in self.layers if layer.name in names))

    def only(self, wanted: Callable[[Stroke], bool]) -> Groove:
        """The strokes that ``wanted`` accepts, layers and silences as they were; no sticking of strokes now gone."""
        layers = tuple(replace(layer, strokes=tuple(filter(wanted, layer.strokes))) for layer in self.layers)
        return replace(self, layers=layers)

    def slice(self, span: Span) -> Groove:
        """What lies in ``span``, moved to begin at zero; bars that the span cuts become shorter.

        Sections, repeats and the note of written cycles are dropped: they belong to the whole.
        """
        bars = tuple(
            Bar(part.start - span.start, bar.meter, part.length)
            for bar in self.bars
            if (part := bar.span.clip(span)) is not None
        )
        return replace(
            self,
            bars=bars,
            layers=tuple(layer.slice(span) for layer in self.layers),
            phrase=min(self.phrase, span.length),
            pickup=ZERO,
            sticking=tuple(mark.moved(-span.start) for mark in self.sticking if mark.onset in span),
            tuplets=tuple(
                replace(tuplet, span=tuplet.span.shift(-span.start))
                for tuplet in self.tuplets
                if span.covers(tuplet.span)
            ),
            sections=(),
            repeats=(),
        )

    def regroup(self, meters: Iterable[Meter]) -> Groove:
        """The same strokes under other bar lines; the meters must add up to the length of the groove."""
        bars: list[Bar] = []
        start = ZERO
        for meter in meters:
            bars.append(Bar.of(start, meter))
            start = bars[-1].span.end
        assert start == self.length, f"{start} is not the {self.length} of {self.title}"
        return replace(self, bars=tuple(bars), pickup=ZERO, sections=(), repeats=())

    def scale(self, factor: Fraction, meters: Iterable[Meter]) -> Groove:
        """Every time multiplied, under bar lines of its own: a triplet grid respelled as plain notes."""
        wide = replace(
            self,
            bars=(Bar(ZERO, self.bars[0].meter, self.length * factor),),
            layers=tuple(layer.scale(factor) for layer in self.layers),
            step=self.step * factor,
            phrase=self.phrase * factor,
            sticking=tuple(replace(mark, onset=mark.onset * factor) for mark in self.sticking),
            tuplets=(),
        )
        return wide.regroup(meters)

    def then(self, other: Groove) -> Groove:
        """This groove and another after it, as one. Layers of the same name are joined."""
        moved = other._shift(self.length)
        layers = {layer.name: layer for layer in self.layers}
        for layer in moved.layers:
            layers[layer.name] = layers[layer.name].join(layer) if layer.name in layers else layer
        return replace(
            self,
            bars=self.bars + moved.bars,
            layers=tuple(layers.values()),
            phrase=self.phrase,
            sticking=self.sticking + moved.sticking,
            tuplets=self.tuplets + moved.tuplets,
            sections=(),
            repeats=(),
        )

    def repeat(self, times: int) -> Groove:
        """This groove ``times`` over, written out."""
        assert times >= 1
        whole = self
        for _ in range(times - 1):
            whole = whole.then(self)
        return whole

    def performed(self) -> Groove:
        """As it is played: repeats and endings written out."""
        parts = [self.slice(Span(self.bars[a].start, self.bars[b].span.end)) for a, b in self._runs()]
        whole = parts[0]
        for part in parts[1:]:
            whole = whole.then(part)
        return whole

    def _shift(self, by: Fraction) -> Groove:
        return replace(
            self,
            bars=tuple(replace(bar, start=bar.start + by) for bar in self.bars),
            layers=tuple(layer.shift(by) for layer in self.layers),
            sticking=tuple(mark.moved(by) for mark in self.sticking),
            tuplets=tuple(replace(tuplet, span=tuplet.span.shift(by)) for tuplet in self.tuplets),
        )

    def _runs(self) -> Iterator[tuple[int, int]]:
        return played_runs(len(self.bars), self.repeats)


def _in_order(strokes: Collection[Stroke]) -> tuple[Stroke, ...]:
    """By `Stroke.order`, which is compared in whole ticks: every view sorts, and fractions are slow to compare."""
    ticks = lcm(*{stroke.onset.denominator for stroke in strokes})

    def place(stroke: Stroke) -> tuple[int, str]:
        return tick_of(stroke.onset, ticks), stroke.instrument.name

    return tuple(sorted(strokes, key=place))


def _held(bars: Iterable[Bar], strokes: Sequence[Stroke]) -> Iterator[Held]:
    whole = lcm(*{bar.span.end.denominator for bar in bars}, *{stroke.onset.denominator for stroke in strokes})
    places = [tick_of(stroke.onset, whole) for stroke in strokes]
    for bar in bars:
        start, end = tick_of(bar.start, whole), tick_of(bar.span.end, whole)
        inside = slice(bisect_left(places, start), bisect_left(places, end))
        yield tuple(
            (place - start, stroke.kind, stroke.step)
            for place, stroke in zip(places[inside], strokes[inside], strict=True)
        )
