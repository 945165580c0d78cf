"""Everything that can be said about a groove: a Groove in, an Analysis out, one question after another."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from engraver.analysis.cells import Frame, bare, read_cells
from engraver.analysis.cross_rhythm import cell_against_beat, cross_rhythms, realign
from engraver.analysis.grid import Grid, GridLayer, Rows, grid
from engraver.analysis.grouping import groupings
from engraver.analysis.layers import layer_effects
from engraver.analysis.limbs import DrumSet, assign, rates
from engraver.analysis.marks import SILENCE, accents, skeleton
from engraver.analysis.measures import measures
from engraver.analysis.regrouping import regroupings
from engraver.analysis.report import Analysis, CellReading, Grouping, StatedCells
from engraver.analysis.roles import Roles, phrase_restarts, roles
from engraver.analysis.segmentation import Places, find_cells, head
from engraver.analysis.sequence import sequence
from engraver.rhythm import Groove, Side, Span


def analyse(
    groove: Groove, stated: StatedCells | None = None, places: DrumSet | None = None, leading: Side = Side.RIGHT
) -> Analysis:
    """``stated`` is the author's own word on the cells, in steps of the groove; it wins over what is found.

    ``places``: where the instruments stand on the set; those that it does not hold are taken to be the hands'.
    ``leading``: the hand that leads. Sticking and places are given as for the right.
    """
    on_grid = grid(groove)
    own = _in_grid_steps(stated, groove.step / on_grid.step)
    parts = roles(on_grid, own)
    rows = on_grid.rows(parts.figure, ghosts_of=parts.meter)
    cells = _cells(on_grid, parts, rows, own)
    full = sequence(cells.full) if cells else None
    limbs = assign(groove, places or {}, leading)
    return Analysis(
        step=on_grid.step,
        steps=on_grid.steps,
        phrase=Span(on_grid.start * on_grid.step, (on_grid.start + on_grid.phrase) * on_grid.step),
        figure=parts.figure,
        timekeepers=parts.timekeepers,
        cells=cells,
        realign=realign(cells.length, [bar.length for bar in on_grid.phrase_bars]) if cells else None,
        cross_rhythms=cross_rhythms(on_grid, parts),
        skeleton_sequence=sequence(cells.skeleton) if cells else None,
        full_sequence=full,
        meter_lanes=parts.meter,
        fills=parts.fills,
        cell_against_beat=cell_against_beat(on_grid, cells.length, cells.start, cells.phrase_steps) if cells else None,
        layer_effects=layer_effects(on_grid, parts, cells) if cells else (),
        measures=measures(on_grid, bare(rows)),
        limbs=limbs,
        rates=rates(limbs),
        groupings=_groupings(on_grid, rows),
        regroupings=regroupings(on_grid, cells, full) if cells else (),
    )


def _groupings(grid: Grid, rows: Rows) -> tuple[Grouping, ...]:
    """Of the figure's bar, if it is the same in every bar."""
    weights = [max((_weight(row[step]) for row in rows.values()), default=0) for step in range(grid.steps)]
    bars = {tuple(weights[bar.start : bar.start + bar.length]) for bar in grid.phrase_bars}
    return groupings(bars.pop()) if len(bars) == 1 else ()


def _weight(mark: str) -> int:
    return 0 if skeleton(mark) == SILENCE else 2 if accents(mark) else 1


def _in_grid_steps(stated: StatedCells | None, times: Fraction) -> StatedCells | None:
    return StatedCells(int(stated.length * times), int(stated.start * times)) if stated else None


def _cells(grid: Grid, parts: Roles, rows: Rows, stated: StatedCells | None) -> CellReading | None:
    """The author's cells if they fit in the phrase at least once, else those found."""
    reading = _found(grid, rows) if stated is None else _stated(grid, parts, rows, stated)
    if reading is None:
        return None
    marks = [row[grid.start : grid.start + grid.passes * grid.phrase] for row in rows.values()]
    strongest = head(marks, reading.length, reading.start, reading.phrase_steps)
    return replace(reading, covered=covered(grid, parts, reading), head=strongest)


def _stated(grid: Grid, parts: Roles, rows: Rows, stated: StatedCells) -> CellReading | None:
    if stated.length < 1 or not 0 <= stated.start <= grid.phrase - stated.length:
        return None
    restart = _restart(grid, parts, stated.length)
    holds_one = stated.start + stated.length <= restart
    frame = Frame(stated.length, restart if holds_one else grid.phrase, stated.start)
    return read_cells(grid, rows, frame, stated=True)


def _found(grid: Grid, rows: Rows) -> CellReading | None:
    """The length is taken from the skeleton, the letters then from all marks."""
    end = grid.start + grid.passes * grid.phrase
    skeletons = [row[grid.start : end] for row in bare(rows).values()]
    found = find_cells(skeletons, Places(phrase_restarts(grid), grid.bar, grid.beat)) if grid.phrase else None
    if found is None:
        return None
    frame = Frame(found.length, found.restart, found.start)
    reading = read_cells(grid, rows, frame, stated=False)
    return replace(reading, sure=found.is_sure, gain_bits=round(found.gain, 1), runner_up=found.runner_up)


def _restart(grid: Grid, parts: Roles, length: int) -> int:
    """The phrase, or the restart that a written cycle of this length has within it."""
    written = {
        cycle.restart
        for layer in grid.layers
        if layer.name not in parts.fills
        for cycle in layer.cycles
        if cycle.restart and cycle.length == length
    }
    return min((restart for restart in written if restart in phrase_restarts(grid)), default=grid.phrase)


def covered(grid: Grid, parts: Roles, reading: CellReading) -> tuple[int, ...]:
    """Indexes of the cells over which a fill lies or a layer silences an instrument."""
    spans = [(start, end) for layer in grid.layers for start, end in _laid_over(layer.name in parts.fills, layer, grid)]
    return tuple(
        index
        for index, place in enumerate(reading.places)
        if any(start < place + reading.length and place < end for start, end in spans)
    )


def _laid_over(is_fill: bool, layer: GridLayer, grid: Grid) -> list[tuple[Fraction, Fraction]]:
    """The stretches, in steps, that a layer takes from the figure."""
    ticks = grid.ticks_per_step
    spans = [(Fraction(hush.start, ticks), Fraction(hush.end, ticks)) for hush in layer.silences]
    if is_fill and layer.strokes and not spans:
        places = [stroke.tick for stroke in layer.strokes]
        spans.append((Fraction(min(places), ticks), Fraction(max(places) + 1, ticks)))
    return spans
