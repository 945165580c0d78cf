"""The ladder of a groove: a definition and a groove in, exercises out, easiest first, and what is to be said of them.

The program's own ladder goes stage by stage and ends with the whole groove. An author's own list is kept as written.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from engraver.analysis import Analysis, fastest
from engraver.chapters import own_list
from engraver.chapters.exercises import Draft, Lesson
from engraver.chapters.grading import Grader
from engraver.chapters.halfway import WIDEST, without_wide_steps
from engraver.chapters.own_list import Entry
from engraver.chapters.plan import Exercise, Passage
from engraver.chapters.rungs import Rung, in_order, select, sketches
from engraver.chapters.tempos import stated
from engraver.definition import GrooveDefinition, LadderDefinition
from engraver.errors import Problem
from engraver.prose import plain
from engraver.rhythm import Groove, Repeat
from engraver.style import Kit, Words

MOST = 12  # exercises of a made ladder: a few pages, and a week or two of practice; ours
BETWEEN = 3  # more of them, where a step is too wide


@dataclass(frozen=True, slots=True)
class Ladder:
    """``warnings``: where the author's own list jumps or falls, or goes faster than a body can."""

    exercises: tuple[Exercise, ...]
    warnings: tuple[Problem, ...] = ()


def ladder(definition: GrooveDefinition, groove: Groove, facts: Analysis, kit: Kit, words: Words) -> Ladder:
    lesson, grader = Lesson.of(groove, facts, kit, words), Grader(groove, facts)
    return _own(definition, lesson, grader) if definition.exercises else _made(definition.ladder, lesson, grader)


def _made(settings: LadderDefinition | None, lesson: Lesson, grader: Grader) -> Ladder:
    without, most = (settings.without, settings.most) if settings else ((), None)
    chosen = select(sketches(lesson, without), most or MOST)
    steps = in_order(grader.rung(sketch.draft, sketch.kind) for sketch in chosen)
    steps = without_wide_steps(steps, lesson, grader, most or MOST + BETWEEN)
    return Ladder(tuple(_exercise(rung, number, grader) for number, rung in enumerate(steps, start=1)))


def _own(definition: GrooveDefinition, lesson: Lesson, grader: Grader) -> Ladder:
    listed = own_list.listed(definition.exercises, lesson, grader)
    made = tuple(_written(entry, number, grader) for number, entry in enumerate(listed.entries, start=1))
    warnings = (*listed.warnings, *_too_fast(listed.entries), *_unsteady(listed.entries, lesson, grader))
    return Ladder(made, warnings)


def _written(entry: Entry, number: int, grader: Grader) -> Exercise:
    """What the author says of it takes the place of what the program would say."""
    made, own = _exercise(entry.rung, number, grader), entry.written
    repeats = own.repeats or made.repeats
    return replace(
        _played(made, repeats),
        task=own.text or made.task,
        tempi=stated(own.tempo) if own.tempo else made.tempi,
    )


def _exercise(rung: Rung, number: int, grader: Grader) -> Exercise:
    draft = rung.draft
    repeats = 8 if len(draft.groove.bars) <= 2 else 4
    passage = Passage(f"exercise {number}", draft.groove, draft.offset, draft.ribbons, repeats, draft.scale)
    made = Exercise(
        title=draft.title,
        task=plain(draft.task),
        passage=passage,
        letters=tuple(dict.fromkeys(r.letter for r in draft.ribbons if r.letter and not r.cut)),
        tempi=grader.tempos(rung),
        repeats=repeats,
        stage=rung.stage,
        kind=rung.kind.name if rung.kind else None,
        difficulty=rung.measured,
        twin=replace(draft.twin, name=f"exercise {number}, below", repeats=repeats) if draft.twin else None,
        counted=draft.counted,
        said=draft.said,
    )
    return _played(made, repeats)


def _played(exercise: Exercise, repeats: int) -> Exercise:
    """So often. A pickup is played once, and repeat signs stand around what comes after it."""
    groove = replace(exercise.passage.groove, sections=(), repeats=())
    times = repeats
    if groove.pickup:
        groove, times = replace(groove, repeats=(Repeat(1, len(groove.bars) - 1, repeats),)), 1
    passage = replace(exercise.passage, groove=groove, repeats=times)
    twin = replace(exercise.twin, repeats=repeats) if exercise.twin else None
    return replace(exercise, passage=passage, twin=twin, repeats=repeats)


def _too_fast(entries: Iterable[Entry]) -> Iterator[Problem]:
    """Where the author's own tempos go beyond what the limbs of the exercise can."""
    for entry in entries:
        own, limit = entry.written.tempo, fastest(entry.rung.limbs)
        if own and limit and own.goal > limit.bpm:
            limb = limit.hardest.limb.value
            message = f"at tempo {own.goal} the {limb} would be faster in this exercise than any player's"
            yield Problem(own.at("to"), message, f"it can be played up to tempo {limit.bpm}")


def _unsteady(entries: Sequence[Entry], lesson: Lesson, grader: Grader) -> Iterator[Problem]:
    """Where the author's list rises by more than a quarter of the whole groove's difficulty, or falls."""
    whole = grader.rung(Draft("", "", lesson.loop, lesson.start)).difficulty
    for before, entry in pairwise(entries):
        low, high = before.rung.difficulty, entry.rung.difficulty
        place, title = entry.written.position, entry.rung.draft.title.rstrip(".")
        if high - low > WIDEST * whole:
            hint = "put one between: fewer layers, or half of the bars"
            yield Problem(place, f'"{title}" is a wide step up from the exercise before it', hint)
        elif high < low and entry.written is not before.written:
            yield Problem(place, f'"{title}" is easier than the exercise before it', "let it stand before that")
