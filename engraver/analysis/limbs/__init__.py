"""Who plays what, how fast that is, and whether a body can: a Groove and the places of its instruments in."""

from engraver.analysis.limbs.assign import assign, carry
from engraver.analysis.limbs.assignment import Assignment, DrumSet, LimbStroke
from engraver.analysis.limbs.bands import Band, band_of, limit
from engraver.analysis.limbs.complaint import Complaint, Objection
from engraver.analysis.limbs.objections import objections
from engraver.analysis.limbs.rates import Rate, rates, sustained_rates
from engraver.analysis.limbs.tempo import TempoLimit, fastest, hardest, within

__all__ = [
    "Assignment",
    "Band",
    "Complaint",
    "DrumSet",
    "LimbStroke",
    "Objection",
    "Rate",
    "TempoLimit",
    "assign",
    "band_of",
    "carry",
    "fastest",
    "hardest",
    "limit",
    "objections",
    "rates",
    "sustained_rates",
    "within",
]
