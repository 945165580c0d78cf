"""Which limb plays which stroke: the answer of `assign`, in the times of the groove it was asked about."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction

from engraver.rhythm import Instrument, Limb, Ornament, Place, Side, Stroke, Tempo

DrumSet = Mapping[Instrument, Place]


@dataclass(frozen=True, slots=True)
class LimbStroke:
    """A written stroke and the limb that plays it.

    ``helper``: the other hand where it is needed too, for the grace strokes of an ornament or for a stroke that the
    sticking gives to both.
    """

    stroke: Stroke
    limb: Limb
    helper: Limb | None = None

    @property
    def onset(self) -> Fraction:
        return self.stroke.onset

    @property
    def limbs(self) -> tuple[Limb, ...]:
        return (self.limb, self.helper) if self.helper else (self.limb,)

    @property
    def count(self) -> int:
        """How often something is struck: graces, both strokes of a double and of a buzz, and both hands counted."""
        ornament = self.stroke.ornament
        if ornament and ornament.graces:
            return 1 + ornament.graces
        return 2 if ornament in (Ornament.DOUBLE, Ornament.BUZZ) or self.helper else 1

    @property
    def mirrored(self) -> LimbStroke:
        return replace(self, limb=self.limb.other, helper=self.helper.other if self.helper else None)


@dataclass(frozen=True, slots=True)
class Assignment:
    """Every stroke of a groove with its limb, in order; it is taken to be played round and round.

    ``length``, ``beats`` (onsets) and all onsets are fractions of a whole note at ``tempo``. ``left_over``: strokes for
    which no limb was free at their moment. ``closings``: moments at which the left foot has to close an open hi-hat,
    that of the moments alone at which a stick strikes it closed. ``leading``: the hand that leads.
    """

    strokes: tuple[LimbStroke, ...]
    length: Fraction
    tempo: Tempo
    beats: tuple[Fraction, ...] = ()
    left_over: tuple[Stroke, ...] = ()
    closings: tuple[Fraction, ...] = ()
    leading: Side = Side.RIGHT
    places: DrumSet = field(default_factory=dict, repr=False, compare=False)

    @property
    def second(self) -> Fraction:
        """Whole notes in a second."""
        return self.tempo.beat * self.tempo.bpm / 60

    @property
    def pedal_foot(self) -> Limb:
        """The foot on the hi-hat's pedal: that of the hand that does not lead."""
        return Limb.LEFT_FOOT if self.leading is Side.RIGHT else Limb.RIGHT_FOOT

    def of(self, limb: Limb) -> tuple[LimbStroke, ...]:
        return tuple(stroke for stroke in self.strokes if limb in stroke.limbs)

    def place(self, stroke: Stroke) -> Place:
        return self.places.get(stroke.instrument) or Place(surface=stroke.instrument.name)

    def at(self, bpm: int) -> Assignment:
        """The same strokes at another tempo."""
        return replace(self, tempo=replace(self.tempo, bpm=bpm))
