"""Which bars a repeat sign may stand for.

In: a groove and the index of a bar. Out: whether the bar is the one before it over again. A sign stands only for an
exact repeat in every voice (common practice, no source); nothing may begin or change at it that would be lost under it.
"""

from __future__ import annotations

from fractions import Fraction

from engraver.rhythm import Bar, Groove

Played = tuple[tuple[object, ...], ...]


def is_like_last(groove: Groove, index: int) -> bool:
    """The same strokes, tuplets and sticking in the same meter, with nothing new at its bar line."""
    if index == 0 or _has_something_new(groove, index):
        return False
    last, bar = groove.bars[index - 1], groove.bars[index]
    if not (last.is_whole and bar.is_whole and last.meter == bar.meter):
        return False
    held = groove.held
    return bool(held[index]) and held[index] == held[index - 1] and _written(groove, bar) == _written(groove, last)


def _has_something_new(groove: Groove, index: int) -> bool:
    """A section, a repeat or an ending begins here, or one has just ended."""
    edges = {section.first for section in groove.sections}
    edges |= {edge for repeat in groove.repeats for edge in (repeat.first, repeat.last + 1, *repeat.endings)}
    return index in edges


def _written(groove: Groove, bar: Bar) -> Played:
    def moved(moment: Fraction) -> Fraction:
        return moment - bar.start

    tuplets = {(moved(t.span.start), moved(t.span.end), t.count) for t in groove.tuplets if bar.span.covers(t.span)}
    sticking = {(moved(mark.onset), mark.limbs, mark.side) for mark in groove.sticking if mark.onset in bar.span}
    return (("tuplets", frozenset(tuplets)), ("sticking", frozenset(sticking)))
