"""Page furniture: heads, folios and all texts that depend on numbering, one sheet for the whole book."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from engraver.lilypond.book import Matter
from engraver.lilypond.source import Source
from engraver.style import Words

MM_PER_POINT = 25.4 / 72  # PDF's point


@dataclass(frozen=True, slots=True)
class Filled:
    """A place of an engraved page and the page number that it is filled with. Points, from the page's top left."""

    kind: str
    label: str
    left: float
    right: float
    bottom: float


@dataclass(frozen=True, slots=True)
class PageFurniture:
    """``head``: chapter and title, or None; ``number``: the chapter number of an opening page."""

    folio: str
    recto: bool
    head: tuple[str, str] | None
    number: str
    fills: tuple[Filled, ...]


# kind of place: style, wording (None: the bare number), at the right edge?
FILLS: Mapping[str, tuple[str, str | None, bool]] = {
    "entry": ("factA", None, False),
    "chapter-entry": ("exno", None, False),
    "answer-page": ("small", "answers on page", True),
    "question-page": ("small", "answer on page", False),
}


def furniture(matter: Matter, pages: Iterable[PageFurniture]) -> Source:
    return matter.source("furniture", {"pages": [_page(page, matter.say) for page in pages]})


def _page(page: PageFurniture, say: Words) -> dict[str, object]:
    return {
        "folio": page.folio,
        "recto": page.recto,
        "head": page.head,
        "number": page.number,
        "fills": [_fill(fill, say) for fill in page.fills],
    }


def _fill(fill: Filled, say: Words) -> dict[str, object]:
    style, wording, right = FILLS[fill.kind]
    return {
        "x": (fill.right if right else fill.left) * MM_PER_POINT,
        "y": fill.bottom * MM_PER_POINT,
        "style": style,
        "right": right,
        "text": say(wording, page=fill.label) if wording else fill.label,
    }
