"""Letters: the text operators of a page in; what they say out, with the spaces between words.

Cairo sets a space as a distance, or as a glyph with its text beside it (ActualText); fonts tell by their ToUnicode maps
what their codes mean. Source: ISO 32000-1, 9.4.3 (operators), 9.10.3 (maps), 14.9.4 (replacement text).
"""

from __future__ import annotations

import re
import zlib
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, cast

from pypdf.generic import DictionaryObject

from engraver.binding.graft import Kept, Verbatim

_MUSIC = b"Emmentaler"  # LilyPond's font of signs, in which no word is set
_SPACE = -170.0  # thousandths of the size: a move forward by more than this is the space between two words
_HAIR = "\u200a"  # between letterspaced capitals, which are one word

_TOKEN = re.compile(
    rb"\((?P<text>(?:[^()\\]|\\.)*)\)|<(?P<codes>[0-9A-Fa-f\s]*)>(?!>)|(?P<font>/[^\s/]+)\s+[-\d.]+\s+Tf"
    rb"|/Span\s*<<\s*/ActualText\s*<(?P<said>[0-9A-Fa-f]+)>\s*>>\s*BDC|(?P<end>EMC)|(?P<line>Td|TD|T\*)(?!\S)"
    rb"|(?P<move>-?[\d.]+)(?=\s*[\](<])",
    re.S,
)
_ESCAPE = re.compile(rb"\\(?:([0-7]{1,3})|(\r\n|\r|\n)|(.))", re.S)
_ESCAPED = {b"n": b"\n", b"r": b"\r", b"t": b"\t", b"b": b"\b", b"f": b"\f"}
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


def faces(resources: DictionaryObject, known: dict[int, Face]) -> Mapping[str, Face]:
    """The fonts of a page by name; ``known`` remembers them by their number in the document."""
    held = resources.fonts if isinstance(resources, Kept) else _fonts(resources)
    for name in held:
        number = held.raw_get(name).idnum
        if number not in known:
            known[number] = _face(held.raw_get(name))
    return {name: known[held.raw_get(name).idnum] for name in held}


def _fonts(resources: DictionaryObject) -> DictionaryObject:
    return cast(DictionaryObject, resources.get("/Font", DictionaryObject()).get_object())


def _face(reference: Any) -> Face:
    written = _written(reference.get_object())
    found = re.search(rb"/ToUnicode\s+(\d+)\s", written)
    mapped = reference.pdf.get_object(int(found[1])) if found else None
    codes = _codes(_stream(mapped)) if mapped is not None else {}
    return Face(codes, 2 if b"/Type0" in written else 1, _MUSIC in written)


def _written(font: Any) -> bytes:
    return font.text if isinstance(font, Verbatim) else str(font).encode()


def _stream(held: Any) -> bytes:
    if not isinstance(held, Verbatim):
        return cast(bytes, held.get_data())
    return zlib.decompress(held.stream) if b"/FlateDecode" in held.text else held.stream


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
    return _ESCAPE.sub(_unescaped, token["text"])


def _unescaped(found: re.Match[bytes]) -> bytes:
    octal, line_end, sign = found.groups()
    if octal:
        return bytes([int(octal, 8) & 0xFF])
    return b"" if line_end else _ESCAPED.get(sign, sign)
