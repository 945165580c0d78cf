"""The groove that rules look at, laid on the time line once for all of them."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from engraver.definition.build import LaidLayer, assemble, lay_layers
from engraver.definition.grid import Grid
from engraver.definition.laid import Laid
from engraver.definition.laying import lay_lane
from engraver.definition.schema import GrooveDefinition
from engraver.errors import Problem
from engraver.rhythm import Groove, Limbs
from engraver.style import Style


@dataclass(frozen=True)  # without slots: what was laid is kept for the next rule
class Subject:
    """A groove under examination."""

    groove: GrooveDefinition
    style: Style

    @cached_property
    def grid(self) -> Grid:
        return Grid.of(self.groove)

    @cached_property
    def layers(self) -> tuple[LaidLayer, ...]:
        return lay_layers(self.groove, self.grid)

    @cached_property
    def sticking(self) -> tuple[tuple[Limbs, Laid], ...]:
        rows = self.groove.sticking.rows if self.groove.sticking else ()
        return tuple((limbs, lay_lane(lane, self.grid, None)) for limbs, lane in rows)

    @cached_property
    def as_groove(self) -> Groove:
        return assemble(self.groove, self.grid, self.layers)


Rule = Callable[[Subject], Iterable[Problem]]


@dataclass(frozen=True, slots=True)
class Check:
    """``needs``: the keys that must be sound for the rule to make sense; ``breaks``: those that are not if it fails."""

    rule: Rule
    needs: frozenset[str]
    breaks: frozenset[str] = frozenset()


def where(onset: Fraction, grid: Grid) -> str:
    """The bar and step of an onset, as the author counts."""
    if onset < grid.pickup:
        return f"in the pickup, step {_step(onset, grid)}"
    number, bar = next((number, bar) for number, bar in enumerate(grid.bars, 1) if onset in bar.span)
    return f"in bar {number}, step {_step(onset - bar.start, grid)}"


def _step(passed: Fraction, grid: Grid) -> str:
    steps = passed / grid.step
    whole, rest = divmod(steps, 1)
    return f"{whole + 1}" if not rest else f"{whole + 1} and {rest}"
