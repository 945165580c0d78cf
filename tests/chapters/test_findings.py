"""Findings as sentences: each is worked by hand beside its case; what is not sure is not said."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

import pytest

from engraver.analysis import StatedCells, analyse
from engraver.chapters.findings import findings
from engraver.rhythm import Groove, Role
from engraver.style import words
from tests.analysis.patterns import cycle_layer, groove, layer
from tests.analysis.test_any_groove import any_groove

SAY = words("en")


def told(made: Groove, stated: StatedCells | None = None, *, answers: bool = False) -> tuple[str, ...]:
    return findings(made, analyse(made, stated), SAY, answers=answers)


def in_order(letters: str, shapes: Sequence[str] = ("x---", "x-x-", "xx--")) -> Groove:
    """Cells of four steps in the order of the letters, all in one bar."""
    line = "".join(shapes["ABC".index(letter)] for letter in letters)
    return groove([layer("Frame", {"bass drum": line}, role=Role.FIGURE)], meter=f"{len(letters)}/4")


def of_letters(letters: str, *, answers: bool = False) -> tuple[str, ...]:
    return told(in_order(letters), StatedCells(4), answers=answers)


def test_a_stroke_every_three_over_a_beat_of_four() -> None:
    # lcm(3, 4) = 12 sixteenths = 3 beats; 64 = 21 * 3 + 1; lcm(3, 16) = 48 = 3 bars = 16 cells.
    made = groove([cycle_layer("Frame", {"bass drum": "x--"}, 64)], bars=4)
    assert told(made) == (
        "The bass drum comes every three sixteenths, the beat every four: they meet again after three beats. "
        "Four bars hold twenty-one of its cycles, and one sixteenth is left over.",
        "Cell and bar line meet again after three bars, or sixteen cells of three sixteenths.",
    )


def test_three_whole_bars_leave_nothing_over() -> None:
    # 48 = 16 * 3
    found = told(groove([cycle_layer("Frame", {"bass drum": "x--"}, 48)], bars=3))
    assert found[0].endswith("Three bars hold exactly sixteen of its cycles, and nothing is left over.")


@pytest.mark.parametrize("bars", [1, 2, 3, 4, 5, 8])
@pytest.mark.parametrize("spacing", [3, 5, 6, 7, 9, 10, 11, 13])
def test_what_is_told_of_a_pulse_is_what_one_counts(spacing: int, bars: int) -> None:
    """Counted stroke by stroke, without the least common multiple."""
    steps = 16 * bars
    strokes, beats = set(range(0, 1000, spacing)), range(0, 1000, 4)
    meeting = next(number for number, place in enumerate(beats) if number and place in strokes)
    whole = [place for place in sorted(strokes) if place + spacing <= steps]
    left = steps - (whole[-1] + spacing)
    found = told(groove([cycle_layer("F", {"bass drum": "x" + "-" * (spacing - 1)}, steps)], bars=bars))
    if len([place for place in strokes if place < steps]) < 3:
        assert found == () or "bass drum" not in found[0]  # two strokes are no pulse
        return
    assert f"after {SAY.number(meeting)} beats" in found[0]
    assert ("would" in found[0]) == (4 * meeting > steps)
    held = (
        f"{'holds' if bars == 1 else 'hold'} {'' if left else 'exactly '}{SAY.number(len(whole))} of its cycles, and "
    )
    counted = "one sixteenth is" if left == 1 else f"{SAY.number(left)} sixteenths are"
    assert held + (f"{counted} left over." if left else "nothing is left over.") in found[0]


def test_one_bar_is_not_plural() -> None:
    # 16 = 3 * 5 + 1; lcm(4, 5) = 20 sixteenths would be five beats, but everything starts over after four.
    found = told(groove([cycle_layer("Frame", {"bass drum": "x----"}, 16)]))
    assert found[0] == (
        "The bass drum comes every five sixteenths, the beat every four: they would meet again after five beats, "
        "but everything starts over before that. One bar holds three of its cycles, and one sixteenth is left over."
    )


def test_pulses_that_are_alike_are_told_together_and_late_ones_after_them() -> None:
    # bass drum and the accents of the ride on steps 0 3 6 ..., the crash on 1 4 7 ...
    lines = {"bass drum": "x--", "ride": "X-x", "crash": "-x-"}
    first = told(groove([cycle_layer("Frame", lines, 64)], bars=4))[0]
    assert first.startswith(
        "The bass drum and the accents of the ride come every three sixteenths, the beat every four"
    )
    assert "Four bars hold twenty-one of their cycles" in first
    assert first.endswith("The crash comes as often, one sixteenth later.")


def test_accents_alone_make_a_cross_rhythm() -> None:
    # An accent on every fourth stroke of a stroke every three is one every twelve sixteenths; the beat of 2/2 has
    # eight: lcm(12, 8) = 24 = 3 beats. 48 = 4 * 12.
    made = groove([layer("Ride", {"ride": "X--x--x--x--" * 4})], bars=3, meter="2/2")
    assert told(made)[1] == (
        "The accents of the ride come every twelve sixteenths, the beat every eight: "
        "they meet again after three beats. "
        "Three bars hold exactly four of their cycles, and nothing is left over."
    )


def test_pulses_that_never_meet() -> None:
    # Steps 1 7 13 ... are odd, beats of four even; lcm(6, 4) = 12 = 3 beats.
    found = told(groove([layer("Ride", {"ride": "-x----" * 8})], bars=3))[0]
    assert "they never strike together, and their pattern comes back after three beats." in found


def test_a_pulse_that_begins_late_leaves_nothing_to_be_counted() -> None:
    found = told(groove([layer("Kick", {"bass drum": "-x-" * 16})], bars=3))[0]
    assert found.endswith("they meet again after three beats.")


def test_instruments_against_one_another() -> None:
    # lcm(3, 2) = 6 triplet eighths; the beat is every three, so only the ride crosses it.
    triplet = Fraction(1, 12)
    lines = {"ride": "x-" * 12, "bass drum": "x--" * 8}
    found = told(groove([layer("F", lines, step=triplet)], bars=2, step=triplet))
    assert found[0].startswith(
        "The ride comes every two eighth triplets, the beat every three: they meet again after two"
    )
    assert not any("the bass drum every" in each for each in found)  # it is the beat, which was told


def test_cells_of_five_are_told_with_what_is_left_of_them() -> None:
    # 64 = 12 * 5 + 4; lcm(5, 16) = 80 = 5 bars = 16 cells, more than the phrase holds; lcm(5, 4) = 20 = 5 beats.
    assert told(groove([cycle_layer("Frame", {"bass drum": "xx---"}, 64)], bars=4)) == (
        "Cell and bar line would meet again after five bars, or sixteen cells of five sixteenths; "
        "the phrase starts over before that.",
        "The cells begin every five sixteenths, the beat comes every four: they meet again after five beats.",
        "Four bars hold twelve whole cells, and four sixteenths are left over, the beginning of another A.",
    )


def test_of_cells_that_begin_late_nothing_is_counted_from_the_bar_line() -> None:
    made = groove([layer("F", {"bass drum": "--" + "xx---" * 6}, role=Role.FIGURE)], bars=2)
    assert told(made, StatedCells(5, 2)) == ()


def test_a_cell_of_two_bars() -> None:
    made = groove([layer("F", {"bass drum": "x-----x---x-----" + "x---x-----------"}, role=Role.FIGURE)], bars=2)
    assert told(made, StatedCells(32)) == ("The cell is two bars long.",)


def test_ghost_notes_change_the_order() -> None:
    frame = layer("Frame", {"bass drum": "x--- x--- xx-- x--- x--- xx--"}, role=Role.FIGURE)
    ghosts = layer("Soft strokes", {"snare": "---- --g- ---- ---- --g- ----"})
    found = told(groove([frame, ghosts], bars=2, meter="3/4"), StatedCells(4))
    assert "With the ghost notes A A B A A B becomes A C B A C B." in found


def test_a_layer_of_other_strokes_has_its_name() -> None:
    frame = layer("Frame", {"bass drum": "x--- x--- x---"}, role=Role.FIGURE)
    more = layer("Answer", {"snare": "---- --x- ----"}, role=Role.FIGURE)
    found = told(groove([frame, more], meter="3/4"), StatedCells(4))
    assert "With the layer “Answer” A A A becomes A B A." in found


def test_of_a_long_row_only_the_changes_are_told() -> None:
    # Cells of three: step 10 lies in the fourth (9-11), 13 in the fifth, 16 in the sixth, 31 in the eleventh (30-32).
    frame = cycle_layer("Frame", {"bass drum": "x-x"}, 64)
    soft = "".join("g" if step in (10, 13, 16, 31) else "-" for step in range(64))
    found = told(groove([frame, layer("Soft", {"snare": soft})], bars=4), StatedCells(3))
    assert "With the ghost notes four of twenty-one cells get another letter: numbers 4 to 6 and 11." in found


def test_a_mirror_has_its_centre_on_a_cell() -> None:
    assert "The letters read the same from both ends; the centre is cell three, the letter C." in of_letters("ABCBA")


def test_a_mirror_has_its_centre_between_two_cells() -> None:
    assert "The letters read the same from both ends; the centre lies between cells two and three." in of_letters(
        "ABBA"
    )


def test_what_would_make_a_mirror_is_an_answer() -> None:
    # One more A behind A B C A A C B: the eight letters turn between the fourth and the fifth.
    sentence = (
        "One more cell, A, makes the letters read the same from both ends; "
        "the centre then lies between cells four and five."
    )
    assert sentence in of_letters("ABCAACB", answers=True)
    assert sentence not in of_letters("ABCAACB")


def test_the_order_comes_back() -> None:
    assert "The order A A B comes back every three cells." in of_letters("AABAAB")
    assert not any("comes back" in each for each in of_letters("ABCAACB"))


def test_halves_are_exchanged() -> None:
    # R L R R is answered by L R L L.
    assert "The second half is the first with A and B exchanged." in of_letters("ABAABABB")
    assert not any("exchanged" in each for each in of_letters("AABB"))


@pytest.mark.parametrize(
    ("letters", "sentence"),
    [
        # Single Paradiddle, RLRR LRLL: Percussive Arts Society, International Drum Rudiments (from memory)
        ("ABAABABB", "The letters are ordered like the hands of the Single Paradiddle."),
        ("ABAABABA", "The order of the letters is one letter away from the hands of the Single Paradiddle."),
        ("ABBABAAB", "The letters are ordered like the hands of the Single Paradiddle, begun on stroke two."),
    ],
)
def test_the_order_is_that_of_hands(letters: str, sentence: str) -> None:
    assert sentence in of_letters(letters)


def test_two_readings_are_both_told() -> None:
    # 3+3+3+3+2+2: one bar over and over, and nearly as well six steps cut off by the bar.
    found = told(groove([layer("F", {"snare": "x--x--x--x--x-x-" * 4})], bars=4))
    assert "Two readings fit about as well: cells of six, or of sixteen sixteenths." in found
    assert not any("Cell and bar line" in each for each in found)


def test_strokes_spread_evenly() -> None:
    # Three in eight, 3+3+2, is Euclidean: Toussaint 2005, Bridges, pages 47-56 (tests/sources/rhythm/euclidean.json
    # holds other strings of that list).
    found = told(groove([layer("F", {"snare": "x--x--x-"})], meter="2/4"))
    assert "The three strokes of the figure are spread over eight sixteenths as evenly as can be." in found
    assert not any("evenly" in each for each in told(groove([layer("F", {"snare": "x-x-x-x-"})], meter="2/4")))


@pytest.mark.parametrize("made", [groove([], bars=2), groove([layer("One", {"snare": "x" + "-" * 15})])])
def test_of_next_to_nothing_nothing_is_told(made: Groove) -> None:
    assert told(made) == ()


@pytest.mark.parametrize("seed", range(60))
def test_every_finding_is_a_whole_sentence(seed: int) -> None:
    made = any_groove(seed)
    for stated in (None, StatedCells(3), StatedCells(5, 2)):
        for sentence in told(made, stated, answers=True):
            assert sentence[0].isupper() and sentence.endswith("."), sentence
            assert not set(sentence) & set("{}_") and "  " not in sentence and " ," not in sentence, sentence


def test_a_step_without_a_name_is_called_step() -> None:
    # 1/36 of a whole note has no name: the bar of 4/4 has 36 of them, seven cells of five and one step.
    step = Fraction(1, 36)
    found = told(groove([cycle_layer("F", {"snare": "xx---"}, 36, step=step)], step=step), StatedCells(5))
    assert "One bar holds seven whole cells, and one step is left over, the beginning of another A." in found
