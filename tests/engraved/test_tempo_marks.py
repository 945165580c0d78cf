"""The mark over the first time signature, read back from the page: which note is the beat, how notes are swung.

Sources: the mark stands over the time signature, flush left (G. Read as LilyPond's source cites it, p. 278; Standard
Music Notation Practice, 1966/1993); the beat is a dotted quarter in 6/8, 9/8 and 12/8, a quarter in x/4 (theory pages);
swing is an equation of two eighths with a triplet figure at the tempo mark, straight notes on the staff (an example of
LilyPond's notation manual). The eighth for meters of uneven beats is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

import pytest

from engraver.chapters import Ribbon
from engraver.notation import VoiceName
from engraver.proof.drawn import Thing
from engraver.proof.overlaps import overlaps
from engraver.style import Style, TempoLook, designs
from tests.engraved.sheets import Case, Sheet, groove

SWUNG = "swing: eighth\n"
# meter, tempo as the author writes it: dots of the beat's note, its flags, the words
BEATS = {
    "four four": ("4/4", "tempo: 96", 0, 0, "= 96"),
    "two two": ("2/2", "tempo: 80", 0, 0, "= 80"),
    "six eight": ("6/8", "tempo: 66", 1, 0, "= 66"),
    "twelve eight": ("12/8", "tempo: 50", 1, 0, "= 50"),
    "seven eight": ("7/8", "tempo: 192", 0, 1, "= 192"),
    "additive": ("(3+3+2)/8", "tempo: {beat: eighth, bpm: 200}", 0, 1, "= 200"),
    "stated": ("4/4", "tempo: {beat: half, bpm: 50}", 0, 0, "= 50"),
}


def bar(meter: str, tempo: str, more: str = "") -> str:
    """Accents and sections, so that there is something for the mark to lie on."""
    sections = "sections:\n  - {name: Opening, bars: 1}\n"
    return groove("splash: {cycle: 'X'}", meter=meter, step="eighth", more=f"{tempo}\n{sections}{more}")


CASES = [Case(name, bar(meter, tempo), marked=True) for name, (meter, tempo, *_) in BEATS.items()]
CASES += [
    replace(case, name=f"{case.name}, {design}", style=Style(design=design))
    for design in designs()
    for case in (
        Case("swung", bar("4/4", "tempo: 120", SWUNG), marked=True),
        Case("swung sixteenths", bar("4/4", "tempo: 90", "swing: sixteenth\n"), marked=True),
    )
]
CASES += [
    Case("in words", bar("4/4", "tempo: 120", SWUNG), Style(tempo=TempoLook.BPM), marked=True),
    Case("about", bar("4/4", "tempo: 120"), Style(tempo=TempoLook.ABOUT), marked=True),
]
CASES += [
    Case("under cells", bar("4/4", "tempo: 120", SWUNG), ribbons=(Ribbon("A", CASES[0].groove.length),), marked=True)
]

Sheets = Mapping[str, Sheet]


@pytest.fixture(scope="module")
def sheets(engraved: Callable[[Sequence[Case]], Sheets]) -> Sheets:
    return engraved(CASES)


def mark(sheet: Sheet) -> Thing:
    (found,) = sheet.of("MetronomeMark")
    return found


@pytest.mark.parametrize("name", BEATS)
def test_the_note_of_the_mark_is_the_beat(name: str, sheets: Sheets) -> None:
    *_, dots, flags, words = BEATS[name]
    drawn = mark(sheets[name]).words
    assert [sum(word.startswith(kind) for word in drawn) for kind in ("dots.", "flags.")] == [dots, flags]
    assert [word for word in drawn if "." not in word] == [words]


def test_a_half_note_is_hollow(sheets: Sheets) -> None:
    assert "noteheads.s1" in mark(sheets["stated"]).words and "noteheads.s1" in mark(sheets["two two"]).words
    assert "noteheads.s2" in mark(sheets["four four"]).words


@pytest.mark.parametrize("name", [case.name for case in CASES])
def test_it_stands_flush_over_the_time_signature_and_on_nothing(name: str, sheets: Sheets) -> None:
    (signature,) = sheets[name].of("TimeSignature")
    found = mark(sheets[name]).box
    # an additive signature is wide; its numbers are centred in their columns
    assert found.left == pytest.approx(signature.box.left, abs=0.4)
    assert found.bottom > signature.box.top
    assert [*map(str, overlaps(sheets[name].things))] == []


@pytest.mark.parametrize("design", designs())
def test_two_swung_eighths_are_equated_with_a_triplet_figure(design: str, sheets: Sheets) -> None:
    """The beat, two even notes = a longer and a shorter one under a 3: an eighth has the only flag."""
    drawn = mark(sheets[f"swung, {design}"]).words
    assert sum(word.startswith("noteheads.s2") for word in drawn) == 1 + 2 + 2
    assert [word for word in drawn if word.startswith("flags.")] == ["flags.u3"]
    assert [word for word in drawn if "." not in word] == ["= 120", "=", "3"]


@pytest.mark.parametrize("design", designs())
def test_two_swung_sixteenths_are_equated_with_an_eighth_and_a_sixteenth(design: str, sheets: Sheets) -> None:
    drawn = mark(sheets[f"swung sixteenths, {design}"]).words
    assert sorted(word for word in drawn if word.startswith("flags.")) == ["flags.u3", "flags.u4"]


def test_swung_notes_are_written_straight(sheets: Sheets) -> None:
    """The same heads at the same moments as without swing, and no tuplet."""
    swung, plain = sheets["swung, workbook"], sheets["four four"]
    assert swung.heads(VoiceName.UPPER) == plain.heads(VoiceName.UPPER) != {}
    assert swung.of("TupletNumber") == []


def test_a_style_of_words_has_the_swing_in_words(sheets: Sheets) -> None:
    assert list(mark(sheets["in words"]).words) == ["120 bpm", "swung eighths"]
    assert "= c. 120" in mark(sheets["about"]).words


def test_over_cells_it_stands_above_their_blocks(sheets: Sheets) -> None:
    (block,) = sheets["under cells"].of("TextSpanner")
    assert mark(sheets["under cells"]).box.bottom > block.box.top
