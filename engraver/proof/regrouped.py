"""The regrouped view against the groove: the same strokes, scaled, under bars that add up."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from engraver.chapters import Passage
from engraver.proof.difference import Found, describe
from engraver.rhythm import Groove, Stroke


def compare_regrouped(groove: Groove, passage: Passage) -> Iterator[Found]:
    own = {_key(stroke, Fraction(1)): stroke for stroke in passage.groove.strokes}
    due = {_key(stroke, passage.scale): stroke for stroke in groove.strokes}
    for key in due.keys() - own.keys():
        yield Found(key[0], f"{describe(due[key])} of the groove is missing in the regrouped view")
    for key in own.keys() - due.keys():
        yield Found(key[0], f"{describe(own[key])} of the regrouped view is not in the groove")
    yield from _bars(groove, passage)


def _key(stroke: Stroke, scale: Fraction) -> tuple[Fraction, object, object, object, Fraction]:
    return stroke.onset * scale, stroke.instrument, stroke.touch, stroke.ornament, stroke.step * scale


def _bars(groove: Groove, passage: Passage) -> Iterator[Found]:
    end = Fraction(0)
    for bar in passage.groove.bars:
        if bar.start != end:
            yield Found(bar.start, "the bar does not begin where the one before it ends")
        end = bar.span.end
    if end != groove.length * passage.scale:
        steps, due = end / passage.groove.step, groove.length / groove.step
        yield Found(None, f"its bars hold {steps} steps, the groove {due}")
