"""A passage in words, for who cannot see the staff: in each bar the moments at which something is struck.

In: a groove of a plan. Out: bars of moments, each with what is counted there and what is struck, or how many bars in a
row have the same. Between two counts a moment is told by its distance from the last one.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from engraver.analysis.marks import mark
from engraver.chapters.counting import counts
from engraver.rhythm import Bar, Groove, Limbs, Side, Stroke
from engraver.style import Style, Words


@dataclass(frozen=True, slots=True)
class Moment:
    """``count`` such as "2" or "2 &"; ``strokes`` in order of their names; ``word``: what is said there."""

    count: str
    strokes: tuple[str, ...]
    word: str = ""

    def when(self, say: Words) -> str:
        return say("spoken word", count=self.count, word=self.word) if self.word else self.count


@dataclass(frozen=True, slots=True)
class SpokenBar:
    """Bars ``first`` to ``last`` have the same moments; the pickup is bar 0. No moments: silence."""

    first: int
    last: int
    moments: tuple[Moment, ...]


def spoken(
    groove: Groove, style: Style, say: Words, said: Iterable[tuple[Fraction, str]] = ()
) -> tuple[SpokenBar, ...]:
    """Every bar of a groove, those that are alike and stand side by side told once. ``said``: words on some onsets."""
    words = dict(said)
    told: list[SpokenBar] = []
    for number, bar in enumerate(groove.bars, start=0 if groove.pickup else 1):
        moments = tuple(_moments(groove, bar, style, say, words))
        if told and told[-1].moments == moments and told[-1].first:
            told[-1] = SpokenBar(told[-1].first, number, moments)
        else:
            told.append(SpokenBar(number, number, moments))
    return tuple(told)


def bar_name(bar: SpokenBar, say: Words) -> str:
    if bar.last == 0:
        return say("spoken pickup")
    return (
        say("spoken bar", n=bar.first) if bar.first == bar.last else say("spoken bars", first=bar.first, last=bar.last)
    )


def sentence(bar: SpokenBar, say: Words) -> str:
    """A bar as one line of text."""
    moments = "; ".join(
        f"{moment.when(say)}{':' if moment.word else ''} {', '.join(moment.strokes)}" for moment in bar.moments
    )
    return f"{bar_name(bar, say)}: {moments or say('spoken silence')}"


def _moments(groove: Groove, bar: Bar, style: Style, say: Words, words: Mapping[Fraction, str]) -> Iterator[Moment]:
    places = _places(groove, bar, style, say)
    struck: dict[Fraction, list[Stroke]] = {}
    for stroke in groove.strokes:
        if stroke.onset in bar.span:
            struck.setdefault(stroke.onset, []).append(stroke)
    sides = _sides(groove, style)
    for onset, strokes in struck.items():
        told = tuple(_stroke(s, strokes, sides, style, say) for s in strokes)
        told += tuple(_both(onset, strokes, sides, style, say))
        yield Moment(_count(onset, places, groove, say), told, words.get(onset, ""))


def _places(groove: Groove, bar: Bar, style: Style, say: Words) -> Mapping[Fraction, str]:
    """Every counted step; a syllable is told with the beat that it belongs to."""
    if bar.start == 0 and groove.pickup:  # counted as the end of a whole bar
        bar = Bar.of(bar.span.end - bar.meter.length, bar.meter)
    places, beat = {}, ""
    for onset, count in counts(groove, bar, style.syllables):
        beat = count if count.isdigit() else beat
        places[onset] = count if count == beat else f"{beat} {count}"
    return places


def _count(onset: Fraction, places: Mapping[Fraction, str], groove: Groove, say: Words) -> str:
    if onset in places:
        return places[onset]
    before = max(place for place in places if place < onset)
    return say("spoken after", parts=(onset - before) / groove.step, value=say.value(groove.step), count=places[before])


def _sides(groove: Groove, style: Style) -> Mapping[tuple[Fraction, Limbs], Side]:
    return {(s.onset, s.limbs): s.side.other if style.left_handed else s.side for s in groove.sticking}


def _both(
    onset: Fraction, strokes: list[Stroke], sides: Mapping[tuple[Fraction, Limbs], Side], style: Style, say: Words
) -> Iterator[str]:
    """Where the author says so, and each of the two has a stroke here."""
    for limbs in Limbs:
        theirs = sum(style.kit[stroke.instrument].limbs is limbs for stroke in strokes)
        if theirs > 1 and sides.get((onset, limbs)) is Side.BOTH:
            yield say(f"spoken B {limbs.value}")


def _stroke(
    stroke: Stroke,
    together: list[Stroke],
    sides: Mapping[tuple[Fraction, Limbs], Side],
    style: Style,
    say: Words,
) -> str:
    """What is struck, how, and with which side where the author says so and no other limb of the pair strikes."""
    parts = [say.name(stroke.instrument)]
    kind = mark(stroke.touch, stroke.ornament)
    parts += [say(f"mark {kind}")] if f"mark {kind}" in say.entries and kind != "x" else []
    limbs = style.kit[stroke.instrument].limbs
    alone = sum(style.kit[other.instrument].limbs is limbs for other in together) == 1
    side = sides.get((stroke.onset, limbs))
    if side and alone and side is not Side.BOTH:
        parts.append(say(f"spoken {side.value} {limbs.value}"))
    return " ".join(parts)
