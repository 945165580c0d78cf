"""What can be said about a groove: its figure, cells, cross-rhythms, the order of its letters."""

from engraver.analysis.analyse import analyse
from engraver.analysis.difficulty import Difficulty, difficulty
from engraver.analysis.facts import facts_object
from engraver.analysis.limbs import Assignment, Band, DrumSet, Rate, TempoLimit, carry, fastest, within
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
    "Assignment",
    "Band",
    "Cell",
    "CellChange",
    "CellReading",
    "CrossRhythm",
    "Difficulty",
    "DrumSet",
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
    "TempoLimit",
    "analyse",
    "carry",
    "difficulty",
    "facts_object",
    "fastest",
    "with_primes",
    "within",
]
