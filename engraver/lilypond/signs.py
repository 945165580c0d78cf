"""The notation key: a sign for every note that the book uses, and for none that it does not."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from engraver.lilypond.notes import Sound, note_names, sounds_of
from engraver.lilypond.source import Source
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
    music = Source(_graces(stroke, names) + _body(stroke, names))
    nothing = Source("s4")
    feet = kit[stroke.instrument].limbs is Limbs.FEET
    return Sign(label, nothing if feet else music, music if feet else nothing, 20.0 if stroke.ornament else 14.0)


def _body(stroke: Stroke, names: Mapping[Sound, str]) -> str:
    name = names[Sound.of(stroke)]
    if stroke.is_ghost:
        return f"\\ghost {name}4"
    after = {Ornament.BUZZ: ":16", Ornament.DOUBLE: ":8", Ornament.CHOKE: "-\\choke"}
    buzz = "\\buzz " if stroke.ornament is Ornament.BUZZ else ""
    accent = "->" if stroke.is_accent else ""
    return f"{buzz}{name}4{after.get(stroke.ornament, '') if stroke.ornament else ''}{accent}"


def _graces(stroke: Stroke, names: Mapping[Sound, str]) -> str:
    count = stroke.ornament.graces if stroke.ornament else 0
    if not count:
        return ""
    grace = names[Sound(stroke.instrument, grace=True)]
    if count == 1:
        return f"\\slashedGrace {{ {grace}8 }} "
    return "\\grace { " + " ".join(f"{grace}16{mark}" for mark in ["[", *[""] * (count - 2), "]"]) + " } "
