"""Groove files and the LilyPond text of their staves, one case a file. `pytest --update` rewrites; read the diff.

That the texts mean what they should is LilyPond's to say: all of them are engraved, with a bar check in every bar.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from engraver import definition
from engraver.chapters import Passage
from engraver.definition.kit_rows import HEADS
from engraver.engraving import Engine, Job, Workshop
from engraver.lilypond.chapter import kit_rows
from engraver.lilypond.notes import note_names, sounds_of
from engraver.lilypond.passage import Setting, engravable
from engraver.lilypond.source import Source, datum
from engraver.rhythm import Groove, Instrument, Limbs
from engraver.style import Kit, KitRow, Style, include_folders

CASES = sorted((Path(__file__).parents[1] / "golden").glob("*.yaml"))
WIDTH = 150.0  # mm
OWN = tuple(
    KitRow(Instrument(name), name, position, Limbs.HANDS, 60 + position, HEADS[-1])
    for position, name in enumerate(("snare ghost", "snare x", "s", "鼓"), start=2)
)


def style() -> Style:
    standard = Style()
    return replace(standard, kit=Kit((*standard.kit.rows, *OWN)))


def groove_of(path: Path) -> Groove:
    return definition.to_groove(definition.parse_groove(path.read_text("utf-8"), path, style()))


def staff_of(groove: Groove) -> Source:
    setting = Setting(style(), note_names(sounds_of(groove.strokes)), WIDTH)
    return engravable(Passage("the whole groove", groove), setting).staff


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_the_staff_reads(path: Path, request: pytest.FixtureRequest) -> None:
    golden, text = path.with_suffix(".ly"), f"{staff_of(groove_of(path))}\n"
    if request.config.getoption("--update"):
        golden.write_text(text, "utf-8")
    assert text == golden.read_text("utf-8")


def test_every_golden_text_has_its_groove() -> None:
    assert sorted(path.stem for path in CASES[0].parent.glob("*.ly")) == [path.stem for path in CASES]


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Workshop:
    include = include_folders("workbook")
    return Workshop(Engine.find(), include, tmp_path_factory.mktemp("store"))


def book_of(scores: list[Source]) -> str:
    """All scores in one text, so that LilyPond starts once."""
    kit = kit_rows(style().kit, note_names(sounds_of(s for path in CASES for s in groove_of(path).strokes)))
    begin = "".join(f"#(define {name} {value})" for name, value in PAGE.items())
    return "\n".join(
        ['\\version "2.24.0"', begin, '\\include "design.ily"', f"\\kit #'{datum(kit)}", *scores],
    )


PAGE = {
    "page-width": "210",
    "page-height": "297",
    "staff-points": "21",
    "ghost-look": "'parentheses",
    "colours?": "#t",
    "cell-looks": "'()",
}


def test_lilypond_finds_every_bar_full(shop: Workshop) -> None:
    """Names are given for all cases at once, so each case is written anew with the names of all."""
    names = note_names(sounds_of(s for path in CASES for s in groove_of(path).strokes))
    setting = Setting(style(), names, WIDTH)
    staves = [engravable(Passage("the whole groove", groove_of(path)), setting).staff for path in CASES]
    scores = [Source(f"\\score {{ \\new DrumStaff <<\n{staff}\n>> }}") for staff in staves]
    with shop:
        [result] = shop.engrave([Job("golden", book_of(scores))])
    assert (result.failure, result.complaints) == ("", ())


def test_lilypond_would_notice_a_bar_that_is_not(shop: Workshop) -> None:
    groove = groove_of(next(path for path in CASES if path.stem == "two-voices"))
    setting = Setting(style(), note_names(sounds_of(s for path in CASES for s in groove_of(path).strokes)), WIDTH)
    staff = engravable(Passage("the whole groove", groove), setting).staff
    short = staff.replace("ride8", "ride16", 1)
    assert short != staff
    with shop:
        [result] = shop.engrave([Job("golden", book_of([Source(f"\\score {{ \\new DrumStaff <<\n{short}\n>> }}")]))])
    assert any("barcheck failed" in complaint.message for complaint in result.complaints)
