"""Cells that nobody stated: trial grooves with known answers, and constructed ones by the thousand.

The eight trial grooves and five hard ones are ours; where their gain is given it was found by an earlier program of
our own, written apart from this one. `tests/bench/analysis.py` prints the exact rates.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from engraver.analysis import analyse
from tests.analysis import constructed
from tests.analysis.patterns import cycle_layer, groove, layer
from tests.bench.analysis import milliseconds, share_false, share_right, sixteen_bars

EIGHTH = Fraction(1, 8)
GROOVES = 1000


def cut(cell: str, steps: int, restart: int | None = None) -> str:
    return "".join(cell[(step % (restart or steps)) % len(cell)] for step in range(steps))


def rock():
    snare = ("----X-------X---" + "----X--g-g--X---") * 2
    return [layer("Time", {"hi-hat": "x-x-" * 16}), layer("F", {"snare": snare, "bass drum": "x-----x-x-------" * 4})]


def threes():
    lines = {"snare": cut("-xg", 64, 32), "bass drum": cut("x--", 64, 32)}
    return [layer("Time", {"foot hi-hat": "x---" * 16}), layer("F", lines)]


def fives():
    snare = cut("--X--", 64)[:30] + cut("--X-g", 30) + "--X-"
    lines = {"snare": snare, "bass drum": cut("xx---", 64)}
    return [layer("Time", {"foot hi-hat": "x---" * 16}), layer("F", lines)]


def seven_eight():
    lines = {"bass drum": "x---x--" * 4, "snare": "--x---x" * 4}
    return [layer("Time", {"hi-hat": "x" * 28}, step=EIGHTH), layer("F", lines, step=EIGHTH)]


def shuffle():
    lines = {"hi-hat": "x-xx-x" * 3 + "-" * 6, "snare": "---x--" * 3 + "xxxxxx", "bass drum": "x----x" * 3 + "x-----"}
    return [layer("F", lines, step=EIGHTH)]


def twelve_eight():
    lines = {"ride": "x-x" * 16, "snare": "---x-----x-----x-g---x--" * 2, "bass drum": "x----x" * 8}
    return [layer("F", lines, step=EIGHTH)]


@pytest.mark.parametrize(
    ("layers", "bars", "meter", "step", "length", "phrase", "skeleton", "full"),
    [
        (rock(), 4, "4/4", None, 16, 64, "AAAA", "ABAB"),
        (threes(), 4, "4/4", None, 3, 32, "A" * 10, "A" * 10),
        (fives(), 4, "4/4", None, 5, 64, "A" * 12, "AAAAAABBBBBB"),
        (seven_eight(), 4, "7/8", EIGHTH, 7, 28, "AAAA", "AAAA"),
        (shuffle(), 4, "6/8", EIGHTH, 6, 24, "AAAB", "AAAB"),
        (twelve_eight(), 4, "12/8", EIGHTH, 6, 48, "A" * 8, "AABAAABA"),
        ([layer("F", {"snare": "-xg" * 32, "bass drum": "x--" * 32})], 6, "4/4", None, 3, 96, "A" * 32, "A" * 32),
        ([layer("F", {"r": "x-xx-x--" * 4, "l": "-x--x-xx" * 4})], 2, "4/4", None, 8, 32, "AAAA", "AAAA"),
    ],
    ids=[
        "rock",
        "threes restarted",
        "fives",
        "seven eight",
        "shuffle and fill",
        "twelve eight",
        "endless",
        "paradiddle",
    ],
)
def test_trial_grooves(layers, bars, meter, step, length, phrase, skeleton, full):
    found = analyse(groove(layers, bars=bars, meter=meter, step=step or Fraction(1, 16))).cells
    assert (found.length, found.phrase_steps, found.sure) == (length, phrase, True)
    assert ("".join(found.skeleton), "".join(found.full)) == (skeleton, full)


def test_three_against_two_and_five_against_four():
    # Resultants 2 1 1 2 and 4 1 3 2 2 3 1 4: Schillinger, as counted in tests/sources/rhythm/resultants.csv.
    triplet = Fraction(1, 12)
    two = analyse(groove([layer("F", {"ride": "x-" * 12, "bass drum": "x--" * 8}, step=triplet)], bars=2, step=triplet))
    four = analyse(groove([layer("F", {"ride": "x---" * 15, "foot hi-hat": "x----" * 12})], bars=3, meter="5/4"))
    assert next((each.ratio, each.resultant) for each in two.cross_rhythms) == ((3, 2), (2, 1, 1, 2))
    assert next((each.ratio, each.resultant) for each in four.cross_rhythms) == ((4, 5), (4, 1, 3, 2, 2, 3, 1, 4))


def test_a_figure_restarted_in_every_bar_has_two_readings():
    # 3+3+3+3+2+2 is one bar over and over, and nearly as well six steps cut off by the bar.
    found = analyse(groove([layer("F", {"snare": "x--x--x--x--x-x-" * 4})], bars=4)).cells
    assert (found.length, found.sure, found.runner_up) == (16, False, 6)
    assert found.gain_bits == pytest.approx(39.8, abs=0.1)


def test_cells_after_a_pickup_that_comes_with_every_phrase():
    found = analyse(groove([layer("F", {"snare": ("x-" + "X-xx" * 8)[:32] * 2})], bars=4)).cells
    assert (found.length, found.start, found.phrase_steps, found.remainder) == (4, 2, 32, 2)
    assert found.gain_bits == pytest.approx(37.9, abs=0.1)


def test_a_backbeat_stands_outside_a_crossing_figure():
    frame = layer("Frame", {"bass drum": cut("xx---", 64)})
    result = analyse(groove([frame, layer("Backbeat", {"snare": "----X-------X---" * 4})], bars=4))
    assert (result.cells.length, "".join(result.cells.skeleton)) == (5, "A" * 12)
    assert [lane.instrument.name for lane in result.meter_lanes] == ["snare"]


def test_a_fill_that_silences_does_not_hide_the_cells():
    frame = cycle_layer("Frame", {"bass drum": "xx-x-"}, 64)
    fill = layer("Fill", {"high tom": "xxxxxxxxxxxxxx"}, start=50, silences=[(50, 64, "bass drum")])
    found = analyse(groove([frame, fill], bars=4)).cells
    assert (found.length, "".join(found.full), found.covered) == (5, "A" * 12, (10, 11))


def test_constructed_cells_across_the_bar():
    assert share_right(constructed.crossing(GROOVES, 7)) >= 0.96


def test_constructed_bar_forms():
    assert share_right(constructed.forms(GROOVES, 7)) >= 0.94


def test_no_cells_where_there_are_none():
    assert share_false(constructed.structureless(GROOVES, 7)) <= 0.01


def test_one_groove_of_sixteen_bars_is_read_in_twenty_milliseconds_and_its_limbs_found_in_ten():
    assert milliseconds(sixteen_bars()) < 20 + 10
