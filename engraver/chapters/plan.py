"""What a chapter shows, in which order: passages of the groove, cells, exercises, questions. Only grooves and words.

In: a groove, its definition and its analysis. Out: a `ChapterPlan`. Nothing here knows a staff or a page.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from engraver.analysis import Analysis, Difficulty
from engraver.analysis.report import Cell, Edit
from engraver.chapters.stages import Stage
from engraver.definition import ExerciseKind, GrooveDefinition
from engraver.errors import Problem
from engraver.prose import Prose
from engraver.rhythm import ZERO, Groove


@dataclass(frozen=True, slots=True)
class Ribbon:
    """A cell over the staff. ``letter`` None: nothing is drawn; "": steps that begin no cell. ``cut``: cut off."""

    letter: str | None
    length: Fraction
    cut: bool = False


@dataclass(frozen=True, slots=True)
class Passage:
    """A groove that is engraved. ``offset``: where it begins in the author's groove; ``repeats`` 1: no repeat signs.

    ``scale``: its times are those of the author's groove multiplied by this (a triplet grid respelled).
    ``mirrors``: where the letters of the ribbons read the same from both ends.
    """

    name: str
    groove: Groove
    offset: Fraction = ZERO
    ribbons: tuple[Ribbon, ...] = ()
    repeats: int = 1
    scale: Fraction = Fraction(1)
    mirrors: tuple[Fraction, ...] = ()


@dataclass(frozen=True, slots=True)
class Exercise:
    """``stage`` and ``kind`` None: the author's own. ``difficulty``: an ordering, and no more.

    ``repeats``: how often it is played. ``twin``: the same strokes under other bar lines, printed below. ``counted``:
    with counting syllables. ``said``: what is said on each onset, where two limbs are learnt as one pattern.
    """

    title: str
    task: Prose
    passage: Passage
    letters: tuple[str, ...]
    tempi: tuple[int, ...]
    repeats: int
    stage: Stage | None
    kind: ExerciseKind | None
    difficulty: Difficulty
    twin: Passage | None = None
    counted: bool = False
    said: tuple[tuple[Fraction, str], ...] = ()

    @property
    def grade(self) -> int:
        """1, the easiest, to 5."""
        return self.difficulty.grade

    @property
    def passages(self) -> tuple[Passage, ...]:
        return (self.passage, self.twin) if self.twin else (self.passage,)


@dataclass(frozen=True, slots=True)
class CellCard:
    """``like``: the letter of the earlier cell that it differs from by ``edits``; "" where it is a shape of its own."""

    cell: Cell
    passage: Passage
    like: str = ""
    edits: tuple[Edit, ...] = ()


@dataclass(frozen=True, slots=True)
class Question:
    """``row``: letters that the answer shows as a strip with its mirror axis at ``centre``; empty for none."""

    text: Prose
    answer: Prose
    row: tuple[str, ...] = ()
    centre: Fraction = ZERO


@dataclass(frozen=True, slots=True)
class ChapterPlan:
    """One groove's chapter. ``regrouped`` is None where the cell is the bar itself or no cells are known.

    ``findings``: the sentences of the opening page, the most telling first. ``warnings``: what the author should know.
    """

    definition: GrooveDefinition
    groove: Groove
    facts: Analysis
    whole: Passage
    regrouped: Passage | None
    cards: tuple[CellCard, ...]
    exercises: tuple[Exercise, ...]
    questions: tuple[Question, ...]
    findings: tuple[str, ...]
    warnings: tuple[Problem, ...] = ()

    @property
    def name(self) -> str:
        return self.definition.name

    @property
    def passages(self) -> tuple[Passage, ...]:
        """Everything of this chapter that is engraved on a staff."""
        shown = [self.whole, *([self.regrouped] if self.regrouped else [])]
        shown += [card.passage for card in self.cards]
        return tuple(shown + [passage for exercise in self.exercises for passage in exercise.passages])
