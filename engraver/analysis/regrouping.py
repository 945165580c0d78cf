"""Bars in which the cells line up with the bar lines: how many cells to join, and why. A reading in."""

from __future__ import annotations

from engraver.analysis.grid import Grid
from engraver.analysis.report import CellReading, Regrouping, RegroupReason, Sequence


def regroupings(grid: Grid, reading: CellReading, sequence: Sequence | None) -> tuple[Regrouping, ...]:
    """Candidates, the plainest first; none twice for the same number of cells."""
    number = len(reading.full) // reading.passes
    wanted = {1: RegroupReason.CELL}
    if sequence and 1 < sequence.period <= number // 2:
        wanted.setdefault(sequence.period, RegroupReason.SEQUENCE)
    if grid.bar and 1 < (nearest := max(1, round(grid.bar / reading.length))) <= number:
        wanted.setdefault(nearest, RegroupReason.NEAREST)
    if number >= 4 and reading.length == 3:
        wanted.setdefault(4, RegroupReason.BEATS)
    return tuple(_regrouping(reading, number, cells, reason) for cells, reason in wanted.items())


def _regrouping(reading: CellReading, number: int, cells: int, reason: RegroupReason) -> Regrouping:
    bars, over = divmod(number, cells)
    return Regrouping(cells, cells * reading.length, bars, over, reading.remainder, reason)
