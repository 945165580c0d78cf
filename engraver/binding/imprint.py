"""The imprint: what the finished file says of itself.

In: title, author, language and the book's date. Out: the document information and the XMP packet, which agree.
Sources: ISO 32000-1:2008, 14.3 and 7.9.4 (dates); ISO 16684-1 (XMP). No clock is read: a book made twice is one book.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from html import escape

PRODUCER = "Engraver"
_PACKET = """<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/">
<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/"
 xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmlns:pdfx="http://ns.adobe.com/pdfx/1.3/">
{properties}
</rdf:Description>
</rdf:RDF>
</x:xmpmeta>
<?xpacket end="r"?>"""


@dataclass(frozen=True, slots=True)
class Imprint:
    """``language`` is a BCP 47 tag such as "en"; ``date`` the one the author gave the book.

    ``extras`` are entries of our own beside the standard ones, each a name without spaces and a text.
    """

    title: str
    author: str
    language: str
    date: date
    subject: str = ""
    keywords: tuple[str, ...] = ()
    extras: tuple[tuple[str, str], ...] = ()


def information(imprint: Imprint) -> dict[str, str]:
    """The entries of the document information."""
    moment = imprint.date.strftime("D:%Y%m%d000000Z")
    fields = {
        "/Title": imprint.title,
        "/Author": imprint.author,
        "/Subject": imprint.subject,
        "/Keywords": ", ".join(imprint.keywords),
        "/Creator": PRODUCER,
        "/Producer": PRODUCER,
        "/CreationDate": moment,
        "/ModDate": moment,
        **{f"/{name}": text for name, text in imprint.extras},
    }
    return {name: plain(text) for name, text in fields.items() if plain(text)}


def packet(imprint: Imprint) -> bytes:
    """The XMP packet."""
    return _PACKET.format(properties="\n".join(_properties(imprint))).encode()


def _properties(imprint: Imprint) -> Iterable[str]:
    moment = f"{imprint.date.isoformat()}T00:00:00Z"
    yield from _listed("dc:title", "Alt", [imprint.title], ' xml:lang="x-default"')
    yield from _listed("dc:creator", "Seq", [imprint.author])
    yield from _listed("dc:description", "Alt", [imprint.subject], ' xml:lang="x-default"')
    yield from _listed("dc:language", "Bag", [imprint.language])
    yield from _listed("dc:subject", "Bag", imprint.keywords)
    yield from _simple("pdf:Keywords", ", ".join(imprint.keywords))
    yield from _simple("pdf:Producer", PRODUCER)
    yield from _simple("xmp:CreatorTool", PRODUCER)
    for name in ("xmp:CreateDate", "xmp:ModifyDate", "xmp:MetadataDate"):
        yield from _simple(name, moment)
    for name, text in imprint.extras:  # the usual place for what the document information has of its own
        yield from _simple(f"pdfx:{name}", text)


def _simple(name: str, text: str) -> Iterable[str]:
    if plain(text):
        yield f"<{name}>{escape(plain(text), quote=False)}</{name}>"


def _listed(name: str, container: str, texts: Iterable[str], attributes: str = "") -> Iterable[str]:
    items = "".join(f"<rdf:li{attributes}>{escape(plain(text), quote=False)}</rdf:li>" for text in texts if plain(text))
    if items:
        yield f"<{name}><rdf:{container}>{items}</rdf:{container}></{name}>"


def plain(text: str) -> str:
    """One line without control signs or lone surrogates, which XML cannot hold."""
    kept = (sign for sign in text if sign.isprintable() or sign.isspace())
    return " ".join("".join(kept).split())
