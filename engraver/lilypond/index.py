"""The index and the exercises by grade as LilyPond source, and what they list of a chapter."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from engraver.chapters import ChapterPlan
from engraver.lilypond.chapter import anchor
from engraver.lilypond.facts import facts
from engraver.lilypond.matter import Matter
from engraver.lilypond.source import Source
from engraver.rhythm import Instrument, Ornament, Pedal, Side, Touch
from engraver.style import KitRow, Style

Numbers = tuple[tuple[str, str], ...]  # page numbers, each with the anchor that it leads to
Group = tuple[str | int, tuple[tuple[str, Numbers], ...]]  # a heading or a grade, and its entries
Labels = Mapping[str, str]  # what the page is called on which an anchor lies


@dataclass(frozen=True, slots=True)
class Subjects:
    """``techniques`` are rows of the words; ``cell`` and ``cross`` what the facts say, "" for nothing."""

    name: str
    meters: tuple[str, ...]
    cell: str
    cross: str
    techniques: tuple[str, ...]
    instruments: tuple[Instrument, ...]


@dataclass(frozen=True, slots=True)
class Graded:
    """The grades of the exercises of a chapter, in their order."""

    name: str
    title: str
    grades: tuple[int, ...]


def subjects(plan: ChapterPlan, style: Style) -> Subjects:
    say, groove = style.say, plan.groove
    rows = dict(facts(plan, style, say))
    meters = tuple(dict.fromkeys(str(bar.meter) for bar in groove.bars))
    cell, cross = (str(rows.get(say(row), "")) for row in ("cell", "cross-rhythm"))
    return Subjects(plan.name, meters, cell, cross, tuple(_techniques(plan)), tuple(groove.instruments))


def _techniques(plan: ChapterPlan) -> Iterator[str]:
    groove, strokes = plan.groove, plan.groove.strokes
    touches, ornaments = {stroke.touch for stroke in strokes}, {stroke.ornament for stroke in strokes}
    found = [
        ("ghost notes", Touch.GHOST in touches),
        ("accents", Touch.ACCENT in touches),
        *((f"{ornament.value} key", ornament in ornaments) for ornament in Ornament),
        ("fills", plan.facts.fills),
        ("pickup", groove.pickup),
        ("endings key", any(repeat.endings for repeat in groove.repeats)),
        ("sticking", groove.sticking),
    ]
    return (row for row, is_there in found if is_there)


def graded(plan: ChapterPlan) -> Graded:
    return Graded(plan.name, plan.definition.title, tuple(exercise.grade for exercise in plan.exercises))


def index(
    matter: Matter, chapters: Sequence[Subjects], exercises: Sequence[Graded], sections: Sequence[str], label_of: Labels
) -> Source:
    """Sections that share pages: "index", "grades"."""
    shown = [_section(matter, name, chapters, exercises, label_of) for name in sections]
    return matter.source("index", {"sections": shown})


def _section(
    matter: Matter, name: str, chapters: Sequence[Subjects], exercises: Sequence[Graded], label_of: Labels
) -> dict[str, object]:
    by_grade = name == "grades"
    groups = _grades(exercises, label_of) if by_grade else _subjects(matter, chapters, label_of)
    return {"anchor": name, "title": matter.say("by grade" if by_grade else "index"), "groups": tuple(groups)}


def _subjects(matter: Matter, chapters: Iterable[Subjects], label_of: Labels) -> Iterator[Group]:
    found: dict[str, dict[str, list[tuple[str, str]]]] = {}
    for one in chapters:
        for group, entry in _entries(one, matter):
            place = (label_of[f"chapter:{one.name}"], anchor("chapter", one.name))
            found.setdefault(group, {}).setdefault(entry, []).append(place)
    for group, entries in found.items():
        in_order = sorted(entries.items(), key=lambda entry: _natural(entry[0]))
        yield group, tuple((entry, tuple(dict.fromkeys(pages))) for entry, pages in in_order)


def _entries(one: Subjects, matter: Matter) -> Iterator[tuple[str, str]]:
    say = matter.say
    yield from ((say("meter"), meter) for meter in one.meters)
    yield from ((say(row), told) for row, told in (("cell length", one.cell), ("cross-rhythm", one.cross)) if told)
    yield from ((say("technique"), say(row)) for row in one.techniques)
    for instrument in one.instruments:
        if _is_technique(matter.style.kit[instrument]):
            yield say("technique"), say.name(instrument)


def _natural(entry: str) -> list[tuple[bool, int, str]]:
    """3 before 12, and numbers before words."""
    parts = [part for part in re.split(r"(\d+)", entry) if part]
    return [(not part.isdigit(), int(part) if part.isdigit() else 0, part) for part in parts]


def _is_technique(row: KitRow) -> bool:
    """What the left foot plays, and a hi-hat that it opens; the rest of the kit is in every book."""
    return row.foot is Side.LEFT or row.pedal is Pedal.OPEN


def _grades(chapters: Iterable[Graded], label_of: Labels) -> Iterator[Group]:
    """For each grade the chapters in order, each with its exercises and their pages."""
    grades: dict[int, dict[str, list[tuple[int, str, str]]]] = {}
    for chapter, one in enumerate(chapters, start=1):
        for number, grade in enumerate(one.grades, start=1):
            place, link = f"exercise:{one.name}:{number}", anchor("exercise", one.name, str(number))
            name = f"{chapter}  {one.title}"
            grades.setdefault(grade, {}).setdefault(name, []).append((number, label_of[place], link))
    for grade in sorted(grades):
        yield grade, tuple(_listed(name, found) for name, found in grades[grade].items())


def _listed(name: str, found: Sequence[tuple[int, str, str]]) -> tuple[str, Numbers]:
    """A run of pages leads to the first exercise on it."""
    first_on: dict[int, str] = {}
    for _, label, place in found:
        first_on.setdefault(int(label), place)
    pages = tuple((_run(first, last), first_on[first]) for first, last in _runs(first_on))
    return f"{name}: {runs(number for number, _, _ in found)}", pages


def runs(numbers: Iterable[int]) -> str:
    """Rising numbers as an index gives them: 1–3, 5."""
    return ", ".join(_run(first, last) for first, last in _runs(numbers))


def _runs(numbers: Iterable[int]) -> list[tuple[int, int]]:
    """Rising numbers as the first and last of those that follow one another."""
    found: list[tuple[int, int]] = []
    for number in numbers:
        if found and number == found[-1][1] + 1:
            found[-1] = (found[-1][0], number)
        else:
            found.append((number, number))
    return found


def _run(first: int, last: int) -> str:
    return str(first) if first == last else f"{first}–{last}"
