"""Which lanes carry the figure, which keep time, which say where the bar is. In: the grid; out: `Roles`.

An author's role wins. Else a lane whose marks come back with every beat keeps time; a lane that crosses the beat
is figure, and beside such a lane one that is the same in every bar only says where the bar is.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import gcd

from engraver.analysis.grid import Grid, GridCycle, GridLayer, Rows
from engraver.analysis.marks import SILENCE, skeleton
from engraver.analysis.pulse import period, restarts
from engraver.analysis.report import Lane, StatedCells
from engraver.rhythm import Role


@dataclass(frozen=True, slots=True)
class Roles:
    figure: tuple[Lane, ...]
    timekeepers: tuple[Lane, ...]
    meter: tuple[Lane, ...]
    fills: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Profile:
    """One lane over all phrases: its marks, its skeleton, how often that comes back (None: never)."""

    lane: Lane
    role: Role | None
    marks: tuple[str, ...]
    frame: tuple[str, ...]
    period: int | None
    written: GridCycle | None

    @property
    def is_ghosts(self) -> bool:
        return all(mark == SILENCE for mark in self.frame)


def roles(grid: Grid, stated: StatedCells | None = None) -> Roles:
    """The role of every lane. ``stated`` cells that cross the bar put bar-wise lanes outside the figure."""
    fills = tuple(layer.name for layer in grid.layers if is_fill(layer))
    profiles = [profile(grid, layer, lane) for layer in grid.layers if layer.name not in fills for lane in layer.lanes]
    steady = [p for p in profiles if _keeps_time(p, grid)]
    open_lanes = [p for p in profiles if p not in steady and p.role is not Role.METER]
    crossing = any(_crosses(p, grid) for p in open_lanes) or _is_crossing(stated.length if stated else None, grid)
    meter = [p for p in profiles if p.role is Role.METER or (crossing and p in open_lanes and _is_barwise(p, grid))]
    figure = [p for p in open_lanes if p not in meter]
    if not figure and len(profiles) == 1:
        figure, steady, meter = profiles, [], []
    return Roles(_lanes(figure), _lanes(steady), _lanes(meter), fills)


def is_fill(layer: GridLayer) -> bool:
    """A layer that silences others and brings no cycle of its own is laid over the figure, not part of it."""
    return layer.role is Role.FILL or (layer.role is None and bool(layer.silences) and not layer.cycles)


def profile(grid: Grid, layer: GridLayer, lane: Lane) -> Profile:
    rows: Rows = grid.marks(stroke for stroke in layer.strokes if stroke.instrument == lane.instrument)
    marks = rows[lane.instrument][grid.start : grid.start + grid.passes * grid.phrase]
    frame = tuple(skeleton(mark) for mark in marks)
    written = next((cycle for cycle in layer.cycles if cycle.instrument == lane.instrument), None)
    return Profile(lane, layer.role, marks, frame, _period(frame, grid), written)


def _period(frame: Sequence[str], grid: Grid) -> int | None:
    """The period within the phrase, or within a restart after fewer bars that repeats exactly."""
    found = period(frame)
    if grid.bar and found > grid.bar and found % grid.bar == 0:
        within = min((period(frame[:restart]) for restart in _shorter(grid, found)), default=found)
        if within * 4 <= found and grid.bar % within:
            return within
    return found if found * 2 <= len(frame) else None


def _shorter(grid: Grid, longest: int) -> Iterator[int]:
    return (length for length in phrase_restarts(grid) if longest % length == 0 and length >= 2 * (grid.bar or 0))


def phrase_restarts(grid: Grid) -> tuple[int, ...]:
    end = grid.start + grid.phrase
    return restarts(grid.phrase, [bar.start - grid.start for bar in grid.bars if grid.start <= bar.start < end])


def _keeps_time(p: Profile, grid: Grid) -> bool:
    """Its marks, accents and all, come back with every beat; ghosts alone keep no time."""
    if p.role is not None:
        return p.role is Role.TIME
    if p.is_ghosts or (p.written and _is_crossing(p.written.length, grid)):
        return False
    return _fits_beats(period(p.marks), grid)


def _fits_beats(length: int, grid: Grid) -> bool:
    """Uneven beats are ticked by their common unit, or by any pulse up to the shortest of them."""
    beats = {beat for bar in grid.bars for beat in bar.beats}
    return gcd(*beats) % length == 0 or (len(beats) > 1 and length <= min(beats))


def _crosses(p: Profile, grid: Grid) -> bool:
    if p.is_ghosts or p.role is Role.METER:
        return False
    return _is_crossing(p.written.length if p.written else p.period, grid)


def _is_crossing(length: int | None, grid: Grid) -> bool:
    """Neither does a bar hold it a whole number of times nor it whole bars, or it crosses the beat."""
    if not length or not grid.bar:
        return False
    crosses_bar = grid.bar % length != 0 and length % grid.bar != 0
    beat = grid.beat or grid.bar
    return crosses_bar or (length < grid.bar and beat % length != 0 and length % beat != 0)


def _is_barwise(p: Profile, grid: Grid) -> bool:
    """The same in every bar, and not by its own cycle across the beat."""
    if p.role is not None or p.is_ghosts or p.period is None or not grid.bar:
        return False
    return grid.bar % p.period == 0 and not _crosses(p, grid)


def _lanes(profiles: Sequence[Profile]) -> tuple[Lane, ...]:
    return tuple(p.lane for p in profiles)
