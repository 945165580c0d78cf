"""The JSON object, rates, regrouping, and grooves with little or nothing in them."""

from __future__ import annotations

import json
from dataclasses import replace
from fractions import Fraction

import pytest

from engraver.analysis import RegroupReason, StatedCells, analyse, facts_object
from engraver.rhythm import Instrument, Limbs, Place, Side, Sticking, Tempo
from tests.analysis.patterns import cycle_layer, groove, layer
from tests.bench.analysis import milliseconds

KICK = Instrument("bass drum")


def test_the_object_of_a_figure_of_threes():
    made = groove([layer("Time", {"hi-hat": "x-x-" * 16}), cycle_layer("Frame", {"bass drum": "x--"}, 64)], bars=4)
    found = json.loads(json.dumps(facts_object(made, analyse(made))))
    assert (found["meter"], found["bars"], found["steps"], found["step"]) == ("4/4", 4, 64, "sixteenth")
    assert found["figure"] == [{"layer": "Frame", "instrument": "bass drum"}]
    assert found["timekeepers"] == [{"layer": "Time", "instrument": "hi-hat"}]
    assert found["cells"]["length"] == 3
    assert found["cells"]["letters"]["full"] == ["A"] * 21
    assert found["cells"]["remainder"] == {"steps": 1, "begins": ["A"]}
    assert found["cells"]["cells"]["A"]["strokes"] == {"bass drum": "x--"}
    assert found["realign"] == {"lcm": 48, "bars": 3, "cells": 16}


def test_fractions_in_the_object():
    made = groove([layer("Snare", {"snare": "x--x--x---x-x---"})])
    found = facts_object(made, analyse(made))
    assert (found["measures"]["wnbd"], found["measures"]["pressing"], found["measures_over"]) == ("14/5", 14.5, 16)


def test_centres_between_two_cells_are_halves():
    made = groove([layer("F", {"snare": "x--- -x-- --x- x--- x--- --x- -x-- "})], bars=7, meter="1/4")
    found = facts_object(made, analyse(made, StatedCells(4)))["sequence"]["full"]
    assert (found["centre"], found["mirror_continuation"]) == (3.5, ["A"])


def test_each_hand_plays_every_second_stroke_at_best():
    # Sixteenths at 90 are 6 a second (90 / 60 * 4); two hands share them: 3 each. Quarters with the foot: 1.5.
    made = replace(
        groove([layer("F", {"snare": "x" * 16, "bass drum": "x---" * 4})], tempo=90),
        tempo=Tempo(Fraction(1, 4), 90),
    )
    places = {KICK: Place(Limbs.FEET, foot=Side.RIGHT)}
    rates = {rate.limb.value: rate.per_second for rate in analyse(made, places=places).rates}
    assert rates == {"right hand": 3, "left hand": 3, "right foot": Fraction(3, 2)}


def test_sticking_names_the_hand_that_is_fastest():
    # R R L -: the right hand plays two sixteenths running, at 60 four a second; the left once a beat.
    made = groove([layer("F", {"snare": "xxx-" * 4})], tempo=60)
    places = [(4 * beat + step, side) for beat in range(4) for step, side in enumerate("RRL")]
    sticking = tuple(Sticking(Fraction(step, 16), Limbs.HANDS, Side(side)) for step, side in places)
    made = replace(made, sticking=sticking)
    assert {rate.limb.value: rate.per_second for rate in analyse(made).rates} == {"right hand": 4, "left hand": 1}


def test_regrouping_joins_five_threes_to_a_bar_nearest_four_four():
    made = groove([cycle_layer("Frame", {"bass drum": "x-x"}, 64)], bars=4)
    found = {each.reason: each for each in analyse(made).regroupings}
    assert (found[RegroupReason.CELL].bars, found[RegroupReason.CELL].remainder) == (21, 1)
    # 16 / 3 is nearest 5; 21 cells are 4 bars of five and one cell over.
    nearest = found[RegroupReason.NEAREST]
    assert (nearest.cells, nearest.steps, nearest.bars, nearest.cells_over) == (5, 15, 4, 1)
    assert found[RegroupReason.BEATS].cells == 4


@pytest.mark.parametrize("cells", [None, StatedCells(3), StatedCells(0), StatedCells(3, 40)])
@pytest.mark.parametrize(
    "made",
    [
        groove([], bars=0),
        groove([], bars=2),
        groove([layer("Silence", {"snare": "-" * 16})]),
        groove([layer("One", {"snare": "x" + "-" * 15})]),
        groove([layer("Ghost", {"snare": "g" + "-" * 15})]),
        groove([layer("Steps", {"snare": "xxxx"})], bars=4, meter="1/16"),
        groove([layer("Step", {"snare": "x"})], bars=1, meter="1/16"),
        groove([layer("Fill", {"snare": "xxxx"}, silences=[(0, 4, "bass drum")])]),
    ],
    ids=["no bars", "no layers", "silence", "one stroke", "one ghost", "bars of a step", "one step", "only a fill"],
)
def test_too_little_gives_no_certainty(made, cells):
    found = analyse(made, cells)
    assert found.cells is None or found.cells.stated
    assert found.cross_rhythms == ()
    json.dumps(facts_object(made, found))


def test_five_hundred_and_twelve_steps():
    made = groove([layer("F", {"snare": ("x--x-" * 26)[:128] * 4})], bars=32)
    found = analyse(made).cells
    assert (found.length, found.phrase_steps, len(found.full), found.remainder) == (5, 128, 25, 3)
    assert milliseconds(made, turns=3) < 200


def test_a_triplet_in_a_fill_does_not_refine_the_grid():
    frame = cycle_layer("Frame", {"bass drum": "xx---"}, 64)
    fill = layer("Fill", {"high tom": "xxx"}, step=Fraction(1, 12), start=9, silences=[(60, 64, "bass drum")])
    found = analyse(groove([frame, fill], bars=4))
    assert (found.step, found.cells.length) == (Fraction(1, 16), 5)


def test_a_bracket_in_the_figure_stands_within_its_steps():
    # Three strokes in the time of steps 4 and 5, among plain sixteenths: at 0 and 2/3 of step 4, at 1/3 of step 5.
    plain = layer("F", {"snare": "x-xx" + "--xx" + "x-xx" + "x-xx"})
    bracket = tuple(replace(plain.strokes[0], onset=Fraction(6 + i, 24)) for i in range(3))
    found = analyse(groove([replace(plain, strokes=plain.strokes + bracket)]), StatedCells(4))
    assert found.step == Fraction(1, 16)
    assert [dict(cell.strokes)[Instrument("snare")] for cell in found.cells.cells] == ["x-xx", "(x-x)1(-x-)1xx"]
