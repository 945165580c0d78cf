"""The kinds of single values: a line of text, a number, a word of a closed set, a meter, a note value, bars."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Any

from engraver.definition.keys import Json, Reading, quote
from engraver.definition.source import BIDIRECTIONAL, Node, Scalar
from engraver.errors import meant, nearest
from engraver.rhythm import TUPLETS, VALUE_NAMES, Instrument, Meter, parse_value

SCALAR = ["string", "number", "boolean"]  # what a YAML reader may make of a word


def scalar(node: Node, reading: Reading, wanted: str) -> Scalar:
    if not isinstance(node, Scalar):
        raise reading.reject(node.position, f"{quote(node)} cannot stand here", f"write {wanted}")
    return node


def refuse_unseen(node: Scalar, reading: Reading) -> None:
    """No place in a book: controls, what turns the direction of writing, private and unassigned characters."""
    for index, mark in enumerate(node.text):
        if mark in BIDIRECTIONAL or (unicodedata.category(mark) in ("Cc", "Cs", "Co", "Cn") and mark not in "\n\t"):
            place = node.place(index)
            raise reading.reject(place, f"the character U+{ord(mark):04X} cannot be printed", "take it out")


def refuse_long_words(node: Scalar, reading: Reading, limit: int = 120) -> None:
    for match in re.finditer(r"\S+", node.text):
        if len(match[0]) > limit:
            place = node.place(match.start(), limit)
            raise reading.reject(place, f"this word has {len(match[0])} characters", f"at most {limit} fit on a line")


@dataclass(frozen=True, slots=True)
class Line:
    """One line of printed text: normal form C, single spaces, no unseen characters."""

    limit: int = 200

    def read(self, node: Node, reading: Reading) -> str:
        node = scalar(node, reading, "one line of text")
        refuse_unseen(node, reading)
        refuse_long_words(node, reading)
        text = " ".join(unicodedata.normalize("NFC", node.text).split())
        if not text:
            raise reading.reject(node.position, "this text is empty", "write something, or leave the key out")
        if len(text) > self.limit:
            raise reading.reject(node.position, f"this text has {len(text)} characters", f"at most {self.limit} fit")
        return text

    def json(self) -> Json:
        return {"type": SCALAR, "minLength": 1}


@dataclass(frozen=True, slots=True)
class Whole:
    """A whole number within limits."""

    low: int
    high: int
    what: str = "a whole number"

    def read(self, node: Node, reading: Reading) -> int:
        node = scalar(node, reading, f"{self.what} from {self.low} to {self.high}")
        hint = f"write a whole number from {self.low} to {self.high}"
        if not re.fullmatch(r"[+-]?[0-9]{1,9}", node.text):
            raise reading.reject(node.position, f"{quote(node)} is not {self.what}", hint)
        if not self.low <= (number := int(node.text)) <= self.high:
            raise reading.reject(node.position, f"{number} is not {self.what} that can be used", hint)
        return number

    def json(self) -> Json:
        number = {"type": "integer", "minimum": self.low, "maximum": self.high}
        return {"anyOf": [number, {"type": "string", "pattern": "^[+-]?[0-9]{1,9}$"}]}


@dataclass(frozen=True, slots=True)
class Choice:
    """A word of a closed set."""

    words: Mapping[str, Any]
    what: str
    more: str = ""  # what else can be written there, for the hint

    def read(self, node: Node, reading: Reading) -> Any:
        node = scalar(node, reading, self._usage())
        words = {word.lower(): value for word, value in self.words.items()}
        word = " ".join(node.text.lower().split())
        if word not in words:
            hint = meant(word, words, f"write {self._usage()}{self.more}")
            raise reading.reject(node.position, f"{quote(node)} is not {self.what}", hint)
        return words[word]

    def _usage(self) -> str:
        return " or ".join(self.words)

    def json(self) -> Json:
        return {"enum": list(self.words)}


class YesNo(Choice):
    """True or false; a YAML reader may have made a truth value of it already."""

    def _usage(self) -> str:
        return "yes or no"

    def json(self) -> Json:
        return {"enum": [*self.words, True, False]}


YES_NO = YesNo({"true": True, "false": False, "yes": True, "no": False}, "yes or no")


@dataclass(frozen=True, slots=True)
class Parsed:
    """Words that a function turns into a value or raises ValueError for; ``words``: those that it knows."""

    parse: Callable[[str], Any]
    what: str
    hint: str
    pattern: str = ""
    words: tuple[str, ...] = ()

    def read(self, node: Node, reading: Reading) -> Any:
        node = scalar(node, reading, self.what)
        try:
            return self.parse(node.text)
        except ValueError:
            hint = self._likely(node.text) or self.hint
            raise reading.reject(node.position, f"{quote(node)} is not {self.what}", hint) from None

    def _likely(self, text: str) -> str:
        """What was meant, if each word is only misspelt."""
        meant = " ".join(nearest(word, self.words) or word for word in text.split())
        try:
            self.parse(meant)
        except ValueError:
            return ""
        return f'did you mean "{meant}"?'

    def json(self) -> Json:
        return {"type": "string", "pattern": self.pattern} if self.pattern else {"type": SCALAR}


def _date(text: str) -> date:
    if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text):
        raise ValueError(text)
    return date.fromisoformat(text)


def _language(text: str) -> str:
    """The form of RFC 5646, section 2.1, without its grandfathered and private tags; subtags are not looked up."""
    if not re.fullmatch(r"[A-Za-z]{2,3}(-[A-Za-z]{4})?(-([A-Za-z]{2}|[0-9]{3}))?(-[A-Za-z0-9]{5,8})*", text):
        raise ValueError(text)
    return text


METER = Parsed(Meter.parse, "a meter", "write 4/4, 7/8 or (2+2+3)/8", r"^[0-9(][0-9+ ()]*/ *(1|2|4|8|16|32)$")
SWUNG = Choice({"eighth": Fraction(1, 8), "sixteenth": Fraction(1, 16)}, "a note value that can be swung")
VALUE = Parsed(
    parse_value,
    "a note value",
    "write sixteenth, dotted eighth, eighth triplet ...",
    words=("dotted", *(name for name, _ in VALUE_NAMES), *TUPLETS),
)
DATE = Parsed(_date, "a date", "write year, month and day: 2026-01-31", r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$")
LANGUAGE = Parsed(_language, "a language tag", "write en, de, pt-BR ...", r"^[A-Za-z]{2,3}(-[A-Za-z0-9]+)*$")


@dataclass(frozen=True, slots=True)
class InstrumentName:
    """An instrument of the style's kit, or one of its other names."""

    def read(self, node: Node, reading: Reading) -> Instrument:
        node = scalar(node, reading, "the name of an instrument")
        names = reading.instruments
        word = " ".join(node.text.lower().split())
        if word not in names:
            hint = meant(word, names, "an instrument of your own is added under kit: in style.yaml")
            raise reading.reject(node.position, f"{quote(node)} is not an instrument", hint)
        return names[word]

    def json(self) -> Json:
        return {"type": "string", "minLength": 1}
