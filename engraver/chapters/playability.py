"""Whether a body can play a groove, in words for its author: limbs in, problems with their place in the YAML out.

What a body has against it is found by `analysis`; here it is said.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from engraver.analysis import Assignment, Complaint, Objection, objections
from engraver.definition import GrooveDefinition, origin
from engraver.errors import Position, Problem
from engraver.rhythm import Groove, Span


@dataclass(frozen=True, slots=True)
class Playability:
    """``refusals``: what no body can do; ``warnings``: what few can, or what needs a special set."""

    refusals: tuple[Problem, ...]
    warnings: tuple[Problem, ...]


def playability(definition: GrooveDefinition, groove: Groove, limbs: Assignment) -> Playability:
    found = [(each.complaint.is_refusal, _problem(definition, groove, each)) for each in objections(groove, limbs)]
    return Playability(
        tuple(problem for refused, problem in found if refused),
        tuple(problem for refused, problem in found if not refused),
    )


def said(groove: Groove, found: Objection) -> str:
    """What is wrong and where, in one sentence."""
    often = f"; so at {found.moments} moments" if found.moments > 1 else ""
    return f"{whereabouts(groove, found.onset)}: {_MESSAGES[found.complaint](found)}{often}"


def whereabouts(groove: Groove, onset: Fraction) -> str:
    """Bar, beat and step as the author counts them, such as "bar 2, beat 3, step 9"."""
    index = groove.bar_at(onset)
    bar = groove.bars[index]
    steps, rest = divmod((onset - bar.start) / groove.step, 1)
    step = f"step {steps + 1}" + (f" and {rest}" if rest else "")
    if groove.pickup and index == 0:
        return f"the pickup, {step}"
    beat = next(n for n, beat in enumerate(bar.meter.beat_spans(bar.start), 1) if onset in beat)
    return f"bar {index if groove.pickup else index + 1}, beat {beat}, {step}"


def _problem(definition: GrooveDefinition, groove: Groove, found: Objection) -> Problem:
    return Problem(_position(definition, groove, found), said(groove, found), _hint(found, groove))


def _position(definition: GrooveDefinition, groove: Groove, found: Objection) -> Position:
    """Where the stroke is written that the objection is about: the last of those that meet, which is one too many."""
    stroke = max(found.strokes, key=lambda stroke: stroke.onset)
    moment = Span(stroke.onset, stroke.onset + groove.step / 1000)
    return origin(definition, moment, [each.instrument for each in found.strokes if each.onset == stroke.onset])


# ------------------------------------------------------------------ what is wrong
def _names(found: Objection) -> str:
    *others, last = [f"the {instrument}" for instrument in found.instruments]
    return f"{', '.join(others)} and {last}" if others else last


def _limb(found: Objection) -> str:
    return f"the {found.limb.value}" if found.limb else "the hands"


def _decimal(value: Fraction | None) -> str:
    assert value is not None
    return f"{float(value):.1f}".removesuffix(".0")


def _crowded(found: Objection) -> str:
    if found.limb:
        return f"{_names(found)} fall together, and all of them are {_limb(found)}'s"
    return f"{_names(found)} fall together: {len(found.strokes)} strokes for {_decimal(found.limit)} limbs"


def _unaided(found: Objection) -> str:
    ornament = found.strokes[0].ornament
    assert ornament and found.limb
    return (
        f"a {ornament.value} on {_names(found)} takes two hands, and {_limb(found)} has to play it alone, since the "
        f"{found.limb.other.value} strikes something else"
    )


def _rate(found: Objection) -> str:
    return f"{_limb(found)} plays {_decimal(found.figure)} strokes a second from here on; {_decimal(found.limit)}"


_MESSAGES: Mapping[Complaint, Callable[[Objection], str]] = {
    Complaint.CROWDED: _crowded,
    Complaint.TOO_FAST: lambda found: f"{_rate(found)} is the most that any player keeps up",
    Complaint.TOO_QUICK: lambda found: f"{_rate(found)} is the most for a stroke and its rebound",
    Complaint.PEDAL: lambda found: f"{_names(found)} fall together, and the hi-hat's pedal cannot be up and down",
    Complaint.CLOSING: lambda found: (
        f"{_limb(found)} plays {_names(found)}, and has to close the open hi-hat at the same moment"
    ),
    Complaint.VERY_FAST: lambda found: f"{_rate(found)} is the end of what is hard, and few players go beyond it",
    Complaint.QUICK_FOOT: lambda found: (
        f"{_limb(found)} plays two strokes at {_decimal(found.figure)} a second; {_decimal(found.limit)} is the most "
        "that feet keep up, so the second has to come by rebound"
    ),
    Complaint.HELD: lambda found: (
        f"{_names(found)} fall together: with {_limb(found)} away from its pedal the hi-hat is not closed"
    ),
    Complaint.CROSSED: lambda found: (
        f"{_names(found)}: the arms cross over {_decimal(found.figure)} dm; {_decimal(found.limit)} is usual"
    ),
    Complaint.FAR: lambda found: (
        f"{_limb(found)} goes {_decimal(found.figure)} dm a second between {_names(found)}; {_decimal(found.limit)} is "
        "a long way already"
    ),
    Complaint.UNAIDED: _unaided,
    Complaint.SHARED: lambda found: f"both hands strike {_names(found)} at one moment, on one surface",
}


# ------------------------------------------------------------------ what would help
def _hint(found: Objection, groove: Groove) -> str:
    return " or ".join(_helps(found, groove))


def _helps(found: Objection, groove: Groove) -> Iterator[str]:
    if found.bpm and found.bpm < groove.tempo.bpm:
        yield f"write tempo {found.bpm} or less"
    if found.two_feet:
        yield "let two feet take turns: a row of feet under sticking:, or the left bass drum"
    if found.own_hands:
        yield "give some of its strokes to the other hand: without the row of sticking it can be played"
    if found.complaint in _HELPS:
        yield _HELPS[found.complaint]


_HELPS: Mapping[Complaint, str] = {
    Complaint.CROWDED: "leave a stroke out, or move it to another step",
    Complaint.PEDAL: "leave one of them out, or write an open hi-hat where the foot is up",
    Complaint.CLOSING: "keep the hi-hat open there, or give the other stroke to the other foot",
    Complaint.HELD: "write an open hi-hat, or tell the reader that a clutch holds it",
    Complaint.CROSSED: "write the sticking the other way round there",
    Complaint.UNAIDED: "leave the other stroke out there, or let the graces be a rebound",
    Complaint.SHARED: "let one hand play it, or another instrument",
}
