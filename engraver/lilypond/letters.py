"""The letters of the cells as strips: in their order, with and without ghost notes, and read from both ends."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from engraver.analysis import CellReading
from engraver.chapters import ChapterPlan
from engraver.chapters.cells import is_mirror
from engraver.lilypond.facts import sure_cells
from engraver.style import Words

STRIP_PLACES = 24  # places of a row
WIDEST_CELL = 12.0  # mm of one place


def letters(plan: ChapterPlan, say: Words, width: float) -> dict[str, Any] | None:
    cells = sure_cells(plan)
    if cells is None or plan.regrouped is None or len(set(cells.full)) < 2:
        return None
    changed = sum(a != b for a, b in zip(cells.skeleton, cells.full, strict=True))
    text = _order(plan, say)
    if changed:
        text = (
            say("letters changed", places=say("letters changed places", n=changed, count=say.number(changed)))
            + " "
            + text
        )
    return {
        "title": say(_what_changes(plan)) if changed else say("letters title"),
        "text": text,
        "changed": bool(changed),
        "word": say("letters word"),
        "rows": list(_strip_rows(cells, width)),
    }


def _what_changes(plan: ChapterPlan) -> str:
    ghosts = any(stroke.is_ghost for stroke in plan.groove.strokes)
    ornaments = any(stroke.ornament for stroke in plan.groove.strokes)
    return f"letters title {'both' if ghosts and ornaments else 'ghosts' if ghosts else 'ornaments'}"


def _order(plan: ChapterPlan, say: Words) -> str:
    sequence = plan.facts.full_sequence
    if sequence is None or len(set(plan.facts.cells.full if plan.facts.cells else ())) < 2:
        return ""
    if 2 * sequence.period <= len(plan.facts.cells.full if plan.facts.cells else ()):
        return say("letters same period", n=sequence.period, count=say.number(sequence.period))
    return ""


def _strip_rows(cells: CellReading, width: float) -> Iterator[dict[str, Any]]:
    """Rows of letters; every phrase begins a row, and ends with what is left over."""
    a_phrase = len(cells.full) // cells.passes
    each = -(-a_phrase // -(-a_phrase // STRIP_PLACES))
    extra = cells.remainder / cells.length
    cell = min(WIDEST_CELL, width / (each + extra))
    for first in range(0, len(cells.full), each):
        yield {
            "cell": cell,
            "step": cell / cells.length,
            "skeleton": cells.skeleton[first : first + each],
            "full": cells.full[first : first + each],
            "first": first + 1,
            "left": cells.remainder if (first + each) % a_phrase == 0 else 0,
        }


def mirror(plan: ChapterPlan, say: Words, width: float) -> dict[str, Any] | None:
    """The letters from both ends, if they are a mirror, or one that a few more letters would make."""
    cells, sequence = sure_cells(plan), plan.facts.full_sequence
    if cells is None or sequence is None or len(set(cells.full)) < 2 or len(cells.full) > STRIP_PLACES:
        return None
    if is_mirror(plan.facts):
        centre = Fraction(len(cells.full) - 1, 2)
        place = int(centre) + 1
        text = (
            say("mirror text", place=place, letter=cells.full[int(centre)])
            if centre.denominator == 1
            else say("mirror text between", place=place, next=place + 1)
        )
        return _strip(say, cells.full, centre, text, width)
    asked = next((q for q in plan.questions if q.row), None)
    if asked:
        names = cells.full + ("?",) * (len(asked.row) - len(cells.full))
        return _strip(say, names, asked.centre, say("mirror open text", n=len(asked.row) - len(cells.full)), width)
    return None


def _strip(say: Words, names: tuple[str, ...], centre: Fraction, text: str, width: float) -> dict[str, Any]:
    return {
        "title": say("mirror open title") if "?" in names else say("mirror title"),
        "text": text,
        "names": names,
        "centre": float(centre),
        "cell": min(WIDEST_CELL, width / len(names)),
    }
