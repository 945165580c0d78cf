"""A lane in, what it puts on the time line out: its ranges of bars, copies of bars, and the pickup.

Patterns are laid by `filling`, cycles by `cycles`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from engraver.definition.bars import Numbers, no_bar
from engraver.definition.cycles import turn_over
from engraver.definition.filling import fill
from engraver.definition.grid import Grid, Unit
from engraver.definition.laid import Laid
from engraver.definition.lanes import Copy, Lane, Part, StrokeContent
from engraver.definition.schema import LayerDefinition
from engraver.errors import Problem
from engraver.rhythm import ZERO, Span, value_name

MOST_STROKES = 8192


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
    own = grid.numbers(layer)
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
    units = (Unit(0, Span(ZERO, grid.pickup), grid.pickup),) if part.is_pickup else grid.units(layer, part.bars)
    if problem := _too_many(content, step, units):
        return Laid(problems=(problem,))
    if content.pattern is not None:
        return fill(content.pattern, step, units, grid)
    assert content.cycle is not None
    return turn_over(content, content.cycle, step, units, grid)


def _too_many(content: StrokeContent, step: Fraction, units: tuple[Unit, ...]) -> Problem | None:
    """A very short step in a very long range is a slip, and would take minutes to lay."""
    pattern = content.pattern or content.cycle
    assert pattern is not None
    strokes = int(sum((unit.length for unit in units), ZERO) / step / pattern.steps * len(pattern.marks))
    if strokes <= MOST_STROKES:
        return None
    hint = f"at most {MOST_STROKES} fit in one row; one step is one {value_name(step)}"
    return Problem(pattern.position, f"this row would have {strokes} strokes", hint)


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
    hint = "name a bar that has a pattern of its own in this row"
    return Problem(part.content.position, f"bar {missing} is not written in this row", hint)


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
