"""Python values as LilyPond source. Text never runs: every string that reaches a template comes out quoted.

Rule: a backslash and a double quote are escaped, white space is a space, nothing else in a quoted string is special
to LilyPond's reader (measured with 2.24.3 and 2.25.12).
"""

from __future__ import annotations

import unicodedata
from fractions import Fraction

_DROPPED = {"Cc", "Cs", "Co", "Cn"}
_DIRECTION = set("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


class Source(str):
    """LilyPond source made by this program: goes into a template as it is."""

    __slots__ = ()


def quoted(text: str) -> Source:
    """A LilyPond (and Scheme) string: NFC, white space to spaces, control and direction-override characters dropped."""
    kept = text if text.isascii() and text.isprintable() else _kept(text)  # most texts are plain
    escaped = kept.replace("\\", "\\\\").replace('"', '\\"')
    return Source(f'"{escaped}"')


def _kept(text: str) -> str:
    plain = "".join(" " if char.isspace() else char for char in unicodedata.normalize("NFC", text))
    return "".join(c for c in plain if unicodedata.category(c) not in _DROPPED and c not in _DIRECTION)


def datum(value: object) -> Source:
    """A Scheme datum for the inside of ``'(...)``, or a bare literal: strings quoted, tuples as lists."""
    match value:
        case Source():
            return value
        case str():
            return quoted(value)
        case bool() | None:
            return Source("#t" if value else "#f")
        case Fraction() | int():
            return Source(str(value))
        case float():
            return Source(f"{value:.4f}".rstrip("0").rstrip("."))
        case tuple() | list():
            return Source("(" + " ".join(datum(item) for item in value) + ")")
    raise TypeError(f"{type(value).__name__} has no LilyPond form")


def symbol(name: str) -> Source:
    """A Scheme symbol; only for words of our own."""
    assert name.isascii() and name.replace("-", "").isalnum(), name
    return Source(name)
