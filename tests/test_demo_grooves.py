"""The demo book read as its readers will play it: it holds what it is there to show, and a body can play it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable
from fractions import Fraction
from itertools import chain, pairwise
from pathlib import Path

import pytest

from engraver import definition
from engraver.definition import GrooveDefinition
from engraver.rhythm import Groove, Instrument, Limbs, Meter, Ornament, Stroke, Tempo, Touch, value_name
from engraver.style import Style

BOOK = Path(__file__).parents[1] / "book"
SIXTEENTH = Fraction(1, 16)
TRIPLET = Fraction(1, 12)
BASS, LEFT_BASS, FOOT_HI_HAT = Instrument("bass drum"), Instrument("left bass drum"), Instrument("foot hi-hat")
HI_HATS = {Instrument("hi-hat"), Instrument("open hi-hat"), Instrument("half-open hi-hat")}
LEFT_FOOT = {LEFT_BASS, FOOT_HI_HAT, Instrument("hi-hat splash")}

# In strokes a second. A moderate band for a method book: common practice, no source.
FASTEST_HAND, FASTEST_FOOT = 8, 5

DEFINITIONS: dict[str, GrooveDefinition] = {each.name: each.groove for each in definition.read(BOOK).chapters}
GROOVES: dict[str, Groove] = {name: definition.to_groove(each) for name, each in DEFINITIONS.items()}
every_groove = pytest.mark.parametrize("name", GROOVES)


def cycles(groove: Groove, instrument: str, steps: int, step: Fraction = SIXTEENTH) -> bool:
    """The lane was written as a cycle of that length, and its strokes do come back after it until the phrase ends."""
    lane = Instrument(instrument)
    written = {c.length for layer in groove.layers for c in layer.cycles if c.instrument == lane}
    layer = next(layer for layer in groove.layers if any(c.instrument == lane for c in layer.cycles))
    onsets = {s.onset for s in layer.strokes if s.instrument == lane and s.onset < groove.phrase}
    turned = {onset + steps * step for onset in onsets if onset + steps * step < groove.phrase}
    return written == {steps * step} and bool(turned) and turned <= onsets


def runs_over_bar_lines(groove: Groove, steps: int) -> bool:
    """Some cell begins in one bar and ends in the next."""
    length = steps * groove.step
    begins = [number * length for number in range(int(groove.phrase / length))]
    return any(onset < bar.start < onset + length for onset in begins for bar in groove.bars)


def has(groove: Groove, *ornaments: Ornament) -> bool:
    return set(ornaments) <= {stroke.ornament for stroke in groove.strokes}


def strikes(groove: Groove, *names: str) -> bool:
    return {Instrument(name) for name in names} <= set(groove.instruments)


def ghosts_change_only_some_cells(groove: Groove, steps: int) -> bool:
    length = steps * groove.step
    cells = range(int(groove.phrase / length))
    ghosted = {int(s.onset // length) for s in groove.strokes if s.is_ghost and s.onset < groove.phrase}
    return bool(ghosted & set(cells)) and bool(set(cells) - ghosted)


def a_fill_silences(groove: Groove) -> bool:
    """Taking the fills away brings strokes back that they hide."""
    without = groove.keep([layer.name for layer in groove.layers if not layer.silences])
    return bool(set(without.strokes) - set(groove.strokes))


def feet_double_in_the_last_phrase(groove: Groove) -> bool:
    feet = [s for s in groove.strokes if s.instrument in (BASS, LEFT_BASS)]
    first, last = groove.phrase, groove.length - groove.phrase
    before = sum(s.onset < first for s in feet)
    return last >= first and sum(s.onset >= last for s in feet) == 2 * before


def open_hi_hat_is_closed(groove: Groove) -> bool:
    return strikes(groove, "open hi-hat", "hi-hat")


def sticks(groove: Groove, *limbs: Limbs) -> bool:
    return {mark.limbs for mark in groove.sticking} == set(limbs)


def meters(groove: Groove) -> list[str]:
    return [str(bar.meter) for bar in groove.bars if bar.is_whole]


FEATURES: dict[str, tuple[str, Callable[[Groove], bool]]] = {
    "a cycle of three over 4/4": (
        "rope-ferry",
        lambda g: cycles(g, "bass drum", 3) and cycles(g, "ride", 3) and runs_over_bar_lines(g, 3),
    ),
    "ghosts change some cells of three": ("rope-ferry", lambda g: ghosts_change_only_some_cells(g, 3)),
    "a fill silences in the threes": ("rope-ferry", a_fill_silences),
    "a cycle of five over 4/4": (
        "five-doors",
        lambda g: cycles(g, "bass drum", 5) and cycles(g, "crash", 5) and runs_over_bar_lines(g, 5),
    ),
    "ghosts change some cells of five": ("five-doors", lambda g: ghosts_change_only_some_cells(g, 5)),
    "a fill silences in the fives": ("five-doors", a_fill_silences),
    "feet doubled in the last phrase": ("five-doors", feet_double_in_the_last_phrase),
    "a tuplet in brackets": ("five-doors", lambda g: [t.count for t in g.tuplets] == [5]),
    "sticking of the feet": ("five-doors", lambda g: sticks(g, Limbs.FEET)),
    "7/8": ("seven-lamps", lambda g: meters(g) == ["7/8"] * 4),
    "open hi-hat": ("seven-lamps", open_hi_hat_is_closed),
    "a buzz": ("seven-lamps", lambda g: has(g, Ornament.BUZZ)),
    "6/8": ("millrace", lambda g: meters(g) == ["6/8"] * 4 and g.bars[1].meter.is_compound),
    "a pickup": ("millrace", lambda g: 0 < g.pickup < g.bars[1].length and g.strokes[0].onset < g.pickup),
    "sections": ("millrace", lambda g: len(g.sections) == 2),
    "a triplet grid in 4/4": (
        "tin-roof",
        lambda g: g.step == TRIPLET and meters(g) == ["4/4"] * 4 and cycles(g, "bass drum", 5, TRIPLET),
    ),
    "triplet cells that run over bar lines": ("tin-roof", lambda g: runs_over_bar_lines(g, 5)),
    "an additive meter": ("harbour-wall", lambda g: {bar.meter for bar in g.bars} == {Meter((3, 3, 2), 8, True)}),
    "toms": ("harbour-wall", lambda g: strikes(g, "high tom", "mid tom", "floor tom")),
    "a flam and a drag": ("harbour-wall", lambda g: has(g, Ornament.FLAM, Ornament.DRAG)),
    "a foot hi-hat cross-rhythm": (
        "side-gate",
        lambda g: cycles(g, "foot hi-hat", 3, Fraction(1, 8)) and runs_over_bar_lines(g, 3),
    ),
    "a repeat with endings": ("porch-light", lambda g: [len(r.endings) for r in g.repeats] == [2]),
    "a double": ("counterweights", lambda g: has(g, Ornament.DOUBLE)),
    "meters that change": ("counterweights", lambda g: meters(g) == ["4/4", "4/4", "4/4", "2/4"]),
    "sticking of hands and feet": ("counterweights", lambda g: sticks(g, Limbs.HANDS, Limbs.FEET)),
}


@pytest.mark.parametrize("feature", FEATURES)
def test_the_book_shows(feature: str) -> None:
    name, is_there = FEATURES[feature]
    assert is_there(GROOVES[name]), f"{feature} is not in {name}"


def test_the_book_reads_without_a_fault() -> None:
    assert definition.check(BOOK) == ()
    assert len(GROOVES) == len(list((BOOK / "grooves").glob("*.yaml"))) == 9


@every_groove
def test_every_chapter_has_words_of_its_own(name: str) -> None:
    groove = DEFINITIONS[name]
    words = " ".join(block.text for block in groove.text)
    assert groove.subtitle and groove.idea and 2 <= words.count(". ") + 1 <= 6
    assert len(groove.listen) <= 3


def seconds(duration: Fraction, tempo: Tempo) -> Fraction:
    return duration / tempo.beat * 60 / tempo.bpm


def gaps(onsets: Iterable[Fraction], groove: Groove) -> list[Fraction]:
    """From stroke to stroke in seconds, over the repeat of the whole too. Strokes at one moment count once."""
    once = sorted(set(onsets))
    again = [groove.length + once[0]] if once else []
    return [seconds(b - a, groove.tempo) for a, b in pairwise([*once, *again])]


def of_limbs(groove: Groove, limbs: Limbs) -> list[Stroke]:
    kit = Style().kit
    return [stroke for stroke in groove.performed().strokes if kit[stroke.instrument].limbs is limbs]


def at_one_moment(strokes: Iterable[Stroke]) -> dict[Fraction, list[Stroke]]:
    moments: dict[Fraction, list[Stroke]] = defaultdict(list)
    for stroke in strokes:
        moments[stroke.onset].append(stroke)
    return moments


def hand_strokes(stroke: Stroke) -> list[Fraction]:
    """A double is two strokes in its step; the rebounds of a buzz and the graces are no strokes of their own."""
    return [stroke.onset, stroke.onset + stroke.step / 2] if stroke.ornament is Ornament.DOUBLE else [stroke.onset]


@every_groove
def test_no_more_than_two_hands_and_two_feet_strike_at_once(name: str) -> None:
    for strokes in at_one_moment(of_limbs(GROOVES[name], Limbs.HANDS)).values():
        # the grace of a flam, drag or ruff is played by the other hand
        assert sum(2 if stroke.ornament and stroke.ornament.graces else 1 for stroke in strokes) <= 2, strokes
    for strokes in at_one_moment(of_limbs(GROOVES[name], Limbs.FEET)).values():
        left = [stroke for stroke in strokes if stroke.instrument in LEFT_FOOT]
        assert len(strokes) <= 2 and len(left) <= 1, strokes


CYMBALS = {*HI_HATS, *map(Instrument, ("ride", "ride bell", "crash", "second crash", "china", "splash"))}


def played_by_one_hand(groove: Groove) -> dict[str, list[Stroke]]:
    """The hardest case for a hand: all cymbals, or all strokes of one drum, or all that the sticking gives it."""
    hands = of_limbs(groove, Limbs.HANDS)
    cases: dict[str, list[Stroke]] = defaultdict(list)
    for stroke in hands:
        cases["cymbals" if stroke.instrument in CYMBALS else stroke.instrument.name].append(stroke)
    moments = at_one_moment(hands)
    for mark in groove.performed().sticking:
        if mark.limbs is Limbs.HANDS:
            for side in "RL" if mark.side.value == "B" else mark.side.value:
                cases[side].extend(moments[mark.onset])
    return cases


@every_groove
def test_no_hand_is_too_fast(name: str) -> None:
    for case, strokes in played_by_one_hand(GROOVES[name]).items():
        onsets = sorted(chain.from_iterable(hand_strokes(stroke) for stroke in strokes))
        assert all(gap >= Fraction(1, FASTEST_HAND) for gap in gaps(onsets, GROOVES[name].performed())), case


@every_groove
def test_no_foot_is_too_fast(name: str) -> None:
    groove = GROOVES[name].performed()
    feet = of_limbs(GROOVES[name], Limbs.FEET)
    for foot in (LEFT_FOOT, {BASS}):
        onsets = [stroke.onset for stroke in feet if stroke.instrument in foot]
        assert all(gap >= Fraction(1, FASTEST_FOOT) for gap in gaps(onsets, groove)), (foot, groove.title)


@every_groove
def test_the_hi_hat_has_a_foot_to_itself(name: str) -> None:
    """A stick on the hi-hat needs the left foot on its pedal: not at a second bass drum, not closing an open hi-hat."""
    strokes = GROOVES[name].strokes
    assert not (HI_HATS & set(GROOVES[name].instruments) and LEFT_BASS in GROOVES[name].instruments)
    closing = {stroke.onset for stroke in strokes if stroke.instrument == FOOT_HI_HAT}
    assert not any(stroke.onset in closing for stroke in strokes if stroke.instrument in HI_HATS)


@every_groove
def test_sticking_gives_each_stroke_its_hand(name: str) -> None:
    """B where two hands strike, R or L where one does; rows may stop at a fill."""
    groove = GROOVES[name]
    moments = at_one_moment(s for s in groove.strokes if Style().kit[s.instrument].limbs is Limbs.HANDS)
    for mark in groove.sticking:
        if mark.limbs is Limbs.HANDS:
            wanted = 2 if mark.side.value == "B" else 1
            assert len(moments[mark.onset]) == wanted, (name, mark)


@every_groove
def test_stated_cells_are_there(name: str) -> None:
    """What the figure does in one cell it does in another: the stated length is a period of some lane's strokes."""
    groove, cells = GROOVES[name], DEFINITIONS[name].cells
    assert cells is not None
    length = cells.length * groove.step
    written = {cycle.length for layer in groove.layers for cycle in layer.cycles}
    is_bar = {bar.length for bar in groove.bars if bar.is_whole} == {length}
    assert written == {length} or (is_bar and not written), value_name(groove.step)


def test_the_author_s_touches_are_all_there() -> None:
    assert {stroke.touch for groove in GROOVES.values() for stroke in groove.strokes} == set(Touch)
