"""The notation key: a sign for every note that the book uses, and for none that it does not."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from engraver.lilypond.items import note_text
from engraver.lilypond.notes import Sound, note_names, sounds_of
from engraver.lilypond.source import Source
from engraver.lilypond.staff import Staff
from engraver.notation import Head, Note, Value
from engraver.rhythm import Limbs, Ornament, Stroke, Touch
from engraver.style import Kit, Words


@dataclass(frozen=True, slots=True)
class Sign:
    label: str
    upper: Source
    lower: Source
    width: float = 14.0


def signs(strokes: Iterable[Stroke], kit: Kit, say: Words) -> tuple[tuple[Sign, ...], Mapping[Sound, str]]:
    """Signs from the highest place of the staff down, then touches and ornaments; and the names of their notes."""
    strokes = tuple(strokes)
    used = sorted({s.instrument for s in strokes}, key=lambda i: (-kit[i].position, kit[i].label))
    plain = [Stroke(strokes[0].onset, instrument) for instrument in used]
    shown = [(kit[s.instrument].label, s) for s in plain]
    for touch in (Touch.GHOST, Touch.ACCENT):
        first = next((s for s in strokes if s.touch is touch and s.ornament is None), None)
        if first:
            label = say("ghost key", label=kit[first.instrument].label) if touch is Touch.GHOST else say("accent key")
            shown.append((label, Stroke(first.onset, first.instrument, touch)))
    for ornament in Ornament:
        found = next((s for s in strokes if s.ornament is ornament), None)
        if found:
            shown.append((say(f"{ornament.value} key"), Stroke(found.onset, found.instrument, ornament=ornament)))
    names = note_names(sounds_of(stroke for _, stroke in shown))
    return tuple(_sign(label, stroke, kit, names) for label, stroke in shown), names


def _sign(label: str, stroke: Stroke, kit: Kit, names: Mapping[Sound, str]) -> Sign:
    music = Source(note_text(Note(stroke.onset, Value(4), (Head(stroke),)), Staff("the key", names)))
    nothing = Source("s4")
    feet = kit[stroke.instrument].limbs is Limbs.FEET
    return Sign(label, nothing if feet else music, music if feet else nothing, 20.0 if stroke.ornament else 14.0)
