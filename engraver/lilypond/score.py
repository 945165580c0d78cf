"""A `Score` as LilyPond text, one bar of one voice a line. No decisions about music.

Every line of music ends with a comment that says where it comes from; `origin` reads it back, so that LilyPond's
complaints about a line can be turned into a place in the author's file.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from engraver.lilypond.notes import Sound
from engraver.lilypond.source import Source, quoted
from engraver.notation.score import Head, Note, Rest, Score, StaffBar, TupletGroup, Value, Voice, VoiceName
from engraver.rhythm import Limbs, Meter, Ornament, Span

VOICES: Mapping[VoiceName, Limbs] = {VoiceName.UPPER: Limbs.HANDS, VoiceName.LOWER: Limbs.FEET}


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a line of music comes from: which score, which bar of it, which limbs, which time of the groove."""

    part: str
    bar: int
    limbs: Limbs
    span: Span


_COMMENT = re.compile(r"% (?P<part>.+), bar (?P<bar>\d+), (?P<limbs>hands|feet), (?P<start>\S+) to (?P<end>\S+)$")


def origin(line: str) -> Origin | None:
    """The origin that a line of music states, if it is one."""
    match = _COMMENT.search(line)
    if not match:
        return None
    span = Span(Fraction(match["start"]), Fraction(match["end"]))
    return Origin(match["part"], int(match["bar"]), Limbs(match["limbs"]), span)


@dataclass(frozen=True, slots=True)
class Staff:
    """What a score needs beside its notes.

    ``part`` names it in messages; ``offset`` is where it begins in the author's groove and ``scale`` how much longer
    its times are; ``breaks`` are the indexes of
    the bars that end a line, ``turns`` those after which a page may end; ``repeats`` > 1 puts repeat signs at both
    ends; ``fresh`` are heads to colour.
    """

    part: str
    names: Mapping[Sound, str]
    offset: Fraction = Fraction(0)
    scale: Fraction = Fraction(1)
    breaks: frozenset[int] = frozenset()
    turns: frozenset[int] = frozenset()
    repeats: int = 1
    fresh: frozenset[tuple[Fraction, str]] = frozenset()
    first_bar: int = 1  # 0 where it begins with a pickup, which is no bar
    ending: str = ""  # a bar line for the end, if not the usual one


def staff_text(score: Score, staff: Staff) -> Source:
    """Both voices as DrumVoice contexts."""
    return Source("\n".join(_voice(score, staff, name) for name in VoiceName))


def _voice(score: Score, staff: Staff, name: VoiceName) -> str:
    lines = [f"      \\new DrumVoice {{ \\{name.value} \\drummode {{"]
    if staff.repeats > 1:
        lines.append(f'        \\bar ".|:" \\repeat volta {staff.repeats} {{')
    in_endings = False
    for index, bar in enumerate(score.bars):
        in_endings = in_endings or bool(bar.ending)
        lines.extend(_bar(score, staff, name, index, bar))
        if bar.closes_repeat:
            lines.append("        } }" if in_endings else "        }")
            in_endings = False
    if staff.repeats > 1:
        lines.append("        }")
    if staff.ending and name is VoiceName.UPPER:
        lines.append(f'        \\bar "{staff.ending}"')
    lines.append("      } }")
    return "\n".join(lines)


def _bar(score: Score, staff: Staff, name: VoiceName, index: int, bar: StaffBar) -> Iterator[str]:
    upper = name is VoiceName.UPPER
    yield from _openings(bar, upper, index)
    voice = next((voice for voice in bar.voices if voice.name is name), Voice(name, (), is_silent=True))
    sync = "" if _begins_with_grace(voice) or not _any_grace_at_start(bar) else "\\grace s8 "
    music = _silence(voice, bar) if voice.is_silent else " ".join(_item(item, staff) for item in voice.items)
    end = _line_end(staff, index) if upper and index + 1 < len(score.bars) else ""
    span = Span(bar.span.start / staff.scale, bar.span.end / staff.scale).shift(staff.offset)
    where = f"% {staff.part}, bar {staff.first_bar + index}, {VOICES[name].value}, {span.start} to {span.end}"
    yield f"        {sync}{music} |{end}  {where}"


