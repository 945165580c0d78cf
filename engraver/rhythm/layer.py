"""A layer: strokes that are learnt together, and what they take away from the layers before them.

Every view (a window, stretched, later, joined to another) is a new `Layer`.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace
from enum import Enum
from fractions import Fraction

from engraver.rhythm.stroke import Instrument, Stroke
from engraver.rhythm.time import ZERO, Span


class Role(Enum):
    """What a layer is for; the author may say it, else the analysis finds it."""

    FIGURE = "figure"  # carries the repeating idea
    TIME = "time"  # a steady hand or foot
    METER = "meter"  # says where the bar is, such as a backbeat
    FILL = "fill"


@dataclass(frozen=True, slots=True)
class Silence:
    """What a layer takes away before it is laid in: these instruments, all along the span."""

    span: Span
    instruments: frozenset[Instrument]

    def hides(self, stroke: Stroke) -> bool:
        return stroke.onset in self.span and stroke.instrument in self.instruments


@dataclass(frozen=True, slots=True)
class Cycle:
    """A pattern the author wrote as repeating without regard to bar lines.

    It begins at ``start`` and again every ``restart``; None means only at the phrase.
    """

    instrument: Instrument
    length: Fraction
    start: Fraction = ZERO
    restart: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Layer:
    """Strokes that are learnt together. ``replaces``: its strokes take the place of earlier ones they meet."""

    name: str
    strokes: tuple[Stroke, ...]
    role: Role | None = None
    silences: tuple[Silence, ...] = ()
    cycles: tuple[Cycle, ...] = ()
    replaces: bool = False

    def only(self, wanted: Collection[Instrument]) -> Layer:
        """What these instruments play of it; it silences what it did."""
        return replace(self, strokes=tuple(stroke for stroke in self.strokes if stroke.instrument in wanted))

    def slice(self, span: Span) -> Layer:
        """What lies in ``span``, told from its start; the note of written cycles is dropped."""
        back = -span.start
        moved = tuple(stroke.moved(back) for stroke in self.strokes if stroke.onset in span)
        silences = tuple(
            replace(silence, span=part.shift(back))
            for silence in self.silences
            if (part := silence.span.clip(span)) is not None
        )
        return replace(self, strokes=moved, silences=silences, cycles=())

    def scale(self, factor: Fraction) -> Layer:
        """Every time multiplied."""
        return replace(
            self,
            strokes=tuple(replace(s, onset=s.onset * factor, step=s.step * factor) for s in self.strokes),
            silences=tuple(
                replace(silence, span=Span(silence.span.start * factor, silence.span.end * factor))
                for silence in self.silences
            ),
        )

    def shift(self, by: Fraction) -> Layer:
        """The same, later by so much."""
        return replace(
            self,
            strokes=tuple(stroke.moved(by) for stroke in self.strokes),
            silences=tuple(replace(silence, span=silence.span.shift(by)) for silence in self.silences),
        )

    def join(self, other: Layer) -> Layer:
        """The strokes of both under this one's name."""
        return replace(self, strokes=self.strokes + other.strokes, silences=self.silences + other.silences)
