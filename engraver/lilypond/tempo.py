"""A tempo as it is printed: the note value of the beat, if the style has one there, and the words beside it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from engraver.chapters import Passage
from engraver.notation.swung import into_pair
from engraver.rhythm import Groove, Tempo
from engraver.style import Style, TempoLook, Words

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


@dataclass(frozen=True, slots=True)
class Mark:
    """What stands over the first time signature: the tempo, if it is stated there, and how notes are swung.

    ``swung``: 8 or 16, where two such notes are equated with a triplet figure; else ``feel`` says it in words, if at
    all.
    """

    tempo: tuple[int | None, int, str] = (None, 0, "")
    swung: int = 0
    feel: str = ""

    @property
    def row(self) -> tuple[int | None, int, str, int, str]:
        """As the template's ``tempo-mark`` wants it."""
        return *self.tempo, self.swung, self.feel

    def __bool__(self) -> bool:
        return bool(self.tempo[2] or self.swung or self.feel)


def staff_mark(passage: Passage, whole: Groove, style: Style, *, with_tempo: bool = False) -> Mark:
    """The mark of a passage of a groove. A style that has tempos in words has the swing in words too.

    An equation of two notes stands only where bars begin with a pair; where the cell's bar lines part pairs, words tell
    that the groove's own pairs go on. On a grid that was respelled nothing is swung.
    """
    tempo = tempo_mark(whole.tempo, style.tempo, style.say) if with_tempo else (None, 0, "")
    if whole.swing is None or passage.scale != 1:
        return Mark(tempo)
    named = style.say("swung", step=style.say.value(whole.swing, 2))
    if any(into_pair(whole, passage.offset + bar.start) != 0 for bar in passage.groove.bars):
        return Mark(tempo, feel=style.say("swung as in the groove", swung=named))
    return Mark(tempo, feel=named) if style.tempo is TempoLook.BPM else Mark(tempo, swung=whole.swing.denominator)


def _note(beat: Fraction) -> Beat | None:
    """None where a grid of fives or sevens was respelled, so that a beat is no plain or dotted value."""
    dots = 1 if beat.numerator == 3 else 0
    base = beat * Fraction(2, 3) if dots else beat
    is_plain = base.numerator == 1 and base.denominator & (base.denominator - 1) == 0
    return (base.denominator.bit_length() - 1, dots) if is_plain else None
