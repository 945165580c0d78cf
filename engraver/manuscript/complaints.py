"""What LilyPond says of a book, told in the author's places: its complaints in, problems of the YAML files out."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from engraver import definition
from engraver.definition import BookDefinition, ChapterDefinition
from engraver.engraving import Complaint, Engraved
from engraver.errors import EngravingError, Position, Problem
from engraver.style import Style

Results = Mapping[str, Sequence[Engraved]]  # by the name of the source: of a long chapter there are several


def refuse(book: BookDefinition, results: Results) -> None:
    """Raises one EngravingError with every source that LilyPond refused, and what it said of it."""
    chapters = {chapter.name: chapter for chapter in book.chapters}
    problems: list[Problem] = []
    for name, result in _each(results):
        if result.failure:
            place = title_place(chapters.get(name))
            problems.append(Problem(place, f"{name} could not be engraved: {result.failure}"))
            problems.extend(_problems(name, chapters.get(name), result, book.style))
    if problems:
        raise EngravingError(problems)


def warnings(book: BookDefinition, results: Results) -> tuple[Problem, ...]:
    """Of what was engraved now and of what was engraved earlier; what is said of many pages is told once."""
    chapters = {chapter.name: chapter for chapter in book.chapters}
    told = (p for name, result in _each(results) for p in _problems(name, chapters.get(name), result, book.style))
    return tuple(dict.fromkeys(told))


def _each(results: Results) -> Iterator[tuple[str, Engraved]]:
    return ((name, part) for name, parts in results.items() for part in parts)


def title_place(chapter: ChapterDefinition | None) -> Position | None:
    """The place of a complaint about a chapter as a whole; none for the pages around the chapters."""
    return chapter.groove.position if chapter else None


def _problems(name: str, chapter: ChapterDefinition | None, result: Engraved, style: Style) -> list[Problem]:
    return [_problem(name, chapter, result, complaint, style) for complaint in result.complaints]


def _problem(
    name: str, chapter: ChapterDefinition | None, result: Engraved, complaint: Complaint, style: Style
) -> Problem:
    lines = result.job.text.split("\n")
    line = lines[complaint.line - 1] if 0 < complaint.line <= len(lines) and not complaint.file else ""
    told = _in_the_music(chapter, line, complaint, style) if chapter and line else None
    as_said = Problem(title_place(chapter), f"{name}: LilyPond says: {complaint}")
    return told or _missing_sign(chapter, complaint) or as_said


def _missing_sign(chapter: ChapterDefinition | None, complaint: Complaint) -> Problem | None:
    """None if the complaint is of something else."""
    found = re.match(r"no glyph for character U\+([0-9A-F]+) in font", complaint.message)
    if not found:
        return None
    message = f"the fonts do not have {chr(int(found[1], 16))} (U+{found[1]})"
    return Problem(
        title_place(chapter), message, "write something else, or name a font that has it in style.yaml, fonts:"
    )


def _in_the_music(chapter: ChapterDefinition, line: str, complaint: Complaint, style: Style) -> Problem | None:
    """None if the line is none of the music."""
    from engraver import lilypond  # loaded only for who needs it: most books have no such complaints
    from engraver.notation import voice_of

    origin = lilypond.origin(line)
    if origin is None:
        return None
    struck = definition.to_groove(chapter.groove).instruments
    lanes = [instrument for instrument in struck if voice_of(instrument, style) is origin.voice]
    place = definition.origin(chapter.groove, origin.span, lanes)
    bar = f"bar {origin.bar}" if origin.bar else "the pickup"
    return Problem(place, f"{origin.part}, {bar}, {origin.voice.value} voice: LilyPond says: {complaint.message}")
