"""The notation key: a sign for every note that the book uses, and for none that it does not."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from engraver.lilypond.items import note_text
from engraver.lilypond.notes import Sound
from engraver.lilypond.source import Source
from engraver.lilypond.staff import Staff
from engraver.notation import Head, Note, Value, VoiceName, voice_of
from engraver.rhythm import Ornament, Stroke, Touch
from engraver.style import Kit, Style


@dataclass(frozen=True, slots=True)
class Sign:
    label: str
    upper: Source
    lower: Source
    width: float = 14.0


def key_strokes(strokes: Iterable[Stroke], kit: Kit) -> tuple[Stroke, ...]:
    """What the key has to show: each instrument from the highest place of the staff down, then touches, ornaments."""
    strokes = tuple(strokes)
    struck = {s.instrument.name: s.instrument for s in strokes}.values()  # by name: a book has many strokes
    used = sorted(struck, key=lambda i: (-kit[i].position, kit[i].label))
    shown = [Stroke(strokes[0].onset, instrument) for instrument in used]
    for touch in (Touch.GHOST, Touch.ACCENT):
        first = next((s for s in strokes if s.touch is touch and s.ornament is None), None)
        shown += [Stroke(first.onset, first.instrument, touch)] if first else []
    for ornament in Ornament:
        found = next((s for s in strokes if s.ornament is ornament), None)
        shown += [Stroke(found.onset, found.instrument, ornament=ornament)] if found else []
    return tuple(shown)


def signs(strokes: Iterable[Stroke], style: Style, names: Mapping[Sound, str]) -> tuple[Sign, ...]:
    """Their signs, as the style draws them; ``names`` are those of their notes."""
    return tuple(_sign(stroke, style, names) for stroke in key_strokes(strokes, style.kit))


def tuplet_sign(count: int, normal: int, stroke: Stroke, style: Style, names: Mapping[Sound, str]) -> Sign:
    """``count`` strokes in the time of ``normal``."""
    say, note = style.say, names[Sound.of(stroke)]
    value = 4 * normal if normal & (normal - 1) == 0 else 8
    beamed = [f"{note}{value}[", *[note] * (count - 2), f"{note}]"]
    label = say("tuplet key", count=say.number(count), normal=say.number(normal))
    return Sign(label, Source(f"\\tuplet {count}/{normal} {{ {' '.join(beamed)} }}"), Source("s4"), 20.0)


def repeat_bar_sign(stroke: Stroke, style: Style, names: Mapping[Sound, str]) -> Sign:
    music = Source(f"\\repeat percent 2 {{ {names[Sound.of(stroke)]}4 }}")
    return Sign(style.say("repeat bar key"), music, Source("s2"), 24.0)


def _sign(stroke: Stroke, style: Style, names: Mapping[Sound, str]) -> Sign:
    staff = Staff("the key", names, accents=style.accents)
    music = Source(note_text(Note(stroke.onset, Value(4), (Head(stroke),)), staff))
    nothing = Source("s4")
    below = voice_of(stroke.instrument, style) is VoiceName.LOWER
    width = 20.0 if stroke.ornament else 14.0
    return Sign(_label(stroke, style), nothing if below else music, music if below else nothing, width)


def _label(stroke: Stroke, style: Style) -> str:
    say, label = style.say, style.kit[stroke.instrument].label
    if stroke.ornament:
        return say(f"{stroke.ornament.value} key")
    match stroke.touch:
        case Touch.GHOST:
            return say("ghost key", label=label)
        case Touch.ACCENT:
            return say("accent key")
    return label
