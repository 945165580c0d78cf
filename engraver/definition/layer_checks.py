"""Rules about layers, and about what is struck once they are laid over one another."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from engraver.definition.bars import Numbers, no_bar
from engraver.definition.build import LaidLayer, silences
from engraver.definition.laid import Laid
from engraver.definition.schema import LayerDefinition
from engraver.definition.subject import Subject, where
from engraver.errors import Position, Problem, counted
from engraver.rhythm import Instrument, Limbs


def layer_names_differ(subject: Subject) -> Iterator[Problem]:
    seen: dict[str, LayerDefinition] = {}
    for layer in subject.groove.layers:
        first = seen.setdefault(layer.name.casefold(), layer)
        if first is not layer:
            line = first.at("name").line
            yield Problem(layer.at("name"), f'"{layer.name}" is already a layer in line {line}', "give it another name")


def layers_lie_within_the_groove(subject: Subject) -> Iterator[Problem]:
    for layer in subject.groove.layers:
        bars = layer.bars.numbers if layer.bars else tuple(range(1, subject.groove.bars + 1))
        if layer.bars and layer.bars.last > subject.groove.bars:
            yield no_bar(layer.at("bars"), layer.bars.last, subject.groove.bars)
        elif layer.beats:
            yield from check_beats(layer.beats, bars, layer.at("beats"), subject)


def check_beats(beats: Numbers, bars: Iterable[int], place: Position, subject: Subject) -> Iterator[Problem]:
    for bar in bars:
        meter = subject.grid.bars[bar - 1].meter
        if beats.last > len(meter.beats):
            hint = f"a bar of {meter} has {counted(len(meter.beats), 'beat')}"
            yield Problem(place, f"there is no beat {beats.last} in bar {bar}", hint)
            return


def layers_do_something(subject: Subject) -> Iterator[Problem]:
    for layer in subject.groove.layers:
        if not layer.strokes and layer.silence == ():
            yield Problem(layer.position, f'the layer "{layer.name}" has no strokes', "add strokes: or silence:")


def patterns_fit(subject: Subject) -> Iterator[Problem]:
    for laid in subject.layers:
        for _, _, lane in laid.lanes:
            yield from lane.problems


def tuplets_stay_within_their_bar(subject: Subject) -> Iterator[Problem]:
    """A bracket cannot be drawn across a bar line."""
    for laid in subject.layers:
        for _, _, lane in laid.lanes:
            for tuplet in lane.tuplets:
                if any(tuplet.span.start < line < tuplet.span.end for line in subject.grid.bar_lines):
                    message = f"these {tuplet.count} marks cross the bar line"
                    yield Problem(tuplet.position, message, "a parenthesis stays within one bar")
                    break


def no_stroke_meets_another(subject: Subject) -> Iterator[Problem]:
    """As the strokes are laid over one another: what sounds already must be silenced or replaced first."""
    everyone = frozenset(name for layer in subject.groove.layers for name, _ in layer.strokes)
    sounding: dict[tuple[Fraction, Instrument], str] = {}
    for laid in subject.layers:
        taken = silences(laid.layer, subject.grid, everyone)
        for place in [p for p in sounding if any(p[0] in s.span and p[1] in s.instruments for s in taken)]:
            del sounding[place]
        for name, _, lane in laid.lanes:
            yield from _collisions(laid, name, lane, sounding, subject)
        sounding |= {(m.onset, name): laid.layer.name for name, _, lane in laid.lanes for m in lane.marks}


def _collisions(
    laid: LaidLayer, name: Instrument, lane: Laid, sounding: dict[tuple[Fraction, Instrument], str], subject: Subject
) -> Iterator[Problem]:
    """The first of each lane: one cure mends them all."""
    met = [mark for mark in lane.marks if (mark.onset, name) in sounding]
    if met and not laid.layer.replace:
        mark = min(met, key=lambda mark: mark.onset)
        earlier = sounding[mark.onset, name]
        message = f'{name} of "{laid.layer.name}" meets that of "{earlier}" {where(mark.onset, subject.grid)}'
        hint = f"add silence: [{name}] or replace: true to the later layer, or take one stroke out"
        yield Problem(mark.position, message, hint)


def something_is_struck(subject: Subject) -> Iterator[Problem]:
    if not any(lane.marks for laid in subject.layers for _, _, lane in laid.lanes):
        yield Problem(subject.groove.at("layers"), "this groove has no stroke", "write x where something is struck")


def rows_of_sticking_fit(subject: Subject) -> Iterator[Problem]:
    for _, row in subject.sticking:
        yield from row.problems


def sticking_stands_at_strokes(subject: Subject) -> Iterator[Problem]:
    struck = {(stroke.onset, stroke.instrument) for stroke in subject.as_groove.strokes}
    kit = subject.style.kit
    for limbs, row in subject.sticking:
        onsets = {onset for onset, instrument in struck if kit[instrument].limbs is limbs}
        for mark in sorted(row.marks, key=lambda mark: mark.onset):
            if mark.onset not in onsets:
                limb = {Limbs.HANDS: "hand", Limbs.FEET: "foot"}[limbs]
                message = f'"{mark.letter}" stands where no {limb} strikes, {where(mark.onset, subject.grid)}'
                yield Problem(mark.position, message, "write - there")
                break
