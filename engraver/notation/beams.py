"""Join the flagged notes of a voice by the beats of the meter.

In: the items of one bar of one voice, in order, without beams, and the beats. Out: the same items with the first and
last note of each beam marked. A beam goes from the first to the last flagged note of its group if there are two; rests
may stand under it, never at its ends; a quarter or longer breaks it. A tuplet of a beat or more is a group of its own;
a shorter one stands under the beam of its beat. A tuplet shows its number alone if it is all that its beam joins.
Where a group holds anything shorter than a sixteenth, all beams but the first end at every eighth of it.
Sources: beams show the meter, in 4/4 never across the middle, four eighths of a half bar may share one: Open
University, Introduction to music theory, 3.6; only eighths do: R. Thomas, Beams, part 1. In 3/4 each beat has its own,
and inner beams end at the eighths: common practice, no source. Number without bracket under a beam: LilyPond
notation manual, tuplets.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from engraver.notation.beats import Beat
from engraver.notation.score import Beam, Note, Rest, TupletGroup, Value
from engraver.rhythm import Meter, Span
from engraver.style import Beams

Item = Note | Rest | TupletGroup
QUARTER = Fraction(1, 4)
EIGHTH = Value(8)


def beam(
    items: Sequence[Item], beats: Sequence[Beat], meter: Meter, beams: Beams = Beams.HALF_BARS
) -> tuple[Item, ...]:
    """The items with beams, and tuplets with brackets only where they need them."""
    marks: dict[Fraction, Beam] = {}
    parted: set[Fraction] = set()
    leaves = [leaf for item in items for leaf in (item.items if isinstance(item, TupletGroup) else (item,))]
    onsets = [leaf.onset for leaf in leaves]
    for group in _groups(items, beats, meter, beams):
        within = leaves[bisect_left(onsets, group.start) : bisect_left(onsets, group.end)]
        for run in _runs(within):
            marks |= _ends(run)
            parted |= _parted(run, group.start)
    return tuple(_marked(item, marks, parted) for item in items)


def _runs(leaves: Sequence[Note | Rest]) -> Iterator[list[Note]]:
    """Flagged notes with nothing but rests between them."""
    run: list[Note] = []
    for leaf in leaves:
        if isinstance(leaf, Rest):
            continue
        if leaf.value.is_flagged:
            run.append(leaf)
        else:
            yield run
            run = []
    yield run


def _ends(run: Sequence[Note]) -> dict[Fraction, Beam]:
    return {run[0].onset: Beam.BEGIN, run[-1].onset: Beam.END} if len(run) > 1 else {}


def _parted(run: Sequence[Note], start: Fraction) -> set[Fraction]:
    """The last notes before an eighth of the group, where it holds 32nds and both sides have inner beams to end."""
    if all(note.value.base <= 16 for note in run):
        return set()
    return {
        note.onset
        for note, following in pairwise(run)
        if (following.onset - start) % EIGHTH.duration == 0 and min(note.value.base, following.value.base) > 8
    }


def _marked(item: Item, marks: Mapping[Fraction, Beam], parted: Collection[Fraction]) -> Item:
    if isinstance(item, TupletGroup):
        return _marked_tuplet(item, marks)
    if isinstance(item, Note) and (item.onset in marks or item.onset in parted):
        return replace(item, beam=marks.get(item.onset), parts=item.onset in parted)
    return item


def _marked_tuplet(group: TupletGroup, marks: Mapping[Fraction, Beam]) -> TupletGroup:
    items = tuple(
        replace(item, beam=marks[item.onset]) if isinstance(item, Note) and item.onset in marks else item
        for item in group.items
    )
    beams = [item.beam if isinstance(item, Note) else None for item in items]
    is_one_beam = (beams[0], beams[-1]) == (Beam.BEGIN, Beam.END) and not any(beams[1:-1])
    return replace(group, items=items, bracket=not is_one_beam)


# ------------------------------------------------------------------ groups


def _groups(items: Sequence[Item], beats: Sequence[Beat], meter: Meter, beams: Beams) -> list[Span]:
    """The stretches that one beam may join, in order; a long tuplet takes the place of the beats it lies over."""
    groups = list(_beat_groups(items, beats, meter, beams))
    for item in items:
        if isinstance(item, TupletGroup) and not any(group.covers(item.span) for group in groups):
            before = [
                group.clip(Span(group.start, item.span.start)) for group in groups if group.start < item.span.start
            ]
            after = [group.clip(Span(item.span.end, group.end)) for group in groups if group.end > item.span.end]
            groups = [group for group in (*before, item.span, *after) if group is not None]
    return groups


def _beat_groups(items: Sequence[Item], beats: Sequence[Beat], meter: Meter, beams: Beams) -> Iterator[Span]:
    onsets = [item.span.start if isinstance(item, TupletGroup) else item.onset for item in items]

    def within(span: Span) -> Sequence[Item]:
        return items[bisect_left(onsets, span.start) : bisect_left(onsets, span.end)]

    index = 0
    while index < len(beats):
        half = _half_bar(beats, index, meter) if beams is Beams.HALF_BARS else None
        if half and _is_four_eighths(within(half)):
            yield half
            index += 2
        else:
            yield from _within_beat(beats[index], meter, within(beats[index].span))
            index += 1


def _half_bar(beats: Sequence[Beat], index: int, meter: Meter) -> Span | None:
    """Beats 1-2 or 3-4 of 4/4, or all of 2/4, if a half bar begins here."""
    is_paired = meter.unit == 4 and meter.beats in ((1, 1), (1, 1, 1, 1))
    if not is_paired or beats[index].number % 2 or index + 1 == len(beats):
        return None
    return Span(beats[index].span.start, beats[index + 1].span.end)


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
