"""Rungs of the ladder: drafts with their kind, stage and difficulty, those that teach nothing new left out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from engraver.chapters.exercises import KINDS, Draft, Kind, Lesson
from engraver.chapters.grading import Grader
from engraver.chapters.stages import Stage
from engraver.definition import ExerciseKind
from engraver.rhythm import Groove, Stroke


@dataclass(frozen=True, slots=True)
class Rung:
    """No kind and stage: the author's own. ``between``: put in because the step to the next was too wide."""

    kind: ExerciseKind | None
    stage: Stage | None
    draft: Draft
    difficulty: Fraction
    between: bool = False


def rungs(lesson: Lesson, grader: Grader, without: Iterable[ExerciseKind] = ()) -> list[Rung]:
    """All that the kinds make of the groove, in their order."""
    left_out = set(without)
    made = (rung for kind in KINDS if kind.name not in left_out for rung in of_kind(kind, lesson, grader))
    return distinct(made)


def of_kind(kind: Kind, lesson: Lesson, grader: Grader) -> Iterator[Rung]:
    """Silence is no exercise."""
    for draft in kind.drafts(lesson):
        if draft.groove.strokes:
            yield Rung(kind.name, kind.stage, draft, grader.difficulty(draft))


def distinct(made: Iterable[Rung]) -> list[Rung]:
    """The same loop under the same bar lines is no second exercise: the first stays, but the whole groove always."""
    kept: dict[object, Rung] = {}
    for rung in made:
        same = essence(rung.draft)
        if rung.stage is Stage.WHOLE:
            kept.pop(same, None)
        kept.setdefault(same, rung)
    return list(kept.values())


def select(made: Sequence[Rung], most: int) -> list[Rung]:
    """As many as there is room for, by rank; of equals the earlier."""
    ranks = _ranks(made)
    by_rank = sorted(range(len(made)), key=lambda index: (ranks[index], index))
    return [made[index] for index in sorted(by_rank[:most])]


def _ranks(made: Iterable[Rung]) -> list[int]:
    kinds = {kind.name: kind for kind in KINDS}
    before: Counter[ExerciseKind] = Counter()
    ranks = []
    for rung in made:
        assert rung.kind
        ranks.append(kinds[rung.kind].rank + before[rung.kind] * kinds[rung.kind].further)
        before[rung.kind] += 1
    return ranks


def in_order(made: Iterable[Rung]) -> list[Rung]:
    """Stage by stage, easy to hard within each; of equals the one that is learnt first."""
    return sorted(made, key=lambda rung: (rung.stage or 0, rung.difficulty))


# ------------------------------------------------------------------ when two loops are the same
def essence(draft: Draft) -> object:
    """What a loop holds, however often it goes round before it is repeated."""
    groove = draft.groove
    length = _turn(groove)
    strokes = tuple(_plain(s) for s in groove.strokes if s.onset < length)
    lines = frozenset(bar.start % length for bar in groove.bars)
    return length, strokes, lines, draft.scale, draft.twin is not None


def _turn(groove: Groove) -> Fraction:
    """The shortest length after which all strokes of the loop come again."""
    onsets: dict[object, list[Fraction]] = {}
    for stroke in groove.strokes:
        onsets.setdefault(_plain(stroke)[1:], []).append(stroke.onset)
    fewest = min(map(len, onsets.values()), default=1)
    for times in range(fewest, 1, -1):
        turn = groove.length / times
        if all(_comes_again(places, turn, times) for places in onsets.values()):
            return turn
    return groove.length


def _comes_again(onsets: Sequence[Fraction], turn: Fraction, times: int) -> bool:
    count, rest = divmod(len(onsets), times)
    return not rest and all(b - a == turn for a, b in zip(onsets, onsets[count:], strict=False))


def _plain(stroke: Stroke) -> tuple[object, ...]:
    return stroke.onset, stroke.instrument, stroke.touch, stroke.ornament
