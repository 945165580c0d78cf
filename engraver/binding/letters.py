"""Letters: the text operators of a page in; what they say out, with the spaces between words.

Cairo sets a space as a distance, or as a glyph with its text beside it (ActualText); fonts tell by their ToUnicode maps
what their codes mean. Source: ISO 32000-1, 9.4.3 (operators), 9.10.3 (maps), 14.9.4 (replacement text).
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from engraver.binding.document import Document, Stream
from engraver.binding.syntax import Reference, unescaped

_MUSIC = "Emmentaler"  # LilyPond's font of signs, in which no word is set
_SPACE = -170.0  # thousandths of the size: a move forward by more than this is the space between two words
_HAIR = "\u200a"  # between letterspaced capitals, which are one word

_TOKEN = re.compile(
    rb"\((?P<text>(?:[^()\\]|\\.)*)\)|<(?P<codes>[0-9A-Fa-f\s]*)>(?!>)|(?P<font>/[^\s/]+)\s+[-\d.]+\s+Tf"
    rb"|/Span\s*<<\s*/ActualText\s*<(?P<said>[0-9A-Fa-f]+)>\s*>>\s*BDC|(?P<end>EMC)|(?P<line>Td|TD|T\*)(?!\S)"
    rb"|(?P<move>-?[\d.]+)(?=\s*[\](<])",
    re.S,
)
_CHARACTERS = re.compile(rb"beginbfchar(.*?)endbfchar", re.S)
_RANGES = re.compile(rb"beginbfrange(.*?)endbfrange", re.S)
_HEX = re.compile(rb"<([0-9A-Fa-f]+)>")


@dataclass(frozen=True, slots=True)
class Face:
    """A font of a page: what its codes mean, how many bytes they have, and whether it is one of music."""

    codes: Mapping[int, str]
    width: int
    is_music: bool

    def text(self, raw: bytes) -> str:
        parts = (raw[start : start + self.width] for start in range(0, len(raw), self.width))
        return "".join(self.codes.get(int.from_bytes(part), "") for part in parts)


NO_FACE = Face({}, 1, True)


def faces(document: Document, resources: Any, known: dict[Reference, Face]) -> Mapping[str, Face]:
    """The fonts of a page by name; ``known`` remembers them by their number in the document."""
    fonts = document.value(document.value(resources).get("/Font", {}))
    for font in fonts.values():
        if font not in known:
            known[font] = _face(document, document.value(font))
    return {name: known[font] for name, font in fonts.items()}


def _face(document: Document, font: dict[str, Any]) -> Face:
    mapped = document.value(font.get("/ToUnicode"))
    codes = _codes(mapped.drawn) if isinstance(mapped, Stream) else {}
    return Face(codes, 2 if font.get("/Subtype") == "/Type0" else 1, _MUSIC in str(font.get("/BaseFont", "")))


def _codes(cmap: bytes) -> dict[int, str]:
    codes = {}
    for block in _CHARACTERS.findall(cmap):
        values = _HEX.findall(block)
        codes.update({int(code, 16): _utf_16(text) for code, text in zip(values[::2], values[1::2], strict=True)})
    for block in _RANGES.findall(cmap):
        for first, last, text in zip(*[iter(_HEX.findall(block))] * 3, strict=True):
            start = _utf_16(text)
            for step in range(int(last, 16) - int(first, 16) + 1):
                codes[int(first, 16) + step] = start[:-1] + chr(ord(start[-1]) + step)
    return codes


def _utf_16(digits: bytes) -> str:
    return bytes.fromhex(digits.decode()).decode("utf-16-be", "replace")


def said(operators: bytes, face: Face, of_page: Mapping[str, Face]) -> tuple[str, Face, bool]:
    """What some operators say, the font in force behind them, and whether any of it is more than music."""
    parts: list[str] = []
    words = False
    instead: int | None = None  # where in the parts a replacement stands whose glyphs are still to come
    for token in _TOKEN.finditer(operators):
        kind = token.lastgroup
        if kind == "font":
            face = of_page.get(token["font"].decode("latin-1"), NO_FACE)
        elif kind == "said":
            instead = len(parts)
            parts.append(bytes.fromhex(token["said"].decode()).decode("utf-16"))
        elif kind == "end":
            instead = None
        elif kind in ("text", "codes"):
            words = words or not face.is_music
            if instead is None and not face.is_music:
                parts.append(face.text(_plain(token)))
        elif kind == "line" or float(token["move"]) < _SPACE:
            parts.insert(len(parts) if instead is None else instead, " ")
    return " ".join("".join(parts).replace(_HAIR, "").split()), face, words


def _plain(token: re.Match[bytes]) -> bytes:
    if token.lastgroup == "codes":
        return bytes.fromhex(token["codes"].decode())
    return unescaped(token["text"])
