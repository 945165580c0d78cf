"""Whether a book can be sold as it is: its definition in, everything that is missing out, each with its place.

Faults of the files are told by `definition`, lost strokes by `proving`; this is what a printed draft can do without.
"""

from __future__ import annotations

from collections.abc import Iterator

from engraver.definition import BookDefinition
from engraver.errors import DefinitionError, Position, Problem


def refuse_unready(book: BookDefinition) -> None:
    """Raises one DefinitionError with all that is missing."""
    if problems := tuple(_missing(book)):
        raise DefinitionError(problems)


def _missing(book: BookDefinition) -> Iterator[Problem]:
    place = Position(book.folder / "book.yaml", 1, 1)
    if not book.rights:
        yield Problem(place, "a book to sell has a rights line", "add rights: © 2026 Your Name. All rights reserved.")
    if not book.licence:
        hint = "add licence: licence.txt, and a text of that name that says what a buyer may do with the book"
        yield Problem(place, "a book to sell has a licence", hint)
    for chapter in book.chapters:
        if not chapter.groove.idea:
            hint = "add origin: The author's own., or whose idea it is and by what right you print it"
            yield Problem(chapter.groove.position, "a groove to sell says whose idea it is", hint)
