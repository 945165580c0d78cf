"""What the exercise kinds are given: a groove, what is known of it, and the views of it that several of them need."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from engraver.analysis import Analysis, Lane
from engraver.chapters.exercises.windows import as_loop, has_ghosts, is_steady
from engraver.chapters.lanes import of_lanes
from engraver.rhythm import Groove, Instrument, Limb, Limbs
from engraver.style import Kit, Words

# Bass drums of the General MIDI Level 1 percussion map: 35 Acoustic Bass Drum, 36 Bass Drum 1.
BASS_DRUM_KEYS = (35, 36)


@dataclass(frozen=True)  # no slots: what several kinds ask for is kept
class Lesson:
    """``loop`` is the groove as it is played, repeats written out, from bar 1; ``steady`` is the loop without fills.

    ``feet`` and ``bass_drums`` are instruments of the kit.
    """

    groove: Groove
    facts: Analysis
    words: Words
    loop: Groove
    steady: Groove
    feet: frozenset[Instrument]
    bass_drums: frozenset[Instrument]

    @classmethod
    def of(cls, groove: Groove, facts: Analysis, kit: Kit, words: Words) -> Lesson:
        loop = as_loop(groove)
        steady = loop.keep([layer.name for layer in loop.layers if is_steady(layer, facts.fills)])
        rows = [kit[i] for i in {stroke.instrument for layer in groove.layers for stroke in layer.strokes}]
        feet = frozenset(row.instrument for row in rows if row.limbs is Limbs.FEET)
        drums = frozenset(row.instrument for row in rows if row.key in BASS_DRUM_KEYS)
        return cls(groove, facts, words, loop, steady, feet, drums & feet)

    @property
    def start(self) -> Fraction:
        """Where the loop begins in the author's groove."""
        return self.groove.pickup

    def place(self, onset: Fraction) -> Fraction:
        """Where that is in the author's groove, repeats not written out, which is at ``onset`` of the loop."""
        index = self.loop.bar_at(onset)
        written = self.groove.played_bars[index + bool(self.groove.pickup)]
        return self.groove.bars[written].start + onset - self.loop.bars[index].start

    @cached_property
    def with_ghosts(self) -> Groove:
        """The layers that are known when the last ghost notes come in: no layer after theirs."""
        names = [layer.name for layer in self.steady.layers]
        last = max((n for n, layer in enumerate(self.steady.layers) if has_ghosts(layer)), default=-1)
        return self.steady.keep(names[: last + 1])

    @property
    def pulse(self) -> tuple[Lane, ...]:
        """What keeps the time; where nothing does, what says where the bar is."""
        return self.facts.timekeepers or self.facts.meter_lanes

    @cached_property
    def doubling(self) -> tuple[Lane, ...]:
        """The bass drums that join another one later: the second foot's."""
        lanes = [
            Lane(layer.name, instrument)
            for layer in self.steady.layers
            for instrument in dict.fromkeys(stroke.instrument for stroke in layer.strokes)
            if instrument in self.bass_drums
        ]
        return tuple(lane for lane in lanes if lane.instrument != lanes[0].instrument)

    @cached_property
    def leading(self) -> tuple[Lane, ...]:
        """What the leading hand plays of the layer of figure or time that hands are busiest in; of equals the first.

        Where both hands share every lane of it, that is all of them.
        """
        lanes = self.lanes(of_feet=False)
        counts = {layer.name: len(layer.strokes) for layer in of_lanes(self.steady, lanes).layers}
        busiest = max(counts, key=lambda name: counts[name], default="")
        inside = tuple(lane for lane in lanes if lane.layer == busiest)
        return tuple(lane for lane in inside if self.is_led(lane)) or inside

    def is_led(self, lane: Lane) -> bool:
        """All but a few of its strokes are the leading hand's."""
        limbs = self.facts.limbs
        leader = Limb.of(Limbs.HANDS, limbs.leading)
        layers = (layer.only({lane.instrument}) for layer in self.groove.layers if layer.name == lane.layer)
        inside = {stroke.onset.as_integer_ratio() for layer in layers for stroke in layer.strokes}
        played = (each for each in limbs.strokes if each.stroke.instrument == lane.instrument)
        ours = [each for each in played if each.onset.as_integer_ratio() in inside]
        return 4 * sum(each.limb is leader for each in ours) >= 3 * len(ours)

    def lanes(self, *, of_feet: bool) -> tuple[Lane, ...]:
        """What hands, or feet, play of figure and time; the second bass drum left out."""
        known = (*self.facts.figure, *self.facts.timekeepers)
        return tuple(lane for lane in known if (lane.instrument in self.feet) is of_feet and lane not in self.doubling)
