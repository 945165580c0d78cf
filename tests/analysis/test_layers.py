"""What each layer did to the letters; worked by hand."""

from __future__ import annotations

from engraver.analysis import CellChange, Edit, StatedCells, analyse
from engraver.rhythm import Instrument, Role
from tests.analysis.patterns import groove, layer


def test_ghosts_turn_every_second_a_into_c():
    frame = layer("Frame", {"bass drum": "x--- x--- xx-- x--- x--- xx--"}, role=Role.FIGURE)
    ghosts = layer("Ghosts", {"snare": "---- --g- ---- ---- --g- ----"})
    (effect,) = analyse(groove([frame, ghosts], bars=2, meter="3/4"), StatedCells(4)).layer_effects
    added = (Edit(2, Instrument("snare"), "-", "g"),)
    assert ("".join(effect.before), "".join(effect.after)) == ("AABAAB", "ACBACB")
    assert effect.changes == (CellChange(1, "A", "C", added), CellChange(4, "A", "C", added))


def test_a_layer_that_comes_with_every_cell_changes_strokes_and_no_letter():
    frame = layer("Frame", {"bass drum": "x--xx-" * 4}, role=Role.FIGURE)
    snare = layer("Snare", {"snare": "-x--x-" * 4}, role=Role.FIGURE)
    (effect,) = analyse(groove([frame, snare], bars=2, meter="3/4"), StatedCells(6)).layer_effects
    assert (effect.before, effect.after) == (("A",) * 4, ("A",) * 4)
    assert [change.index for change in effect.changes] == [0, 1, 2, 3]


def test_a_layer_may_take_strokes_away():
    frame = layer("Frame", {"bass drum": "x-xx" * 6}, role=Role.FIGURE)
    gap = layer("Gap", {"snare": "----x---" + "-" * 16}, role=Role.FIGURE, silences=[(4, 8, "bass drum")])
    (effect,) = analyse(groove([frame, gap], bars=2, meter="3/4"), StatedCells(4)).layer_effects
    assert "".join(effect.after) == "ABAAAA"
    kick, snare = Instrument("bass drum"), Instrument("snare")
    assert set(effect.changes[0].edits) == {
        Edit(0, kick, "x", "-"),
        Edit(2, kick, "x", "-"),
        Edit(3, kick, "x", "-"),
        Edit(0, snare, "-", "x"),
    }


def test_the_last_effect_ends_on_the_letters_of_the_reading():
    # The snare strikes in the first cell only, which the reading therefore calls A and the other three B.
    frame = layer("Frame", {"bass drum": "x--xx-" * 4}, role=Role.FIGURE)
    snare = layer("Snare", {"snare": "-x----" + "-" * 18}, role=Role.FIGURE)
    result = analyse(groove([frame, snare], bars=2, meter="3/4"), StatedCells(6))
    (effect,) = result.layer_effects
    assert effect.after == result.cells.full == ("A", "B", "B", "B")
    assert effect.before == ("B", "B", "B", "B")
