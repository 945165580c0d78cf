"""What can be said about a groove: its figure, cells, cross-rhythms, the order of its letters."""

from engraver.analysis.analyse import analyse
from engraver.analysis.report import (
    Analysis,
    Cell,
    CellReading,
    CrossRhythm,
    Edit,
    Lane,
    Realign,
    Sequence,
    StatedCells,
)

__all__ = [
    "Analysis",
    "Cell",
    "CellReading",
    "CrossRhythm",
    "Edit",
    "Lane",
    "Realign",
    "Sequence",
    "StatedCells",
    "analyse",
]
