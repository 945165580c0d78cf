"""Any groove at all gets an answer: mixed meters, odd steps, layers that silence. Fixed seeds."""

from __future__ import annotations

import json
import random
from fractions import Fraction

import pytest

from engraver.analysis import StatedCells, analyse, facts_object
from engraver.rhythm import Bar, Groove, Instrument, Layer, Meter, Ornament, Role, Silence, Span, Stroke, Tempo, Touch

METERS = ("4/4", "3/4", "6/8", "7/8", "(2+2+3)/8", "5/16", "1/16", "12/8", "2/2")
STEPS = (Fraction(1, 16), Fraction(1, 8), Fraction(1, 12), Fraction(1, 24), Fraction(1, 32), Fraction(1, 20))
NAMES = ("bass drum", "snare", "hi-hat", "ride")


def any_groove(seed: int) -> Groove:
    dice = random.Random(seed)
    bars: list[Bar] = []
    start = Fraction(0)
    for _ in range(dice.randrange(1, 9)):
        bars.append(Bar.of(start, Meter.parse(dice.choice(METERS) if dice.random() < 0.4 else "4/4")))
        start = bars[-1].span.end
    layers = tuple(_layer(dice, number, start) for number in range(dice.randrange(4)))
    phrase = dice.choice((start, bars[0].length))
    return Groove("Any", tuple(bars), layers, dice.choice(STEPS[:3]), Tempo(Fraction(1, 4), 100), phrase)


def _layer(dice: random.Random, number: int, length: Fraction) -> Layer:
    step = dice.choice(STEPS)
    strokes = tuple(
        Stroke(place * step, Instrument(name), dice.choice(list(Touch)), dice.choice([None, None, *Ornament]), step)
        for name in dice.sample(NAMES, 2)
        for place in range(int(length / step))
        if dice.random() < 0.3
    )
    hush = Silence(Span(length / 2, length), frozenset({Instrument(dice.choice(NAMES))}))
    return Layer(f"Layer {number}", strokes, dice.choice([None, *Role]), (hush,) if dice.random() < 0.3 else ())


@pytest.mark.parametrize("seed", range(60))
def test_every_letter_has_a_cell_and_every_step_a_place(seed):
    made = any_groove(seed)
    for stated in (None, StatedCells(3), StatedCells(5, 2)):
        found = analyse(made, stated)
        json.dumps(facts_object(made, found))
        cells = found.cells
        if cells:
            each_pass = len(cells.full) // cells.passes
            assert cells.start + each_pass * cells.length + cells.remainder == cells.phrase_steps
            assert {cell.letter: cell.count for cell in cells.cells} == {x: cells.full.count(x) for x in cells.full}
            assert len(cells.places) == len(cells.skeleton) == len(cells.full)
        for crossing in found.cross_rhythms:
            assert sum(crossing.resultant) == crossing.cycle_steps
