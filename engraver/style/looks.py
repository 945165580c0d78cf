"""The looks that an author can choose between: closed sets, each member under the word that style.yaml has for it."""

from __future__ import annotations

from enum import Enum


class GhostLook(Enum):
    """How a ghost note shows itself."""

    PARENTHESES = "parentheses"
    SMALL = "small"
    BOTH = "both"


class Accents(Enum):
    """Which side of its note an accent stands on."""

    STEM = "stem side"  # outside the beam: common in writing for two voices
    HEAD = "head side"


class Voices(Enum):
    TWO = "two"  # hands with stems up, feet with stems down
    ONE = "one"  # all stems up


class Beams(Enum):
    """How far a beam of eighths may go in 4/4. No beam crosses the middle of the bar."""

    HALF_BARS = "half bars"
    BEATS = "beats"


class Rests(Enum):
    """Whether a voice that is silent for a bar, while the other plays, has a rest there."""

    SPARING = "sparing"
    FULL = "full"


class Counting(Enum):
    """Where counting syllables stand under the full groove."""

    NONE = "none"
    FIRST_BAR = "first bar"
    ALL = "all bars"


class BarNumbers(Enum):
    """Which bars of the full groove are numbered."""

    NONE = "none"
    LINES = "lines"  # the first of each line but the first
    ALL = "all bars"


class TempoLook(Enum):
    """How a tempo is printed."""

    NOTE = "note"  # the note value of the beat = 96
    ABOUT = "about"  # the same, said to be about
    BPM = "bpm"  # 96 bpm


class CellNames(Enum):
    """What a changed form of a cell is called."""

    LETTERS = "letters"  # by the next free letter
    PRIMES = "primes"  # by its base with a prime: A'
