"""Windows of a groove: some bars, as few as make it when they are repeated, one turn of its pattern."""

from __future__ import annotations

from collections.abc import Collection
from fractions import Fraction

from engraver.analysis.pulse import period
from engraver.chapters.cells import meter_of, plain_step
from engraver.rhythm import Groove, Layer, Role, Span, Stroke

SHORT = 6  # steps; what is shorter goes round several times in a bar
LONGEST = 24  # steps of a bar that a student can still survey


def bars(groove: Groove, first: int, last: int) -> Groove:
    """The bars from ``first`` to ``last``, both included, as a groove of their own."""
    return cut(groove, Span(groove.bars[first].start, groove.bars[last].span.end))


def cut(groove: Groove, span: Span) -> Groove:
    """What lies in the span; all of it costs nothing."""
    return groove if span == groove.span else groove.slice(span)


def as_loop(groove: Groove) -> Groove:
    """As it is played, repeats written out; a loop begins on its first whole bar."""
    played = groove.performed() if groove.repeats else groove
    return played.slice(Span(groove.pickup, played.length)) if groove.pickup else played


def is_steady(layer: Layer, fills: Collection[str]) -> bool:
    """No fill, and nothing that takes strokes away."""
    return layer.role is not Role.FILL and not layer.silences and layer.name not in fills


def has_ghosts(layer: Layer) -> bool:
    return any(stroke.is_ghost for stroke in layer.strokes)


def shortest_loop(groove: Groove) -> Groove:
    """As few bars from the start as make the groove when they are repeated."""
    held = [(bar.meter, bar.length, held) for bar, held in zip(groove.bars, groove.held, strict=True)]
    for count in range(1, len(held)):
        if len(held) % count == 0 and all(held[i] == held[i % count] for i in range(count, len(held))):
            return bars(groove, 0, count - 1)
    return groove


def sounding_part(groove: Groove, strokes: tuple[Stroke, ...]) -> Span:
    """The fewest bars, a half or a quarter of all, in which all of these strokes lie; else everything."""
    count, found = len(groove.bars), groove.span
    for parts in (2, 4):
        if count % parts or not strokes:
            break
        size = count // parts
        spans = (Span(groove.bars[n].start, groove.bars[n + size - 1].span.end) for n in range(0, count, size))
        found = next((span for span in spans if all(s.onset in span for s in strokes)), found)
    return found


def rounds(steps: int, bar: int) -> int:
    """How often so few steps are written out that they are about as long as a bar: a loop is more than a blink."""
    return max(1, min(round(Fraction(bar, steps)), LONGEST // steps)) if steps < SHORT else 1


def turn(groove: Groove, step: Fraction) -> tuple[Groove, Fraction]:
    """One turn of what the groove's strokes repeat, barred by itself, and the factor of its times.

    Where the turn is no shorter than a bar or too long to be surveyed, it is the shortest loop of bars.
    """
    steps = _turn_steps(groove, step)
    first = groove.bars[0].length / step
    if steps is None or first % steps == 0 or steps % first == 0:
        return shortest_loop(groove), Fraction(1)
    times = min(rounds(steps, int(first)), int(groove.phrase / step) // steps)
    factor, unit = plain_step(step)
    window = groove.slice(Span(Fraction(0), steps * times * step))
    meters = (meter_of(steps, unit, times),)
    return (window.regroup(meters) if factor == 1 else window.scale(factor, meters)), factor


def _turn_steps(groove: Groove, step: Fraction) -> int | None:
    """The fewest steps after which the strokes of the phrase come again; None where they don't or it is long."""
    count = int(groove.phrase / step)
    rows: list[list[object]] = [[] for _ in range(count)]
    for stroke in groove.strokes:
        place, rest = divmod(stroke.onset, step)
        if place < count:
            rows[place].append((rest, stroke.kind))
    steps = period(rows)
    return steps if 2 * steps <= count and steps <= LONGEST else None
