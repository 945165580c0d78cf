"""Into each fill and out of it, over all that lies below."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from engraver.chapters.exercises.draft import Draft
from engraver.chapters.exercises.lesson import Lesson
from engraver.chapters.exercises.windows import bars, is_steady
from engraver.rhythm import Groove, Layer


def drafts(lesson: Lesson) -> Iterable[Draft]:
    names: list[str] = []
    for layer in lesson.loop.layers:
        names.append(layer.name)
        if not is_steady(layer, lesson.facts.fills):
            yield from _in_and_out(lesson, layer, names)


def _in_and_out(lesson: Lesson, layer: Layer, names: Sequence[str]) -> Iterable[Draft]:
    """From the bar in which the layer begins to the end of the phrase, then the bar after it."""
    whole = lesson.loop.keep(names)
    starts = [s.onset for s in layer.strokes] or [s.span.start for s in layer.silences]
    if not starts or len(whole.bars) < 2:
        return
    first = whole.bar_at(min(starts))
    last = _end_of_phrase(whole, first)
    after = (last + 1) % len(whole.bars)
    window = bars(whole, first, last).then(bars(whole, after, after))
    say = lesson.words
    title, task = say("exercise fill", layer=layer.name), say("exercise fill task")
    yield Draft(title, task, window, lesson.place(whole.bars[first].start))


def _end_of_phrase(groove: Groove, bar: int) -> int:
    """The last bar of the phrase that a bar is in."""
    phrase = groove.bars[bar].start // groove.phrase
    return groove.bar_at(min((phrase + 1) * groove.phrase, groove.length) - groove.step)
