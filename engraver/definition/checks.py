"""What must hold of a groove beyond the form of each value: one small function a rule, listed in `CHECKS`."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from engraver.definition.bars import Numbers, no_bar
from engraver.definition.build import LaidLayer, lay_layers, silences, to_groove
from engraver.definition.grid import Grid
from engraver.definition.laying import Laid, lay_lane
from engraver.definition.meters import check_meters
from engraver.definition.pattern import MOST_STEPS
from engraver.definition.schema import ExerciseDefinition, GrooveDefinition, LayerDefinition, RepeatDefinition
from engraver.errors import Position, Problem, nearest
from engraver.rhythm import Instrument, Limbs, value_name
from engraver.style import Style


@dataclass(frozen=True)  # without slots: what was laid is kept for the next rule
class Subject:
    """A groove under examination."""

    groove: GrooveDefinition
    style: Style

    @cached_property
    def grid(self) -> Grid:
        return Grid.of(self.groove)

    @cached_property
    def layers(self) -> tuple[LaidLayer, ...]:
        return lay_layers(self.groove, self.grid)

    @cached_property
    def sticking(self) -> tuple[tuple[Limbs, Laid], ...]:
        rows = self.groove.sticking.rows if self.groove.sticking else ()
        return tuple((limbs, lay_lane(lane, self.grid, None)) for limbs, lane in rows)


Rule = Callable[[Subject], Iterable[Problem]]


@dataclass(frozen=True, slots=True)
class Check:
    """``needs``: the keys that must be sound for the rule to make sense; ``breaks``: those that are not if it fails."""

    rule: Rule
    needs: frozenset[str]
    breaks: frozenset[str] = frozenset()


def check_groove(groove: GrooveDefinition, style: Style, unsound: Iterable[str] = ()) -> Iterator[Problem]:
    """Every fault the rules find; a rule about keys that have faults already is passed over."""
    subject, broken = Subject(groove, style), set(unsound)
    for check in CHECKS:
        if broken.isdisjoint(check.needs):
            problems = tuple(check.rule(subject))
            yield from problems
            broken |= check.breaks if problems else set()


def every_bar_has_one_meter(subject: Subject) -> Iterable[Problem]:
    return check_meters(subject.groove.meter, subject.groove.bars)


def the_grid_is_of_a_sensible_size(subject: Subject) -> Iterator[Problem]:
    steps = subject.grid.span.length / subject.groove.step
    if steps > MOST_STEPS:
        hint = f"at most {MOST_STEPS} fit in one groove: make it two, or use a longer step"
        yield Problem(subject.groove.at("bars"), f"the groove has {int(steps)} steps", hint)


def phrase_is_not_longer_than_the_groove(subject: Subject) -> Iterator[Problem]:
    groove = subject.groove
    if groove.phrase and groove.phrase > groove.bars:
        message = f"a phrase of {groove.phrase} bars is longer than the groove"
        yield Problem(groove.at("phrase"), message, f"the groove has {_count(groove.bars, 'bar')}")


def pickup_is_shorter_than_a_bar(subject: Subject) -> Iterator[Problem]:
    first = subject.grid.bars[0]
    if subject.grid.pickup >= first.length:
        message = f"a pickup of {_count(subject.groove.pickup, 'step')} is not shorter than bar 1"
        yield Problem(subject.groove.at("pickup"), message, f"bar 1 has {first.length / subject.groove.step} steps")


def swing_is_an_eighth_or_sixteenth(subject: Subject) -> Iterator[Problem]:
    swing = subject.groove.swing
    if swing not in (None, Fraction(1, 8), Fraction(1, 16)):
        assert swing is not None
        yield Problem(subject.groove.at("swing"), f'"{value_name(swing)}" cannot be swung', "write eighth or sixteenth")


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
            yield from _check_beats(layer.beats, bars, layer.at("beats"), subject)


def _check_beats(beats: Numbers, bars: Iterable[int], place: Position, subject: Subject) -> Iterator[Problem]:
    for bar in bars:
        meter = subject.grid.bars[bar - 1].meter
        if beats.last > len(meter.beats):
            hint = f"a bar of {meter} has {_count(len(meter.beats), 'beat')}"
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


def rows_of_sticking_fit(subject: Subject) -> Iterator[Problem]:
    for _, row in subject.sticking:
        yield from row.problems


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
        message = f'{name} of "{laid.layer.name}" meets that of "{earlier}" {_where(mark.onset, subject.grid)}'
        hint = f"add silence: [{name}] or replace: true to the later layer, or take one stroke out"
        yield Problem(mark.position, message, hint)


def _where(onset: Fraction, grid: Grid) -> str:
    """The bar and step of an onset, as the author counts."""
    if onset < grid.pickup:
        return f"in the pickup, step {_step(onset, grid)}"
    number, bar = next((number, bar) for number, bar in enumerate(grid.bars, 1) if onset in bar.span)
    return f"in bar {number}, step {_step(onset - bar.start, grid)}"


def _step(passed: Fraction, grid: Grid) -> str:
    steps = passed / grid.step
    whole, rest = divmod(steps, 1)
    return f"{whole + 1}" if not rest else f"{whole + 1} and {rest}"


def something_is_struck(subject: Subject) -> Iterator[Problem]:
    if not any(lane.marks for laid in subject.layers for _, _, lane in laid.lanes):
        yield Problem(subject.groove.at("layers"), "this groove has no stroke", "write x where something is struck")


def sticking_stands_at_strokes(subject: Subject) -> Iterator[Problem]:
    struck = {(stroke.onset, stroke.instrument) for stroke in to_groove(subject.groove).strokes}
    kit = subject.style.kit
    for limbs, row in subject.sticking:
        onsets = {onset for onset, instrument in struck if kit[instrument].limbs is limbs}
        for mark in sorted(row.marks, key=lambda mark: mark.onset):
            if mark.onset not in onsets:
                limb = {Limbs.HANDS: "hand", Limbs.FEET: "foot"}[limbs]
                message = f'"{mark.letter}" stands where no {limb} strikes, {_where(mark.onset, subject.grid)}'
                yield Problem(mark.position, message, "write - there")
                break


def sections_lie_apart(subject: Subject) -> Iterator[Problem]:
    sections = subject.groove.sections
    return _lie_apart([(each.bars, each.at("bars"), f'section "{each.name}"') for each in sections], subject)


def repeats_lie_apart(subject: Subject) -> Iterator[Problem]:
    return _lie_apart([(each.bars, each.at("bars"), "repeat") for each in subject.groove.repeats], subject)


def _lie_apart(ranges: list[tuple[Numbers, Position, str]], subject: Subject) -> Iterator[Problem]:
    seen: dict[int, int] = {}
    for bars, place, noun in ranges:
        if bars.last > subject.groove.bars:
            yield no_bar(place, bars.last, subject.groove.bars)
            continue
        if twice := [number for number in bars.numbers if number in seen]:
            line = seen[twice[0]]
            yield Problem(
                place, f"bar {twice[0]} of this {noun} is in the one of line {line} too", "let them lie apart"
            )
        seen |= dict.fromkeys(bars.numbers, place.line)


def endings_end_their_repeat(subject: Subject) -> Iterator[Problem]:
    for repeat in subject.groove.repeats:
        if repeat.endings:
            yield from _check_endings(repeat)


def _check_endings(repeat: RepeatDefinition) -> Iterator[Problem]:
    place = repeat.at("endings")
    numbers = [number for ending in repeat.endings for number in ending.numbers]
    if numbers != list(range(numbers[0], repeat.bars.last + 1)) or numbers[0] < repeat.bars.first:
        hint = "write them in order, each next to the one before: [3, 4]"
        yield Problem(place, f"these endings do not fill the end of bars {repeat.bars}", hint)
    elif len(repeat.endings) > repeat.times:
        yield Problem(
            place, f"{len(repeat.endings)} endings cannot be played in {repeat.times} times", "at most one each time"
        )


def cells_fit_the_phrase(subject: Subject) -> Iterator[Problem]:
    cells, grid = subject.groove.cells, subject.grid
    steps = grid.phrase_length / grid.step
    if cells and cells.length > steps:
        yield Problem(
            cells.at("length"), f"a cell of {cells.length} steps is longer than the phrase", f"it has {steps}"
        )
    elif cells and cells.start > steps:
        yield Problem(cells.at("start"), f"there is no step {cells.start} in the phrase", f"it has {steps}")


def exercises_name_what_there_is(subject: Subject) -> Iterator[Problem]:
    for exercise in subject.groove.exercises:
        yield from _check_layers(exercise, subject)
        yield from _check_instruments(exercise, subject)


def _check_layers(exercise: ExerciseDefinition, subject: Subject) -> Iterator[Problem]:
    names = {layer.name.lower(): layer.name for layer in subject.groove.layers}
    for name in exercise.layers:
        if name not in names.values():
            near = nearest(name, names)
            hint = f'did you mean "{names[near]}"?' if near else f"the layers are {', '.join(names.values())}"
            yield Problem(exercise.at("layers"), f'"{name}" is not a layer of this groove', hint)


def _check_instruments(exercise: ExerciseDefinition, subject: Subject) -> Iterator[Problem]:
    layers = [layer for layer in subject.groove.layers if not exercise.layers or layer.name in exercise.layers]
    there = {name for layer in layers for name, _ in layer.strokes}
    for instrument in exercise.instruments:
        if there and instrument not in there:
            hint = f"there is {', '.join(sorted(map(str, there)))}"
            yield Problem(exercise.at("instruments"), f"no {instrument} is played in these layers", hint)


def exercises_lie_within_the_groove(subject: Subject) -> Iterator[Problem]:
    for exercise in subject.groove.exercises:
        if exercise.bars and exercise.bars.last > subject.groove.bars:
            yield no_bar(exercise.at("bars"), exercise.bars.last, subject.groove.bars)
        elif exercise.beats and (not exercise.bars or len(exercise.bars.numbers) > 1) and subject.groove.bars > 1:
            yield Problem(exercise.at("beats"), "these beats belong to no one bar", "add the bar: bars: 2")
        elif exercise.beats:
            bars = exercise.bars.numbers if exercise.bars else (1,)
            yield from _check_beats(exercise.beats, bars, exercise.at("beats"), subject)


def tempos_climb(subject: Subject) -> Iterator[Problem]:
    for exercise in subject.groove.exercises:
        tempo = exercise.tempo
        if tempo and tempo.start > tempo.goal:
            yield Problem(tempo.at("start"), f"from {tempo.start} to {tempo.goal} is no climb", "from is the slower")


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


_EXTENT = "where layers lie"  # no key of its own
_GRID = frozenset({"meter", "bars", "step"})
_LAID = _GRID | {"phrase", "pickup", "layers"}

CHECKS: tuple[Check, ...] = (
    Check(every_bar_has_one_meter, frozenset({"meter", "bars"}), frozenset({"meter"})),
    Check(the_grid_is_of_a_sensible_size, _GRID | {"pickup"}, frozenset({"bars"})),
    Check(phrase_is_not_longer_than_the_groove, frozenset({"phrase", "bars"}), frozenset({"phrase"})),
    Check(pickup_is_shorter_than_a_bar, _GRID | {"pickup"}, frozenset({"pickup"})),
    Check(swing_is_an_eighth_or_sixteenth, frozenset({"swing"})),
    Check(layer_names_differ, frozenset()),
    Check(layers_lie_within_the_groove, frozenset({"meter", "bars"}), frozenset({"layers", _EXTENT})),
    Check(layers_do_something, frozenset({"layers"})),
    Check(patterns_fit, _GRID | {"phrase", "pickup", _EXTENT}, frozenset({"layers"})),
    Check(tuplets_stay_within_their_bar, _LAID),
    Check(no_stroke_meets_another, _LAID),
    Check(something_is_struck, _LAID),
    Check(rows_of_sticking_fit, _GRID | {"phrase", "pickup", "sticking"}, frozenset({"sticking"})),
    Check(sticking_stands_at_strokes, _LAID | {"sticking"}),
    Check(sections_lie_apart, frozenset({"bars"})),
    Check(repeats_lie_apart, frozenset({"bars"}), frozenset({"repeats"})),
    Check(endings_end_their_repeat, frozenset({"repeats"})),
    Check(cells_fit_the_phrase, _GRID | {"phrase"}),
    Check(exercises_name_what_there_is, frozenset({"layers"})),
    Check(exercises_lie_within_the_groove, frozenset({"meter", "bars"})),
    Check(tempos_climb, frozenset()),
)
