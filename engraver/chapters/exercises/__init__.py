"""The kinds of exercise, one file each, in the order in which they are learnt."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from engraver.chapters.exercises import (
    accents,
    cell_changes,
    cell_loops,
    cycle_alone,
    doubled_feet,
    feet_alone,
    fills,
    ghosts,
    hand_against_feet,
    into_the_restart,
    layers_added,
    layers_alone,
    leading_hand,
    pulse,
    two_barlings,
    whole_groove,
)
from engraver.chapters.exercises.draft import Draft
from engraver.chapters.exercises.lesson import Lesson
from engraver.chapters.stages import Stage
from engraver.definition import ExerciseKind


@dataclass(frozen=True, slots=True)
class Kind:
    """``drafts`` makes its exercises. Where there are more than a chapter has room for, the lowest rank stays.

    ``rank`` is that of its first exercise; each one after it ranks ``further`` more.
    """

    name: ExerciseKind
    stage: Stage
    drafts: Callable[[Lesson], Iterable[Draft]]
    rank: int
    further: int = 0


# Ranks are common practice, no source: without the layers there is no ladder, and a second cell or change is learnt
# faster than the first.
KINDS: tuple[Kind, ...] = (
    Kind(ExerciseKind.PULSE, Stage.PULSE, pulse.drafts, 6),
    Kind(ExerciseKind.FEET, Stage.LIMBS, feet_alone.drafts, 6),
    Kind(ExerciseKind.LEADING_HAND, Stage.LIMBS, leading_hand.drafts, 7),
    Kind(ExerciseKind.HAND_AND_FEET, Stage.LIMBS, hand_against_feet.drafts, 1),
    Kind(ExerciseKind.CYCLE, Stage.LIMBS, cycle_alone.drafts, 4),
    Kind(ExerciseKind.ALONE, Stage.LAYERS, layers_alone.drafts, 8),
    Kind(ExerciseKind.LAYERS, Stage.LAYERS, layers_added.drafts, 1),
    Kind(ExerciseKind.ACCENTS, Stage.LAYERS, accents.drafts, 7),
    Kind(ExerciseKind.GHOSTS, Stage.LAYERS, ghosts.drafts, 7),
    Kind(ExerciseKind.DOUBLED_FEET, Stage.LAYERS, doubled_feet.drafts, 2),
    Kind(ExerciseKind.CELLS, Stage.CELLS, cell_loops.drafts, 3, 2),
    Kind(ExerciseKind.CHANGES, Stage.CHANGES, cell_changes.drafts, 3, 2),
    Kind(ExerciseKind.RESTART, Stage.RESTART, into_the_restart.drafts, 2),
    Kind(ExerciseKind.FILLS, Stage.FILLS, fills.drafts, 2),
    Kind(ExerciseKind.BARLINES, Stage.PHRASE, two_barlings.drafts, 4),
    Kind(ExerciseKind.WHOLE, Stage.WHOLE, whole_groove.drafts, 0),
)

__all__ = ["KINDS", "Draft", "Kind", "Lesson"]
