"""The kinds of exercise, one file each, in the order in which they come in the chapter."""

from collections.abc import Callable, Iterable

from engraver.chapters.exercises import cell_loops, cycle_alone, into_the_restart, layers_added, whole_groove
from engraver.chapters.exercises.draft import Draft, Lesson

KINDS: tuple[Callable[[Lesson], Iterable[Draft]], ...] = (
    cycle_alone.drafts,
    layers_added.drafts,
    cell_loops.drafts,
    into_the_restart.drafts,
    whole_groove.drafts,
)

__all__ = ["KINDS", "Draft", "Lesson"]
