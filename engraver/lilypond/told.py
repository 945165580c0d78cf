"""What the pages around the chapters are told of a chapter: a plan in, small values by their kind out.

Such a page sees nothing else of a chapter, so it is what it was as long as these are.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from engraver.chapters import ChapterPlan
from engraver.lilypond.back import answered, days
from engraver.lilypond.contents import entry
from engraver.lilypond.front import origin_told
from engraver.lilypond.index import graded, subjects
from engraver.lilypond.title import circle, cover
from engraver.lilypond.to_read import to_read
from engraver.style import Style

_KINDS: Mapping[str, Callable[[ChapterPlan, Style], object]] = {
    "cover": lambda plan, style: cover(plan),
    "circle": lambda plan, style: circle(plan),
    "origin": lambda plan, style: origin_told(plan),
    "entry": entry,
    "to read": to_read,
    "answers": lambda plan, style: answered(plan),
    "days": lambda plan, style: days(plan),
    "subjects": subjects,
    "grades": lambda plan, style: graded(plan),
}


def told(plan: ChapterPlan, style: Style) -> dict[str, Any]:
    """By kind; a chapter that has nothing of a kind to tell has no value of it."""
    values = {kind: make(plan, style) for kind, make in _KINDS.items()}
    return {kind: value for kind, value in values.items() if value is not None}
