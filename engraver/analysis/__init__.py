"""What can be said about a groove: its figure, cells, cross-rhythms, the order of its letters."""

from engraver.analysis.analyse import analyse
from engraver.analysis.facts import facts_object
from engraver.analysis.naming import PRIME, with_primes
from engraver.analysis.report import (
    Analysis,
    Cell,
    CellChange,
    CellReading,
    CrossRhythm,
    Edit,
    EuclideanForm,
    Grouping,
    Lane,
    LayerEffect,
    Measures,
    Rate,
    Realign,
    Regrouping,
    RegroupReason,
    Sequence,
    StatedCells,
    StickingLikeness,
)

__all__ = [
    "PRIME",
    "Analysis",
    "Cell",
    "CellChange",
    "CellReading",
    "CrossRhythm",
    "Edit",
    "EuclideanForm",
    "Grouping",
    "Lane",
    "LayerEffect",
    "Measures",
    "Rate",
    "Realign",
    "RegroupReason",
    "Regrouping",
    "Sequence",
    "StatedCells",
    "StickingLikeness",
    "analyse",
    "facts_object",
    "with_primes",
]
