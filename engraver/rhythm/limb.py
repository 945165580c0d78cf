"""A player's limbs, and where on the set an instrument waits for them. Knows no instrument by name."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from engraver.rhythm.stroke import Limbs, OneOf, Side


class Limb(OneOf):
    RIGHT_HAND = "right hand"
    LEFT_HAND = "left hand"
    RIGHT_FOOT = "right foot"
    LEFT_FOOT = "left foot"

    @classmethod
    def of(cls, limbs: Limbs, side: Side) -> Limb:
        """The limb of a pair; ``side`` is right or left."""
        hands = limbs is Limbs.HANDS
        if side is Side.RIGHT:
            return cls.RIGHT_HAND if hands else cls.RIGHT_FOOT
        assert side is Side.LEFT, side
        return cls.LEFT_HAND if hands else cls.LEFT_FOOT

    @property
    def limbs(self) -> Limbs:
        return Limbs.HANDS if self in (Limb.RIGHT_HAND, Limb.LEFT_HAND) else Limbs.FEET

    @property
    def side(self) -> Side:
        return Side.RIGHT if self in (Limb.RIGHT_HAND, Limb.RIGHT_FOOT) else Side.LEFT

    @property
    def other(self) -> Limb:
        """The same limb of the other side."""
        return Limb.of(self.limbs, self.side.other)


class Pedal(Enum):
    """What a stroke asks of the hi-hat's pedal."""

    CLOSED = "closed"  # held down while a stick strikes
    OPEN = "open"  # up, wholly or half
    PRESS = "press"  # struck with the foot and held
    SPLASH = "splash"  # struck with the foot and let go


@dataclass(frozen=True, slots=True)
class Place:
    """Where an instrument stands on a right-handed player's set.

    ``across``: decimetres to the right of the hi-hat; None: not known, so nothing is said of the way there.
    ``surface``: what is struck; instruments of one surface are one cymbal or one drum.
    ``foot``: the foot that plays it; None: either. ``pedal``: what it asks of the hi-hat's pedal, if anything.
    ``lead``: the leading hand keeps time on it. ``small``: there is no room for two sticks.
    """

    limbs: Limbs = Limbs.HANDS
    across: int | None = None
    surface: str = ""
    foot: Side | None = None
    pedal: Pedal | None = None
    lead: bool = False
    small: bool = False
