"""MIDI files in their folders: chapter plans go in, ``CHAPTER/NN-title.mid`` come out, written where they differ."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

from engraver.chapters import ChapterPlan
from engraver.export.midi import Click, midi_file
from engraver.export.pieces import Piece, pieces
from engraver.file_name import slug
from engraver.style import Style


def midi_files(
    plan: ChapterPlan, style: Style, click: Click = Click.NONE, *, every_tempo: bool = False
) -> Mapping[str, bytes]:
    """A chapter's files by name. 00 is the whole groove, the others have the number of their exercise.

    An exercise is played at its goal; with ``every_tempo`` there is a file for each tempo of its row, named by it.
    """
    return {
        f"{number:02}-{slug(piece.title)}{at}.mid": midi_file(played, style, click)
        for number, piece in enumerate(pieces(plan))
        for at, played in _tempos(piece, every_tempo)
    }


def _tempos(piece: Piece, every_tempo: bool) -> Iterator[tuple[str, Piece]]:
    """What the name ends with, and the piece at that tempo."""
    if every_tempo and piece.climb:
        yield from ((f"-{bpm:03}", piece.at(bpm)) for bpm in piece.climb)
    else:
        yield "", piece


def in_folders(chapters: Mapping[str, Mapping[str, bytes]]) -> Mapping[str, bytes]:
    """The files of the chapters, which are given by name, each in a folder of its own."""
    files: dict[str, bytes] = {}
    taken: set[str] = set()
    for chapter, its_files in chapters.items():
        folder = _free(slug(chapter), taken)
        taken.add(folder)
        files |= {f"{folder}/{name}": content for name, content in its_files.items()}
    return files


def _free(name: str, taken: Iterable[str]) -> str:
    """The name, or with a number if a chapter before has it."""
    number, free = 1, name
    while free in taken:
        number += 1
        free = f"{name}-{number}"
    return free


def write_files(folder: Path, files: Mapping[str, bytes]) -> tuple[str, ...]:
    """Names of the files that were written now. Files of an earlier build that the book has no more are deleted."""
    changed = [name for name, content in files.items() if _content(folder / name) != content]
    for name in changed:
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(files[name])
    for old in folder.glob("*/[0-9][0-9]*-*.mid"):
        if old.relative_to(folder).as_posix() not in files:
            old.unlink()
    return tuple(changed)


def _content(file: Path) -> bytes | None:
    return file.read_bytes() if file.is_file() else None
