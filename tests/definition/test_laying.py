"""Where marks fall: ranges, copies, cycles, pickups, tuplets, own steps. Expected onsets are counted by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from engraver.definition import parse_groove, to_groove
from engraver.rhythm import (
    Cycle,
    Groove,
    Instrument,
    Limbs,
    Ornament,
    Repeat,
    Section,
    Side,
    Span,
    Tempo,
    Touch,
    Tuplet,
)

Q = Fraction(1, 4)
SNARE = Instrument("snare")


def groove(lane: str, head: str = "", tail: str = "") -> Groove:
    """A groove of one snare lane in eighths."""
    step = "" if "step:" in head else "step: eighth\n"
    text = f"title: T\ntempo: 96\n{step}{head}layers:\n  - name: A\n    strokes:\n      snare: {lane}\n{tail}"
    return to_groove(parse_groove(text))


def steps(found: Groove, step: Fraction = Fraction(1, 8)) -> list[Fraction]:
    return [stroke.onset / step for stroke in found.strokes]


@pytest.mark.parametrize(
    ("mark", "touch", "ornament"),
    [
        ("x", Touch.PLAIN, None),
        ("X", Touch.ACCENT, None),
        ("g", Touch.GHOST, None),
        ("f", Touch.PLAIN, Ornament.FLAM),
        ("F", Touch.ACCENT, Ornament.FLAM),
        ("c", Touch.PLAIN, Ornament.CHOKE),
        ("C", Touch.ACCENT, Ornament.CHOKE),
        ("d", Touch.PLAIN, Ornament.DRAG),
        ("D", Touch.ACCENT, Ornament.DRAG),
        ("r", Touch.PLAIN, Ornament.RUFF),
        ("R", Touch.ACCENT, Ornament.RUFF),
        ("z", Touch.PLAIN, Ornament.BUZZ),
        ("Z", Touch.ACCENT, Ornament.BUZZ),
        ("=", Touch.PLAIN, Ornament.DOUBLE),
    ],
)
def test_a_mark_is_a_stroke(mark: str, touch: Touch, ornament: Ornament | None) -> None:
    (stroke,) = groove(f'"---- --{mark}-"').strokes
    assert (stroke.onset, stroke.touch, stroke.ornament, stroke.step) == (6 * Q / 2, touch, ornament, Q / 2)


def test_a_pattern_of_two_bars_fills_four() -> None:
    assert steps(groove('"x------- | -x------ |"', "bars: 4\n")) == [0, 9, 16, 25]


def test_a_range_may_have_gaps_that_its_pattern_jumps_over() -> None:
    assert steps(groove('\n        bars 1,4: "x------- -x------"', "bars: 4\n")) == [0, 25]


def test_a_copy_is_what_the_other_bar_has_even_through_another_copy() -> None:
    lane = '\n        bar 3: as bar 2\n        bar 1: "x------x"\n        bar 2: as bar 1'
    assert steps(groove(lane, "bars: 3\n")) == [0, 7, 8, 15, 16, 23]


def test_two_bars_are_copied_in_turn() -> None:
    lane = '\n        bars 1-2: "x------- -x------"\n        bars 3-6: as bars 1-2'
    assert steps(groove(lane, "bars: 6\n")) == [0, 9, 16, 25, 32, 41]


def test_a_range_may_have_its_own_step() -> None:
    found = groove('\n        bar 1: "x-------"\n        bar 2: {step: quarter, pattern: "-x--"}', "bars: 2\n")
    assert [(stroke.onset / Q, stroke.step) for stroke in found.strokes] == [(0, Q / 2), (5, Q)]


def test_meters_may_change_by_bar() -> None:
    found = groove(
        '\n        bar 1: "x-------"\n        bar 2: "x------"\n        bar 3: "--x-----"',
        "bars: 3\nmeter: {bar 1: 4/4, bar 2: (2+2+3)/8, bar 3: 4/4}\n",
    )
    assert steps(found) == [0, 8, 17]
    assert [str(bar.meter) for bar in found.bars] == ["4/4", "(2+2+3)/8", "4/4"]


class TestCycles:
    def test_a_cycle_is_cut_off_at_each_phrase(self) -> None:
        found = groove('{cycle: "x--"}', "bars: 4\nphrase: 2\n")
        assert steps(found) == [0, 3, 6, 9, 12, 15, 16, 19, 22, 25, 28, 31]
        assert (found.phrase, found.layers[0].cycles) == (2, (Cycle(SNARE, Fraction(3, 8)),))

    def test_a_last_phrase_may_be_shorter(self) -> None:
        assert steps(groove('{cycle: "x---- "}', "bars: 3\nphrase: 2\n")) == [0, 5, 10, 15, 16, 21]

    def test_a_cycle_that_starts_later_is_silent_before_in_every_phrase(self) -> None:
        found = groove('{cycle: "x--", start: 3}', "bars: 2\nphrase: 1\n")
        assert steps(found) == [2, 5, 10, 13]
        assert found.layers[0].cycles == (Cycle(SNARE, Fraction(3, 8), Fraction(2, 8)),)

    def test_a_cycle_restarts_after_its_bars(self) -> None:
        found = groove('{cycle: "x--", restart: 2 bars}', "bars: 4\n")
        assert steps(found) == [0, 3, 6, 9, 12, 15, 16, 19, 22, 25, 28, 31]
        assert found.layers[0].cycles == (Cycle(SNARE, Fraction(3, 8), Fraction(0), Fraction(2)),)

    def test_a_phrase_ends_before_a_restart_that_does_not_fit(self) -> None:
        assert steps(groove('{cycle: "x------", restart: 2}', "bars: 6\nphrase: 3\n")) == [
            *(0, 7, 14, 16, 23),
            *(24, 31, 38, 40, 47),
        ]

    def test_a_cycle_may_have_its_own_step(self) -> None:
        found = groove('{cycle: "x--", step: sixteenth}')
        assert steps(found, Fraction(1, 16)) == [0, 3, 6, 9, 12, 15]

    def test_a_cycle_in_a_range_begins_with_the_range(self) -> None:
        found = groove('\n        bars 2-3: {cycle: "x----"}', "bars: 4\n")
        assert steps(found) == [8, 13, 18, 23]
        assert found.layers[0].cycles[0].start == 1


class TestTuplets:
    def test_marks_in_parentheses_are_spread_evenly(self) -> None:
        found = groove('"(xgx)2 x----- "')
        assert steps(found) == [0, Fraction(2, 3), Fraction(4, 3), 2]
        assert [stroke.step for stroke in found.strokes] == [*[Fraction(1, 12)] * 3, Fraction(1, 8)]
        assert found.tuplets == (Tuplet(Span(Fraction(0), Q), 3),)

    def test_a_silence_within_takes_its_share(self) -> None:
        assert steps(groove('"------ (x-x--)2"')) == [6, 6 + Fraction(4, 5)]

    def test_four_in_the_time_of_two_are_plain_and_need_no_bracket(self) -> None:
        found = groove('"(xxxx)2 ------"')
        assert steps(found) == [0, Fraction(1, 2), 1, Fraction(3, 2)]
        assert found.tuplets == ()

    def test_two_in_the_time_of_three_is_a_duplet(self) -> None:
        found = groove('"(xx)3 ---"', "meter: 6/8\n")
        assert found.tuplets == (Tuplet(Span(Fraction(0), Fraction(3, 8)), 2),)

    def test_one_in_two_lanes_is_one_bracket(self) -> None:
        found = groove('"(xxx)2 ------"\n      ride: "(x-x)2 ------"')
        assert len(found.tuplets) == 1


class TestPickup:
    HEAD = "bars: 2\npickup: 2\n"

    def test_a_pickup_comes_before_bar_1_and_the_phrase(self) -> None:
        found = groove('{pickup: "-x", pattern: "x-------"}', self.HEAD)
        assert steps(found) == [1, 2, 10]
        assert (found.pickup, found.phrase) == (Q, 2)
        assert [(bar.length, bar.is_whole) for bar in found.bars] == [(Q, False), (1, True), (1, True)]

    def test_a_cycle_begins_after_the_pickup(self) -> None:
        found = groove('{pickup: "xx", cycle: "x----"}', self.HEAD)
        assert steps(found) == [0, 1, 2, 7, 12, 17]
        assert found.layers[0].cycles[0].start == Q

    def test_sections_and_repeats_count_the_author_s_bars(self) -> None:
        tail = "sections: [{name: Verse, bars: 1-2}]\nrepeats: [{bars: 1-2, times: 3, endings: [2]}]\n"
        found = groove('{pattern: "x-------"}', self.HEAD, tail)
        assert found.sections == (Section("Verse", 1, 2),)
        assert found.repeats == (Repeat(1, 2, 3, (2,)),)


class TestLayers:
    def test_a_layer_in_beats_is_filled_by_beats(self) -> None:
        tail = '  - name: B\n    bars: 1-2\n    beats: 2,4\n    strokes: {ride: "x-"}\n'
        found = groove('"-------- --------"', "bars: 2\n", tail)
        assert steps(found) == [2, 6, 10, 14]

    def test_all_instruments_are_silenced(self) -> None:
        tail = '  - name: B\n    beats: 4\n    silence: all\n    strokes: {ride: "x-"}\n'
        assert [str(s.instrument) for s in groove('"xxxxxxxx"', tail=tail).strokes] == ["snare"] * 6 + ["ride"]

    def test_a_layer_that_replaces_takes_the_place_of_what_it_meets(self) -> None:
        tail = '  - name: B\n    replace: true\n    strokes: {snare: "X------X"}\n'
        found = groove('"x-x-----"', tail=tail)
        assert [(stroke.onset * 8, stroke.touch) for stroke in found.strokes] == [
            (0, Touch.ACCENT),
            (2, Touch.PLAIN),
            (7, Touch.ACCENT),
        ]

    def test_a_layer_that_only_silences_is_a_layer(self) -> None:
        assert steps(groove('"xxxxxxxx"', tail="  - name: Gap\n    beats: 2\n    silence: [snare]\n")) == [
            0,
            1,
            4,
            5,
            6,
            7,
        ]

    def test_names_of_the_trade_are_one_instrument(self) -> None:
        found = to_groove(parse_groove('title: T\ntempo: 60\nlayers: [{name: A, strokes: {Kick: {cycle: "x---"}}}]\n'))
        assert found.instruments == (Instrument("bass drum"),)


@pytest.mark.parametrize(
    ("meter", "tempo", "beat"),
    [
        ("4/4", "96", Q),
        ("2/2", "96", 2 * Q),
        ("6/8", "96", 3 * Q / 2),  # dotted quarter in compound time: common practice, no source
        ("12/8", "96", 3 * Q / 2),
        ("3/8", "96", Q / 2),
        ("7/8", "96", Q / 2),
        ("(2+2+3)/8", "96", Q / 2),
        ("7/8", "{beat: quarter, bpm: 96}", Q),
    ],
)
def test_a_tempo_counts_the_meter_s_beat_unless_it_names_one(meter: str, tempo: str, beat: Fraction) -> None:
    text = f"title: T\ntempo: {tempo}\nmeter: {meter}\nlayers: [{{name: A, strokes: {{snare: {{cycle: x}}}}}}]\n"
    assert to_groove(parse_groove(text)).tempo == Tempo(beat, 96)


def test_sticking_is_laid_as_strokes_are() -> None:
    found = groove(
        '"xxxx----"\n      bass drum: "x-------"', "bars: 2\n", 'sticking: {hands: "RLRL ----", feet: "R-------"}\n'
    )
    hands = [mark for mark in found.sticking if mark.limbs is Limbs.HANDS]
    assert [mark.onset * 8 for mark in hands] == [0, 1, 2, 3, 8, 9, 10, 11]
    assert [mark.side for mark in hands[:2]] == [Side.RIGHT, Side.LEFT]
    assert [mark.onset * 8 for mark in found.sticking if mark.limbs is Limbs.FEET] == [0, 8]


def test_sticking_may_leave_strokes_out() -> None:
    assert [mark.onset * 8 for mark in groove('"xxxxxxxx"', tail='sticking: {hands: "R------L"}\n').sticking] == [0, 7]


def test_swing_names_its_unit() -> None:
    assert groove('"x-------"', "swing: eighth\n").swing == Q / 2
