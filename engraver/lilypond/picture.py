"""The picture of the cross-rhythm: cells against beats on a circle and in a grid, until they meet again."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Any

from engraver.chapters import ChapterPlan
from engraver.chapters.cells import figure_of
from engraver.lilypond.facts import sure_cells
from engraver.lilypond.rows import counts
from engraver.rhythm import Groove, Touch
from engraver.style import Kit, Style, Words, capital

BOXES = {Touch.GHOST: "g", Touch.PLAIN: "x", Touch.ACCENT: "X"}  # what each is told by to the templates


def picture(plan: ChapterPlan, style: Style, say: Words) -> dict[str, Any] | None:
    """Cells against beats on a circle and in a grid, from the start of the phrase until they meet again."""
    cells, cross, groove = sure_cells(plan), plan.facts.cell_against_beat, plan.groove
    if (
        cells is None
        or cross is None
        or cells.start
        or 1 in cross.ratio
        or cross.cycle_steps > min(40, plan.facts.steps)
    ):
        return None
    beat = groove.bars[0].meter.beat
    if beat is None:
        return None
    steps, step = cross.cycle_steps, plan.facts.step
    figure = figure_of(groove, plan.facts)
    beats = tuple(range(0, steps, int(beat / step)))
    spoken = dict(counts(groove, groove.bars[0], style.syllables))
    syllables = tuple(spoken.get((n * step) % groove.bars[0].length, "") for n in range(steps))
    rows = tuple(_grid_rows(figure, steps, step, style.kit, say))
    count, against = cross.ratio
    return {
        "title": say(
            "picture title",
            cells=capital(say("n cells", n=count, count=say.number(count))),
            beats=say("n beats", n=against, count=say.number(against)),
        ),
        "steps": steps,
        "dots": tuple(range(0, steps, cells.length)),
        "rings": beats,
        "labels": tuple((n, syllables[n]) for n in beats),
        "counts": syllables,
        "beats": beats,
        "letters": cells.full[: steps // cells.length],
        "cell": cells.length,
        "rows": rows,
        "words": _legend(rows, say),
    }


def _legend(rows: Sequence[tuple[str, str]], say: Words) -> tuple[str, ...]:
    """The words for the marks that are there; no word for one that is not."""
    drawn = "".join(pattern for _, pattern in rows)
    return tuple(
        word if mark is None or mark in drawn else ""
        for mark, word in zip(("X", "x", "g", None, None), say.several("legend"), strict=True)
    )


def _grid_rows(figure: Groove, steps: int, step: Fraction, kit: Kit, say: Words) -> Iterator[tuple[str, str]]:
    high_first = sorted(figure.instruments, key=lambda i: -kit[i].position)
    boxes = {(stroke.instrument, stroke.onset): BOXES[stroke.touch] for stroke in figure.strokes}
    for instrument in high_first:
        pattern = "".join(boxes.get((instrument, n * step), "-") for n in range(steps))
        if pattern.strip("-"):
            yield capital(say.name(instrument)), pattern
