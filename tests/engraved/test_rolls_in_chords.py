"""Whose roll it is where hands strike two things at once: the sign stands between its own head and the next.

Buzz rolls only: a double under another stroke is written out as its two strokes.

That a reader takes a sign next to a head as that head's is common practice, no source; the handbooks read here are
silent on chords.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction

import pytest

from engraver.proof.overlaps import overlaps
from tests.engraved.sheets import Case, Sheet, groove


def strike(*lanes: str) -> str:
    return groove(*lanes, meter="1/4", step="quarter")


CASES = [
    Case("snare under the hi-hat", strike("hi-hat: x", "snare: z")),
    Case("snare under the crash", strike("crash: X", "snare: z")),
    Case("both", strike("hi-hat: z", "snare: z")),
    Case("the upper one", strike("hi-hat: z", "snare: x")),
    Case("no room", strike("ride: x", "snare: z")),
    Case("alone", strike("snare: z")),
]
Sheets = Mapping[str, Sheet]


@pytest.fixture(scope="module")
def sheets(engraved: Callable[[Sequence[Case]], Sheets]) -> Sheets:
    return engraved(CASES)


def heights(sheet: Sheet) -> tuple[float, tuple[float, ...]]:
    """Middle of the sign, and of the heads from the lowest up."""
    (sign,) = sheet.of("StemTremolo")
    middle = (sign.box.bottom + sign.box.top) / 2
    return middle, tuple(sorted((head.box.bottom + head.box.top) / 2 for head in sheet.of("NoteHead")))


@pytest.mark.parametrize("name", ["snare under the hi-hat", "snare under the crash"])
def test_the_sign_of_the_lower_head_stands_between_the_two(name: str, sheets: Sheets) -> None:
    sign, (low, high) = heights(sheets[name])
    assert sign == pytest.approx((low + high) / 2, abs=0.15)


@pytest.mark.parametrize("name", ["both", "the upper one", "alone"])
def test_else_it_stands_on_the_free_stem(name: str, sheets: Sheets) -> None:
    sign, heads = heights(sheets[name])
    assert sign > max(heads) + 0.5


def test_where_heads_are_too_close_it_stands_on_the_free_stem(sheets: Sheets) -> None:
    """Ride and snare drum stand a space and a half apart: a sign between them would lie on both."""
    sign, heads = heights(sheets["no room"])
    assert sign > max(heads) + 0.5


@pytest.mark.parametrize("name", [case.name for case in CASES])
def test_it_lies_on_nothing_and_is_read_back(name: str, sheets: Sheets) -> None:
    assert [*map(str, overlaps(sheets[name].things))] == []
    (column,) = (each for each in sheets[name].ink if each.onset == Fraction(0))
    assert column.signs - {"accent"} == {"buzz"}
