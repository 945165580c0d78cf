"""Boxes: the exact size of the paper, and where engraved ink comes to lie on it.

In: a trim size in millimetres and the box of an engraved page. Out: the book's page boxes and the shift of the ink.
LilyPond's Cairo pages are rounded up (A4 596 x 842, Letter 613 x 793 points) and drawn from the top left corner, so
that corner is the one that stays: ink keeps its distances from the top and the left edge.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from engraver.binding.engraved import Box
from engraver.errors import EngravingError, Problem

POINTS_PER_MM = 72 / 25.4
ROUNDING = 1.01  # points: Cairo rounds up by at most one


@dataclass(frozen=True, slots=True)
class Around:
    """Strips of the paper in millimetres; ``inner`` is at the spine, left on a recto and right on a verso."""

    top: float = 0.0
    bottom: float = 0.0
    inner: float = 0.0
    outer: float = 0.0

    def left(self, is_recto: bool) -> float:
        return self.inner if is_recto else self.outer


@dataclass(frozen=True, slots=True)
class TrimSize:
    """The paper after trimming, in millimetres.

    ``gutter``: how far pages move away from the spine, rectos to the right and versos to the left; furniture with them.
    ``bleed``: how much paper is around it on every side until the printer trims it. ``around``: what of the paper the
    engraved pages leave free.
    """

    width: float
    height: float
    gutter: float = 0.0
    bleed: float = 0.0
    around: Around = field(default_factory=lambda: Around())

    @property
    def margin(self) -> float:
        """The bleed in points."""
        return round(self.bleed * POINTS_PER_MM, 4)

    @property
    def points(self) -> tuple[float, float]:
        return round(self.width * POINTS_PER_MM, 4), round(self.height * POINTS_PER_MM, 4)

    @property
    def engraved(self) -> tuple[float, float]:
        """The part of the paper that pages are engraved for, in points."""
        free = self.around
        width, height = self.width - free.inner - free.outer, self.height - free.top - free.bottom
        return round(width * POINTS_PER_MM, 4), round(height * POINTS_PER_MM, 4)


@dataclass(frozen=True, slots=True)
class Shift:
    """How far the ink of a page moves, in points to the right and upwards."""

    right: float
    up: float

    def operator(self) -> bytes:
        """The move as a content stream operator."""
        return f"1 0 0 1 {self.right:.4f} {self.up:.4f} cm".encode()


def shift(box: Box, trim: TrimSize, is_recto: bool) -> Shift:
    """From a page as engraved to the trimmed one: top left corner below and beside what is left free, then the gutter.

    Raises EngravingError if the page was engraved for another paper.
    """
    _refuse_other_paper(box.width, box.height, trim)
    right = trim.around.left(is_recto) + trim.gutter * (1 if is_recto else -1)
    up = trim.points[1] - trim.around.top * POINTS_PER_MM
    return Shift(trim.margin + right * POINTS_PER_MM - box.left, trim.margin + up - box.top)


def _refuse_other_paper(width: float, height: float, trim: TrimSize) -> None:
    extra = (width - trim.engraved[0], height - trim.engraved[1])
    if not all(-0.02 <= length <= ROUNDING for length in extra):
        sizes = f"{width:g} x {height:g} points, the book's paper {trim.engraved[0]:g} x {trim.engraved[1]:g}"
        raise EngravingError(Problem(None, f"a page is {sizes}", "engrave every chapter for the paper of the book"))
