"""What there is to read on the staves of a chapter, for the pages that explain it: a plan in, a small value out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from engraver.chapters import ChapterPlan, Passage
from engraver.lilypond.facts import sure_cells
from engraver.notation import TupletGroup, write
from engraver.notation.repeats import is_like_last
from engraver.rhythm import Stroke
from engraver.style import Style


@dataclass(frozen=True, slots=True)
class ToRead:
    """``strokes``: one of each kind, in the order of their first; ``tuplet``: how many in the time of how many.

    ``cells``: whether they are known; ``left``: some are left over; ``cut``: a phrase cuts one off.
    """

    strokes: tuple[Stroke, ...]
    tuplet: tuple[int, int] | None
    repeated_bars: bool
    cells: bool
    left: bool
    cut: bool
    mirrored: bool
    endings: bool
    sticking: bool
    graded: bool


def to_read(plan: ChapterPlan, style: Style) -> ToRead:
    cells, passages = sure_cells(plan), plan.passages
    tuplet = next(_tuplets(passages, style), None)
    return ToRead(
        strokes=tuple(_kinds(stroke for passage in passages for stroke in passage.groove.strokes)),
        tuplet=(tuplet.count, tuplet.normal) if tuplet else None,
        repeated_bars=style.repeat_bars and any(_has_repeated_bars(passage) for passage in passages),
        cells=cells is not None,
        left=cells is not None and bool(cells.remainder),
        cut=any(ribbon.cut and ribbon.letter for passage in passages for ribbon in passage.ribbons),
        mirrored=any(passage.mirrors for passage in passages),
        endings=any(repeat.endings for passage in passages for repeat in passage.groove.repeats),
        sticking=any(passage.groove.sticking for passage in passages),
        graded=bool(plan.exercises),
    )


def _kinds(strokes: Iterable[Stroke]) -> Iterator[Stroke]:
    """Strokes of equal sound are one kind, wherever they stand."""
    kinds = dict.fromkeys((stroke.instrument, stroke.touch, stroke.ornament) for stroke in strokes)
    return (Stroke(Fraction(0), instrument, touch, ornament=ornament) for instrument, touch, ornament in kinds)


def _has_repeated_bars(passage: Passage) -> bool:
    return any(is_like_last(passage.groove, number) for number in range(len(passage.groove.bars)))


def _tuplets(passages: Iterable[Passage], style: Style) -> Iterator[TupletGroup]:
    """Those that are written: only where a groove has some, or a step that is no plain note, can there be one."""
    for passage in passages:
        step = passage.groove.step.denominator
        if passage.groove.tuplets or step & (step - 1):
            for bar in write(passage.groove, style).bars:
                yield from (item for voice in bar.voices for item in voice.items if isinstance(item, TupletGroup))
