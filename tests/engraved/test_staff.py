"""What stands on the staff, read back from the page, rule by rule; each names its source.

Many are places where LilyPond's own default differs (measured with 2.24.3): the facts say so beside each.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise

import pytest

from engraver.chapters import Ribbon
from engraver.notation import VoiceName
from engraver.proof.drawn import Thing
from engraver.style import BarNumbers, Rests, Style, Voices
from tests.engraved.sheets import Case, Sheet, groove

UP, DOWN = VoiceName.UPPER, VoiceName.LOWER
EIGHTH, SIXTEENTH = Fraction(1, 8), Fraction(1, 16)
REPEATS = "repeats:\n  - {bars: 1-2, times: 4}\n  - {bars: 3-5, times: 3, endings: [4, 5]}\n"
NAMED = "sections:\n  - {name: First part, bars: 1-2}\n  - {name: B, bars: 3-4}\n"
FIVES = (*(Ribbon("AB"[n % 2], Fraction(5, 16)) for n in range(9)), Ribbon("", Fraction(3, 16)))

TRIPLETS = groove(
    "snare: xxx x-x -xx x-- xxx xxx xxx xxx",
    "bass drum: x-x x-x x-- x-- x-x x-- x-- x--",
    step="eighth triplet",
    bars=2,
)
EQUAL = groove("snare: x-x-x-x-", "bass drum: x---x---", step="eighth", bars=4)
CHANGING = groove("snare: {bars 1-3: 'x-x-x-x-', bar 4: 'xxxxxxxx'}", "bass drum: x---x---", step="eighth", bars=4)
HALF_SILENT = groove("snare: x---x---", "bass drum: {bar 1: 'x---'}", step="quarter", bars=2)
CYCLE = groove("hi-hat: {cycle: 'x----'}", "bass drum: x--- x--- x--- x---", bars=3)
SIGNS = Style(repeat_bars=True)

CASES = [
    Case("quarter", groove("snare: x---------------", "bass drum: ----x-----------")),
    Case("last quarter", groove("snare: ------------x---", "bass drum: x---------------")),
    Case("three four", groove("snare: x-----", meter="3/4", step="eighth")),
    Case("three four dotted", groove("snare: x--------x--", meter="3/4")),
    Case("six eight", groove("snare: x-----", meter="6/8", step="eighth")),
    Case("buzz", groove("snare: z--- x---", "bass drum: x--- x---", meter="2/4")),
    Case("silent bar", groove("snare: {bar 1: 'xxx'}", meter="3/4", step="quarter", bars=2)),
    Case("both rest", groove("snare: x---x---", "bass drum: x---x---", step="quarter", meter="4/4", bars=2)),
    Case("hands alone", groove("snare: x---x---x---x---")),
    Case("full rests", HALF_SILENT, Style(rests=Rests.FULL)),
    Case("syncopation", groove("snare: xx-x xx-x", meter="2/4")),
    Case("offbeat", groove("snare: x--x--x-", step="eighth")),
    Case("kit", groove("hi-hat: x-x-", "snare: --x-", "floor tom: x---", "bass drum: x-x-", meter="1/4")),
    Case("one voice", groove("hi-hat: x-x-", "snare: --x-", "bass drum: x-x-", meter="1/4"), Style(voices=Voices.ONE)),
    Case("accents", groove("hi-hat: X-x-", "bass drum: X-x-", meter="1/4")),
    Case("open", groove("open hi-hat: X-x-", "hi-hat splash: x-x-", meter="1/4")),
    Case("closed", groove("hi-hat: x-x-", "half-open hi-hat: -x--", meter="1/4")),
    Case("ghost in a chord", groove("hi-hat: x-x-", "snare: g-x-", meter="1/4")),
    Case("graces", groove("snare: f--- d--- r--- x---", "bass drum: x--- x--- x--- x---")),
    Case("doubles", groove("snare: =-x- z-x-", meter="2/4")),
    Case("choke", groove("crash: c--- x---", meter="2/4")),
    Case("triplets", TRIPLETS),
    Case("ratios", groove("snare: (xxxxx)4 (xxxxxxx)4 (xxxxxx)4 (xxx)4")),
    Case("quarter triplet", groove("snare: (xxx)8 x---x---")),
    Case("repeats", groove("snare: x-x-x-x-", step="eighth", bars=5, more=REPEATS)),
    Case("exercise", groove("snare: x-x-x-x-", step="eighth"), repeats=8),
    Case("sections", groove("snare: x-x-x-x-", step="eighth", bars=4, more=NAMED)),
    Case("repeat bars", EQUAL, SIGNS),
    Case("changing bars", CHANGING, SIGNS),
    Case("numbers", groove("snare: xxxx xxxx xxxx xxxx", bars=6), Style(bar_numbers=BarNumbers.LINES)),
    Case("cells", CYCLE, ribbons=FIVES),
    Case("coloured", CYCLE, Style(coloured_notes=True), ribbons=FIVES),
    Case("additive", groove("snare: xxxxxxx", meter="(2+2+3)/8", step="eighth")),
]  # fmt: skip


@pytest.fixture(scope="module")
def sheets(engraved: Callable[[Sequence[Case]], Mapping[str, Sheet]]) -> Mapping[str, Sheet]:
    return engraved(CASES)


def values(sheet: Sheet) -> list[str]:
    return [value for _, value in sheet.rests()]


def at(things: Sequence[Thing], moment: Fraction) -> list[Thing]:
    return [thing for thing in things if thing.moment == moment]


# ------------------------------------------------------------------ rests and values
@pytest.mark.parametrize(
    ("name", "rests"),
    [
        ("three four", ["2", "2"]),  # 3/4: after a quarter two quarter rests: Open University 3.6, 4.2
        ("six eight", ["2"]),  # a dotted rest in compound time: common practice, no source
        ("three four dotted", ["2", "4"]),  # rests inside the beat after it: Open University 4.2
        (
            "buzz",
            ["4", "3"],
        ),  # under the beat by half-beats: sixteenth, sixteenth rest, eighth rest: Open University 4.2
    ],
)
def test_rests_show_the_beat(name: str, rests: list[str], sheets: Mapping[str, Sheet]) -> None:
    """Values as LilyPond's glyphs name them: 1 a half, 2 a quarter, 3 an eighth, 4 a sixteenth."""
    assert values(sheets[name]) == rests


