"""A folder in, a `BookDefinition` out, or one error with every fault of every file, in order of place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import suppress
from dataclasses import fields, replace
from functools import cache
from pathlib import Path
from typing import Protocol, TypeVar

from engraver.book_words import BookWords
from engraver.definition.book_file import BookDefinition, BookFile, ChapterDefinition, Listing, PartDefinition
from engraver.definition.checks import check_groove
from engraver.definition.editions import editions_of
from engraver.definition.file_names import FileName
from engraver.definition.keys import Reading, Record, Rejected, Written, keys_of
from engraver.definition.schema import GrooveDefinition
from engraver.definition.source import Entries, parse, read_text
from engraver.definition.style_file import StyleFile, style_of
from engraver.errors import DefinitionError, Position, Problem, meant
from engraver.style import Style

File = TypeVar("File", bound=Written)


class ReadGroove(Protocol):
    """How a groove's file becomes a definition: by `parse_groove`, or from a memory of what that gave."""

    def __call__(self, text: str, path: Path, style: Style) -> GrooveDefinition: ...


def read(folder: Path, groove: ReadGroove | None = None) -> BookDefinition:
    """Raises one DefinitionError with all the problems of all files."""
    book, problems = _read_book(folder, groove or parse_groove)
    if book is None:
        raise DefinitionError(problems)
    return book


def check(folder: Path) -> tuple[Problem, ...]:
    """The faults that `read` would raise; none if the book can be made."""
    return _read_book(folder, parse_groove)[1]


def read_style(folder: Path) -> Style:
    """The style of a book's folder alone. Raises DefinitionError."""
    reading = Reading(Style())
    book = _read_file(folder / "book.yaml", BookFile, Reading(Style())) if (folder / "book.yaml").exists() else None
    style = _style(folder / "style.yaml", book.language if book else "", reading)
    _raise_all(reading.problems)
    return style


def read_groove(path: Path, style: Style) -> GrooveDefinition:
    return parse_groove(read_text(path), path, style)


def parse_groove(text: str, path: Path = Path("groove.yaml"), style: Style | None = None) -> GrooveDefinition:
    """The definition in a text; ``path`` is for messages and the groove's name. Raises DefinitionError."""
    reading = Reading(style or _standard_style())
    groove = _groove(text, path, reading)
    _raise_all(reading.problems)
    assert groove is not None
    return groove


@cache
def _standard_style() -> Style:
    return Style()


def _raise_all(problems: Iterable[Problem]) -> None:
    if ordered := _in_order(problems):
        raise DefinitionError(ordered)


