"""What a page design says of its grid to those who write music for it: grid.yaml in its folder."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from engraver.style import design_folder, read_shipped


@dataclass(frozen=True, slots=True)
class Grid:
    """Lengths in millimetres. ``sides``: of the page's width that are not the music's; ``cards``: cells in a row of the
    cell key, ``wide_cards`` where they are long. ``text`` and ``labels``: the names of its families of fonts.
    ``cover``: what the title page shows, "squares" or "circle".
    """

    sides: float
    cards: int
    wide_cards: int
    card_gap: float
    text: str
    labels: str
    cover: str


@cache
def grid(design: str) -> Grid:
    said = read_shipped((design_folder(design) / "grid.yaml").read_text("utf-8"))
    names = ("sides", "cards", "wide cards", "card gap", "text font", "label font", "cover")
    return Grid(*(said[name] for name in names))
