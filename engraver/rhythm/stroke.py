"""One stroke: who strikes what, when, how hard, with which ornament."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction


@dataclass(frozen=True, slots=True, order=True)
class Instrument:
    """What is struck, and how it sounds: snare, cross-stick, open hi-hat ... Kits are data; authors add their own."""

    name: str

    def __str__(self) -> str:
        return self.name

    def __hash__(self) -> int:
        return hash(self.name)  # half the work of a tuple's: it is looked up for every stroke


class OneOf(Enum):
    """A closed set. Its members are hashed as the single objects they are: strokes are looked up by their kind."""

    __hash__ = object.__hash__


class Touch(OneOf):
    GHOST = "ghost"  # as soft as can be, felt more than heard
    PLAIN = "plain"
    ACCENT = "accent"


class Ornament(OneOf):
    FLAM = "flam"  # one grace stroke just before
    DRAG = "drag"  # two
    RUFF = "ruff"  # three
    BUZZ = "buzz"  # the stick is pressed and bounces
    DOUBLE = "double"  # two even strokes in the time of the step
    CHOKE = "choke"  # a cymbal stopped with the hand

    @property
    def graces(self) -> int:
        """How many grace strokes come before the stroke itself."""
        return {Ornament.FLAM: 1, Ornament.DRAG: 2, Ornament.RUFF: 3}.get(self, 0)


class Side(OneOf):
    RIGHT = "R"
    LEFT = "L"
    BOTH = "B"

    @property
    def other(self) -> Side:
        return {Side.RIGHT: Side.LEFT, Side.LEFT: Side.RIGHT}.get(self, self)


class Limbs(OneOf):
    """The two pairs that sticking is written for."""

    HANDS = "hands"
    FEET = "feet"


Kind = tuple[Instrument, Touch, Ornament | None]


@dataclass(frozen=True, slots=True)
class Stroke:
    """``onset`` counts from the start of the groove; ``step`` is the length of the grid step it was written on.

    Both are fractions of a whole note. The step is how long a double or a buzz lasts; other strokes have no length.
    """

    onset: Fraction
    instrument: Instrument
    touch: Touch = Touch.PLAIN
    ornament: Ornament | None = None
    step: Fraction = Fraction(1, 16)

    @property
    def is_ghost(self) -> bool:
        return self.touch is Touch.GHOST

    @property
    def is_accent(self) -> bool:
        return self.touch is Touch.ACCENT

    def moved(self, by: Fraction) -> Stroke:
        """The same, later by so much."""
        return Stroke(self.onset + by, self.instrument, self.touch, self.ornament, self.step) if by else self

    @property
    def kind(self) -> Kind:
        """What is struck and how, wherever it stands."""
        return self.instrument, self.touch, self.ornament

    @property
    def order(self) -> tuple[Fraction, str]:
        return (self.onset, self.instrument.name)


@dataclass(frozen=True, slots=True)
class Sticking:
    """One letter of a sticking row: which side strikes at ``onset``."""

    onset: Fraction
    limbs: Limbs
    side: Side

    def moved(self, by: Fraction) -> Sticking:
        """The same, later by so much."""
        return Sticking(self.onset + by, self.limbs, self.side) if by else self
