"""An author's text in, `Prose` out: paragraphs and lists with emphasis, of the CommonMark an author may use here."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from engraver.definition.keys import Json, Reading, Rejected
from engraver.definition.kinds import SCALAR, refuse_long_words, refuse_unseen, scalar
from engraver.definition.pattern import MOST_FAULTS
from engraver.definition.source import Node, Scalar
from engraver.prose import Block, Prose, Run, Weight

if TYPE_CHECKING:
    from markdown_it import MarkdownIt
    from markdown_it.token import Token

_REFUSED = {
    "heading_open": "a heading",
    "code_block": "a text set in by four spaces (code)",
    "fence": "a block of code",
    "html_block": "HTML",
    "blockquote_open": "a quotation",
    "hr": "a rule",
    "code_inline": "code",
    "html_inline": "HTML",
    "image": "an image",
    "link_open": "a link",
}
_LISTS = ("bullet_list_open", "ordered_list_open")


@dataclass(frozen=True, slots=True)
class ProseText:
    limit: int = 20_000

    def read(self, node: Node, reading: Reading) -> Prose:
        node = scalar(node, reading, "text")
        if len(node.text) > self.limit:
            raise reading.reject(
                node.position, f"this text has {len(node.text)} characters", f"at most {self.limit} fit"
            )
        refuse_unseen(node, reading)
        refuse_long_words(node, reading)
        tokens = _commonmark().parse(unicodedata.normalize("NFC", node.text))
        before = len(reading.problems)
        for token, line in _with_lines(tokens):
            if len(reading.problems) < before + MOST_FAULTS:
                _refuse(token, line, node, reading)
        if len(reading.problems) > before:
            raise Rejected
        return tuple(_blocks(tokens))

    def json(self) -> Json:
        return {"type": SCALAR}


@cache
def _commonmark() -> MarkdownIt:
    from markdown_it import MarkdownIt  # slow to load, and most builds read few texts anew

    return MarkdownIt("commonmark")


def _with_lines(tokens: list[Token]) -> Iterator[tuple[Token, int]]:
    """Every token, those within a paragraph too, with its line in the text."""
    line = 0
    for token in tokens:
        line = token.map[0] if token.map else line
        yield token, line
        within = line
        for child in token.children or ():
            yield child, within
            within += child.type in ("softbreak", "hardbreak")


def _refuse(token: Token, line: int, node: Scalar, reading: Reading) -> None:
    noun = _REFUSED.get(token.type)
    if token.type in _LISTS and token.level > 0:
        noun = "a list within a list"
    if noun:
        starts = [0, *(index + 1 for index, mark in enumerate(node.text) if mark == "\n")]
        index = starts[min(line, len(starts) - 1)]
        while index < len(node.text) - 1 and node.text[index].isspace():
            index += 1
        end = node.text.find("\n", index)
        width = (len(node.text) if end < 0 else end) - index
        hint = "a text has paragraphs, lists, *emphasis* and **strong emphasis**; put \\ before a sign to print it"
        reading.reject(node.place(index, max(1, width)), f"{noun} cannot stand in a text", hint)


def _blocks(tokens: list[Token]) -> Iterator[Block]:
    mark, number = "", None
    for token in tokens:
        if token.type == "ordered_list_open":
            number = int(token.attrGet("start") or 1)
        elif token.type == "bullet_list_open":
            number = None
        elif token.type == "list_item_open":
            mark = "•" if number is None else f"{number}."
            number = None if number is None else number + 1
        elif token.type == "inline":
            yield Block(tuple(_runs(token.children or [])), mark)
            mark = ""


def _runs(children: list[Token]) -> Iterator[Run]:
    """Neighbouring words of one weight become one run; a break in a line is a space."""
    weights = [Weight.PLAIN]
    text = ""
    for child in children:
        if child.type in ("em_open", "strong_open"):
            if text:
                yield _run(text, weights[-1])
            text = ""
            weights.append(
                Weight.STRONG if child.type == "strong_open" else max(weights[-1], Weight.EMPHASIS, key=_heft)
            )
        elif child.type in ("em_close", "strong_close"):
            if text:
                yield _run(text, weights[-1])
            text = ""
            weights.pop()
        else:
            text += " " if child.type in ("softbreak", "hardbreak") else child.content
    if text:
        yield _run(text, weights[-1])


def _heft(weight: Weight) -> int:
    return (Weight.PLAIN, Weight.EMPHASIS, Weight.STRONG).index(weight)


def _run(text: str, weight: Weight) -> Run:
    """White space is single, but kept at the ends: it parts this run from its neighbours."""
    words = " ".join(text.split())
    return Run(" " * text[:1].isspace() + words + " " * (text[-1:].isspace() and bool(words)), weight)
