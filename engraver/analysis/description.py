"""What a reading of the figure costs, in bits: the shorter its description, the better the cells.

In: the figure's rows and a window length, offset and restart; out: bits. Steps become one letter each (a column of
all rows), so that windows are plain strings. The idea is minimum description length (Rissanen 1978, from memory);
the parts and their weights are ours, chosen by trial on constructed grooves (tests/bench/analysis.py repeats it).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, cached_property
from itertools import accumulate
from math import comb, inf, log2

from engraver.analysis.marks import SILENCE


def gamma(n: int) -> int:
    """The length of n in Elias's gamma code. Source: Elias 1975 (from memory)."""
    return 2 * (n.bit_length() - 1) + 1


@cache
def choices(steps: int, strokes: int) -> float:
    """Bits to say which steps are struck, and first how many."""
    return log2(steps + 1) + log2(comb(steps, strokes))


@dataclass(frozen=True)
class Material:
    """The figure as columns, one letter a step, written twice so that a window may run over the end."""

    rows: tuple[tuple[str, ...], ...]

    @cached_property
    def steps(self) -> int:
        return len(self.rows[0])

    @cached_property
    def columns(self) -> str:
        known: dict[tuple[str, ...], str] = {}
        text = "".join(known.setdefault(column, chr(0x100 + len(known))) for column in zip(*self.rows, strict=True))
        return text * 2

    @cached_property
    def kinds(self) -> tuple[int, ...]:
        """How many kinds of mark each row has."""
        return tuple(len({mark for mark in row if mark != SILENCE}) for row in self.rows)

    @cached_property
    def struck(self) -> tuple[tuple[int, ...], ...]:
        """For each row, how many strokes come before each step."""
        return tuple(tuple(accumulate((mark != SILENCE for mark in row * 2), initial=0)) for row in self.rows)

    @cached_property
    def differences(self) -> dict[tuple[str, str], tuple[int, float]]:
        """Of two columns: in how many rows they differ, and the bits to say what stands there instead."""
        known = dict(zip(self.columns, zip(*self.rows, strict=True), strict=False))
        return {
            (a, b): (
                sum(x != y for x, y in zip(first, second, strict=True)),
                sum(log2(k + 1) for x, y, k in zip(first, second, self.kinds, strict=True) if x != y),
            )
            for a, first in known.items()
            for b, second in known.items()
            if a != b
        }

    def literal(self, place: int, length: int) -> float:
        """Bits to write ``length`` steps out."""
        bits = 0.0
        for struck, kinds in zip(self.struck, self.kinds, strict=True):
            strokes = struck[place + length] - struck[place]
            bits += choices(length, strokes) + (strokes * log2(kinds) if kinds > 1 else 0)
        return bits

    def changed(self, window: str, other: str, earlier: int, limit: float) -> float:
        """Bits to write a window as a changed form of one of ``earlier`` others."""
        step = log2(len(window) * len(self.rows))
        edits, bits = 0, log2(earlier)
        for pair in zip(window, other, strict=True):
            if pair[0] != pair[1]:
                count, kinds = self.differences[pair]
                edits += count
                bits += count * step + kinds
                if bits > limit:
                    return inf
        return bits + gamma(edits + 1)


@dataclass(frozen=True, slots=True)
class Windows:
    """Windows of ``length`` steps from ``offset``, over again every ``restart``.

    ``endless``: the length divides the restart, which is then inaudible; the windows run round the loop.
    """

    length: int
    offset: int
    restart: int
    endless: bool

    def places(self, steps: int) -> list[int]:
        if self.endless:
            return list(range(self.offset, steps, self.length))
        whole = (self.restart - self.offset) // self.length * self.length
        return [
            place
            for start in range(self.offset, steps, self.restart)
            for place in range(start, start + whole, self.length)
        ]


def bits(material: Material, windows: Windows, limit: float = inf) -> float:
    """The whole description but its head; inf as soon as it is known to pass ``limit``."""
    places = windows.places(material.steps)
    text, length = material.columns, windows.length
    order = [text[place : place + length] for place in places]
    first = dict(zip(reversed(order), reversed(places), strict=True))
    cells = list(dict.fromkeys(order))
    if not windows.endless and len(cells) * material.steps >= len(places) * windows.restart:
        return inf  # nothing comes back before the restart: the phrase repeats, not a cell within it
    # Every further cell costs at least the naming of one edit.
    least = gamma(len(cells)) + (len(cells) - 1) * (5 + log2(length))
    if least > limit:
        return inf
    total = _cells(material, cells, first, limit)
    if total > limit:
        return inf
    total += _edges(material, windows, cells)
    return total + labels(order, len(cells), limit - total)


def _cells(material: Material, cells: Sequence[str], first: dict[str, int], limit: float) -> float:
    length = len(cells[0])
    total = gamma(len(cells)) + material.literal(first[cells[0]], length)
    for index, cell in enumerate(cells[1:], start=1):
        cost = material.literal(first[cell], length)
        for other in cells[:index]:
            cost = min(cost, material.changed(cell, other, index, cost))
        total += 1 + cost
        if total > limit:
            return inf
    return total


def _edges(material: Material, windows: Windows, cells: Sequence[str]) -> float:
    """Bits for what lies before the first window of each phrase and after the last."""
    if windows.endless:
        return 0.0
    rest = (windows.restart - windows.offset) % windows.length
    seen: set[tuple[bool, str]] = set()
    total = 0.0
    for start in range(0, material.steps, windows.restart):
        for is_tail, place, length in ((False, start, windows.offset), (True, start + windows.restart - rest, rest)):
            if length:
                edge = material.columns[place : place + length]
                total += 1 if (is_tail, edge) in seen else _edge(material, cells, edge, place, is_tail)
                seen.add((is_tail, edge))
    return total


def _edge(material: Material, cells: Sequence[str], edge: str, place: int, is_tail: bool) -> float:
    fits = any(cell.startswith(edge) if is_tail else cell.endswith(edge) for cell in cells)
    return 1 + (log2(len(cells)) if fits else material.literal(place, len(edge)))


def labels(order: Sequence[str], kinds: int, limit: float = inf) -> float:
    """Bits to say which cell comes when: a period with exceptions, or one by one."""
    if kinds == 1:
        return 0.0
    number, choice = log2(len(order)), log2(kinds)
    best = len(order) * choice
    for period in range(1, len(order)):
        if number + period * choice + 1 >= min(best, limit):
            break
        misses = len(order) - sum(max(Counter(order[start::period]).values()) for start in range(period))
        best = min(best, number + period * choice + gamma(misses + 1) + misses * (number + choice))
    return best
