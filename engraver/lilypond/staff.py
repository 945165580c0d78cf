"""What a score needs beside its notes to become LilyPond text, and where each line of that text comes from.

Every line of music ends with a comment that says where it comes from; `origin` reads it back, so that LilyPond's
complaints about a line can be turned into a place in the author's file.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from engraver.lilypond.notes import Sound
from engraver.notation import StaffBar, VoiceName
from engraver.rhythm import Kind, Span
from engraver.style import Accents


@dataclass(frozen=True, slots=True)
class Staff:
    """``part`` names the passage in messages; ``names`` are those of its notes.

    ``offset`` is where it begins in the author's groove and ``scale`` how much longer its times are; ``breaks`` are the
    indexes of the bars that end a line, ``turns`` those after which a page may end; ``repeats`` > 1 puts repeat signs
    at both ends; ``fresh`` are heads to mark as new, ``cells`` the letter whose colour the heads of a moment have;
    ``counts`` says "four times" for a repeat played so often.
    """

    part: str
    names: Mapping[Sound, str]
    offset: Fraction = Fraction(0)
    scale: Fraction = Fraction(1)
    breaks: frozenset[int] = frozenset()
    turns: frozenset[int] = frozenset()
    repeats: int = 1
    fresh: frozenset[tuple[Fraction, str]] = frozenset()
    cells: Mapping[Fraction, str] = field(default_factory=dict)
    counts: Mapping[int, str] = field(default_factory=dict)
    accents: Accents = Accents.STEM
    first_bar: int = 1  # 0 where it begins with a pickup, which is no bar
    ending: str = ""  # a bar line for the end, if not the usual one
    heads: Mapping[Kind, str] = field(init=False, repr=False, compare=False)  # the names by what is struck, to look up

    def __post_init__(self) -> None:
        heads = {sound.struck: name for sound, name in self.names.items() if not sound.grace}
        object.__setattr__(self, "heads", heads)


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a line of music comes from: which score, which bar of it, which voice, which time of the groove."""

    part: str
    bar: int
    voice: VoiceName
    span: Span


_COMMENT = re.compile(
    r"% (?P<part>.+), bar (?P<bar>\d+), (?P<voice>upper|lower) voice, (?P<start>\S+) to (?P<end>\S+)$"
)


def origin(line: str) -> Origin | None:
    """The origin that a line of music states, if it is one."""
    match = _COMMENT.search(line)
    if not match:
        return None
    span = Span(Fraction(match["start"]), Fraction(match["end"]))
    return Origin(match["part"], int(match["bar"]), VoiceName(match["voice"]), span)


def comment(staff: Staff, index: int, bar: StaffBar, voice: VoiceName) -> str:
    """The inverse of `origin`, for the bar with this index."""
    span = bar.span
    if staff.scale != 1:
        span = Span(span.start / staff.scale, span.end / staff.scale)
    if staff.offset:
        span = span.shift(staff.offset)
    return f"% {staff.part}, bar {staff.first_bar + index}, {voice.value} voice, {span.start} to {span.end}"
