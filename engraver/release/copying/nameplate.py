"""The nameplate: what stands at the foot of every page of a buyer's copy.

In: a text. Out: the operators that draw it, and the font for them, which is the same for every buyer: nobody can read
from one copy what letters another one needed. Source Sans covers Latin, Greek and Cyrillic; a text is set sign by
sign, so that scripts which need shaping, and marks that stand alone over a letter, are said to be missing.
"""

from __future__ import annotations

import io
import unicodedata
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from engraver.errors import EngravingError, Problem

SIZE = 7.0  # points
SMALLEST = 5.0
GREY = 0.36
SCRIPTS = ("LATIN", "GREEK", "CYRILLIC")
SIGNS = {*range(0x20, 0x7F), *range(0xA0, 0x100), *range(0x2010, 0x2040), 0x2116}  # 2116 is the numero sign
MARKS = ("Mn", "Mc", "Me")


@dataclass(frozen=True, slots=True)
class NameplateFont:
    """``program`` is the bare CFF font; a glyph's number is its place in it. Lengths in thousandths of the size."""

    program: bytes
    glyphs: Mapping[str, int]
    widths: tuple[int, ...]
    box: tuple[int, int, int, int]
    ascent: int
    descent: int
    cap_height: int

    def unsettable(self, text: str) -> str:
        """The signs of a text that this font does not have, each once."""
        return "".join(dict.fromkeys(sign for sign in text if sign not in self.glyphs))

    def width(self, text: str) -> int:
        return sum(self.widths[self.glyphs[sign]] for sign in text)

    def fits(self, text: str, room: float) -> bool:
        """Whether a text at its smallest is no wider than ``room`` points."""
        return self.width(text) * SMALLEST / 1000 <= room

    def codes(self, text: str) -> str:
        """The text as the hexadecimal string of a PDF: two bytes a glyph."""
        return "".join(f"{self.glyphs[sign]:04X}" for sign in text)


@cache
def nameplate_font(path: Path) -> NameplateFont:
    """The part of an OpenType font with CFF outlines that a nameplate can need."""
    # read only when copies are made: it takes a quarter of a second
    from fontTools.subset import Options, Subsetter
    from fontTools.ttLib import TTFont

    font = TTFont(path, lazy=True)
    options = Options(layout_features=[], hinting=False, notdef_outline=True)
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=list(_wanted(font.getBestCmap())))
    subsetter.subset(font)
    small = io.BytesIO()
    font.save(small, reorderTables=None)
    return _measured(TTFont(small))


def _wanted(codes: Mapping[int, str]) -> Iterator[int]:
    for code in codes:
        sign = chr(code)
        script = unicodedata.name(sign, "").split(" ")[0]
        if (script in SCRIPTS or code in SIGNS) and unicodedata.category(sign) not in MARKS:
            yield code


def _measured(font: "TTFont") -> NameplateFont:  # type: ignore[name-defined]  # noqa: F821, UP037
    thousandth = 1000 / font["head"].unitsPerEm
    names, head = font.getGlyphOrder(), font["head"]
    place = {name: number for number, name in enumerate(names)}
    return NameplateFont(
        program=font.reader["CFF "],
        glyphs={chr(code): place[name] for code, name in font.getBestCmap().items()},
        widths=tuple(round(font["hmtx"][name][0] * thousandth) for name in names),
        box=(head.xMin, head.yMin, head.xMax, head.yMax),
        ascent=font["OS/2"].sTypoAscender,
        descent=font["OS/2"].sTypoDescender,
        cap_height=font["OS/2"].sCapHeight,
    )


def draw(text: str, font: NameplateFont, room: float) -> bytes:
    """Operators for a text that is centred on the origin, smaller than usual if ``room`` (points) asks for it.

    Raises EngravingError if even the smallest size is too wide.
    """
    width = font.width(text) / 1000
    size = min(SIZE, room / width)
    if size < SMALLEST:
        raise EngravingError(Problem(None, f'"{text}" is too long for the foot of a page', "shorten the name"))
    return f"{GREY} g BT /Name {size:.3f} Tf {-size * width / 2:.3f} 0 Td <{font.codes(text)}> Tj ET".encode()
