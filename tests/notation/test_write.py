"""Pattern lines as they stand on the staff, one rule a case, with where the rule comes from.

OU: Open University, Introduction to music theory, 3.6 and 4.2 (read through notes made from it). RT: R. Thomas, Beams,
part 1 (through notes). CC: Colorado College Music Press, Tuplets (through notes). LYN: LilyPond notation manual. CP:
common practice, no source. Ours: decided here, after common practice.
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from engraver.notation import VoiceName
from engraver.rhythm import Span, Tuplet
from engraver.style import Rests
from tests.notation.rendering import groove_of, strokes, written

S, E, T32, T12, T24 = F(1, 16), F(1, 8), F(1, 32), F(1, 12), F(1, 24)

PLAIN = [
    # meter, step, pattern, expected, rule, source
    ("4/4", S, "xxxx----x---x---", "[16 16 16 16] r4 4 4", "sixteenths share a beam per beat", "OU, RT"),
    ("4/4", S, "x---x---x---x---", "4 4 4 4", "a note fills its beat", "CP"),
    ("4/4", S, "x-------x-------", "4 r4 4 r4", "no struck note reaches over its beat, no tie", "CP"),
    ("4/4", S, "x--x----x--x----", "[8. 16] r4 [8. 16] r4", "dotted eighth and sixteenth", "CP"),
    ("4/4", S, "xx--x---xx--x---", "[16 8.] 4 [16 8.] 4", "sixteenth and dotted eighth", "CP"),
    ("4/4", S, "xx-xxx-xxx-xxx-x", " ".join(["[16 8 16]"] * 4), "a note may hide the half of its quarter", "CP"),
    ("4/4", S, "x-xxxxx-x---x---", "[8 16 16] [16 16 8] 4 4", "eighth and two sixteenths", "OU"),
    ("4/4", S, "-x---x---x---x--", "r16 8. r16 8. r16 8. r16 8.", "sixteenth rest at the head of a beat", "OU"),
    ("4/4", S, "--x---x---x---x-", "r8 8 r8 8 r8 8 r8 8", "eighth rest at the head of a beat", "OU"),
    ("4/4", S, "---x---x---x---x", "r8. 16 r8. 16 r8. 16 r8. 16", "three sixteenths of rest at the head", "Ours"),
    ("4/4", S, "-xxx----x---x---", "r16 [16 16 16] r4 4 4", "a beam does not begin on a rest", "CP"),
    ("4/4", S, "-x-x-xx-x-------", "r16 [8 16] r16 [16 8] 4 r4", "rest, then the sixteenth figure", "CP"),
    # rests of whole beats
    ("4/4", S, "x---------------", "4 r4 r2", "half rest for beats 3-4", "OU 4.2"),
    ("4/4", S, "--------x---x---", "r2 4 4", "half rest for beats 1-2", "OU 4.2"),
    ("4/4", S, "x-----------x---", "4 r4 r4 4", "no rest across the middle", "OU 4.2"),
    ("4/4", S, "------------x---", "r2 r4 4", "half rest then quarter", "OU 4.2"),
    ("3/4", S, "x-----------", "4 r4 r4", "two quarter rests in 3/4", "OU 4.2"),
    ("3/4", S, "--------x---", "r4 r4 4", "two quarter rests in 3/4", "OU 4.2"),
    ("3/4", S, "x---x-------", "4 4 r4", "quarter rest", "OU 4.2"),
    ("3/4", E, "x-xx--", "4 [8 8] r4", "quarter rest after eighths", "OU 4.2"),
    ("5/4", S, "x-------------------", "4 r4 r4 r4 r4", "every other x/4 meter rests by the beat", "Ours"),
    ("2/2", E, "x-------", "2 r2", "half rests for the beats of 2/2", "CP"),
    ("4/4", S, "----------------", "R", "a bar of silence is one whole-bar rest", "LYN"),
    ("7/8", S, "--------------", "R", "in any meter", "LYN"),
    # beams
    ("4/4", E, "xxxxxxxx", "[8 8 8 8] [8 8 8 8]", "four eighths of a half bar, never across the middle", "OU"),
    ("4/4", S, "x-x-x-x-xxxxx-x-", "[8 8 8 8] [16 16 16 16] [8 8]", "only where there are only eighths", "RT"),
    ("4/4", E, "-xxxxxxx", "r8 8 [8 8] [8 8 8 8]", "a half bar with a rest beams by the beat", "Ours"),
    ("4/4", E, "xxx-xx-x", "[8 8] 4 [8 8] r8 8", "a quarter breaks the beam", "CP"),
    ("4/4", E, "--xxxx--", "r4 [8 8] [8 8] r4", "no beam across the middle", "OU, RT"),
    ("2/4", E, "xxxx", "[8 8 8 8]", "2/4: all eighths may share one beam", "OU"),
    ("3/4", E, "xxxxxx", "[8 8] [8 8] [8 8]", "3/4 by the beat, never 3+3", "CP; OU allows one beam of six"),
    ("2/4", S, "x-xxxx-x", "[8 16 16] [16 8 16]", "mixed values beam by the beat", "RT"),
    ("2/2", E, "xxxxxxxx", "[8 8 8 8] [8 8 8 8]", "2/2 by the half", "OU"),
    ("2/2", S, "xxxxxxxxx-x-x-x-", "[16 16 16 16] [16 16 16 16] [8 8 8 8]", "sixteenths by quarters", "RT"),
    # compound
    ("6/8", E, "xxxxxx", "[8 8 8] [8 8 8]", "threes, not six", "RT"),
    ("9/8", E, "xxxxxxxxx", "[8 8 8] [8 8 8] [8 8 8]", "threes", "RT"),
    ("12/8", E, "xxxxxxxxxxxx", " ".join(["[8 8 8]"] * 4), "threes", "RT"),
    ("6/8", E, "x--x--", "4. 4.", "dotted quarter fills the beat", "CP"),
    ("6/8", E, "x-----", "4. r4.", "dotted rest for a whole compound beat", "CP"),
    ("12/8", E, "x-----------", "4. r4. r4. r4.", "one rest each beat", "Ours"),
    ("6/8", E, "x-xx-x", "4 8 4 8", "quarter and eighth", "CP"),
    ("6/8", E, "xx-xx-", "8 4 8 4", "eighth and quarter", "CP"),
    ("6/8", E, "-xx-x-", "r8 [8 8] r8 4", "eighth rest at the head", "CP"),
    ("6/8", E, "--x--x", "r4 8 r4 8", "the first two eighths share a rest", "CP"),
    ("6/8", S, "x--xx-x-----", "[8. 16 8] 4.", "dotted figure within the beat", "CP"),
    ("6/8", S, "x----xx-----", "4 r16 16 4.", "five sixteenths: quarter and rest, not a tie", "Ours"),
    ("6/8", S, "-x----x-----", "r16 16 r8 r8 4.", "off the eighth a note ends with its eighth", "Ours"),
    ("6/8", S, "xx-xx-x-----", "[16 8 16 8] 4.", "but may last one eighth to the next", "Ours"),
    ("6/8", S, "x--x--x-----", "[8. 16] r8 4.", "off the eighth a note ends with its eighth", "Ours"),
    ("3/8", S, "xxxxxx", "[16 16 16 16 16 16]", "all of 3/8 may share a beam", "OU"),
    # additive and uneven
    ("7/8", E, "xxxxxxx", "[8 8] [8 8] [8 8 8]", "2+2+3 unless stated", "CP"),
    ("3+2+2/8", E, "xxxxxxx", "[8 8 8] [8 8] [8 8]", "as stated", "CP"),
    ("2+3+2/8", S, "x-x-x-x-x-x-xx", "[8 8] [8 8 8] [8 16 16]", "as stated", "CP"),
    ("5/8", E, "xxxxx", "[8 8 8] [8 8]", "3+2 unless stated", "LilyPond 2.24.3, time-signature-settings.scm"),
    ("2+3/8", E, "x-x--", "4 4.", "a note fills its beat", "CP"),
    ("2+3/8", E, "x----", "4 r4.", "a rest for each beat", "CP"),
    ("4+3/8", E, "xxxxx--", "[8 8 8 8] 4.", "a beat of four as stated", "CP"),
    ("4+3/8", S, "xxxxx-x-x-----", "[16 16 16 16] [8 8] 4.", "sixteenths by quarters in a long beat", "RT"),
    ("3+2/4", E, "xxxxxxxxxx", "[8 8 8 8 8 8] [8 8 8 8]", "groups as stated", "CP"),
    ("2/2", S, "---x------------", "r8 r16 16 r4 r2", "no dotted rest in a longer simple beat", "Ours"),
    ("6/8", S, "---x--------", "r8 r16 16 r8 r4.", "a rest for each eighth of a compound beat", "Ours"),
    # finer grids
    ("1/4", T32, "xxxxxxxx", "[32 32 32 32 32 32 32 32]", "32nds in their beat", "CP"),
    ("1/4", T32, "x----x--", "[8 r32 16.]", "five 32nds: eighth and rest", "Ours"),
    ("1/4", T32, "-x------", "r32 16. r8", "a note from the second 32nd stops at the half", "Ours"),
    ("1/4", T32, "---x-x--", "r16 r32 [32 r32 16.]", "the half of the beat is not hidden", "Ours"),
    ("1/4", T32, "xx-xx---", "[32 16 32 8]", "one level may be hidden", "CP"),
]

TUPLETS = [
    ("1/4", T12, "xxx", "3:2{[8 8 8]}", "beamed: number alone", "LYN"),
    ("1/4", T12, "x-x", "3:2<{4 8}>", "not under one beam: bracket", "CC"),
    ("1/4", T12, "xx-", "3:2<{8 4}>", "not under one beam: bracket", "CC"),
    ("1/4", T12, "-xx", "3:2<{r8 [8 8]}>", "a rest at the end: bracket", "CC"),
    ("1/4", T12, "--x", "3:2<{r4 8}>", "rests within a tuplet", "CC"),
    ("1/4", T12, "x--", "4", "only its first note: no tuplet", "CP"),
    ("1/4", T24, "xxxxxx", "6:4{[16 16 16 16 16 16]}", "six in the time of four", "CC"),
    ("1/4", T24, "x-x-x-", "3:2{[8 8 8]}", "the smallest number that holds the onsets", "Ours"),
    ("1/4", T24, "x--x--", "[8 8]", "halves of the beat are plain", "CP"),
    ("1/4", T24, "xxxx--", "[3:2<{16 16 16}> 8]", "a triplet in half a beat, under the beat's beam", "CP"),
    ("1/4", T24, "x--xxx", "[8 3:2<{16 16 16}>]", "a triplet in half a beat", "CP"),
    ("1/4", T24, "xx-xx-", "6:4{[16 8 16 8]}", "half the strokes are off the triplet: a sextuplet", "Ours"),
    ("1/4", T24, "x-xxx-", "3:2{[8 16 16 8]}", "one pair of sixteenths: still a triplet", "Ours"),
    ("1/4", F(1, 48), "x-x-xxx-x-x-", "6:4{[16 16 32 32 16 16 16]}", "one pair of 32nds: a sextuplet", "Ours"),
    ("1/4", F(1, 44), "xxxxxxxxxxx", "11:8{[" + " ".join(["32"] * 11) + "]}", "a ratio between 1 and 2", "CC"),
    ("1/4", F(1, 20), "xxxxx", "5:4{[16 16 16 16 16]}", "5:4", "CC"),
    ("1/4", F(1, 28), "xxxxxxx", "7:4{[16 16 16 16 16 16 16]}", "7:4", "CC"),
    ("1/4", F(1, 36), "xxxxxxxxx", "9:8{[32 32 32 32 32 32 32 32 32]}", "9:8", "CC"),
    ("1/4", F(1, 20), "x----", "4", "only its first note: no tuplet", "CP"),
    ("1/4", F(1, 20), "x--x-", "5:4{[8. 8]}", "dots within a tuplet", "CP"),
    ("3/8", F(3, 32), "xxxx", "4:3{[8 8 8 8]}", "four in the time of three eighths", "CP"),
    ("3/8", F(3, 40), "xxxxx", "5:3{[8 8 8 8 8]}", "a ratio between 1 and 2", "CC"),
    ("3/8", F(3, 56), "xxxxxxx", "7:6{[16 16 16 16 16 16 16]}", "a ratio between 1 and 2", "CC"),
    ("3/8", F(1, 24), "xxxxxxxxx", "9:6{[16 16 16 16 16 16 16 16 16]}", "a ratio between 1 and 2", "CC"),
    ("4/4", F(1, 6), "xxxxxx", "3:2<{4 8}> 3:2<{r8 4}> 3:2<{4 8}> 3:2<{r8 4}>", "found by the beat", "Ours"),
]


@pytest.mark.parametrize(("meter", "step", "pattern", "expected", "rule", "source"), PLAIN + TUPLETS)
def test_a_pattern_is_written_by_the_rule(
    meter: str, step: F, pattern: str, expected: str, rule: str, source: str
) -> None:
    assert written(groove_of(strokes("snare", pattern, step), meter)) == _as_rendered(expected), f"{rule} ({source})"


def _as_rendered(expected: str) -> str:
    """A beam that runs over the edge of a tuplet is marked at its notes: ``[3:2<{16`` is ``3:2<{[16``."""
    return expected.replace("[3:2<{", "3:2<{[").replace("}>]", "]}>")


AUTHORED = [
    # meter, pattern and its step, span of the bracket, count, expected, rule
    ("4/4", "xxx---", F(1, 6), Span(F(0), F(1, 2)), 3, "3:2<{4 4 4}> r2", "quarter triplet over a half bar"),
    ("4/4", "x-x---", F(1, 6), Span(F(0), F(1, 2)), 3, "3:2<{2 4}> r2", "with a half note in it"),
    ("2/4", "xxxxx", F(1, 10), Span(F(0), F(1, 2)), 5, "5:4{[8 8 8 8 8]}", "five over both beats share one beam"),
    ("6/8", "xxxx", F(3, 16), Span(F(0), F(3, 8)), 2, "2:3{[8 8]} [8. 16] r8", "a duplet only where it is bracketed"),
    ("6/8", "x-xx", F(3, 16), Span(F(0), F(3, 8)), 2, "4. [8. 16] r8", "only its first note: no bracket"),
    ("4/4", "xxx---------", T24, Span(F(0), F(1, 8)), 3, "3:2{[16 16 16]} r8 r4 r2", "a triplet within the beat"),
    ("1/4", "x-xxx-", T24, Span(F(0), F(1, 4)), 3, "3:2{[8 16 16 8]}", "halves of its notes may stand in it"),
    ("1/4", "x-----", T24, Span(F(0), F(1, 4)), 6, "4", "only its first note: no bracket"),
    ("1/4", "x--x--", T24, Span(F(0), F(1, 4)), 6, "[8 8]", "plain notes do"),
    (
        "2/4",
        "x--x-x-x-x--",
        T24,
        Span(F(1, 8), F(3, 8)),
        3,
        "8 3:2{[8 8 8]} 8",
        "across the beat",
    ),
]


@pytest.mark.parametrize(("meter", "pattern", "step", "span", "count", "expected", "rule"), AUTHORED)
def test_an_authors_tuplet_is_kept_where_it_is_needed(
    meter: str, pattern: str, step: F, span: Span, count: int, expected: str, rule: str
) -> None:
    groove = groove_of(strokes("snare", pattern, step), meter, (Tuplet(span, count),))
    assert written(groove) == expected, rule


def test_halves_of_a_beat_take_different_tuplets_under_one_beam() -> None:
    three, five = strokes("snare", "xxx", T24), strokes("snare", "xxxxx", F(1, 40), F(1, 8))
    assert written(groove_of((*three, *five), "1/4")) == "3:2<{[16 16 16}> 5:4<{32 32 32 32 32]}>"


def test_each_voice_takes_its_own_tuplet() -> None:
    hands, feet = strokes("ride", "xxx", T12), strokes("bass drum", "x-x-", S)
    groove = groove_of((*hands, *feet), "1/4", (Tuplet(Span(F(0), F(1, 4)), 3),))
    assert written(groove) == "3:2{[8 8 8]}"
    assert written(groove, VoiceName.LOWER) == "[8 8]"


def both(upper: str, lower: str, rests: Rests = Rests.SPARING) -> tuple[str, str]:
    groove = groove_of((*strokes("snare", upper, F(1, 4)), *strokes("bass drum", lower, F(1, 4))), "4/4,4/4")
    return written(groove, VoiceName.UPPER, rests), written(groove, VoiceName.LOWER, rests)


SILENCE = [
    ("xxxxxxxx", "x---x---", Rests.SPARING, "4 4 4 4 | 4 4 4 4", "4 r4 r2 | 4 r4 r2"),
    ("xxxxxxxx", "x-------", Rests.SPARING, "4 4 4 4 | 4 4 4 4", "4 r4 r2 | -"),
    ("xxxxxxxx", "x-------", Rests.FULL, "4 4 4 4 | 4 4 4 4", "4 r4 r2 | R"),
    ("xxxxxxxx", "--------", Rests.FULL, "4 4 4 4 | 4 4 4 4", "- | -"),
    ("xxxx----", "x-------", Rests.SPARING, "4 4 4 4 | R", "4 r4 r2 | -"),
    ("xxxx----", "x-------", Rests.FULL, "4 4 4 4 | R", "4 r4 r2 | -"),
    ("--------", "x-x-x-x-", Rests.SPARING, "- | -", "4 r4 4 r4 | 4 r4 4 r4"),
]


@pytest.mark.parametrize(("upper", "lower", "rests", "hands", "feet"), SILENCE)
def test_a_silent_bar_rests_as_the_style_says(upper: str, lower: str, rests: Rests, hands: str, feet: str) -> None:
    """Ours: a voice that is silent for the bar shows nothing; the bar that nobody plays has one rest."""
    assert both(upper, lower, rests) == (hands, feet)


CUT = [
    # meters, step, pattern, pickup, cut, expected
    ("4/4,4/4", S, "xxxx x---------------", F(1, 4), None, "[16 16 16 16] | 4 r4 r2"),
    ("4/4,4/4", S, "xxx x---------------", F(3, 16), None, "[16 16 16] | 4 r4 r2"),
    ("4/4", S, "x-x-xx", F(0), F(6, 16), "[8 8] [16 16]"),
    ("4/4", S, "x-x-x--", F(0), F(7, 16), "[8 8] 8."),
    ("4/4", T12, "xx", F(0), F(1, 6), "3:2{[8 8]}"),
    ("6/8,6/8", E, "x x-----", F(1, 8), None, "8 | 4. r4."),
]


@pytest.mark.parametrize(("meters", "step", "pattern", "pickup", "cut", "expected"), CUT)
def test_a_partial_bar_keeps_the_beats_of_its_meter(
    meters: str, step: F, pattern: str, pickup: F, cut: F | None, expected: str
) -> None:
    """A pickup is the end of a bar, a bar that is cut off its beginning. Common practice, no source."""
    assert written(groove_of(strokes("snare", pattern, step), meters, pickup=pickup, cut=cut)) == expected


ORNAMENTS = [
    ("=-x-", "[16/ r16 8]", "a slash lasts one step: a sixteenth with one slash is two 32nds"),
    ("==x-", "[16/ 16/ 8]", "doubles share beams"),
    ("z-x-", "[16z r16 8]", "a buzz lasts one step too"),
    ("f-x-", "[8 8]", "grace strokes take no time"),
]


@pytest.mark.parametrize(("pattern", "expected", "rule"), ORNAMENTS)
def test_ornaments_of_a_sixteenth(pattern: str, expected: str, rule: str) -> None:
    """Slashes count on top of flags and beams. Source: Dolmetsch online, theory 24 (through notes)."""
    assert written(groove_of(strokes("snare", pattern, S), "1/4")) == expected, rule


def test_a_double_beside_a_plain_stroke_is_written_out() -> None:
    groove = groove_of((*strokes("snare", "=---", S), *strokes("ride", "x---", S)), "1/4")
    assert written(groove) == "[32 16.] r8"


def test_a_double_of_a_dotted_step_is_written_out() -> None:
    """A slash on a dotted note would be read as three strokes. Ours."""
    assert written(groove_of(strokes("snare", "=", F(3, 16)), "1/4")) == "[16. 32] r8"


def test_a_double_on_a_triplet_note_keeps_its_slash() -> None:
    assert written(groove_of(strokes("snare", "==x", T12), "1/4")) == "3:2{[8/ 8/ 8]}"


def test_a_double_over_the_bar_line_is_written_out() -> None:
    assert written(groove_of(strokes("snare", "=", F(1, 4), F(1, 8)), "1/4,1/4")) == "r8 8 | 4"
