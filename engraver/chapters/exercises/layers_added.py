"""Each layer alone, then with all that came before it. A layer that takes others away is practised in and out."""

from __future__ import annotations

from collections.abc import Iterable

from engraver.chapters.exercises.draft import Draft, Lesson, as_loop, bars, shortest_loop, sounding_half
from engraver.rhythm import Groove, Layer, Role

LEAST = 3  # strokes a bar of a layer that is worth playing alone


def drafts(lesson: Lesson) -> Iterable[Draft]:
    names: list[str] = []
    groove = as_loop(lesson.groove)
    for layer in groove.layers:
        names.append(layer.name)
        if layer.silences or layer.role is Role.FILL:
            yield from _in_and_out(lesson, groove, layer, names)
        else:
            yield from _alone_and_added(lesson, groove, layer, names)


def _alone_and_added(lesson: Lesson, groove: Groove, layer: Layer, names: list[str]) -> Iterable[Draft]:
    say = lesson.words
    half = sounding_half(groove, layer.strokes)
    offset = lesson.groove.pickup + half.start
    alone = shortest_loop(groove.keep([layer.name]).slice(half))
    if len(names) == 1:
        yield Draft(say("exercise first", layer=layer.name), say("exercise first task"), alone, offset)
        return
    if _is_worth_it(alone):
        yield Draft(say("exercise alone", layer=layer.name), say("exercise alone task"), alone, offset)
    together = shortest_loop(groove.keep(names).slice(half))
    yield Draft(say("exercise added", layer=layer.name), say("exercise added task", layer=layer.name), together, offset)


def _in_and_out(lesson: Lesson, groove: Groove, layer: Layer, names: list[str]) -> Iterable[Draft]:
    """From the bar in which the layer begins to the end of the phrase, then the bar after it."""
    whole = groove.keep(names)
    starts = [s.onset for s in layer.strokes] or [s.span.start for s in layer.silences]
    if not starts or len(whole.bars) < 2:
        return
    first = whole.bar_at(min(starts))
    last = _end_of_phrase(whole, first)
    after = (last + 1) % len(whole.bars)
    window = bars(whole, first, last).then(bars(whole, after, after))
    say = lesson.words
    yield Draft(
        say("exercise fill", layer=layer.name),
        say("exercise fill task"),
        window,
        lesson.groove.pickup + whole.bars[first].start,
    )


def _end_of_phrase(groove: Groove, bar: int) -> int:
    """The last bar of the phrase that a bar is in."""
    phrase = groove.bars[bar].start // groove.phrase
    return groove.bar_at(min((phrase + 1) * groove.phrase, groove.length) - groove.step)


def _is_worth_it(alone: Groove) -> bool:
    return len(alone.strokes) >= LEAST * len(alone.bars)
