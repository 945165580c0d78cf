"""What is on the time line once a lane has been laid: marks at exact onsets, brackets, cycles, and what did not fit."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from engraver.definition.pattern import Pattern
from engraver.errors import Position, Problem
from engraver.rhythm import Span


@dataclass(frozen=True, slots=True)
class LaidMark:
    """A mark at its onset; ``step`` is the length of the grid step it was written on."""

    onset: Fraction
    step: Fraction
    letter: str
    pattern: Pattern
    index: int

    @property
    def position(self) -> Position:
        return self.pattern.place(self.index)


@dataclass(frozen=True, slots=True)
class LaidTuplet:
    span: Span
    count: int
    pattern: Pattern
    index: int

    @property
    def position(self) -> Position:
        return self.pattern.place(self.index)


@dataclass(frozen=True, slots=True)
class LaidCycle:
    length: Fraction
    start: Fraction
    restart: Fraction | None


@dataclass(frozen=True, slots=True)
class Laid:
    """All of one lane."""

    marks: tuple[LaidMark, ...] = ()
    tuplets: tuple[LaidTuplet, ...] = ()
    cycles: tuple[LaidCycle, ...] = ()
    problems: tuple[Problem, ...] = ()

    @classmethod
    def of(cls, parts: Iterable[Laid]) -> Laid:
        parts = tuple(parts)
        return cls(
            tuple(mark for part in parts for mark in part.marks),
            tuple(tuplet for part in parts for tuplet in part.tuplets),
            tuple(cycle for part in parts for cycle in part.cycles),
            tuple(problem for part in parts for problem in part.problems),
        )
