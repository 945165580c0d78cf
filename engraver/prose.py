"""An author's words with emphasis: paragraphs and lists of runs. Values only; `definition` reads them."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Weight(Enum):
    PLAIN = "plain"
    EMPHASIS = "emphasis"
    STRONG = "strong"


@dataclass(frozen=True, slots=True)
class Run:
    """Words of one weight; white space within is single spaces."""

    text: str
    weight: Weight = Weight.PLAIN


@dataclass(frozen=True, slots=True)
class Block:
    """A paragraph, or one entry of a list: ``mark`` is then "•" or "1." and the like."""

    runs: tuple[Run, ...]
    mark: str = ""

    @property
    def text(self) -> str:
        return "".join(run.text for run in self.runs)


Prose = tuple[Block, ...]


def plain(text: str) -> Prose:
    """A paragraph without emphasis; nothing for no text."""
    return (Block((Run(text),)),) if text else ()
