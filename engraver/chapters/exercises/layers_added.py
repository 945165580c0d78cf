"""Each layer alone, then with all that came before it. A layer that takes others away is practised in and out."""

from __future__ import annotations

from collections.abc import Iterable

from engraver.chapters.exercises.draft import Draft, Lesson, bars, shortest_loop, sounding_half, without_pickup
from engraver.rhythm import Groove, Layer, Role

LEAST = 3  # strokes a bar of a layer that is worth playing alone


def drafts(lesson: Lesson) -> Iterable[Draft]:
    names: list[str] = []
    groove = without_pickup(lesson.groove)
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
    yield Draft(say("exercise added", layer=layer.name), say("exercise added task"), together, offset)


def _in_and_out(lesson: Lesson, groove: Groove, layer: Layer, names: list[str]) -> Iterable[Draft]:
    """From the bar in which the layer begins to the end, then the first bar again."""
    whole = groove.keep(names)
    starts = [s.onset for s in layer.strokes] or [s.span.start for s in layer.silences]
    if not starts or len(whole.bars) < 2:
        return
    first = whole.bar_at(min(starts))
    window = bars(whole, first, len(whole.bars) - 1).then(bars(whole, 0, 0))
    say = lesson.words
    yield Draft(
        say("exercise fill", layer=layer.name),
        say("exercise fill task"),
        window,
        lesson.groove.pickup + whole.bars[first].start,
    )


def _is_worth_it(alone: Groove) -> bool:
    return len(alone.strokes) >= LEAST * len(alone.bars)
