"""A font file of the author's: what it is called, and which characters it has."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True)
class FontFile:
    """``name``: family and style, as a typesetter asks for the face."""

    name: str
    characters: frozenset[int]


def read_font(path: Path) -> FontFile:
    """Raises ValueError with what is wrong."""
    from fontTools.ttLib import TTFont, TTLibError  # only for fonts of the author's own: it takes a while to load

    try:
        with TTFont(path) as font:
            names, characters = font["name"], frozenset(font.getBestCmap() or ())
            family, style = names.getBestFamilyName(), names.getBestSubFamilyName()
    except (TTLibError, KeyError, OSError, ValueError, AssertionError):
        raise ValueError("is not a font that can be read") from None
    if not family:
        raise ValueError("is a font without a name")
    return FontFile(family if style in (None, "Regular") else f"{family} {style}", characters)
