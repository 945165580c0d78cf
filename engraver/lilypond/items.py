"""Notes, rests and tuplets as LilyPond text. No decisions about music."""

from __future__ import annotations

from collections.abc import Sequence

from engraver.lilypond.notes import Sound
from engraver.lilypond.source import quoted
from engraver.lilypond.staff import Staff
from engraver.notation import Head, Note, Rest, TupletGroup, Value, VoiceName
from engraver.rhythm import Ornament
from engraver.style import Accents

Item = Note | Rest | TupletGroup
AWAY = {VoiceName.UPPER: "_", VoiceName.LOWER: "^"}  # from the stem


def items_text(items: Sequence[Item], staff: Staff, voice: VoiceName = VoiceName.UPPER) -> str:
    """One after the other. Where inner beams end at a note, the next one is told that it has only one to its left."""
    return " ".join(_item(item, staff, voice, after) for after, item in zip((None, *items), items, strict=False))


def _item(item: Item, staff: Staff, voice: VoiceName, after: Item | None) -> str:
    match item:
        case TupletGroup():
            inner = items_text(item.items, staff, voice)
            bracket = "" if item.bracket else "\\once \\omit TupletBracket "
            return f"{bracket}\\tuplet {item.count}/{item.normal} {{ {inner} }}"
        case Rest():
            return _rest(item)
        case Note():
            return ("\\partedLeft " if isinstance(after, Note) and after.parts else "") + note_text(item, staff, voice)


def _value(value: Value) -> str:
    return f"{value.base}{'.' * value.dots}"


def _rest(rest: Rest) -> str:
    return ("r" if rest.visible else "s") + _value(rest.value)


def note_text(note: Note, staff: Staff, voice: VoiceName = VoiceName.UPPER) -> str:
    """One note with its grace notes, beam and signs."""
    heads = [_head(head, staff) for head in note.heads]
    before, roll, after = "", "", ""
    if note.is_ornate:
        heads, before, roll, after = _ornate(note, heads), _graces(note, staff), _tremolo(note), _choke(note)
    parts = "\\partedRight " if note.parts else ""
    buzz = "\\buzz " if roll and note.tremolo is Ornament.BUZZ else ""
    body = heads[0] if len(heads) == 1 else f"<{' '.join(heads)}>"
    return before + parts + buzz + body + _value(note.value) + roll + _beam_and_accent(note, staff, voice) + after


def _ornate(note: Note, heads: Sequence[str]) -> list[str]:
    """What rolls is told apart where it is struck together with what does not."""
    rolled = note.rolled
    some = 0 < len(rolled) < len(heads)
    return [f"\\rolled {text}" if some and h in rolled else text for h, text in zip(note.heads, heads, strict=True)]


def _head(head: Head, staff: Staff) -> str:
    stroke = head.stroke
    name = staff.heads[stroke.kind]
    looks = "\\fresh " if staff.fresh and (stroke.onset, stroke.instrument.name) in staff.fresh else ""
    if staff.cells and stroke.onset in staff.cells:
        looks += f"\\inCell {quoted(staff.cells[stroke.onset])} "
    return f"{looks}\\ghost {name}" if stroke.is_ghost else looks + name


def _beam_and_accent(note: Note, staff: Staff, voice: VoiceName) -> str:
    beam = note.beam.value if note.beam else ""
    side = AWAY[voice] if staff.accents is Accents.HEAD else "-"
    return f"{beam}{side}>" if note.is_accent else beam


def _choke(note: Note) -> str:
    return "-\\choke" if any(head.stroke.ornament is Ornament.CHOKE for head in note.heads) else ""


def _tremolo(note: Note) -> str:
    """A double is one slash more than the note has flags; a buzz needs one slash for its z to stand on."""
    if note.tremolo is None:
        return ""
    least = 4 if note.tremolo is Ornament.DOUBLE else 8
    return f":{max(least, note.value.base) * 2}"


def _graces(note: Note, staff: Staff) -> str:
    if not note.graces:
        return ""
    counts = [head.stroke.ornament.graces if head.stroke.ornament else 0 for head in note.graces]
    names = [staff.names[Sound(head.stroke.instrument, grace=True)] for head in note.graces]
    # the strokes of a longer ornament begin alone: a flam under a drag has its one grace at the drag's second
    columns = [[n for n, own in zip(names, counts, strict=True) if own >= left] for left in range(max(counts), 0, -1)]
    chords = [column[0] if len(column) == 1 else f"<{' '.join(column)}>" for column in columns]
    if len(chords) == 1:
        return f"\\slashedGrace {{ {chords[0]}8 }} "
    marks = ["[", *[""] * (len(chords) - 2), "]"]
    return "\\grace { " + " ".join(f"{chord}16{mark}" for chord, mark in zip(chords, marks, strict=True)) + " } "
