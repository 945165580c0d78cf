"""The MIDI files beside a book: its chapters in, the bytes of each file by its place in the folder out."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Protocol

from engraver import export
from engraver.chapters import ChapterPlan
from engraver.definition import ChapterDefinition
from engraver.errors import NotationError
from engraver.manuscript.complaints import title_place
from engraver.style import Style


class Planned(Protocol):
    """A chapter that knows what it is to print."""

    @property
    def definition(self) -> ChapterDefinition: ...

    @property
    def plan(self) -> ChapterPlan: ...


def play_book(
    made: Iterable[Planned], style: Style, click: export.Click, *, every_tempo: bool = False
) -> Mapping[str, bytes]:
    """A MIDI file for every groove and exercise, or for every tempo of each.

    Raises one NotationError with all that cannot be played.
    """
    pieces, refused = {}, []
    for chapter in made:
        try:
            plan = chapter.plan
            pieces[plan.name] = export.midi_files(plan, style, click, every_tempo=every_tempo)
        except NotationError as error:
            refused += [replace(problem, position=title_place(chapter.definition)) for problem in error.problems]
    if refused:
        raise NotationError(refused)
    return export.in_folders(pieces)
