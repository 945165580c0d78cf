"""What the hi-hat asks of the foot on its pedal: strokes that contradict one another, and open strokes to be closed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import groupby

from engraver.analysis.limbs.assignment import DrumSet
from engraver.analysis.limbs.moments import NOWHERE
from engraver.rhythm import Pedal, Stroke

# At one moment the pedal cannot be down and up, nor down for good and let go.
CONTRADICTIONS = (
    frozenset({Pedal.OPEN, Pedal.CLOSED}),
    frozenset({Pedal.OPEN, Pedal.PRESS}),
    frozenset({Pedal.CLOSED, Pedal.SPLASH}),
    frozenset({Pedal.PRESS, Pedal.SPLASH}),
)


def contradictions(strokes: Iterable[Stroke], places: DrumSet) -> Iterator[tuple[Stroke, Stroke]]:
    """Two strokes of one moment that want the pedal in two ways."""
    for together in _together(strokes, places):
        for wanted in CONTRADICTIONS:
            against = {pedal: stroke for stroke, pedal in together if pedal in wanted}
            if len(against) == 2:
                first, second = sorted(against.values(), key=lambda stroke: stroke.order)
                yield first, second


def closings(strokes: Iterable[Stroke], places: DrumSet) -> tuple[Fraction, ...]:
    """Where a stick strikes the hi-hat closed after it was open: there the foot comes down. Round and round."""
    moments = [(together[0][0].onset, {pedal for _, pedal in together}) for together in _together(strokes, places)]
    found = []
    for index, (onset, pedals) in enumerate(moments):
        before = moments[index - 1][1]
        if Pedal.CLOSED in pedals and not pedals & {Pedal.PRESS} and before & {Pedal.OPEN, Pedal.SPLASH}:
            found.append(onset)
    return tuple(found)


def _together(strokes: Iterable[Stroke], places: DrumSet) -> Iterator[list[tuple[Stroke, Pedal]]]:
    """The strokes of each moment that ask something of the pedal."""
    wanted = [(stroke, pedal) for stroke in strokes if (pedal := places.get(stroke.instrument, NOWHERE).pedal)]
    for _, together in groupby(wanted, key=lambda each: each[0].onset):
        yield list(together)
