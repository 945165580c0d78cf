"""The tempos that a body allows. An Assignment in, beats a minute out."""

from __future__ import annotations

from dataclasses import dataclass

from engraver.analysis.limbs.assignment import Assignment
from engraver.analysis.limbs.bands import Band
from engraver.analysis.limbs.rates import Rate, every_rate

SLOWEST = 1  # a tempo is a whole number of beats, at least one


@dataclass(frozen=True, slots=True)
class TempoLimit:
    """At ``bpm``, a whole number of beats a minute, no limb leaves the band; ``hardest`` is the rate that says so."""

    bpm: int
    hardest: Rate


def hardest(assignment: Assignment, band: Band = Band.EXPERT) -> Rate | None:
    """The rate nearest to the upper end of its limb's band, or farthest above it."""
    return max(every_rate(assignment), key=lambda rate: rate.load(band), default=None)


def fastest(assignment: Assignment, band: Band = Band.EXPERT) -> TempoLimit | None:
    """The fastest whole tempo at which every limb is within its band; None where nothing is struck.

    Rates rise as the tempo does, so the tempo at which the hardest of them meets its limit is the limit of all.
    """
    worst = hardest(assignment, band)
    if worst is None:
        return None
    return TempoLimit(max(SLOWEST, int(assignment.tempo.bpm / worst.load(band))), worst)


def within(assignment: Assignment, wanted: int, band: Band) -> int:
    """``wanted`` beats a minute, or the fastest tempo below it that keeps every limb within the band."""
    found = fastest(assignment, band)
    return min(wanted, found.bpm) if found else wanted
