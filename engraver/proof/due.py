"""What has to be heard and seen, from the groove and the kit alone: nothing here knows notation or LilyPond."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import groupby

from engraver.chapters import Passage
from engraver.notation import VoiceName, voice_of
from engraver.rhythm import Bar, Groove, Instrument, Layer, Ornament, Repeat, Stroke, Touch
from engraver.style import GhostLook, Kit, Style


@dataclass(frozen=True, slots=True)
class Due:
    """A stroke as it is played: ``onset`` counts from where playing starts, ``stroke.onset`` is written time."""

    onset: Fraction
    stroke: Stroke


@dataclass(frozen=True, slots=True)
class DueColumn:
    """What one voice strikes at one written moment."""

    onset: Fraction
    voice: VoiceName
    strokes: tuple[Stroke, ...]


def graces(stroke: Stroke) -> int:
    return stroke.ornament.graces if stroke.ornament else 0


def with_repeat(passage: Passage) -> Groove:
    """The passage's groove; repeat signs at both ends of an exercise are a repeat like any other."""
    groove = passage.groove
    if passage.repeats == 1:
        return groove
    assert not groove.repeats, f"{passage.name} repeats within a repeat"
    return replace(groove, repeats=(Repeat(0, len(groove.bars) - 1, passage.repeats),))


def played(groove: Groove) -> tuple[tuple[Due, ...], Fraction]:
    """Every stroke in the order of playing, and how long it all lasts."""
    numbered = replace(groove, layers=(Layer("bars", tuple(_numbers(groove))),)).performed()
    starts = [(bar.start, groove.bars[int(n.instrument.name)].start) for bar, n in _side_by_side(numbered)]
    performed = groove.performed()
    due = []
    turn = 0
    for stroke in performed.strokes:
        while turn + 1 < len(starts) and starts[turn + 1][0] <= stroke.onset:
            turn += 1
        heard, written = starts[turn]
        due.append(Due(stroke.onset, replace(stroke, onset=stroke.onset - heard + written)))
    return tuple(due), performed.length


def _numbers(groove: Groove) -> Iterator[Stroke]:
    """Each bar carries its index as a stroke, so that playing tells which written bar is where."""
    return (Stroke(bar.start, Instrument(str(index))) for index, bar in enumerate(groove.bars))


def _side_by_side(numbered: Groove) -> Iterator[tuple[Bar, Stroke]]:
    return zip(numbered.bars, numbered.strokes, strict=True)


def written_out(stroke: Stroke) -> tuple[Stroke, Stroke]:
    """A double as two strokes at half the step: the second is a rebound, a ghost's as soft, an accent's no accent."""
    first = replace(stroke, ornament=None)
    touch = Touch.GHOST if stroke.is_ghost else Touch.PLAIN
    return first, replace(first, onset=stroke.onset + stroke.step / 2, touch=touch)


def columns(strokes: tuple[Stroke, ...], style: Style) -> tuple[DueColumn, ...]:
    def column(stroke: Stroke) -> tuple[Fraction, str]:
        return stroke.onset, voice_of(stroke.instrument, style).value

    return tuple(
        DueColumn(onset, VoiceName(voice), tuple(together))
        for (onset, voice), together in groupby(sorted(strokes, key=column), key=column)
    )


def signs(column: DueColumn, kit: Kit) -> frozenset[str]:
    """The signs at the notes of a column, by their names in the kit, and accent, choke, double, buzz."""
    drawn = {kit[stroke.instrument].sign for stroke in column.strokes}
    drawn |= {"accent" for stroke in column.strokes if stroke.is_accent}
    shown = (Ornament.CHOKE, Ornament.DOUBLE, Ornament.BUZZ)
    drawn |= {stroke.ornament.value for stroke in column.strokes if stroke.ornament in shown}
    return frozenset(drawn - {""})


def look(stroke: Stroke, ghosts: GhostLook) -> tuple[bool, bool]:
    """In parentheses? Small?"""
    if not stroke.is_ghost:
        return False, False
    return ghosts is not GhostLook.SMALL, ghosts is not GhostLook.PARENTHESES
