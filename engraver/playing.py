"""The MIDI files beside a book: its chapters in, the bytes of each file by its place in the folder out."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from engraver import export
from engraver.complaints import title_place
from engraver.errors import NotationError
from engraver.planning import Chapter
from engraver.style import Kit


def play_book(made: Iterable[Chapter], kit: Kit, click: export.Click) -> Mapping[str, bytes]:
    """A MIDI file for every groove and exercise. Raises one NotationError with all that cannot be played."""
    pieces, refused = {}, []
    for chapter in made:
        try:
            pieces[chapter.plan.name] = export.midi_files(chapter.plan, kit, click)
        except NotationError as error:
            refused += [replace(problem, position=title_place(chapter)) for problem in error.problems]
    if refused:
        raise NotationError(refused)
    return export.in_folders(pieces)
