"""Ink against groove, column by column: staff position, head, ghost's look, signs, grace notes, stem."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from engraver.proof.difference import Found, describe
from engraver.proof.due import DueColumn, columns, graces, look, signs, written_out
from engraver.proof.ink import InkColumn, InkHead
from engraver.rhythm import Groove, Limbs, Ornament, Stroke
from engraver.style import Kit, Style


def compare_ink(groove: Groove, style: Style, ink: Sequence[InkColumn]) -> Iterator[Found]:
    left = list(ink)
    for column in columns(tuple(_as_written(groove.strokes, style.kit, ink)), style.kit):
        found = next((one for one in left if (one.onset, one.limbs) == (column.onset, column.limbs)), None)
        if found is not None:
            left.remove(found)
        yield from _column(column, style, found or InkColumn(column.onset, column.limbs, (), frozenset()))
    for extra in left:
        yield from _extra(extra)


def _as_written(strokes: Sequence[Stroke], kit: Kit, ink: Sequence[InkColumn]) -> Iterator[Stroke]:
    """A double is a slash on its stem; where there is none, but a head half a step later, it is two strokes."""
    slashed = {(one.onset, one.limbs) for one in ink if "double" in one.signs}
    heads = {(one.onset, one.limbs, head.position) for one in ink for head in one.heads}
    for stroke in strokes:
        row = kit[stroke.instrument]
        is_double = stroke.ornament is Ornament.DOUBLE and (stroke.onset, row.limbs) not in slashed
        if is_double and (stroke.onset + stroke.step / 2, row.limbs, row.position) in heads:
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
        yield Found(column.onset, f"{_shape(head)}{_stem(column.limbs)} is in the ink but not in the groove")
    if not column.heads:
        yield Found(column.onset, "grace notes or signs in the ink belong to no stroke")


def _stem(limbs: Limbs | None) -> str:
    return f" in the voice of the {limbs.value}" if limbs else ""


def _shape(head: InkHead) -> str:
    return f"a head ({head.head}) {on_staff(head.position)}"


def on_staff(position: int) -> str:
    """Lines and spaces count from the bottom: 0 is on line 3, 1 in space 3."""
    if abs(position) > 4:
        return f"{'above' if position > 0 else 'below'} the staff, position {position}"
    line, between = divmod(position + 4, 2)
    return f"in space {line + 1}" if between else f"on line {line + 1}"
