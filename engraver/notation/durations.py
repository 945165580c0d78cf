"""Spell the lengths of struck notes inside one beat or tuplet.

In: places counted in whole 64ths of printed time from the start of the beat, and the unit of the beat (`Beat.unit`).
Out: one `Value` for each note, never tied, with at most one dot. Ours, after common practice:

- A note lasts to the next note, or to the end of its beat or tuplet. Where no single value is that long it takes the
  largest that is readable, and rests follow.
- A note on a unit may take any value. One off the unit stays inside its unit, except that a note on the half of the
  unit may last exactly one unit (sixteenth, eighth, sixteenth).
- Inside a unit a note may hide one level of the division, not two: 16 8 16 in a quarter, but no sixteenth from
  the fourth 32nd, which would hide the half of the beat.
"""

from __future__ import annotations

from fractions import Fraction

from engraver.notation.score import Value

SHORTEST = Fraction(1, 64)


def ticks(duration: Fraction) -> int | None:
    """How many 64ths, or None where they are not whole."""
    scale, rest = divmod(SHORTEST.denominator, duration.denominator)
    return None if rest else duration.numerator * scale


def _lengths() -> dict[int, Value]:
    values = [Value(1 << power, dots) for power in range(7) for dots in (0, 1)]
    lengths = {count: value for value in values if (count := ticks(value.duration)) is not None}
    return dict(sorted(lengths.items(), reverse=True))


VALUES: dict[int, Value] = _lengths()  # length in 64ths -> value, longest first


def note_length(place: int, gap: int, unit: int) -> int:
    """The length of the value for a note at ``place`` with ``gap`` until the next thing happens, all in 64ths."""
    return next(length for length in VALUES if length <= gap and _is_readable(place, length, gap, unit))


def _is_readable(place: int, length: int, gap: int, unit: int) -> bool:
    within = place % unit
    if within == 0:
        return True
    grid = within & -within
    if length > unit - within:
        return length == gap == unit == 2 * grid
    return _hides_one_level(within, within + length, grid)


def _hides_one_level(start: int, end: int, grid: int) -> bool:
    """``start`` lies on ``grid`` and no coarser one. What ends before the next such place hides nothing."""
    if end <= start + grid:
        return True
    next_but_one_level = (start // (4 * grid) + 1) * 4 * grid
    return end % grid == 0 and end <= next_but_one_level
