"""No ink lies on other ink: crowded staves in several styles, and the demo book in designs, presets and papers.

`make overlaps` takes the demo book in all designs and presets and both papers; the tests take corners of that table.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from engraver.engraving import Workshop
from engraver.lilypond.chapter import main_width
from engraver.lilypond.passage import MM_PER_POINT
from engraver.lilypond.rows import Row
from engraver.proof.overlaps import BY_DESIGN, Overlap, overlaps
from engraver.style import PAPERS, Accents, BarNumbers, GhostLook, Rests, Style, Voices
from tests.engraved.crowded import CROWDED
from tests.engraved.overlaps_of_the_book import collisions
from tests.engraved.sheets import Case, Sheet, engrave, groove, with_style

LOOKS = {
    "as published": Style(),
    "small ghosts": Style(ghosts=GhostLook.BOTH, coloured_notes=True, bar_numbers=BarNumbers.LINES),
    "every rest and number": Style(rests=Rests.FULL, colours=False, bar_numbers=BarNumbers.ALL),
    "large on Letter": Style(staff_size=29, bars_per_line=2, repeat_bars=True, paper=PAPERS["Letter"]),
    "the other design": Style(design="edition", bar_numbers=BarNumbers.ALL),
    "one voice": Style(voices=Voices.ONE, repeat_bars=True),
    "one voice, accents below": Style(voices=Voices.ONE, accents=Accents.HEAD),
}
# Threes against fives within one voice have no notation.
ONE_VOICE = [case for case in CROWDED if case.name != "odd tuplets"]


def told(found: Sequence[Overlap]) -> list[str]:
    return [f"at {overlap.first.moment}: {overlap}" for overlap in found]


@pytest.mark.parametrize("look", LOOKS)
def test_crowded_staves_do_not_overlap(look: str, engraved: Callable[[Sequence[Case]], Mapping[str, Sheet]]) -> None:
    style = LOOKS[look]
    sheets = engraved(with_style(ONE_VOICE if style.voices is Voices.ONE else CROWDED, style))
    assert {name: told(overlaps(sheet.things)) for name, sheet in sheets.items()} == {name: [] for name in sheets}


@pytest.mark.parametrize("meter", ["4/4", "12/8", "15/8"])
@pytest.mark.parametrize("size", [21, 29])
def test_ghosts_on_every_step_do_not_push_a_line_past_the_margin(meter: str, size: int, shop: Workshop) -> None:
    """Where one bar alone is too long they stay as close as other notes."""
    style = Style(staff_size=size)
    steps = {"4/4": 16, "12/8": 24, "15/8": 30}[meter]
    sheet = engrave(shop, [Case("ghosts", groove("snare: " + steps * "g", meter=meter), style)])["ghosts"]
    right = max(box.right for staff in sheet.of("StaffSymbol") for box in staff.boxes)
    assert right <= main_width(style) / (size * MM_PER_POINT / 4) + 0.15  # a bar line's thickness


@pytest.mark.parametrize(
    ("design", "preset", "paper"),
    [
        ("workbook", "published positions", "Letter"),
        ("workbook", "large print", "A4"),
        ("edition", "large print", "Letter"),
        ("edition", "one voice", "A4"),
    ],
)
def test_the_demo_book_and_its_specimen_do_not_overlap(design: str, preset: str, paper: str, tmp_path: Path) -> None:
    """LilyPond does not complain of any of it either."""
    assert collisions(design, preset, paper, tmp_path) == []


# ------------------------------------------------------------------ the check itself

PLAIN = groove("hi-hat: X-x- X-x-", "snare: ---- x-g-", "bass drum: x-x- x-x-", meter="2/4")
TRIPLET = groove("snare: x-xxxx", "bass drum: x--x--", meter="2/4", step="eighth triplet")
SECTION = groove(
    "hi-hat: X--- x---", "bass drum: x--- x---", meter="2/4", more="sections:\n  - {name: Part, bars: 1}\n"
)
GHOST = groove("snare: g--- --g-", meter="2/4")
DOTTED = groove("snare: -x-- -X--", meter="2/4")
BUZZ = groove("snare: z--- --z-", meter="2/4")
SHORT_STEMS = "Stem.before-line-breaking = ##f"


def planted(override: str, context: str = "DrumVoice") -> str:
    return f"\\layout {{ \\context {{ \\{context} \\override {override} }} }}\n"


ON_THE_STAFF = planted("SectionLabel.outside-staff-priority = ##f", "Score") + planted(
    "SectionLabel.Y-offset = #1", "Score"
)
PLANTED = {
    "accents on beams": (PLAIN, planted("Script.padding = #-1.2"), "Script", "Beam"),
    "a bracket on a stem": (TRIPLET, planted("TupletBracket.positions = #'(2.2 . 2.2)"), "TupletBracket", "Stem"),
    "a number on a beam": (TRIPLET, planted("TupletNumber.extra-offset = #'(0 . -2)"), "TupletNumber", "Beam"),
    "a section on the staff": (SECTION, ON_THE_STAFF, "SectionLabel", "StaffSymbol"),
    "a parenthesis on its head": (PLAIN, planted("Parentheses.padding = #-0.5"), "Parentheses", "NoteHead"),
    "a flag on a parenthesis": (GHOST, planted(SHORT_STEMS), "Flag", "Parentheses"),
    "a flag on a dot": (DOTTED, planted(SHORT_STEMS), "Flag", "Dots"),
    "a roll's sign on a flag": (BUZZ, planted(SHORT_STEMS), "StemTremolo", "Flag"),
}


@pytest.mark.parametrize("what", PLANTED)
def test_a_planted_overlap_is_found(what: str, shop: Workshop) -> None:
    text, damage, one, other = PLANTED[what]
    before = engrave(shop, [Case("staff", text)])["staff"]
    after = engrave(shop, [Case("staff", text)], more=damage)["staff"]
    assert told(overlaps(before.things)) == []
    assert (one, other) in {pair for o in overlaps(after.things) for pair in _both_ways(o)}


def _both_ways(overlap: Overlap) -> set[tuple[str, str]]:
    first, second = overlap.first.kind, overlap.second.kind
    return {(first, second), (second, first)}


def test_a_block_on_the_notes_is_found(shop: Workshop) -> None:
    case = next(case for case in CROWDED if case.name == "cells over accents")
    damage = planted("TextSpanner.extra-offset = #'(0 . -7)", "Cells")
    found = overlaps(engrave(shop, [case], more=damage)[case.name].things)
    assert ("TextSpanner", "NoteHead") in {pair for overlap in found for pair in _both_ways(overlap)}


def test_words_on_words_are_found(shop: Workshop) -> None:
    rows = tuple(Row.of("", {Fraction(0): "1", Fraction(1, 4): "2"}, Fraction(1, 2)) for _ in range(2))
    damage = planted("VerticalAxisGroup.nonstaff-nonstaff-spacing = #'((padding . -3))", "Lyrics")
    case = Case("staff", PLAIN, rows=rows)
    assert told(overlaps(engrave(shop, [case])["staff"].things)) == []
    found = overlaps(engrave(shop, [case], more=damage)["staff"].things)
    assert ("LyricText", "LyricText") in {pair for overlap in found for pair in _both_ways(overlap)}


def test_every_pair_that_may_touch_does_touch_somewhere(shop: Workshop, monkeypatch: pytest.MonkeyPatch) -> None:
    """A row of the list that nothing needs would hide a fault of tomorrow."""
    small = [replace(case, name=f"{case.name}, small") for case in with_style(CROWDED, LOOKS["small ghosts"])]
    sheets = engrave(shop, [*CROWDED, *small]).values()
    for pair in BY_DESIGN:
        monkeypatch.setattr("engraver.proof.overlaps.BY_DESIGN", [other for other in BY_DESIGN if other is not pair])
        kinds = {both for sheet in sheets for overlap in overlaps(sheet.things) for both in _both_ways(overlap)}
        assert (pair.one, pair.other) in kinds, pair
