"""The measures of one groove's figure, over a bar where every bar is alike, else over the phrase."""

from __future__ import annotations

from collections.abc import Sequence

from engraver.analysis.evenness import euclidean_form, variability
from engraver.analysis.grid import Grid, GridBar, Rows
from engraver.analysis.marks import SILENCE
from engraver.analysis.report import Measures
from engraver.analysis.syncopation import divided, keith, longuet_higgins_lee, off_beatness, pressing, wnbd


def measures(grid: Grid, skeleton: Rows) -> Measures | None:
    """``skeleton``: the figure's rows over the whole groove. None if nothing sounds."""
    over = _over(grid, skeleton)
    onsets = _onsets(grid, skeleton, over)
    if not onsets:
        return None
    weights = bar_weights(grid, over)
    strengths = longuet_higgins_lee(onsets, weights) if weights else None
    beat = grid.beat
    binary = beat is not None and beat & (beat - 1) == 0
    return Measures(
        over=over,
        longuet_higgins_lee=sum(each or 0 for each in strengths) if strengths is not None else None,
        wnbd=wnbd(onsets, over, beat) if beat else None,
        keith=keith(onsets, over) if binary else None,
        off_beatness=off_beatness(onsets, over),
        pressing=pressing(onsets) if (over, beat) == (16, 4) else None,
        evenness=variability(onsets, over),
        euclidean=euclidean_form(onsets, over),
    )


def _onsets(grid: Grid, rows: Rows, over: int) -> list[int]:
    return [step for step in range(over) if any(row[grid.start + step] != SILENCE for row in rows.values())]


def _over(grid: Grid, rows: Rows) -> int:
    bar = grid.bar
    if not bar or grid.phrase % bar:
        return grid.phrase
    onsets = set(_onsets(grid, rows, grid.phrase))
    alike = all((step in onsets) == (step % bar in onsets) for step in range(grid.phrase))
    return bar if alike else grid.phrase


def bar_weights(grid: Grid, over: int) -> tuple[int, ...] | None:
    """Metrical weights of ``over`` steps from the phrase's start; None where a bar's beats are uneven."""
    bars = [bar for bar in grid.bars if grid.start <= bar.start < grid.start + over]
    found = [_weights(bar) for bar in bars]
    weights = tuple(weight for each in found if each for weight in each)
    return weights if len(weights) == over else None


def _weights(bar: GridBar) -> tuple[int, ...] | None:
    """Beats are halved before they come in threes; a beat comes in threes before halves."""
    if len(set(bar.beats)) > 1 or sum(bar.beats) != bar.length:
        return None
    return divided([*_primes(len(bar.beats)), *reversed(_primes(bar.beats[0]))])


def _primes(number: int) -> Sequence[int]:
    found, prime = [], 2
    while number > 1:
        while number % prime == 0:
            found.append(prime)
            number //= prime
        prime += 1
    return found
