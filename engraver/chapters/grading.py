"""How hard an exercise is, and at which tempos it is practised. Drafts in, measured rungs and tempos out.

What limbs, bands and points are is said in `analysis/limbs` and `analysis/difficulty`.
"""

from __future__ import annotations

from dataclasses import dataclass

from engraver.analysis import Analysis, Band, carry, difficulty, within
from engraver.chapters.exercises import Draft, Kind
from engraver.chapters.rungs import Rung
from engraver.chapters.tempos import climb
from engraver.rhythm import Groove

START, GOAL = Band.EASY, Band.EXPERT  # no limb leaves these at the first and at the last tempo


@dataclass(frozen=True, slots=True)
class Grader:
    groove: Groove
    facts: Analysis

    def rung(self, draft: Draft, kind: Kind | None = None) -> Rung:
        """Measured at the tempo of the groove, with the limbs that play the groove."""
        played = draft.counted_out
        limbs = carry(self.facts.limbs, played.groove, played.offset, played.scale)
        measured = difficulty(limbs, self.facts.cross_rhythms, self.facts.step * played.scale)
        return Rung(draft, kind, limbs, measured)

    def tempos(self, rung: Rung) -> tuple[int, ...]:
        """The goal is the groove's own tempo, or the fastest that its limbs can go."""
        goal = within(rung.limbs, self.groove.tempo.bpm, GOAL)
        return climb(goal, within(rung.limbs, goal, START))
