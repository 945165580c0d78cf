"""The author's own list of exercises as rungs, in the order in which they are written.

An entry is a window of the groove, or the name of a kind: then it stands for what the program makes of that kind.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from engraver.chapters.exercises import KINDS, Draft, Lesson
from engraver.chapters.exercises.windows import bars
from engraver.chapters.grading import Grader
from engraver.chapters.lanes import of_instruments
from engraver.chapters.rungs import Rung, distinct, of_kind
from engraver.definition import ExerciseDefinition
from engraver.errors import Problem
from engraver.rhythm import Groove, Span
from engraver.style import Words


@dataclass(frozen=True, slots=True)
class Entry:
    """A rung and the entry of the author's list that it comes from."""

    rung: Rung
    written: ExerciseDefinition


@dataclass(frozen=True, slots=True)
class Listed:
    """``warnings``: entries that this groove gives nothing for."""

    entries: tuple[Entry, ...]
    warnings: tuple[Problem, ...]


def listed(written: Iterable[ExerciseDefinition], lesson: Lesson, grader: Grader) -> Listed:
    entries: list[Entry] = []
    warnings: list[Problem] = []
    for own in written:
        found = [Entry(rung, own) for rung in _rungs(own, lesson, grader)]
        entries += found
        if own.kind and not found:
            message = f'this groove has nothing for exercises of the kind "{own.kind.value}"'
            warnings.append(Problem(own.at("kind"), message, "take the entry out"))
    return Listed(tuple(entries), tuple(warnings))


def _rungs(own: ExerciseDefinition, lesson: Lesson, grader: Grader) -> Iterator[Rung]:
    kind = next((kind for kind in KINDS if kind.name is own.kind), None)
    if kind is None:
        yield grader.rung(_window(own, lesson.groove, lesson.words))
        return
    for sketch in distinct(of_kind(kind, lesson)):
        yield grader.rung(replace(sketch.draft, title=own.title or sketch.draft.title), kind)


def _window(own: ExerciseDefinition, groove: Groove, words: Words) -> Draft:
    kept = groove.keep(own.layers) if own.layers else groove
    if not own.after_silence:
        kept = replace(kept, layers=tuple(replace(layer, silences=()) for layer in kept.layers))
    if own.instruments:
        kept = of_instruments(kept, own.instruments)
    first = (own.bars.first if own.bars else 1) - 1
    last = (own.bars.last if own.bars else len(groove.bars)) - 1
    skipped = 1 if groove.pickup else 0
    window, offset = bars(kept, first + skipped, last + skipped), groove.bars[first + skipped].start
    if own.beats:
        beats = list(window.bars[0].meter.beat_spans())
        span = Span(beats[own.beats.first - 1].start, beats[own.beats.last - 1].end)
        window, offset = window.slice(span), offset + span.start
    return Draft(own.title or words("exercise own"), "", window, offset)
