"""PDF syntax: the bytes of an object in, plain values out. As much of ISO 32000-1, 7.3 as engraved pages hold.

Names become text with their slash, strings bytes, numbers int or float, references `Reference`.
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
            return _ESCAPE.sub(_unescaped, token["text"])
        case "hex":
            digits = b"".join(token["hex"].split())
            return bytes.fromhex((digits + b"0" * (len(digits) % 2)).decode())
        case _:
            return _WORDS[token["word"]]


def _unescaped(escape: re.Match[bytes]) -> bytes:
    octal, sign = escape.groups()
    return bytes([int(octal, 8) & 255]) if octal else _ESCAPED.get(sign, sign)
