"""A groove on whole steps. In goes a Groove, out comes its common grid: layers, bars and phrase counted in steps.

All time here is whole numbers: *ticks* for strokes (fine enough for every onset), *steps* for all else.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import gcd, lcm

from engraver.analysis.marks import GHOST, SILENCE, bracket, mark
from engraver.analysis.report import Lane
from engraver.rhythm import ZERO, Bar, Groove, Instrument, Layer, Role, tick_of

Rows = Mapping[Instrument, tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class Struck:
    tick: int
    instrument: Instrument
    mark: str


@dataclass(frozen=True, slots=True)
class Hush:
    """What a layer silences, in ticks."""

    start: int
    end: int
    instruments: frozenset[Instrument]

    def hides(self, stroke: Struck) -> bool:
        return self.start <= stroke.tick < self.end and stroke.instrument in self.instruments


@dataclass(frozen=True, slots=True)
class GridCycle:
    """A written cycle in steps."""

    instrument: Instrument
    length: int
    start: int
    restart: int | None


@dataclass(frozen=True, slots=True)
class GridLayer:
    name: str
    role: Role | None
    strokes: tuple[Struck, ...]
    silences: tuple[Hush, ...]
    cycles: tuple[GridCycle, ...]

    @property
    def lanes(self) -> tuple[Lane, ...]:
        return tuple(Lane(self.name, instrument) for instrument in dict.fromkeys(s.instrument for s in self.strokes))


@dataclass(frozen=True, slots=True)
class GridBar:
    """``beats`` are the steps of each beat."""

    start: int
    length: int
    beats: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Grid:
    """``start`` and ``phrase``: the step where the phrase begins (a pickup lies before it), and its steps."""

    step: Fraction
    steps: int
    ticks_per_step: int
    layers: tuple[GridLayer, ...]
    bars: tuple[GridBar, ...]
    start: int
    phrase: int

    @property
    def phrase_bars(self) -> tuple[GridBar, ...]:
        """The bars without a pickup."""
        return tuple(bar for bar in self.bars if bar.start >= self.start)

    @property
    def bar(self) -> int | None:
        """The length of a bar where all from the phrase's start are alike."""
        lengths = {bar.length for bar in self.phrase_bars}
        return lengths.pop() if len(lengths) == 1 else None

    @property
    def beat(self) -> int | None:
        """The length of a beat where all are alike."""
        beats = {beat for bar in self.phrase_bars for beat in bar.beats}
        return beats.pop() if len(beats) == 1 else None

    @property
    def passes(self) -> int:
        """How often the phrase fits in the groove, at least once."""
        return max(1, (self.steps - self.start) // self.phrase) if self.phrase else 1

    def rows(self, lanes: Collection[Lane], ghosts_of: Collection[Lane] = ()) -> Rows:
        """What these lanes sound, a mark for each step; one row an instrument, in order of first appearance.

        Of ``ghosts_of`` only the ghost notes are taken. What a layer without any of the lanes silences stays.
        """
        return self.marks(_lay(self.layers, frozenset(lanes), frozenset(ghosts_of)))

    def marks(self, strokes: Iterable[Struck]) -> Rows:
        rows: dict[Instrument, list[str]] = {}
        between: dict[tuple[Instrument, int], list[tuple[Fraction, str]]] = {}
        for stroke in strokes:
            row = rows.setdefault(stroke.instrument, [SILENCE] * self.steps)
            step, rest = divmod(stroke.tick, self.ticks_per_step)
            if rest:
                place = (Fraction(rest, self.ticks_per_step), stroke.mark)
                between.setdefault((stroke.instrument, step), []).append(place)
            else:
                row[step] = stroke.mark
        for (instrument, step), places in between.items():
            first = rows[instrument][step]
            rows[instrument][step] = bracket([*([(ZERO, first)] if first != SILENCE else []), *places])
        return {instrument: tuple(row) for instrument, row in rows.items()}


def _lay(layers: Iterable[GridLayer], lanes: frozenset[Lane], ghosts_of: frozenset[Lane]) -> Iterator[Struck]:
    """Layers laid over one another; a layer that has none of the lanes silences nothing."""
    sounding: dict[tuple[int, Instrument], Struck] = {}
    for layer in layers:
        ours = {lane.instrument for lane in lanes if lane.layer == layer.name}
        soft = {lane.instrument for lane in ghosts_of if lane.layer == layer.name}
        kept = [
            stroke
            for stroke in layer.strokes
            if stroke.instrument in ours or (stroke.mark == GHOST and stroke.instrument in soft)
        ]
        if not kept:
            continue
        if layer.silences:
            sounding = {k: s for k, s in sounding.items() if not any(hush.hides(s) for hush in layer.silences)}
        sounding.update({(stroke.tick, stroke.instrument): stroke for stroke in kept})
    return iter(sounding.values())


def common_step(groove: Groove) -> Fraction:
    """The longest step on which the groove's step, its bars and beats, cycles and lanes all fall.

    Strokes inside brackets, of fills, and of lanes written mostly on the groove's own step do not refine it: a
    triplet in a fill would make a cell of five sixteenths one of fifteen forty-eighths.
    """
    lengths = {groove.step, groove.phrase, groove.pickup, *groove_lengths(groove.bars)}
    for layer in groove.layers:
        lengths |= {length for cycle in layer.cycles for length in (cycle.length, cycle.start, cycle.restart or ZERO)}
        lengths |= set(_refining(groove, layer))
    return _common(length for length in lengths if length) or groove.step


def groove_lengths(bars: Iterable[Bar]) -> Iterator[Fraction]:
    for bar in {(bar.meter, bar.length) for bar in bars}:
        meter, length = bar
        yield length
        yield from (Fraction(beat, meter.unit) for beat in meter.beats)


def _refining(groove: Groove, layer: Layer) -> Iterator[Fraction]:
    if layer.role is Role.FILL or (layer.silences and not layer.cycles):
        return
    lanes: dict[Instrument, list[Fraction]] = {}
    for stroke in layer.strokes:
        lanes.setdefault(stroke.instrument, []).append(stroke.step)
    other = {i for i, steps in lanes.items() if 2 * sum(step != groove.step for step in steps) > len(steps)}
    for stroke in layer.strokes:
        if stroke.instrument in other and not any(stroke.onset in tuplet.span for tuplet in groove.tuplets):
            yield from (stroke.step, stroke.onset)


def _common(lengths: Iterable[Fraction]) -> Fraction | None:
    """The greatest length of which all are whole multiples."""
    known = set(lengths)
    if not known:
        return None
    unit = lcm(*(length.denominator for length in known))
    return Fraction(gcd(*(tick_of(length, unit) for length in known)), unit)


def grid(groove: Groove) -> Grid:
    step = common_step(groove)
    denominators = {stroke.onset.denominator for layer in groove.layers for stroke in layer.strokes}
    hushes = [silence.span for layer in groove.layers for silence in layer.silences]
    denominators |= {end.denominator for span in hushes for end in (span.start, span.end)}
    unit = lcm(step.denominator, *denominators)
    start = _steps(groove.pickup, step)
    steps = _steps(groove.length, step)
    return Grid(
        step=step,
        steps=steps,
        ticks_per_step=int(step * unit),
        layers=tuple(_layer(layer, step, unit) for layer in groove.layers),
        bars=tuple(_bar(bar, step) for bar in groove.bars),
        start=start,
        phrase=max(0, min(_steps(groove.phrase, step), steps - start)),
    )


def _steps(length: Fraction, step: Fraction) -> int:
    return int(length / step)


def _bar(bar: Bar, step: Fraction) -> GridBar:
    beats = tuple(_steps(Fraction(beat, bar.meter.unit), step) for beat in bar.meter.beats)
    return GridBar(_steps(bar.start, step), _steps(bar.length, step), beats)


def _layer(layer: Layer, step: Fraction, unit: int) -> GridLayer:
    return GridLayer(
        name=layer.name,
        role=layer.role,
        strokes=tuple(Struck(tick_of(s.onset, unit), s.instrument, mark(s.touch, s.ornament)) for s in layer.strokes),
        silences=tuple(
            Hush(tick_of(s.span.start, unit), tick_of(s.span.end, unit), s.instruments) for s in layer.silences
        ),
        cycles=tuple(
            GridCycle(
                cycle.instrument,
                _steps(cycle.length, step),
                _steps(cycle.start, step),
                _steps(cycle.restart, step) if cycle.restart else None,
            )
            for cycle in layer.cycles
        ),
    )
