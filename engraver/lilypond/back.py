"""The pages after the chapters as LilyPond source: answers, practice log, index, exercises by grade."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from engraver.chapters import ChapterPlan
from engraver.chapters.practice_plan import PracticeDay, practice_plan
from engraver.lilypond.chapter import anchor, cell_looks, main_width
from engraver.lilypond.facts import facts
from engraver.lilypond.matter import Matter
from engraver.lilypond.prose import blocks
from engraver.lilypond.source import Source
from engraver.prose import Prose
from engraver.rhythm import Ornament, Pedal, Side, Touch
from engraver.style import KitRow, Words

Numbers = tuple[tuple[str, str], ...]  # page numbers, each with the anchor that it leads to
Group = tuple[str | int, tuple[tuple[str, Numbers], ...]]  # a heading or a grade, and its entries
Labels = Mapping[str, str]  # what the page is called on which an anchor lies


# ------------------------------------------------------------------ answers
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
    return matter.source("log", {})


def plan(matter: Matter) -> Source:
    """A suggestion, day by day, for every chapter."""
    say = matter.say
    groups = tuple(
        (f"{number}  {one.definition.title}", tuple(_day(day, say) for day in practice_plan(one.exercises).days))
        for number, one in enumerate(matter.plans, start=1)
        if one.exercises
    )
    return matter.source("plan", {"text": say("practice plan text"), "groups": groups})


def _day(day: PracticeDay, say: Words) -> tuple[str, str]:
    told_of = [(say("practice plan new"), day.new), (say("practice plan again"), day.again)]
    numbers = "; ".join(f"{word} {runs(sorted(found))}" for word, found in told_of if found)
    return f"{say('practice plan day', n=day.number)}: {numbers}", say("practice plan minutes", n=day.minutes)


# ------------------------------------------------------------------ index and exercises by grade
def index(matter: Matter, sections: Sequence[str], label_of: Labels) -> Source:
    """Sections that share pages: "index", "grades"."""
    made = {"index": ("index", _subjects), "grades": ("by grade", _grades)}
    shown = [
        {"anchor": name, "title": matter.say(made[name][0]), "groups": tuple(made[name][1](matter, label_of))}
        for name in sections
    ]
    return matter.source("index", {"sections": shown})


def _subjects(matter: Matter, label_of: Labels) -> Iterator[Group]:
    subjects: dict[str, dict[str, list[tuple[str, str]]]] = {}
    for plan in matter.plans:
        for group, entry in _subjects_of(plan, matter):
            place = f"chapter:{plan.name}"
            subjects.setdefault(group, {}).setdefault(entry, []).append((label_of[place], anchor("chapter", plan.name)))
    for group, entries in subjects.items():
        in_order = sorted(entries.items(), key=lambda entry: _natural(entry[0]))
        yield group, tuple((entry, tuple(dict.fromkeys(pages))) for entry, pages in in_order)


def _natural(entry: str) -> list[tuple[bool, int, str]]:
    """3 before 12, and numbers before words."""
    parts = [part for part in re.split(r"(\d+)", entry) if part]
    return [(not part.isdigit(), int(part) if part.isdigit() else 0, part) for part in parts]


def _subjects_of(plan: ChapterPlan, matter: Matter) -> Iterator[tuple[str, str]]:
    say = matter.say
    for meter in dict.fromkeys(str(bar.meter) for bar in plan.groove.bars):
        yield say("meter"), meter
    rows = dict(facts(plan, matter.style, say))
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
    if plan.facts.fills:
        yield technique, say("fills")
    if plan.groove.pickup:
        yield technique, say("pickup")
    if any(repeat.endings for repeat in plan.groove.repeats):
        yield technique, say("endings key")
    if plan.groove.sticking:
        yield technique, say("sticking")
    for instrument in plan.groove.instruments:
        if _is_technique(matter.style.kit[instrument]):
            yield technique, say.name(instrument)


def _is_technique(row: KitRow) -> bool:
    """What the left foot plays, and a hi-hat that it opens; the rest of the kit is in every book."""
    return row.foot is Side.LEFT or row.pedal is Pedal.OPEN


def _grades(matter: Matter, label_of: Labels) -> Iterator[Group]:
    """For each grade the chapters in order, each with its exercises and their pages."""
    grades: dict[int, dict[str, list[tuple[int, str, str]]]] = {}
    for chapter, plan in enumerate(matter.plans, start=1):
        for number, exercise in enumerate(plan.exercises, start=1):
            place, link = f"exercise:{plan.name}:{number}", anchor("exercise", plan.name, str(number))
            name = f"{chapter}  {plan.definition.title}"
            grades.setdefault(exercise.grade, {}).setdefault(name, []).append((number, label_of[place], link))
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
