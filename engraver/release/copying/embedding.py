"""The nameplate's font as objects of a PDF: a composite font whose codes are the glyphs' numbers, two bytes each.

In: a font of `nameplate`. Out: a reference to it. Source: ISO 32000-1:2008, 9.7 (composite fonts; 9.7.4.2: where a CFF
program is not CID-keyed, a CID is the number of a glyph), 9.8 (descriptors), 9.9 (embedded programs), 9.10.3 (the
character map that text is read back by).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import islice

from pypdf import PdfWriter
from pypdf.generic import (
    ArrayObject,
    DecodedStreamObject,
    DictionaryObject,
    IndirectObject,
    NameObject,
    NumberObject,
    PdfObject,
    TextStringObject,
)

from engraver.release.copying.nameplate import NameplateFont

FONT = "/Name"
_BASE_FONT = "/NAMEPL+SourceSansPro-Regular"  # six capitals and a plus: a subset (9.6.4)
_SYMBOLIC = 4  # flag of 9.8.2: the codes are not those of a standard encoding
_CHUNK = 100  # the most entries of one block of a character map

_MAP = """/CIDInit /ProcSet findresource begin
12 dict begin
begincmap
/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def
/CMapName /Adobe-Identity-UCS def
/CMapType 2 def
1 begincodespacerange
<0000> <FFFF>
endcodespacerange
{blocks}
endcmap
CMapName currentdict /CMap defineresource pop
end
end
"""


def embedded(writer: PdfWriter, font: NameplateFont) -> IndirectObject:
    """Add the font to a document."""
    descriptor = _named(
        Type="/FontDescriptor",
        FontName=_BASE_FONT,
        Flags=_SYMBOLIC,
        FontBBox=ArrayObject(map(NumberObject, font.box)),
        ItalicAngle=0,
        Ascent=font.ascent,
        Descent=font.descent,
        CapHeight=font.cap_height,
        StemV=84,  # of the regular weight; only a reader that substitutes the font would use it
        FontFile3=_compressed(writer, font.program, Subtype="/CIDFontType0C"),
    )
    system = DictionaryObject(
        {
            NameObject("/Registry"): TextStringObject("Adobe"),
            NameObject("/Ordering"): TextStringObject("Identity"),
            NameObject("/Supplement"): NumberObject(0),
        }
    )
    descendant = _named(
        Type="/Font",
        Subtype="/CIDFontType0",
        BaseFont=_BASE_FONT,
        CIDSystemInfo=system,
        FontDescriptor=writer._add_object(descriptor),
        W=ArrayObject([NumberObject(0), ArrayObject(map(NumberObject, font.widths))]),
    )
    face = _named(
        Type="/Font",
        Subtype="/Type0",
        BaseFont=_BASE_FONT,
        Encoding="/Identity-H",
        DescendantFonts=ArrayObject([writer._add_object(descendant)]),
        ToUnicode=_compressed(writer, _character_map(font.glyphs)),
    )
    return writer._add_object(face)


def _named(**entries: str | int | PdfObject) -> DictionaryObject:
    """A dictionary; texts are names, whole numbers numbers."""
    return DictionaryObject({NameObject(f"/{key}"): _value(value) for key, value in entries.items()})


def _value(value: str | int | PdfObject) -> PdfObject:
    if isinstance(value, PdfObject):
        return value
    return NameObject(value) if isinstance(value, str) else NumberObject(value)


def _compressed(writer: PdfWriter, content: bytes, **entries: str) -> IndirectObject:
    plain = DecodedStreamObject()
    plain.set_data(content)
    packed = plain.flate_encode()
    packed.update(_named(**entries))
    return writer._add_object(packed)


def _character_map(glyphs: Mapping[str, int]) -> bytes:
    # a glyph that several signs share is read as the first of them
    signs = {glyph: sign for sign, glyph in sorted(glyphs.items(), reverse=True)}
    blocks = []
    for block in _in_chunks(sorted(signs.items())):
        lines = (f"<{glyph:04X}> <{sign.encode('utf-16-be').hex().upper()}>" for glyph, sign in block)
        blocks.append("\n".join([f"{len(block)} beginbfchar", *lines, "endbfchar"]))
    return _MAP.format(blocks="\n".join(blocks)).encode()


def _in_chunks(entries: Sequence[tuple[int, str]]) -> Iterator[list[tuple[int, str]]]:
    rest = iter(entries)
    while chunk := list(islice(rest, _CHUNK)):
        yield chunk
