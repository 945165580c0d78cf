"""Reading order: the content of a page cut into what is read aloud and what is not.

In: a page's operators as Cairo draws them, from top to bottom. Out: the same ink in marked sequences (ISO 32000-1,
14.6): lines of text that follow one another closely are a paragraph, each line of a score is a figure, and everything
else, the notes and lines too, is an artifact, which readers pass over (14.8.2.2).
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass

from engraver.binding.letters import NO_FACE, Face, said

PARAGRAPH, FIGURE = "/P", "/Figure"
_STRINGS = rb"\((?:[^()\\]|\\.)*\)|<<|>>|<[0-9A-Fa-f\s]*>"
# Cairo leaves an empty sequence where a link is drawn; a block of text is taken whole, strings in it too
_PIECE = re.compile(
    rb"/Link\s*<<\s*/MCID\s+\d+\s*>>\s*BDC\s+EMC(?!\S)|(?<!\S)BT\s(?P<text>(?:" + _STRINGS + rb"|[^()<>])*?\s)ET(?!\S)",
    re.S,
)
_PLACE = re.compile(
    _STRINGS + rb"|(?P<place>(?:[-\d.]+\s+){3}(?P<size>[-\d.]+)\s+(?P<left>[-\d.]+)\s+(?P<down>[-\d.]+)\s+Tm(?!\S))",
    re.S,
)
_LEADING = 1.7  # of the size: lines farther apart are paragraphs of their own
_SAME = 0.3  # points between base lines that are one


@dataclass(frozen=True, slots=True)
class Read:
    """One thing that is read: ``sequences`` are the numbers of its marked sequences on the page.

    ``turn`` is which link of the page marks it, for a figure; ``text`` what it says, for a paragraph.
    """

    role: str
    sequences: tuple[int, ...]
    turn: int = -1
    text: str = ""


@dataclass(frozen=True, slots=True)
class _Line:
    left: float
    down: float
    size: float

    def goes_on(self, after: _Line) -> bool:
        """Whether another line is of the same paragraph: beside this one, or closely below it at the same edge."""
        if abs(after.down - self.down) <= _SAME:
            return True
        below = 0 < after.down - self.down <= _LEADING * max(self.size, after.size)
        return below and abs(after.left - self.left) < 1 and abs(after.size - self.size) < _SAME


class _Page:
    """The page so far: its operators, what is read of it, and the font in force."""

    def __init__(self, faces: Mapping[str, Face]) -> None:
        self.drawn: list[bytes] = []
        self.read: list[Read] = []
        self._faces, self._face = faces, NO_FACE
        self._count = 0
        self._last: _Line | None = None

    def artifact(self, operators: bytes) -> None:
        if operators.strip():
            self.drawn.append(b"\n/Artifact BMC\n%b\nEMC" % operators)

    def text(self, block: bytes) -> None:
        """A block of text, cut where its operators go to another place."""
        self.drawn.append(b"\nBT")
        for line, operators in _lines(block):
            text, self._face, is_text = said(operators, self._face, self._faces)
            if is_text:
                self._line(line, operators, text)
            else:
                self.artifact(operators)
        self.drawn.append(b"\nET")

    def figure(self, turn: int) -> None:
        self.read.append(Read(FIGURE, (self._mark(FIGURE, b""),), turn))
        self._last = None

    def _line(self, line: _Line | None, operators: bytes, text: str) -> None:
        number = self._mark(PARAGRAPH, operators)
        if self._last is not None and line is not None and self._last.goes_on(line):
            before = self.read.pop()
            self.read.append(Read(PARAGRAPH, (*before.sequences, number), text=f"{before.text} {text}".strip()))
        else:
            self.read.append(Read(PARAGRAPH, (number,), text=text))
        self._last = line

    def _mark(self, role: str, operators: bytes) -> int:
        self.drawn.append(b"\n%b << /MCID %d >> BDC\n%b\nEMC" % (role.encode(), self._count, operators))
        self._count += 1
        return self._count - 1


def in_reading_order(
    drawn: bytes, faces: Mapping[str, Face], figures: Collection[int]
) -> tuple[bytes, tuple[Read, ...]]:
    """``faces``: the fonts of the page by name. ``figures``: which of its links, counted from 0, mark a figure."""
    page = _Page(faces)
    turn = end = 0
    for piece in _PIECE.finditer(drawn):
        page.artifact(drawn[end : piece.start()])
        end = piece.end()
        if piece["text"] is not None:
            page.text(piece["text"])
            continue
        if turn in figures:
            page.figure(turn)
        turn += 1
    page.artifact(drawn[end:])
    return b"".join([*page.drawn, b"\n"]), tuple(page.read)


def _lines(block: bytes) -> Iterator[tuple[_Line | None, bytes]]:
    """Each place that a block goes to, with what is drawn from there on."""
    starts = [found for found in _PLACE.finditer(block) if found["place"]]
    if not starts or block[: starts[0].start()].strip():
        yield None, block[: starts[0].start()] if starts else block
    ends = [*(found.start() for found in starts[1:]), len(block)]
    for found, end in zip(starts, ends, strict=True):
        line = _Line(float(found["left"]), float(found["down"]), abs(float(found["size"])))
        yield line, block[found.start() : end]
