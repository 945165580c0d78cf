"""Measures against published values, which stand with their sources in tests/sources/rhythm."""

from __future__ import annotations

import csv
import json
from fractions import Fraction
from math import gcd
from pathlib import Path

import pytest
import sympy

from engraver.analysis import EuclideanForm, StatedCells, analyse
from engraver.analysis.cross_rhythm import realign, resultant
from engraver.analysis.evenness import euclid, variability
from engraver.analysis.grid import grid
from engraver.analysis.measures import bar_weights
from engraver.analysis.pulse import Pulse
from engraver.analysis.syncopation import divided, intervals, longuet_higgins_lee, off_beatness, wnbd
from tests.analysis.patterns import groove, layer

SOURCES = Path(__file__).parents[1] / "sources" / "rhythm"


def rows(name):
    return json.loads((SOURCES / name).read_text())["rows"]


def table(name):
    return list(csv.DictReader((SOURCES / name).open()))


def onsets(pattern):
    return [step for step, mark in enumerate(pattern) if mark == "x"]


def numbers(text):
    return tuple(int(each) for each in text.replace("+", " ").split())


@pytest.mark.parametrize("row", rows("timelines_16.json"), ids=lambda row: row["name"])
def test_timelines_of_sixteen_steps(row):
    found = analyse(groove([layer("Snare", {"snare": row["pattern"].replace(".", "-")})])).measures
    assert found.over == 16
    assert found.pressing == Fraction(str(row["pressing"]))
    assert (found.keith, found.off_beatness) == (row["keith_toussaint"], row["off_beatness"])
    assert found.wnbd == Fraction(row["wnbd"])
    assert found.longuet_higgins_lee == row["lhl_sum"]
    assert round(float(found.evenness), 1) == row["npvi"]
    assert (found.euclidean is not None) == row["maximally_even"]


@pytest.mark.parametrize("row", rows("measured_by_amads.json"), ids=lambda row: row["pattern"])
def test_patterns_measured_by_a_library(row):
    # The library and how it was asked: the head of the file.
    found = analyse(groove([layer("Snare", {"snare": row["pattern"].replace(".", "-")})])).measures
    assert (found.keith, found.off_beatness, found.wnbd) == (row["keith"], row["off_beatness"], Fraction(row["wnbd"]))
    assert float(found.evenness) == pytest.approx(row["npvi"], abs=0.001)


@pytest.mark.parametrize("row", rows("timelines_12.json"), ids=lambda row: row["name"])
def test_timelines_of_twelve_steps(row):
    struck = onsets(row["pattern"])
    assert off_beatness(struck, 12) == row["off_beatness"]
    assert wnbd(struck, 12, 3) == Fraction(row["wnbd"])


@pytest.mark.parametrize("row", rows("euclidean.json"), ids=lambda row: f"{row['k']} in {row['n']}")
def test_euclidean_strings(row):
    assert euclid(row["k"], row["n"]) == row["pattern"].replace(".", "-")


def test_a_turned_euclidean_form_is_known_with_its_turn():
    # Three in eight turned by three: x--x--x- begun at its second stroke is x--x-x--; by six, x-x--x--.
    form = analyse(groove([layer("S", {"snare": "x-x--x--"})], meter="2/4")).measures.euclidean
    assert form == EuclideanForm(3, 8, 6)


