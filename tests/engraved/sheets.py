"""Grooves engraved together and read back: patterns in, what stands on the staff out.

All grooves of one style are scores of one LilyPond job. What is read is the ink of the proof: heads, signs and boxes.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cached_property
from pathlib import Path

from engraver import definition
from engraver.chapters import Passage, Ribbon
from engraver.engraving import Engraved, Job, Workshop
from engraver.lilypond.chapter import main_width, page
from engraver.lilypond.notes import note_names, sounds_of
from engraver.lilypond.passage import Engravable, Setting, engravable
from engraver.lilypond.rows import Row
from engraver.lilypond.source import Source
from engraver.lilypond.templates import _environment
from engraver.lilypond.tempo import Mark, staff_mark
from engraver.notation import VoiceName
from engraver.proof.drawn import Thing, things
from engraver.proof.ink import InkColumn, columns
from engraver.proof.source import Lines, read_back
from engraver.rhythm import Groove
from engraver.style import Style

PAGE = """«% import "macros.j2" as m with context %»
«% include "prologue.j2" %»
«% for score in scores %»
«ly(m.score(score))»
«% endfor %»
"""


@dataclass(frozen=True)
class Case:
    """A groove to engrave; ``text`` is what stands below the title in a groove file."""

    name: str
    text: str
    style: Style = field(default_factory=Style)
    ribbons: tuple[Ribbon, ...] = ()
    rows: tuple[Row, ...] = ()
    repeats: int = 1
    mirrors: tuple[Fraction, ...] = ()
    marked: bool = False  # with its tempo, as a whole groove has it

    @cached_property
    def groove(self) -> Groove:
        head = "" if "tempo:" in self.text else "tempo: 90\n"
        text = f"title: {self.name}\n{head}{self.text}"
        return definition.to_groove(definition.parse_groove(text, Path(f"{self.name}.yaml"), self.style))


@dataclass(frozen=True)
class Sheet:
    """What stands on the staff of one case."""

    case: Case
    things: tuple[Thing, ...]
    ink: tuple[InkColumn, ...]
    engraved: Engraved

    def of(self, *kinds: str) -> list[Thing]:
        return [thing for thing in self.things if thing.kind in kinds]

    def words(self, kind: str) -> list[str]:
        return [" ".join(thing.words) for thing in self.of(kind)]

    def beams(self, direction: int = 1) -> list[tuple[Fraction, ...]]:
        """The onsets under each beam of the voice with stems up (1) or down (-1)."""
        return sorted(thing.joined for thing in self.of("Beam") if thing.direction == direction)

    def groups(self, direction: int = 1) -> str:
        """``4+4``: how many notes each beam joins."""
        return "+".join(str(len(joined)) for joined in self.beams(direction))

    def rests(self) -> list[tuple[Fraction | None, str]]:
        """Moment and value as LilyPond names its glyph: ``(1/4, "2")``, a quarter rest on beat 2."""
        return sorted(
            ((rest.moment, rest.words[0].removeprefix("rests.").rstrip("o")) for rest in self.of("Rest") if rest.words),
            key=lambda rest: rest[0] or 0,
        )

    def heads(self, voice: VoiceName) -> dict[Fraction, tuple[tuple[int, str], ...]]:
        return {one.onset: tuple(head.shape for head in one.heads) for one in self.ink if one.voice is voice}

    @property
    def systems(self) -> list[list[Thing]]:
        """The things of each line."""
        places = sorted({(thing.page, thing.system) for thing in self.things})
        return [[thing for thing in self.things if (thing.page, thing.system) == place] for place in places]


def engrave(shop: Workshop, cases: Sequence[Case], *, more: str = "") -> Mapping[str, Sheet]:
    """A job for each style; ``more`` is LilyPond text after the prologue. Fails on any complaint of LilyPond's."""
    assert len({case.name for case in cases}) == len(cases)
    together: list[list[Case]] = []
    for case in cases:
        same = next((group for group in together if group[0].style == case.style), None)
        if same is None:
            together.append([case])
        else:
            same.append(case)
    made = [_text(group, more) for group in together]
    results = shop.engrave([Job(f"sheet {n}", text) for n, (text, _) in enumerate(made)])
    for result in results:
        assert not result.failure and not result.complaints, f"{result.failure} {[*map(str, result.complaints)]}"
    sheets = [
        sheet
        for group, (text, scores), result in zip(together, made, results, strict=True)
        for sheet in _sheets(group, text, scores, result)
    ]
    return {sheet.case.name: sheet for sheet in sheets}


def _text(cases: Sequence[Case], more: str) -> tuple[str, tuple[Engravable, ...]]:
    style = cases[0].style
    names = note_names(sounds_of(stroke for case in cases for stroke in case.groove.strokes))
    setting = Setting(style, names, main_width(style))
    scores = tuple(_score(case, setting) for case in cases)
    looks = (("A", 0, True), ("B", 1, False), ("C", 2, True))
    template = _environment(style.design).from_string(PAGE)
    values = {"page": page(style, names, looks), "say": style.say, "scores": scores, "ly": Source}
    text = template.render(**values).replace('\\include "design.ily"\n', f'\\include "design.ily"\n{more}\n', 1)
    return read_back(text), scores


def _score(case: Case, setting: Setting) -> Engravable:
    passage = Passage(case.name, case.groove, ribbons=case.ribbons, repeats=case.repeats, mirrors=case.mirrors)
    mark = staff_mark(passage, case.groove, case.style, with_tempo=True) if case.marked else Mark()
    return engravable(passage, setting, case.rows, numbered=True, mark=mark)


def _sheets(cases: Sequence[Case], text: str, scores: Sequence[Engravable], result: Engraved) -> Iterator[Sheet]:
    lines = _lines(text, scores)
    (drawn,), (ink,) = result.with_suffix(".drawn"), result.with_suffix(".ink")
    every, inked = things(drawn), columns(ink, lines)
    owner = {(t.page, t.system): name for t in every if (name := lines.passage(t.line))}
    for case in cases:
        own = tuple(thing for thing in every if owner.get((thing.page, thing.system)) == case.name)
        yield Sheet(case, own, inked.get(case.name, ()), result)


def _lines(text: str, scores: Sequence[Engravable]) -> Lines:
    first = {score.name: text[: text.index(score.staff)].count("\n") + 1 for score in scores}
    return Lines(first, {score.name: first[score.name] + score.staff.count("\n") for score in scores})


def with_style(cases: Sequence[Case], style: Style) -> list[Case]:
    return [replace(case, style=style) for case in cases]


def groove(*lanes: str, meter: str = "4/4", step: str = "sixteenth", bars: int = 1, more: str = "") -> str:
    """A groove file below its title; a lane is ``snare: x-x-``, or what stands behind the colon in braces."""
    rows = [lane.split(": ", 1) for lane in lanes]
    strokes = "".join(f"      {name}: {row if row.startswith('{') else repr(row)}\n" for name, row in rows)
    return f"meter: {meter}\nstep: {step}\nbars: {bars}\n{more}layers:\n  - name: All\n    strokes:\n{strokes}"
