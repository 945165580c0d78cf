"""Sound against groove, stroke by stroke: onset, instrument, touch, ornament, graces, and how often it is played."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from engraver.chapters import Passage
from engraver.proof.difference import Found, describe, marks
from engraver.proof.due import Due, graces, played, with_repeat, written_out
from engraver.proof.sound import TICK, Heard, Performance
from engraver.rhythm import Groove, Ornament


def compare_sound(passage: Passage, performance: Performance | None) -> Iterator[Found]:
    if performance is None:
        yield Found(None, "is not played")
        return
    groove = with_repeat(passage)
    as_played = _as_often(groove, performance)
    yield from _times(groove, as_played, performance.length)
    due, _ = played(as_played)
    yield from _strokes(due, performance.strokes)
    for grace in performance.stray:
        yield Found(grace.onset, f"{grace.sound.instrument}: a grace note in the sound leads to no stroke")


# ------------------------------------------------------------------ repeats


def _as_often(groove: Groove, performance: Performance) -> Groove:
    """The groove, with another number of times through a repeat if only that explains how long the sound lasts.

    Where several numbers do, the one that fits the strokes best.
    """
    length = performance.length
    if length is None or _lasts(groove, length):
        return groove
    fitting = [one for one in _other_counts(groove) if _lasts(one, length)]
    return min(fitting, key=lambda one: len([*_strokes(played(one)[0], performance.strokes)]), default=groove)


def _lasts(groove: Groove, length: Fraction) -> bool:
    return abs(groove.performed().length - length) < TICK


def _other_counts(groove: Groove) -> Iterator[Groove]:
    for index, repeat in enumerate(groove.repeats):
        for times in range(max(1, len(repeat.endings)), 2 * repeat.times + 1):
            changed = replace(repeat, times=times)
            yield replace(groove, repeats=(*groove.repeats[:index], changed, *groove.repeats[index + 1 :]))


def _times(groove: Groove, as_played: Groove, length: Fraction | None) -> Iterator[Found]:
    for meant, heard in zip(groove.repeats, as_played.repeats, strict=True):
        if meant.times != heard.times:
            start = groove.bars[meant.first].start
            yield Found(start, f"what begins here is played {heard.times} times in the sound, not {meant.times}")
    if length is None:
        yield Found(None, "the sound has no end")
    elif not _lasts(as_played, length):
        steps, due = length / groove.step, groove.performed().length / groove.step
        yield Found(None, f"lasts {steps} steps in the sound, not {due}")


# ------------------------------------------------------------------ strokes


def _strokes(due: Sequence[Due], heard: Sequence[Heard]) -> Iterator[Found]:
    left = list(heard)
    turns = [(one.onset - one.stroke.onset, one.stroke.onset) for one in due]
    for one in due:
        for wanted in _as_written(one, left):
            found = _take(left, wanted)
            if found is None:
                yield Found(wanted.stroke.onset, f"{describe(wanted.stroke)} is missing in the sound")
            else:
                yield from _unlike(wanted, found)
    for extra in left:
        what = ", ".join([extra.sound.instrument.name, *marks(extra.sound.touch, extra.sound.ornament)])
        yield Found(_written(extra.onset, turns), f"{what} is in the sound but not in the groove")


def _as_written(due: Due, heard: Sequence[Heard]) -> tuple[Due, ...]:
    """A double is one doubled stroke, or two strokes where its second is heard."""
    if due.stroke.ornament is not Ornament.DOUBLE:
        return (due,)
    pair = tuple(Due(due.onset + one.onset - due.stroke.onset, one) for one in written_out(due.stroke))
    return pair if _at(heard, pair[1]) is not None else (due,)


def _take(left: list[Heard], due: Due) -> Heard | None:
    index = _at(left, due)
    return None if index is None else left.pop(index)


def _at(heard: Sequence[Heard], due: Due) -> int | None:
    for index, one in enumerate(heard):
        if one.sound.instrument == due.stroke.instrument and one.is_at(due.onset):
            return index
    return None


def _unlike(due: Due, heard: Heard) -> Iterator[Found]:
    stroke, sound = due.stroke, heard.sound
    if (stroke.touch, stroke.ornament) != (sound.touch, sound.ornament):
        instead = ", ".join(marks(sound.touch, sound.ornament)) or "plain"
        yield Found(stroke.onset, f"{describe(stroke)} is {instead} in the sound")
    if graces(stroke) != heard.graces:
        count = f"{heard.graces} grace notes in the sound, not {graces(stroke)}"
        yield Found(stroke.onset, f"{describe(stroke)} has {count}")


def _written(onset: Fraction, turns: Sequence[tuple[Fraction, Fraction]]) -> Fraction:
    """The written time of a moment of playing: that of the last stroke that is due before it, and on from there."""
    before = [turn for turn in turns if turn[0] + turn[1] <= onset + TICK]
    return onset - (before[-1][0] if before else Fraction(0))
