"""Rungs of the ladder: all that the kinds make, those that teach nothing new left out, as many as there is room for."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from math import gcd, lcm

from engraver.analysis import Assignment, Difficulty
from engraver.chapters.exercises import KINDS, Draft, Kind, Lesson
from engraver.chapters.stages import Stage
from engraver.definition import ExerciseKind
from engraver.rhythm import tick_of


@dataclass(frozen=True, slots=True)
class Rung:
    """``kind`` None: the author's own. ``limbs``: who plays it."""

    draft: Draft
    kind: Kind | None
    limbs: Assignment
    measured: Difficulty
    difficulty: Fraction = field(init=False)  # added up once: a ladder compares each rung with all before it

    def __post_init__(self) -> None:
        object.__setattr__(self, "difficulty", self.measured.total)

    @property
    def stage(self) -> Stage | None:
        return self.kind.stage if self.kind else None


@dataclass(frozen=True, slots=True)
class Sketch:
    """A draft and its kind, before anything is measured."""

    draft: Draft
    kind: Kind


def sketches(lesson: Lesson, without: Iterable[ExerciseKind] = ()) -> list[Sketch]:
    """All that the kinds make of the groove, in their order."""
    left_out = set(without)
    return distinct(each for kind in KINDS if kind.name not in left_out for each in of_kind(kind, lesson))


def of_kind(kind: Kind, lesson: Lesson) -> Iterator[Sketch]:
    """Silence is no exercise."""
    return (Sketch(draft, kind) for draft in kind.drafts(lesson) if draft.groove.strokes)


def distinct(made: Iterable[Sketch]) -> list[Sketch]:
    """The same loop under the same bar lines is no second exercise: the first stays, but the whole groove always."""
    kept: dict[object, Sketch] = {}
    for sketch in made:
        same = essence(sketch.draft)
        if sketch.kind.stage is Stage.WHOLE and (before := kept.pop(same, None)):
            sketch = Sketch(_with_rows_of(before.draft, sketch.draft), sketch.kind)
        kept.setdefault(same, sketch)
    return list(kept.values())


def _with_rows_of(before: Draft, whole: Draft) -> Draft:
    """What was counted or said under the one exercise is under the other, which takes its place."""
    length = before.groove.length
    rounds = range(int(whole.groove.length / length))
    said = tuple((onset + turn * length, word) for turn in rounds for onset, word in before.said)
    return replace(whole, counted=before.counted, said=said)


def select(made: Sequence[Sketch], most: int) -> list[Sketch]:
    """As many as there is room for, by rank; of equals the earlier."""
    ranks = _ranks(made)
    by_rank = sorted(range(len(made)), key=lambda index: (ranks[index], index))
    return [made[index] for index in sorted(by_rank[:most])]


def _ranks(made: Iterable[Sketch]) -> list[int]:
    before: Counter[ExerciseKind] = Counter()
    ranks = []
    for kind in (sketch.kind for sketch in made):
        ranks.append(kind.rank + before[kind.name] * kind.further)
        before[kind.name] += 1
    return ranks


def in_order(made: Iterable[Rung]) -> list[Rung]:
    """Stage by stage, easy to hard within each; of equals the one that is learnt first."""
    return sorted(made, key=lambda rung: (rung.stage or 0, rung.difficulty))


# ------------------------------------------------------------------ when two loops are the same
def essence(draft: Draft) -> object:
    """What a loop holds, however often it goes round before it is repeated. In whole numbers, on its coarsest grid."""
    groove = draft.groove
    times = (groove.length, *(stroke.onset for stroke in groove.strokes), *(bar.start for bar in groove.bars))
    whole = lcm(*{time.denominator for time in times})
    length, *ticks = (tick_of(time, whole) for time in times)
    struck = [(tick, stroke.kind) for tick, stroke in zip(ticks, groove.strokes, strict=False)]
    turn = _turn(struck, length)
    strokes, lines = [each for each in struck if each[0] < turn], {tick % turn for tick in ticks[len(struck) :]}
    step = gcd(turn, *lines, *(tick for tick, _ in strokes))
    held = tuple((tick // step, kind) for tick, kind in strokes)
    return Fraction(turn, whole), held, frozenset(tick // step for tick in lines), draft.scale, draft.twin is not None


def _turn(struck: Iterable[tuple[int, object]], length: int) -> int:
    """The shortest length after which all strokes of the loop come again."""
    places: dict[object, list[int]] = {}
    for tick, kind in struck:
        places.setdefault(kind, []).append(tick)
    most = gcd(length, *map(len, places.values()))
    for times in range(most if places else 1, 1, -1):
        if most % times == 0 and all(_comes_again(ticks, length // times, times) for ticks in places.values()):
            return length // times
    return length


def _comes_again(ticks: Sequence[int], turn: int, times: int) -> bool:
    return all(b - a == turn for a, b in zip(ticks, ticks[len(ticks) // times :], strict=False))
