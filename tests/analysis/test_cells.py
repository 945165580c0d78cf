"""Stated cells: letters, changed forms, the remainder. Expected letters are worked by hand beside each case."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from engraver.analysis import Edit, StatedCells, analyse
from engraver.rhythm import Instrument, Role
from tests.analysis.patterns import cycle_layer, groove, layer

SNARE, KICK = Instrument("snare"), Instrument("bass drum")


def letters(*cells: str) -> str:
    return "".join(cells)


def test_ghosts_in_every_second_a_make_a_new_letter():
    # A = x---, B = xx--. Skeleton A A B A A B; ghosts come with the first A of each pair: counted by hand A C B A C B
    # when the second A of a pair holds a ghost.
    frame = layer("Frame", {"bass drum": "x--- x--- xx-- x--- x--- xx--"}, role=Role.FIGURE)
    ghosts = layer("Ghosts", {"snare": "---- --g- ---- ---- --g- ----"})
    found = analyse(groove([frame, ghosts], bars=2, meter="3/4"), StatedCells(4)).cells
    assert letters(*found.skeleton) == "AABAAB"
    assert letters(*found.full) == "ACBACB"
    changed = next(cell for cell in found.cells if cell.letter == "C")
    assert changed.base == "A"
    assert changed.count == 2
    assert changed.edits == (Edit(2, SNARE, "-", "g"),)


def test_five_over_four_bars_of_four_four():
    # 64 = 12 * 5 + 4: twelve cells, and the first four steps of another.
    frame = cycle_layer("Frame", {"bass drum": "xx---", "crash": "X----"}, 64)
    backbeat = layer("Backbeat", {"snare": "----x-------x---" * 4})
    result = analyse(groove([frame, backbeat], bars=4), StatedCells(5))
    found = result.cells
    assert letters(*found.skeleton) == "A" * 12
    assert (found.remainder, found.remainder_begins) == (4, ("A",))
    assert (result.realign.lcm, result.realign.bars, result.realign.cells) == (80, 5, 16)
    assert [lane.instrument for lane in result.meter_lanes] == [SNARE]
    assert dict(found.cells[0].strokes) == {KICK: "xx---", Instrument("crash"): "X----"}


def test_ghosts_on_the_drum_of_a_backbeat_change_the_cells_and_the_backbeat_does_not():
    # Ghosts at steps 19 and 22 of 64 lie in the fourth (15-19) and fifth cell (20-24).
    frame = cycle_layer("Frame", {"bass drum": "xx---"}, 64)
    backbeat = layer("Backbeat", {"snare": "--------X-------" * 4})
    ghosts = layer("Ghosts", {"snare": "-" * 16 + "---g--g---------" + "-" * 32})
    result = analyse(groove([frame, backbeat, ghosts], bars=4), StatedCells(5))
    assert letters(*result.cells.skeleton) == "A" * 12
    assert letters(*result.cells.full) == "AAABCAAAAAAA"
    assert [(lane.layer, lane.instrument.name) for lane in result.figure] == [
        ("Frame", "bass drum"),
        ("Ghosts", "snare"),
    ]


def test_ghosts_and_backbeat_written_in_one_lane_are_told_apart():
    frame = cycle_layer("Frame", {"bass drum": "xx---"}, 64)
    snare = layer("Snare", {"snare": "---g----X-------" * 4}, role=Role.METER)
    found = analyse(groove([frame, snare], bars=4), StatedCells(5)).cells
    # Ghosts at 3, 19, 35, 51: step 3 of cell 0, 4 of cell 3, 0 of cell 7, 1 of cell 10.
    # The form without a ghost is the base and keeps the A, though a changed one comes first.
    assert letters(*found.skeleton) == "A" * 12
    assert letters(*found.full) == "BAACAAADAAEA"


def test_a_fill_over_the_last_two_cells_covers_them():
    # Cells 10 and 11 of twelve fives are steps 50-59; beats 3 and 4 of bar 4 are steps 56-63.
    frame = cycle_layer("Frame", {"bass drum": "xx---"}, 64)
    fill = layer("Fill", {"high tom": "xxxxxxxxxxxxxx"}, start=50, silences=[(50, 64, "bass drum")])
    result = analyse(groove([frame, fill], bars=4), StatedCells(5))
    assert letters(*result.cells.full) == "A" * 12
    assert result.cells.covered == (10, 11)
    assert result.fills == ("Fill",)


@pytest.mark.parametrize(("bars", "cells", "left"), [(1, 5, 1), (2, 10, 2), (4, 21, 1), (8, 42, 2)])
def test_what_is_left_of_threes_in_four_four(bars, cells, left):
    # 16 = 5*3+1, 32 = 10*3+2, 64 = 21*3+1, 128 = 42*3+2
    frame = cycle_layer("Frame", {"bass drum": "x--"}, 16 * bars)
    result = analyse(groove([frame], bars=bars), StatedCells(3))
    assert (len(result.cells.full), result.cells.remainder) == (cells, left)
    assert (result.realign.lcm, result.realign.bars, result.realign.cells) == (48, 3, 16)


def test_cells_start_over_with_the_restart_of_their_cycle():
    frame = cycle_layer("Frame", {"bass drum": "x-x"}, 64, restart=32)
    found = analyse(groove([frame], bars=4), StatedCells(3)).cells
    assert (found.phrase_steps, found.passes, len(found.full), found.remainder) == (32, 1, 10, 2)


def test_cells_that_begin_after_the_restart_of_their_cycle_have_the_phrase():
    # The author's first cell begins on step 40, the cycle starts over after 32: 64 - 40 = 8 * 3.
    frame = cycle_layer("Frame", {"bass drum": "x-x"}, 64, restart=32)
    found = analyse(groove([frame], bars=4), StatedCells(3, 40)).cells
    assert (found.phrase_steps, len(found.full), found.remainder) == (64, 8, 0)


def test_phrases_with_other_ghosts_have_letters_of_their_own():
    frame = cycle_layer("Frame", {"bass drum": "x-x"}, 64, restart=32)
    ghosts = layer("Ghosts", {"snare": "-" * 32 + "-g" + "-" * 30})
    found = analyse(groove([frame, ghosts], bars=4), StatedCells(3)).cells
    assert (found.phrase_steps, found.passes) == (32, 2)
    assert letters(*found.full) == "A" * 10 + "B" + "A" * 9
    assert found.places[9:11] == (27, 32)


def test_a_cell_longer_than_the_phrase_is_no_cell():
    assert analyse(groove([layer("One", {"snare": "x--x----x-------"})]), StatedCells(17)).cells is None


def test_a_layer_that_only_silences_hides_no_cell():
    frame = cycle_layer("Frame", {"bass drum": "xx---"}, 64)
    gap = layer("Break", {}, silences=[(60, 64, "bass drum")])
    result = analyse(groove([frame, gap], bars=4), StatedCells(5))
    # Steps 60-63 are the remainder: no cell is touched, and the figure is what it would be without the break.
    assert (letters(*result.cells.full), result.cells.covered) == ("A" * 12, ())
    assert result.cells.remainder_begins == ("A",)


def test_a_pickup_lies_before_the_cells_and_the_bars():
    # Two steps lead in; then two bars of 16 hold six fives and two steps over, as they would without the pickup.
    plain = groove([layer("F", {"bass drum": "--" + ("xx-x-" * 7)[:32]}, role=Role.FIGURE)], bars=3)
    upbeat = replace(plain.bars[0], length=Fraction(2, 16))
    bars = (upbeat, *(replace(bar, start=bar.start - Fraction(14, 16)) for bar in plain.bars[1:]))
    made = replace(plain, bars=bars, pickup=Fraction(2, 16), phrase=Fraction(2))
    result = analyse(made, StatedCells(5))
    assert (letters(*result.cells.full), result.cells.remainder, result.cells.places[0]) == ("AAAAAA", 2, 2)
    assert result.cells.cells[0].first == Fraction(2, 16)
    assert (result.realign.bars, result.realign.cells) == (5, 16)
    assert (analyse(made).cells.length, analyse(made).cells.sure) == (5, True)
