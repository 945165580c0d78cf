"""What cannot be written, in an author's words: bar and beat, what is wrong there, what could be written instead."""

from __future__ import annotations

from fractions import Fraction

from engraver.errors import NotationError, Problem
from engraver.notation.beats import Beat, beats
from engraver.notation.tuplets import LARGEST
from engraver.rhythm import Groove


def no_value(groove: Groove, index: int, beat: Beat) -> NotationError:
    return _fault(
        groove,
        index,
        beat,
        f"no note value down to a 64th and no tuplet of at most {LARGEST} notes holds these strokes",
        "write them on one grid within the beat, such as sixteenths or triplets, or bar them in a meter whose beats "
        "they divide evenly",
    )


def struck_twice(groove: Groove, onset: Fraction, instrument: str) -> NotationError:
    index = groove.bar_at(onset)
    return _fault(
        groove,
        index,
        _beat_at(groove, index, onset),
        f'"{instrument}" is struck again while its double still lasts',
        "let the double end before the next stroke of its instrument, or write it as two marks of half the step",
    )


def double_past_the_end(groove: Groove, onset: Fraction) -> NotationError:
    index = groove.bar_at(onset)
    return _fault(
        groove,
        index,
        _beat_at(groove, index, onset),
        "the second stroke of a double falls after the last bar",
        "write a shorter step for it, or one plain stroke",
    )


def _beat_at(groove: Groove, index: int, onset: Fraction) -> Beat:
    return next(beat for beat in beats(groove.bars[index], is_pickup(groove, index)) if onset in beat.span)


def is_pickup(groove: Groove, index: int) -> bool:
    return index == 0 and groove.pickup > 0


def _fault(groove: Groove, index: int, beat: Beat, message: str, hint: str) -> NotationError:
    """Bars count as authors count them: the first whole bar is bar 1."""
    number = index if groove.pickup else index + 1
    bar = f"bar {number}" if number else "the pickup"
    return NotationError(Problem(None, f'"{groove.title}", {bar}, beat {beat.number + 1}: {message}', hint))
