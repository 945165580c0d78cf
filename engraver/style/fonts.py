"""The faces of the words: two families, one for reading and one for labels, each in the styles that a page needs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True)
class Face:
    """One style of a family. ``name`` is what the typesetter asks for, ``file`` the file that has to be there for it.

    ``source``: where a font of the author's own lies; None for one that is shipped.
    """

    name: str
    file: str
    source: Path | None = None


@dataclass(frozen=True, slots=True)
class Family:
    """``semibold`` is for headings and strong words, ``light`` for large figures."""

    regular: Face
    italic: Face
    semibold: Face
    bold: Face
    light: Face

    @property
    def faces(self) -> tuple[Face, ...]:
        return self.regular, self.italic, self.semibold, self.bold, self.light


def _shipped(name: str) -> Family:
    styles = (("", "Regular"), (" Italic", "It"), (" Semibold", "Semibold"), (" Bold", "Bold"), (" Light", "Light"))
    stem = name.replace(" ", "")
    return Family(*(Face(f"{name}{style}", f"{stem}-{short}.otf") for style, short in styles))


# both in packages that come with the program
FAMILIES = {name: _shipped(name) for name in ("Source Serif Pro", "Source Sans Pro")}


@dataclass(frozen=True, slots=True)
class Fonts:
    """``text`` for paragraphs, ``labels`` for headings, labels and the music; None: those of the page design."""

    text: Family | None = None
    labels: Family | None = None

    @property
    def faces(self) -> Iterator[Face]:
        for family in (self.text, self.labels):
            yield from family.faces if family else ()
