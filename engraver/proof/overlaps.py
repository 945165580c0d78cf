"""Ink on ink: which things on the pages lie over one another, and should not.

In: everything drawn (`drawn.things`). Out: the pairs that overlap, without those of `BY_DESIGN`. Boxes are those of the
pieces of ink, so a flag counts with the empty corner under its curve, and a text with the height of its letters.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import groupby

from engraver.proof.drawn import INSIDE, Box, Thing

TOLERANCE = 0.06  # staff spaces: less than half a staff line cannot be seen


class When(Enum):
    """Which two things of a pair may touch."""

    SAME_NOTE = "they stand at one moment"
    JOINED = "the one is among the stems that the other joins"
    ALWAYS = "wherever they meet"


@dataclass(frozen=True, slots=True)
class Pair:
    """Two kinds of things that touch by design; ``least`` is the smaller side of the deepest overlap that is meant."""

    one: str
    other: str
    when: When
    reason: str
    least: float = 99.0

    def covers(self, a: Thing, b: Thing, depth: float) -> bool:
        if {a.kind, b.kind} != {self.one, self.other} or depth > self.least:
            return False
        if self.when is When.SAME_NOTE:
            return a.moment == b.moment is not None
        if self.when is When.JOINED:
            return a.moment in b.joined or b.moment in a.joined
        return True


BY_DESIGN = (
    Pair("NoteHead", "Stem", When.SAME_NOTE, "a stem grows out of its head, and passes the other heads of a chord"),
    Pair(
        "NoteHead", "NoteHead", When.SAME_NOTE, "heads a third apart touch, and a slash is taller than its space", 0.3
    ),
    Pair("NoteHead", "Parentheses", When.SAME_NOTE, "parentheses reach a little beyond the space of their head", 0.3),
    Pair("Beam", "Stem", When.JOINED, "a beam ends its stems"),
    Pair("Flag", "Stem", When.SAME_NOTE, "a flag hangs from its stem; the stroke of a grace note crosses both"),
    Pair("Flag", "NoteHead", When.SAME_NOTE, "the empty corner under the curve of a flag is beside its own head"),
    Pair("LedgerLineSpanner", "NoteHead", When.ALWAYS, "a ledger line carries the head"),
    Pair("LedgerLineSpanner", "Stem", When.ALWAYS, "a stem that leaves a head on a ledger line crosses its end"),
    Pair("LedgerLineSpanner", "Flag", When.ALWAYS, "a flag falls past the end of the ledger line of its own head"),
    Pair("StemTremolo", "Stem", When.SAME_NOTE, "the strokes of a double and the z of a buzz stand on the stem"),
)

# What is drawn on the five lines, because it belongs there. Anything else that meets a line of the staff is a fault.
ON_THE_STAFF = {
    "NoteHead",
    "Stem",
    "Beam",
    "Flag",
    "Rest",
    "MultiMeasureRest",
    "Dots",
    "Clef",
    "TimeSignature",
    "BarLine",
    "Parentheses",
    "StemTremolo",
    "PercentRepeat",
    "LedgerLineSpanner",
}


@dataclass(frozen=True, slots=True)
class Overlap:
    """``width`` and ``height`` of the common ink, in staff spaces."""

    first: Thing
    second: Thing
    width: float
    height: float

    def __str__(self) -> str:
        size = f"{self.width:.2f} x {self.height:.2f} staff spaces"
        return f"{_named(self.first)} and {_named(self.second)} overlap by {size}"


NAMES = {
    "NoteHead": "a head",
    "Stem": "a stem",
    "Flag": "a flag",
    "Beam": "a beam",
    "Rest": "a rest",
    "MultiMeasureRest": "a rest of a bar",
    "Dots": "the dot of a note",
    "Parentheses": "the parentheses of a ghost note",
    "LedgerLineSpanner": "a ledger line",
    "PercentRepeat": "the sign of a repeated bar",
    "BarLine": "a bar line",
    "BarNumber": "the number of a bar",
    "Clef": "the clef",
    "TimeSignature": "the time signature",
    "SectionLabel": "the name of a section",
    "Script": "a sign",
    "TextScript": "a text",
    "LyricText": "a word under the staff",
    "StaffSymbol": "a line of the staff",
    "TextSpanner": "a cell's block",
    "TupletNumber": "the number of a tuplet",
    "TupletBracket": "the bracket of a tuplet",
    "VoltaBracketSpanner": "the bracket of an ending",
    "StemTremolo": "a roll's sign",
    "Block": "a text between the systems",
}


def _named(thing: Thing) -> str:
    name = NAMES.get(thing.kind, thing.kind)
    words = "" if not thing.words or "." in thing.words[0] else f' "{" ".join(thing.words)}"'
    return name + words


def overlaps(drawn: Iterable[Thing]) -> tuple[Overlap, ...]:
    """Every pair once, by page and from left to right; things on different pages never meet."""
    sheets = groupby(sorted(drawn, key=_sheet), key=_sheet)
    return tuple(found for _, things in sheets for found in _on_one_sheet(tuple(things)))


def _sheet(thing: Thing) -> tuple[int, int]:
    """Systems within texts are apart from one another: where they stand on the page is not known."""
    return thing.page, thing.system if thing.page == INSIDE else 0


def _on_one_sheet(drawn: Sequence[Thing]) -> Iterator[Overlap]:
    pieces = sorted(((box, thing) for thing in drawn for box in thing.boxes), key=lambda piece: piece[0].left)
    near: list[tuple[Box, Thing]] = []
    told: set[tuple[int, int]] = set()
    for box, thing in pieces:
        near = [piece for piece in near if piece[0].right > box.left + TOLERANCE]
        for other_box, other in near:
            width, height = box.overlap(other_box)
            pair = (id(other), id(thing))
            if other is thing or min(width, height) <= TOLERANCE or pair in told:
                continue
            if not _is_by_design(other, thing, min(width, height)):
                told.add(pair)
                yield Overlap(other, thing, width, height)
        near.append((box, thing))


def _is_by_design(a: Thing, b: Thing, depth: float) -> bool:
    kinds = {a.kind, b.kind}
    if "StaffSymbol" in kinds:
        return kinds - {"StaffSymbol"} <= ON_THE_STAFF
    return any(pair.covers(a, b, depth) for pair in BY_DESIGN)
