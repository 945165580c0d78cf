"""Releasing: a book's folder in; a folder and an archive to sell out, and copies for those who bought.

A release is refused unless every file is without fault, every score is proved, LilyPond had nothing to say, and the
book says whose it is. The same folder makes the same bytes. What was stopped half-way is made by making it again.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from engraver import definition, export
from engraver.definition import BookDefinition
from engraver.errors import EngravingError, Problem
from engraver.file_name import slug
from engraver.making.press import Progress, silent
from engraver.making.print_run import Made, PrintRun, print_run
from engraver.making.proving import verify
from engraver.making.where import Where
from engraver.manuscript.playing import play_book
from engraver.release.buyers import Buyers
from engraver.release.buyers_copies import copy_for_buyers, read_buyers_of
from engraver.release.package import pack, whole_folder, write_checksums
from engraver.release.read_me import read_me
from engraver.release.readiness import refuse_unready

NOBODY = Buyers((), ())


@dataclass(frozen=True, slots=True)
class Released:
    """``copies``: the folder of the buyers' copies, None without buyers. ``buyers``: theirs, and rows without one."""

    folder: Path
    archive: Path
    made: tuple[Made, ...]
    copies: Path | None = None
    buyers: Buyers = NOBODY


def release(where: Where, buyers: Path | None = None, progress: Progress = silent) -> Released:
    """Raises an EngraverError that says why the book cannot be released; what was released before then stays."""
    book = definition.read(where.folder)
    refuse_unready(book)
    found = read_buyers_of(book, buyers) if buyers else NOBODY
    verify(where, progress)
    name = release_name(book)
    folder = where.release / name
    with whole_folder(folder) as draft:
        run = print_run(where, book, draft, progress)
        refuse_warnings(run)
        _write_files(draft, _beside(book, run))
        write_checksums(draft)
    archive = folder.with_name(f"{name}.zip")
    pack(folder, archive, book.date, name)
    made = tuple(replace(one, file=folder / one.file.name) for one in run.made)
    copies = folder.with_name(f"{name}-{slug(buyers.stem)}") if buyers else None
    if copies:
        copy_for_buyers(book, made, found.buyers, copies)
    return Released(folder, archive, made, copies, found)


def release_name(book: BookDefinition) -> str:
    """Title, edition and date of the book."""
    return "-".join([*(slug(part) for part in (book.title, book.edition) if part), book.date.isoformat()])


def refuse_warnings(run: PrintRun) -> None:
    """Raises one EngravingError with all that LilyPond said."""
    if run.warnings:
        first = Problem(None, "LilyPond warns of pages that would be sold", "mend what it names, or leave it out")
        raise EngravingError([first, *run.warnings])


def _beside(book: BookDefinition, run: PrintRun) -> Mapping[str, bytes]:
    """What a buyer gets beside the editions, by its place in the folder."""
    style = book.style
    plans = [chapter.plan for chapter in run.chapters]
    midi = play_book(run.chapters, style, export.Click.NONE)
    said = export.text_edition(book, plans, style)
    return {
        "READ-ME.txt": read_me(book, run.made, len(midi), style.say).encode(),
        "LICENCE.txt": book.licence.encode(),
        f"text/{slug(book.title)}.html": said.encode(),
        **{f"midi/{name}": content for name, content in midi.items()},
    }


def _write_files(folder: Path, files: Mapping[str, bytes]) -> None:
    for name, content in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(content)
