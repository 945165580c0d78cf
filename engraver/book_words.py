"""What a book says of itself in its author's words, on the pages around its chapters and in its files."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True, kw_only=True)
class BookWords:
    """``label`` is a small line over the title, ``edition`` which edition it is, ``language`` a BCP 47 tag.

    What the author left out is empty.
    """

    title: str
    subtitle: str = ""
    label: str = ""
    author: str = ""
    publisher: str = ""
    rights: str = ""
    edition: str = ""
    date: date
    language: str
