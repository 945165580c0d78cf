"""What a groove is: exact, immutable, knows no file and no staff."""

from engraver.rhythm.bars import Bar, Repeat, Section
from engraver.rhythm.groove import Groove, Tuplet
from engraver.rhythm.layer import Cycle, Layer, Role, Silence
from engraver.rhythm.limb import Limb, Pedal, Place
from engraver.rhythm.stroke import Instrument, Kind, Limbs, Ornament, Side, Sticking, Stroke, Touch
from engraver.rhythm.time import TUPLETS, VALUE_NAMES, ZERO, Meter, Span, Tempo, parse_value, tick_of, value_name

__all__ = [
    "TUPLETS",
    "VALUE_NAMES",
    "ZERO",
    "Bar",
    "Cycle",
    "Groove",
    "Instrument",
    "Kind",
    "Layer",
    "Limb",
    "Limbs",
    "Meter",
    "Ornament",
    "Pedal",
    "Place",
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
    "tick_of",
    "value_name",
]
