"""What is struck when a stroke is played: a stroke goes in, its hits come out, graces and rebounds among them.

Lengths are ours, in fractions of a whole note, so that ornaments keep their place at every tempo:

| ornament | played |
| --- | --- |
| flam, drag, ruff | one, two, three graces before the stroke, a sixty-fourth apart, or a quarter of a shorter step |
| double | two hits, the second in the middle of the step and without accent |
| buzz | hits all along the step, evenly, a sixty-fourth apart or a little closer |
| choke | a quarter of the step long; General MIDI has no key for a cymbal that is stopped |
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from engraver.rhythm import Ornament, Stroke, Touch
from engraver.style import Velocities

GRACE = Fraction(1, 64)
BOUNCE = Fraction(1, 64)


@dataclass(frozen=True, slots=True)
class Hit:
    """One note of a MIDI file; ``onset`` is before 0 for a grace hit before the first beat."""

    onset: Fraction
    key: int
    velocity: int
    length: Fraction


def hits(stroke: Stroke, key: int, velocities: Velocities) -> tuple[Hit, ...]:
    """In order of time. ``step`` of the stroke is how long it lasts."""
    strength = velocities.of(stroke.touch)
    match stroke.ornament:
        case Ornament.DOUBLE:
            return tuple(_double(stroke, key, velocities))
        case Ornament.BUZZ:
            return tuple(_buzz(stroke, key, strength, min(velocities.bounce, strength)))
        case Ornament.CHOKE:
            return (Hit(stroke.onset, key, strength, stroke.step / 4),)
        case _:
            graces = _graces(stroke, key, min(velocities.grace, strength))
            return (*graces, Hit(stroke.onset, key, strength, stroke.step))


def _graces(stroke: Stroke, key: int, velocity: int) -> Iterator[Hit]:
    count = stroke.ornament.graces if stroke.ornament else 0
    apart = min(GRACE, stroke.step / 4)
    return (Hit(stroke.onset - apart * before, key, velocity, apart) for before in range(count, 0, -1))


def _double(stroke: Stroke, key: int, velocities: Velocities) -> Iterator[Hit]:
    half = stroke.step / 2
    rebound = Touch.GHOST if stroke.is_ghost else Touch.PLAIN
    yield Hit(stroke.onset, key, velocities.of(stroke.touch), half)
    yield Hit(stroke.onset + half, key, velocities.of(rebound), half)


def _buzz(stroke: Stroke, key: int, strength: int, bounce: int) -> Iterator[Hit]:
    count = max(2, -(-stroke.step // BOUNCE))
    apart = stroke.step / count
    for turn in range(count):
        yield Hit(stroke.onset + apart * turn, key, bounce if turn else strength, apart)
