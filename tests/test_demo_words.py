"""What the demo book says of its grooves is true of their notes: each claim beside the sentence that makes it."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from engraver import definition
from engraver.rhythm import Groove, Instrument, Ornament

BOOK = Path(__file__).parents[1] / "book"
CHAPTERS = {each.name: each.groove for each in definition.read(BOOK).chapters}


def steps(groove: Groove, name: str, bar: int | None = None) -> list[int]:
    """The steps, from 1, on which an instrument is struck: in a bar counted from 1, or from the start of bar 1."""
    bars = groove.bars[1:] if groove.pickup else groove.bars
    span = bars[bar - 1].span if bar else None
    start = span.start if span else groove.pickup
    inside = [s.onset for s in groove.strokes if s.instrument == Instrument(name) and (not span or s.onset in span)]
    return [int((onset - start) // groove.step) + 1 for onset in inside]


def ghosts(groove: Groove, bar: int) -> int:
    bars = groove.bars[1:] if groove.pickup else groove.bars
    return sum(stroke.is_ghost and stroke.onset in bars[bar - 1].span for stroke in groove.strokes)


def ornaments(groove: Groove, kind: Ornament) -> list[int]:
    return [int(s.onset / groove.step) + 1 for s in groove.strokes if s.ornament is kind]


def left_over(groove: Groove, cell: int) -> tuple[int, int]:
    whole, rest = divmod(groove.phrase / groove.step, cell)
    return int(whole), int(rest)


def bars_that_begin_with_a_cell(groove: Groove, cell: int) -> list[int]:
    starts = [bar.start / groove.step for bar in groove.bars]
    return [number for number, start in enumerate(starts, 1) if start % cell == 0]


CLAIMS: list[tuple[str, str, Callable[[Groove], bool]]] = [
    ("porch-light", "bar 1 and bar 3 are the same", lambda g: steps(g, "bass drum", 1) == steps(g, "bass drum", 3)),
    (
        "porch-light",
        "bar 2 adds a stroke on the and of 2",
        lambda g: set(steps(g, "bass drum", 2)) - set(steps(g, "bass drum", 1)) == {4},
    ),
    (
        "porch-light",
        "bar 4 adds one on the and of 1",
        lambda g: set(steps(g, "bass drum", 4)) - set(steps(g, "bass drum", 1)) == {2},
    ),
    (
        "porch-light",
        "the foot closes it half a beat later",
        lambda g: (steps(g, "open hi-hat", 4), steps(g, "foot hi-hat", 4)) == ([7], [8]),
    ),
    (
        "side-gate",
        "After three bars and eight strokes of the foot",
        lambda g: len(g.bars) == 3 and steps(g, "foot hi-hat") == list(range(1, 25, 3)),
    ),
    ("side-gate", "The foot falls on 1, on the and of 2, and on 4.", lambda g: steps(g, "foot hi-hat", 1) == [1, 4, 7]),
    (
        "side-gate",
        "the and of 1, then 3, then the and of 4",
        lambda g: steps(g, "foot hi-hat", 2) == [2, 5, 8],
    ),
    ("side-gate", "Two strokes only, on 2 and on the and of 3.", lambda g: steps(g, "foot hi-hat", 3) == [3, 6]),
    (
        "side-gate",
        "On 1 in bar 1 and on the and of 3 in bar 3.",
        lambda g: set(steps(g, "foot hi-hat")) & set(steps(g, "bass drum")) == {1, 22},
    ),
    (
        "millrace",
        "two in a bar, and in bar 4 only one, before the fill",
        lambda g: [ghosts(g, bar) for bar in (1, 2, 3, 4)] == [2, 2, 2, 1],
    ),
    (
        "millrace",
        "its second stroke waits for the last eighth in bars 1 and 3",
        lambda g: steps(g, "bass drum", 1) == steps(g, "bass drum", 3) == [1, 11],
    ),
    (
        "millrace",
        "comes on the third eighth in bars 2 and 4",
        lambda g: steps(g, "bass drum", 2) == steps(g, "bass drum", 4) == [1, 5],
    ),
    (
        "millrace",
        "the snare drum stands on the second beat, which is counted 4",
        lambda g: all(7 in steps(g, "snare", bar) for bar in (1, 2, 3, 4)),
    ),
    (
        "millrace",
        "Two ghost notes lead in",
        lambda g: [s.is_ghost for s in g.strokes if s.onset < g.pickup] == [True] * 2,
    ),
    ("seven-lamps", "Seven turns of the hi-hat fill the four bars exactly", lambda g: left_over(g, 4) == (7, 0)),
    (
        "seven-lamps",
        "On the fourth eighth, then the first and fifth, the second and sixth, the third and last.",
        lambda g: [steps(g, "open hi-hat", bar) for bar in (1, 2, 3, 4)] == [[4], [1, 5], [2, 6], [3, 7]],
    ),
    (
        "seven-lamps",
        "meets the open hi-hat once, in bar 2",
        lambda g: (
            [
                s.onset // g.bars[0].length
                for s in g.strokes
                if s.is_accent and s.instrument.name == "snare" and int(s.onset * 8) + 1 in steps(g, "open hi-hat")
            ]
            == [1]
        ),
    ),
    ("seven-lamps", "A buzz ends bars 2 and 4.", lambda g: ornaments(g, Ornament.BUZZ) == [14, 28]),
    (
        "harbour-wall",
        "a flam and a drag in bars 1 and 3",
        lambda g: (ornaments(g, Ornament.FLAM), ornaments(g, Ornament.DRAG)) == ([7, 15, 23, 31], [8, 24]),
    ),
    (
        "tin-roof",
        "bass drum and ride together on the first, ride on the third and fifth, bass drum on the fourth",
        lambda g: (
            [sorted({step % 5 for step in steps(g, name) if step <= 45}) for name in ("bass drum", "ride")]
            == [[1, 4], [0, 1, 3]]
        ),
    ),
    (
        "tin-roof",
        "Snare drum and left foot keep 2 and 4.",
        lambda g: steps(g, "foot hi-hat") == list(range(4, 49, 6)) and set(range(4, 49, 6)) <= set(steps(g, "snare")),
    ),
    (
        "tin-roof",
        "Every other cell has a ghost note on its second step.",
        lambda g: [int(s.onset / g.step) for s in g.strokes if s.is_ghost] == [5 * cell + 1 for cell in (1, 3, 5, 7)],
    ),
    ("tin-roof", "Nine cells fit into four bars, and one beat is left over", lambda g: left_over(g, 5) == (9, 3)),
    (
        "tin-roof",
        "the fourth, the fifth, the first, the second, the third",
        lambda g: [(step - 1) % 5 + 1 for step in steps(g, "foot hi-hat")[:5]] == [4, 5, 1, 2, 3],
    ),
    (
        "tin-roof",
        "Snare drum, high tom, floor tom, on the three steps that are left over.",
        lambda g: (steps(g, "snare")[-1:], steps(g, "high tom"), steps(g, "floor tom")) == ([46], [47], [48]),
    ),
    ("rope-ferry", "Twenty-one cells fit into four bars", lambda g: left_over(g, 3) == (21, 1)),
    ("rope-ferry", "on the downbeats of bars 1 and 4", lambda g: bars_that_begin_with_a_cell(g, 3) == [1, 4]),
    (
        "rope-ferry",
        "The left hand fills the second step of four cells, two in bar 2 and two in bar 4.",
        lambda g: (
            {int(s.onset * 16) % 3 for s in g.strokes if s.is_ghost} == {1}
            and [ghosts(g, bar) for bar in (1, 2, 3, 4)] == [0, 2, 0, 2]
        ),
    ),
    (
        "rope-ferry",
        "two strokes of the bass drum in a row lead into the downbeat",
        lambda g: steps(g, "bass drum")[-1] == 64 and steps(g, "bass drum")[0] == 1,
    ),
    (
        "counterweights",
        "No two limbs strike together in the cell",
        lambda g: len({s.onset for s in g.strokes}) == len(g.strokes),
    ),
    ("counterweights", "eight cells, nothing left over", lambda g: left_over(g, 7) == (8, 0)),
    (
        "counterweights",
        "In the third, fourth and eighth cell the second stroke of the hi-hat is a double",
        lambda g: ornaments(g, Ornament.DOUBLE) == [7 * cell + 3 for cell in (2, 3, 7)],
    ),
    (
        "counterweights",
        "It falls on a beat twice: on 2 in bar 1, on 1 in bar 3.",
        lambda g: (
            [
                s.onset
                for s in g.strokes
                if s.instrument.name == "snare" and s.is_accent and s.onset % Fraction(1, 4) == 0
            ]
            == [Fraction(1, 4), Fraction(2)]
        ),
    ),
    (
        "counterweights",
        "The last cell begins on its second sixteenth and fills the rest of it.",
        lambda g: g.bars[3].start / g.step + 1 == 7 * 7 and g.length / g.step == 8 * 7,
    ),
    (
        "five-doors",
        "Twelve cells fit into four bars and four steps are left over",
        lambda g: left_over(g, 5) == (12, 4) and g.phrase == 4,
    ),
    (
        "five-doors",
        "five even strokes into these four steps",
        lambda g: [(t.count, int(t.span.start * 16), int(t.span.length * 16)) for t in g.tuplets] == [(5, 60, 4)],
    ),
    (
        "five-doors",
        "one step behind the right",
        lambda g: [step + 1 for step in steps(g, "bass drum") if 64 < step < 128] == steps(g, "left bass drum"),
    ),
    (
        "five-doors",
        "the fourth step of four cells in each phrase",
        lambda g: [int(s.onset * 16) % 64 % 5 for s in g.strokes if s.is_ghost] == [3] * 8,
    ),
    (
        "five-doors",
        "where the right hand is silent",
        lambda g: (
            not {s.onset for s in g.strokes if s.is_ghost}
            & {s.onset for s in g.strokes if s.instrument.name in ("crash", "ride")}
        ),
    ),
]


def words(name: str) -> str:
    chapter = CHAPTERS[name]
    prose = [chapter.text, *(card.text for card in chapter.listen), *(each.answer for each in chapter.questions)]
    return " ".join(block.text for blocks in prose for block in blocks)


@pytest.mark.parametrize(("name", "sentence", "holds"), CLAIMS)
def test_the_book_says_what_is_true(name: str, sentence: str, holds: Callable[[Groove], bool]) -> None:
    assert sentence in words(name)
    assert holds(definition.to_groove(CHAPTERS[name])), sentence


def test_every_groove_has_a_claim_that_is_checked() -> None:
    assert {name for name, _, _ in CLAIMS} == set(CHAPTERS)
