"""Every decision an author can change, with its default. Read from style.yaml by `definition`."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum

from engraver.style.kit import Kit, standard_kit


class GhostLook(Enum):
    """How a ghost note shows itself."""

    PARENTHESES = "parentheses"
    SMALL = "small"
    BOTH = "both"


class Counting(Enum):
    """Where counting syllables stand under the full groove."""

    NONE = "none"
    FIRST_BAR = "first bar"
    ALL = "all bars"


class Rests(Enum):
    """SPARING prints only the rests a player needs; FULL shows every beat of a voice that is not silent for the bar."""

    SPARING = "sparing"
    FULL = "full"


@dataclass(frozen=True, slots=True)
class Paper:
    """A page in millimetres."""

    name: str
    width: float
    height: float


# Sources: A4 ISO 216; Letter ANSI/ASME Y14.1 size A, 8.5 x 11 in of 25.4 mm.
PAPERS: Mapping[str, Paper] = {
    "A4": Paper("A4", 210.0, 297.0),
    "Letter": Paper("Letter", 215.9, 279.4),
}


@dataclass(frozen=True, slots=True)
class Style:
    """``staff_size`` is the height of the staff in points; ``design`` a folder of templates."""

    design: str = "workbook"
    paper: Paper = PAPERS["A4"]
    staff_size: float = 21.0
    language: str = "en"
    ghosts: GhostLook = GhostLook.PARENTHESES
    counting: Counting = Counting.FIRST_BAR
    rests: Rests = Rests.SPARING
    sticking: bool = True
    colours: bool = True
    left_handed: bool = False
    kit: Kit = field(default_factory=standard_kit)
