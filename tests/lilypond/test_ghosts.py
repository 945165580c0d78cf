"""Which steps of a passage have ghost notes on both sides."""

from __future__ import annotations

from dataclasses import replace

import pytest

from engraver.lilypond.ghosts import ghost_crowd
from engraver.style import GhostLook, Style
from tests.engraved.sheets import Case, groove


def steps(*lanes: str, bars: int = 1, step: str = "sixteenth", ghosts: GhostLook = GhostLook.PARENTHESES) -> list[int]:
    case = Case("ghosts", groove(*lanes, bars=bars, step=step, meter="2/4"))
    crowd = ghost_crowd(case.groove, replace(Style(), ghosts=ghosts))
    return list(crowd.steps) if crowd else []


def test_ghosts_one_step_apart_are_counted_in_their_bar() -> None:
    assert steps("snare: {bar 1: 'ggg--gg-', bar 2: 'g-g--g--', bar 3: '------gg'}", bars=3) == [3, 0, 1]


def test_a_bar_line_between_two_ghosts_is_room_enough() -> None:
    assert steps("snare: {bar 1: '-------g', bar 2: 'g-------'}", bars=2) == []


def test_ghosts_on_drums_that_are_far_apart_pass_one_another() -> None:
    """By the kit: the high tom stands on 4, the snare on 1, the floor tom on -1; the middle line is 0."""
    assert steps("high tom: g-------", "floor tom: -g------") == []
    assert steps("snare: g-------", "high tom: -g------") == [1]


def test_a_plain_note_between_them_is_no_neighbour() -> None:
    assert steps("snare: gxgxgxgx") == []


@pytest.mark.parametrize("look", GhostLook)
def test_only_parentheses_need_room(look: GhostLook) -> None:
    assert steps("snare: gg------", ghosts=look) == ([] if look is GhostLook.SMALL else [1])
