"""Chapters that cannot be written: told all together, when the others are made."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TypeVar

from engraver.definition import BookDefinition, ChapterDefinition
from engraver.errors import DefinitionError, NotationError, Problem

Made = TypeVar("Made")


def each_chapter(book: BookDefinition, make: Callable[[ChapterDefinition], Made]) -> Iterator[Made]:
    """What is made of each, as soon as it is there; ``make`` may raise DefinitionError or NotationError.

    At the end raises one NotationError with all that cannot be written, each problem at its groove.
    """
    refused: list[Problem] = []
    for chapter in book.chapters:
        try:
            made = make(chapter)
        except (DefinitionError, NotationError) as error:
            refused += error.placed(chapter.groove.position)
        else:
            yield made
    if refused:
        raise NotationError(refused)
