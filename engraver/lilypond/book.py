"""The pages around the chapters as LilyPond source: title, cautions, contents, how to, answers, log, index."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Any

from engraver.chapters import ChapterPlan
from engraver.chapters.cells import figure_of
from engraver.lilypond import facts as told
from engraver.lilypond.chapter import anchor, cell_looks, main_width, page
from engraver.lilypond.prose import blocks
from engraver.lilypond.signs import signs
from engraver.lilypond.source import Source
from engraver.lilypond.templates import fill
from engraver.prose import Prose
from engraver.rhythm import Ornament, Touch
from engraver.style import Style, Words

# Source of the daily times: NIOSH recommended exposure limit, 85 dB(A) for 8 hours with a 3 dB exchange rate;
# minutes = 480 / 2 ** ((level - 85) / 3).
LEVELS = (85, 88, 91, 94, 97, 100)
LOG_ROW, LOG_TOP, LOG_FOOT = 8.9, 34.0, 19.5  # mm
TITLE_LETTERS = 22  # of the largest type that fit on a line


@dataclass(frozen=True, slots=True)
class BookWords:
    """What the author says of the book as a whole, as the title and rights pages need it."""

    title: str
    subtitle: str
    label: str
    author: str
    publisher: str
    rights: str
    edition: str
    date: date


@dataclass(frozen=True, slots=True)
class Matter:
    """The pages around the chapters: every source under its name."""

    words: BookWords
    plans: tuple[ChapterPlan, ...]
    cover: ChapterPlan
    style: Style
    say: Words
    parts: Mapping[str, str]  # the title of a part that begins with the chapter of this name

    def source(self, name: str, book: Mapping[str, Any], **more: Any) -> Source:
        plain = page(self.style, more.pop("names", {}), more.pop("looks", ()))
        return fill(self.style.design, f"{name}.ly.j2", say=self.say, page=plain, book=book)


def allowed_minutes(level: int) -> Fraction:
    """How long in a day, in minutes, at a sound level in dB(A); whole steps of 3 dB above or below 85."""
    steps, rest = divmod(level - 85, 3)
    assert rest == 0, level
    return Fraction(480) / Fraction(2) ** steps


def title(matter: Matter) -> Source:
    words = matter.words
    lines = max(1, -(-len(words.title) // TITLE_LETTERS))
    cover = tuple(_cover_rows(matter.cover))
    shown = {"label": words.label, "title": words.title, "title_lines": lines, "subtitle": words.subtitle}
    return matter.source("title", {**shown, "cover": cover, "author": words.author, "publisher": words.publisher})


def _cover_rows(plan: ChapterPlan) -> Iterator[str]:
    """A row a bar: B where a cell begins with a stroke, b with none, x another stroke of the figure."""
    step, cells = plan.facts.step, told.sure_cells(plan)
    struck = {stroke.onset for stroke in figure_of(plan.groove, plan.facts).strokes}
    begins = {n * step for n in cells.places} if cells else set()
    for bar in plan.groove.bars[:12]:
        onsets = [bar.start + n * step for n in range(int(bar.length / step))]
        yield "".join(_square(onset in begins, onset in struck) for onset in onsets)


def _square(begins: bool, struck: bool) -> str:
    return ("B" if struck else "b") if begins else ("x" if struck else "-")


def cautions(matter: Matter) -> Source:
    say, words = matter.say, matter.words
    doses = tuple((level, float(allowed_minutes(level)), _duration(allowed_minutes(level), say)) for level in LEVELS)
    imprint = ". ".join(part.rstrip(".") for part in (words.edition, words.publisher, words.date.isoformat()) if part)
    origins = [f"{p.definition.title}: {p.definition.idea}" for p in matter.plans if p.definition.idea]
    rights = [
        words.rights,
        "  ".join(origins),
        f"{imprint}. {say('engraved with')}",
    ]
    rights.append(say("cover picture", title=matter.cover.definition.title))
    return matter.source("cautions", {"doses": doses, "rights": tuple(text for text in rights if text)})


def _duration(minutes: Fraction, say: Words) -> str:
    return say("hours", n=int(minutes / 60)) if minutes >= 60 else say("minutes", n=int(minutes))


def contents(matter: Matter, front: Sequence[str], back: Sequence[str]) -> Source:
    say = matter.say
    remarks = {name: (say(_TITLES[name]), say(_REMARKS[name])) for name in _TITLES}
    entries = [{"target": n, "title": remarks[n][0], "words": remarks[n][1]} for n in front if n in remarks]
    after = [{"target": n, "title": remarks[n][0], "words": remarks[n][1]} for n in back if n in remarks]
    looks = _shared_looks(matter.plans)
    chapters = tuple(_entry(matter, n, plan) for n, plan in enumerate(matter.plans, start=1))
    return matter.source("contents", {"front": entries, "back": after, "chapters": chapters}, looks=looks)


_TITLES = {"cautions": "cautions", "how-to": "how to", "answers": "answers", "log": "practice log", "index": "index"}
_REMARKS = {
    "cautions": "cautions remark",
    "how-to": "how to remark",
    "answers": "answers remark",
    "log": "log remark",
    "index": "index remark",
}


def _shared_looks(plans: Iterable[ChapterPlan]) -> tuple[tuple[str, int, bool], ...]:
    """A name for every look in the book: chapters reuse letters, and one may be solid here, hollow there."""
    letters: dict[tuple[str, bool], tuple[str, int, bool]] = {}
    for plan in plans:
        for letter, colour, solid in cell_looks(plan.facts.cells):
            letters[letter, solid] = (_look_name(letter, solid), colour, solid)
    return tuple(letters.values())


def _look_name(letter: str, solid: bool) -> str:
    return letter if solid else f"{letter}'"


def _entry(matter: Matter, number: int, plan: ChapterPlan) -> dict[str, Any]:
    say, cells = matter.say, told.sure_cells(plan)
    rows = dict(told.facts(plan, matter.style, say))
    log, dots, bpm = rows[say("tempo")]
    told_of = [rows[key] for key in (say("cell"), say("cross-rhythm")) if key in rows]
    told_of.append(say("exercises n", n=len(plan.exercises)))
    strip = None
    if cells and len(set(cells.full)) > 1:
        width = (main_width(matter.style) - 10) / (len(cells.full) + cells.remainder / cells.length)
        solid = {letter: is_solid for letter, _, is_solid in cell_looks(cells)}
        names = tuple(_look_name(letter, solid[letter]) for letter in cells.full)
        cell = min(12.0, width)
        strip = {"cell": cell, "step": cell / cells.length, "names": names, "left": cells.remainder}
    return {
        "part": matter.parts.get(plan.name, ""),
        "anchor": anchor("chapter", plan.name),
        "number": str(number),
        "title": plan.definition.title,
        "meter": rows[say("meter")],
        "log": log,
        "dots": dots,
        "bpm": bpm,
        "line": "".join(f"   ·   {text}" for text in told_of),
        "strip": strip,
    }


def how_to(matter: Matter) -> Source:
    say, kit = matter.say, matter.style.kit
    strokes = [s for plan in matter.plans for p in plan.passages for s in p.groove.strokes]
    shown, names = signs(strokes, kit, say)
    known = [cells for plan in matter.plans if (cells := told.sure_cells(plan))]
    steps = tuple(
        (str(n), name, text)
        for n, (name, text) in enumerate(zip(say.several("steps"), say.several("step texts"), strict=True), start=1)
    )
    sticking_text = say("sticking text") + (" " + say("left-handed") if matter.style.left_handed else "")
    spoken = matter.style.syllables
    book = {
        "counting": say(
            "counting text",
            halves=" ".join(spoken.halves),
            thirds=" ".join(spoken.thirds),
            quarters=" ".join(spoken.quarters),
        ),
        "sticking": sticking_text,
        "steps": steps,
        "signs": shown,
        "cells": ("A", "B") if known else (),
        "left": any(cells.remainder for cells in known),
    }
    return matter.source("how-to", book, names=names, looks=(("A", 0, True), ("B", 1, False)))


def answers(matter: Matter) -> Source | None:
    """None where nothing is asked."""
    chapters = [
        {
            "title": plan.definition.title,
            "answers": tuple(_answer(matter, plan, n) for n in range(1, len(plan.questions) + 1)),
        }
        for plan in matter.plans
        if plan.questions
    ]
    return matter.source("answers", {"answers": chapters}) if chapters else None


def _answer(matter: Matter, plan: ChapterPlan, number: int) -> dict[str, Any]:
    question = plan.questions[number - 1]
    strip = None
    if question.row:
        cell = min(12.0, main_width(matter.style) / len(question.row))
        strip = {"names": question.row, "centre": float(question.centre), "cell": cell}
    return {
        "number": str(number),
        "name": anchor(plan.name, str(number)),
        "question": _flat(question.text),
        "answer": blocks(question.answer),
        "strip": strip,
        "looks": cell_looks(plan.facts.cells),
    }


def _flat(prose: Prose) -> str:
    return " ".join(block.text for block in prose)


def log(matter: Matter) -> Source:
    rows = int((matter.style.page.height - LOG_TOP - LOG_FOOT) / LOG_ROW)
    return matter.source("log", {"log_rows": rows})


def index(matter: Matter, label_of: Mapping[str, str]) -> Source:
    """``label_of``: what the page is called on which an anchor lies."""
    grades: dict[int, list[tuple[str, str]]] = {}
    for plan in matter.plans:
        for number, exercise in enumerate(plan.exercises, start=1):
            name = f"{plan.definition.title}, {number}"
            label = label_of[f"exercise:{plan.name}:{number}"]
            grades.setdefault(exercise.grade, []).append((name, label))
    subjects: dict[str, dict[str, list[str]]] = {}
    for plan in matter.plans:
        for group, entry in _subjects(plan, matter):
            subjects.setdefault(group, {}).setdefault(entry, []).append(label_of[f"chapter:{plan.name}"])
    book = {
        "grades": tuple(group for g in sorted(grades) for group in _in_pieces(g, grades[g])),
        "subjects": tuple(
            (
                group,
                tuple(
                    (entry, ", ".join(dict.fromkeys(pages))) for entry, pages in sorted(entries.items(), key=_natural)
                ),
            )
            for group, entries in subjects.items()
        ),
    }
    return matter.source("index", book)


def _natural(entry: tuple[str, list[str]]) -> list[tuple[bool, int, str]]:
    """3 before 12, and numbers before words."""
    parts = [part for part in re.split(r"(\d+)", entry[0]) if part]
    return [(not part.isdigit(), int(part) if part.isdigit() else 0, part) for part in parts]


def _in_pieces(grade: int, entries: Sequence[tuple[str, str]], most: int = 24) -> Iterator[tuple[int, Any]]:
    for first in range(0, len(entries), most):
        yield grade, tuple(entries[first : first + most])


def _subjects(plan: ChapterPlan, matter: Matter) -> Iterator[tuple[str, str]]:
    say = matter.say
    for meter in dict.fromkeys(str(bar.meter) for bar in plan.groove.bars):
        yield say("meter"), meter
    rows = dict(told.facts(plan, matter.style, say))
    for key, group in ((say("cell"), say("cell length")), (say("cross-rhythm"), say("cross-rhythm"))):
        if key in rows:
            yield group, str(rows[key])
    strokes = plan.groove.strokes
    technique = say("technique")
    if any(s.touch is Touch.GHOST for s in strokes):
        yield technique, say("ghost notes")
    if any(s.touch is Touch.ACCENT for s in strokes):
        yield technique, say("accents")
    for ornament in Ornament:
        if any(s.ornament is ornament for s in strokes):
            yield technique, say(f"{ornament.value} key")
    if plan.groove.sticking:
        yield technique, say("sticking")
    for instrument in plan.groove.instruments:
        if instrument.name in ("foot hi-hat", "open hi-hat", "left bass drum"):
            yield technique, say.name(instrument)
