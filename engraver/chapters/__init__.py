"""What is printed, in which order: a groove and its analysis become the plan of a chapter."""

from __future__ import annotations

from engraver.analysis import Analysis
from engraver.chapters.cells import cards, is_barwise, mirrors, regroup, ribbons
from engraver.chapters.findings import ON_THE_PAGE, findings
from engraver.chapters.ladder import ladder
from engraver.chapters.plan import CellCard, ChapterPlan, Exercise, Passage, Question, Ribbon
from engraver.chapters.playability import Playability, playability
from engraver.chapters.questions import questions
from engraver.definition import GrooveDefinition
from engraver.rhythm import Groove
from engraver.style import Kit, Words

__all__ = [
    "CellCard",
    "ChapterPlan",
    "Exercise",
    "Passage",
    "Playability",
    "Question",
    "Ribbon",
    "is_barwise",
    "plan",
    "playability",
]


def plan(definition: GrooveDefinition, groove: Groove, facts: Analysis, words: Words, kit: Kit) -> ChapterPlan:
    """Only what the analysis is sure of, or the author has stated, is shown."""
    steps = ladder(definition, groove, facts, kit, words)
    row = ribbons(groove, facts) if facts.cells and is_barwise(groove, facts) else ()
    whole = Passage("the whole groove", groove, ribbons=row, mirrors=mirrors(row, facts))
    return ChapterPlan(
        definition,
        groove,
        facts,
        whole,
        regroup(groove, facts),
        cards(groove, facts),
        steps.exercises,
        questions(definition, groove, facts, words),
        findings(groove, facts, words)[:ON_THE_PAGE],
        steps.warnings,
    )
