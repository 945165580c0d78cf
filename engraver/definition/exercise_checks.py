"""Rules about the author's cells and exercises: windows of what the groove has."""

from __future__ import annotations

from collections.abc import Iterator

from engraver.definition.bars import no_bar
from engraver.definition.layer_checks import check_beats
from engraver.definition.schema import ExerciseDefinition
from engraver.definition.subject import Subject
from engraver.errors import Problem, nearest


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
            yield from check_beats(exercise.beats, bars, exercise.at("beats"), subject)


def exercises_are_listed_or_made(subject: Subject) -> Iterator[Problem]:
    groove = subject.groove
    if groove.ladder and groove.exercises:
        hint = "take one of them out; a list can name kinds too"
        yield Problem(groove.at("ladder"), "this groove has a list of exercises, so that no ladder is made", hint)


_WINDOW = {
    "layers": "layers",
    "instruments": "instruments",
    "bars": "bars",
    "beats": "beats",
    "after_silence": "silence",
}


def kinds_choose_their_own_window(subject: Subject) -> Iterator[Problem]:
    for exercise in subject.groove.exercises:
        for field, _ in exercise.places if exercise.kind else ():
            if exercise.kind and (name := _WINDOW.get(field)):
                message = f'an exercise of the kind "{exercise.kind.value}" has no {name} of its own'
                yield Problem(exercise.at(field), message, f"take {name} out, or the kind")


def tempos_climb(subject: Subject) -> Iterator[Problem]:
    for exercise in subject.groove.exercises:
        tempo = exercise.tempo
        if tempo and tempo.start > tempo.goal:
            yield Problem(tempo.at("start"), f"from {tempo.start} to {tempo.goal} is no climb", "from is the slower")
