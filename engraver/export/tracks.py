"""Events at exact moments become a track: ticks, and the time from one message to the next."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import lcm

import mido

from engraver.export.hits import Hit

DRUMS = 9  # channel 10 as musicians count: General MIDI Level 1 has its percussion there
MOST = 32767  # ticks a quarter: 15 bits (Standard MIDI File 1.0, header chunk, division)
USUAL = 480
FINEST = 30240  # 2^5 x 3^3 x 5 x 7; where elevens, thirteens ... meet others and nothing up to MOST holds them all


@dataclass(frozen=True, slots=True)
class Clock:
    """``division`` ticks a quarter; every moment that is counted comes ``lead`` later, after the count-in."""

    division: int
    lead: Fraction

    def __call__(self, onset: Fraction) -> int:
        """Exact, unless the division is `FINEST` for want of a better; then to half a tick."""
        return round((onset + self.lead) * 4 * self.division)


@dataclass(frozen=True, slots=True)
class Event:
    """``rank`` orders events of one tick: names first, then ends of notes, then beginnings."""

    tick: int
    rank: int
    message: mido.Message | mido.MetaMessage


def division(moments: Iterable[Fraction]) -> int:
    """The ticks a quarter that put every moment on a whole tick, a multiple of `USUAL` if it can be."""
    needed = 1
    for denominator in {(4 * moment).denominator for moment in moments}:
        needed = lcm(needed, denominator)
    return next((fit for fit in (lcm(USUAL, needed), needed) if fit <= MOST), FINEST)


def track(name: str, events: Iterable[Event], end: int) -> mido.MidiTrack:
    """Ends with an end-of-track event at ``end``."""
    made = mido.MidiTrack([mido.MetaMessage("track_name", name=name)])
    now = 0
    for event in sorted(events, key=lambda event: (event.tick, event.rank)):
        event.message.time = event.tick - now
        made.append(event.message)
        now = event.tick
    made.append(mido.MetaMessage("end_of_track", time=end - now))
    return made


def notes(hits: Iterable[Hit], clock: Clock, end: int) -> Iterator[Event]:
    """Beginning and end of every hit; a note ends no later than the next of its key begins.

    Of several hits of one key on one tick (a buzz that a flam cuts short) the hardest sounds.
    """
    loudest: dict[tuple[int, int], Hit] = {}
    for hit in hits:
        place = (hit.key, clock(hit.onset))
        if place not in loudest or loudest[place].velocity < hit.velocity:
            loudest[place] = hit
    for (key, start), following in pairwise([*sorted(loudest), (-1, end)]):
        hit = loudest[key, start]
        latest = following[1] if following[0] == key else end
        stop = max(start + 1, min(clock(hit.onset + hit.length), latest))
        yield Event(start, 2, mido.Message("note_on", channel=DRUMS, note=key, velocity=hit.velocity))
        yield Event(stop, 1, mido.Message("note_off", channel=DRUMS, note=key))