def test_a_half_rest_stands_for_beats_3_and_4_and_none_crosses_the_middle(sheets: Mapping[str, Sheet]) -> None:
    """Source: Open University, Introduction to music theory, 3.6."""
    assert (Fraction(1, 2), "1") in sheets["quarter"].rests()
    assert all(rest != (Fraction(1, 4), "1") for name in ("quarter", "last quarter") for rest in sheets[name].rests())
    assert (Fraction(1, 2), "2") in sheets["last quarter"].rests()


def test_a_silent_bar_has_one_whole_bar_rest_in_its_middle(sheets: Mapping[str, Sheet]) -> None:
    """Also in 3/4: LilyPond notation manual; a plain whole rest would stand on the left."""
    (rest,) = sheets["silent bar"].of("MultiMeasureRest")
    assert rest.words == ("rests.0",)
    lines = sorted(bar.box.left for bar in sheets["silent bar"].of("BarLine"))
    assert abs(rest.box.left + rest.box.right - lines[-1] - lines[-2]) < 1.5


def test_a_rest_of_both_voices_is_printed_once(sheets: Mapping[str, Sheet]) -> None:
    """Source: notes on Weinberg's guidelines, a rest common to both may be written once. LilyPond prints two."""
    rests = sheets["both rest"].of("Rest")
    assert len(rests) == len({(rest.moment, round(rest.box.left)) for rest in rests}) > 0
    assert len({rest.moment for rest in rests}) == len(rests)


def test_a_silent_voice_has_no_rests(sheets: Mapping[str, Sheet]) -> None:
    """H8 of our facts: a skip hides a rest. In full style it has the whole-bar rest."""
    assert not sheets["hands alone"].of("Rest", "MultiMeasureRest")
    assert len(sheets["full rests"].of("MultiMeasureRest")) == 1


def test_rests_of_two_voices_stand_apart(sheets: Mapping[str, Sheet]) -> None:
    """Each voice has its own rests: notes on Weinberg's guidelines; LilyPond sets them two spaces from the middle."""
    (staff,) = sheets["quarter"].of("StaffSymbol")
    middle = (staff.box.bottom + staff.box.top) / 2
    upper = [rest for rest in sheets["quarter"].of("Rest") if rest.box.bottom > middle - 0.5]
    lower = [rest for rest in sheets["quarter"].of("Rest") if rest.box.top < middle]
    assert upper and lower


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_struck_notes_are_never_tied_nor_slurred(case: Case, sheets: Mapping[str, Sheet]) -> None:
    """A tie would lengthen a sound that has no length: common practice, no source. \\acciaccatura would add slurs."""
    assert not sheets[case.name].of("Tie", "Slur", "RepeatTie", "LaissezVibrerTie")