@pytest.mark.parametrize("n", range(2, 17))
def test_euclidean_forms_are_even(n):
    # Definition of a maximally even set (Clough and Douthett 1991, from memory): spans of j strokes take two lengths.
    for k in range(1, n):
        struck = onsets(euclid(k, n))
        for j in range(1, k):
            spans = {(struck[(i + j) % k] - struck[i]) % n for i in range(k)}
            assert spans <= {j * n // k, -(-j * n // k)}


LHL = json.loads((SOURCES / "longuet_higgins_lee.json").read_text())


@pytest.mark.parametrize("example", LHL["examples_plus_one"], ids=str)
def test_longuet_higgins_and_lee_examples(example):
    """Printed is the strength + 1 of each note that is followed by silence, 0 where it is not syncopated."""
    weights = divided(example["meter"])
    struck = onsets(example["pattern"]) if "pattern" in example else starts(example["ioi"])
    lengths = intervals(struck, len(weights))
    found = longuet_higgins_lee(struck, weights)
    printed = [0 if each is None else each + 1 for each in found]
    assert [each for each, length in zip(printed, lengths, strict=True) if length > 1] == example["out"]


def starts(lengths):
    return [sum(lengths[:index]) for index in range(len(lengths))]


WEIGHTS = {
    "4/4": "4/4 (2,2,2)",
    "3/4": "3/4 (3,2)",
    "6/8": "6/8 (2,3)",
    "9/8": "9/8 (3,3)",
    "12/8": "12/8 (2,2,3)",
    "3/2": "3/2 (3,2,2)",
}


@pytest.mark.parametrize(("meter", "name"), WEIGHTS.items())
def test_metrical_weights(meter, name):
    on_grid = grid(groove([], meter=meter, step=Fraction(1, 8)))
    assert list(bar_weights(on_grid, on_grid.phrase)) == LHL["weights"][name]


@pytest.mark.parametrize(
    "row", table("resultants.csv"), ids=lambda r: f"{r['major_generator_a']}:{r['minor_generator_b']}"
)
def test_resultants(row):
    a, b = int(row["major_generator_a"]), int(row["minor_generator_b"])
    assert resultant(Pulse(a, 0, a * b), Pulse(b, 0, a * b)) == numbers(row["resultant"])


@pytest.mark.parametrize("row", table("polyrhythm_counts.csv"), ids=lambda row: f"{row['m']}:{row['n']}")
def test_composite_rhythms(row):
    m, n, steps = int(row["m"]), int(row["n"]), int(row["grid_lcm"])
    assert steps == int(sympy.ilcm(m, n))
    found = resultant(Pulse(steps // m, 0, steps), Pulse(steps // n, 0, steps))
    # The table goes on for the whole grid, ours until the two meet: as often as they coincide.
    assert found * int(row["coincidences"]) == numbers(row["composite_intervals_in_1/lcm"])
    assert int(row["coincidences"]) == gcd(m, n)


@pytest.mark.parametrize("row", rows("bars_and_cells.json"), ids=lambda row: f"{row['cell']} over {row['bar']}")
def test_bars_and_cells(row):
    found = realign(row["cell"], [row["bar"]])
    assert (found.lcm, found.bars, found.cells) == (row["lcm"], row["bars_to_realign"], row["cells_to_realign"])
    assert found.lcm == int(sympy.ilcm(row["cell"], row["bar"]))


@pytest.mark.parametrize("row", rows("bars_and_cells.json"), ids=lambda row: f"{row['cell']} over {row['bar']}")
def test_where_cells_and_bars_begin(row):
    cell, bar, bars = row["cell"], row["bar"], row["bars_to_realign"]
    places = in_bars(cell, bar, bars).places
    assert [place % bar for place in places] == row["cell_starts_in_bar"]
    assert [-min(p - line for p in places if p + cell > line) for line in range(0, bar * bars, bar)] == (
        row["bar_starts_in_cell"]
    )


@pytest.mark.parametrize("bars", [1, 2, 4, 8])
@pytest.mark.parametrize("row", rows("bars_and_cells.json"), ids=lambda row: f"{row['cell']} over {row['bar']}")
def test_what_is_left_after_some_bars(row, bars):
    found = in_bars(row["cell"], row["bar"], bars)
    assert len(found.full) == row["cells_by_bars"][str(bars)]
    assert found.remainder == row["left_over_by_bars"][str(bars)]


def in_bars(cell, bar, bars):
    line = "".join("x" if step % cell == 0 else "-" for step in range(bar * bars))
    return analyse(groove([layer("F", {"snare": line})], bars=bars, meter=f"{bar}/16"), StatedCells(cell)).cells


def test_four_bars_of_four_four_hold_five_bars_of_three_four_and_a_beat():
    # Common practice, no source: 16 beats are 5 * 3 + 1.
    found = analyse(groove([layer("F", {"snare": "x-x-x---x-x-" * 5 + "x-x-"})], bars=4), StatedCells(12)).cells
    assert (len(found.full), found.remainder) == (5, 4)


def test_a_pulse_does_not_vary():
    assert variability([0, 4, 8, 12], 16) == 0


def test_uneven_beats_have_no_beat_based_measures():
    found = analyse(groove([layer("F", {"snare": "x-x-xx-"}, step=Fraction(1, 8))], meter="7/8", step=Fraction(1, 8)))
    assert (found.measures.wnbd, found.measures.keith, found.measures.longuet_higgins_lee) == (None, None, None)
