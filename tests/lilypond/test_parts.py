"""Where a long chapter is parted. In: lines of music, block by block. Out: the blocks that begin a part.

What counts as long is ours; that a part begins where something new does is common practice, no source.
"""

from __future__ import annotations

import random
from itertools import pairwise

import pytest

from engraver.lilypond.parts import LEAST, NEW_PART, PAGE, Block, beginnings, parted
from engraver.lilypond.source import Source


@pytest.mark.parametrize(
    ("blocks", "begin"),
    [
        ([Block(LEAST), Block(LEAST, opens=True)], [1]),
        ([Block(LEAST - 1), Block(1), Block(LEAST, opens=True)], [2]),
        ([Block(LEAST - 1), Block(2 * LEAST, opens=True)], []),  # too little before it
        ([Block(2 * LEAST), Block(LEAST - 1, opens=True)], []),  # too little after it
        ([Block(LEAST), *[Block(PAGE - 1)] * 20], []),  # nothing new begins
        ([Block(LEAST), *[Block(PAGE)] * 12], [1, 6]),  # exercises that fill pages
        ([], []),
    ],
)
def test_a_part_begins_where_something_new_does_and_enough_stands_on_both_sides(
    blocks: list[Block], begin: list[int]
) -> None:
    assert list(beginnings(blocks)) == begin


@pytest.mark.parametrize("seed", range(50))
def test_no_part_is_short_and_a_chapter_of_ordinary_length_is_one(seed: int) -> None:
    chance = random.Random(seed)
    blocks = [Block(chance.choice((1, 2, 4, 8, 16, 32)), chance.random() < 0.3) for _ in range(chance.randrange(2, 40))]
    cuts = [0, *beginnings(blocks), len(blocks)]
    heights = [sum(block.lines for block in blocks[a:b]) for a, b in pairwise(cuts)]
    assert all(blocks[cut].may_begin_a_page for cut in cuts[1:-1])
    assert heights == [sum(heights)] or min(heights) >= LEAST


def test_every_part_begins_with_what_the_text_begins_with() -> None:
    text = Source(f"PROLOGUE\none\n{NEW_PART}\ntwo\n{NEW_PART}\nthree\n")
    assert parted(text, Source("PROLOGUE\n")) == ("PROLOGUE\none\n", "PROLOGUE\ntwo\n", "PROLOGUE\nthree\n")
    assert parted(Source("PROLOGUE\none\n"), Source("PROLOGUE\n")) == ("PROLOGUE\none\n",)
