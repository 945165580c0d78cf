"""How much room the bars of a passage get. That a busy bar is read at 5 mm a step is a decision of ours."""

from __future__ import annotations

import pytest

from engraver.chapters import Passage
from engraver.lilypond.chapter import main_width
from engraver.lilypond.notes import note_names, sounds_of
from engraver.lilypond.passage import Engravable, Setting, engravable
from engraver.style import Style
from tests.analysis.patterns import groove, layer

BUSY = {"ride": "x-xxx-xxx-xxx-xx" * 2, "bass drum": "x--xx--xx--xx--x" * 2}
CALM_FEET = {"ride": "x-xxx-xxx-xxx-xx" * 2, "bass drum": "x---x---x---x---" * 2}


def passage(strokes: dict[str, str], *, whole: bool) -> Engravable:
    style, made = Style(), groove([layer("All", strokes)], bars=2)
    setting = Setting(style, note_names(sounds_of(made.strokes)), main_width(style))
    return engravable(Passage("", made), setting, numbered=whole)


@pytest.mark.parametrize(
    ("strokes", "whole", "on_a_line"), [(BUSY, True, 1), (BUSY, False, 2), (CALM_FEET, True, 2), (CALM_FEET, False, 2)]
)
def test_a_full_groove_has_a_bar_a_line_where_hands_and_feet_carry_sixteenths(
    strokes: dict[str, str], whole: bool, on_a_line: int
) -> None:
    assert 2 / passage(strokes, whole=whole).lines == on_a_line
