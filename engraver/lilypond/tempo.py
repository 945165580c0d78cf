"""A tempo as it is printed: the note value of the beat, if the style has one there, and the words beside it."""

from __future__ import annotations

from fractions import Fraction

from engraver.rhythm import Tempo
from engraver.style import TempoLook, Words

Beat = tuple[int | None, int]  # logarithm and dots of a note value: 1/4 is (2, 0), 3/8 is (2, 1); None: no note


def tempo_mark(tempo: Tempo, look: TempoLook, say: Words) -> tuple[int | None, int, str]:
    """Note value and words of a metronome mark."""
    log, dots, sign = tempo_lead(tempo.beat, look, say)
    return log, dots, f"{tempo.bpm} {sign}" if look is TempoLook.BPM else f"{sign} {tempo.bpm}"


def tempo_lead(beat: Fraction, look: TempoLook, say: Words) -> tuple[int | None, int, str]:
    """What stands before a row of tempos; words alone where no single note is a beat long."""
    note = _note(beat)
    if note is None or look is TempoLook.BPM:
        return None, 0, say("tempo bpm")
    return *note, "=" if look is TempoLook.NOTE else say("tempo about")


def _note(beat: Fraction) -> Beat | None:
    """None where a grid of fives or sevens was respelled, so that a beat is no plain or dotted value."""
    dots = 1 if beat.numerator == 3 else 0
    base = beat * Fraction(2, 3) if dots else beat
    is_plain = base.numerator == 1 and base.denominator & (base.denominator - 1) == 0
    return (base.denominator.bit_length() - 1, dots) if is_plain else None
