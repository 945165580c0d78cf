"""Pattern lines to a groove, and a score to one line of text: ``[8 16 16] r16 8. 3:2{[8 8 8]}``.

Items stand in order; ``[`` and ``]`` are the ends of a beam, ``r`` a rest, ``/`` a slash on the stem, ``z`` a buzz,
``n:m{ }`` a tuplet with its number alone and ``n:m<{ }>`` one with a bracket; ``-`` is a bar without a sign, ``R`` a
whole-bar rest, ``|`` a bar line. Only values, no heads.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from engraver.notation import Beam, Note, Rest, Score, TupletGroup, Voice, VoiceName, write
from engraver.rhythm import Bar, Groove, Instrument, Layer, Meter, Ornament, Stroke, Tempo, Touch, Tuplet
from engraver.style import Rests, Style

Item = Note | Rest | TupletGroup

MARKS: dict[str, tuple[Touch, Ornament | None]] = {
    "x": (Touch.PLAIN, None),
    "X": (Touch.ACCENT, None),
    "g": (Touch.GHOST, None),
    "f": (Touch.PLAIN, Ornament.FLAM),
    "z": (Touch.PLAIN, Ornament.BUZZ),
    "=": (Touch.PLAIN, Ornament.DOUBLE),
}


def strokes(instrument: str, pattern: str, step: Fraction, start: Fraction = Fraction(0)) -> tuple[Stroke, ...]:
    marks = pattern.replace(" ", "").replace("|", "")
    return tuple(
        Stroke(start + index * step, Instrument(instrument), *MARKS[mark], step)
        for index, mark in enumerate(marks)
        if mark != "-"
    )


def groove_of(
    struck: Iterable[Stroke],
    meters: str = "4/4",
    tuplets: tuple[Tuplet, ...] = (),
    pickup: Fraction = Fraction(0),
    cut: Fraction | None = None,
) -> Groove:
    """Meters are a comma-separated list, one a bar; ``pickup`` shortens the first bar to this, ``cut`` the last."""
    bars: list[Bar] = []
    start = Fraction(0)
    for meter in map(Meter.parse, meters.split(",")):
        length = pickup if pickup and not bars else meter.length
        bars.append(Bar(start, meter, length))
        start += length
    if cut:
        bars[-1] = Bar(bars[-1].start, bars[-1].meter, cut)
    layer = Layer("all", tuple(sorted(struck, key=lambda stroke: stroke.order)))
    end = bars[-1].span.end
    tempo = Tempo(Fraction(1, 4), 90)
    return Groove("Plain Stairs", tuple(bars), (layer,), Fraction(1, 16), tempo, end, pickup, tuplets=tuplets)


def written(groove: Groove, voice: VoiceName = VoiceName.UPPER, rests: Rests = Rests.SPARING) -> str:
    return render(write(groove, Style(rests=rests)), voice)


def render(score: Score, voice: VoiceName) -> str:
    return " | ".join(_bar(next(own for own in bar.voices if own.name is voice)) for bar in score.bars)


def _bar(voice: Voice) -> str:
    if voice.is_silent:
        (rest,) = voice.items
        assert isinstance(rest, Rest)
        return "R" if rest.visible else "-"
    return " ".join(map(_item, voice.items))


def _item(item: Item) -> str:
    if isinstance(item, TupletGroup):
        inner = " ".join(map(_item, item.items))
        opening, closing = ("<{", "}>") if item.bracket else ("{", "}")
        return f"{item.count}:{item.normal}{opening}{inner}{closing}"
    value = f"{item.value.base}{'.' * item.value.dots}"
    if isinstance(item, Rest):
        return f"r{value}"
    sign = {Ornament.DOUBLE: "/", Ornament.BUZZ: "z", None: ""}[item.tremolo]
    opening = "[" if item.beam is Beam.BEGIN else ""
    return f"{opening}{value}{sign}{']' if item.beam is Beam.END else ''}"
