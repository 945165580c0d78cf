"""Rows of text under a staff: counting syllables, sticking letters, and where the author's bars begin."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from math import lcm

from engraver.analysis import Lane
from engraver.analysis.limbs import Assignment
from engraver.chapters.counting import counts as counts
from engraver.lilypond.source import Source, quoted
from engraver.rhythm import ZERO, Bar, Groove, Instrument, Limbs, Side, Sticking, tick_of
from engraver.style import Style, Words

NARROW = frozenset("fijlrt .,'")


@dataclass(frozen=True, slots=True)
class Row:
    """``kind`` is "plain", "said" (whole words) or "tick" (a stroke joins each to the staff, in ``colour``).

    ``density``: letters in the time of a whole note where the words stand closest, a space between them counted.
    """

    name: str
    text: Source
    density: Fraction
    kind: str = "plain"
    colour: str = "soft"

    @classmethod
    def of(
        cls, name: str, words: Mapping[Fraction, str], length: Fraction, kind: str = "plain", colour: str = "soft"
    ) -> Row:
        return cls(name, words_at(words, length), density(words), kind, colour)


def density(words: Mapping[Fraction, str]) -> Fraction:
    """Words stand centred at their onsets, so half of each lies between them; and a third of a letter."""
    whole, places = _in_ticks(words)
    near = {(a, b, end - start) for (start, a), (end, b) in pairwise(places)}  # the same few, again and again
    letters = (((_letters(a) + _letters(b)) / 2 + Fraction(1, 3), gap) for a, b, gap in near)
    return max((wide * whole / gap for wide, gap in letters), default=ZERO)


@lru_cache(maxsize=1024)
def _letters(word: str) -> Fraction:
    """How wide a word is beside letters of middling width."""
    return sum((Fraction(3, 5) if letter in NARROW else Fraction(1) for letter in word), ZERO)


def words_at(words: Mapping[Fraction, str], length: Fraction) -> Source:
    """Lyrics with explicit lengths: a word lasts until the next one."""
    whole, places = _in_ticks({**words, length: ""})
    lengths = [end - start for (start, _), (end, _) in pairwise(places)]
    told = {ticks: str(Fraction(ticks, whole)) for ticks in {places[0][0], *lengths}}
    parts = [f"\\skip 1*{told[places[0][0]]}"] if places[0][0] and words else []
    parts += [f"{quoted(word)}1*{told[ticks]}" for (_, word), ticks in zip(places, lengths, strict=False)]
    return Source("      " + " ".join(parts))


def _in_ticks(words: Mapping[Fraction, str]) -> tuple[int, list[tuple[int, str]]]:
    """How many ticks a whole note has, and the words in order, each with the tick where it stands."""
    whole = lcm(*(onset.denominator for onset in words))
    return whole, sorted((tick_of(onset, whole), word) for onset, word in words.items())


def counting(groove: Groove, bars: Iterable[Bar], style: Style, say: Words) -> Row | None:
    """Syllables on every step of these bars."""
    words: dict[Fraction, str] = {}
    for bar in bars:
        words.update(counts(groove, bar, style.syllables))
    return Row.of(say("count row"), words, groove.length) if words else None


def said(words: Iterable[tuple[Fraction, str]], groove: Groove, say: Words) -> Row:
    """Who strikes, where two limbs are learnt as one pattern."""
    return Row.of(say("resultant row"), dict(words), groove.length, "said")


def sticking(groove: Groove, played: Callable[[], Assignment], style: Style, say: Words) -> tuple[Row, ...]:
    """Letters where a stroke of those limbs sounds in this groove, ``played`` as the whole groove is.

    "Both" stands only where both still strike: where one stroke of the two is left out, the letter is of the other.
    It is only then asked who plays what.
    """
    struck: dict[tuple[tuple[int, int], Limbs], list[Instrument]] = defaultdict(list)
    pairs = {instrument.name: style.kit[instrument].limbs for instrument in groove.instruments}
    for stroke in groove.strokes:
        struck[stroke.onset.as_integer_ratio(), pairs[stroke.instrument.name]].append(stroke.instrument)
    rows = []
    for limbs, name in ((Limbs.HANDS, "hands row"), (Limbs.FEET, "feet row")):
        marks = {
            mark.onset: _letter(mark, together, played, style)
            for mark in groove.sticking
            if mark.limbs is limbs and (together := struck.get((mark.onset.as_integer_ratio(), limbs)))
        }
        if marks:
            rows.append(Row.of(say(name), marks, groove.length))
    return tuple(rows)


def _letter(mark: Sticking, struck: Sequence[Instrument], played: Callable[[], Assignment], style: Style) -> str:
    if mark.side is Side.BOTH and len(struck) == 1:
        return played().limb_at(mark.onset, struck[0]).side.value
    return _side(mark.side, style.left_handed).value


def _side(side: Side, left_handed: bool) -> Side:
    return side.other if left_handed else side


def beats_struck(groove: Groove, lane: Lane, scale: Fraction, say: Words) -> Row | None:
    """On which beats of the author's bars a lane is struck, where other bar lines stand; None if on none."""
    written = {s.onset for layer in groove.layers if layer.name == lane.layer for s in layer.strokes}
    struck = {s.onset for s in groove.strokes if s.instrument == lane.instrument and s.onset in written}
    words = {onset * scale: say("beat n", n=n) for onset, n in _beats(groove.bars) if onset in struck}
    return Row.of("", words, groove.length * scale, "tick", "accent") if words else None


def _beats(bars: Iterable[Bar]) -> Iterator[tuple[Fraction, int]]:
    """Where the beats of whole bars are, with their numbers."""
    for bar in bars:
        if bar.is_whole:
            yield from ((span.start, n) for n, span in enumerate(bar.meter.beat_spans(bar.start), start=1))


def bar_starts(bars: Iterable[Bar], scale: Fraction, length: Fraction, say: Words) -> Row:
    """Where the author's bars begin under other bar lines. The bar after a pickup is bar 1, and the pickup none."""
    bars = tuple(bars)
    whole = bars if bars[0].is_whole else bars[1:]
    words = {bar.start * scale: say("bar n", n=number) for number, bar in enumerate(whole, start=1)}
    return Row.of("", words, length, "tick", "soft")
