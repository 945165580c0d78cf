"""What a groove is: exact, immutable, knows no file and no staff."""

from engraver.rhythm.groove import (
    Bar,
    Cycle,
    Groove,
    Layer,
    Repeat,
    Role,
    Section,
    Silence,
    Tuplet,
)
from engraver.rhythm.stroke import Instrument, Limbs, Ornament, Side, Sticking, Stroke, Touch
from engraver.rhythm.time import TUPLETS, ZERO, Meter, Span, Tempo, parse_value, value_name

__all__ = [
    "TUPLETS",
    "ZERO",
    "Bar",
    "Cycle",
    "Groove",
    "Instrument",
    "Layer",
    "Limbs",
    "Meter",
    "Ornament",
    "Repeat",
    "Role",
    "Section",
    "Side",
    "Silence",
    "Span",
    "Sticking",
    "Stroke",
    "Tempo",
    "Touch",
    "Tuplet",
    "parse_value",
    "value_name",
]
