"""The contents as LilyPond source, and what they list of a chapter."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from engraver.chapters import ChapterPlan
from engraver.lilypond.chapter import Looks, anchor, cell_looks, main_width
from engraver.lilypond.facts import facts, sure_cells
from engraver.lilypond.matter import LISTED, Matter
from engraver.lilypond.source import Source
from engraver.style import Style, Words


@dataclass(frozen=True, slots=True)
class Strip:
    """Cells in a row: their letters, the steps of one, and those left over behind the last."""

    letters: tuple[str, ...]
    length: int
    left: int


@dataclass(frozen=True, slots=True)
class Entry:
    """``tempo``: its note value, dots and beats a minute; ``told``: of cells and cross-rhythm."""

    name: str
    title: str
    meter: str
    tempo: tuple[Any, ...]
    told: tuple[str, ...]
    exercises: int
    strip: Strip | None
    looks: Looks


def entry(plan: ChapterPlan, style: Style) -> Entry:
    say, cells = style.say, sure_cells(plan)
    rows = dict(facts(plan, style, say))
    told_of = tuple(rows[key] for key in (say("cell"), say("cross-rhythm")) if key in rows)
    is_shown = cells is not None and len(set(cells.full)) > 1
    strip = Strip(tuple(cells.full), cells.length, cells.remainder) if cells and is_shown else None
    return Entry(
        name=plan.name,
        title=plan.definition.title,
        meter=rows[say("meter")],
        tempo=rows[say("tempo")],
        told=told_of,
        exercises=len(plan.exercises),
        strip=strip,
        looks=cell_looks(plan.facts.cells),
    )


def contents(
    matter: Matter,
    entries: Sequence[Entry],
    parts: Sequence[tuple[str, str, str]],
    front: Sequence[tuple[str, str]],
    back: Sequence[tuple[str, str]],
) -> Source:
    """``parts``: anchor, title and first chapter of each. ``front`` and ``back``: name and title of other pages.

    An empty title is the program's.
    """
    begun = {first: {"anchor": place, "title": heading} for place, heading, first in parts}
    book = {
        "front": tuple(_listed(front, matter.say)),
        "back": tuple(_listed(back, matter.say)),
        "chapters": tuple(_shown(matter, n, one, begun.get(one.name)) for n, one in enumerate(entries, start=1)),
    }
    return matter.source("contents", book, looks=_shared_looks(entries))


def _listed(pages: Iterable[tuple[str, str]], say: Words) -> Iterator[dict[str, str]]:
    for name, heading in pages:
        if name in LISTED or heading:
            remark = say(LISTED[name][1]) if name in LISTED and not heading else ""
            yield {"target": name, "title": heading or say(LISTED[name][0]), "words": remark}


def _shared_looks(entries: Iterable[Entry]) -> Looks:
    """A name for every look in the book: chapters reuse letters, and one may be solid here, hollow there."""
    letters: dict[tuple[str, bool], tuple[str, int, bool]] = {}
    for one in entries:
        for letter, colour, solid in one.looks:
            letters[letter, solid] = (_look_name(letter, solid), colour, solid)
    return tuple(letters.values())


def _look_name(letter: str, solid: bool) -> str:
    return letter if solid else f"{letter}'"


def _shown(matter: Matter, number: int, one: Entry, part: dict[str, str] | None) -> dict[str, Any]:
    say = matter.say
    log, dots, bpm = one.tempo
    return {
        "part": part,
        "anchor": anchor("chapter", one.name),
        "number": str(number),
        "title": one.title,
        "meter": one.meter,
        "log": log,
        "dots": dots,
        "bpm": bpm,
        "told": one.told[0] if one.told else "",
        "line": "".join(f"   ·   {text}" for text in (*one.told, say("exercises n", n=one.exercises))),
        "strip": _strip(matter, one.strip, one.looks) if one.strip else None,
    }


def _strip(matter: Matter, strip: Strip, looks: Looks) -> dict[str, Any]:
    width = (main_width(matter.style) - 10) / (len(strip.letters) + strip.left / strip.length)
    solid = {letter: is_solid for letter, _, is_solid in looks}
    names = tuple(_look_name(letter, solid[letter]) for letter in strip.letters)
    cell = min(12.0, width)
    return {"cell": cell, "step": cell / strip.length, "names": names, "left": strip.left}
