"""The last page of a sample as LilyPond source: what the whole book holds."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from engraver.lilypond.chapter import page
from engraver.lilypond.prose import blocks
from engraver.lilypond.source import Source
from engraver.lilypond.templates import fill
from engraver.prose import Block, Run, Weight
from engraver.style import Style


@dataclass(frozen=True, slots=True)
class WholeChapter:
    """``shown``: whether the sample has pages of it; ``label``: the number of its first page in the book."""

    title: str
    label: str
    exercises: int
    shown: bool


def closing(style: Style, title: str, shown: int, pages: int, chapters: Sequence[WholeChapter]) -> Source:
    """``shown`` pages are in the sample, ``pages`` in the book."""
    say = style.say
    text = (
        Block((Run(say("sample about", title=title, shown=shown, pages=pages)),)),
        Block((Run(say("sample chapters", n=len(chapters), count=say.number(len(chapters)))),)),
        *_chapters(style, chapters),
    )
    book = {"anchor": "sample:whole", "title": say("sample title"), "text": blocks(text)}
    return fill(style.design, "own.ly.j2", say=say, page=page(style, {}), book=book)


def _chapters(style: Style, chapters: Sequence[WholeChapter]) -> Iterator[Block]:
    for number, chapter in enumerate(chapters, start=1):
        said = style.say("sample chapter", n=chapter.exercises, page=chapter.label)
        here = f" {style.say('sample shown')}" if chapter.shown else ""
        yield Block((Run(chapter.title, Weight.STRONG), Run(f" {said}{here}")), f"{number}.")
