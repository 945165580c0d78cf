"""An exercise between two of the ladder, where the step from one to the other is too wide.

Two rungs in, a rung between them out: of the harder one half of the bars, the hands or the feet alone, or fewer of the
strokes that it adds.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import islice

from engraver.chapters.cells import ribbons_in
from engraver.chapters.exercises import Draft, Lesson
from engraver.chapters.exercises.windows import as_loop
from engraver.chapters.fewer_strokes import fewer_strokes
from engraver.chapters.grading import Grader
from engraver.chapters.lanes import of_instruments
from engraver.chapters.rungs import Rung, essence
from engraver.rhythm import Instrument, Span
from engraver.style import Words

WIDEST = Fraction(1, 4)  # of the whole groove's difficulty
MOST_LEFT = Fraction(4, 5)  # of a step that is halved


def without_wide_steps(ladder: Sequence[Rung], lesson: Lesson, grader: Grader, most: int) -> list[Rung]:
    """The ladder with a rung put in where one rises too far above all before it; ``most`` rungs, widest steps first."""
    steps = [step for step in _steps(ladder) if step.width > WIDEST * ladder[-1].difficulty]
    known = [essence(rung.draft) for rung in ladder] if steps else []
    between: dict[int, Rung] = {}
    for step in sorted(steps, key=lambda step: (-step.width, step.index)):
        if len(ladder) + len(between) < most and (found := halfway(step.low, step.high, lesson, grader, known)):
            between[step.index] = found
            known.append(essence(found.draft))
    return [rung for index, high in enumerate(ladder) for rung in (between.get(index), high) if rung]


@dataclass(frozen=True, slots=True)
class _Step:
    """To the rung at ``index`` from the hardest before it."""

    index: int
    low: Rung
    high: Rung

    @property
    def width(self) -> Fraction:
        return self.high.difficulty - self.low.difficulty


def _steps(ladder: Sequence[Rung]) -> Iterator[_Step]:
    for index in range(1, len(ladder)):
        yield _Step(index, max(ladder[:index], key=lambda rung: rung.difficulty), ladder[index])


def halfway(low: Rung, high: Rung, lesson: Lesson, grader: Grader, known: Iterable[object] = ()) -> Rung | None:
    """Of the ways to halve the step, the one that lies nearest to its middle; None where none lies between."""
    middle, taken = (low.difficulty + high.difficulty) / 2, set(known)
    fit: list[Rung] = []
    for way in _halved(low.draft, high.draft, lesson):
        rungs = (grader.rung(draft, high.kind) for draft in way if draft.groove.strokes and essence(draft) not in taken)
        fit += islice((rung for rung in rungs if _halves(low.difficulty, rung.difficulty, high.difficulty)), 1)
    return min(fit, key=lambda rung: abs(rung.difficulty - middle), default=None)


def _halved(low: Draft, high: Draft, lesson: Lesson) -> Iterator[Iterable[Draft]]:
    """The ways to halve, each as the drafts that it can give, the better before the worse."""
    if high.twin:
        high = replace(high.counted_out, title=lesson.words("exercise counted"))
    halves = enumerate(_half_of_the_bars(high, lesson.words))
    yield [half for number, half in halves if number == 0 or _begins_anew(half, lesson)]
    yield from ((draft,) for draft in _half_of_the_limbs(high, lesson.feet, lesson.words))
    yield from ((draft,) for draft in fewer_strokes(low, high, lesson.words))


def _begins_anew(half: Draft, lesson: Lesson) -> bool:
    """A loop that begins within a cell is no half. Where repeats are written out, later bars stand elsewhere."""
    cells = lesson.facts.cells
    starts = cells is None or half.offset / lesson.facts.step in cells.places
    return starts and not lesson.groove.repeats


def _halves(low: Fraction, between: Fraction, high: Fraction) -> bool:
    """Neither part of the step is nearly all of it."""
    return max(between - low, high - between) <= MOST_LEFT * (high - low)


def _half_of_the_bars(draft: Draft, say: Words) -> Iterator[Draft]:
    """The first half, where the phrase and its cycles begin, before the second."""
    loop = as_loop(draft.groove)
    start, count = draft.groove.pickup, len(loop.bars)
    if count < 2:
        return
    half = count // 2
    for title, first, last in (("exercise first bars", 0, half - 1), ("exercise last bars", count - half, count - 1)):
        span = Span(loop.bars[first].start, loop.bars[last].span.end)
        offset = draft.offset + (start + span.start) / draft.scale
        yield replace(
            draft,
            title=say(title, n=half, title=draft.title, count=say.number(half)),
            task=say("exercise half bars task", n=half, count=say.number(half).capitalize()),
            groove=loop.slice(span),
            offset=offset,
            ribbons=ribbons_in(draft.ribbons, span.shift(start)),
            said=_in_span(draft.said, span.shift(start)),
        )


def _in_span(said: Iterable[tuple[Fraction, str]], span: Span) -> tuple[tuple[Fraction, str], ...]:
    return tuple((onset - span.start, word) for onset, word in said if onset in span)


def _half_of_the_limbs(draft: Draft, feet: Collection[Instrument], say: Words) -> Iterator[Draft]:
    """The hands alone, and the feet alone."""
    below = frozenset(draft.groove.instruments) & frozenset(feet)
    for limbs, theirs in (("hands", frozenset(draft.groove.instruments) - below), ("feet", below)):
        alone = of_instruments(draft.groove, theirs)
        if 0 < len(alone.strokes) < len(draft.groove.strokes):
            title = say(f"exercise {limbs} of", title=draft.title)
            yield replace(draft, title=title, task=say(f"exercise {limbs} of task"), groove=alone, said=())
