"""Grooves from pattern lines with their limbs, on the standard set."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from engraver.analysis import Assignment
from engraver.analysis.limbs import assign
from engraver.rhythm import Groove, Instrument, Limbs, Place, Side, Sticking, Tempo
from engraver.style import standard_kit
from tests.analysis.patterns import groove, layer

SET: Mapping[Instrument, Place] = standard_kit().places()


def beat(lines: Mapping[str, str], tempo: int = 80, hands: str = "", feet: str = "") -> Groove:
    """Bars of 4/4 in sixteenths, at quarters a minute; letters of sticking stand on the same steps."""
    steps = len(next(iter(lines.values())).replace(" ", ""))
    made = groove([layer("All", lines)], bars=-(-steps // 16), tempo=tempo)
    rows = ((Limbs.HANDS, hands), (Limbs.FEET, feet))
    letters = [
        Sticking(Fraction(step, 16), limbs, Side(letter))
        for limbs, row in rows
        for step, letter in enumerate(row.replace(" ", ""))
        if letter != "-"
    ]
    return replace(made, tempo=Tempo(Fraction(1, 4), tempo), sticking=tuple(letters))


def played(lines: Mapping[str, str], tempo: int = 80, hands: str = "", feet: str = "") -> Assignment:
    return assign(beat(lines, tempo, hands, feet), SET)


def sides(assignment: Assignment, name: str) -> str:
    """The letters of an instrument's strokes in order."""
    return "".join(each.limb.side.value for each in assignment.strokes if each.stroke.instrument.name == name)


def row(assignment: Assignment, limbs: Limbs = Limbs.HANDS) -> str:
    """The letters of one pair's strokes in order."""
    return "".join(each.limb.side.value for each in assignment.strokes if each.limb.limbs is limbs)