def test_the_usual_syncopation_stays_in_its_beat(sheets: Mapping[str, Sheet]) -> None:
    """Sixteenth, eighth, sixteenth hides no beat: Puget Sound Music Theory 4.6 allows it; which figure: memory."""
    assert sheets["syncopation"].groups() == "3+3"
    assert not sheets["syncopation"].of("Rest")


# ------------------------------------------------------------------ voices
def test_hands_go_up_and_feet_down(sheets: Mapping[str, Sheet]) -> None:
    """Source: notes on Weinberg's guidelines. LilyPond's own stems turn down above the middle line."""
    assert {stem.direction for stem in sheets["kit"].of("Stem")} == {1, -1}
    assert {position for heads in sheets["kit"].heads(UP).values() for position, _ in heads} == {5, 1, -1}
    assert {position for heads in sheets["kit"].heads(DOWN).values() for position, _ in heads} == {-3}


def test_one_voice_has_all_stems_up(sheets: Mapping[str, Sheet]) -> None:
    """LilyPond mixes directions in one voice: hi-hat down, bass drum up."""
    assert {stem.direction for stem in sheets["one voice"].of("Stem") if stem.boxes} == {1}
    assert sheets["one voice"].heads(UP)[Fraction(0)] == ((-3, "normal"), (5, "x"))
    assert not sheets["one voice"].heads(DOWN)


def test_beams_of_two_voices_point_away_from_each_other(sheets: Mapping[str, Sheet]) -> None:
    """Common practice, no source."""
    (staff,) = sheets["kit"].of("StaffSymbol")
    beams = sheets["kit"].of("Beam")
    assert {beam.direction for beam in beams} == {1, -1}
    for beam in beams:
        assert beam.box.bottom > staff.box.top if beam.direction == 1 else beam.box.top < staff.box.bottom


# ------------------------------------------------------------------ signs
def test_accents_stand_at_the_stem_end_outside_the_beam(sheets: Mapping[str, Sheet]) -> None:
    """LilyPond, two voices: above for the upper, below for the lower."""
    above, below = sorted(sheets["accents"].of("Script"), key=lambda sign: -sign.box.bottom)
    beams = {beam.direction: beam.box for beam in sheets["accents"].of("Beam")}
    assert above.box.bottom > beams[1].top
    assert below.box.top < beams[-1].bottom


def test_a_hi_hat_is_closed_without_a_sign(sheets: Mapping[str, Sheet]) -> None:
    """Source: Weinberg, Drumset Cymbal Notation. LilyPond's closedhihat always prints +."""
    signs = {sign.words[0]: sign.moment for sign in sheets["closed"].of("Script")}
    assert {name: moment for name, moment in signs.items() if "stopped" in name} == {}
    assert [*signs.values()] == [SIXTEENTH]


def test_an_open_sign_stands_between_its_note_and_the_accent(sheets: Mapping[str, Sheet]) -> None:
    """Ours: the accent is of all that is struck, the sign of the hi-hat; LilyPond stacks them the other way."""
    above = [sign for sign in at(sheets["open"].of("Script"), Fraction(0)) if sign.direction == 1]
    assert [sign.words[0] for sign in sorted(above, key=lambda sign: sign.box.bottom)] == [
        "scripts.open",
        "scripts.sforzato",
    ]


def test_the_sign_of_a_splash_of_the_foot_is_below(sheets: Mapping[str, Sheet]) -> None:
    """Source: LilyPond 2.27.3, splashhihat."""
    (staff,) = sheets["open"].of("StaffSymbol")
    splash = [sign for sign in sheets["open"].of("Script") if sign.direction == -1]
    assert [sign.words[0] for sign in splash] == ["scripts.open"] * 2
    assert all(sign.box.top < staff.box.bottom for sign in splash)


def test_parentheses_hold_one_head_of_a_chord(sheets: Mapping[str, Sheet]) -> None:
    """Ghosts are parenthesised heads: notes on Weinberg's guidelines, p. 20."""
    first = next(one for one in sheets["ghost in a chord"].ink if one.onset == 0)
    assert {(head.position, head.parenthesised) for head in first.heads} == {(1, True), (5, False)}


