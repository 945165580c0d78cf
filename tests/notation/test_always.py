"""What holds of every groove that can be written: bars add up, no stroke is lost, beams are balanced and in place."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from hypothesis import HealthCheck, given, reject, settings
from hypothesis import strategies as st

from engraver.errors import NotationError
from engraver.notation import Beam, Note, Rest, Score, StaffBar, TupletGroup, Voice, write
from engraver.rhythm import Bar, Groove, Instrument, Layer, Limbs, Meter, Ornament, Span, Stroke, Tempo, Touch, Tuplet
from engraver.style import Rests, Style

METERS = ["4/4", "3/4", "2/4", "5/4", "6/8", "9/8", "12/8", "7/8", "5/8", "(3+2+2)/8", "2/2", "3/8", "7/16", "(4+3)/8"]
INSTRUMENTS = [Instrument(name) for name in ("snare", "ride", "bass drum", "foot hi-hat")]
ORNAMENTS = [None, None, None, Ornament.FLAM, Ornament.BUZZ, Ornament.DOUBLE]
DIVISIONS = [1, 2, 3, 4, 5, 6, 7, 8]  # of a quarter
SHORTEST_DOUBLE = Fraction(1, 40)  # half of a shorter step may be beyond a 64th
STYLES = [Style(rests=rests) for rests in Rests]


@st.composite
def grooves(draw: st.DrawFn) -> Groove:
    """One to three bars; each instrument is struck at random on its own grid, each bar on another."""
    meters = [Meter.parse(text) for text in draw(st.lists(st.sampled_from(METERS), min_size=1, max_size=3))]
    bars: list[Bar] = []
    struck: list[Stroke] = []
    tuplets: list[Tuplet] = []
    for meter in meters:
        bar = Bar.of(bars[-1].span.end if bars else Fraction(0), meter)
        bars.append(bar)
        for beat in meter.beat_spans(bar.start):
            count = draw(st.sampled_from(DIVISIONS))
            if draw(st.booleans()):
                tuplets.append(Tuplet(beat, count))
            struck += draw(_strokes(beat.start, beat.length / count, count))
    layer = Layer("all", tuple(sorted(struck, key=lambda stroke: stroke.order)))
    tempo = Tempo(Fraction(1, 4), 80)
    end = bars[-1].span.end
    return Groove("Loose Gravel", tuple(bars), (layer,), Fraction(1, 16), tempo, end, tuplets=tuple(tuplets))


@st.composite
def _strokes(draw: st.DrawFn, start: Fraction, step: Fraction, count: int) -> list[Stroke]:
    return [
        Stroke(
            start + place * step,
            instrument,
            draw(st.sampled_from(Touch)),
            draw(st.sampled_from(ORNAMENTS[:-1] if step < SHORTEST_DOUBLE else ORNAMENTS)),
            step,
        )
        for place in range(count)
        for instrument in INSTRUMENTS
        if draw(st.integers(0, 3)) == 0
    ]


def leaves(voice: Voice) -> Iterator[tuple[Note | Rest, Fraction]]:
    """Every note and rest with its sounding length."""
    for item in voice.items:
        if isinstance(item, TupletGroup):
            for inner in item.items:
                yield inner, inner.value.duration * item.normal / item.count
        else:
            yield item, item.value.duration


def notes(score: Score) -> list[Note]:
    found = (leaf for bar in score.bars for voice in bar.voices for leaf, _ in leaves(voice))
    return [leaf for leaf in found if isinstance(leaf, Note)]


def sounding(strokes: Iterator[Stroke] | list[Stroke]) -> Counter[tuple[Fraction, Instrument, Touch, Ornament | None]]:
    """Strokes as they sound: a double is two, the second without the accent."""
    heard: Counter[tuple[Fraction, Instrument, Touch, Ornament | None]] = Counter()
    for stroke in strokes:
        if stroke.ornament is not Ornament.DOUBLE:
            heard[stroke.onset, stroke.instrument, stroke.touch, stroke.ornament] += 1
            continue
        second = Touch.GHOST if stroke.is_ghost else Touch.PLAIN
        heard[stroke.onset, stroke.instrument, stroke.touch, None] += 1
        heard[stroke.onset + stroke.step / 2, stroke.instrument, second, None] += 1
    return heard


quick = settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@quick
@given(grooves(), st.data())
def test_cut_bars_add_up_and_keep_their_strokes(groove: Groove, data: st.DataObject) -> None:
    """Any window of whole eighths, so bars and tuplets are cut anywhere."""
    last = int(groove.length * 8)
    start = data.draw(st.integers(0, last - 1))
    end = data.draw(st.integers(start + 1, last))
    window = groove.slice(Span(Fraction(start, 8), Fraction(end, 8)))
    plain = window.only(lambda stroke: stroke.ornament is not Ornament.DOUBLE)
    try:
        score = write(plain, Style())
    except NotationError:
        reject()
    for bar in score.bars:
        for voice in (voice for voice in bar.voices if not voice.is_silent):
            assert sum(length for _, length in leaves(voice)) == bar.span.length
    heads = [head.stroke for note in notes(score) for head in note.heads]
    assert sounding(heads) == sounding(list(plain.strokes))


@quick
@given(grooves(), st.sampled_from(STYLES))
def test_bars_add_up_and_items_follow_one_another(groove: Groove, style: Style) -> None:
    for bar in write(groove, style).bars:
        for voice in bar.voices:
            if voice.is_silent:
                continue
            at = bar.span.start
            for leaf, length in leaves(voice):
                assert leaf.onset == at
                at += length
            assert at == bar.span.end


@quick
@given(grooves(), st.sampled_from(STYLES))
def test_every_stroke_is_a_head_of_its_voice(groove: Groove, style: Style) -> None:
    score = write(groove, style)
    heads = [head.stroke for note in notes(score) for head in note.heads]
    assert sounding(heads) == sounding(list(groove.strokes))
    assert all(head.stroke.onset == note.onset for note in notes(score) for head in note.heads)
    for bar in score.bars:
        for voice, limbs in zip(bar.voices, (Limbs.HANDS, Limbs.FEET), strict=True):
            own = [leaf for leaf, _ in leaves(voice) if isinstance(leaf, Note)]
            assert all(style.kit[head.stroke.instrument].limbs is limbs for note in own for head in note.heads)


@quick
@given(grooves())
def test_a_slash_lasts_as_long_as_its_double(groove: Groove) -> None:
    for bar in write(groove, Style()).bars:
        for voice in bar.voices:
            for leaf, length in leaves(voice):
                if isinstance(leaf, Note) and leaf.tremolo is Ornament.DOUBLE:
                    assert {(head.stroke.ornament, head.stroke.step) for head in leaf.heads} == {
                        (Ornament.DOUBLE, length)
                    }


@quick
@given(grooves())
def test_beams_are_balanced_and_stay_in_their_half_bar(groove: Groove) -> None:
    for bar in write(groove, Style()).bars:
        for voice in bar.voices:
            for beam in beams([leaf for leaf, _ in leaves(voice)]):
                assert len([leaf for leaf in beam if isinstance(leaf, Note)]) > 1
                assert all(leaf.value.is_flagged for leaf in beam if isinstance(leaf, Note))
                assert all(_place(bar, leaf) == _place(bar, beam[0]) for leaf in beam)


def _place(bar: StaffBar, leaf: Note | Rest) -> int:
    """Which beat, or in 4/4 and 2/4 which half note, the leaf stands in: no beam may join two of them."""
    if str(bar.meter) in ("4/4", "2/4"):
        return int((leaf.onset - bar.span.start) * 2)
    spans = enumerate(bar.meter.beat_spans(bar.span.start))
    return next(index for index, span in spans if leaf.onset in span)


def beams(items: list[Note | Rest]) -> Iterator[list[Note | Rest]]:
    """Runs from a beginning to its end; fails where they do not alternate."""
    run: list[Note | Rest] = []
    for item in items:
        mark = item.beam if isinstance(item, Note) else None
        assert (mark is Beam.BEGIN) <= (not run), "a beam begins within a beam"
        assert (mark is Beam.END) <= bool(run), "a beam ends that never began"
        if run or mark is Beam.BEGIN:
            run.append(item)
        if mark is Beam.END:
            yield run
            run = []
    assert not run, "a beam never ends"


@quick
@given(grooves())
def test_flagged_neighbours_of_a_beat_are_joined(groove: Groove) -> None:
    """Two flagged notes in a row within a quarter or a compound beat are never left apart."""
    for bar in write(groove, Style()).bars:
        spans = [span for span in bar.meter.beat_spans(bar.span.start) if span.length <= Fraction(3, 8)]
        for voice in bar.voices:
            own = [leaf for leaf, _ in leaves(voice) if isinstance(leaf, Note) and leaf.value.is_flagged]
            joined = {leaf.onset for run in beams([leaf for leaf, _ in leaves(voice)]) for leaf in run}
            for first, second in pairwise(own):
                if any(first.onset in span and second.onset in span for span in spans) and not _parted(
                    voice, first, second
                ):
                    assert first.onset in joined and second.onset in joined


def _parted(voice: Voice, first: Note, second: Note) -> bool:
    between = [leaf for leaf, _ in leaves(voice) if first.onset < leaf.onset < second.onset]
    return any(isinstance(leaf, Note) for leaf in between)
