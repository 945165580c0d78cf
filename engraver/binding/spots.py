"""Spots: places that the engraver marked on a page, read from the addresses of its link annotations.

In: a link's address such as ``engraver:anchor/question%201`` and its rectangle. Out: a Spot.
Kinds: ``anchor`` can be pointed to; ``link`` leads to the anchor of its name; ``fill`` says in its name how full its
page is, in thousandths of its room for text and music; ``score`` is a line of the score of its name; anything else is a
place where page furniture prints a text that depends on numbering, which leads to the anchor of its name where there is
one.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from urllib.parse import quote, unquote

SCHEME = "engraver:"
ANCHOR = "anchor"
LINK = "link"
FILL = "fill"
SCORE = "score"

_NO_PLACES = (ANCHOR, LINK, FILL, SCORE)
_MARK = re.compile(r"engraver:(?:(anchor|link|fill|score)|place/([^/]+))/([^/]+)")


@dataclass(frozen=True, slots=True)
class Spot:
    """A marked rectangle. ``page`` counts from 0 in its file; x and y are points from the page's bottom left corner.

    ``page_height`` is that of the page as engraved, which may be a little higher than the paper: binding keeps the
    distance from the top edge, so furniture should measure from there (``top``). ``turn``: which link of its page it
    is, counted from 0 in the order in which they are drawn.
    """

    kind: str
    name: str
    page: int
    x0: float
    y0: float
    x1: float
    y1: float
    page_height: float
    turn: int = 0

    @property
    def top(self) -> float:
        """Points from the top edge of the page down to the rectangle."""
        return self.page_height - self.y1

    @property
    def bottom(self) -> float:
        """Points from the top edge of the page down to the rectangle's lower side."""
        return self.page_height - self.y0

    @property
    def is_anchor(self) -> bool:
        return self.kind == ANCHOR

    @property
    def is_link(self) -> bool:
        return self.kind == LINK

    @property
    def is_fill(self) -> bool:
        return self.kind == FILL

    @property
    def is_score(self) -> bool:
        return self.kind == SCORE

    @property
    def is_place(self) -> bool:
        return self.kind not in _NO_PLACES


def read_mark(address: str) -> tuple[str, str] | None:
    """The kind and name in one of our addresses; None if it is not well formed."""
    match = _MARK.fullmatch(address)
    if match is None:
        return None
    kind, place, name = match.groups()
    place = place and unquote(place)
    return None if place in _NO_PLACES else (kind or place, unquote(name))


def mark(kind: str, name: str) -> str:
    """The address that marks a spot: what a page's source gives its link. The other direction of ``read_mark``."""
    place = "" if kind in _NO_PLACES else "place/"
    return f"{SCHEME}{place}{quote(kind, safe='')}/{quote(name, safe='')}"
