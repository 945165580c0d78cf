"""What holds of the limbs and the difficulty of every groove."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import groupby, pairwise, product

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engraver.analysis import analyse, carry, difficulty
from engraver.analysis.limbs import Band, LimbStroke, assign, fastest, limit, objections
from engraver.rhythm import ZERO, Groove, Instrument, Limb, Limbs, Ornament, Side
from engraver.style import standard_kit
from tests.analysis.limbs.played import SET, beat
from tests.properties.strategies import grooves

KIT = standard_kit()
many = settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def thinned(draw: st.DrawFn, groove: Groove) -> Groove:
    """The same time with some of the strokes."""
    kept = {stroke.order for stroke in groove.strokes if draw(st.booleans())}
    return groove.only(lambda stroke: stroke.order in kept)


@st.composite
def contained(draw: st.DrawFn) -> tuple[Groove, Groove, Groove]:
    """A whole that has a limb for every stroke (others are refused), a part of it, and a part of that."""
    whole = draw(grooves(most_bars=2).filter(lambda groove: not assign(groove, SET).left_over))
    part = thinned(draw, whole)
    return whole, part, thinned(draw, part)


@many
@given(grooves())
def test_every_stroke_has_one_limb_of_its_own_pair_or_is_left_over(groove: Groove) -> None:
    found = assign(groove, SET)
    assert sorted([*(each.stroke for each in found.strokes), *found.left_over], key=lambda s: s.order) == sorted(
        groove.strokes, key=lambda s: s.order
    )
    assert all(each.limb.limbs is KIT[each.stroke.instrument].limbs for each in found.strokes)


@many
@given(grooves())
def test_no_limb_has_two_strokes_at_a_moment(groove: Groove) -> None:
    for _, moment in groupby(assign(groove, SET).strokes, key=lambda each: each.onset):
        limbs = [limb for each in moment for limb in each.limbs]
        assert len(limbs) == len(set(limbs))


@many
@given(grooves())
def test_strokes_are_left_over_only_where_there_are_more_than_limbs(groove: Groove) -> None:
    for onset in {stroke.onset for stroke in assign(groove, SET).left_over}:
        struck = [stroke for stroke in groove.strokes if stroke.onset == onset]
        hands = [stroke for stroke in struck if KIT[stroke.instrument].limbs is Limbs.HANDS]
        feet = [KIT[stroke.instrument].foot for stroke in struck if KIT[stroke.instrument].limbs is Limbs.FEET]
        assert len(hands) > 2 or len(feet) > len(set(feet))


@many
@given(grooves())
def test_the_other_handedness_mirrors_limbs_and_difficulty(groove: Groove) -> None:
    right, left = assign(groove, SET), assign(groove, SET, Side.LEFT)
    assert [(each.stroke, each.limb.other) for each in right.strokes] == [(e.stroke, e.limb) for e in left.strokes]
    assert difficulty(right) == difficulty(left)
    mirrored = [replace(each, limb=each.limb and each.limb.other) for each in objections(groove, right)]
    assert mirrored == list(objections(groove, left))


@many
@given(contained())
def test_more_strokes_of_the_same_window_are_never_easier(chain: tuple[Groove, Groove, Groove]) -> None:
    whole, part, less = chain
    facts = analyse(whole, places=SET)
    ladder = [facts.limbs, *(carry(facts.limbs, each, ZERO) for each in (part, less))]
    harder, middle, easier = (difficulty(each, facts.cross_rhythms, facts.step) for each in ladder)
    for (name, high), (_, mean), (_, low) in zip(harder.parts, middle.parts, easier.parts, strict=True):
        assert high >= mean >= low, name
    assert harder.total >= middle.total >= easier.total
    assert harder.grade >= middle.grade >= easier.grade


@many
@given(grooves())
def test_a_slower_tempo_is_never_harder(groove: Groove) -> None:
    found = assign(groove, SET)
    assert difficulty(found.at(60)).total <= difficulty(found.at(61)).total


@many
@given(grooves(), st.sampled_from([Band.EASY, Band.WORKING, Band.HARD, Band.EXPERT]))
def test_no_limb_leaves_its_band_at_the_tempo_that_the_band_allows(groove: Groove, band: Band) -> None:
    """Rates are counted here on their own: four strokes round and round, a double being two of them."""
    found = assign(groove, SET)
    allowed = fastest(found, band)
    if allowed is None or allowed.bpm == 1:
        return
    for limb in Limb:
        times = (time for each in found.strokes for time in moved(each, limb))
        struck = sorted({time % found.length for time in times})
        ring = struck + [onset + turn * found.length for turn in range(1, 5) for onset in struck]
        second = found.tempo.beat * allowed.bpm / 60
        for index in range(len(struck)):
            assert 3 * second / (ring[index + 3] - ring[index]) <= limit(limb, band)


def moved(played: LimbStroke, limb: Limb) -> list[Fraction]:
    if limb not in played.limbs:
        return []
    stroke = played.stroke
    is_double = stroke.ornament is Ornament.DOUBLE and limb is played.limb
    return [stroke.onset, stroke.onset + stroke.step / 2] if is_double else [stroke.onset]


# ------------------------------------------------------------------ against every way there is
DRUMS = ("snare", "floor tom", "ride")


@st.composite
def hand_patterns(draw: st.DrawFn) -> tuple[Mapping[str, str], int]:
    """One bar, at most eight strokes of the hands, no more than two at a time; and a tempo."""
    steps = draw(st.lists(st.integers(0, 15), min_size=1, max_size=6, unique=True))
    lines = {drum: ["-"] * 16 for drum in DRUMS}
    for step in sorted(steps)[:6]:
        for drum in draw(st.lists(st.sampled_from(DRUMS), min_size=1, max_size=2, unique=True)):
            if sum(line.count("x") for line in lines.values()) < 8:
                lines[drum][step] = "x"
    return {drum: "".join(line) for drum, line in lines.items() if "x" in line}, draw(st.integers(60, 320))


@many
@given(hand_patterns())
def test_whenever_some_way_keeps_both_hands_within_their_limit_the_search_finds_one(
    pattern: tuple[Mapping[str, str], int],
) -> None:
    """Every sharing out is tried. Also the bound: of three strokes that follow one another two share a hand, so two
    hands can play them if and only if every third stroke comes no sooner than one hand can strike again."""
    lines, tempo = pattern
    groove = beat(lines, tempo)
    found = assign(groove, SET)
    onsets = [stroke.onset for stroke in groove.strokes]
    gap = groove.tempo.beat * tempo / 60 / limit(Limb.RIGHT_HAND)
    possible = any(fits(onsets, hands, gap) for hands in product("RL", repeat=len(onsets)))
    ours = "".join(each.limb.side.value for each in found.strokes)
    assert fits(onsets, ours, gap) == possible
    assert possible == all(later - first >= gap for first, later in zip(onsets, onsets[2:], strict=False))


def fits(onsets: Sequence[Fraction], hands: Sequence[str], gap: Fraction) -> bool:
    for hand in "RL":
        own = [onset for onset, letter in zip(onsets, hands, strict=True) if letter == hand]
        if any(later - first < gap for first, later in pairwise(own)):
            return False
    return True


def test_the_drawn_instruments_are_on_the_set() -> None:
    assert {Instrument(drum) for drum in DRUMS} <= set(SET)
