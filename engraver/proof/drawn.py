"""Everything that is drawn of the music, as boxes: what `drawn.ily` wrote about each thing on the pages.

Lengths are staff spaces; x counts from the left edge of the system, y upwards from the top of the page.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

INSIDE = 0  # the page of systems that stand within a text, such as the cards of the cell key


@dataclass(frozen=True, slots=True)
class Box:
    left: float
    right: float
    bottom: float
    top: float

    def overlap(self, other: Box) -> tuple[float, float]:
        """How far the two lie over one another, in width and height; negative is the distance between them."""
        return (
            min(self.right, other.right) - max(self.left, other.left),
            min(self.top, other.top) - max(self.bottom, other.bottom),
        )


@dataclass(frozen=True, slots=True)
class Thing:
    """One thing on a page. ``kind`` is LilyPond's name for it, ``line`` the line of the source it comes from, or 0.

    ``moment`` is None for what lasts; ``joined`` are the moments of the stems of a beam; ``bounds`` where a thing that
    lasts begins and ends; ``words`` its glyphs and texts; ``colour`` red, green, blue up to 255, or "".
    """

    page: int
    system: int
    kind: str
    moment: Fraction | None
    line: int
    direction: int
    colour: str
    boxes: tuple[Box, ...]
    words: tuple[str, ...] = ()
    joined: tuple[Fraction, ...] = ()
    bounds: tuple[Fraction | None, Fraction | None] = (None, None)

    @property
    def box(self) -> Box:
        """All of it."""
        return Box(
            min(box.left for box in self.boxes),
            max(box.right for box in self.boxes),
            min(box.bottom for box in self.boxes),
            max(box.top for box in self.boxes),
        )


def things(file: Path) -> tuple[Thing, ...]:
    """In the order of the pages; only what leaves ink."""
    rows = file.read_text("utf-8").split("\n")
    starts = [number for number, row in enumerate(rows) if row.startswith("thing ")]
    read = (_thing(rows[a:b]) for a, b in zip(starts, [*starts[1:], len(rows)], strict=True))
    return tuple(thing for thing in read if thing.boxes)


def _thing(rows: Sequence[str]) -> Thing:
    page, system, kind, moment, line, direction, colour = rows[0].split(" ")[1:]
    joined = next(iter(_rows(rows, "beam")), "")
    bounds = next(iter(_rows(rows, "bounds")), "- -").split(" ")
    return Thing(
        int(page),
        int(system),
        kind,
        _moment(moment),
        int(line),
        int(direction),
        "" if colour == "-" else colour,
        tuple(Box(*map(float, row.split(" "))) for row in _rows(rows, "box")),
        tuple(_rows(rows, "word")),
        tuple(Fraction(word) for word in joined.split(" ") if word not in ("-", "")),
        (_moment(bounds[0]), _moment(bounds[1])),
    )


def _rows(rows: Sequence[str], name: str) -> Iterator[str]:
    return (row.removeprefix(f"{name} ") for row in rows if row.startswith(f"{name} "))


def _moment(word: str) -> Fraction | None:
    return None if word in ("-", "") else Fraction(word)
