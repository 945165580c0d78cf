"""The phrase barred by the cell, and the same strokes below it as they are counted."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from engraver.chapters.cells import meter_of, plain_step, regroup, ribbons_in
from engraver.chapters.exercises.draft import Draft
from engraver.chapters.exercises.lesson import Lesson
from engraver.chapters.exercises.windows import is_steady
from engraver.chapters.plan import Passage
from engraver.rhythm import Bar, Groove, Span

MOST_BARS = 4  # twice as many fill half a page


def drafts(lesson: Lesson) -> Iterable[Draft]:
    steady = lesson.groove.keep([each.name for each in lesson.groove.layers if is_steady(each, lesson.facts.fills)])
    view = regroup(steady, lesson.facts)
    if view is None:
        return
    span = _span(lesson)
    wide = Span(span.start * view.scale, span.end * view.scale)
    row = ribbons_in(view.ribbons, wide)
    below = Passage("", steady.slice(span), span.start)
    barred = _whole_bars(view.groove.slice(wide), lesson.facts.step * view.scale)
    say = lesson.words
    title, task = say("exercise barlines"), say("exercise barlines task")
    yield Draft(title, task, barred, span.start, row, view.scale, twin=below)


def _span(lesson: Lesson) -> Span:
    """One phrase, of at most so many bars."""
    start = lesson.facts.phrase.start
    inside = [bar for bar in lesson.groove.bars if bar.start >= start][:MOST_BARS]
    return Span(start, min(lesson.facts.phrase.end, inside[-1].span.end))


def _whole_bars(groove: Groove, step: Fraction) -> Groove:
    """A bar that the end cuts off gets the meter of what is left of it."""
    _, unit = plain_step(step)
    last = groove.bars[-1]
    meter = last.meter if last.is_whole else meter_of(int(last.length / step), unit)
    return replace(groove, bars=(*groove.bars[:-1], Bar.of(last.start, meter)))
