"""The middle of letters that read the same from both ends, as it stands over the staff: at its exact moment.

That letters are read by their places alone follows from the blocks, which are as long as their cells.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest

from engraver.chapters import Ribbon
from engraver.proof.drawn import Box, Thing
from engraver.proof.overlaps import overlaps
from engraver.style import Style, designs
from tests.engraved.sheets import Case, Sheet, groove

SIXTEENTH = Fraction(1, 16)
THREES = (*(Ribbon(letter, 3 * SIXTEENTH) for letter in "ABA"), Ribbon("", 3 * SIXTEENTH))
HALVES = tuple(Ribbon(letter, 4 * SIXTEENTH) for letter in "ABBA")
STEPS = groove("hi-hat: xxxx xxxx xxxx", "bass drum: x--x --x- -x--", meter="3/4")
BEATS = groove("snare: xxxx xxxx", meter="2/4", bars=2)
IN_A_CELL = Case("in a cell", STEPS, ribbons=THREES, mirrors=(Fraction(9, 32),))
BETWEEN = Case("between", STEPS, ribbons=tuple(Ribbon(x, 3 * SIXTEENTH) for x in "ABBA"), mirrors=(6 * SIXTEENTH,))
AT_A_BAR_LINE = Case("at a bar line", BEATS, ribbons=HALVES, mirrors=(8 * SIXTEENTH,))
CASES = [
    replace(
        case, name=f"{case.name}, {design}{'' if colours else ', grey'}", style=Style(design=design, colours=colours)
    )
    for design in designs()
    for colours in (True, False)
    for case in (IN_A_CELL, BETWEEN, AT_A_BAR_LINE)
]

Sheets = Mapping[str, Sheet]


@pytest.fixture(scope="module")
def sheets(engraved: Callable[[Sequence[Case]], Sheets]) -> Sheets:
    return engraved(CASES)


def middle(box: Box) -> float:
    return (box.left + box.right) / 2


def blocks(sheet: Sheet) -> list[Thing]:
    return sorted(sheet.of("TextSpanner"), key=lambda block: block.bounds[0] or 0)


def signs(block: Thing, plain: float) -> list[Box]:
    """What of a block stands higher than a block without a sign."""
    return [box for box in block.boxes if box.bottom > plain]


def axis(sheet: Sheet) -> tuple[Fraction | None, float]:
    """The beginning of the cell that carries the sign, and where the sign's line stands; there is one."""
    top = min(block.box.top for block in blocks(sheet))
    ((block, found),) = [(b, signs(b, top)) for b in blocks(sheet) if signs(b, top)]
    left, line, right = sorted(found, key=middle)
    assert middle(line) - middle(left) == pytest.approx(middle(right) - middle(line), abs=0.01)
    return block.bounds[0], middle(line)


def heads(sheet: Sheet) -> dict[Fraction | None, float]:
    """By moment, the left edge of what stands there."""
    return {head.moment: head.box.left for head in sheet.of("NoteHead")}


@pytest.mark.parametrize("name", [case.name for case in CASES if case.name.startswith("in a cell")])
def test_in_the_middle_of_a_cell_it_stands_halfway_between_its_steps(name: str, sheets: Sheets) -> None:
    """The moment 9/32 is halfway from the fourth sixteenth to the seventh, and steps are evenly spaced."""
    begins, place = axis(sheets[name])
    at = heads(sheets[name])
    assert begins == 3 * SIXTEENTH
    # blocks are drawn half a space before their notes
    assert place == pytest.approx((at[3 * SIXTEENTH] + at[6 * SIXTEENTH]) / 2 - 0.5, abs=0.2)


@pytest.mark.parametrize("name", [case.name for case in CASES if case.name.startswith("between")])
def test_between_two_cells_it_stands_in_the_gap_of_their_blocks(name: str, sheets: Sheets) -> None:
    begins, place = axis(sheets[name])
    found = blocks(sheets[name])
    before, after = next((a, b) for a, b in pairwise(found) if b.bounds[0] == begins)
    level = min(block.box.top for block in found)
    edges = max(box.right for box in before.boxes), min(box.left for box in after.boxes if box.bottom <= level)
    assert begins == 6 * SIXTEENTH
    assert edges[0] < place < edges[1]


@pytest.mark.parametrize("name", [case.name for case in CASES if case.name.startswith("at a bar line")])
def test_where_a_bar_line_parts_the_cells_it_stands_over_the_bar_line(name: str, sheets: Sheets) -> None:
    begins, place = axis(sheets[name])
    bar = next(line for line in sheets[name].of("BarLine") if line.moment == 8 * SIXTEENTH)
    assert begins == 8 * SIXTEENTH
    assert place == pytest.approx(middle(bar.box), abs=0.05)


@pytest.mark.parametrize("name", [case.name for case in CASES])
def test_it_lies_on_nothing(name: str, sheets: Sheets) -> None:
    assert [*map(str, overlaps(sheets[name].things))] == []


def test_without_a_mirror_there_is_no_sign(engraved: Callable[[Sequence[Case]], Sheets]) -> None:
    sheet = engraved([replace(IN_A_CELL, mirrors=())])[IN_A_CELL.name]
    tops = {round(block.box.top, 2) for block in blocks(sheet)}
    assert len(tops) == 1
