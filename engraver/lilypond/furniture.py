"""Page furniture: heads, folios and all texts that depend on numbering, one sheet for the whole book."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from engraver.lilypond.chapter import page
from engraver.lilypond.source import Source
from engraver.lilypond.templates import fill
from engraver.style import Style, Words

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
    """``head``: chapter and title, or None; ``number``: the chapter number of an opening page.

    ``mark``: what every page of a sample says of itself.
    """

    folio: str
    recto: bool
    head: tuple[str, str] | None
    number: str
    fills: tuple[Filled, ...]
    mark: str = ""


# kind of place: style, wording (None: the bare number), at the right edge?
FILLS: Mapping[str, tuple[str, str | None, bool]] = {
    "entry": ("factA", None, False),
    "chapter-entry": ("exno", None, False),
    "leader": ("fact", None, True),
    "answer-page": ("small", "answers on page", True),
    "question-page": ("small", "answer on page", False),
}


def furniture(style: Style, pages: Iterable[PageFurniture]) -> Source:
    """One sheet with a page for each page of the book."""
    book = {"pages": [_page(worn, style.say) for worn in pages]}
    return fill(style.design, "furniture.ly.j2", say=style.say, page=page(style, {}), book=book)


def _page(worn: PageFurniture, say: Words) -> dict[str, object]:
    return {
        "folio": worn.folio,
        "recto": worn.recto,
        "head": worn.head,
        "number": worn.number,
        "mark": worn.mark,
        "fills": [_fill(spot, say) for spot in worn.fills],
    }


def _fill(spot: Filled, say: Words) -> dict[str, object]:
    style, wording, right = FILLS[spot.kind]
    return {
        "x": (spot.right if right else spot.left) * MM_PER_POINT,
        "y": spot.bottom * MM_PER_POINT,
        "style": style,
        "right": right,
        "text": say(wording, page=spot.label) if wording else spot.label,
    }