def _line_end(staff: Staff, index: int) -> str:
    return (" \\break" if index in staff.breaks else "") + (" \\mayTurn" if index in staff.turns else "")


def _silence(voice: Voice, bar: StaffBar) -> str:
    shown = any(isinstance(rest, Rest) and rest.visible for rest in _flat(voice.items))
    return f"{'R' if shown else 's'}1*{bar.span.length}"


def _openings(bar: StaffBar, upper: bool, index: int) -> Iterator[str]:
    if bar.opens_repeat:
        # LilyPond draws the sign itself but at the start; elsewhere ours would hide the end of a repeat that meets it
        sign = "" if index else '\\bar ".|:" '
        yield f"        {sign}\\repeat volta {bar.opens_repeat} {{"
    if bar.ending:
        yield "        } \\alternative { {" if bar.ending == 1 else "        } {"
    if upper:
        if bar.new_meter:
            yield f"        {_meter(bar.meter)}"
        if bar.partial:
            yield f"        \\partial 1*{bar.span.length}"
        if bar.section:
            yield f"        \\sectionLabel {quoted(bar.section)}"


def _meter(meter: Meter) -> str:
    if meter.additive:
        return f"\\compoundMeter #'(({' '.join(map(str, meter.beats))} {meter.unit}))"
    return f"\\time {meter.count}/{meter.unit}"


def _begins_with_grace(voice: Voice) -> bool:
    first = next(_flat(voice.items), None)
    return isinstance(first, Note) and bool(first.graces)


def _any_grace_at_start(bar: StaffBar) -> bool:
    return any(_begins_with_grace(voice) for voice in bar.voices)


def _flat(items: Sequence[Note | Rest | TupletGroup]) -> Iterator[Note | Rest]:
    for item in items:
        if isinstance(item, TupletGroup):
            yield from _flat(item.items)
        else:
            yield item


def _item(item: Note | Rest | TupletGroup, staff: Staff) -> str:
    match item:
        case TupletGroup():
            inner = " ".join(_item(part, staff) for part in item.items)
            bracket = "" if item.bracket else "\\once \\omit TupletBracket "
            return f"{bracket}\\tuplet {item.count}/{item.normal} {{ {inner} }}"
        case Rest():
            return _rest(item)
        case Note():
            return note_text(item, staff)


def _value(value: Value) -> str:
    return f"{value.base}{'.' * value.dots}"


def _rest(rest: Rest) -> str:
    return ("r" if rest.visible else "s") + _value(rest.value)


def note_text(note: Note, staff: Staff) -> str:
    """One note with its grace notes, beam and signs."""
    heads = [_head(head, staff) for head in note.heads]
    body = heads[0] if len(heads) == 1 else f"<{' '.join(heads)}>"
    return _graces(note, staff) + _before(note) + body + _value(note.value) + _after(note)


def _head(head: Head, staff: Staff) -> str:
    name = staff.names[Sound.of(head.stroke)]
    fresh = "\\fresh " if (head.stroke.onset, head.stroke.instrument.name) in staff.fresh else ""
    return f"{fresh}\\ghost {name}" if head.stroke.is_ghost else f"{fresh}{name}"


def _before(note: Note) -> str:
    return "\\buzz " if note.tremolo is Ornament.BUZZ else ""


def _after(note: Note) -> str:
    tremolo = f":{_tremolo(note)}" if note.tremolo else ""
    beam = note.beam.value if note.beam else ""
    accent = "->" if note.is_accent else ""
    choke = "-\\choke" if any(head.stroke.ornament is Ornament.CHOKE for head in note.heads) else ""
    return tremolo + beam + accent + choke


def _tremolo(note: Note) -> int:
    """A double is one slash more than the note has flags; a buzz needs one slash for its z to stand on."""
    least = 4 if note.tremolo is Ornament.DOUBLE else 8
    return max(least, note.value.base) * 2


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
