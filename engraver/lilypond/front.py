"""The pages before the chapters as LilyPond source: title, rights, cautions, contents; parts and own pages."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from engraver.chapters import ChapterPlan
from engraver.chapters.cells import figure_of
from engraver.lilypond.chapter import anchor, cell_looks, main_width
from engraver.lilypond.facts import facts, sure_cells
from engraver.lilypond.grid import grid
from engraver.lilypond.hearing import doses
from engraver.lilypond.matter import Matter, Part
from engraver.lilypond.prose import blocks
from engraver.lilypond.source import Source
from engraver.prose import Prose
from engraver.style import Words

# a page that the contents list: the rows of the words for its title and the remark beside it
LISTED = {
    "cautions": ("cautions", "cautions remark"),
    "how-to": ("how to", "how to remark"),
    "key": ("key page", "key remark"),
    "counting": ("counting page", "counting remark"),
    "answers": ("answers", "answers remark"),
    "log": ("practice log", "log remark"),
    "plan": ("practice plan", "practice plan remark"),
    "index": ("index", "index remark"),
    "grades": ("by grade", "grades remark"),
}


def title(matter: Matter) -> Source:
    words = matter.words
    circle = _circle(matter)
    shown: dict[str, Any] = {
        "label": words.label,
        "title": words.title,
        "subtitle": words.subtitle,
        "cover": tuple(_cover_rows(matter.cover)),
        "circle": circle[1] if circle else None,
        "author": words.author,
        "publisher": words.publisher,
    }
    return matter.source("title", shown)


def _cover_rows(plan: ChapterPlan) -> Iterator[str]:
    """A row a bar: B where a cell begins with a stroke, b with none, x another stroke of the figure."""
    step, cells = plan.facts.step, sure_cells(plan)
    struck = {stroke.onset for stroke in figure_of(plan.groove, plan.facts).strokes}
    begins = {n * step for n in cells.places} if cells else set()
    for bar in plan.groove.bars[:12]:
        onsets = [bar.start + n * step for n in range(int(bar.length / step))]
        yield "".join(_square(onset in begins, onset in struck) for onset in onsets)


def _square(begins: bool, struck: bool) -> str:
    return ("B" if struck else "b") if begins else ("x" if struck else "-")


def _circle(matter: Matter) -> tuple[str, tuple[int, int, int]] | None:
    """The cover's cross-rhythm, or else the book's first: title; steps, cell and beat. None where there is none."""
    for plan in (matter.cover, *matter.plans):
        cells, cross, beat = sure_cells(plan), plan.facts.cell_against_beat, plan.groove.bars[0].meter.beat
        if cells and cross and beat and 1 not in cross.ratio and cross.cycle_steps <= 40:
            return plan.definition.title, (cross.cycle_steps, cells.length, int(beat / plan.facts.step))
    return None


def _cover_picture(matter: Matter) -> tuple[str, ...]:
    """A sentence that says what the title page shows."""
    if grid(matter.style.design).cover == "squares":
        return (matter.say("cover picture", title=matter.cover.definition.title),)
    circle = _circle(matter)
    return (matter.say("cover circle", title=circle[0]),) if circle else ()


def rights(matter: Matter) -> Source:
    say, words = matter.say, matter.words
    imprint = ". ".join(part.rstrip(".") for part in (words.edition, words.publisher, words.date.isoformat()) if part)
    origins = tuple(f"{p.definition.title}: {p.definition.idea}" for p in matter.plans if p.definition.idea)
    rows = (
        (say("rights"), tuple(text for text in (words.rights,) if text)),
        (say("imprint"), (f"{imprint}. {say('engraved with', fonts=_fonts(matter))}", *_cover_picture(matter))),
        (say("grooves"), origins),
        (say("others"), (say("others text"),)),
    )
    return matter.source("rights", {"rights": tuple((label, texts) for label, texts in rows if texts)})


def _fonts(matter: Matter) -> str:
    """The families that the words are set in, each once."""
    own, design = matter.style.fonts, grid(matter.style.design)
    text = own.text.regular.name if own.text else design.text
    labels = own.labels.regular.name if own.labels else design.labels
    return text if text == labels else matter.say("finding list", first=text, last=labels)


def cautions(matter: Matter) -> Source:
    return matter.source("cautions", {"doses": doses(matter.say)})


def own(matter: Matter, name: str, heading: str, text: Prose) -> Source:
    """A page in the author's words; ``heading`` empty: the title of the page whose place it takes."""
    shown = heading or (matter.say(LISTED[name][0]) if name in LISTED else matter.say("rights page"))
    return matter.source("own", {"anchor": name, "title": shown, "text": blocks(text)})


def part(matter: Matter, one: Part) -> Source:
    number = matter.parts.index(one) + 1
    label = matter.say("part n", n=number)
    return matter.source("part", {"anchor": one.anchor, "label": label, "title": one.title, "text": blocks(one.text)})


# ------------------------------------------------------------------ contents
def contents(matter: Matter, front: Sequence[tuple[str, str]], back: Sequence[tuple[str, str]]) -> Source:
    """``front`` and ``back``: name and title of the pages around the chapters; an empty title is the program's."""
    chapters = tuple(_entry(matter, n, plan) for n, plan in enumerate(matter.plans, start=1))
    book = {
        "front": tuple(_listed(front, matter.say)),
        "back": tuple(_listed(back, matter.say)),
        "chapters": chapters,
    }
    return matter.source("contents", book, looks=_shared_looks(matter.plans))


def _listed(pages: Iterable[tuple[str, str]], say: Words) -> Iterator[dict[str, str]]:
    for name, heading in pages:
        if name in LISTED or heading:
            remark = say(LISTED[name][1]) if name in LISTED and not heading else ""
            yield {"target": name, "title": heading or say(LISTED[name][0]), "words": remark}


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
    say, cells = matter.say, sure_cells(plan)
    rows = dict(facts(plan, matter.style, say))
    log, dots, bpm = rows[say("tempo")]
    told_of = [rows[key] for key in (say("cell"), say("cross-rhythm")) if key in rows]
    strip = None
    if cells and len(set(cells.full)) > 1:
        width = (main_width(matter.style) - 10) / (len(cells.full) + cells.remainder / cells.length)
        solid = {letter: is_solid for letter, _, is_solid in cell_looks(cells)}
        names = tuple(_look_name(letter, solid[letter]) for letter in cells.full)
        cell = min(12.0, width)
        strip = {"cell": cell, "step": cell / cells.length, "names": names, "left": cells.remainder}
    return {
        "part": next((one for one in matter.parts if one.first == plan.name), None),
        "anchor": anchor("chapter", plan.name),
        "number": str(number),
        "title": plan.definition.title,
        "meter": rows[say("meter")],
        "log": log,
        "dots": dots,
        "bpm": bpm,
        "told": told_of[0] if told_of else "",
        "line": "".join(f"   ·   {text}" for text in (*told_of, say("exercises n", n=len(plan.exercises)))),
        "strip": strip,
    }
