"""A passage as it is handed to a template: both voices as text, ribbons, rows, spacing."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate
from math import log2

from engraver.chapters import Passage, Ribbon
from engraver.lilypond.ghosts import ghost_crowd
from engraver.lilypond.lines import FASTEST, LETTER, Lines, finest, lines
from engraver.lilypond.notes import Sound
from engraver.lilypond.rows import Row
from engraver.lilypond.score import staff_text
from engraver.lilypond.source import Source, symbol
from engraver.lilypond.staff import Staff
from engraver.lilypond.tempo import Mark
from engraver.notation import VoiceName, voice_of, write
from engraver.rhythm import ZERO, Groove, Span
from engraver.style import BarNumbers, Style

MM_PER_POINT = 25.4 / 72.27  # LilyPond's point
WORDS = -1.6  # the usual size of words under the staff
NO_MARK = Mark()
EIGHTHS = 8  # in a whole note
USUAL_SIZE = 21  # points: the staff that the lengths of `lines` are for; a larger one needs as much more room


@dataclass(frozen=True, slots=True)
class Engravable:
    """What the score macro needs. ``step`` is the proportional unit, ``increment`` its width as LilyPond counts it."""

    name: str
    staff: Source
    ribbons: tuple[tuple[str | Fraction | None, ...], ...]  # as `_ribbons` has them
    rows: tuple[Row, ...]
    step: Fraction
    increment: float
    ragged: bool
    length: float  # of a full line, in millimetres
    lines: int
    word_size: float  # of the words under the staff, as LilyPond counts font sizes
    bar_numbers: Source  # none, lines or all
    feet_alone: bool  # no note has its stem up
    mark: Mark
    ghosts_close: bool  # a bar would be too long for a line if its ghost notes stood apart


@dataclass(frozen=True, slots=True)
class Setting:
    """What all passages of a chapter share. ``width`` of the main column in millimetres."""

    style: Style
    names: Mapping[Sound, str]
    width: float


def engravable(
    passage: Passage,
    setting: Setting,
    rows: tuple[Row, ...] = (),
    *,
    fresh: frozenset[tuple[Fraction, str]] = frozenset(),
    cells: tuple[Ribbon, ...] | None = None,
    numbered: bool = False,
    ending: str = "|.",
    counts: bool = True,
    mark: Mark = NO_MARK,
) -> Engravable:
    """``cells`` colour the heads, where the style wants that; left out, they are those of the passage's ribbons.

    ``counts``: repeat signs inside the passage say how often.
    """
    groove, style = passage.groove, setting.style
    layout = _layout(groove, setting, rows, numbered)
    scale, densest = _scale(style), _density(rows) * finest(groove)
    staff = Staff(
        part=passage.name,
        names=setting.names,
        offset=passage.offset,
        scale=passage.scale,
        breaks=layout.breaks,
        turns=layout.turns,
        repeats=passage.repeats,
        first_bar=0 if groove.pickup else 1,
        fresh=fresh,
        cells=_letters(groove, passage.ribbons if cells is None else cells) if style.coloured_notes else {},
        counts={each.times: style.say("times", n=each.times) for each in groove.repeats if counts},
        accents=style.accents,
        ending="" if passage.repeats > 1 or _ends_in_repeat(groove) else ending,
    )
    return Engravable(
        name=passage.name,
        staff=staff_text(write(groove, style), staff),
        ribbons=tuple(_ribbons(passage)),
        rows=rows,
        step=finest(groove),
        increment=_increment(layout.step * scale, style.staff_size),
        ragged=layout.ragged,
        length=layout.length * scale,
        lines=len(layout.breaks),
        word_size=_word_size(layout.step, densest),
        bar_numbers=symbol((style.bar_numbers if numbered else BarNumbers.NONE).name.lower()),
        feet_alone=all(voice_of(instrument, style) is VoiceName.LOWER for instrument in groove.instruments),
        mark=mark,
        ghosts_close=layout.crowded,
    )


def _layout(groove: Groove, setting: Setting, rows: tuple[Row, ...], whole: bool) -> Lines:
    """In millimetres of the usual staff; words under it ask for the room that they need.

    More room have grace notes, and where both voices are busy the full groove and lines with ornaments or words.
    """
    words = any(row.kind != "tick" for row in rows)
    ornaments = [stroke.ornament for stroke in groove.strokes if stroke.ornament]
    much_to_read = whole or words or bool(ornaments)
    roomy = any(each.graces for each in ornaments) or (much_to_read and _both_busy(groove, setting.style))
    width, most = setting.width / _scale(setting.style), setting.style.bars_per_line
    crowd = ghost_crowd(groove, setting.style)
    return lines(groove, width, roomy=roomy, most=most, density=_density(rows), crowd=crowd)


def _both_busy(groove: Groove, style: Style) -> bool:
    """Whether each voice has strokes between the eighths, so that few of its steps are empty."""
    between = {stroke.instrument for stroke in groove.strokes if EIGHTHS % stroke.onset.denominator}
    return finest(groove) <= FASTEST and len({voice_of(instrument, style) for instrument in between}) > 1


def _scale(style: Style) -> float:
    return style.staff_size / USUAL_SIZE


def _density(rows: tuple[Row, ...]) -> Fraction:
    return max((row.density for row in rows), default=ZERO)


def _letters(groove: Groove, cells: tuple[Ribbon, ...]) -> Mapping[Fraction, str]:
    """The cell of every moment at which something is struck under one."""
    ends = tuple(accumulate(ribbon.length for ribbon in cells))
    found = {}
    for onset in sorted({stroke.onset for stroke in groove.strokes}):
        index = bisect_right(ends, onset)
        if index < len(cells) and cells[index].letter:
            found[onset] = str(cells[index].letter)
    return found


def _word_size(step: float, letters: Fraction) -> float:
    """Smaller than usual where the letters of a step have no room; six sizes are a factor of two."""
    needed = LETTER * float(letters)
    return round(WORDS + (6 * log2(step / needed) if needed > step else 0), 2)


def _ends_in_repeat(groove: Groove) -> bool:
    """The last bar has a repeat sign; a last ending has none, it leads on."""
    return any(repeat.last + 1 == len(groove.bars) and not repeat.endings for repeat in groove.repeats)


def _increment(step: float, staff_size: float) -> float:
    """LilyPond's spacing-increment for a step in millimetres: measured, it counts twice for the shortest note."""
    space = staff_size * MM_PER_POINT / 4
    return step / space / 2


def _ribbons(passage: Passage) -> Iterator[tuple[str | Fraction | None, ...]]:
    """Name and length; and how far into it, as a part of its length, the letters have their middle, if they do."""
    start = ZERO
    for ribbon in passage.ribbons:
        span = Span(start, start + ribbon.length)
        middle = tuple((moment - start) / ribbon.length for moment in passage.mirrors if moment in span)
        name = "/" + ribbon.letter if ribbon.cut and ribbon.letter else ribbon.letter
        yield name, ribbon.length, *middle
        start = span.end
