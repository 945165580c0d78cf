"""How hard an exercise is, and at which tempos it is practised. Drafts in, numbers out."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from engraver.analysis import Analysis
from engraver.chapters.exercises import Draft
from engraver.rhythm import Groove


@dataclass(frozen=True, slots=True)
class Grader:
    groove: Groove
    facts: Analysis

    @property
    def whole(self) -> Fraction:
        return Fraction(len(self.groove.strokes))

    def difficulty(self, draft: Draft) -> Fraction:
        return Fraction(len(draft.groove.strokes))

    def grade(self, difficulty: Fraction) -> int:
        return max(1, min(5, round(5 * difficulty / self.whole)))

    def tempos(self, draft: Draft) -> tuple[int, int]:
        return self.groove.tempo.bpm, self.groove.tempo.bpm
