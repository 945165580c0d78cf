"""Who plays what. Sources stand beside the checks; what drummers do without saying so is common practice, no source."""

from __future__ import annotations

import json
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from engraver.analysis import carry
from engraver.analysis.limbs import assign
from engraver.rhythm import Limb, Limbs, Side, Span
from tests.analysis.limbs.played import SET, beat, played, row, sides
from tests.analysis.patterns import groove, layer

CHART = json.loads((Path(__file__).parents[2] / "sources/rhythm/rudiments.json").read_text())["rows"]
STICKINGS = [(each["name"], each["sticking"]) for each in CHART if set(each["sticking"]) <= set("RL")]


# ------------------------------------------------------------------ hands (common practice, no source)
def test_the_leading_hand_keeps_time_over_the_backbeat_of_the_other() -> None:
    found = played({"hi-hat": "x-x-x-x-x-x-x-x-", "snare": "----x-------x---"}, tempo=100)
    assert (sides(found, "hi-hat"), sides(found, "snare")) == ("R" * 8, "LL")


def test_fast_sixteenths_on_the_hi_hat_are_shared() -> None:
    assert row(played({"hi-hat": "x" * 16}, tempo=120)) == "RL" * 8  # eight a second
    assert row(played({"hi-hat": "x" * 16}, tempo=80)) == "R" * 16  # little more than five


def test_a_fill_around_the_toms_is_played_hand_to_hand() -> None:
    found = played(
        {"snare": "xxxx------------", "high tom": "----xxxx--------", "floor tom": "--------xxxxxxxx"}, tempo=100
    )
    assert row(found) == "RL" * 8


def test_two_strokes_at_once_do_not_cross_the_arms_without_need() -> None:
    found = played({"snare": "x---" * 4, "floor tom": "x---" * 4})
    assert (sides(found, "snare"), sides(found, "floor tom")) == ("LLLL", "RRRR")


def test_a_flam_takes_the_other_hand_for_its_grace() -> None:
    (flam,) = played({"snare": "f" + "-" * 15}).strokes
    assert (flam.limb, flam.helper) == (Limb.RIGHT_HAND, Limb.LEFT_HAND)


# ------------------------------------------------------------------ rudiments
@pytest.mark.parametrize(("name", "sticking"), STICKINGS)
def test_a_rudiment_on_two_drums_gives_each_hand_its_own(name: str, sticking: str) -> None:
    """The chart says which hand strikes: on two drums that stand apart, its right and left strokes are each hand's.

    Source: tests/sources/rhythm/rudiments.json (main strokes). Twice round at three strokes a second.
    """
    line = sticking * 2
    bar = -len(line) % 16
    lines = {
        "floor tom": "".join("x" if letter == "R" else "-" for letter in line) + "-" * bar,
        "high tom": "".join("x" if letter == "L" else "-" for letter in line) + "-" * bar,
    }
    assert row(played(lines, tempo=45)) == line


# Rudiments whose hands follow from the strokes alone: single strokes alternate, and a double is two strokes of one hand
# (=). For paradiddles, mills and drag taps the strokes on one drum leave the choice to the player: they are not here.
@pytest.mark.parametrize(
    ("name", "line"),
    [
        ("Single Stroke Roll", "xxxxxxxx"),
        ("Single Stroke Seven", "xxxxxxx"),
        ("Double Stroke Open Roll", "===="),
        ("Five Stroke Roll", "==x"),
        ("Six Stroke Roll", "x==x"),
        ("Seven Stroke Roll", "===x"),
        ("Nine Stroke Roll", "====x"),
        ("Ten Stroke Roll", "====xx"),
        ("Eleven Stroke Roll", "=====x"),
        ("Thirteen Stroke Roll", "======x"),
        ("Fifteen Stroke Roll", "=======x"),
        ("Seventeen Stroke Roll", "========x"),
    ],
)
def test_rolls_on_one_drum_have_the_sticking_of_the_chart(name: str, line: str) -> None:
    chart = next(each["sticking"] for each in CHART if each["name"] == name)
    found = played({"snare": line + "-" * (-len(line) % 16)}, tempo=90)
    strokes = "".join(
        each.limb.side.value * (1 + (mark == "=")) for each, mark in zip(found.strokes, line, strict=True)
    )
    assert strokes == chart[: len(strokes)] and len(strokes) in (len(chart), 8)


