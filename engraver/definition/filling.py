"""A pattern and the bars or beats it must fill in; its marks laid there, as often as it goes, or what does not fit."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from engraver.definition.bars import Numbers
from engraver.definition.grid import Grid, Unit
from engraver.definition.laid import Laid, LaidMark, LaidTuplet
from engraver.definition.pattern import ONE_STEP, Pattern
from engraver.errors import Problem, counted
from engraver.rhythm import ZERO, Span, value_name


def fill(pattern: Pattern, step: Fraction, units: tuple[Unit, ...], grid: Grid) -> Laid:
    """Lay the pattern into its range, as often as it goes."""
    count = _units_filled(pattern.steps * step, units)
    if count is None:
        return Laid(problems=(_misfit(pattern, step, units, grid),))
    bar_lines = Laid(problems=tuple(_check_bar_lines(pattern, step, units[:count], grid)))
    turns = (units[first : first + count] for first in range(0, len(units), count))
    return Laid.of([bar_lines, *(place(pattern, step, turn) for turn in turns)])


def _units_filled(length: Fraction, units: Sequence[Unit]) -> int | None:
    """How many units a pattern of this length fills, if it then fills the whole range evenly."""
    total = ZERO
    for count, unit in enumerate(units, 1):
        total += unit.length
        if total == length:
            even = len(units) % count == 0
            return count if even and all(_alike(units, index, count) for index in range(len(units))) else None
    return None


def _alike(units: Sequence[Unit], index: int, count: int) -> bool:
    return units[index].length == units[index % count].length


_CYCLE = "; what repeats across bar lines is written {cycle: ...}"


def _misfit(pattern: Pattern, step: Fraction, units: Sequence[Unit], grid: Grid) -> Problem:
    lengths = [sum((unit.length for unit in units[:count]), ZERO) for count in range(1, len(units) + 1)]
    steps = [length / step for length in lengths if _units_filled(length, units) is not None]
    whole = [str(count) for count in steps if count.denominator == 1]
    if not whole:
        message = f"no whole number of {value_name(step)} steps fills this range"
        return Problem(pattern.position, message, "give the pattern another step")
    expected = whole[0] if len(whole) == 1 else f"{', '.join(whole[:-1])} or {whole[-1]}"
    message = f"{counted(pattern.steps, 'step')} found, {expected} expected"
    hint = f"one step is one {value_name(step)}; {_range_name(units, grid)} must be filled"
    is_short = pattern.steps < min(steps) and len(units) > 1 and _are_bars(units, grid)
    return Problem(pattern.position, message, hint + (_CYCLE if is_short else ""))


def _range_name(units: Sequence[Unit], grid: Grid) -> str:
    bars = Numbers(tuple(sorted({unit.bar for unit in units})))
    if bars.numbers == (0,):
        return "the pickup"
    return bars.name if _are_bars(units, grid) else f"these beats of {bars.name}"


def _are_bars(units: Sequence[Unit], grid: Grid) -> bool:
    return all(unit.bar and unit.span == grid.bars[unit.bar - 1].span for unit in units)


def _check_bar_lines(pattern: Pattern, step: Fraction, units: Sequence[Unit], grid: Grid) -> Iterator[Problem]:
    if not pattern.bar_lines:
        return
    allowed = set()
    passed = ZERO
    for unit in units:
        if unit.span.start in grid.bar_lines:
            allowed.add(passed)
        passed += unit.length
        if unit.span.end in grid.bar_lines:
            allowed.add(passed)
    for steps, index in pattern.bar_lines:
        if steps * step not in allowed:
            places = ", ".join(str(place / step) for place in sorted(allowed) if place) or "no"
            hint = f"bar lines fall after {places} steps" if places != "no" else "leave it out"
            yield Problem(pattern.place(index), f"no bar line falls after {steps} steps", hint)


def place(pattern: Pattern, step: Fraction, units: Sequence[Unit]) -> Laid:
    """Lay the pattern once into these units, jumping over the gaps between them."""
    marks = tuple(
        LaidMark(onset, step if mark.length is ONE_STEP else mark.length * step, mark.letter, pattern, mark.index)
        for mark, onset in zip(pattern.marks, _onsets([mark.at for mark in pattern.marks], step, units), strict=True)
    )
    return Laid(marks, tuple(_tuplets(pattern, step, units)))


def _tuplets(pattern: Pattern, step: Fraction, units: Sequence[Unit]) -> Iterator[LaidTuplet]:
    """Those that need a bracket: plain values in even numbers, such as four in the time of two, need none."""
    for spread, start in zip(pattern.spreads, _onsets([s.at for s in pattern.spreads], step, units), strict=True):
        note = spread.steps * step / spread.count
        if note.numerator != 1 or note.denominator & (note.denominator - 1):
            yield LaidTuplet(Span(start, start + spread.steps * step), spread.count, pattern, spread.index)


def _onsets(places: Sequence[Fraction], step: Fraction, units: Sequence[Unit]) -> Iterator[Fraction]:
    """Onsets of rising places, counted in steps within the units as if there were no gaps between them."""
    unit, passed = 0, ZERO
    for place in places:
        within = place * step - passed
        while within >= units[unit].length:
            passed += units[unit].length
            within -= units[unit].length
            unit += 1
        yield units[unit].span.start + within
