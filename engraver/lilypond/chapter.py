"""A chapter's plan as LilyPond source: the values that the design's chapter template sets.

No page number, chapter number or reference stands in the text: those are places that binding fills.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any
from urllib.parse import quote

from engraver.analysis import PRIME, CellReading
from engraver.analysis.limbs import carry
from engraver.chapters import CellCard, ChapterPlan, Exercise, Passage
from engraver.chapters.cells import ribbons
from engraver.lilypond.cards import cell_words, difference
from engraver.lilypond.facts import facts, sure_cells
from engraver.lilypond.grid import grid
from engraver.lilypond.letters import letters, mirror
from engraver.lilypond.notes import Sound, note_names, sounds_of
from engraver.lilypond.parts import NEW_PART, new_parts, parted
from engraver.lilypond.passage import Engravable, Setting, engravable
from engraver.lilypond.picture import picture
from engraver.lilypond.prose import all_words, blocks
from engraver.lilypond.regrouped import backbeat, counted_caption, letters_on_groove, regrouped_text
from engraver.lilypond.rows import Row, bar_starts, beats_struck, counting, said, sticking, words_at
from engraver.lilypond.ruler import ruler
from engraver.lilypond.source import Source, symbol
from engraver.lilypond.templates import fill
from engraver.lilypond.tempo import Mark, staff_mark, tempo_lead
from engraver.notation import VoiceName, voice_of
from engraver.rhythm import Instrument, Touch
from engraver.style import Counting, Family, GhostLook, Kit, Style, Words

Looks = tuple[tuple[str, int, bool], ...]  # letter, number of its colour, solid?


def anchor(*parts: str) -> str:
    """The name of a spot, as it stands in an address; ``:`` stands between its parts."""
    return ":".join(quote(part, safe="") for part in parts)


@dataclass(frozen=True, slots=True)
class ChapterSource:
    """``text`` begins with ``prologue``; ``staves``: the music of every passage as it stands in it, for the proof."""

    text: Source
    prologue: Source
    staves: Mapping[str, Source]
    names: Mapping[Sound, str]
    style: Style

    @property
    def parts(self) -> tuple[Source, ...]:
        """The texts that are engraved side by side; of a chapter of ordinary length the only one is ``text``."""
        return parted(self.text, self.prologue)

    def voice(self, instrument: Instrument) -> VoiceName:
        """The voice that the instrument is written in."""
        return voice_of(instrument, self.style)


def main_width(style: Style) -> float:
    return style.page.width - grid(style.design).sides


def page(style: Style, names: Mapping[Sound, str], looks: Looks = ()) -> dict[str, Any]:
    """What every source of a design begins with."""
    return {
        "width": style.page.width,
        "height": style.page.height,
        "staff": style.staff_size,
        "type_scale": style.text_size / 100,
        "ghosts": symbol(_ghosts(style, names)),
        "colours": style.colours,
        "cell_looks": looks,
        "text_family": _family(style.fonts.text),
        "label_family": _family(style.fonts.labels),
        "font_files": tuple(dict.fromkeys(face.file for face in style.fonts.faces)),
        "kit": kit_rows(style.kit, names),
    }


def _ghosts(style: Style, names: Mapping[Sound, str]) -> str:
    """A page without ghost notes is the same whatever they look like."""
    look = style.ghosts if any(sound.touch is Touch.GHOST for sound in names) else GhostLook.PARENTHESES
    return look.value


def _family(family: Family | None) -> tuple[str, ...]:
    return tuple(face.name for face in family.faces) if family else ()


def kit_rows(kit: Kit, names: Mapping[Sound, str]) -> tuple[tuple[str, str, str, int, int], ...]:
    """Name, head, sign, position and MIDI key of each note that is used, and of none other."""
    rows = []
    for sound, name in names.items():
        row = kit[sound.instrument]
        rows.append((name, row.head, "" if sound.grace else row.sign, row.position, row.key))
    return tuple(rows)


def cell_looks(cells: CellReading | None) -> Looks:
    """A changed form of another cell is hollow; with a prime it has its colour."""
    if cells is None:
        return ()
    names = sorted({*cells.skeleton, *cells.full}, key=lambda letter: (len(letter), letter))
    based = {cell.letter: cell.base for cell in cells.cells}
    return tuple((x, names.index(x.rstrip(PRIME)), based.get(x, x) == x) for x in names)


MANY_STEPS = 16  # a cell of more has a row of the key to itself, and its odd steps alone are numbered


def _steps(card: CellCard) -> int:
    return int(card.passage.groove.length / card.passage.groove.step)


def chapter(plan: ChapterPlan, style: Style, say: Words) -> ChapterSource:
    """The source of one chapter, and the music in it."""
    names = note_names(sounds_of(s for p in plan.passages for s in p.groove.strokes))
    setting = Setting(style, names, main_width(style))
    view = _View(plan, setting, say)
    common = {"say": say, "page": page(style, names, cell_looks(plan.facts.cells))}
    text = fill(style.design, "chapter.ly.j2", **common, chapter=view.values(), new_part=NEW_PART)
    return ChapterSource(text, fill(style.design, "prologue.j2", **common), view.staves, names, style)


class _View:
    """Collects the music of the passages while the template's values are made."""

    def __init__(self, plan: ChapterPlan, setting: Setting, say: Words) -> None:
        self._plan, self._setting, self._say = plan, setting, say
        self._style = setting.style
        self.staves: dict[str, Source] = {}
        self._lines: dict[str, int] = {}

    def values(self) -> dict[str, Any]:
        plan, say = self._plan, self._say
        definition = plan.definition
        return {
            "anchor": anchor("chapter", plan.name),
            "title": definition.title,
            "subtitle": definition.subtitle,
            "text": blocks(definition.text),
            "facts": facts(plan, self._style, say),
            "findings": plan.findings,
            "ruler": ruler(plan, say),
            "whole": self._whole(),
            "letters_on_groove": letters_on_groove(plan, say),
            "listen": tuple((card.title, blocks(card.text)) for card in definition.listen),
            "regrouped": self._regrouped(),
            "letters": letters(plan, say, self._setting.width),
            "key": self._key(),
            "mirror": mirror(plan, say, self._setting.width),
            "picture": picture(plan, self._style, say),
            "questions": self._questions(),
            "exercises": self._exercises(),
            "new_parts": new_parts(plan, self._lines),  # known only when all the music is
        }

    def _engravable(self, passage: Passage, *args: Any, **options: Any) -> Engravable:
        made = engravable(passage, self._setting, *args, **options)
        self.staves[passage.name], self._lines[passage.name] = made.staff, made.lines
        return made

    def _rows(self, passage: Passage) -> tuple[Row, ...]:
        if not self._style.sticking or not passage.groove.sticking:
            return ()
        limbs = self._plan.facts.limbs
        played = cache(lambda: carry(limbs, passage.groove, passage.offset, passage.scale))
        return sticking(passage.groove, played, self._style, self._say)

    def _mark(self, passage: Passage) -> Mark:
        return staff_mark(passage, self._plan.groove, self._style)

    def _whole(self) -> Engravable:
        groove = self._plan.groove
        shown = {Counting.NONE: 0, Counting.FIRST_BAR: 1, Counting.ALL: len(groove.bars)}[self._style.counting]
        first = 1 if groove.pickup else 0
        count = counting(groove, groove.bars[first : first + shown], self._style, self._say)
        rows = ((count,) if count else ()) + self._rows(self._plan.whole)
        cells = ribbons(groove, self._plan.facts) if sure_cells(self._plan) else ()
        mark = staff_mark(self._plan.whole, groove, self._style, with_tempo=True)
        return self._engravable(self._plan.whole, rows, cells=cells, numbered=True, mark=mark)

    def _regrouped(self) -> dict[str, Any] | None:
        passage = self._plan.regrouped
        if passage is None:
            return None
        starts = bar_starts(self._plan.groove.bars, passage.scale, passage.groove.length, self._say)
        lane = backbeat(self._plan, self._style.kit)
        beats = beats_struck(self._plan.groove, lane, passage.scale, self._say) if lane else None
        return {
            "text": regrouped_text(self._plan, passage, lane.instrument if lane and beats else None, self._say),
            "score": self._engravable(passage, (beats, starts) if beats else (starts,), mark=self._mark(passage)),
        }

    def _key(self) -> dict[str, Any] | None:
        cards = self._plan.cards
        if not cards:
            return None
        per_row = self._cards_a_row()
        width = (self._setting.width - grid(self._style.design).card_gap * (per_row - 1)) / per_row
        return {
            "title": self._say("key title", n=len(cards), count=self._say.number(len(cards)).capitalize()),
            "per_row": per_row,
            "cards": tuple(self._card(card, width) for card in cards),
        }

    def _cards_a_row(self) -> int:
        cells, page = self._plan.facts.cells, grid(self._style.design)
        if max(map(_steps, self._plan.cards)) > MANY_STEPS:
            return 1
        return page.cards if cells and cells.length <= 8 else page.wide_cards

    def _card(self, card: CellCard, width: float) -> dict[str, Any]:
        say, groove = self._say, card.passage.groove
        changed = frozenset((edit.step * groove.step, edit.instrument.name) for edit in card.edits if edit.mark != "-")
        every = 2 if _steps(card) > MANY_STEPS else 1
        steps = {n * groove.step: str(n + 1) for n in range(0, _steps(card), every)}
        return {
            "letter": card.cell.letter,
            "count": say("n times", n=card.cell.count),
            "score": self._engravable(card.passage, fresh=changed, ending="|"),
            "steps": words_at(steps, groove.length),
            "width": width,
            "difference": difference(card, say),
            "words": cell_words(card, say),
        }

    def _questions(self) -> tuple[dict[str, Any], ...]:
        return tuple(
            {"number": str(n), "name": anchor(self._plan.name, str(n)), "text": " ".join(b.text for b in q.text)}
            for n, q in enumerate(self._plan.questions, start=1)
        )

    def _exercises(self) -> tuple[dict[str, Any], ...]:
        return tuple(self._exercise(n, e) for n, e in enumerate(self._plan.exercises, start=1))

    def _exercise(self, number: int, exercise: Exercise) -> dict[str, Any]:
        passage, twin = exercise.passage, exercise.twin
        return {
            "anchor": anchor("exercise", self._plan.name, str(number)),
            "number": str(number),
            "grade": exercise.grade,
            "chips": exercise.letters[:4],
            "title": exercise.title,
            "task": all_words(exercise.task),
            "beat": tempo_lead(passage.groove.tempo.beat * passage.scale, self._style.tempo, self._say),
            "tempi": exercise.tempi[:9],
            "count": self._say("times", n=exercise.repeats),
            "score": self._engravable(passage, self._under(exercise), counts=False, mark=self._mark(passage)),
            "twin": self._engravable(twin, self._rows(twin), mark=self._mark(twin)) if twin else None,
            "twin_caption": counted_caption(self._plan, passage, self._say),
        }

    def _under(self, exercise: Exercise) -> tuple[Row, ...]:
        """What is said or counted, then the sticking."""
        groove = exercise.passage.groove
        rows = [said(exercise.said, groove, self._say)] if exercise.said else []
        count = counting(groove, groove.bars, self._style, self._say) if exercise.counted else None
        return (*rows, *((count,) if count else ()), *self._rows(exercise.passage))
