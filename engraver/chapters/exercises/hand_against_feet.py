"""The leading hand and the feet, learnt as the one pattern that they make together.

Three against two is held as one pattern rather than as two (Psychological Research, doi 10.1007/BF00419641, read in its
abstract), so the row under the staff says who strikes, before it is played.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from fractions import Fraction

from engraver.analysis import Lane
from engraver.chapters.exercises.draft import Draft
from engraver.chapters.exercises.lesson import Lesson
from engraver.chapters.exercises.windows import turn
from engraver.chapters.lanes import of_lanes
from engraver.rhythm import Groove, Instrument
from engraver.style import Words


def drafts(lesson: Lesson) -> Iterable[Draft]:
    lead, feet, say = lesson.leading, _feet(lesson), lesson.words
    if not lead or not feet:
        return
    both, scale = turn(of_lanes(lesson.steady, (*lead, *feet)), lesson.facts.step)
    said = tuple(_resultant(both, lesson.feet, say))
    hands = 1 if all(map(lesson.is_led, lead)) else 2
    title = say("exercise hand and feet", n=hands)
    if {word for _, word in said} == {say.several("resultant")[0]}:
        yield Draft(title, say("exercise hand with feet task"), both, lesson.start, scale=scale)
    else:
        yield Draft(title, say("exercise hand and feet task"), both, lesson.start, scale=scale, said=said)


def _feet(lesson: Lesson) -> tuple[Lane, ...]:
    """Those of figure and time; where they have none, those that say where the bar is."""
    meter = tuple(lane for lane in lesson.facts.meter_lanes if lane.instrument in lesson.feet)
    return lesson.lanes(of_feet=True) or meter


def _resultant(groove: Groove, feet: Collection[Instrument], say: Words) -> Iterable[tuple[Fraction, str]]:
    """At each onset who strikes: both, the hand, the foot."""
    both, hand, foot = say.several("resultant")
    struck: dict[Fraction, set[bool]] = {}
    for stroke in groove.strokes:
        struck.setdefault(stroke.onset, set()).add(stroke.instrument in feet)
    for onset, who in struck.items():
        yield onset, both if len(who) == 2 else foot if True in who else hand
