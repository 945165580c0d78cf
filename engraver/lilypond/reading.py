"""How to use the book and how to read it, as LilyPond source: steps, key, counting, each from what the book holds."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction

from engraver.chapters import Passage
from engraver.lilypond.facts import sure_cells
from engraver.lilypond.matter import Matter
from engraver.lilypond.notes import Sound, note_names, sounds_of
from engraver.lilypond.signs import Sign, key_strokes, repeat_bar_sign, signs, tuplet_sign
from engraver.lilypond.source import Source
from engraver.lilypond.tempo import tempo_lead
from engraver.notation import TupletGroup, write
from engraver.notation.repeats import is_like_last
from engraver.rhythm import Stroke
from engraver.style import Counting, Style, Words


def reading(matter: Matter, sections: Sequence[str], *, has_log: bool) -> Source:
    """Sections that share pages: "how-to", "key", "counting". They tell of what the book holds, and of nothing else."""
    say = matter.say
    strokes = _strokes(matter)
    shown = key_strokes(strokes, matter.style.kit)
    names = note_names(sounds_of(shown))
    known = [cells for plan in matter.plans if (cells := sure_cells(plan))]
    steps = tuple(_steps(say, has_cells=bool(known), has_log=has_log))
    book = {
        "sections": tuple(sections),
        "title": say("how to title", n=len(steps), count=say.number(len(steps)).capitalize()),
        "steps": steps,
        "signs": (*signs(strokes, matter.style, names), *_bar_signs(matter, shown[0], names)),
        "beat": tempo_lead(Fraction(1, 4), matter.style.tempo, say),
        "cells": ("A", "B") if known else (),
        "left": any(cells.remainder for cells in known),
        "cut": any(ribbon.cut and ribbon.letter for p in _passages(matter) for ribbon in p.ribbons),
        "mirrored": any(p.mirrors for p in _passages(matter)),
        "endings": any(repeat.endings for p in _passages(matter) for repeat in p.groove.repeats),
        "graded": "counting" not in sections,  # where grades are explained
        "counting": tuple(_counting(matter)),
    }
    return matter.source("reading", book, names=names, looks=(("A", 0, True), ("B", 1, False)))


def _bar_signs(matter: Matter, stroke: Stroke, names: Mapping[Sound, str]) -> Iterator[Sign]:
    """Of tuplets and repeated bars, where the book has them."""
    style, passages = matter.style, [*_passages(matter)]
    if tuplet := next(_tuplets(passages, style), None):
        yield tuplet_sign(tuplet.count, tuplet.normal, stroke, style, names)
    if style.repeat_bars and any(is_like_last(p.groove, n) for p in passages for n in range(len(p.groove.bars))):
        yield repeat_bar_sign(stroke, style, names)


def _tuplets(passages: Iterable[Passage], style: Style) -> Iterator[TupletGroup]:
    """Those that are written: only where a groove has some, or a step that is no plain note, can there be one."""
    for passage in passages:
        step = passage.groove.step.denominator
        if passage.groove.tuplets or step & (step - 1):
            for bar in write(passage.groove, style).bars:
                yield from (item for voice in bar.voices for item in voice.items if isinstance(item, TupletGroup))


def _passages(matter: Matter) -> Iterator[Passage]:
    return (passage for plan in matter.plans for passage in plan.passages)


def _strokes(matter: Matter) -> list[Stroke]:
    return [stroke for passage in _passages(matter) for stroke in passage.groove.strokes]


def _steps(say: Words, *, has_cells: bool, has_log: bool) -> Iterator[tuple[str, str, str]]:
    shown = [name for name in ("see", "name", "build", "join") if has_cells or name != "name"]
    for number, name in enumerate(shown, start=1):
        more = " " + say("step join log") if name == "join" and has_log else ""
        yield str(number), say(f"step {name}"), say(f"step {name} text") + more


def _counting(matter: Matter) -> Iterator[tuple[str, str]]:
    """Label and text of what is explained: counting, sticking, grades, cells, each where the book has it."""
    say, style = matter.say, matter.style
    if style.counting is not Counting.NONE:
        spoken = style.syllables
        each = {"halves": spoken.halves, "thirds": spoken.thirds, "quarters": spoken.quarters}
        yield say("counting"), say("counting text", **{name: " ".join(parts) for name, parts in each.items()})
    if style.sticking and any(passage.groove.sticking for passage in _passages(matter)):
        turned = " " + say("left-handed") if style.left_handed else ""
        yield say("sticking"), f"{say('sticking title')}. {say('sticking text')}{turned}"
    if any(plan.exercises for plan in matter.plans):
        yield say("grade"), say("grade text")
    if any(sure_cells(plan) for plan in matter.plans):
        yield say("terms"), say("terms text")
