"""A groove: bars, and strokes in layers that are laid over one another in teaching order.

Every view (some layers, some bars, other bar lines, the phrase twice) is a new `Groove`; none edits the first.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import dataclass, field, replace
from enum import Enum
from fractions import Fraction

from engraver.rhythm.stroke import Instrument, Sticking, Stroke
from engraver.rhythm.time import ZERO, Meter, Span, Tempo


class Role(Enum):
    """What a layer is for; the author may say it, else the analysis finds it."""

    FIGURE = "figure"  # carries the repeating idea
    TIME = "time"  # a steady hand or foot
    METER = "meter"  # says where the bar is, such as a backbeat
    FILL = "fill"


@dataclass(frozen=True, slots=True)
class Silence:
    """What a layer takes away before it is laid in: these instruments, all along the span."""

    span: Span
    instruments: frozenset[Instrument]

    def hides(self, stroke: Stroke) -> bool:
        return stroke.onset in self.span and stroke.instrument in self.instruments


@dataclass(frozen=True, slots=True)
class Cycle:
    """A pattern the author wrote as repeating without regard to bar lines.

    It begins at ``start`` and again every ``restart``; None means only at the phrase.
    """

    instrument: Instrument
    length: Fraction
    start: Fraction = ZERO
    restart: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Layer:
    """Strokes that are learnt together. ``replaces``: its strokes take the place of earlier ones they meet."""

    name: str
    strokes: tuple[Stroke, ...]
    role: Role | None = None
    silences: tuple[Silence, ...] = ()
    cycles: tuple[Cycle, ...] = ()
    replaces: bool = False


@dataclass(frozen=True, slots=True)
class Bar:
    """``length`` is what the bar holds; less than the meter's for a pickup or a bar that is cut off."""

    start: Fraction
    meter: Meter
    length: Fraction

    @classmethod
    def of(cls, start: Fraction, meter: Meter) -> Bar:
        return cls(start, meter, meter.length)

    @property
    def span(self) -> Span:
        return Span(self.start, self.start + self.length)

    @property
    def is_whole(self) -> bool:
        return self.length == self.meter.length


@dataclass(frozen=True, slots=True)
class Tuplet:
    """``count`` notes spread evenly over the span, as the author bracketed them."""

    span: Span
    count: int


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
    # what `strokes` found, so that it is found once: every view asks for it again and again
    _sounding: tuple[Stroke, ...] | None = field(default=None, init=False, repr=False, compare=False)

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
            taken = {stroke.order for stroke in layer.strokes} if layer.replaces else frozenset()
            sounding = [
                stroke
                for stroke in sounding
                if stroke.order not in taken and not any(s.hides(stroke) for s in layer.silences)
            ]
            sounding.extend(layer.strokes)
        return tuple(sorted(sounding, key=lambda stroke: stroke.order))

    @property
    def instruments(self) -> tuple[Instrument, ...]:
        """Every instrument that sounds, in order of name."""
        return tuple(sorted({stroke.instrument for stroke in self.strokes}))

    @property
    def played_bars(self) -> tuple[int, ...]:
        """Indexes of the bars in the order in which they are played: repeats and endings written out."""
        return tuple(index for first, last in _runs(self) for index in range(first, last + 1))

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
            layers=tuple(_slice_layer(layer, span) for layer in self.layers),
            phrase=min(self.phrase, span.length),
            pickup=ZERO,
            sticking=tuple(
                replace(mark, onset=mark.onset - span.start) for mark in self.sticking if mark.onset in span
            ),
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
            layers=tuple(_scale_layer(layer, factor) for layer in self.layers),
            step=self.step * factor,
            phrase=self.phrase * factor,
            sticking=tuple(replace(mark, onset=mark.onset * factor) for mark in self.sticking),
            tuplets=(),
        )
        return wide.regroup(meters)

    def then(self, other: Groove) -> Groove:
        """This groove and another after it, as one. Layers of the same name are joined."""
        moved = other._shift(self.length)
        names = [layer.name for layer in self.layers]
        ours = {layer.name: layer for layer in self.layers}
        theirs = {layer.name: layer for layer in moved.layers}
        names += [name for name in theirs if name not in ours]
        return replace(
            self,
            bars=self.bars + moved.bars,
            layers=tuple(_join_layers(ours.get(name), theirs.get(name)) for name in names),
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
        parts = [self.slice(Span(self.bars[a].start, self.bars[b].span.end)) for a, b in _runs(self)]
        whole = parts[0]
        for part in parts[1:]:
            whole = whole.then(part)
        return whole

    def _shift(self, by: Fraction) -> Groove:
        return replace(
            self,
            bars=tuple(replace(bar, start=bar.start + by) for bar in self.bars),
            layers=tuple(_shift_layer(layer, by) for layer in self.layers),
            sticking=tuple(replace(mark, onset=mark.onset + by) for mark in self.sticking),
            tuplets=tuple(replace(tuplet, span=tuplet.span.shift(by)) for tuplet in self.tuplets),
        )


def _slice_layer(layer: Layer, span: Span) -> Layer:
    moved = tuple(replace(stroke, onset=stroke.onset - span.start) for stroke in layer.strokes if stroke.onset in span)
    silences = tuple(
        replace(silence, span=part.shift(-span.start))
        for silence in layer.silences
        if (part := silence.span.clip(span)) is not None
    )
    return replace(layer, strokes=moved, silences=silences, cycles=())


def _scale_layer(layer: Layer, factor: Fraction) -> Layer:
    return replace(
        layer,
        strokes=tuple(replace(s, onset=s.onset * factor, step=s.step * factor) for s in layer.strokes),
        silences=tuple(
            replace(silence, span=Span(silence.span.start * factor, silence.span.end * factor))
            for silence in layer.silences
        ),
    )


def _shift_layer(layer: Layer, by: Fraction) -> Layer:
    return replace(
        layer,
        strokes=tuple(replace(stroke, onset=stroke.onset + by) for stroke in layer.strokes),
        silences=tuple(replace(silence, span=silence.span.shift(by)) for silence in layer.silences),
    )


def _join_layers(first: Layer | None, second: Layer | None) -> Layer:
    if first is None or second is None:
        layer = first or second
        assert layer is not None
        return layer
    return replace(first, strokes=first.strokes + second.strokes, silences=first.silences + second.silences)


def _runs(groove: Groove) -> Sequence[tuple[int, int]]:
    """Runs of bar indexes, both ends included, in the order in which they are played."""
    runs: list[tuple[int, int]] = []
    next_bar = 0
    for repeat in sorted(groove.repeats, key=lambda repeat: repeat.first):
        if next_bar < repeat.first:
            runs.append((next_bar, repeat.first - 1))
        runs.extend(_passes(repeat))
        next_bar = repeat.last + 1
    if next_bar < len(groove.bars):
        runs.append((next_bar, len(groove.bars) - 1))
    return runs


def _passes(repeat: Repeat) -> Iterable[tuple[int, int]]:
    """Every pass through a repeat. With fewer endings than passes, the first ending serves the early passes."""
    if not repeat.endings:
        return [(repeat.first, repeat.last)] * repeat.times
    bounds = [*repeat.endings, repeat.last + 1]
    early = repeat.times - len(repeat.endings)
    runs: list[tuple[int, int]] = []
    for turn in range(repeat.times):
        ending = max(0, turn - early)
        if repeat.first < repeat.endings[0]:
            runs.append((repeat.first, repeat.endings[0] - 1))
        runs.append((bounds[ending], bounds[ending + 1] - 1))
    return runs
