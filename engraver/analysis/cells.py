"""Cells of a known length: their letters, what they hold, what is left over.

In: the figure's rows of marks and where the cells lie; out: a `CellReading`. How a length is found is told elsewhere.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import count as count_from
from string import ascii_uppercase
from types import MappingProxyType

from engraver.analysis.grid import Grid, Rows
from engraver.analysis.marks import SILENCE, count, skeleton
from engraver.analysis.report import Cell, CellReading, Edit
from engraver.rhythm import Instrument

Form = tuple[tuple[str, ...], ...]  # one row of marks an instrument, in the order of the rows


@dataclass(frozen=True, slots=True)
class Frame:
    """Where the cells lie: windows of ``length`` steps from ``start``, over again every ``phrase`` steps."""

    length: int
    phrase: int
    start: int = 0

    @property
    def in_a_phrase(self) -> int:
        return (self.phrase - self.start) // self.length

    @property
    def remainder(self) -> int:
        return (self.phrase - self.start) % self.length

    def places(self, passes: int) -> list[int]:
        """The first step of every cell, phrase after phrase."""
        return [
            turn * self.phrase + self.start + index * self.length
            for turn in range(passes)
            for index in range(self.in_a_phrase)
        ]


def names() -> Iterator[str]:
    """A, B ... Z, A1, B1 ..."""
    for turn in count_from():
        yield from (letter + (str(turn) if turn else "") for letter in ascii_uppercase)


def letters(forms: Sequence[object]) -> tuple[str, ...]:
    """A letter for each form, new ones in order of appearance."""
    known: dict[object, str] = {}
    free = names()
    return tuple(known[form] if form in known else known.setdefault(form, next(free)) for form in forms)


def full_letters(
    skeleton_letters: Sequence[str], forms: Sequence[Form], kept: Mapping[str, Form] = MappingProxyType({})
) -> tuple[tuple[str, ...], dict[str, str]]:
    """Letters of all strokes, and of each letter the base it is a changed form of.

    The base of a skeleton letter is its form with the fewest strokes, or the one ``kept`` names, and keeps the letter;
    every other form takes the next letter that neither skeleton nor an earlier form has.
    """
    known = {base: letter for letter, base in {**_bases(skeleton_letters, forms), **kept}.items()}
    bases = {letter: letter for letter in known.values()}
    free = (name for name in names() if name not in bases)
    for letter, form in zip(skeleton_letters, forms, strict=True):
        if form not in known:
            known[form] = next(free)
            bases[known[form]] = letter
    return tuple(known[form] for form in forms), bases


def _bases(skeleton_letters: Sequence[str], forms: Sequence[Form]) -> dict[str, Form]:
    bases: dict[str, Form] = {}
    for letter, form in zip(skeleton_letters, forms, strict=True):
        if letter not in bases or _strokes(form) < _strokes(bases[letter]):
            bases[letter] = form
    return bases


def _strokes(form: Form) -> int:
    return sum(count(mark) for row in form for mark in row)


def forms(rows: Rows, places: Sequence[int], length: int) -> list[Form]:
    return [tuple(row[place : place + length] for row in rows.values()) for place in places]


def bare(rows: Rows) -> Rows:
    """The skeleton of rows."""
    return {instrument: tuple(skeleton(mark) for mark in row) for instrument, row in rows.items()}


def edits(rows: Rows, base: Form, form: Form) -> tuple[Edit, ...]:
    """What makes ``form`` of ``base``, step by step."""
    return tuple(
        Edit(step, instrument, was, now)
        for step in range(len(base[0]) if base else 0)
        for instrument, before, after in zip(rows, base, form, strict=True)
        if (was := before[step]) != (now := after[step])
    )


def read_cells(grid: Grid, rows: Rows, frame: Frame, *, stated: bool) -> CellReading:
    """Letters, cells and remainder of a frame laid over the figure's rows of the whole groove."""
    passes = max(1, grid.passes * grid.phrase // frame.phrase)
    skeletons = bare(rows)
    passes = 1 if _all_alike(rows, grid.start, frame.phrase, passes) else passes
    places = [grid.start + place for place in frame.places(passes)]
    skeleton_letters = letters(forms(skeletons, places, frame.length))
    full = forms(rows, places, frame.length)
    marked, bases = full_letters(skeleton_letters, full)
    return CellReading(
        length=frame.length,
        phrase_steps=frame.phrase,
        start=frame.start,
        sure=stated,
        stated=stated,
        gain_bits=None,
        runner_up=None,
        skeleton=skeleton_letters,
        full=marked,
        remainder=frame.remainder,
        remainder_begins=_begun(rows, grid.start + frame.phrase, frame, marked, full),
        cells=_cells(grid, rows, places, marked, bases, full),
        places=tuple(places),
        passes=passes,
    )


def _all_alike(rows: Rows, start: int, phrase: int, passes: int) -> bool:
    return all(
        row[start : start + phrase] == row[start + turn * phrase : start + (turn + 1) * phrase]
        for row in rows.values()
        for turn in range(1, passes)
    )


def _begun(rows: Rows, end: int, frame: Frame, marked: Sequence[str], full: Sequence[Form]) -> tuple[str, ...]:
    """The letters whose cells begin as the first phrase's remainder does; a silent remainder begins none."""
    left = tuple(row[end - frame.remainder : end] for row in rows.values())
    if not _strokes(left):
        return ()
    starts = {letter: tuple(row[: frame.remainder] for row in form) for letter, form in zip(marked, full, strict=True)}
    return tuple(sorted(letter for letter, start in starts.items() if start == left))


def _cells(
    grid: Grid, rows: Rows, places: Sequence[int], marked: Sequence[str], bases: dict[str, str], full: Sequence[Form]
) -> tuple[Cell, ...]:
    shapes = dict(zip(reversed(marked), reversed(full), strict=True))
    counts = Counter(marked)
    return tuple(
        Cell(
            letter=letter,
            count=counts[letter],
            strokes=_patterns(rows, shapes[letter]),
            base=bases[letter],
            edits=edits(rows, shapes[bases[letter]], shapes[letter]),
            first=grid.step * places[marked.index(letter)],
        )
        for letter in sorted(counts, key=lambda letter: (len(letter), letter))
    )


def _patterns(rows: Rows, form: Form) -> tuple[tuple[Instrument, str], ...]:
    return tuple(
        (instrument, "".join(row))
        for instrument, row in zip(rows, form, strict=True)
        if any(mark != SILENCE for mark in row)
    )
