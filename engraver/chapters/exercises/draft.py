"""What an exercise kind is given (`Lesson`) and what it makes (`Draft`): windows of the groove, with a sentence."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from engraver.analysis import Analysis
from engraver.chapters.plan import Ribbon
from engraver.rhythm import ZERO, Groove, Span, Stroke
from engraver.style import Words


@dataclass(frozen=True, slots=True)
class Lesson:
    groove: Groove
    facts: Analysis
    words: Words


@dataclass(frozen=True, slots=True)
class Draft:
    """``groove`` is a window of chosen layers; it begins at ``offset`` of the whole, times multiplied by ``scale``."""

    title: str
    task: str
    groove: Groove
    offset: Fraction = ZERO
    ribbons: tuple[Ribbon, ...] = ()
    scale: Fraction = Fraction(1)


def bars(groove: Groove, first: int, last: int) -> Groove:
    """The bars from ``first`` to ``last``, both included, as a groove of their own."""
    return groove.slice(Span(groove.bars[first].start, groove.bars[last].span.end))


def as_loop(groove: Groove) -> Groove:
    """As it is played, repeats written out; a loop begins on its first whole bar."""
    played = groove.performed() if groove.repeats else groove
    return played.slice(Span(groove.pickup, played.length)) if groove.pickup else played


def shortest_loop(groove: Groove) -> Groove:
    """As few bars from the start as make the groove when they are repeated."""
    held = _held(groove)
    for count in range(1, len(held)):
        if len(held) % count == 0 and all(held[i] == held[i % count] for i in range(count, len(held))):
            return bars(groove, 0, count - 1)
    return groove


def _held(groove: Groove) -> list[tuple[object, ...]]:
    """What each bar holds, told from its own start."""
    strokes = groove.strokes
    held: list[tuple[object, ...]] = []
    at = 0
    for bar in groove.bars:
        begin = at
        while at < len(strokes) and strokes[at].onset < bar.span.end:
            at += 1
        within = tuple(replace(stroke, onset=stroke.onset - bar.start) for stroke in strokes[begin:at])
        held.append((bar.meter, bar.length, within))
    return held


def sounding_half(groove: Groove, strokes: tuple[Stroke, ...]) -> Span:
    """The half of the bars in which all of these strokes lie, if there is one; else everything."""
    count = len(groove.bars)
    if count % 2 == 0 and strokes:
        for first, last in ((0, count // 2 - 1), (count // 2, count - 1)):
            half = Span(groove.bars[first].start, groove.bars[last].span.end)
            if all(stroke.onset in half for stroke in strokes):
                return half
    return groove.span