# ------------------------------------------------------------------ feet and the hi-hat's pedal
def test_each_pedal_has_its_foot() -> None:
    found = played({"bass drum": "xxxx" * 4, "foot hi-hat": "x---" * 4, "left bass drum": "--x-" * 4}, tempo=60)
    assert sides(found, "bass drum") == "R" * 16
    assert sides(found, "foot hi-hat") == sides(found, "left bass drum") == "LLLL"


def test_a_left_letter_says_that_the_bass_drum_has_two_pedals() -> None:
    alone = played({"bass drum": "x" * 16}, tempo=120)
    assert row(alone, Limbs.FEET) == "R" * 16
    double = played({"bass drum": "x" * 16}, tempo=120, feet="RL--------------")
    assert row(double, Limbs.FEET) == "RL" * 8


def test_the_foot_closes_an_open_hi_hat_where_it_is_struck_closed_again() -> None:
    found = played({"hi-hat": "x-x-x-x-x-x-x---", "open hi-hat": "--------------x-"})
    assert found.closings == (Fraction(0),)
    pressed = played(
        {"hi-hat": "x-x-x-x-x-x-----", "open hi-hat": "------------x---", "foot hi-hat": "--------------x-"}
    )
    assert pressed.closings == ()


# ------------------------------------------------------------------ the author's word
def test_the_sticking_is_obeyed() -> None:
    line = "RLRRLRLLRLRRLRLL"
    assert row(played({"snare": "x" * 16}, hands=line)) == line


def test_both_hands_on_one_stroke_or_one_each_on_two() -> None:
    unison = played({"floor tom": "x" + "-" * 15}, hands="B").strokes[0]
    assert set(unison.limbs) == {Limb.RIGHT_HAND, Limb.LEFT_HAND}
    two = played({"ride": "x" + "-" * 15, "snare": "x" + "-" * 15}, hands="B")
    assert [each.helper for each in two.strokes] == [None, None] and set(row(two)) == {"R", "L"}


def test_a_left_handed_player_has_every_limb_the_other_way_round() -> None:
    made = beat({"hi-hat": "x-x-x-x-x-x-x-x-", "snare": "----f-------x---", "bass drum": "x-------x-------"}, hands="R")
    right, left = assign(made, SET), assign(made, SET, Side.LEFT)
    assert [each.limb.other for each in right.strokes] == [each.limb for each in left.strokes]
    assert left.mirrored.strokes == right.strokes


# ------------------------------------------------------------------ exercises
def test_an_exercise_keeps_the_limbs_of_its_groove() -> None:
    """Alone the ghost notes would be the right hand's; under the hi-hat they are the left's, and stay so."""
    lines = {"hi-hat": "x-x-x-x-x-x-x-x-", "snare": "---g---g---g---g"}
    whole = groove([layer("Hand", {"hi-hat": lines["hi-hat"]}), layer("Ghosts", {"snare": lines["snare"]})], bars=1)
    limbs = assign(whole, SET)
    ghosts = whole.keep(["Ghosts"]).slice(Span(Fraction(1, 2), Fraction(1)))
    assert row(assign(ghosts, SET)) == "RR"
    assert row(carry(limbs, ghosts, Fraction(1, 2))) == "LL"


def test_a_respelled_exercise_lasts_as_long_and_keeps_its_limbs() -> None:
    whole = groove([layer("Hand", {"hi-hat": "x-x-x-x-", "snare": "-x-x-x-x"})], meter="2/4", bars=1)
    limbs = assign(whole, SET)
    wide = whole.scale(Fraction(3, 2), [replace(whole.bars[0].meter, beats=(1, 1, 1))])
    found = carry(limbs, wide, Fraction(0), Fraction(3, 2))
    assert row(found) == row(limbs)
    assert found.length / found.second == limbs.length / limbs.second


def test_strokes_that_a_fill_hides_find_a_limb_beside_the_known_ones() -> None:
    whole = groove(
        [
            layer("Hand", {"hi-hat": "x-x-x-x-x-x-x-x-"}),
            layer("Backbeat", {"snare": "----x-------x---"}),
            layer("Fill", {"floor tom": "------------xxxx"}, silences=[(12, 16, "hi-hat, snare")]),
        ],
        bars=1,
    )
    bare = replace(whole, layers=tuple(replace(each, silences=()) for each in whole.layers[:2]))
    found = carry(assign(whole, SET), bare, Fraction(0))
    assert (sides(found, "hi-hat"), sides(found, "snare")) == ("R" * 8, "LL")


def test_a_third_hand_is_left_over() -> None:
    found = played({"crash": "x" + "-" * 15, "ride": "x" + "-" * 15, "snare": "x" + "-" * 15})
    assert (len(found.strokes), len(found.left_over)) == (2, 1)