def test_flam_drag_and_ruff_have_one_two_and_three_graces(sheets: Mapping[str, Sheet]) -> None:
    """One for a flam and two for a drag: rudiment pages; three for a ruff (of four strokes): common practice."""
    assert {one.onset: len(one.graces) for one in sheets["graces"].ink if one.voice is UP} == {
        Fraction(0): 1, Fraction(1, 4): 2, Fraction(1, 2): 3, Fraction(3, 4): 0,
    }  # fmt: skip
    assert any("flags.ugrace" in flag.words for flag in sheets["graces"].of("Flag"))


def test_graces_do_not_push_the_other_voice_from_the_beat(sheets: Mapping[str, Sheet]) -> None:
    """Both voices of a moment stand on one line: LilyPond notation manual, grace notes in one voice."""
    heads = at(sheets["graces"].of("NoteHead"), Fraction(0))
    large = sorted(head.box.left for head in heads if head.box.right - head.box.left > 1.2)
    assert len(large) == 2 and large[1] - large[0] < 0.3


@pytest.mark.parametrize(("moment", "sign"), [(Fraction(0), ""), (Fraction(1, 4), "z")])
def test_rolls_are_clear_of_beam_and_head(moment: Fraction, sign: str, sheets: Mapping[str, Sheet]) -> None:
    (roll,) = at(sheets["doubles"].of("StemTremolo"), moment)
    assert "".join(roll.words) == sign
    beam = min(b.box.bottom for b in sheets["doubles"].of("Beam") if moment in b.joined)
    (head,) = at(sheets["doubles"].of("NoteHead"), moment)
    assert head.box.top < roll.box.bottom and roll.box.top < beam


def test_a_choke_is_told_over_its_note(sheets: Mapping[str, Sheet]) -> None:
    """A comma, as older usage has it: memory."""
    (comma,) = sheets["choke"].of("TextScript")
    assert (comma.moment, comma.words) == (Fraction(0), ("scripts.rcomma",))


# ------------------------------------------------------------------ tuplets
def test_a_tuplet_under_one_beam_has_its_number_alone(sheets: Mapping[str, Sheet]) -> None:
    """Colorado College Music Press, Tuplets: a bracket where a rest or no beam is; LilyPond notation manual."""
    brackets = [t for t in sheets["triplets"].of("TupletBracket") if t.direction == 1]
    assert [thing.bounds[0] for thing in brackets] == [Fraction(1, 4), Fraction(1, 2)]
    assert len([t for t in sheets["triplets"].of("TupletNumber") if t.direction == 1]) == 7


def test_tuplets_of_one_line_are_level(sheets: Mapping[str, Sheet]) -> None:
    """Ours. LilyPond slopes each with its notes."""
    for thing in sheets["triplets"].of("TupletBracket"):
        tops = [round(box.top, 2) for box in thing.boxes]
        assert max(tops) - min(tops) < 0.9, "no side higher than its hook"
    (line,) = sheets["triplets"].systems
    for side in (1, -1):
        drawn = [t.box for t in line if t.kind == "TupletBracket" and t.direction == side]
        assert len(drawn) > 1 and len({round(box.top if side == 1 else box.bottom, 1) for box in drawn}) == 1


def test_ratios_are_between_one_and_two(sheets: Mapping[str, Sheet]) -> None:
    """5:4, 7:4, 6:4, 3:2, each with its number: Colorado College Music Press, Tuplets."""
    assert sheets["ratios"].words("TupletNumber") == ["5", "7", "6", "3"]
    assert sheets["ratios"].groups() == "5+7+6+3"


def test_a_quarter_triplet_over_half_a_bar_has_a_bracket(sheets: Mapping[str, Sheet]) -> None:
    (bracket,) = sheets["quarter triplet"].of("TupletBracket")
    assert bracket.bounds == (Fraction(0), Fraction(1, 3))


# ------------------------------------------------------------------ repeats, names, numbers
def test_a_repeat_has_both_signs_and_its_count(sheets: Mapping[str, Sheet]) -> None:
    """A count that is not two must be stated, and LilyPond states none; it prints no sign at the beginning either."""
    assert sheets["repeats"].words("TextMark") == ["×4"]
    dots = [bar for bar in sheets["repeats"].of("BarLine") if any("dot" in word for word in bar.words)]
    assert len(dots) == 4  # two repeats, each with a sign at both ends
    assert len([b for b in sheets["exercise"].of("BarLine") if any("dot" in word for word in b.words)]) == 2


