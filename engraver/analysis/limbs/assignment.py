"""Which limb plays which stroke: the answer of `assign`, in the times of the groove it was asked about."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from math import lcm
from typing import Any, TypeVar, cast

from engraver.rhythm import Instrument, Limb, Ornament, Place, Side, Span, Stroke, Tempo, Touch, tick_of

T = TypeVar("T")
DrumSet = Mapping[Instrument, Place]


@dataclass(frozen=True, slots=True)
class LimbStroke:
    """A written stroke and the limb that plays it.

    ``helper``: the other hand where it is needed too, for the grace strokes of an ornament or for a stroke that the
    sticking gives to both. An ornament has none where the other hand strikes something else at that moment.
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
class Ticks:
    """Times in whole ticks, ``whole`` of which make a whole note, for each limb in order.

    ``beats``: start and length of each, the shortest of which lasts ``shortest_beat``; ``touched``: the onsets of what
    a limb itself strikes with a touch. ``struck``: its strokes, help included. ``motions``: how often it moves: the
    graces of an ornament are one motion of the hand that helps, and fall on it; a double is two; a buzz is one, as the
    stick bounces by itself.
    """

    whole: int
    length: int
    struck: Mapping[Limb, tuple[int, ...]]
    motions: Mapping[Limb, tuple[int, ...]]
    beats: tuple[tuple[int, int], ...]
    shortest_beat: int
    touched: Mapping[tuple[Limb, Touch], tuple[int, ...]]


@dataclass(frozen=True, slots=True)
class Assignment:
    """Every stroke of a groove with its limb, in order; it is taken to be played round and round.

    ``length``, ``beats`` and all onsets are fractions of a whole note at ``tempo``. ``left_over``: strokes for
    which no limb was free at their moment. ``closings``: moments at which the left foot has to close an open hi-hat,
    that of the moments alone at which a stick strikes it closed. ``leading``: the hand that leads.
    """

    strokes: tuple[LimbStroke, ...]
    length: Fraction
    tempo: Tempo
    beats: tuple[Span, ...] = ()
    left_over: tuple[Stroke, ...] = ()
    closings: tuple[Fraction, ...] = ()
    leading: Side = Side.RIGHT
    places: DrumSet = field(default_factory=dict, repr=False, compare=False)
    _found: dict[Callable[[Assignment], Any], Any] = field(default_factory=dict, init=False, repr=False, compare=False)

    def once(self, find: Callable[[Assignment], T]) -> T:
        """What ``find`` says of this assignment; it is asked the first time only."""
        if find not in self._found:
            self._found[find] = find(self)
        return cast(T, self._found[find])

    @property
    def by_tick(self) -> Mapping[tuple[int, str], LimbStroke]:
        """The strokes by their tick, as `in_ticks` counts, and the name of their instrument."""
        return self.once(_by_tick)

    @property
    def mirrored(self) -> Assignment:
        """As played by somebody whose other hand leads, on a set the other way round."""
        return replace(self, strokes=tuple(stroke.mirrored for stroke in self.strokes), leading=self.leading.other)

    @property
    def second(self) -> Fraction:
        """Whole notes in a second."""
        return self.once(_second)

    @property
    def pedal_foot(self) -> Limb:
        """The foot on the hi-hat's pedal: that of the hand that does not lead."""
        return Limb.LEFT_FOOT if self.leading is Side.RIGHT else Limb.RIGHT_FOOT

    @property
    def in_ticks(self) -> Ticks:
        """The same in whole numbers."""
        return self.once(_in_ticks)

    def of(self, limb: Limb) -> tuple[LimbStroke, ...]:
        return tuple(stroke for stroke in self.strokes if limb in stroke.limbs)

    def limb_at(self, onset: Fraction, instrument: Instrument) -> Limb:
        """Who strikes the instrument there."""
        return self.by_tick[tick_of(onset, self.in_ticks.whole), instrument.name].limb

    def place(self, stroke: Stroke) -> Place:
        return self.places.get(stroke.instrument) or Place(surface=stroke.instrument.name)

    def at(self, bpm: int) -> Assignment:
        """The same strokes at another tempo."""
        return replace(self, tempo=replace(self.tempo, bpm=bpm))


def _second(assignment: Assignment) -> Fraction:
    return assignment.tempo.beat * Fraction(assignment.tempo.bpm, 60)


def _by_tick(assignment: Assignment) -> Mapping[tuple[int, str], LimbStroke]:
    whole = assignment.in_ticks.whole
    return {(tick_of(each.stroke.onset, whole), each.stroke.instrument.name): each for each in assignment.strokes}


def _in_ticks(assignment: Assignment) -> Ticks:
    whole = _ticks_in_a_whole_note(assignment)
    length = tick_of(assignment.length, whole)
    struck: dict[Limb, set[int]] = {limb: set() for limb in Limb}
    motions: dict[Limb, set[int]] = {limb: set() for limb in Limb}
    touched: dict[tuple[Limb, Touch], set[int]] = {}
    for each in assignment.strokes:
        tick = tick_of(each.stroke.onset, whole)
        touched.setdefault((each.limb, each.stroke.touch), set()).add(tick)
        for limb in each.limbs:
            struck[limb].add(tick)
            motions[limb].add(tick)
        if each.stroke.ornament is Ornament.DOUBLE:
            motions[each.limb].add((tick + tick_of(each.stroke.step, whole) // 2) % length)
    edges = ((tick_of(beat.start, whole), tick_of(beat.end, whole)) for beat in assignment.beats)
    beats = tuple((start, end - start) for start, end in edges)
    shortest = min((length for _, length in beats), default=tick_of(assignment.tempo.beat, whole))
    return Ticks(whole, length, _sorted(struck), _sorted(motions), beats, shortest, _sorted(touched))


def _ticks_in_a_whole_note(assignment: Assignment) -> int:
    parts = {assignment.length.denominator, assignment.tempo.beat.denominator}
    for beat in assignment.beats:
        parts |= {beat.start.denominator, beat.end.denominator}
    for each in assignment.strokes:
        parts.add(each.stroke.onset.denominator)
        if each.stroke.ornament is Ornament.DOUBLE:
            parts.add(2 * each.stroke.step.denominator)  # its second stroke falls on half of the step
    return lcm(*parts)


def _sorted(times: Mapping[T, set[int]]) -> Mapping[T, tuple[int, ...]]:
    return {each: tuple(sorted(ticks)) for each, ticks in times.items()}
