"""style.yaml: notation and page decisions, each with a default. In: the file as it is read. Out: a `Style`.

A preset is such a file that comes with the program: its rows stand where the author has none.
"""

# ruff: noqa: RUF009 - `key` returns a dataclass field, as dataclasses.field does

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, replace
from enum import Enum
from typing import Any, ClassVar, TypeVar

from engraver.definition import wording
from engraver.definition.font_keys import FONTS, FontsFile, fonts_of
from engraver.definition.keys import Reading, Record, Written, key
from engraver.definition.kinds import YES_NO, Choice, Whole
from engraver.definition.kit_rows import KitRows, Rows, kit_of, stems_set
from engraver.definition.page_keys import (
    MARGINS,
    PAPER,
    STAFF_SIZE,
    TEXT_SIZE,
    MarginsFile,
    PaperFile,
    margin_faults,
    margins_of,
    paper_of,
)
from engraver.definition.source import parse
from engraver.errors import Problem
from engraver.style import (
    Accents,
    BarNumbers,
    Beams,
    CellNames,
    Counting,
    GhostLook,
    Rests,
    Style,
    Syllables,
    TempoLook,
    Voices,
    designs,
    languages,
    preset_text,
    presets,
    standard_kit,
    syllable_sets,
    syllables_of,
    words,
)
from engraver.style.presets import preset_path

Member = TypeVar("Member", bound=Enum)


def _one_of(members: type[Member], setting: str) -> Choice:
    return Choice({str(member.value): member for member in members}, f"a choice for {setting}")


@dataclass(frozen=True, slots=True, kw_only=True)
class StyleFile(Written):
    preset: str | None = key(
        Choice({name: name for name in presets()}, "a preset"),
        "a file of settings to begin with; your own rows win",
        None,
    )
    design: str = key(
        Choice({name: name for name in designs()}, "the name of a design"),
        "the page design, a folder of `templates/`",
        "workbook",
    )
    paper: str | PaperFile = key(PAPER, "A4, Letter, or `{width: 176, height: 250}` in millimetres", "A4")
    margins: MarginsFile | None = key(
        MARGINS,
        "millimetres added to those of the design: `{inner: 6}`; inner is at the spine in print editions, where pages "
        "mirror; a screen edition has the mean of inner and outer on both sides",
        None,
    )
    staff_size: float = key(STAFF_SIZE, "height of the staff in points, 8 to 40", 21.0)
    text_size: float = key(
        TEXT_SIZE, "size of the words in per cent of the design's, 80 to 150; titles stay as they are", 100.0
    )
    fonts: FontsFile | None = key(
        FONTS, "`text` and `labels`: a family that is shipped, or font files beside the book", None
    )
    language: str = key(
        Choice({name: name for name in languages()}, "a language that there are words for"),
        "the language of the printed words; left out, that of `book.yaml`, if there are words for it",
        "en",
    )
    words: wording.Rows = key(wording.Wording(), "your own wording of printed labels: `{index: Register}`", ())
    voices: Voices = key(
        _one_of(Voices, "voices"), "two: hands with stems up, feet with stems down; one: all stems up", Voices.TWO
    )
    ghosts: GhostLook = key(_one_of(GhostLook, "ghosts"), "how ghost notes look", GhostLook.PARENTHESES)
    accents: Accents = key(
        _one_of(Accents, "accents"),
        "where accents stand; on the side of the heads only with `voices: one`",
        Accents.STEM,
    )
    beams: Beams = key(
        _one_of(Beams, "beams"), "how far a beam of eighths goes in 4/4; none crosses the middle", Beams.HALF_BARS
    )
    rests: Rests = key(
        _one_of(Rests, "rests"),
        "full: a voice that is silent for a bar has a rest there; sparing: it has none",
        Rests.SPARING,
    )
    repeat_bars: bool = key(YES_NO, "whether a bar that repeats the last is written as a repeat sign", False)
    bars_per_line: int = key(Whole(0, 12, "a number of bars"), "bars on a line; 0 for as many as fit", 0)
    bar_numbers: BarNumbers = key(
        _one_of(BarNumbers, "bar numbers"), "which bars of the full groove are numbered", BarNumbers.NONE
    )
    tempo: TempoLook = key(
        _one_of(TempoLook, "tempo"), "the note of the beat = 96, the same said to be about, or 96 bpm", TempoLook.NOTE
    )
    sticking: bool = key(YES_NO, "whether sticking is printed", True)
    counting: Counting = key(
        _one_of(Counting, "counting"), "where counting syllables stand under the full groove", Counting.FIRST_BAR
    )
    syllables: Syllables | None = key(
        Choice(syllable_sets(), "a set of counting syllables"),
        "what is said on the parts of a beat; left out, the first set of the language",
        None,
    )
    cell_names: CellNames = key(
        _one_of(CellNames, "cell names"),
        "a changed form of cell A has the next free letter, or a prime: A'",
        CellNames.LETTERS,
    )
    colours: bool = key(YES_NO, "whether cells are coloured", True)
    coloured_notes: bool = key(YES_NO, "whether noteheads have the colour of their cell", False)
    handedness: bool = key(
        Choice({"right": False, "left": True}, "a hand"), "left: all sticking the other way round", False
    )
    kit: Rows = key(KitRows(), "instruments changed or added", ())
    noun: ClassVar[str] = "style"


