"""How to use the book and how to read it, as LilyPond source: steps, key, counting, each from what the book holds."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from engraver.lilypond.matter import Matter
from engraver.lilypond.notes import Sound, note_names, sounds_of
from engraver.lilypond.signs import Sign, key_strokes, repeat_bar_sign, signs, tuplet_sign
from engraver.lilypond.source import Source
from engraver.lilypond.tempo import tempo_lead
from engraver.lilypond.to_read import ToRead
from engraver.rhythm import Stroke
from engraver.style import Counting, Words


def reading(matter: Matter, chapters: Sequence[ToRead], sections: Sequence[str], has_log: bool) -> Source:
    """Sections that share pages: "how-to", "key", "counting". They tell of what the book holds, and of nothing else."""
    say = matter.say
    strokes = [stroke for one in chapters for stroke in one.strokes]
    shown = key_strokes(strokes, matter.style.kit)
    names = note_names(sounds_of(shown))
    has_cells = any(one.cells for one in chapters)
    steps = tuple(_steps(say, has_cells=has_cells, has_log=has_log))
    book = {
        "sections": tuple(sections),
        "title": say("how to title", n=len(steps), count=say.number(len(steps)).capitalize()),
        "steps": steps,
        "signs": (*signs(strokes, matter.style, names), *_bar_signs(matter, chapters, shown[0], names)),
        "beat": tempo_lead(Fraction(1, 4), matter.style.tempo, say),
        "cells": ("A", "B") if has_cells else (),
        "left": any(one.cells and one.left for one in chapters),
        "cut": any(one.cut for one in chapters),
        "mirrored": any(one.mirrored for one in chapters),
        "endings": any(one.endings for one in chapters),
        "graded": "counting" not in sections,  # where grades are explained
        "counting": tuple(_counting(matter, chapters)),
    }
    return matter.source("reading", book, names=names, looks=(("A", 0, True), ("B", 1, False)))


def _bar_signs(
    matter: Matter, chapters: Sequence[ToRead], stroke: Stroke, names: Mapping[Sound, str]
) -> Iterator[Sign]:
    """Of tuplets and repeated bars, where the book has them."""
    if tuplet := next((one.tuplet for one in chapters if one.tuplet), None):
        yield tuplet_sign(*tuplet, stroke, matter.style, names)
    if matter.style.repeat_bars and any(one.repeated_bars for one in chapters):
        yield repeat_bar_sign(stroke, matter.style, names)


def _steps(say: Words, *, has_cells: bool, has_log: bool) -> Iterator[tuple[str, str, str]]:
    shown = [name for name in ("see", "name", "build", "join") if has_cells or name != "name"]
    for number, name in enumerate(shown, start=1):
        more = " " + say("step join log") if name == "join" and has_log else ""
        yield str(number), say(f"step {name}"), say(f"step {name} text") + more


def _counting(matter: Matter, chapters: Sequence[ToRead]) -> Iterator[tuple[str, str]]:
    """Label and text of what is explained: counting, sticking, grades, cells, each where the book has it."""
    say, style = matter.say, matter.style
    if style.counting is not Counting.NONE:
        spoken = style.syllables
        each = {"halves": spoken.halves, "thirds": spoken.thirds, "quarters": spoken.quarters}
        yield say("counting"), say("counting text", **{name: " ".join(parts) for name, parts in each.items()})
    if style.sticking and any(one.sticking for one in chapters):
        turned = " " + say("left-handed") if style.left_handed else ""
        yield say("sticking"), f"{say('sticking title')}. {say('sticking text')}{turned}"
    if any(one.graded for one in chapters):
        yield say("grade"), say("grade text")
    if any(one.cells for one in chapters):
        yield say("terms"), say("terms text")
