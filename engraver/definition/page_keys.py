"""What style.yaml says of the page: paper and margins in millimetres, and the size of the staff."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from engraver.definition.keys import ByShape, Json, Reading, Record, Written, key, quote
from engraver.definition.kinds import Choice, scalar
from engraver.definition.source import Node
from engraver.errors import Position, Problem
from engraver.style import PAPERS, Margins, Paper

WIDTHS, HEIGHTS = (170.0, 330.0), (230.0, 480.0)  # what the page designs can fill, in mm
MOST_MARGIN = 40.0


@dataclass(frozen=True, slots=True)
class Decimal:
    """A number with or without a decimal point, within limits, in a unit that may stand behind it."""

    low: float
    high: float
    what: str
    unit: str

    def read(self, node: Node, reading: Reading) -> float:
        node = scalar(node, reading, self._usage())
        match = re.fullmatch(rf"([0-9]{{1,4}}(\.[0-9]{{1,4}})?)( *{self.unit})?", node.text)
        if not match or not self.low <= float(match[1]) <= self.high:
            raise reading.reject(node.position, f"{quote(node)} is not {self.what}", f"write {self._usage()}")
        return float(match[1])

    def _usage(self) -> str:
        return f"{self.low:g} to {self.high:g}"

    def json(self) -> Json:
        number = {"type": "number", "minimum": self.low, "maximum": self.high}
        return {"anyOf": [number, {"type": "string", "pattern": f"^[0-9.]+( *{self.unit})?$"}]}


STAFF_SIZE = Decimal(8, 40, "a staff size", "pt")
TEXT_SIZE = Decimal(80, 150, "a size of the words", "%")
_MARGIN = Decimal(0, MOST_MARGIN, "a margin", "mm")


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperFile(Written):
    width: float = key(Decimal(*WIDTHS, "a width of paper", "mm"), "its width in millimetres")
    height: float = key(Decimal(*HEIGHTS, "a height of paper", "mm"), "its height in millimetres")
    noun: ClassVar[str] = "paper"


@dataclass(frozen=True, slots=True, kw_only=True)
class MarginsFile(Written):
    top: float = key(_MARGIN, "added above", 0.0)
    bottom: float = key(_MARGIN, "added below", 0.0)
    inner: float = key(_MARGIN, "added at the spine: left of right-hand pages, right of left-hand ones", 0.0)
    outer: float = key(_MARGIN, "added at the other side", 0.0)
    noun: ClassVar[str] = "set of margins"


PAPER = ByShape(scalar=Choice({name: name for name in PAPERS}, "a paper"), entries=Record(PaperFile))
MARGINS = Record(MarginsFile)


def paper_of(written: str | PaperFile) -> Paper:
    if isinstance(written, str):
        return PAPERS[written]
    return Paper(f"{written.width:g} x {written.height:g} mm", written.width, written.height)


def margins_of(written: MarginsFile | None) -> Margins:
    if written is None:
        return Margins()
    return Margins(written.top, written.bottom, written.inner, written.outer)


def margin_faults(paper: Paper, margins: Margins, place: Position) -> Iterator[Problem]:
    """Margins that leave too little of the paper."""
    left = margins.within(paper)
    for side, rest, least in (("wide", left.width, WIDTHS[0]), ("high", left.height, HEIGHTS[0])):
        if rest < least:
            message = f"these margins leave {rest:g} mm of {paper.name}"
            yield Problem(place, message, f"the pages need {least:g} mm at least, {side}")
