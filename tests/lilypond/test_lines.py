"""How bars are put on lines."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest

from engraver.lilypond.lines import BAR_LINE, CLOSE, PREFIX, ROOMY, WIDEST, Crowd, Lines, lines
from engraver.rhythm import Bar, Groove, Layer, Meter, Tempo

A4 = 150.0  # mm of the main column
COUNTS = (1, 2, 3, 4, 5, 7, 8, 12, 16, 33)
METERS = ("2/4", "3/4", "4/4", "7/8", "12/8", "(2+2+3)/8")
STEPS = (Fraction(1, 8), Fraction(1, 12), Fraction(1, 16), Fraction(1, 24))


def bars(meters: list[str], step: Fraction = Fraction(1, 16)) -> Groove:
    made: list[Bar] = []
    for meter in meters:
        made.append(Bar.of(made[-1].span.end if made else Fraction(0), Meter.parse(meter)))
    length = made[-1].span.end
    return Groove("T", tuple(made), (Layer("A", ()),), step, Tempo(Fraction(1, 4), 90), length)


def rows(found: Lines, count: int) -> list[int]:
    """How many bars stand on each line."""
    ends = sorted(found.breaks)
    assert ends[-1] == count - 1
    return [b - a for a, b in pairwise([-1, *ends])]


@pytest.mark.parametrize("roomy", [False, True], ids=["close", "roomy"])
@pytest.mark.parametrize("step", STEPS, ids=str)
@pytest.mark.parametrize("meter", METERS)
def test_a_step_is_never_narrower_than_the_least_nor_runs_a_line_over(meter: str, step: Fraction, roomy: bool) -> None:
    for count in COUNTS:
        groove = bars([meter] * count, step)
        found = lines(groove, A4, roomy=roomy)
        most = max(rows(found, count))
        used = most * (float(groove.bars[0].length / step) * found.step + BAR_LINE)
        assert used <= A4 - PREFIX + 1e-6
        assert found.step >= (ROOMY if roomy else CLOSE) - 1e-6 or most == 1  # one bar may be all that fits


@pytest.mark.parametrize("count", COUNTS)
def test_equal_bars_are_spread_evenly(count: int) -> None:
    """All lines but the last hold the same, the last at most one line's worth less than a full one."""
    found = rows(lines(bars(["4/4"] * count), A4, roomy=False), count)
    assert len({*found[:-1]}) <= 1
    assert 0 < found[-1] <= found[0]


def test_four_bars_are_two_and_two_and_not_three_and_one() -> None:
    groove = bars(["2/4"] * 4)
    # room for three of 8 steps: 13.5 + 3 x (8 x 4.2 + 1) = 117.3 mm, four need 151.9
    assert rows(lines(groove, 120.0, roomy=False), 4) == [2, 2]
    assert rows(lines(groove, 152.0, roomy=False), 4) == [4]


@pytest.mark.parametrize(
    ("meters", "width", "expected"),
    [
        # five cells of three sixteenths to a bar, a cell, and a step left over: the step does not stand alone
        (["15/16"] * 4 + ["3/16", "1/16"], 156.0, [2, 2, 2]),
        # to give a bar would leave the line before the shorter
        (["4/4", "4/4", "2/4"], 150.0, [2, 1]),
        (["9/8", "9/8", "6/8"], 195.0, [2, 1]),
    ],
)
def test_a_short_last_bar_gets_company_from_the_line_before(
    meters: list[str], width: float, expected: list[int]
) -> None:
    assert rows(lines(bars(meters), width, roomy=False), len(meters)) == expected


@pytest.mark.parametrize(("crowded", "expected"), [((3, 3, 3, 3), [2, 2]), ((6, 6, 6, 6), [1, 1, 1, 1])])
def test_a_few_steps_of_a_line_are_given_room_by_the_others_and_many_have_fewer_bars(
    crowded: tuple[int, ...], expected: list[int]
) -> None:
    """Two bars of 16 steps have 67.25 mm each; 13 x 4.2 x 0.93 + 3 x 5 = 65.8, 10 x 4.2 x 0.93 + 6 x 5 = 69.1."""
    found = lines(bars(["4/4"] * 4), A4, roomy=False, crowd=Crowd(crowded, apart=5.0))
    assert rows(found, 4) == expected


def test_a_bar_that_no_line_holds_with_room_for_its_crowd_is_told() -> None:
    """24 steps of 5 mm are 120 mm, and 136.5 stand beside the prefix; 30 are 150."""
    assert not lines(bars(["12/8"]), A4, roomy=False, crowd=Crowd((24,), apart=5.0)).crowded
    assert lines(bars(["15/8"]), A4, roomy=False, crowd=Crowd((30,), apart=5.0)).crowded


def test_a_step_is_never_wider_than_the_widest() -> None:
    found = lines(bars(["2/4"]), A4, roomy=False)
    assert (found.step, found.ragged) == (WIDEST, False)
    assert found.length < A4


def test_the_last_line_may_end_early_if_it_holds_less() -> None:
    assert lines(bars(["4/4"] * 4), A4, roomy=False).ragged is False
    assert lines(bars(["4/4"] * 3), A4, roomy=False).ragged is True


@pytest.mark.parametrize("count", range(1, 40))
def test_a_page_may_end_after_four_lines_and_leaves_no_line_alone(count: int) -> None:
    """Two bars stand on a line; five lines are never parted."""
    found = lines(bars(["4/4"] * count), A4, roomy=False)
    ends = sorted(found.breaks)
    assert found.turns <= found.breaks
    parts = [b - a for a, b in pairwise([-1, *(ends.index(turn) for turn in sorted(found.turns)), len(ends) - 1])]
    assert all(part == 4 for part in parts[:-1])
    assert len(parts) == 1 if len(ends) <= 5 else 2 <= parts[-1] <= 5
