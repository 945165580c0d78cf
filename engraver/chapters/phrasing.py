"""Lengths, counts and names as parts of a sentence: numbers in words, plurals, lists. All wording is the language's."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from engraver.analysis import Analysis
from engraver.analysis.cross_rhythm import BEAT
from engraver.analysis.report import CellReading
from engraver.rhythm import Groove, Instrument
from engraver.style import Words, capital


@dataclass(frozen=True, slots=True)
class Phrasing:
    """``step``: the note value that lengths are counted in."""

    step: Fraction
    say: Words

    def steps(self, n: int) -> str:
        """Three sixteenths; a step without a name of its own is called step."""
        return self._steps(n, self.say.number(n))

    def steps_in_figures(self, n: int) -> str:
        return self._steps(n, str(n))

    def _steps(self, n: int, count: str) -> str:
        return self.say("finding steps", count=count, step=self.say.value(self.step, n))

    def left_over(self, n: int) -> str:
        return self.say("finding left over", n=n, left=self.steps(n))

    def beats(self, n: int) -> str:
        return self.say("n beats", n=n, count=self.say.number(n))

    def cells(self, n: int) -> str:
        return self.say("n cells", n=n, count=self.say.number(n))

    def bars(self, n: int) -> str:
        return self.say("finding bars", n=n, count=self.say.number(n))

    def pulse(self, name: str, accents: bool) -> str:
        """An instrument or the beat, or its accents alone."""
        if name == BEAT:
            return self.say("finding beat")
        instrument = Instrument(name)
        if accents:
            return self.say("finding accents", instrument=self.say.name(instrument))
        return self.say.said(instrument)

    def listed(self, parts: Sequence[str]) -> str:
        """A, B and C."""
        if len(parts) < 2:
            return "".join(parts)
        return self.say("finding list", first=", ".join(parts[:-1]), last=parts[-1])

    def runs(self, places: Sequence[int]) -> tuple[str, ...]:
        """Indexes as places from 1; three or more in a row as "3 to 6"."""
        found: list[list[int]] = []
        for place in places:
            if found and place == found[-1][-1] + 1:
                found[-1].append(place)
            else:
                found.append([place])
        return tuple(text for run in found for text in self._run(run))

    def _run(self, run: Sequence[int]) -> list[str]:
        if len(run) < 3:
            return [str(place + 1) for place in run]
        return [self.say("finding run", first=run[0] + 1, last=run[-1] + 1)]

    @staticmethod
    def order(letters: Sequence[str]) -> str:
        return " ".join(letters)


@dataclass(frozen=True, slots=True)
class Told:
    """What is spoken of, and how lengths are put in words."""

    groove: Groove
    facts: Analysis
    words: Phrasing

    @property
    def cells(self) -> CellReading | None:
        cells = self.facts.cells
        return cells if cells and cells.sure else None

    def whole(self, steps: int) -> str:
        """So many bars hold, or the phrase holds; nothing where it is neither."""
        lengths = {bar.length for bar in self.groove.bars if bar.is_whole}
        length = steps * self.facts.step
        if len(lengths) == 1 and length % min(lengths) == 0:
            number = int(length / min(lengths))
            return capital(self.words.say("finding bars hold", n=number, bars=self.words.bars(number)))
        return self.words.say("finding phrase holds") if length == self.facts.phrase.length else ""
