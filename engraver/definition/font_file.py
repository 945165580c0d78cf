"""A font file of the author's: what it is called, and which characters it has."""

from __future__ import annotations

import logging
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True)
class FontFile:
    """``name``: family and style, as a typesetter asks for the face."""

    name: str
    characters: frozenset[int]


def read_font(path: Path) -> FontFile:
    """Raises ValueError with what is wrong."""
    from fontTools.ttLib import TTFont  # only for fonts of the author's own: it takes a while to load

    try:
        with _without_notes("fontTools"), TTFont(path) as font:
            names, characters = font["name"], frozenset(font.getBestCmap() or ())
            family, style = names.getBestFamilyName(), names.getBestSubFamilyName()
    except Exception:  # damaged bytes fail in any way the reader can
        raise ValueError("is not a font that can be read") from None
    if not family:
        raise ValueError("is a font without a name")
    return FontFile(family if style in (None, "Regular") else f"{family} {style}", characters)


@contextmanager
def _without_notes(library: str) -> Iterator[None]:
    """A damaged font would be told in ten thousand lines of the library's, before it is told in one of ours."""
    log = logging.getLogger(library)
    before = log.level
    log.setLevel(logging.CRITICAL)
    try:
        yield
    finally:
        log.setLevel(before)
