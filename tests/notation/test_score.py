"""What a score carries besides values: voices, meters, repeats, heads; and how a refusal reads."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from engraver.errors import NotationError
from engraver.notation import Note, Score, VoiceName, write
from engraver.notation.rhythms import _rhythm
from engraver.rhythm import (
    Bar,
    Groove,
    Instrument,
    Limbs,
    Meter,
    Ornament,
    Repeat,
    Section,
    Span,
    Stroke,
    Touch,
    Tuplet,
)
from engraver.style import KitRow, Rests, Style, standard_kit
from tests.notation.rendering import groove_of, render, strokes, written
from tests.work import calls

S = F(1, 16)


def notes(score: Score, voice: VoiceName = VoiceName.UPPER) -> list[Note]:
    own = (item for bar in score.bars for v in bar.voices if v.name is voice for item in v.items)
    return [item for item in own if isinstance(item, Note)]


def test_hands_are_up_and_feet_down() -> None:
    struck = (*strokes("snare", "x", S), *strokes("bass drum", "x", S), *strokes("foot hi-hat", "x", S))
    score = write(groove_of(struck, "1/4"), Style())
    assert [bar.name for bar in score.bars[0].voices] == [VoiceName.UPPER, VoiceName.LOWER]
    names = [[head.stroke.instrument.name for head in notes(score, voice)[0].heads] for voice in VoiceName]
    assert names == [["snare"], ["foot hi-hat", "bass drum"]]


def test_the_kit_decides_the_limbs() -> None:
    row = KitRow(Instrument("floor cymbal"), "floor cymbal", -6, Limbs.FEET, 59)
    groove = groove_of(strokes("floor cymbal", "x", S), "1/4")
    score = write(groove, Style(kit=standard_kit().with_rows([row])))
    assert (render(score, VoiceName.UPPER), render(score, VoiceName.LOWER)) == ("-", "4")


def test_heads_of_a_chord_stand_lowest_first() -> None:
    struck = (*strokes("crash", "x", S), *strokes("snare", "x", S), *strokes("floor tom", "x", S))
    (note,) = notes(write(groove_of(struck, "1/4"), Style()))
    assert [head.stroke.instrument.name for head in note.heads] == ["floor tom", "snare", "crash"]


def test_the_meter_is_printed_where_it_changes() -> None:
    score = write(groove_of(strokes("snare", "x", S), "4/4,4/4,7/8,2+2+3/8,4/4"), Style())
    assert [bar.new_meter for bar in score.bars] == [True, False, True, True, True]


def test_only_cut_bars_are_partial() -> None:
    score = write(groove_of(strokes("snare", "x", S), "4/4,4/4,4/4", pickup=F(1, 4), cut=F(1, 2)), Style())
    assert [bar.partial for bar in score.bars] == [True, False, True]


def test_repeats_endings_and_sections_stand_on_their_bars() -> None:
    groove = replace(
        groove_of(strokes("snare", "x", S), ",".join(["2/4"] * 5)),
        repeats=(Repeat(1, 3, 4, endings=(2, 3)),),
        sections=(Section("Lead-in", 0, 0), Section("Stairs", 1, 4)),
    )
    bars = write(groove, Style()).bars
    assert [bar.opens_repeat for bar in bars] == [0, 4, 0, 0, 0]
    assert [bar.closes_repeat for bar in bars] == [0, 0, 0, 4, 0]
    assert [bar.ending for bar in bars] == [0, 0, 1, 2, 0]
    assert [bar.section for bar in bars] == ["Lead-in", "Stairs", "", "", ""]


def test_a_written_out_double_keeps_its_first_accent_only() -> None:
    double = replace(strokes("snare", "=", S)[0], touch=Touch.ACCENT)
    score = write(groove_of((double, *strokes("ride", "x", S)), "1/4"), Style())
    touches = [[(h.stroke.instrument.name, h.stroke.touch, h.stroke.ornament) for h in n.heads] for n in notes(score)]
    accented, plain = ("snare", Touch.ACCENT, None), ("snare", Touch.PLAIN, None)
    assert touches == [[accented, ("ride", Touch.PLAIN, None)], [plain]]


def test_a_doubled_chord_has_one_slash() -> None:
    struck = (*strokes("snare", "=", S), *strokes("floor tom", "=", S))
    (note,) = notes(write(groove_of(struck, "1/4"), Style()))
    assert (note.tremolo, note.value.base, len(note.heads)) == (Ornament.DOUBLE, 16, 2)


def test_no_bars_give_an_empty_score() -> None:
    groove = replace(groove_of((), "1/4"), bars=())
    assert write(groove, Style()).bars == ()


def test_an_instrument_without_a_kit_row_is_a_mistake_of_the_program() -> None:
    with pytest.raises(AssertionError, match="no kit row for thunder sheet"):
        write(groove_of(strokes("thunder sheet", "x", S), "1/4"), Style())


HINT = (
    "write them on one grid within the beat, such as sixteenths or triplets, "
    "or bar them in a meter whose beats they divide evenly"
)
UNWRITABLE = '"Plain Stairs", {}: no note value down to a 64th and no tuplet of at most 13 notes holds these strokes'

REFUSED = [
    ("1/4", strokes("snare", "xx", F(1, 68)), UNWRITABLE.format("bar 1, beat 1"), HINT),
    ("4/4,4/4", strokes("snare", "-x", F(1, 128), F(3, 2)), UNWRITABLE.format("bar 2, beat 3"), HINT),
    ("6/8", strokes("snare", "xx", F(1, 80) / 3, F(3, 8)), UNWRITABLE.format("bar 1, beat 2"), HINT),
    (
        "4/4",
        strokes("snare", "=", F(1, 4), F(7, 8)),
        '"Plain Stairs", bar 1, beat 4: the second stroke of a double falls after the last bar',
        "write a shorter step for it, or one plain stroke",
    ),
    (
        "4/4",
        (*strokes("snare", "=", F(1, 8)), *strokes("snare", "-x", S)),
        '"Plain Stairs", bar 1, beat 1: "snare" is struck again while its double still lasts',
        "let the double end before the next stroke of its instrument, or write it as two marks of half the step",
    ),
]


@pytest.mark.parametrize(("meters", "struck", "message", "hint"), REFUSED)
def test_what_cannot_be_written_is_refused(meters: str, struck: tuple[Stroke, ...], message: str, hint: str) -> None:
    with pytest.raises(NotationError) as refusal:
        write(groove_of(struck, meters), Style())
    (problem,) = refusal.value.problems
    assert (problem.message, problem.hint) == (message, hint)


def test_a_refusal_counts_bars_from_the_first_whole_one() -> None:
    struck = strokes("snare", "-x", F(1, 128), F(1, 4))
    with pytest.raises(NotationError, match="bar 1, beat 1"):
        write(groove_of(struck, "4/4,4/4", pickup=F(1, 4)), Style())
    with pytest.raises(NotationError, match="the pickup, beat 4"):
        write(groove_of(strokes("snare", "-x", F(1, 128)), "4/4,4/4", pickup=F(1, 4)), Style())


def test_a_tuplet_finer_than_64ths_is_refused() -> None:
    groove = groove_of(strokes("snare", "-x", F(1, 12) / 32), "1/4", (Tuplet(Span(F(0), F(1, 4)), 3),))
    with pytest.raises(NotationError, match="bar 1, beat 1"):
        write(groove, Style())


def test_regrouping_moves_no_stroke() -> None:
    groove = groove_of(strokes("snare", "xx--xx-x-x-xx--x" * 3, S), "4/4,4/4,4/4")
    other = groove.regroup([Meter.parse("5/16")] * 9 + [Meter.parse("3/16")])
    before, after = (sorted(h.stroke.order for n in notes(write(g, Style())) for h in n.heads) for g in (groove, other))
    assert before == after


def test_cells_of_five_sixteenths_beam_by_their_meter() -> None:
    groove = groove_of(strokes("snare", "xxxxx" * 3, S), "5/16,5/16,2+3/16")
    assert written(groove) == "[16 16 16] [16 16] | [16 16 16] [16 16] | [16 16] [16 16 16]"


def _sixteen_bars() -> Groove:
    bars = [Bar.of(F(index), Meter.of(4, 4)) for index in range(16)]
    struck: list[Stroke] = []
    for bar in bars:
        struck += strokes("hi-hat", "x-x-x-x-x-x-x-x-", S, bar.start)
        struck += strokes("snare", "--g-X--g-g--X---", S, bar.start)
        struck += strokes("bass drum", "xx--x-x-xx----x-", S, bar.start)
    return groove_of(struck, ",".join(["4/4"] * 16))


def test_each_bar_costs_the_same_however_many_there_are() -> None:
    """Counted in calls, with what is remembered of rhythms forgotten before."""
    groove = _sixteen_bars()
    assert len(groove.strokes) == 320
    short, long = (_calls_to_write(made) for made in (groove, groove.repeat(2)))
    assert long <= 2.1 * short


def _calls_to_write(groove: Groove) -> int:
    assert groove.strokes  # laid over one another before the count
    _rhythm.cache_clear()
    return calls(lambda: write(groove, Style(rests=Rests.FULL)))


def test_a_rhythm_that_comes_again_is_not_spelled_again() -> None:
    _rhythm.cache_clear()
    write(_sixteen_bars(), Style(rests=Rests.FULL))
    assert _rhythm.cache_info().misses == 2  # hands and feet, the same in all sixteen bars
