"""A cycle and its range in; its turns out, laid over the bar lines and cut off where the phrase starts over."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from math import floor

from engraver.definition.filling import place
from engraver.definition.grid import Grid, Unit, join, runs
from engraver.definition.laid import Laid, LaidCycle
from engraver.definition.lanes import StrokeContent
from engraver.definition.pattern import Pattern
from engraver.errors import Problem
from engraver.rhythm import ZERO, Span


def turn_over(content: StrokeContent, cycle: Pattern, step: Fraction, units: tuple[Unit, ...], grid: Grid) -> Laid:
    """Lay a cycle: from its start, over the bar lines, until the phrase or the range ends or it starts over."""
    problems = tuple(
        Problem(cycle.place(index), "a cycle has no bar lines", "leave it out") for _, index in cycle.bar_lines
    )
    offset = (content.start - 1) * step
    laid = [Laid(problems=problems)]
    for run in runs(units):
        if offset >= join(run).length:
            late = Problem(
                content.at("start"),
                f"this cycle would begin on step {content.start} of {floor(join(run).length / step)}",
                "begin it within the bars that it fills",
            )
            return Laid(problems=(*problems, late))
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
    return sum((unit.length for unit in run if unit.bar in bars), ZERO)


def _lay_turns(cycle: Pattern, step: Fraction, span: Span) -> Iterator[Laid]:
    """Whole turns of the cycle from the start of the span, the last one cut off at its end."""
    turn, length = span.start, cycle.steps * step
    while turn < span.end:
        unit = Unit(0, Span(turn, turn + length), length)
        whole = place(cycle, step, (unit,))
        marks = tuple(mark for mark in whole.marks if mark.onset in span)
        yield Laid(marks, tuple(tuplet for tuplet in whole.tuplets if tuplet.span.start in span))
        turn = unit.span.end
