"""The fonts that style.yaml names: a family that is shipped, or files beside the book. Faults have their place."""

# ruff: noqa: RUF009 - `key` returns a dataclass field, as dataclasses.field does

from __future__ import annotations

import hashlib
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from typing import ClassVar

from engraver.definition.font_file import read_font
from engraver.definition.keys import ByShape, Json, Reading, Record, Written, key, quote
from engraver.definition.kinds import Choice, scalar
from engraver.definition.source import Node
from engraver.style import FAMILIES, Face, Family, Fonts

# what every page may need: letters and figures, and the signs that stand in the words of the program
NEEDED = frozenset(map(ord, "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789.,:;?!()&×·–’“”"))


@dataclass(frozen=True, slots=True)
class _FontPath:
    """A font file in the book's folder."""

    def read(self, node: Node, reading: Reading) -> Face:
        node = scalar(node, reading, "the name of a font file")
        path = self._place(node.text, node.position.path.parent)
        if path is None:
            hint = "write its name as seen from the book's folder: fonts/name.otf"
            raise reading.reject(node.position, f"{quote(node)} is not a font file in the book's folder", hint)
        try:
            font = read_font(path)
        except ValueError as error:
            raise reading.reject(node.position, f"{quote(node)} {error}", "take a .otf or .ttf file") from None
        if missing := sorted(NEEDED - font.characters):
            message = f"{quote(node)} has no “{chr(missing[0])}”, which pages need"
            raise reading.reject(node.position, message, "take a font that has all letters and figures of the book")
        content = hashlib.sha256(path.read_bytes()).hexdigest()
        return Face(font.name, f"{content[:16]}{path.suffix.lower()}", path)

    @staticmethod
    def _place(name: str, folder: Path) -> Path | None:
        pure = PurePosixPath(name)
        if not name.isprintable() or pure.is_absolute() or ".." in pure.parts:
            return None
        path = folder / pure
        with suppress(OSError):  # a name that no file can have
            return path if path.is_file() and path.suffix.lower() in (".otf", ".ttf") else None
        return None

    def json(self) -> Json:
        return {"type": "string", "pattern": r"\.(otf|ttf|OTF|TTF)$"}


@dataclass(frozen=True, slots=True, kw_only=True)
class FamilyFile(Written):
    regular: Face = key(_FontPath(), "the font file of plain words")
    italic: Face | None = key(_FontPath(), "that of emphasis", None)
    semibold: Face | None = key(_FontPath(), "that of headings and strong words", None)
    bold: Face | None = key(_FontPath(), "that of numbers and titles of exercises", None)
    light: Face | None = key(_FontPath(), "that of the largest figures", None)
    noun: ClassVar[str] = "family of fonts"

    @property
    def family(self) -> Family:
        """A face that is left out is the nearest that is there."""
        semibold = self.semibold or self.bold or self.regular
        bold = self.bold or self.semibold or self.regular
        return Family(self.regular, self.italic or self.regular, semibold, bold, self.light or self.regular)


_OWN_FONT = "; one of your own is named by its files: {regular: fonts/name.otf}"
_FAMILY = ByShape(scalar=Choice(FAMILIES, "a family that is shipped", _OWN_FONT), entries=Record(FamilyFile))


@dataclass(frozen=True, slots=True, kw_only=True)
class FontsFile(Written):
    text: Family | FamilyFile | None = key(_FAMILY, "paragraphs: a name, or font files", None)
    labels: Family | FamilyFile | None = key(_FAMILY, "headings, labels, words at the music", None)
    noun: ClassVar[str] = "set of fonts"


FONTS = Record(FontsFile)


def fonts_of(written: FontsFile | None) -> Fonts:
    return Fonts(_family(written.text), _family(written.labels)) if written else Fonts()


def _family(written: Family | FamilyFile | None) -> Family | None:
    return written.family if isinstance(written, FamilyFile) else written
