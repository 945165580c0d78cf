"""Join the flagged notes of a voice by the beats of the meter.

In: the items of one bar of one voice, in order, without beams, and the beats. Out: the same items with the first and
last note of each beam marked. A beam goes from the first to the last flagged note of its group if there are two; rests
may stand under it, never at its ends; a quarter or longer breaks it; a tuplet has its own.
Sources: beams show the meter, in 4/4 never across the middle, four eighths of a half bar may share one: Open
University, Introduction to music theory, 3.6; only eighths do: R. Thomas, Beams, part 1. In 3/4 each beat has its own:
common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from engraver.notation.beats import Beat
from engraver.notation.score import Beam, Note, Rest, TupletGroup, Value
from engraver.rhythm import Meter, Span

Item = Note | Rest | TupletGroup
QUARTER = Fraction(1, 4)
EIGHTH = Value(8)


def beam(items: Sequence[Item], beats: Sequence[Beat], meter: Meter) -> tuple[Item, ...]:
    """The items with beams."""
    groups = iter(_groups(items, beats, meter))
    done: list[Item] = []
    run: list[Note | Rest] = []
    end = next(groups).end
    for item in items:
        start = item.span.start if isinstance(item, TupletGroup) else item.onset
        if start >= end or not _may_continue(item):
            done += _joined(run)
            run = []
        while start >= end:
            end = next(groups).end
        if isinstance(item, TupletGroup):
            done.append(_beamed_tuplet(item))
        else:
            run.append(item)
    return (*done, *_joined(run))


def _may_continue(item: Item) -> bool:
    return isinstance(item, Rest) or (isinstance(item, Note) and item.value.is_flagged)


def _joined(run: Sequence[Note | Rest]) -> list[Note | Rest]:
    """One beam from the first to the last flagged note of the run, if there are two."""
    flagged = [index for index, item in enumerate(run) if isinstance(item, Note) and item.value.is_flagged]
    joined = list(run)
    if len(flagged) < 2:
        return joined
    for index, mark in ((flagged[0], Beam.BEGIN), (flagged[-1], Beam.END)):
        note = joined[index]
        assert isinstance(note, Note)
        joined[index] = replace(note, beam=mark)
    return joined


def _beamed_tuplet(group: TupletGroup) -> TupletGroup:
    """The number is enough where one beam joins all of it. Source: LilyPond notation manual, tuplets."""
    items: list[Note | Rest] = []
    run: list[Note | Rest] = []
    for item in group.items:
        if not _may_continue(item):
            items += _joined(run)
            run = []
        run.append(item)
    items += _joined(run)
    return replace(group, items=tuple(items), bracket=not _is_under_one_beam(items))


def _is_under_one_beam(items: Sequence[Note | Rest]) -> bool:
    first, last = items[0], items[-1]
    marks = [item.beam for item in items if isinstance(item, Note) and item.beam]
    ends = isinstance(first, Note) and isinstance(last, Note) and (first.beam, last.beam) == (Beam.BEGIN, Beam.END)
    return ends and len(marks) == 2


# ------------------------------------------------------------------ groups


def _groups(items: Sequence[Item], beats: Sequence[Beat], meter: Meter) -> Iterator[Span]:
    """The stretches that one beam may join."""
    index = 0
    while index < len(beats):
        beat = beats[index]
        if _begins_half_bar(beats, index, meter):
            half = Span(beat.span.start, beats[index + 1].span.end)
            if _is_four_eighths(_within(items, half)):
                yield half
                index += 2
                continue
        yield from _within_beat(beat, meter, _within(items, beat.span))
        index += 1


def _begins_half_bar(beats: Sequence[Beat], index: int, meter: Meter) -> bool:
    is_paired = meter.unit == 4 and meter.beats in ((1, 1), (1, 1, 1, 1))
    return is_paired and beats[index].number % 2 == 0 and index + 1 < len(beats)


def _within(items: Sequence[Item], span: Span) -> list[Item]:
    return [item for item in items if (item.span.start if isinstance(item, TupletGroup) else item.onset) in span]


def _is_four_eighths(items: Sequence[Item]) -> bool:
    return len(items) == 4 and all(isinstance(item, Note) and item.value == EIGHTH for item in items)


def _within_beat(beat: Beat, meter: Meter, items: Sequence[Item]) -> Iterator[Span]:
    """The beat; but quarters of it where a longer beat holds anything shorter than an eighth."""
    is_divided = beat.length > QUARTER and (beat.is_simple or meter.unit <= 4)
    if not is_divided or not any(not isinstance(i, TupletGroup) and i.value.base > 8 for i in items):
        yield beat.span
        return
    start = beat.origin
    while start < beat.span.end:
        if (part := Span(start, start + QUARTER).clip(beat.span)) is not None:
            yield part
        start += QUARTER
