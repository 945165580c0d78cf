"""The pages after the chapters as LilyPond source: answers, practice log and plan; and what they tell of a chapter."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from engraver.chapters import ChapterPlan, Question
from engraver.chapters.practice_plan import PracticeDay, practice_plan
from engraver.lilypond.chapter import Looks, anchor, cell_looks, main_width
from engraver.lilypond.index import runs
from engraver.lilypond.matter import Matter
from engraver.lilypond.prose import blocks
from engraver.lilypond.source import Source
from engraver.prose import Prose
from engraver.style import Words


@dataclass(frozen=True, slots=True)
class Answered:
    """What a chapter asks, and the answers."""

    name: str
    title: str
    questions: tuple[Question, ...]
    looks: Looks


@dataclass(frozen=True, slots=True)
class Days:
    """When the exercises of a chapter are played; none if there are none."""

    title: str
    days: tuple[PracticeDay, ...]


def answered(plan: ChapterPlan) -> Answered | None:
    if not plan.questions:
        return None
    return Answered(plan.name, plan.definition.title, plan.questions, cell_looks(plan.facts.cells))


def days(plan: ChapterPlan) -> Days:
    return Days(plan.definition.title, practice_plan(plan.exercises).days)


# ------------------------------------------------------------------ answers
def answers(matter: Matter, chapters: Sequence[Answered]) -> Source:
    shown = [
        {"title": one.title, "answers": tuple(_answer(matter, one, n) for n in range(1, len(one.questions) + 1))}
        for one in chapters
    ]
    return matter.source("answers", {"answers": shown})


def _answer(matter: Matter, chapter: Answered, number: int) -> dict[str, Any]:
    question = chapter.questions[number - 1]
    strip = None
    if question.row:
        cell = min(12.0, main_width(matter.style) / len(question.row))
        strip = {"names": question.row, "centre": float(question.centre), "cell": cell}
    return {
        "number": str(number),
        "name": anchor(chapter.name, str(number)),
        "question": _flat(question.text),
        "answer": blocks(question.answer),
        "strip": strip,
        "looks": chapter.looks,
    }


def _flat(prose: Prose) -> str:
    return " ".join(block.text for block in prose)


def log(matter: Matter) -> Source:
    return matter.source("log", {})


def plan(matter: Matter, chapters: Sequence[Days]) -> Source:
    """A suggestion, day by day, for every chapter; ``chapters`` in their order, those without exercises too."""
    say = matter.say
    groups = tuple(
        (f"{number}  {one.title}", tuple(_day(day, say) for day in one.days))
        for number, one in enumerate(chapters, start=1)
        if one.days
    )
    return matter.source("plan", {"text": say("practice plan text"), "groups": groups})


def _day(day: PracticeDay, say: Words) -> tuple[str, str]:
    told_of = [(say("practice plan new"), day.new), (say("practice plan again"), day.again)]
    numbers = "; ".join(f"{word} {runs(sorted(found))}" for word, found in told_of if found)
    return f"{say('practice plan day', n=day.number)}: {numbers}", say("practice plan minutes", n=day.minutes)
