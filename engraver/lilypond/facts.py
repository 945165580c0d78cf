"""The facts of a groove in the margin of its opening page, in words. Only what is sure is told."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from engraver.analysis import CellReading
from engraver.chapters import ChapterPlan
from engraver.lilypond.tempo import tempo_mark
from engraver.style import Style, Words


def sure_cells(plan: ChapterPlan) -> CellReading | None:
    cells = plan.facts.cells
    return cells if cells and cells.sure else None


def facts(plan: ChapterPlan, style: Style, say: Words) -> tuple[Any, ...]:
    return tuple(_facts(plan, style, say))


def _facts(plan: ChapterPlan, style: Style, say: Words) -> Iterator[tuple[str, object]]:
    groove, cells = plan.groove, sure_cells(plan)
    meters = list(dict.fromkeys(str(bar.meter) for bar in groove.bars))
    yield say("meter"), ", ".join(meters)
    yield say("tempo"), tempo_mark(groove.tempo, style.tempo, say)
    yield say("length"), say("n bars", n=len([bar for bar in groove.bars if bar.is_whole]))
    hardest = max(plan.facts.rates, key=lambda rate: rate.per_second, default=None)
    if hardest:
        rate = say.decimal(hardest.per_second)
        yield say("hardest"), say("strokes a second", limb=say(hardest.limb.value), rate=rate)
    if groove.swing:
        yield say("feel"), say("swung", step=say.value(groove.swing, 2))
    if cells:
        yield say("cell"), say("cell of n", n=cells.length, step=say.value(plan.facts.step, cells.length))
    cross = plan.facts.cell_against_beat
    if cells and cross and 1 not in cross.ratio:
        yield say("cross-rhythm"), say("m against n", m=cross.ratio[0], n=cross.ratio[1])
