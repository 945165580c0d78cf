"""What each layer did to the letters when it was added. The grid and a reading in, `LayerEffect`s out."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import replace

from engraver.analysis.cells import edits, forms, full_letters, letters, names
from engraver.analysis.grid import Grid, Rows
from engraver.analysis.marks import SILENCE
from engraver.analysis.report import CellChange, CellReading, Lane, LayerEffect
from engraver.analysis.roles import Roles
from engraver.rhythm import Instrument


def layer_effects(grid: Grid, parts: Roles, reading: CellReading) -> tuple[LayerEffect, ...]:
    """One effect for each layer of the figure after its first, in teaching order."""
    part = {*parts.figure, *parts.meter}
    layers = [layer.name for layer in grid.layers if part & set(layer.lanes) and layer.name not in parts.fills]
    effects: list[LayerEffect] = []
    before = _rows(grid, parts, layers[:1])
    order = letters(forms(before, reading.places, reading.length))
    for number, name in enumerate(layers[1:], start=2):
        after = _rows(grid, parts, layers[:number])
        effect = _effect(name, reading, order, _same_rows(before, after, grid.steps), after)
        if any(lane.layer == name for lane in parts.figure) or effect.changes:
            effects.append(effect)
        before, order = after, effect.after
    return tuple(_renamed(effect, _names(effects, reading.full)) for effect in effects)


def _names(effects: Sequence[LayerEffect], last: Sequence[str]) -> dict[str, str]:
    """New names for all letters, so that the last effect ends on the letters of the reading."""
    new = dict(zip(effects[-1].after, last, strict=True))
    free = (name for name in names() if name not in last)
    for letter in dict.fromkeys(letter for effect in effects for letter in (*effect.before, *effect.after)):
        new.setdefault(letter, next(free))
    return new


def _renamed(effect: LayerEffect, new: Mapping[str, str]) -> LayerEffect:
    return LayerEffect(
        effect.layer,
        tuple(new[letter] for letter in effect.before),
        tuple(new[letter] for letter in effect.after),
        tuple(replace(change, was=new[change.was], letter=new[change.letter]) for change in effect.changes),
    )


def _effect(name: str, reading: CellReading, order: tuple[str, ...], before: Rows, after: Rows) -> LayerEffect:
    old, new = (forms(rows, reading.places, reading.length) for rows in (before, after))
    unchanged = {letter: was for letter, was, form in zip(order, old, new, strict=True) if was == form}
    now, _ = full_letters(order, new, unchanged)
    changes = tuple(
        CellChange(index, order[index], now[index], edits(after, old[index], new[index]))
        for index in range(len(now))
        if old[index] != new[index]
    )
    return LayerEffect(name, order, now, changes)


def _rows(grid: Grid, parts: Roles, names: Collection[str]) -> Rows:
    def of(lanes: Iterable[Lane]) -> list[Lane]:
        return [lane for lane in lanes if lane.layer in names]

    return grid.rows(of(parts.figure), ghosts_of=of(parts.meter))


def _same_rows(rows: Rows, model: Rows, steps: int) -> dict[Instrument, tuple[str, ...]]:
    """The same rows in the same order as the model's, silent where an instrument is still to come."""
    return {instrument: rows.get(instrument, (SILENCE,) * steps) for instrument in model}
