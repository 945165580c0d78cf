"""What every page around the chapters is made from: the author's words of the book, and the style."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from engraver.book_words import BookWords
from engraver.lilypond.chapter import Looks, page
from engraver.lilypond.notes import Sound
from engraver.lilypond.source import Source
from engraver.lilypond.templates import fill
from engraver.style import Style, Words

# a page that the contents list: the rows of the words for its title and the remark beside it
LISTED = {
    "cautions": ("cautions", "cautions remark"),
    "how-to": ("how to", "how to remark"),
    "key": ("key page", "key remark"),
    "counting": ("counting page", "counting remark"),
    "answers": ("answers", "answers remark"),
    "log": ("practice log", "log remark"),
    "plan": ("practice plan", "practice plan remark"),
    "index": ("index", "index remark"),
    "grades": ("by grade", "grades remark"),
}


@dataclass(frozen=True, slots=True)
class Matter:
    """Makes every source under its name."""

    words: BookWords
    style: Style
    say: Words

    def source(
        self, name: str, book: Mapping[str, Any], *, names: Mapping[Sound, str] | None = None, looks: Looks = ()
    ) -> Source:
        """``names``: of the notes that are shown; ``looks``: of the cells."""
        plain = page(self.style, names or {}, looks)
        return fill(self.style.design, f"{name}.ly.j2", say=self.say, page=plain, book=book)
