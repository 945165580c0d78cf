"""What is on the staff: bars, voices, notes, rests, beams, tuplets. Ink only; nothing about files or LilyPond.

Durations written here are *printed* values (an eighth triplet is printed as an eighth); onsets are sounding time.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from functools import cache

from engraver.rhythm import Meter, Ornament, Span, Stroke, Tempo, Touch


class VoiceName(Enum):
    UPPER = "upper"  # stems up: the hands, or everything
    LOWER = "lower"  # stems down: the feet


class Beam(Enum):
    BEGIN = "["
    END = "]"


@dataclass(frozen=True, slots=True)
class Value:
    """A printed note value: 1/``base`` of a whole note (1, 2, 4, 8 ...) with ``dots`` dots."""

    base: int
    dots: int = 0

    @property
    def duration(self) -> Fraction:
        return _duration(self.base, self.dots)

    @property
    def is_flagged(self) -> bool:
        return self.base >= 8


@cache
def _duration(base: int, dots: int) -> Fraction:
    return Fraction(2 ** (dots + 1) - 1, 2**dots * base)


@dataclass(frozen=True, slots=True)
class Head:
    """One notehead: the stroke it stands for. ``stroke.onset`` is its moment in the groove that was written."""

    stroke: Stroke


@dataclass(frozen=True, slots=True)
class Note:
    """Heads on one stem. ``beam`` opens or closes a beam here; None: no beam, or in the middle of one.

    ``parts``: only the first beam goes on from here to the next note; the others end, so that the eighths show.
    """

    onset: Fraction
    value: Value
    heads: tuple[Head, ...]
    beam: Beam | None = None
    parts: bool = False

    @property
    def is_accent(self) -> bool:
        return any(head.stroke.touch is Touch.ACCENT for head in self.heads)

    @property
    def is_ornate(self) -> bool:
        return any(head.stroke.ornament for head in self.heads)

    @property
    def graces(self) -> tuple[Head, ...]:
        """The heads that have grace strokes before them."""
        return tuple(head for head in self.heads if head.stroke.ornament and head.stroke.ornament.graces)

    @property
    def rolled(self) -> tuple[Head, ...]:
        """The heads that the sign on the stem is meant for; where others are with them it is a buzz."""
        return tuple(head for head in self.heads if head.stroke.ornament in (Ornament.BUZZ, Ornament.DOUBLE))

    @property
    def tremolo(self) -> Ornament | None:
        """Buzz or double, drawn on the stem."""
        return next((head.stroke.ornament for head in self.rolled), None)


@dataclass(frozen=True, slots=True)
class Rest:
    """``visible`` is False for time that passes without a sign (a voice that is silent for the bar)."""

    onset: Fraction
    value: Value
    visible: bool = True


@dataclass(frozen=True, slots=True)
class TupletGroup:
    """``count`` printed notes in the time of ``normal`` of the same value. ``bracket``: drawn, not only the number.

    ``span`` is sounding time; where the bar is cut off within the tuplet it holds fewer than ``count`` notes.
    """

    span: Span
    count: int
    normal: int
    items: tuple[Note | Rest, ...]
    bracket: bool


@dataclass(frozen=True, slots=True)
class Voice:
    """One voice in one bar. ``is_silent``: it has no note; its one item is then a rest for the bar, shown or not.

    The value of that rest is a whole note whatever the bar lasts: the whole-bar rest looks the same in every meter.
    """

    name: VoiceName
    items: tuple[Note | Rest | TupletGroup, ...]
    is_silent: bool = False


@dataclass(frozen=True, slots=True)
class StaffBar:
    """One bar on the staff. ``meter`` is printed where ``new_meter``; ``span`` is sounding time in the groove.

    ``closes_repeat`` stands on the last bar of the run, its endings included. ``like_last``: stroke for stroke the bar
    before it, so that a repeat sign may stand for it.
    """

    span: Span
    meter: Meter
    new_meter: bool
    voices: tuple[Voice, ...]
    partial: bool = False  # a pickup, or a bar that is cut off
    opens_repeat: int = 0  # times the run from here is played, 0 for none
    closes_repeat: int = 0
    ending: int = 0  # the first, second ... ending begins here
    section: str = ""
    like_last: bool = False


@dataclass(frozen=True, slots=True)
class Score:
    """A groove as it stands on the staff."""

    bars: tuple[StaffBar, ...]
    step: Fraction
    tempo: Tempo
