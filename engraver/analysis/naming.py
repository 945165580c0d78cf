"""Cells by other names: a changed form of a cell is called by its base with a prime, A′, instead of the next letter."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import replace

from engraver.analysis.report import Analysis, Cell, CellReading, LayerEffect, Sequence

PRIME = "\N{PRIME}"


def with_primes(facts: Analysis) -> Analysis:
    """The same findings with primes: the first changed form of A is A′, the second A′′.

    A form that only stood while layers were added, and is in no cell in the end, keeps its letter.
    """
    if facts.cells is None:
        return facts
    names = _names(facts.cells.cells)
    return replace(
        facts,
        cells=_reading(facts.cells, names),
        full_sequence=_sequence(facts.full_sequence, names),
        layer_effects=tuple(_effect(effect, names) for effect in facts.layer_effects),
    )


def _names(cells: Iterable[Cell]) -> Mapping[str, str]:
    changed: Counter[str] = Counter()
    names = {}
    for cell in cells:
        if cell.base != cell.letter:
            changed[cell.base] += 1
            names[cell.letter] = cell.base + PRIME * changed[cell.base]
    return names


def _called(letters: tuple[str, ...], names: Mapping[str, str]) -> tuple[str, ...]:
    return tuple(names.get(letter, letter) for letter in letters)


def _reading(cells: CellReading, names: Mapping[str, str]) -> CellReading:
    return replace(
        cells,
        full=_called(cells.full, names),
        remainder_begins=_called(cells.remainder_begins, names),
        cells=tuple(replace(cell, letter=names.get(cell.letter, cell.letter)) for cell in cells.cells),
    )


def _sequence(sequence: Sequence | None, names: Mapping[str, str]) -> Sequence | None:
    return sequence and replace(sequence, mirror_continuation=_called(sequence.mirror_continuation, names))


def _effect(effect: LayerEffect, names: Mapping[str, str]) -> LayerEffect:
    changes = tuple(
        replace(change, was=names.get(change.was, change.was), letter=names.get(change.letter, change.letter))
        for change in effect.changes
    )
    before, after = _called(effect.before, names), _called(effect.after, names)
    return replace(effect, before=before, after=after, changes=changes)
