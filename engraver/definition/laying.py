"""Patterns on the time line: what each part of a lane puts where, and what does not fit.

In: a lane, the units of its range, the step. Out: marks at exact onsets, or problems.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise

from engraver.definition.bars import Numbers, no_bar
from engraver.definition.grid import Grid, Unit, join, runs
from engraver.definition.lanes import Copy, Lane, Part, StrokeContent
from engraver.definition.pattern import Pattern
from engraver.definition.schema import LayerDefinition
from engraver.errors import Position, Problem
from engraver.rhythm import ZERO, Span, value_name


@dataclass(frozen=True, slots=True)
class LaidMark:
    """A mark at its onset; ``step`` is the length of the grid step it was written on."""

    onset: Fraction
    step: Fraction
    letter: str
    pattern: Pattern
    index: int

    @property
    def position(self) -> Position:
        return self.pattern.place(self.index)


@dataclass(frozen=True, slots=True)
class LaidTuplet:
    span: Span
    count: int
    pattern: Pattern
    index: int

    @property
    def position(self) -> Position:
        return self.pattern.place(self.index)


@dataclass(frozen=True, slots=True)
class LaidCycle:
    length: Fraction
    start: Fraction
    restart: Fraction | None


@dataclass(frozen=True, slots=True)
class Laid:
    """All of one lane."""

    marks: tuple[LaidMark, ...] = ()
    tuplets: tuple[LaidTuplet, ...] = ()
    cycles: tuple[LaidCycle, ...] = ()
    problems: tuple[Problem, ...] = ()

    @classmethod
    def of(cls, parts: Iterable[Laid]) -> Laid:
        parts = tuple(parts)
        return cls(
            tuple(mark for part in parts for mark in part.marks),
            tuple(tuplet for part in parts for tuplet in part.tuplets),
            tuple(cycle for part in parts for cycle in part.cycles),
            tuple(problem for part in parts for problem in part.problems),
        )


def lay_lane(lane: Lane, grid: Grid, layer: LayerDefinition | None) -> Laid:
    """Lay every part of a lane; ranges that are written twice or copied from nowhere are problems."""
    problems = tuple(_check_ranges(lane, grid, layer))
    if problems:
        return Laid(problems=problems)
    written: dict[int, Laid] = {}
    laid: list[Laid] = []
    copies: list[Part] = []
    for part in lane.parts:
        if isinstance(part.content, Copy):
            copies.append(part)
            continue
        done = _lay_part(part, part.content, grid, layer)
        laid.append(done)
        for number in part.bars.numbers if part.bars else ():
            written[number] = done
    return Laid.of([*laid, *_lay_copies(copies, written, grid)])


def _check_ranges(lane: Lane, grid: Grid, layer: LayerDefinition | None) -> Iterator[Problem]:
    seen: dict[int, int] = {}
    own = {unit.bar for unit in grid.units(layer, None)}
    for part in lane.parts:
        if part.is_pickup:
            if not grid.pickup:
                yield Problem(part.position, "this groove has no pickup", "add pickup: and its number of steps")
            continue
        if part.bars is None:
            if len([each for each in lane.parts if not each.is_pickup]) > 1:
                message = "this fills all bars, and other bars are written beside it"
                yield Problem(part.position, message, "give it bars of its own")
            continue
        for number in part.bars.numbers:
            if number > len(grid.bars):
                yield no_bar(part.position, number, len(grid.bars))
                break
            if number not in own:
                message = f"bar {number} is not one of the bars of this layer"
                yield Problem(part.position, message, "the bars: of the layer say where it lies")
                break
            if number in seen:
                message = f"bar {number} is already written in line {seen[number]}"
                yield Problem(part.position, message, "let the ranges lie apart")
                break
            seen[number] = part.position.line


def _lay_part(part: Part, content: StrokeContent, grid: Grid, layer: LayerDefinition | None) -> Laid:
    step = content.step or part.step or (layer.step if layer else None) or grid.step
    units = (Unit(0, Span(ZERO, grid.pickup)),) if part.is_pickup else grid.units(layer, part.bars)
    if content.pattern is not None:
        return _fill(content.pattern, step, units, grid)
    assert content.cycle is not None
    return _turn(content, content.cycle, step, units, grid)


def _fill(pattern: Pattern, step: Fraction, units: tuple[Unit, ...], grid: Grid) -> Laid:
    """Lay the pattern into its range, as often as it goes."""
    count = _units_filled(pattern.steps * step, units)
    if count is None:
        return Laid(problems=(_misfit(pattern, step, units, grid),))
    bar_lines = Laid(problems=tuple(_check_bar_lines(pattern, step, units[:count], grid)))
    turns = (units[first : first + count] for first in range(0, len(units), count))
    return Laid.of([bar_lines, *(_place(pattern, step, turn) for turn in turns)])


def _units_filled(length: Fraction, units: Sequence[Unit]) -> int | None:
    """How many units a pattern of this length fills, if it then fills the whole range evenly."""
    total = ZERO
    for count, unit in enumerate(units, 1):
        total += unit.span.length
        if total == length:
            even = len(units) % count == 0
            return count if even and all(_alike(units, index, count) for index in range(len(units))) else None
    return None


def _alike(units: Sequence[Unit], index: int, count: int) -> bool:
    return units[index].span.length == units[index % count].span.length


def _misfit(pattern: Pattern, step: Fraction, units: Sequence[Unit], grid: Grid) -> Problem:
    lengths = [sum((unit.span.length for unit in units[:count]), ZERO) for count in range(1, len(units) + 1)]
    steps = [length / step for length in lengths if _units_filled(length, units) is not None]
    whole = [str(count) for count in steps if count.denominator == 1]
    noun = "step" if pattern.steps == 1 else "steps"
    if not whole:
        message = f"no whole number of {value_name(step)} steps fills this range"
        return Problem(pattern.position, message, "give the pattern another step")
    expected = whole[0] if len(whole) == 1 else f"{', '.join(whole[:-1])} or {whole[-1]}"
    message = f"{pattern.steps} {noun} found, {expected} expected"
    return Problem(
        pattern.position, message, f"a step is a {value_name(step)}; {_range_name(units, grid)} must be filled"
    )


def _range_name(units: Sequence[Unit], grid: Grid) -> str:
    bars = Numbers(tuple(sorted({unit.bar for unit in units})))
    if bars.numbers == (0,):
        return "the pickup"
    whole = all(unit.span == grid.bars[unit.bar - 1].span for unit in units)
    return bars.name if whole else f"these beats of {bars.name}"


def _check_bar_lines(pattern: Pattern, step: Fraction, units: Sequence[Unit], grid: Grid) -> Iterator[Problem]:
    allowed = set()
    passed = ZERO
    for unit in units:
        if unit.span.start in grid.bar_lines:
            allowed.add(passed)
        passed += unit.span.length
        if unit.span.end in grid.bar_lines:
            allowed.add(passed)
    for steps, index in pattern.bar_lines:
        if steps * step not in allowed:
            places = ", ".join(str(place / step) for place in sorted(allowed) if place) or "no"
            hint = f"bar lines fall after {places} steps" if places != "no" else "leave it out"
            yield Problem(pattern.place(index), f"no bar line falls after {steps} steps", hint)


def _place(pattern: Pattern, step: Fraction, units: Sequence[Unit]) -> Laid:
    """Lay the pattern once into these units, jumping over the gaps between them."""
    marks = tuple(
        LaidMark(_onset(mark.at * step, units), mark.length * step, mark.letter, pattern, mark.index)
        for mark in pattern.marks
    )
    return Laid(marks, tuple(_tuplets(pattern, step, units)))


def _tuplets(pattern: Pattern, step: Fraction, units: Sequence[Unit]) -> Iterator[LaidTuplet]:
    """Those that need a bracket: plain values in even numbers, such as four in the time of two, need none."""
    for spread in pattern.spreads:
        note = spread.steps * step / spread.count
        if note.numerator != 1 or note.denominator & (note.denominator - 1):
            start = _onset(spread.at * step, units)
            yield LaidTuplet(Span(start, start + spread.steps * step), spread.count, pattern, spread.index)


def _onset(passed: Fraction, units: Sequence[Unit]) -> Fraction:
    """The onset after this much of the units has passed."""
    for unit in units:
        if passed < unit.span.length:
            return unit.span.start + passed
        passed -= unit.span.length
    raise AssertionError("the pattern was measured before")


def _turn(content: StrokeContent, cycle: Pattern, step: Fraction, units: tuple[Unit, ...], grid: Grid) -> Laid:
    """Lay a cycle: from its start, over the bar lines, until the phrase or the range ends or it starts over."""
    problems = tuple(
        Problem(cycle.place(index), "a cycle has no bar lines", "leave it out") for _, index in cycle.bar_lines
    )
    offset = (content.start - 1) * step
    laid = [Laid(problems=problems)]
    for run in runs(units):
        starts = list(_restarts(run, content.restart, grid))
        for start, end in pairwise([*starts, join(run).end]):
            laid.extend(_lay_turns(cycle, step, Span(start + offset, end)))
        restart = _restart_length(run, content.restart)
        laid.append(Laid(cycles=(LaidCycle(cycle.steps * step, starts[0] + offset, restart),)))
    return Laid.of(laid)


def _restarts(run: tuple[Unit, ...], restart: int | None, grid: Grid) -> Iterator[Fraction]:
    """Where a cycle begins anew within these units: at each phrase, and every ``restart`` bars after it."""
    since = 0
    for before, unit in zip((None, *run), run, strict=False):
        if before is not None and before.bar == unit.bar:
            continue
        new_phrase = before is None or grid.phrase_of(before.bar) != grid.phrase_of(unit.bar)
        since = 0 if new_phrase else since + 1
        if new_phrase or (restart and since % restart == 0):
            yield unit.span.start


def _restart_length(run: tuple[Unit, ...], restart: int | None) -> Fraction | None:
    if restart is None:
        return None
    bars = sorted({unit.bar for unit in run})[:restart]
    return sum((unit.span.length for unit in run if unit.bar in bars), ZERO)


def _lay_turns(cycle: Pattern, step: Fraction, span: Span) -> Iterator[Laid]:
    """Whole turns of the cycle from the start of the span, the last one cut off at its end."""
    turn = span.start
    while turn < span.end:
        unit = Unit(0, Span(turn, turn + cycle.steps * step))
        whole = _place(cycle, step, (unit,))
        marks = tuple(mark for mark in whole.marks if mark.onset in span)
        yield Laid(marks, tuple(tuplet for tuplet in whole.tuplets if span.covers(tuplet.span)))
        turn = unit.span.end


def _lay_copies(copies: list[Part], written: dict[int, Laid], grid: Grid) -> Iterator[Laid]:
    """Lay ``as bar 1`` once the bar it names is there; those that name one another never are."""
    waiting = list(copies)
    while waiting:
        ready = [part for part in waiting if set(_copied(part).numbers) <= written.keys()]
        if not ready:
            yield Laid(problems=tuple(_no_original(part, written) for part in waiting))
            return
        for part in ready:
            done = _lay_copy(part, _copied(part), written, grid)
            yield done
            assert part.bars is not None
            written.update(dict.fromkeys(part.bars.numbers, done))
        waiting = [part for part in waiting if part not in ready]


def _copied(part: Part) -> Numbers:
    assert isinstance(part.content, Copy)
    return part.content.bars


def _no_original(part: Part, written: dict[int, Laid]) -> Problem:
    missing = next(number for number in _copied(part).numbers if number not in written)
    hint = "name a bar that has a pattern of its own in this lane"
    return Problem(part.content.position, f"bar {missing} is not written in this lane", hint)


def _lay_copy(part: Part, originals: Numbers, written: dict[int, Laid], grid: Grid) -> Laid:
    assert part.bars is not None
    targets, sources = part.bars.numbers, originals.numbers
    pairs = [(sources[index % len(sources)], target) for index, target in enumerate(targets)]
    lengths = all(grid.bars[a - 1].length == grid.bars[b - 1].length for a, b in pairs)
    if len(targets) % len(sources) or not lengths:
        verb = "does" if len(sources) == 1 else "do"
        message = f"{originals.name} {verb} not fill {part.bars.name}"
        return Laid(problems=(Problem(part.content.position, message, "their lengths differ"),))
    bars = [(written[source], grid.bars[source - 1].span, grid.bars[target - 1].start) for source, target in pairs]
    return Laid.of(_shift(laid, span, start - span.start) for laid, span, start in bars)


def _shift(laid: Laid, span: Span, by: Fraction) -> Laid:
    return Laid(
        tuple(replace(mark, onset=mark.onset + by) for mark in laid.marks if mark.onset in span),
        tuple(replace(tuplet, span=tuplet.span.shift(by)) for tuplet in laid.tuplets if span.covers(tuplet.span)),
    )
