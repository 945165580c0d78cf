"""The specimen as LilyPond source: the settings in force, a sign for all that can be struck, staves of every kind."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from engraver.analysis.limbs import assign
from engraver.chapters import Passage
from engraver.lilypond.chapter import main_width, page
from engraver.lilypond.notes import Sound, note_names, sounds_of
from engraver.lilypond.passage import Engravable, Setting, engravable
from engraver.lilypond.prose import blocks
from engraver.lilypond.rows import counting, sticking
from engraver.lilypond.signs import signs
from engraver.lilypond.source import Source
from engraver.lilypond.templates import fill
from engraver.lilypond.tempo import staff_mark, tempo_lead
from engraver.prose import Block, Run, Weight
from engraver.rhythm import Instrument, Limbs, Ornament, Side, Stroke, Touch
from engraver.style import Counting, Kit, Style

TEMPOS = (60, 66, 72, 78, 84)


@dataclass(frozen=True, slots=True)
class Figure:
    """A staff under a line that says what it shows. ``hollow``: the letters of changed cells."""

    title: str
    passage: Passage
    hollow: frozenset[str] = frozenset()


def specimen(figures: Sequence[Figure], settings: Iterable[tuple[str, str]], style: Style) -> Source:
    everything = tuple(_everything(style.kit))
    names = _names(figures, everything)
    sheet = {
        "settings": blocks((_told(settings),)),
        "signs": signs(everything, style, names),
        "figures": tuple((figure.title, _staff(figure.passage, style, names)) for figure in figures),
        "exercise": _exercise(figures[0], style, names),
    }
    return _filled(sheet, figures, style, names)


def illustration(figure: Figure, style: Style, *, as_exercise: bool) -> Source:
    """One figure alone, or its first bar as an exercise: what a setting looks like."""
    names = _names([figure])
    shown = () if as_exercise else (("", _staff(figure.passage, style, names)),)
    exercise = _exercise(figure, style, names) if as_exercise else None
    return _filled({"settings": (), "figures": shown, "exercise": exercise}, [figure], style, names)


def _filled(sheet: Mapping[str, Any], figures: Sequence[Figure], style: Style, names: Mapping[Sound, str]) -> Source:
    plain = page(style, names, tuple(_looks(figures)))
    return fill(style.design, "specimen.ly.j2", say=style.say, page=plain, sheet=sheet)


def _names(figures: Iterable[Figure], more: Iterable[Stroke] = ()) -> Mapping[Sound, str]:
    return note_names(sounds_of([*more, *(stroke for figure in figures for stroke in figure.passage.groove.strokes)]))


def _everything(kit: Kit) -> Iterator[Stroke]:
    """Each instrument once; each touch and ornament on the first that hands strike, a choke on the first cymbal."""
    start = Fraction(0)
    yield from (Stroke(start, row.instrument) for row in kit.rows)
    drum = _first(kit, "normal")
    yield from (Stroke(start, drum, touch) for touch in (Touch.GHOST, Touch.ACCENT))
    for ornament in Ornament:
        yield Stroke(start, _first(kit, "x") if ornament is Ornament.CHOKE else drum, ornament=ornament)


def _first(kit: Kit, head: str) -> Instrument:
    hands = [row for row in kit.rows if row.limbs is Limbs.HANDS]
    return next((row for row in hands if row.head == head), hands[0]).instrument


def _told(settings: Iterable[tuple[str, str]]) -> Block:
    """One paragraph, the names in strong words."""
    runs = [run for name, value in settings for run in (Run(name, Weight.STRONG), Run(f" {value}  ·  "))]
    return Block((*runs[:-1], Run(runs[-1].text.removesuffix("  ·  "))))


def _staff(passage: Passage, style: Style, names: Mapping[Sound, str]) -> Engravable:
    """With the rows that the style has under a full groove, its bars numbered as there."""
    groove, say = passage.groove, style.say
    shown = {Counting.NONE: 0, Counting.FIRST_BAR: 1, Counting.ALL: len(groove.bars)}[style.counting]
    count = counting(groove, groove.bars[:shown], style, say) if not passage.ribbons else None
    played = assign(groove, style.kit.places(), Side.LEFT if style.left_handed else Side.RIGHT)
    rows = sticking(groove, lambda: played, style, say) if style.sticking else ()
    setting = Setting(style, names, main_width(style))
    mark = staff_mark(passage, groove, style, with_tempo=passage.repeats == 1)
    return engravable(passage, setting, ((count,) if count else ()) + rows, numbered=not passage.ribbons, mark=mark)


def _exercise(figure: Figure, style: Style, names: Mapping[Sound, str]) -> dict[str, Any]:
    """The first bar of a figure as an exercise stands on its page."""
    groove = figure.passage.groove
    loop = Passage("exercise", groove.slice(groove.bars[0].span), repeats=4)
    return {
        "anchor": "specimen:1",
        "number": "1",
        "grade": 3,
        "chips": ("A", "B"),
        "title": style.say("exercise own"),
        "task": (),
        "beat": tempo_lead(groove.tempo.beat, style.tempo, style.say),
        "tempi": TEMPOS,
        "count": style.say("times", n=loop.repeats),
        "score": _staff(replace(loop), style, names),
        "twin": None,
    }


def _looks(figures: Iterable[Figure]) -> Iterator[tuple[str, int, bool]]:
    """Letter, number of its colour, solid? as `chapter` has them."""
    found = {r.letter: r.letter in figure.hollow for figure in figures for r in figure.passage.ribbons if r.letter}
    found |= {letter: False for letter in ("A", "B") if letter not in found}
    letters = sorted(found, key=lambda letter: (len(letter), letter))
    yield from ((letter, letters.index(letter[0]), not found[letter]) for letter in letters)
