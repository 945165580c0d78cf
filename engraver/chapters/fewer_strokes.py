"""The harder of two exercises with fewer of the strokes that it adds. Two drafts in, drafts between them out."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace

from engraver.chapters.exercises import Draft
from engraver.rhythm import Groove, Stroke
from engraver.style import Words


def fewer_strokes(low: Draft, high: Draft, say: Words) -> Iterator[Draft]:
    """Without one of the instruments that come in, or with half of the strokes; none if the windows differ."""
    same_window = (low.offset, low.scale, low.groove.bars) == (high.offset, high.scale, high.groove.bars)
    known = {_key(stroke) for stroke in low.groove.strokes}
    new = [stroke for stroke in high.groove.strokes if _key(stroke) not in known]
    if same_window and len(new) > 1:
        yield from _without_an_instrument(high, new, say)
        yield _strong_places(high, new, say)


def _without_an_instrument(high: Draft, new: Sequence[Stroke], say: Words) -> Iterator[Draft]:
    instruments = dict.fromkeys(stroke.instrument for stroke in new)
    for instrument in instruments if len(instruments) > 1 else ():
        title = say("exercise without", title=high.title, instrument=say.said(instrument))
        left_out = [stroke for stroke in new if stroke.instrument == instrument]
        yield _without(high, left_out, title, say("exercise without task"))


def _strong_places(high: Draft, new: Sequence[Stroke], say: Words) -> Draft:
    """What stands nearest to a beat."""
    strong = sorted(new, key=lambda stroke: (_weakness(high.groove, stroke), stroke.order))
    title = say("exercise strong", title=high.title)
    return _without(high, strong[(len(new) + 1) // 2 :], title, say("exercise strong task"))


def _without(high: Draft, strokes: Collection[Stroke], title: str, task: str) -> Draft:
    left_out = {_key(stroke) for stroke in strokes}
    kept = high.groove.only(lambda stroke: _key(stroke) not in left_out)
    return replace(high, title=title, task=task, groove=kept, said=())


def _key(stroke: Stroke) -> tuple[object, ...]:
    return stroke.onset, stroke.kind


def _weakness(groove: Groove, stroke: Stroke) -> tuple[int, bool]:
    """0 on a beat, more the finer the division that the stroke falls on; ghosts after the strokes that are heard."""
    bar = groove.bars[groove.bar_at(stroke.onset)]
    beat = next(span for span in bar.meter.beat_spans(bar.start) if stroke.onset in span)
    return ((stroke.onset - beat.start) / beat.length).denominator, stroke.is_ghost
