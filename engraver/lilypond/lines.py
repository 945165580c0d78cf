"""How many bars stand on a line, and how wide a step is. Lengths in millimetres."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from engraver.rhythm import ZERO, Groove

PREFIX = 13.5  # clef, meter, repeat sign
BAR_LINE = 1.0  # what a bar line takes beside its steps
CLOSE, ROOMY, WIDEST = 4.2, 5.0, 9.8  # a sixteenth: never less; with more to read; never more
ENDS = 4.0  # what a crowd at both ends of a bar, and a wide meter, may take besides
GIVEN = 0.07  # of a close step, where parentheses stand side by side in the line
LETTER = 1.9  # measured: a letter of middling width under a staff
WHOLE = 5  # lines that are never parted
FASTEST = Fraction(1, 16)


@dataclass(frozen=True, slots=True)
class Lines:
    """``breaks``: indexes of bars that end a line. ``ragged``: the last line ends where its bars end.

    ``length`` of a full line, so that all are equally long even where they do not reach the margin.
    ``turns``: the breaks at which a page may end too. A passage of a few lines stays whole, and a longer one parts
    after every fourth line. ``crowded``: a bar is too long for a line if all of its crowd is given room.
    """

    breaks: frozenset[int]
    step: float
    ragged: bool
    length: float
    crowded: bool = False

    @property
    def turns(self) -> frozenset[int]:
        ends = sorted(self.breaks)
        return frozenset(ends[3:-2:4]) if len(ends) > WHOLE else frozenset()


@dataclass(frozen=True, slots=True)
class Crowd:
    """Heads with something around them: ``steps`` says for each bar how many steps lie between two of them.

    ``apart``: what such a step needs.
    """

    steps: tuple[int, ...]
    apart: float


def lines(
    groove: Groove,
    width: float,
    *,
    roomy: bool,
    most: int = 0,
    density: Fraction = ZERO,
    crowd: Crowd | None = None,
) -> Lines:
    """Fill lines with whole bars, as evenly as they allow; a step is never narrower than the page design's least.

    ``most``: bars of a line at most, fewer where they have no room; 0 for as many as have. ``density``: letters in the
    time of a whole note that have to find room under the staff. A ``crowd`` is given room by the steps around it, a
    little by each; where that is not enough, a line has fewer bars.
    """
    grid = finest(groove)
    close = ROOMY if roomy else CLOSE
    least = max(close, close * float(grid / FASTEST) * 0.8, LETTER * float(density * grid))
    steps = [float(bar.length / grid) for bar in groove.bars]
    crowded = crowd.steps if crowd else (0,) * len(steps)
    apart = max(least, crowd.apart) if crowd else least
    lengths = [_length(held, least, many, apart) for held, many in zip(steps, crowded, strict=True)]
    room = width - PREFIX
    rows = _even(_greedy(lengths, room, most or len(lengths)), lengths)
    longest = max(sum(steps[i] for i in row) for row in rows)
    bars = max(len(row) for row in rows)
    step = (room - bars * BAR_LINE) / longest
    widest = max(WIDEST * max(1.0, float(grid / FASTEST) ** 0.6), least)
    last = sum(steps[i] for i in rows[-1])
    length = width if step <= widest else PREFIX + bars * BAR_LINE + longest * widest
    too_long = crowd is not None and max(lengths) > room - ENDS
    return Lines(frozenset(row[-1] for row in rows), min(step, widest), last < 0.97 * longest, length, too_long)


def _length(steps: float, least: float, crowded: int, apart: float) -> float:
    """Of a bar at its closest."""
    return max(steps * least, (steps - crowded) * least * (1 - GIVEN) + crowded * apart) + BAR_LINE


def finest(groove: Groove) -> Fraction:
    """The step that spacing goes by: the groove's own, but no finer than a 32nd."""
    return max(groove.step, Fraction(1, 32))


def _greedy(lengths: Sequence[float], room: float, most: int) -> list[list[int]]:
    rows: list[list[int]] = []
    used = 0.0
    for index, length in enumerate(lengths):
        if not rows or used + length > room or len(rows[-1]) == most:
            rows.append([])
            used = 0.0
        rows[-1].append(index)
        used += length
    return rows


def _even(rows: list[list[int]], lengths: Sequence[float]) -> list[list[int]]:
    """Equal bars are spread evenly, 3 + 1 as 2 + 2; of unequal ones the last line gets some."""
    if len(set(lengths)) > 1:
        return _balanced(rows, lengths)
    count = len(lengths)
    each = -(-count // len(rows))
    return [list(range(first, min(first + each, count))) for first in range(0, count, each)]


def _balanced(rows: list[list[int]], lengths: Sequence[float]) -> list[list[int]]:
    """No short bar stands alone on the last line while the line before has one to give."""
    if len(rows) < 2:
        return rows
    *first, before, last = rows
    longest = max(map(len, rows))

    def length(row: list[int]) -> float:
        return sum(lengths[index] for index in row)

    while len(last) < longest and length(before[:-1]) >= length([before[-1], *last]):
        before, last = before[:-1], [before[-1], *last]
    return [*first, before, last]
