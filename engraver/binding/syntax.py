"""PDF syntax: the bytes of an object in, plain values out, and back. As much of ISO 32000-1, 7.3 as books hold.

Names are text with their slash, strings bytes, numbers int or float, references `Reference`; what is written already is
`Verbatim`.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

_TOKEN = re.compile(
    rb"""(?:[\0\t\n\f\r\ ]|%[^\r\n]*)*           # white space and comments
    (?: (?P<open><<|\[) | (?P<close>>>|\])
      | (?P<name>/[^\0\t\n\f\r\ ()<>\[\]{}/%]*)
      | (?P<reference>(?P<number>\d+)[ \r\n]+\d+[ \r\n]+R(?![^\0\t\n\f\r\ ()<>\[\]{}/%]))
      | (?P<real>[+-]?(?:\d+\.\d*|\.\d+)) | (?P<integer>[+-]?\d+)
      | \((?P<text>(?:[^()\\]|\\.|\((?:[^()\\]|\\.)*\))*)\)   # parentheses within, one deep
      | <(?P<hex>[0-9A-Fa-f\0\t\n\f\r\ ]*)>
      | (?P<word>true|false|null) )""",
    re.S | re.X,
)
_ESCAPE = re.compile(rb"\\(?:([0-7]{1,3})|(\r\n|.))", re.S)
_ESCAPED = {b"n": b"\n", b"r": b"\r", b"t": b"\t", b"b": b"\b", b"f": b"\f", b"\n": b"", b"\r": b"", b"\r\n": b""}
_WORDS = {b"true": True, b"false": False, b"null": None}


@dataclass(frozen=True, slots=True)
class Reference:
    """To an object of the same file."""

    number: int


class Verbatim(bytes):
    """A value as it is written, not a string."""


def read_value(text: bytes, start: int) -> tuple[Any, int]:
    """The value that begins at ``start``, and where it ends. Raises ValueError where there is none."""
    token = _TOKEN.match(text, start)
    if token is None or token["close"]:
        raise ValueError(f"no value at byte {start}")
    if token["open"] == b"<<":
        return _read_dictionary(text, token.end())
    if token["open"]:
        return _read_array(text, token.end())
    return _simple(token), token.end()


def _read_dictionary(text: bytes, at: int) -> tuple[dict[str, Any], int]:
    entries: dict[str, Any] = {}
    while True:
        token = _TOKEN.match(text, at)
        if token is not None and token["close"] == b">>":
            return entries, token.end()
        if token is None or not token["name"]:
            raise ValueError(f"no name at byte {at}")
        entries[token["name"].decode("latin-1")], at = read_value(text, token.end())


def _read_array(text: bytes, at: int) -> tuple[list[Any], int]:
    items: list[Any] = []
    while True:
        token = _TOKEN.match(text, at)
        if token is not None and token["close"] == b"]":
            return items, token.end()
        item, at = read_value(text, at)
        items.append(item)


def _simple(token: re.Match[bytes]) -> Any:
    match token.lastgroup:
        case "name":
            return token["name"].decode("latin-1")
        case "reference":
            return Reference(int(token["number"]))
        case "real":
            return float(token["real"])
        case "integer":
            return int(token["integer"])
        case "text":
            return unescaped(token["text"])
        case "hex":
            digits = b"".join(token["hex"].split())
            return bytes.fromhex((digits + b"0" * (len(digits) % 2)).decode())
        case _:
            return _WORDS[token["word"]]


def unescaped(text: bytes) -> bytes:
    """What stands between the parentheses of a string, as the bytes that it means (7.3.4.2)."""
    return _ESCAPE.sub(_meant, text)


def _meant(escape: re.Match[bytes]) -> bytes:
    octal, sign = escape.groups()
    return bytes([int(octal, 8) & 255]) if octal else _ESCAPED.get(sign, sign)


# ------------------------------------------------------------------ writing
_PRECISION = 10  # digits behind the point
_SPECIAL = re.compile(rb"[()\\\r\n]")
_LATIN = re.compile(r"[ -~\u00a1-\u00ac\u00ae-\u00ff]*")  # where PDFDocEncoding is Latin-1: ISO 32000-1, Annex D
_BOMS = ("\u00fe\u00ff", "\u00ff\u00fe", "\u00ef\u00bb\u00bf")  # marks of other encodings


def written(value: Any) -> bytes:
    """A value as it stands in a file."""
    match value:
        case Verbatim():
            return value
        case Reference(number):
            return b"%d 0 R" % number
        case dict():
            return b"<< %b >>" % b" ".join(
                b"%b %b" % (name.encode("latin-1"), written(item)) for name, item in value.items()
            )
        case list() | tuple():
            return b"[%b]" % b" ".join(map(written, value))
        case str():
            return value.encode("latin-1")
        case bytes():
            return b"(%b)" % _SPECIAL.sub(_escaped, value)
        case float():
            return f"{value:.{_PRECISION}f}".rstrip("0").rstrip(".").encode()
        case int() if not isinstance(value, bool):
            return b"%d" % value
    return next(word for word, meant in _WORDS.items() if meant is value)


def text_string(text: str) -> bytes:
    """A string that is read by people (7.9.2.2)."""
    if _LATIN.fullmatch(text) and not text.startswith(_BOMS):
        return text.encode("latin-1")
    return b"\xfe\xff" + text.encode("utf-16-be", "surrogatepass")


def _escaped(found: re.Match[bytes]) -> bytes:
    return {b"\r": rb"\r", b"\n": rb"\n"}.get(found[0], b"\\" + found[0])
