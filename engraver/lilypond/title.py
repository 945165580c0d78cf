"""The title page as LilyPond source, and what it shows of a chapter: a picture of its cells, or its cross-rhythm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from engraver.chapters import ChapterPlan
from engraver.chapters.cells import figure_of
from engraver.lilypond.facts import sure_cells
from engraver.lilypond.grid import grid
from engraver.lilypond.matter import Matter
from engraver.lilypond.source import Source

_LONGEST = 40  # steps that a circle can still show


@dataclass(frozen=True, slots=True)
class Cover:
    """A row a bar: B where a cell begins with a stroke, b with none, x another stroke of the figure."""

    title: str
    rows: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Circle:
    """A cross-rhythm of cells against the beat, in steps."""

    title: str
    steps: int
    cell: int
    beat: int


def cover(plan: ChapterPlan) -> Cover:
    return Cover(plan.definition.title, tuple(_rows(plan)))


def circle(plan: ChapterPlan) -> Circle | None:
    cells, cross, beat = sure_cells(plan), plan.facts.cell_against_beat, plan.groove.bars[0].meter.beat
    if cells and cross and beat and 1 not in cross.ratio and cross.cycle_steps <= _LONGEST:
        return Circle(plan.definition.title, cross.cycle_steps, cells.length, int(beat / plan.facts.step))
    return None


def title(matter: Matter, covers: Sequence[Cover], circles: Sequence[Circle]) -> Source:
    """Of the cover's chapter; the first of the ``circles`` is shown."""
    words = matter.words
    first = next(iter(circles), None)
    shown: dict[str, Any] = {
        "label": words.label,
        "title": words.title,
        "subtitle": words.subtitle,
        "cover": covers[0].rows,
        "circle": (first.steps, first.cell, first.beat) if first else None,
        "author": words.author,
        "publisher": words.publisher,
    }
    return matter.source("title", shown)


def picture_told(matter: Matter, covers: Sequence[Cover], circles: Sequence[Circle]) -> tuple[str, ...]:
    """A sentence that says what the title page shows."""
    if grid(matter.style.design).cover == "squares":
        return (matter.say("cover picture", title=covers[0].title),)
    return tuple(matter.say("cover circle", title=one.title) for one in circles[:1])


def _rows(plan: ChapterPlan) -> Iterator[str]:
    step, cells = plan.facts.step, sure_cells(plan)
    struck = {stroke.onset for stroke in figure_of(plan.groove, plan.facts).strokes}
    begins = {n * step for n in cells.places} if cells else set()
    for bar in plan.groove.bars[:12]:
        onsets = [bar.start + n * step for n in range(int(bar.length / step))]
        yield "".join(_square(onset in begins, onset in struck) for onset in onsets)


def _square(begins: bool, struck: bool) -> str:
    return ("B" if struck else "b") if begins else ("x" if struck else "-")
