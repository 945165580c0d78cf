"""What the proof finds: one place where sound or ink is not the groove, told as a drummer would say it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from engraver.rhythm import Groove, Ornament, Stroke, Touch


@dataclass(frozen=True, slots=True)
class Place:
    """``bar`` as authors count: the first whole bar is 1, a pickup 0. ``step`` counts from 1, exactly."""

    bar: int
    step: Fraction

    def __str__(self) -> str:
        bar = f"bar {self.bar}" if self.bar else "the pickup"
        whole = self.step.numerator // self.step.denominator
        return f"{bar}, step {whole}" if whole == self.step else f"{bar}, between steps {whole} and {whole + 1}"


@dataclass(frozen=True, slots=True)
class Difference:
    """``part`` is a passage of the chapter; without a ``place`` it concerns all of it."""

    chapter: str
    part: str
    place: Place | None
    what: str

    def __str__(self) -> str:
        place = f", {self.place}" if self.place else ""
        return f"{self.chapter}, {self.part}{place}: {self.what}"


@dataclass(frozen=True, slots=True)
class Found:
    """A difference within one passage. ``onset`` is written time; None concerns all of the passage."""

    onset: Fraction | None
    what: str


def told(chapter: str, part: str, groove: Groove, found: Iterable[Found]) -> tuple[Difference, ...]:
    """In the order of the page; what happens each time through is told once."""
    once = dict.fromkeys(sorted(found, key=lambda one: (one.onset is not None, one.onset or 0, one.what)))
    return tuple(
        Difference(chapter, part, None if one.onset is None else place(groove, one.onset), one.what) for one in once
    )


def place(groove: Groove, onset: Fraction) -> Place:
    """Where a written moment is; what lies beyond the last bar is counted on from there."""
    index = max((i for i, bar in enumerate(groove.bars) if bar.start <= onset), default=0)
    number = index if groove.pickup else index + 1
    return Place(number, (onset - groove.bars[index].start) / groove.step + 1)


def describe(stroke: Stroke) -> str:
    """``snare, ghost`` or ``floor tom, accent, flam``; a plain stroke is its instrument."""
    return ", ".join([stroke.instrument.name, *marks(stroke.touch, stroke.ornament)])


def marks(touch: Touch, ornament: Ornament | None) -> tuple[str, ...]:
    return (() if touch is Touch.PLAIN else (touch.value,)) + ((ornament.value,) if ornament else ())
