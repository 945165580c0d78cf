"""Page labels: what a page is called in the folio, in references and in the reader's window.

In: a series and a number. Out: the label.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

_ROMAN = (
    *((1000, "m"), (900, "cm"), (500, "d"), (400, "cd"), (100, "c"), (90, "xc"), (50, "l")),
    *((40, "xl"), (10, "x"), (9, "ix"), (5, "v"), (4, "iv"), (1, "i")),
)


class Numbering(Enum):
    """The series a page is counted in; each starts at 1. The value is the PDF's name of the style."""

    ROMAN = "/r"  # front matter: i, ii, iii
    ARABIC = "/D"  # body and back matter: 1, 2, 3
    UNNUMBERED = ""  # a page outside the book, such as the last one of a sample: its label is empty


@dataclass(frozen=True, slots=True)
class Folio:
    """The number of one page in its series."""

    numbering: Numbering
    number: int

    def __str__(self) -> str:
        if self.numbering is Numbering.UNNUMBERED:
            return ""
        return roman(self.number) if self.numbering is Numbering.ROMAN else str(self.number)


def roman(number: int) -> str:
    """A number from 1 in small roman numerals."""
    assert number > 0, "roman numerals begin at i"
    letters = []
    for value, letter in _ROMAN:
        times, number = divmod(number, value)
        letters.append(letter * times)
    return "".join(letters)
