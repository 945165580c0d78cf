"""What is on the staff: bars, voices, notes, rests, beams, tuplets."""

from engraver.notation.score import (
    Beam,
    Head,
    Note,
    Rest,
    Score,
    StaffBar,
    TupletGroup,
    Value,
    Voice,
    VoiceName,
)
from engraver.notation.voices import voice_of
from engraver.notation.write import write

__all__ = [
    "Beam",
    "Head",
    "Note",
    "Rest",
    "Score",
    "StaffBar",
    "TupletGroup",
    "Value",
    "Voice",
    "VoiceName",
    "voice_of",
    "write",
]
