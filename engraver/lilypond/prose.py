"""Words with emphasis as lists that the templates set: a block is (mark words), a word "plain" or (em "word")."""

from __future__ import annotations

from engraver.lilypond.source import symbol
from engraver.prose import Block, Prose, Weight

Word = str | tuple[object, ...]
_TAGS = {Weight.EMPHASIS: "em", Weight.STRONG: "strong"}


def blocks(prose: Prose) -> tuple[tuple[str, tuple[Word, ...]], ...]:
    return tuple((block.mark, words(block)) for block in prose)


def words(block: Block) -> tuple[Word, ...]:
    """Runs meet inside a word now and then (``*five*.``): pieces without a space between them stay one word."""
    pieces: list[list[tuple[str, Weight]]] = [[]]
    for run in block.runs:
        for index, part in enumerate(run.text.split(" ")):
            if index:
                pieces.append([])
            if part:
                pieces[-1].append((part, run.weight))
    return tuple(_word(piece) for piece in pieces if piece)


def _word(pieces: list[tuple[str, Weight]]) -> Word:
    tagged = tuple(text if weight is Weight.PLAIN else (symbol(_TAGS[weight]), text) for text, weight in pieces)
    return tagged[0] if len(tagged) == 1 else (symbol("joined"), *tagged)


def all_words(prose: Prose) -> tuple[Word, ...]:
    """A text of one paragraph, such as an exercise's sentence."""
    return tuple(word for block in prose for word in words(block))
