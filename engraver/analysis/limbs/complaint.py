"""What a body would say against a groove: one kind of complaint after another, with its figures and no words."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from engraver.rhythm import Instrument, Limb, Stroke


class Complaint(Enum):
    """``is_refusal``: no body can do it; the others are very hard, or need something that most sets do not have."""

    CROWDED = "more strokes at one moment than limbs that are free"
    TOO_FAST = "a limb would have to go on faster than any player's"
    TOO_QUICK = "two strokes of a limb come faster than a rebound"
    PEDAL = "two strokes of one moment want the hi-hat's pedal up and down"
    CLOSING = "the foot would have to close the hi-hat while it strikes something else"
    VERY_FAST = "a rate that few players reach"
    QUICK_FOOT = "two strokes of a foot come faster than it can go on"
    HELD = "a closed hi-hat while its foot strikes something else"
    CROSSED = "arms crossed over the set"
    FAR = "a long way in a short time"
    UNAIDED = "one hand alone for an ornament that takes two"
    SHARED = "both hands on one small place, or on one surface for two sounds"

    @property
    def is_refusal(self) -> bool:
        return self in REFUSALS


REFUSALS = frozenset({Complaint.CROWDED, Complaint.TOO_FAST, Complaint.TOO_QUICK, Complaint.PEDAL, Complaint.CLOSING})


@dataclass(frozen=True, slots=True)
class Objection:
    """One complaint at its first or hardest place, and at how many moments it is raised.

    ``figure`` and ``limit``: strokes a second, or decimetres a second where a way is too far, or decimetres where arms
    cross, or strokes where a moment is crowded. ``bpm``: the fastest tempo at which it is not raised, if it depends on
    the tempo. ``two_feet``: two feet in turn would be fast enough and the other one is free. ``own_hands``: without the
    sticking that the author wrote it is not raised.
    """

    complaint: Complaint
    onset: Fraction
    strokes: tuple[Stroke, ...]
    limb: Limb | None = None
    figure: Fraction | None = None
    limit: Fraction | None = None
    bpm: int | None = None
    moments: int = 1
    two_feet: bool = False
    own_hands: bool = False

    @property
    def instruments(self) -> tuple[Instrument, ...]:
        return tuple(dict.fromkeys(stroke.instrument for stroke in self.strokes))
