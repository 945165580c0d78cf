"""Cross-rhythms against published resultants and hand-counted cases."""

from __future__ import annotations

from engraver.analysis import analyse
from tests.analysis.patterns import cycle_layer, groove, layer


def crossings(found):
    return {(each.a, each.b): each for each in found.cross_rhythms}


def test_a_stroke_every_three_over_a_beat_of_four_is_four_against_three():
    # Counted by hand: strokes 0 3 6 9, beats 0 4 8, together 0 3 4 6 8 9, then 12.
    result = analyse(groove([cycle_layer("Frame", {"bass drum": "x--"}, 64)], bars=4))
    found = crossings(result)["bass drum", "beat"]
    assert (found.ratio, found.cycle_steps, found.coincidences) == ((4, 3), 12, 1)
    assert found.resultant == (3, 1, 2, 2, 1, 3)
    assert (found.whole_cycles, found.cut_off_steps) == (5, 4)  # 64 = 5 * 12 + 4
    assert (found.turns[0], found.left_over[0]) == (21, 1)  # 64 = 21 * 3 + 1


def test_three_whole_bars_of_threes_are_figure_though_they_divide_evenly():
    for layers in ([cycle_layer("Kick", {"bass drum": "x--"}, 48)], [layer("Kick", {"bass drum": "x--" * 16})]):
        time = layer("Time", {"hi-hat": "x-x-" * 12})
        result = analyse(groove([time, *layers], bars=3))
        assert [lane.instrument.name for lane in result.figure] == ["bass drum"]
        assert [lane.instrument.name for lane in result.timekeepers] == ["hi-hat"]
        assert crossings(result)["bass drum", "beat"].cut_off_steps == 0


def test_accents_alone_make_a_cross_rhythm():
    # An accent every four strokes on top of a stroke every three: a pulse of twelve; over a beat of eight steps
    # (2/2) it is 2 against 3, while the strokes themselves are 8 against 3.
    result = analyse(groove([layer("Ride", {"ride": "X--x--x--x--" * 4})], bars=3, meter="2/2"))
    found = {each.accents: each for each in result.cross_rhythms if each.b == "beat"}
    assert found[False, False].ratio == (8, 3)
    assert found[True, False].ratio == (2, 3)


def test_a_pulse_late_by_one_step_meets_the_beat_later():
    # Strokes at 1 4 7 10, beats at 0 4 8: they meet on 4.
    result = analyse(groove([layer("Kick", {"bass drum": "-x-" * 16})], bars=3))
    found = crossings(result)["bass drum", "beat"]
    assert (found.phase, found.coincidences, found.resultant) == ((1, 0), 1, (3, 1, 2, 2, 1, 3))
