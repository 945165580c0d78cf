"""A groove definition in, the `Groove` out; and for any strokes of it, the author's line that wrote them."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass

from engraver.definition.grid import Grid, join, runs
from engraver.definition.laid import Laid, LaidMark
from engraver.definition.lanes import Lane
from engraver.definition.laying import lay_lane
from engraver.definition.meters import counted_beat
from engraver.definition.pattern import SIDES, STROKES
from engraver.definition.schema import GrooveDefinition, LayerDefinition, RepeatDefinition
from engraver.errors import Position
from engraver.rhythm import (
    Cycle,
    Groove,
    Instrument,
    Layer,
    Repeat,
    Section,
    Silence,
    Span,
    Sticking,
    Stroke,
    Tempo,
    Tuplet,
)


@dataclass(frozen=True, slots=True)
class LaidLayer:
    """A layer with each of its lanes on the time line."""

    layer: LayerDefinition
    lanes: tuple[tuple[Instrument, Lane, Laid], ...]


def lay_layers(definition: GrooveDefinition, grid: Grid) -> tuple[LaidLayer, ...]:
    return tuple(
        LaidLayer(layer, tuple((name, lane, lay_lane(lane, grid, layer)) for name, lane in layer.strokes))
        for layer in definition.layers
    )


def to_groove(definition: GrooveDefinition) -> Groove:
    """The groove of a definition that was read without a fault."""
    grid = Grid.of(definition)
    return assemble(definition, grid, lay_layers(definition, grid))


def assemble(definition: GrooveDefinition, grid: Grid, layers: tuple[LaidLayer, ...]) -> Groove:
    everyone = frozenset(name for layer in definition.layers for name, _ in layer.strokes)
    tuplets = {Tuplet(laid.span, laid.count) for each in layers for _, _, lane in each.lanes for laid in lane.tuplets}
    return Groove(
        title=definition.title,
        bars=grid.all_bars,
        layers=tuple(_layer(laid, grid, everyone) for laid in layers),
        step=definition.step,
        tempo=Tempo(definition.tempo.beat or counted_beat(grid.bars[0].meter), definition.tempo.bpm),
        phrase=grid.phrase_length,
        pickup=grid.pickup,
        swing=definition.swing,
        sticking=tuple(sticking(definition, grid)),
        tuplets=tuple(sorted(tuplets, key=lambda tuplet: (tuplet.span, tuplet.count))),
        sections=tuple(_sections(definition, grid)),
        repeats=tuple(_repeat(repeat, grid) for repeat in definition.repeats),
    )


def _layer(laid: LaidLayer, grid: Grid, everyone: frozenset[Instrument]) -> Layer:
    layer = laid.layer
    strokes = [stroke_of(mark, name) for name, _, lane in laid.lanes for mark in lane.marks]
    return Layer(
        name=layer.name,
        strokes=tuple(sorted(strokes, key=lambda stroke: stroke.order)),
        role=layer.role,
        silences=silences(layer, grid, everyone),
        cycles=tuple(Cycle(name, c.length, c.start, c.restart) for name, _, lane in laid.lanes for c in lane.cycles),
        replaces=layer.replace,
    )


def stroke_of(mark: LaidMark, instrument: Instrument) -> Stroke:
    touch, ornament = STROKES[mark.letter]
    return Stroke(mark.onset, instrument, touch, ornament, mark.step)


def layer_spans(layer: LayerDefinition, grid: Grid) -> tuple[Span, ...]:
    """Where a layer lies; without bars and beats everywhere, the pickup too."""
    if layer.bars is None and layer.beats is None:
        return (grid.span,)
    return tuple(join(run) for run in runs(grid.units(layer, None)))


def silences(layer: LayerDefinition, grid: Grid, everyone: frozenset[Instrument]) -> tuple[Silence, ...]:
    names = everyone if layer.silence is None else frozenset(layer.silence)
    return tuple(Silence(span, names) for span in layer_spans(layer, grid)) if names else ()


def sticking(definition: GrooveDefinition, grid: Grid) -> Iterator[Sticking]:
    for limbs, lane in definition.sticking.rows if definition.sticking else ():
        marks = sorted(lay_lane(lane, grid, None).marks, key=lambda mark: mark.onset)
        yield from (Sticking(mark.onset, limbs, SIDES[mark.letter]) for mark in marks)


def _sections(definition: GrooveDefinition, grid: Grid) -> Iterator[Section]:
    shift = grid.first_index - 1
    for section in definition.sections:
        yield Section(section.name, section.bars.first + shift, section.bars.last + shift)


def _repeat(repeat: RepeatDefinition, grid: Grid) -> Repeat:
    shift = grid.first_index - 1
    endings = tuple(ending.first + shift for ending in repeat.endings)
    return Repeat(repeat.bars.first + shift, repeat.bars.last + shift, repeat.times, endings)


def origin(definition: GrooveDefinition, span: Span, instruments: Collection[Instrument]) -> Position:
    """The mark that wrote the first stroke of these instruments within the span.

    Of several at one onset the one of the latest layer. Where nothing was written there: the first lane of the
    instruments, then the first layer that lies there, then the title.
    """
    grid = Grid.of(definition)
    found = [
        (mark.onset, -number, mark.index, mark.position)
        for number, laid in enumerate(lay_layers(definition, grid))
        for name, _, lane in laid.lanes
        if name in instruments
        for mark in lane.marks
        if mark.onset in span
    ]
    return min(found)[-1] if found else _nearby(definition, grid, span, instruments)


def _nearby(definition: GrooveDefinition, grid: Grid, span: Span, instruments: Collection[Instrument]) -> Position:
    for layer in definition.layers:
        for name, lane in layer.strokes:
            if name in instruments:
                return lane.position
    for layer in definition.layers:
        if layer.bars is not None and any(span.overlaps(own) for own in layer_spans(layer, grid)):
            return layer.position
    return definition.at("title")
