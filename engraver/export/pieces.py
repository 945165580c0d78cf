"""What gets a MIDI file of its own: a chapter's plan goes in, its groove and exercises come out as pieces to play."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from engraver.chapters import ChapterPlan, Exercise, Passage, Ribbon
from engraver.rhythm import ZERO, Groove, Tempo


@dataclass(frozen=True, slots=True)
class CellStart:
    """A cell begins. ``letter`` "": it does so in the groove, but not all of its strokes are in the passage."""

    onset: Fraction
    letter: str


@dataclass(frozen=True, slots=True)
class Piece:
    """``cells`` are in the passage's own time; ``whole`` is the author's groove, whose beats say what is swung.

    ``tempo.beat`` is a beat of the author's groove. ``climb``: all tempos of an exercise. ``twice``: the page has the
    same strokes under other bar lines too; what is played is the first of the two.
    """

    title: str
    passage: Passage
    tempo: Tempo
    whole: Groove
    cells: tuple[CellStart, ...] = ()
    climb: tuple[int, ...] = ()
    twice: bool = False

    def at(self, bpm: int) -> Piece:
        """The same at one tempo of its row."""
        return replace(self, tempo=replace(self.tempo, bpm=bpm), climb=(bpm,))


def pieces(plan: ChapterPlan) -> tuple[Piece, ...]:
    """The whole groove, then the exercises in order, each at its goal."""
    known = tuple(_cells_of_the_whole(plan))
    whole = Piece(plan.groove.title, plan.whole, plan.groove.tempo, plan.groove, known)
    return (whole, *(_exercise(exercise, plan.groove, known) for exercise in plan.exercises))


def _exercise(exercise: Exercise, whole: Groove, known: Iterable[CellStart]) -> Piece:
    passage = exercise.passage
    cells = _starts(passage.ribbons) if passage.ribbons else _in_window(known, passage, whole)
    tempo = replace(whole.tempo, bpm=exercise.tempi[-1])
    title, twice = exercise.title.rstrip("."), exercise.twin is not None
    return Piece(title, passage, tempo, whole, tuple(cells), exercise.tempi, twice)


def _cells_of_the_whole(plan: ChapterPlan) -> Iterator[CellStart]:
    shown = plan.regrouped or plan.whole
    for cell in _starts(shown.ribbons):
        yield replace(cell, onset=cell.onset / shown.scale)


def _starts(ribbons: Iterable[Ribbon]) -> Iterator[CellStart]:
    onset = ZERO
    for ribbon in ribbons:
        if ribbon.letter:
            yield CellStart(onset, ribbon.letter)
        onset += ribbon.length


def _in_window(cells: Iterable[CellStart], passage: Passage, whole: Groove) -> Iterator[CellStart]:
    """Those that begin in the passage; what goes on after the end of the groove has those from bar 1 on."""
    known = tuple(cells)
    after = tuple(replace(cell, onset=cell.onset + whole.length - whole.pickup) for cell in known)
    for cell in (*known, *(cell for cell in after if cell.onset >= whole.length)):
        onset = (cell.onset - passage.offset) * passage.scale
        if onset in passage.groove.span:
            yield CellStart(onset, "")
