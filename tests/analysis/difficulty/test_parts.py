"""The parts of a difficulty, each worked out by hand; what a number is worth is ours and is not tested here."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from engraver.analysis import analyse, carry, difficulty, next_limbs_entropy
from engraver.analysis.difficulty import grade
from engraver.analysis.difficulty.coordination import bits, offsets, together
from engraver.analysis.difficulty.grade import BOUNDS
from engraver.analysis.difficulty.rhythm import cross_rhythm, depth, syncopation
from engraver.analysis.difficulty.touch import touch_changes
from engraver.rhythm import ZERO, Limb, Meter
from tests.analysis.limbs.played import SET, beat, played
from tests.analysis.patterns import cycle_layer, groove, layer

SIXTEENTH = Fraction(1, 16)


# The terms of the continued fraction of m : n, less one, by hand: 3/2 = [1; 2], 5/3 = [1; 1, 2], 5/4 = [1; 4].
@pytest.mark.parametrize(
    ("ratio", "expected"), [((2, 1), 1), ((3, 2), 2), ((2, 3), 2), ((4, 3), 3), ((5, 3), 3), ((5, 4), 4), ((7, 4), 4)]
)
def test_the_depth_of_a_ratio(ratio: tuple[int, int], expected: int) -> None:
    assert depth(ratio) == expected


@pytest.mark.parametrize(("a", "b", "bits_known"), [(2, 3, Fraction(2, 3)), (4, 5, None)])
def test_the_entropy_of_two_against_three(a: int, b: int, bits_known: Fraction | None) -> None:
    """Of 3 against 2 on six steps, by hand: both, silence, a, b, a, silence. After silence a or both, one bit; after a
    b or silence, one bit; these are four of six steps: 2/3. Of 5 against 4, silence and all counted: 1.34 to two places
    (worked out by another program, not published)."""
    steps = a * b
    lines = {
        "bass drum": "".join("x" if step % a == 0 else "-" for step in range(steps)),
        "foot hi-hat": "".join("x" if step % b == 0 else "-" for step in range(steps)),
    }
    made = groove([layer("Feet", lines)], bars=1, meter=f"{steps}/16")
    found = next_limbs_entropy(analyse(made, places=SET).limbs, SIXTEENTH)
    assert found == pytest.approx(float(bits_known)) if bits_known else round(found, 2) == 1.34


def test_sets_of_limbs_that_strike_together_hold_their_parts() -> None:
    both = {"ride": "x---" * 4, "snare": "----x-------x---", "bass drum": "x-------x---x---"}
    assert together(played(both)) == 4  # right hand and foot, both hands, left hand and foot, all three
    assert together(played({"ride": "x---" * 4, "bass drum": "--x-" * 4})) == 0


def test_times_from_one_limb_to_another_within_a_beat() -> None:
    found = played({"ride": "x-x-" * 4, "bass drum": "x---------x-----"})
    # The ride strikes with the drum, two steps before and two after it.
    assert offsets(found, (Limb.RIGHT_HAND, Limb.RIGHT_FOOT)) == 3
    assert offsets(found, (Limb.RIGHT_HAND, Limb.LEFT_FOOT)) == 0


def test_a_stroke_stands_as_deep_as_the_beat_is_halved() -> None:
    assert syncopation(played({"bass drum": "x---" * 4})) == 0
    assert syncopation(played({"bass drum": "--x-" * 4})) == 1
    assert syncopation(played({"bass drum": "-x--" * 4})) == 2
    assert syncopation(played({"bass drum": "x--x------------"})) == Fraction(
        2, 4
    )  # the second level, in one beat of four


def test_a_cross_rhythm_counts_where_both_pulses_sound_for_a_whole_cycle() -> None:
    whole = groove(
        [cycle_layer("Threes", {"bass drum": "x--"}, 48), layer("Beat", {"foot hi-hat": "x---" * 12})], bars=3
    )
    facts = analyse(whole, places=SET)
    assert cross_rhythm(facts.limbs, facts.cross_rhythms, facts.step) == depth((4, 3))
    alone = analyse(whole.keep(["Beat"]), places=SET).limbs
    assert cross_rhythm(alone, facts.cross_rhythms, facts.step) == 0


def test_a_cycle_that_is_barred_by_itself_crosses_no_beat() -> None:
    """Threes over quarters are 4 against 3; in bars of 12/16 each of the four is a beat of its own. In bars of three
    quarters they cross the beat as they did."""
    whole = groove([cycle_layer("Threes", {"bass drum": "x--"}, 48)], bars=3)
    facts = analyse(whole, places=SET)
    for meters, expected in ((["12/16"] * 4, 0), (["3/4"] * 4, depth((4, 3)))):
        barred = carry(facts.limbs, whole.regroup(map(Meter.parse, meters)), ZERO)
        assert cross_rhythm(barred, facts.cross_rhythms, facts.step) == expected


def test_a_ghost_note_beside_an_accent_is_a_change_of_the_hand() -> None:
    """A sixteenth apart at 60 is a quarter of a second, 4 changes a second; an eighth 2."""
    near, far = (played({"snare": line}, tempo=60, hands="R" * 3) for line in ("Xg--------------", "X-g-------------"))
    near, far = (
        replace(each, strokes=tuple(replace(s, limb=Limb.LEFT_HAND) for s in each.strokes)) for each in (near, far)
    )
    assert touch_changes(near) == 2 * touch_changes(far) > 0
    assert touch_changes(played({"snare": "x-g-------------"}, tempo=60)) == 0


def test_a_stroke_is_learnt_once_with_each_of_its_touches() -> None:
    """By hand: plain snare, its ghost, the bass drum."""
    three = difficulty(played({"snare": "x-g---g---x-----", "bass drum": "--x---------x---"}))
    assert three.new_strokes == bits(1 + 3)


def test_the_total_is_the_sum_of_the_parts() -> None:
    plain = difficulty(played({"hi-hat": "x-x-" * 4, "snare": "----x-------x---", "bass drum": "x-------x-------"}))
    assert plain.total == sum(points for _, points in plain.parts)
    assert plain.length == bits(1 + 12)


def test_grades_begin_and_end_at_their_bounds() -> None:
    assert [grade(bound) for bound in BOUNDS] == [1, 2, 3, 4]
    assert [grade(bound + 1) for bound in BOUNDS] == [2, 3, 4, 5]


def test_a_beat_of_eighths_is_easier_than_fives_across_the_bar() -> None:
    """Common practice, no source: what every beginner plays, against a figure that leaves the bar."""
    eighths = analyse(beat({"hi-hat": "x-x-" * 4, "snare": "----x---" * 2, "bass drum": "x-------" * 2}), places=SET)
    five = groove(
        [
            cycle_layer("Five", {"bass drum": "x-x--", "ride": "x-x--"}, 64),
            layer("Backbeat", {"snare": "--------x-------" * 4}),
        ],
        bars=4,
        tempo=80,
    )
    fives = analyse(five, places=SET)
    assert difficulty(eighths.limbs, eighths.cross_rhythms).grade < difficulty(fives.limbs, fives.cross_rhythms).grade
