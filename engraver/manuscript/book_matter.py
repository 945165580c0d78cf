"""The text of a page around the chapters: what it asks for and what the chapters tell in, LilyPond source out."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from engraver import lilypond
from engraver.book_words import BookWords
from engraver.lilypond import Matter, Source
from engraver.manuscript.book_pages import AroundPage, Asked
from engraver.style import Style

Values = Mapping[str, Mapping[str, Any]]  # what chapters tell, by chapter and kind


def page_text(page: AroundPage, words: BookWords, style: Style, told: Values) -> Source:
    write: Callable[..., Source] = getattr(lilypond, page.verb)
    values = [_values(asked, told) for asked in page.asked]
    numbers = () if page.labels is None else (page.labels,)
    return write(Matter(words, style, style.say), *values, *page.more, *numbers)


def _values(asked: Asked, told: Values) -> tuple[Any, ...]:
    """In order; chapters that have nothing to tell are passed over."""
    return tuple(told[name][asked.kind] for name in asked.of if asked.kind in told.get(name, {}))