def test_endings_are_numbered_by_the_turns_they_are_for(sheets: Mapping[str, Sheet]) -> None:
    assert ["".join(thing.words) for thing in sheets["repeats"].of("VoltaBracket")] == ["1.\u200a2.", "3."]


def test_a_section_has_its_name_over_its_first_bar_and_a_letter_a_frame(sheets: Mapping[str, Sheet]) -> None:
    """Rehearsal letters are framed: common practice, no source."""
    assert sheets["sections"].words("SectionLabel") == ["First part", "B"]
    (staff, *_) = sheets["sections"].of("StaffSymbol")
    assert min(label.box.bottom for label in sheets["sections"].of("SectionLabel")[:1]) > staff.box.top


def test_bars_that_repeat_are_a_sign_once_and_in_the_middle(sheets: Mapping[str, Sheet]) -> None:
    """One slash with two dots, centred: OnMusic dictionary. LilyPond prints one in each voice. None begins a line."""
    signs = sheets["repeat bars"].of("PercentRepeat")
    lines = sheets["repeat bars"].systems
    assert len(signs) == 4 - len(lines)
    for line in lines:
        starts = min(thing.box.left for thing in line if thing.kind == "NoteHead")
        assert all(sign.box.left > starts for sign in line if sign.kind == "PercentRepeat")


def test_only_exact_repeats_are_a_sign(sheets: Mapping[str, Sheet]) -> None:
    assert Fraction(3) in sheets["changing bars"].heads(UP)
    assert 0 < len(sheets["changing bars"].of("PercentRepeat")) <= 2


def test_bar_numbers_stand_at_every_line_but_the_first(sheets: Mapping[str, Sheet]) -> None:
    """Source: MOLA guidelines, numbers at each system."""
    lines = sheets["numbers"].systems
    assert len(lines) > 1
    numbers = [[t.words[0] for t in line if t.kind == "BarNumber"] for line in lines]
    assert numbers[0] == [] and all(len(found) == 1 for found in numbers[1:])


def test_the_meter_is_numbers_and_a_sum_where_the_author_states_one(sheets: Mapping[str, Sheet]) -> None:
    """LilyPond prints C for 4/4 by itself."""
    assert sheets["quarter"].of("TimeSignature")[0].words == ("4", "4")
    assert "".join(sheets["additive"].of("TimeSignature")[0].words).replace(" ", "") in ("2+2+38", "22 38", "2+2+3/8")


# ------------------------------------------------------------------ cells
def blocks(sheet: Sheet) -> list[list[Thing]]:
    """Those of each line, from left to right."""
    return [sorted((t for t in line if t.kind == "TextSpanner"), key=lambda t: t.box.left) for line in sheet.systems]


def test_a_block_begins_at_its_cells_first_note_and_ends_before_the_next(sheets: Mapping[str, Sheet]) -> None:
    """Across bar lines too: cells of five sixteenths in 4/4. What goes on from the line above begins at the clef."""
    lines = blocks(sheets["cells"])
    assert [len(line) for line in lines] == [7, 4]
    for line, things in zip(lines, sheets["cells"].systems, strict=True):
        assert all(a.box.right <= b.box.left for a, b in pairwise(line))
        for block in line if line is lines[0] else line[1:]:
            heads = [head.box.left for head in things if head.kind == "NoteHead" and head.moment == block.bounds[0]]
            assert heads and all(0.2 < head - block.box.left < 0.5 for head in heads)


def test_a_cell_across_a_line_break_has_its_letter_on_both_lines(sheets: Mapping[str, Sheet]) -> None:
    words = [["".join(block.words) for block in line] for line in blocks(sheets["cells"])]
    assert words == [["A", "B", "A", "B", "A", "B", "A"], ["A", "B", "A", ""]]


def test_heads_have_the_colour_of_their_cell(sheets: Mapping[str, Sheet]) -> None:
    """Okabe and Ito, Color Universal Design, 2008: blue and orange, darker where it is the colour of a letter."""
    assert not any(head.colour for head in sheets["cells"].of("NoteHead"))
    colours = {head.moment: head.colour for head in sheets["coloured"].of("NoteHead")}
    assert colours[Fraction(0)] == "0,114,178"
    assert colours[Fraction(5, 16)] == "138,95,0"


def test_steps_left_over_have_no_letter_and_last_as_long_as_they_do(sheets: Mapping[str, Sheet]) -> None:
    last = blocks(sheets["cells"])[-1][-1]
    assert (last.words, last.bounds) == ((), (Fraction(45, 16), Fraction(3)))