def _in_order(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """By place; found in any order, and each once."""
    unique = dict.fromkeys(problems)
    return tuple(sorted(unique, key=lambda problem: (str(p.path), p.line, p.column) if (p := problem.position) else ()))


def _groove(text: str, path: Path, reading: Reading) -> GrooveDefinition | None:
    groove = _file(text, path, GrooveDefinition, reading)
    if groove is None:
        return None
    groove = replace(groove, path=path)
    reading.problems.extend(check_groove(groove, reading.style, reading.unsound))
    return groove


def _file(text: str, path: Path, record: type[File], reading: Reading) -> File | None:
    """The record in a file; None if it cannot even be begun, with the reasons noted."""
    try:
        document = parse(text, path)
        reading.problems.extend(document.repeated)
        node = document.root or Entries((), Position(path, 1, 1))
        read: File = Record(record).read_file(node, reading)
        return read
    except DefinitionError as error:
        reading.problems.extend(error.problems)
    except Rejected:
        pass
    return None


def _read_file(path: Path, record: type[File], reading: Reading) -> File | None:
    try:
        return _file(read_text(path), path, record, reading)
    except DefinitionError as error:
        reading.problems.extend(error.problems)
        return None


def _style(path: Path, language: str, reading: Reading) -> Style:
    """``language`` is that of the book, for a style that names none."""
    if path.exists() or path.is_symlink():
        file = _read_file(path, StyleFile, reading)
    else:
        file = _file("", path, StyleFile, reading)
    return style_of(file, reading, language) if file else Style()


NO_BOOK = "name the folder that holds book.yaml; engraver new FOLDER makes one"


def _read_book(folder: Path, groove: ReadGroove) -> tuple[BookDefinition | None, tuple[Problem, ...]]:
    if not folder.is_dir():
        missing = f"{folder} is a file, not a folder" if folder.exists() else f"there is no folder {folder}"
        return None, (Problem(None, missing, NO_BOOK),)
    reading = Reading(Style())
    file = _book_file(folder / "book.yaml", reading)
    listing = file or _listing(folder / "book.yaml")
    style = _style(folder / "style.yaml", file.language if file else "", reading)
    paths = dict(_groove_paths(folder / "grooves", reading))
    names = (
        list(_chapter_names(listing, paths, folder, reading))
        if listing
        else [FileName(name, _top(path)) for name, path in paths.items()]
    )
    chapters = dict(_chapters(names, paths, style, reading, groove))
    editions = editions_of(file.editions, style.paper, [name.name for name in names], reading) if file else ()
    licence = _licence(file.licence, folder, reading) if file and file.licence else ""
    problems = _in_order(reading.problems)
    if problems or file is None:
        return None, problems
    return replace(_book(file, folder, style, names, chapters), editions=editions, licence=licence), ()


def _book_file(path: Path, reading: Reading) -> BookFile | None:
    if path.exists() or path.is_symlink():
        return _read_file(path, BookFile, reading)
    reading.reject(_top(path), "there is no such file", NO_BOOK)
    return None


def _licence(name: FileName, folder: Path, reading: Reading) -> str:
    try:
        return read_text(folder / name.name)
    except DefinitionError:
        reading.reject(name.position, f'"{name.name}" cannot be read', "put a UTF-8 text of this name beside book.yaml")
        return ""


def _listing(path: Path) -> Listing | None:
    """What a faulty book.yaml still says of its chapters; its faults are noted already."""
    with suppress(DefinitionError, Rejected):
        root = parse(read_text(path), path).root
        if isinstance(root, Entries):
            known = {each.name for each in keys_of(Listing)}
            entries = tuple(entry for entry in root.entries if entry[0].text in known)
            listing: Listing = Record(Listing).read(replace(root, entries=entries), Reading(Style()))
            return listing
    return None


def _top(path: Path) -> Position:
    return Position(path, 1, 1)


def _groove_paths(folder: Path, reading: Reading) -> Iterator[tuple[str, Path]]:
    """The groove files under their names."""
    for path in sorted((*folder.glob("*.yaml"), *folder.glob("*.yml"))):
        if path.suffix == ".yml":
            reading.reject(_top(path), "a groove file ends in .yaml", f"call it {path.stem}.yaml")
        elif path.name.isprintable():
            yield path.stem, path
        else:
            name = path.name.encode("unicode_escape").decode()
            reading.reject(Position(folder, 1, 1), f'the file name "{name}" cannot be printed', "give it another name")


def _chapter_names(file: Listing, paths: dict[str, Path], folder: Path, reading: Reading) -> Iterator[FileName]:
    """The chapters in order: those named, or all there are."""
    if file.chapters and file.parts:
        reading.reject(file.at("parts"), "a book has chapters or parts, not both", "put the chapters into the parts")
    seen: dict[str, FileName] = {}
    for name in file.file_names:
        if name.name not in paths:
            reading.problems.append(_not_found(name, paths))
        elif name.name in seen:
            line = seen[name.name].position.line
            message = f'"{name.name}" is already a chapter in line {line}'
            reading.problems.append(Problem(name.position, message, "name each groove once"))
        else:
            seen[name.name] = name
            yield name
    if file.cover and file.cover.name not in seen and (file.chapters or file.parts):
        reading.problems.append(_not_found(file.cover, seen, "chapter"))
    if not file.chapters and not file.parts and reading.unsound.isdisjoint({"chapters", "parts"}):
        if not paths:
            place = Position(folder / "grooves", 1, 1)
            reading.reject(place, "there is no groove in this folder", "add a file such as grooves/first.yaml")
        elif file.cover and file.cover.name not in paths:
            reading.problems.append(_not_found(file.cover, paths))
        yield from (FileName(name, _top(path)) for name, path in paths.items())


def _not_found(name: FileName, known: Iterable[str], noun: str = "groove") -> Problem:
    hint = meant(name.name, known, "name a file of the folder grooves, without .yaml")
    return Problem(name.position, f'there is no {noun} "{name.name}"', hint)


def _chapters(
    names: Iterable[FileName], paths: dict[str, Path], style: Style, reading: Reading, groove: ReadGroove
) -> Iterator[tuple[str, ChapterDefinition]]:
    for name in names:
        path = paths[name.name]
        try:
            yield name.name, ChapterDefinition(groove(read_text(path), path, style))
        except DefinitionError as error:
            reading.problems.extend(error.problems)


def _book(
    file: BookFile, folder: Path, style: Style, names: list[FileName], chapters: dict[str, ChapterDefinition]
) -> BookDefinition:
    said = {each.name: getattr(file, each.name) for each in fields(BookWords)}
    return BookDefinition(
        **{**said, "language": file.language or style.language},
        folder=folder,
        style=style,
        chapters=tuple(chapters[name.name] for name in names),
        parts=tuple(PartDefinition(p.title, tuple(chapters[n.name] for n in p.chapters), p.text) for p in file.parts),
        cover=chapters[file.cover.name] if file.cover else chapters[names[0].name],
        front=file.front,
        back=file.back,
    )