_BY_HAND = frozenset({"paper", "margins", "fonts", "words", "syllables", "handedness", "kit"})


def style_of(file: StyleFile, reading: Reading, language: str = "") -> Style:
    """The style that a file describes; faults are noted, and what has one is as it is without.

    ``language`` is the tag of the language that the book is written in; its words are printed unless the file names
    others.
    """
    under = _preset(file.preset, reading) if file.preset else None
    layers = [under, file] if under else [file]
    whole = _worded(_laid_over(file, under) if under else file, language)
    say = words(whole.language)
    own: Mapping[str, Any] = {}
    for layer in layers:
        own = {**own, **wording.wording_of(layer.words, say, reading)}
    kit = standard_kit(say.reworded(own))
    for layer in layers:
        kit = kit_of(layer.kit, kit, reading)
    plain = {each.name for each in fields(Style)} & {each.name for each in fields(StyleFile)} - _BY_HAND
    style = Style(
        **{name: getattr(whole, name) for name in plain},
        paper=paper_of(whole.paper),
        margins=margins_of(whole.margins),
        fonts=fonts_of(whole.fonts),
        wording=own,
        syllables=whole.syllables or syllables_of(whole.language),
        left_handed=whole.handedness,
        kit=kit,
    )
    reading.problems.extend(_contradictions(whole, style))
    return style


def _preset(name: str, reading: Reading) -> StyleFile | None:
    path = preset_path(name)
    document = parse(preset_text(name), path)
    if document.root is None:
        return None
    read: StyleFile = Record(StyleFile).read_file(document.root, reading)
    return read


def _laid_over(own: StyleFile, under: StyleFile) -> StyleFile:
    written = {name for name, _ in own.places}
    changes = {each.name: getattr(own, each.name) for each in fields(StyleFile) if each.name in written}
    return replace(under, position=own.position, places=(*own.places, *under.places), **changes)


def _worded(file: StyleFile, language: str) -> StyleFile:
    spoken = language.split("-")[0].lower()
    named = any(name == "language" for name, _ in file.places)
    return file if named or spoken not in languages() else replace(file, language=spoken)


def _contradictions(file: StyleFile, style: Style) -> Iterator[Problem]:
    """Settings of which one leaves the other nothing to say."""
    if style.coloured_notes and not style.colours:
        message = "coloured notes: yes has no colours to print, since colours: no"
        yield Problem(file.at("coloured_notes"), message, "leave one of the two out")
    if style.accents is Accents.HEAD and style.voices is Voices.TWO:
        message = "with two voices an accent at the heads of one looks like an accent of the other"
        yield Problem(file.at("accents"), message, "write voices: one, or accents: stem side")
    if style.voices is Voices.ONE:
        for place in stems_set(file.kit):
            yield Problem(place, "with voices: one all stems go up", "leave stem out, or write voices: two")
    yield from margin_faults(style.paper, style.margins, file.at("margins"))
