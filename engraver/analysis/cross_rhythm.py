"""Pulses against one another, against the beat, and cells against bars. Whole numbers of steps in and out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise
from math import gcd, lcm

from engraver.analysis.grid import Grid
from engraver.analysis.marks import SILENCE, accents, skeleton
from engraver.analysis.pulse import Pulse, pulse
from engraver.analysis.report import CrossRhythm, Lane, Realign
from engraver.analysis.roles import Roles, phrase_restarts

BEAT = "beat"


@dataclass(frozen=True, slots=True)
class NamedPulse:
    """``accents``: made by the accents alone."""

    name: str
    pulse: Pulse
    accents: bool = False


def realign(cell: int, bars: Sequence[int]) -> Realign:
    """When a cell and a bar line meet again, the bars following one another over and over."""
    steps = count = 0
    while True:
        steps, count = steps + bars[count % len(bars)], count + 1
        if steps % cell == 0:
            return Realign(lcm=steps, bars=count, cells=steps // cell)


def resultant(a: Pulse, b: Pulse) -> tuple[int, ...]:
    """Steps from stroke to stroke of both together in one cycle, from where they meet or else from a stroke of a."""
    cycle = lcm(a.spacing, b.spacing)
    ours = set(range(0, cycle, a.spacing))
    theirs = {place % cycle for place in range(b.phase - a.phase, b.phase - a.phase + cycle, b.spacing)}
    meeting = min(ours & theirs, default=0)
    together = sorted((place - meeting) % cycle for place in ours | theirs)
    return tuple(after - before for before, after in pairwise([*together, cycle]))


def against(a: NamedPulse, b: NamedPulse, phrase: int) -> CrossRhythm:
    """The cross-rhythm of two pulses within ``phrase`` steps."""
    first, second = a.pulse, b.pulse
    cycle = lcm(first.spacing, second.spacing)
    meets = (first.phase - second.phase) % gcd(first.spacing, second.spacing) == 0
    return CrossRhythm(
        a=a.name,
        b=b.name,
        ratio=(cycle // first.spacing, cycle // second.spacing),
        cycle_steps=cycle,
        coincidences=int(meets),
        resultant=resultant(first, second),
        whole_cycles=phrase // cycle,
        cut_off_steps=phrase % cycle,
        spacing=(first.spacing, second.spacing),
        phase=(first.phase, second.phase),
        turns=(phrase // first.spacing, phrase // second.spacing),
        left_over=(phrase % first.spacing, phrase % second.spacing),
        accents=(a.accents, b.accents),
    )


def cross_rhythms(grid: Grid, roles: Roles) -> tuple[CrossRhythm, ...]:
    """Every pair of pulses of which neither divides the other, the figure's first, the beat last."""
    named = list(_pulses(grid, (*roles.figure, *roles.meter, *roles.timekeepers)))
    if beat := _beat(grid):
        named.append(beat)
    found = [
        against(a, b, min(a.pulse.restart, b.pulse.restart))
        for a, b in combinations(named, 2)
        if _cross(a.pulse, b.pulse)
    ]
    return tuple(dict.fromkeys(found))


def cell_against_beat(grid: Grid, length: int, start: int, phrase: int) -> CrossRhythm | None:
    """The beginnings of the cells as a pulse over the beat; None where one fits into the other."""
    beat = _beat(grid)
    cells = NamedPulse("cell", Pulse(length, start % length, phrase))
    return against(cells, beat, phrase) if beat and _cross(cells.pulse, beat.pulse) else None


def _cross(a: Pulse, b: Pulse) -> bool:
    return a.spacing % b.spacing != 0 and b.spacing % a.spacing != 0


def _beat(grid: Grid) -> NamedPulse | None:
    return NamedPulse(BEAT, Pulse(grid.beat, 0, grid.phrase)) if grid.beat else None


def _pulses(grid: Grid, lanes: Sequence[Lane]) -> Iterator[NamedPulse]:
    """The pulse of each lane's strokes (ghosts are none), and that of its accents where it is another.

    A stroke once a bar or less is as even, but nobody hears it as a pulse against another.
    """
    tried = phrase_restarts(grid)
    steps = grid.passes * grid.phrase
    for lane in lanes:
        marks = grid.rows([lane])[lane.instrument][grid.start : grid.start + steps]
        struck = pulse([i for i, mark in enumerate(marks) if skeleton(mark) != SILENCE], steps, tried)
        accented = pulse([i for i, mark in enumerate(marks) if accents(mark)], steps, tried)
        if struck and _is_heard(struck, grid):
            yield NamedPulse(lane.instrument.name, struck)
        if accented and accented != struck and _is_heard(accented, grid):
            yield NamedPulse(lane.instrument.name, accented, accents=True)


def _is_heard(pulse: Pulse, grid: Grid) -> bool:
    return pulse.spacing < min(bar.length for bar in grid.phrase_bars)
