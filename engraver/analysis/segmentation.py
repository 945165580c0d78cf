"""Cells that nobody stated, found as the reading with the shortest description.

In: the figure's rows over all phrases and where the phrases may start over; out: a `Finding`, or None below eight
bits of gain. Four rules keep it from going wrong: windows that fit the phrase run round the loop, unless a fixed
pickup comes before them; a phrase may start over after fewer bars; a changed cell costs its edits only.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import inf, log2

from engraver.analysis.description import Material, Windows, bits
from engraver.analysis.marks import GHOST, SILENCE, accents

# 240 random structureless layers gained at most 0.7 bits; ambiguous readings of known grooves lay within three.
LEAST_GAIN = 8.0
TOO_CLOSE = 3.0
# Only the lengths that best match themselves are tried from other steps than the first.
LENGTHS_TURNED = 8


@dataclass(frozen=True, slots=True)
class Places:
    """Where things may start over: ``restarts`` (longest first), ``bar`` and ``beat`` in steps, None where uneven."""

    restarts: tuple[int, ...]
    bar: int | None
    beat: int | None


@dataclass(frozen=True, slots=True)
class Finding:
    """``runner_up``: another length whose description is less than three bits longer."""

    length: int
    start: int
    restart: int
    gain: float
    runner_up: int | None

    @property
    def is_sure(self) -> bool:
        return self.runner_up is None


def find_cells(rows: Sequence[tuple[str, ...]], places: Places) -> Finding | None:
    """The best reading of these rows, which hold every phrase from its first step on."""
    sounding = tuple(row for row in rows if any(mark != SILENCE for mark in row))
    if not sounding or places.restarts[0] < 4:
        return None
    material = Material(sounding)
    alone = material.literal(0, material.steps)
    readings = _readings(material, places, alone - LEAST_GAIN + TOO_CLOSE)
    if not readings:
        return None
    best = min(readings, key=lambda length: readings[length][0])
    cost, windows = readings[best]
    if alone - cost < LEAST_GAIN:
        return None
    others = sorted((bits, length) for length, (bits, _) in readings.items() if length != best)
    close = others[0][1] if others and others[0][0] - cost < TOO_CLOSE else None
    restart = places.restarts[0] if windows.endless else windows.restart
    return Finding(best, windows.offset, restart, alone - cost, close)


def _readings(material: Material, places: Places, limit: float) -> dict[int, tuple[float, Windows]]:
    """Of every length worth it, the shortest description and its windows."""
    readings: dict[int, tuple[float, Windows]] = {}
    prior = _Prior(places)
    best = limit
    for windows in _candidates(material, places):
        head = prior.bits(windows)
        known = readings[windows.length][0] if windows.length in readings else inf
        cost = head + bits(material, windows, min(best + TOO_CLOSE, known) - head)
        if cost < known:
            readings[windows.length] = (cost, windows)
            best = min(best, cost)
    return readings


class _Prior:
    """Lengths that fit beat and bar are likelier before anything is heard; all others are alike."""

    def __init__(self, places: Places) -> None:
        longest = max(1, places.restarts[0] // 2)
        fitting = {length for length in metrical(places) if length <= longest}
        self._other = 0.5 / longest
        self._fitting = {length: 0.5 / len(fitting) for length in fitting}
        self._restarts = log2(len(places.restarts))

    def bits(self, windows: Windows) -> float:
        share = self._other + self._fitting.get(windows.length, 0.0)
        turned = log2(windows.length) if windows.offset else 0.0
        return -log2(share) + turned + 1 + self._restarts


def metrical(places: Places) -> set[int]:
    """Divisors of the beat, half a bar, one bar, two, four, eight ..."""
    found = {length for length in range(1, (places.beat or 0) + 1) if places.beat and places.beat % length == 0}
    if places.bar:
        found |= {places.bar * 2**power for power in range(8)}
        found |= {places.bar // 2} if places.bar % 2 == 0 else set()
    return found


def _candidates(material: Material, places: Places) -> Iterator[Windows]:
    """Windows to be tried, the likeliest first: from the phrase's first step, then turned, then behind a pickup.

    A single step is no cell. Endless windows are not turned: every turn costs the same, and one would be preferred
    only for hiding a changed bar between two.
    """
    lengths = range(2, places.restarts[0] // 2 + 1)
    ranked = sorted(lengths, key=lambda length: misses(material.columns, places.restarts, length))
    for length in ranked:
        yield from _of_length(length, 0, places.restarts)
    for length in ranked[:LENGTHS_TURNED]:
        for offset in range(1, length):
            yield from _of_length(length, offset, places.restarts)
            yield from _behind_pickup(material, length, offset, places.restarts)


def _of_length(length: int, offset: int, restarts: Sequence[int]) -> Iterator[Windows]:
    if offset == 0 and any(restart % length == 0 for restart in restarts):
        yield Windows(length, offset, restarts[0], endless=True)
    for restart in restarts:
        if restart % length and restart - offset >= 2 * length:
            yield Windows(length, offset, restart, endless=False)


def _behind_pickup(material: Material, length: int, offset: int, restarts: Sequence[int]) -> Iterator[Windows]:
    """A pickup that is the same in every phrase, before cells of which the phrase's end is the beginning."""
    text, steps = material.columns, material.steps
    for restart in restarts:
        starts = range(0, steps, restart)
        if restart % length or restart - offset < 2 * length:
            continue
        if len({text[start : start + offset] for start in starts}) > 1:
            continue
        windows = Windows(length, offset, restart, endless=False)
        tails = {text[start + restart - length + offset : start + restart] for start in starts}
        cells = {text[place : place + length] for place in windows.places(steps)}
        if all(any(cell.startswith(tail) for cell in cells) for tail in tails):
            yield windows


def misses(columns: str, restarts: Sequence[int], length: int) -> float:
    """The least share of steps that differ from those ``length`` before them, over all restarts that hold it twice."""
    steps = len(columns) // 2
    differs = [columns[step] != columns[step - length] for step in range(steps)]
    return min(
        sum(differs[step] for start in range(0, steps, restart) for step in range(start + length, start + restart))
        / (steps - length * (steps // restart))
        for restart in restarts
        if restart >= 2 * length
    )


def head(rows: Sequence[tuple[str, ...]], length: int, start: int, restart: int) -> int:
    """The step of the cell on which the most weight falls: accents count 2, strokes 1, ghosts 0.3.

    The description cannot tell where a cell begins, as every turn of it costs the same. The first of equals wins.
    """
    steps = len(rows[0]) if rows else 0
    means = []
    for turn in range(length):
        places = [p for first in range(0, steps, restart) for p in range(first + start + turn, first + restart, length)]
        means.append(sum(_weight(row[p]) for p in places for row in rows) / max(1, len(places)))
    return max(range(length), key=lambda turn: means[turn])


def _weight(mark: str) -> float:
    if mark == SILENCE:
        return 0.0
    return 2.0 if accents(mark) else 0.3 if mark == GHOST else 1.0
