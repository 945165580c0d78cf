"""The faces of the words: two families, one for reading and one for labels, each in the styles that a page needs."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True)
class Face:
    """One style of a family as the typesetter asks for it. ``file`` is a font of the author's own, None if shipped."""

    name: str
    file: Path | None = None


@dataclass(frozen=True, slots=True)
class Family:
    """``strong`` stands for headings and strong words, ``light`` for large figures."""

    name: str
    regular: Face
    italic: Face
    semibold: Face
    bold: Face
    light: Face

    @property
    def files(self) -> tuple[Path, ...]:
        """The author's own font files in it, each once."""
        faces = (self.regular, self.italic, self.semibold, self.bold, self.light)
        return tuple(dict.fromkeys(face.file for face in faces if face.file))


def _shipped(name: str) -> Family:
    return Family(name, Face(name), *(Face(f"{name} {style}") for style in ("Italic", "Semibold", "Bold", "Light")))


SERIF = _shipped("Source Serif Pro")
SANS = _shipped("Source Sans Pro")
FAMILIES = {family.name: family for family in (SERIF, SANS)}


@dataclass(frozen=True, slots=True)
class Fonts:
    """``text`` for paragraphs, ``labels`` for headings, labels and all that stands at the music."""

    text: Family = SERIF
    labels: Family = SANS

    @property
    def files(self) -> tuple[Path, ...]:
        return tuple(dict.fromkeys((*self.text.files, *self.labels.files)))
