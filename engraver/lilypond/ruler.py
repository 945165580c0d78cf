"""The ruler on the opening page: bars over cells, in rows of whole bars, and where the two meet again."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from engraver.analysis import CellReading
from engraver.chapters import ChapterPlan, is_barwise
from engraver.chapters.cells import lead, phrases
from engraver.lilypond.facts import sure_cells
from engraver.rhythm import Groove
from engraver.style import Words

RULER_STEPS = 64  # steps of a row


def ruler(plan: ChapterPlan, say: Words) -> dict[str, Any] | None:
    """Bars over cells, in rows of whole bars. None where the cell always ends with the bar, or nothing is sure."""
    cells, groove = sure_cells(plan), plan.groove
    if cells is None or is_barwise(groove, plan.facts):
        return None
    step = plan.facts.step
    edges = [int(bar.start / step) for bar in groove.bars] + [int(groove.length / step)]
    starts = [lead(plan.facts) + n * cells.phrase_steps for n in range(phrases(groove, plan.facts))]
    found = list(_cell_places(cells, starts))
    left = [(start + cells.phrase_steps - cells.remainder, cells.remainder) for start in starts if cells.remainder]
    rows = []
    for first, last in _ruler_rows(edges):
        low, high = edges[first], edges[last]
        rows.append(
            {
                "bars": tuple(
                    (_bar_name(groove, i, say), tuple(int(b.length / step) for b in groove.bars[i].meter.beat_spans()))
                    for i in range(first, last)
                ),
                "cells": tuple(part for place in found for part in _cell_in_row(place, low, high, edges, cells.length)),
                "left": tuple(
                    (max(a, low) - low, min(a + n, high) - max(a, low)) for a, n in left if a < high and a + n > low
                ),
            }
        )
    realign = plan.facts.realign
    meets = say("together")
    if realign and realign.lcm < cells.phrase_steps:
        meets = say(
            "together again",
            cells=say("n cells", n=realign.cells, count=say.number(realign.cells)),
            bars=say("n bars", n=realign.bars),
        )
    rest = say("left over", n=cells.remainder, count=say.number(cells.remainder)) if cells.remainder else ""
    per = max(edges[last] - edges[first] for first, last in _ruler_rows(edges))
    return {"per": per, "rows": rows, "meets": meets, "left": rest}


def _bar_name(groove: Groove, index: int, say: Words) -> str:
    """As authors count: a pickup is no bar."""
    number = index if groove.pickup else index + 1
    return say("bar n", n=number) if number else ""


def _cell_places(cells: CellReading, phrase_starts: Sequence[int]) -> Iterator[tuple[int, int]]:
    """Step and number, from 1 in each phrase, of every cell."""
    whole = (cells.phrase_steps - cells.start) // cells.length
    for phrase in phrase_starts:
        for number in range(whole):
            yield phrase + cells.start + number * cells.length, number + 1


def _ruler_rows(edges: Sequence[int]) -> list[tuple[int, int]]:
    rows, first = [], 0
    for last in range(1, len(edges)):
        if last + 1 == len(edges) or edges[last + 1] - edges[first] > RULER_STEPS:
            rows.append((first, last))
            first = last
    return rows


def _cell_in_row(
    place: tuple[int, int], low: int, high: int, edges: Sequence[int], length: int
) -> Iterator[tuple[int, int, object, bool]]:
    """A cell that runs over the end of a row stands in both, numbered where it begins."""
    start, number = place
    if start < high and start + length > low:
        begins = start >= low
        shown = max(start, low)
        yield shown - low, min(start + length, high) - shown, number if begins else None, begins and start in edges
