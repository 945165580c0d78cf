"""What the analysis found, in words and in the numbers that diagrams are drawn from. Only what is sure is told."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Any

from engraver.analysis import CellReading, Edit, Lane
from engraver.chapters import CellCard, ChapterPlan, Passage, is_barwise
from engraver.chapters.cells import figure_of, is_mirror, lead, phrases
from engraver.lilypond.rows import counts
from engraver.lilypond.tempo import tempo_mark
from engraver.rhythm import Groove, Instrument, Limbs, Touch
from engraver.style import Kit, Style, Words

RULER_STEPS = 64  # steps of a ruler's row
STRIP_PLACES = 24  # places of a strip's row
WIDEST_CELL = 12.0  # mm of one place in a strip


def sure_cells(plan: ChapterPlan) -> CellReading | None:
    cells = plan.facts.cells
    return cells if cells and cells.sure else None


# ------------------------------------------------------------------ the margin of the opening page
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


# ------------------------------------------------------------------ the ruler
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


# ------------------------------------------------------------------ letters
def letters_on_groove(plan: ChapterPlan, say: Words) -> str:
    if plan.regrouped or not plan.whole.ribbons or not sure_cells(plan):
        return ""
    assert plan.facts.cells
    bar = next(bar for bar in plan.groove.bars if bar.is_whole)
    each = int(bar.length / (plan.facts.cells.length * plan.facts.step))
    return say("letters on groove", n=each, count=say.number(each), letters=" ".join(plan.facts.cells.full))


def backbeat(plan: ChapterPlan, kit: Kit) -> Lane | None:
    """What says where the bar is: the hands' lane, if they have one."""
    feet = {i for i in plan.groove.instruments if kit[i].limbs is Limbs.FEET}
    return min(plan.facts.meter_lanes, key=lambda lane: lane.instrument in feet, default=None)


def regrouped_text(plan: ChapterPlan, passage: Passage, struck: Instrument | None, say: Words) -> str:
    """``struck``: whose beats stand under the staff."""
    cells = plan.facts.cells
    assert cells
    first = passage.groove.bars[bool(cells.start) + bool(lead(plan.facts))]
    meter = str(first.meter)
    each = int(first.length / (cells.length * plan.facts.step * passage.scale))
    group = (
        say("regrouped one", meter=meter)
        if each == 1
        else say("regrouped many", count=say.number(each).capitalize(), meter=meter)
    )
    wording = "equal steps" if passage.scale == 1 else "respelled"
    equal = _capital(say(wording, name=say.value(plan.facts.step), step=say.value(passage.groove.step)))
    parts = [equal, say("regrouped text", group=group)]
    if struck:
        parts.append(say("regrouped beats", instrument=say.label(struck)))
    if cells.remainder:
        parts.append(say("regrouped left", n=cells.remainder, count=say.number(cells.remainder)))
    return " ".join(parts)


def counted_caption(plan: ChapterPlan, passage: Passage, say: Words) -> str:
    """What stands over the counted bar lines of an exercise that has the cell's too."""
    if passage.scale == 1:
        return say("counted below")
    return say("counted below respelled", name=say.value(passage.groove.step), step=say.value(plan.facts.step))


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


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


# ------------------------------------------------------------------ cards
def difference(card: CellCard, say: Words) -> str:
    if not card.like:
        return say("the first cell") if card.cell.letter == "A" else say("its own")
    return say("plain difference", base=card.like)


def cell_words(card: CellCard, say: Words) -> str:
    return "; ".join(_edit(edit, say) for edit in card.edits)


def _edit(edit: Edit, say: Words) -> str:
    name = say.name(edit.instrument)
    if edit.mark == "-":
        return say("edit loses", instrument=name, step=edit.step + 1)
    mark = say(f"mark {edit.mark}") if f"mark {edit.mark}" in say.entries else edit.mark
    if edit.was == "-":
        return say("edit gains", instrument=f"{name}, {mark}" if edit.mark != "x" else name, step=edit.step + 1)
    return say("edit becomes", instrument=name, step=edit.step + 1, mark=mark)


# ------------------------------------------------------------------ sequence and picture
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
            cells=_capital(say("n cells", n=count, count=say.number(count))),
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
    for instrument in high_first:
        pattern = "".join(_box(figure, instrument, n * step) for n in range(steps))
        if pattern.strip("-"):
            yield _capital(say.name(instrument)), pattern


def _box(figure: Groove, instrument: Instrument, onset: Fraction) -> str:
    shown = {Touch.GHOST: "g", Touch.PLAIN: "x", Touch.ACCENT: "X"}
    return next((shown[s.touch] for s in figure.strokes if s.onset == onset and s.instrument == instrument), "-")
