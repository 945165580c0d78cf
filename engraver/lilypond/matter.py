"""What the pages around the chapters are made from: the author's words of the book, and every chapter's plan."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from engraver.book_words import BookWords
from engraver.chapters import ChapterPlan
from engraver.lilypond.chapter import page
from engraver.lilypond.source import Source
from engraver.lilypond.templates import fill
from engraver.prose import Prose
from engraver.style import Style, Words


@dataclass(frozen=True, slots=True)
class Part:
    """``first``: the name of the chapter that it begins with."""

    anchor: str
    title: str
    text: Prose
    first: str


@dataclass(frozen=True, slots=True)
class Matter:
    """The pages around the chapters: every source under its name."""

    words: BookWords
    plans: tuple[ChapterPlan, ...]
    cover: ChapterPlan
    style: Style
    say: Words
    parts: tuple[Part, ...] = ()

    def source(self, name: str, book: Mapping[str, Any], **more: Any) -> Source:
        plain = page(self.style, more.pop("names", {}), more.pop("looks", ()))
        return fill(self.style.design, f"{name}.ly.j2", say=self.say, page=plain, book=book)
