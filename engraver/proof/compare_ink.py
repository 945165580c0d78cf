"""Ink against groove, column by column: staff position, head, ghost's look, signs, grace notes, stem."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from engraver.notation import VoiceName, voice_of
from engraver.proof.difference import Found, describe
from engraver.proof.due import DueColumn, columns, graces, look, signs, written_out
from engraver.proof.ink import InkColumn, InkHead
from engraver.rhythm import Groove, Ornament, Span, Stroke
from engraver.style import Kit, Style


def compare_ink(
    groove: Groove, style: Style, written: Sequence[InkColumn], repeated: Sequence[Fraction] = ()
) -> Iterator[Found]:
    """``repeated``: the beginnings of the bars that are a sign for the bar before them."""
    ink = _with_repeated_bars(groove, written, repeated)
    left = list(ink)
    for column in columns(tuple(_as_written(groove.strokes, style, ink)), style):
        found = next((one for one in left if (one.onset, one.voice) == (column.onset, column.voice)), None)
        if found is not None:
            left.remove(found)
        yield from _column(column, style, found or InkColumn(column.onset, column.voice, (), frozenset()))
    for extra in left:
        yield from _extra(extra)


def _with_repeated_bars(
    groove: Groove, ink: Sequence[InkColumn], repeated: Sequence[Fraction]
) -> tuple[InkColumn, ...]:
    """What a player reads: under a sign the bar before it once more, which may be such a sign itself."""
    read = list(ink)
    for bar in groove.bars:
        if bar.start in repeated:
            last = Span(bar.start - bar.length, bar.start)
            read += [replace(one, onset=one.onset + bar.length) for one in read if one.onset in last]
    return tuple(read)


def _as_written(strokes: Sequence[Stroke], style: Style, ink: Sequence[InkColumn]) -> Iterator[Stroke]:
    """A double is a slash on its stem; where there is none, but a head half a step later, it is two strokes."""
    slashed = {(one.onset, one.voice) for one in ink if "double" in one.signs}
    heads = {(one.onset, one.voice, head.position) for one in ink for head in one.heads}
    for stroke in strokes:
        row, voice = style.kit[stroke.instrument], voice_of(stroke.instrument, style)
        is_double = stroke.ornament is Ornament.DOUBLE and (stroke.onset, voice) not in slashed
        if is_double and (stroke.onset + stroke.step / 2, voice, row.position) in heads:
            yield from written_out(stroke)
        else:
            yield stroke


def _column(due: DueColumn, style: Style, ink: InkColumn) -> Iterator[Found]:
    left = list(ink.heads)
    for stroke in due.strokes:
        row = style.kit[stroke.instrument]
        head = next((one for one in left if one.shape == (row.position, row.head)), None)
        if head is None:
            yield Found(due.onset, f"{describe(stroke)} is missing in the ink")
            continue
        left.remove(head)
        yield from _look(stroke, style, head)
    for extra in left:
        yield Found(due.onset, f"{_shape(extra)} is in the ink but not in the groove")
    if ink.heads:
        yield from _signs(due, style.kit, ink)
        yield from _graces(due, style.kit, ink)


def _look(stroke: Stroke, style: Style, head: InkHead) -> Iterator[Found]:
    in_parentheses, small = look(stroke, style.ghosts)
    for word, due, drawn in (("in parentheses", in_parentheses, head.parenthesised), ("small", small, head.small)):
        if due != drawn:
            yield Found(stroke.onset, f"{describe(stroke)} is {'' if drawn else 'not '}{word} in the ink")


def _signs(due: DueColumn, kit: Kit, ink: InkColumn) -> Iterator[Found]:
    wanted = signs(due, kit)
    who = " and ".join(describe(stroke) for stroke in due.strokes)
    for sign in sorted(wanted - ink.signs):
        yield Found(due.onset, f'{who}: the sign for "{sign}" is missing in the ink')
    for sign in sorted(ink.signs - wanted):
        yield Found(due.onset, f'{who}: a sign for "{sign}" is in the ink but not in the groove')


def _graces(due: DueColumn, kit: Kit, ink: InkColumn) -> Iterator[Found]:
    shapes = [head.shape for column in ink.graces for head in column]
    for stroke in due.strokes:
        row = kit[stroke.instrument]
        drawn = shapes.count((row.position, row.head))
        if drawn != graces(stroke):
            yield Found(due.onset, f"{describe(stroke)} has {drawn} grace notes in the ink, not {graces(stroke)}")
        shapes = [shape for shape in shapes if shape != (row.position, row.head)]
    if shapes:
        yield Found(due.onset, "a grace note in the ink is on no line of a stroke it leads to")


def _extra(column: InkColumn) -> Iterator[Found]:
    for head in column.heads:
        yield Found(column.onset, f"{_shape(head)}{_stem(column.voice)} is in the ink but not in the groove")
    if not column.heads:
        yield Found(column.onset, "grace notes or signs in the ink belong to no stroke")


def _stem(voice: VoiceName | None) -> str:
    return f" in the {voice.value} voice" if voice else ""


def _shape(head: InkHead) -> str:
    return f"a head ({head.head}) {on_staff(head.position)}"


def on_staff(position: int) -> str:
    """Lines and spaces count from the bottom: 0 is on line 3, 1 in space 3."""
    if abs(position) > 4:
        return f"{'above' if position > 0 else 'below'} the staff, position {position}"
    line, between = divmod(position + 4, 2)
    return f"in space {line + 1}" if between else f"on line {line + 1}"
