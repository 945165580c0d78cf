"""Paper and margins, in millimetres."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Paper:
    """A page as it is trimmed."""

    name: str
    width: float
    height: float


# Sources: A4 ISO 216; Letter ANSI/ASME Y14.1 size A, 8.5 x 11 in of 25.4 mm.
PAPERS: Mapping[str, Paper] = {
    "A4": Paper("A4", 210.0, 297.0),
    "Letter": Paper("Letter", 215.9, 279.4),
}


@dataclass(frozen=True, slots=True)
class Margins:
    """What is added to the margins of the page design; ``inner`` is the side of the spine, so that pages mirror."""

    top: float = 0.0
    bottom: float = 0.0
    inner: float = 0.0
    outer: float = 0.0

    def within(self, paper: Paper) -> Paper:
        """The part of a page that is left to the design."""
        return Paper(paper.name, paper.width - self.inner - self.outer, paper.height - self.top - self.bottom)

    def left(self, *, recto: bool) -> float:
        """How far from the left edge the design's part begins."""
        return self.inner if recto else self.outer
