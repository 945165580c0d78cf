"""From drafts to exercises: what teaches nothing new is dropped; tempos, repeats and grade are added.

An author's own list is kept as written.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction

from engraver.analysis import Analysis
from engraver.chapters.exercises import KINDS, Draft, Lesson
from engraver.chapters.exercises.draft import bars
from engraver.chapters.plan import Exercise, Passage
from engraver.definition import ExerciseDefinition, GrooveDefinition
from engraver.prose import Block, Prose, Run
from engraver.rhythm import Groove, Span
from engraver.style import Words

CLIMB = 5  # tempos in a row, where the author names none


def exercises(definition: GrooveDefinition, groove: Groove, facts: Analysis, words: Words) -> tuple[Exercise, ...]:
    if definition.exercises:
        return tuple(_own(definition.exercises, groove, words))
    lesson = Lesson(groove, facts, words)
    drafts = _new(draft for kind in KINDS for draft in kind(lesson))
    return tuple(
        _exercise(draft, plain(draft.task), tempi(groove.tempo.bpm), _repeats(draft.groove), groove, number)
        for number, draft in enumerate(drafts, start=1)
    )


def plain(text: str) -> Prose:
    return (Block((Run(text),)),) if text else ()


def tempi(goal: int) -> tuple[int, ...]:
    """Even steps from about three fifths of the goal up to it, in whole beats a minute."""
    by = max(1, round(goal * Fraction(2, 5) / (CLIMB - 1)))
    return tuple(goal - by * k for k in reversed(range(CLIMB)))


def _new(drafts: Iterable[Draft]) -> list[Draft]:
    """Silence is no exercise, and the same notes under the same bar lines are none twice; the last one stays."""
    kept: list[Draft] = []
    for draft in drafts:
        if draft.groove.strokes:
            kept = [earlier for earlier in kept if not _same_notes(earlier.groove, draft.groove)]
            kept.append(draft)
    return kept


def _same_notes(one: Groove, other: Groove) -> bool:
    return one.bars == other.bars and one.strokes == other.strokes


def _repeats(groove: Groove) -> int:
    return 8 if len(groove.bars) <= 2 else 4


def _exercise(draft: Draft, task: Prose, climb: tuple[int, ...], repeats: int, whole: Groove, number: int) -> Exercise:
    groove = replace(draft.groove, repeats=(), sections=())
    passage = Passage(f"exercise {number}", groove, draft.offset, draft.ribbons, repeats, draft.scale)
    letters = tuple(dict.fromkeys(r.letter for r in draft.ribbons if r.letter and not r.cut))
    return Exercise(draft.title, task, passage, letters, climb, _share(draft, whole))


def _share(draft: Draft, whole: Groove) -> Fraction:
    """How much of the whole groove an exercise holds, in strokes."""
    return min(Fraction(1), Fraction(len(draft.groove.strokes), max(1, len(whole.strokes))))


def _own(listed: Iterable[ExerciseDefinition], groove: Groove, words: Words) -> Iterator[Exercise]:
    for number, own in enumerate(listed, start=1):
        draft = _window(own, groove, words)
        climb = (
            tuple(range(own.tempo.start, own.tempo.goal + 1, own.tempo.by)) if own.tempo else tempi(groove.tempo.bpm)
        )
        if own.tempo and climb[-1] != own.tempo.goal:
            climb += (own.tempo.goal,)
        yield _exercise(draft, own.text, climb, own.repeats or _repeats(draft.groove), groove, number)


def _window(own: ExerciseDefinition, groove: Groove, words: Words) -> Draft:
    kept = groove.keep(own.layers) if own.layers else groove
    if not own.after_silence:
        kept = replace(kept, layers=tuple(replace(layer, silences=()) for layer in kept.layers))
    if own.instruments:
        kept = kept.only(lambda stroke: stroke.instrument in own.instruments)
    first = (own.bars.first if own.bars else 1) - 1
    last = (own.bars.last if own.bars else len(groove.bars)) - 1
    skipped = 1 if groove.pickup else 0
    window, offset = bars(kept, first + skipped, last + skipped), groove.bars[first + skipped].start
    if own.beats:
        beats = list(window.bars[0].meter.beat_spans())
        span = Span(beats[own.beats.first - 1].start, beats[own.beats.last - 1].end)
        window, offset = window.slice(span), offset + span.start
    return Draft(own.title or words("exercise own"), "", window, offset)
