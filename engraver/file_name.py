"""Names of files: any text goes in, a name that is safe on every file system comes out."""

from __future__ import annotations

import re
import unicodedata
from zlib import crc32

LONGEST = 60  # characters of a slug
# Latin letters that Unicode does not take apart into a plain one and its mark; how they are spelled is common practice
WHOLE = str.maketrans({"ß": "ss", "æ": "ae", "œ": "oe", "ø": "o", "đ": "d", "ð": "d", "þ": "th", "ł": "l", "ı": "i"})


def slug(title: str) -> str:
    """Small letters, figures and hyphens; where none is left, a number that tells such titles apart."""
    return plain_name(title) or f"untitled-{crc32(title.encode('utf-8', 'surrogatepass')):08x}"


def plain_name(title: str) -> str:
    """What a title has of small letters, figures and hyphens; it may be nothing."""
    letters = title.lower().translate(WHOLE)
    plain = unicodedata.normalize("NFKD", letters).encode("ascii", "ignore").decode("ascii")
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:LONGEST].strip("-")
