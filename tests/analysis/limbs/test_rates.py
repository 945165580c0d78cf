"""How fast limbs go, against published figures (tests/sources/rhythm/rates.csv) and worked examples."""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from engraver.analysis.limbs import Band, band_of, fastest, limit, rates, within
from engraver.analysis.limbs.rates import sustained
from engraver.rhythm import Limb
from tests.analysis.limbs.played import played

ROWS = (Path(__file__).parents[2] / "sources/rhythm/rates.csv").read_text("utf-8").splitlines()
PUBLISHED = list(csv.DictReader(row for row in ROWS if not row.startswith("#")))


@pytest.mark.parametrize("figure", PUBLISHED, ids=lambda figure: figure["what"])
def test_what_has_been_played_is_not_refused(figure: dict[str, str]) -> None:
    pair, sharing = figure["limbs"].split()
    limb = {"hand": Limb.RIGHT_HAND, "foot": Limb.RIGHT_FOOT}[pair]
    each = Fraction(int(figure["strokes"]), int(figure["seconds"]) * int(sharing))
    assert band_of(limb, each) is not Band.BEYOND


def test_the_fastest_that_was_counted_is_the_limit() -> None:
    counted = {figure["what"]: Fraction(int(figure["strokes"]), 2 * int(figure["seconds"])) for figure in PUBLISHED}
    assert limit(Limb.LEFT_HAND) == counted["two hands, single strokes, contest of 2013"]
    assert limit(Limb.LEFT_FOOT) == counted["two feet, single strokes, 2018"]


def test_sixteenths_of_one_hand_and_eighths_of_one_foot() -> None:
    """Sixteenths at b are b / 15 a second: 90 at 6, 150 at 10; eighths b / 30: 150 at 5. Arithmetic."""
    hand = played({"ride": "x" * 16}, tempo=150, hands="R" * 16)
    assert [rate.per_second for rate in rates(hand)] == [10]
    limits = {band: fastest(hand, band) for band in (Band.WORKING, Band.HARD)}
    assert [found.bpm for found in limits.values() if found] == [90, 120]
    foot = fastest(played({"bass drum": "x-" * 8}), Band.WORKING)
    assert foot and foot.bpm == 150


def test_a_double_is_two_strokes_and_a_buzz_is_one_motion() -> None:
    """At 60 a sixteenth is a quarter of a second: a double strikes again after an eighth of one."""
    (double,) = rates(played({"snare": "=---" * 4}, tempo=60, hands="R---" * 4))
    assert double.per_second == 8
    (buzz,) = rates(played({"snare": "z---" * 4}, tempo=60, hands="R---" * 4))
    assert buzz.per_second == 1


def test_a_quick_pair_is_no_lasting_rate() -> None:
    """RRLL in sixteenths at 150: each hand strikes again after a tenth of a second, then after three: 3 in 5 tenths."""
    found = played({"snare": "x" * 16}, tempo=150, hands="RRLL" * 4)
    lasting = sustained(found, Limb.RIGHT_HAND)
    assert lasting and lasting.per_second == 6
    assert {rate.per_second for rate in rates(found)} == {10}


def test_a_tempo_is_lowered_only_where_the_band_asks_for_it() -> None:
    found = played({"hi-hat": "x" * 16}, tempo=90, hands="R" * 16)
    assert within(found, 90, Band.EXPERT) == 90
    assert within(found, 90, Band.EASY) == 60
